// What must hold of the order of any sheet, tried on the samples and on what is left of them when lines are taken away.
import { readFileSync, readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { orderCsv } from "../../server/reports/order/csv.ts";
import { orderJson } from "../../server/reports/order/json.ts";
import { orderTable } from "../../server/reports/order/table.ts";
import { sampleName, sampled } from "../sampled.ts";
import { filesFrom, orderHtml, orderMarkdown } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

const root = new URL("../../samples/", import.meta.url);

/** Each sample folder: its texts by name. */
const samples = readdirSync(root, { withFileTypes: true })
  .filter((it) => it.isDirectory())
  .map((it) => {
    const folder = new URL(`${it.name}/`, root);
    const names = readdirSync(folder).filter((name) => name.endsWith(".jobsheet"));
    return { name: it.name, texts: Object.fromEntries(names.map((name) => [name, readFileSync(new URL(name, folder), "utf8")])) };
  });

/** The sheets that are jobs. */
function jobsOf(texts: Readonly<Record<string, string>>): string[] {
  return Object.keys(texts).filter((name) => /^sheet\b/m.test(texts[name] ?? ""));
}

test("there are samples, and something is ordered for one of them", () => {
  expect(samples.length).toBeGreaterThan(0);
  expect(samples.some(({ texts }) => partsOrder(filesFrom(texts), jobsOf(texts)).lines.some((row) => row.standing === "to order"))).toBe(true);
});

test.each(samples)("$name: every row has a reason, and without the lines that it names the row is gone", ({ texts }) => {
  for (const job of jobsOf(texts)) {
    const report = partsOrder(filesFrom(texts), [job]);
    for (const row of report.lines) {
      expect(row.why.length).toBeGreaterThan(0);
      const left = { ...texts };
      for (const file of new Set(row.why.map((it) => it.file))) {
        const lines = (left[file] ?? "").split("\n");
        // Emptied, not taken out, so that the other lines keep their numbers. A head goes with its details: the finding above must not inherit them.
        for (const it of row.why) {
          if (it.file !== file) continue;
          const head = /^\p{L}/u.test(lines[it.line - 1] ?? "");
          lines[it.line - 1] = "";
          for (let i = it.line; head && i < lines.length && !/^\p{L}/u.test(lines[i] as string); i++) lines[i] = "";
        }
        left[file] = lines.join("\n");
      }
      const after = partsOrder(filesFrom(left), [job]);
      expect([row.item, after.lines.find((it) => it.item === row.item)?.why]).toEqual([row.item, undefined]);
    }
  }
});

test.each(samples)("$name: the sum of the rows is the goods of the suppliers, to the penny", ({ texts }) => {
  const report = partsOrder(filesFrom(texts), jobsOf(texts));
  for (const it of report.suppliers) {
    const pence = (amount: string | null) => BigInt((amount ?? "0").replace(".", ""));
    const rows = report.lines.filter((row) => row.supplier === it.supplier && row.currency === it.currency);
    expect(rows.reduce((sum, row) => sum + pence(row.total), 0n)).toBe(pence(it.goods));
    expect(pence(it.goods) + pence(it.freight) + pence(it.duty)).toBe(pence(it.total));
  }
});

test.each(samples)(`$name: a sheet half typed gives an order, and every drawing draws it (${sampleName})`, ({ texts }) => {
  for (const job of jobsOf(texts)) {
    const text = texts[job] as string;
    const ends = Array.from({ length: Math.ceil(text.length / 97) }, (_, i) => i * 97);
    for (const end of sampled(ends, 1)) {
      const report = partsOrder(filesFrom({ ...texts, [job]: text.slice(0, end) }), [job]);
      for (const draw of [orderTable, orderMarkdown, orderCsv, orderHtml, orderJson]) expect(draw(report).length).toBeGreaterThan(0);
    }
  }
});
