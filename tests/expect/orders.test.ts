// The parts order of every sheet that has an answer worked out by hand beside it: `NAME.order.json` for `NAME.jobsheet`.
// Of a row, what the answer states is compared. Where the answer has no `only`, rows that it doesn't name are differences too.
import { readFileSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import type { Files } from "../../server/model/files.ts";
import { sheetAt } from "../reread.ts";
import { partsOrder } from "../in-one-go.ts";

interface Answer {
  readonly lines: readonly { readonly item: string; readonly [key: string]: string | null }[];
  readonly surplus?: readonly object[];
  readonly waiting?: readonly object[];
  readonly suppliers?: readonly object[];
  /** Why some rows are left out. */
  readonly only?: string;
}

const root = fileURLToPath(new URL("../../", import.meta.url));
const answers = ["tests/expect/samples", "tests/sheets"].flatMap((above) =>
  readdirSync(join(root, above), { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".order.json"))
    .map((path) => join(above, path)),
);

it.each(answers)("%s", (path) => {
  const answer = JSON.parse(readFileSync(join(root, path), "utf8")) as Answer;
  // The answer to a sample lies with the tests, the sample where samples are.
  const folder = join(root, dirname(path).replace(/^tests\/expect\//, ""));
  const files: Files = { read: (name) => sheetAt(join(folder, name)) };
  const sheet = path.slice(dirname(path).length + 1).replace(/\.order\.json$/, ".jobsheet");
  const report = partsOrder(files, [sheet]);

  const rows = report.lines.map((row) => ({
    ...row,
    need: withUnit(row.need, row.unit),
    stock: withUnit(row.stock, row.unit),
    onOrder: withUnit(row.onOrder, row.unit),
    toOrder: withUnit(row.toOrder, row.orderUnit),
  }));
  for (const expected of answer.lines) {
    const row = rows.find((one) => one.item === expected.item);
    expect(row, `a row for ${expected.item}`).toBeDefined();
    expect(row, expected.item).toMatchObject(expected);
  }
  if (answer.only === undefined) {
    const open = rows.filter((row) => row.need !== "0").map((row) => row.item);
    expect(open.sort()).toEqual(answer.lines.map((line) => line.item).sort());
  }
  const listed = [
    [answer.surplus, report.surplus],
    [answer.waiting, report.waiting],
    [answer.suppliers, report.suppliers],
  ] as const;
  for (const [expected, said] of listed) {
    if (expected === undefined) continue;
    expect(said).toHaveLength(expected.length);
    for (const [at, one] of expected.entries()) expect(said[at]).toMatchObject(one);
  }
});

it("finds the answers", () => {
  expect(answers.length).toBeGreaterThanOrEqual(5);
});

// A quantity as a person writes it; nothing has no unit.
function withUnit(figure: string | null, unit: string | null): string | null {
  return figure === null || unit === null || figure === "0" ? figure : `${figure} ${unit}`;
}
