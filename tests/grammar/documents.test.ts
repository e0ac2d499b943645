// What a document shows of a sheet is what the built program says of it: each block of `says` behind a sheet, and each line of the index by task.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { splitpin } from "../cli/desk.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "splitpin-documents-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const pages = ["README.md", "grammar/REFERENCE.md"].map((name) => ({
  name,
  text: readFileSync(fileURLToPath(new URL(`../../${name}`, import.meta.url)), "utf8"),
}));

const shown = pages.flatMap(({ name, text }) =>
  [...text.matchAll(/^```jobsheet\n([\s\S]*?)^```\n+```says\n([\s\S]*?)^```$/gm)].map((it, i) => ({
    name,
    i,
    sheet: it[1] as string,
    says: (it[2] as string).trimEnd().split("\n"),
  })),
);

describe("what a page says that is said", () => {
  test("there are such blocks", () => expect(shown.length).toBeGreaterThan(2));
  test.each(shown)("$name, block $i", async ({ sheet, says }) => {
    expect(await said(sheet)).toEqual(says);
  });
});

describe("the first sheet, finished as the page has it", () => {
  const page = pages[1]?.text ?? "";
  const sheets = [...page.matchAll(/^```jobsheet\n([\s\S]*?)^```$/gm)].map((it) => it[1] as string);
  test("is released", async () => {
    const [, declared, end] = sheets as [string, string, string];
    const done = `${declared.replace("  lock hub-nut right new\n", "  lock hub-nut right new\n  done 2026-05-09\n")}\n${end}`;
    expect(done).toContain("done 2026-05-09");
    expect((await said(done)).filter((it) => !it.includes(", hint: "))).toEqual([]);
    expect(await status(done)).toBe(0);
    for (const gone of ["  lock hub-nut right new\n", end.split("\nrelease")[0] as string]) expect(await status(done.replace(gone, ""))).toBe(1);
  });
});

/** Where a line of the index goes, by its first word. */
const around: Readonly<Record<string, string>> = {
  finding: "",
  received: 'order "R-1" to weir\n  status placed\n  item hub-seal 2\n',
  work: 'order "R-1" to weir\n  status sent 2026-05-01\n',
  worn: 'limit float "Float"\n',
  again: "limit float\nmeasure float found\n",
  concession: "",
  pause: "",
  recheck: 'release by "J. Harrow"\n',
};

describe("the index by task", () => {
  const table = /## How do I write that\n([\s\S]*?)\n## /.exec(pages[1]?.text ?? "")?.[1] ?? "";
  const rows = table.split("\n").filter((it) => it.startsWith("| ") && it.includes("`"));
  test("has its rows", () => expect(rows.length).toBeGreaterThan(15));
  test.each(rows)("%s", async (row) => {
    const lines = [...(row.split("|")[2] as string).matchAll(/`([^`]+)`/g)].map((it) => it[1] as string).filter((it) => it.includes(" "));
    // Together where one is written below the other.
    const finding = lines[0]?.startsWith("finding ") ? [lines.join("\n  ")] : lines;
    for (const line of finding) {
      const head = around[line.split(" ")[0] as string] ?? 'step s "S"\n';
      const faults = (await said(`places side left, right\n${head}${head === "" ? "" : "  "}${line}\n`)).filter(
        (it) => /can't|isn't a|wanted here|missing after|Put quotes|One line/.test(it) && it.includes(", error: "),
      );
      expect(faults).toEqual([]);
    }
  });
});

async function said(sheet: string): Promise<string[]> {
  writeFileSync(join(folder, "hub.jobsheet"), sheet);
  const { out } = await splitpin(["check", "hub.jobsheet", "--format", "json"], folder);
  const { diagnostics } = JSON.parse(out) as { diagnostics: readonly { line: number; severity: string; message: string }[] };
  return diagnostics.map((it) => `line ${it.line}, ${it.severity}: ${it.message}`);
}

async function status(sheet: string): Promise<number> {
  writeFileSync(join(folder, "hub.jobsheet"), sheet);
  return (await splitpin(["release", "hub.jobsheet"], folder)).code;
}
