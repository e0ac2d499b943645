// Every sample and every hand-answered sheet says what is expected of it, and nothing else: by its comments, or for a sample by those of its copy in tests/expect.
// UPDATE_EXPECT=1 rewrites the expectations from what the checker says (read the difference); UPDATE_EXPECT=columns moves carets only.
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { checkFile } from "../../server/rules/check.ts";
import { sheetAt } from "../reread.ts";
import { type Said, compareExpectations, readExpectations, realignExpectations, rewriteExpectations, spellExpectation } from "./expectations.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const update = process.env.UPDATE_EXPECT ?? "";

describe("the form of an expectation", () => {
  const sheet = [
    "finding hub-nut right",
    "  is loose, unlocked",
    "#    ^^^^^ error found-loose",
    "#           ^^^^^^^^ error locking-absent (fix)",
    "decision reuse",
    "",
  ].join("\n");
  const loose: Said = { line: 1, from: 5, to: 10, severity: "error", rule: "found-loose" };
  const absent: Said = { line: 1, from: 12, to: 20, severity: "error", rule: "locking-absent", fixes: [{}] };

  it("speaks of the nearest line above that is no expectation", () => {
    expect(readExpectations(sheet).expected).toEqual([
      { line: 1, from: 5, to: 10, severity: "error", rule: "found-loose", fix: false, writtenAt: 2 },
      { line: 1, from: 12, to: 20, severity: "error", rule: "locking-absent", fix: true, writtenAt: 3 },
    ]);
  });

  it("counts the # as the first caret of a squiggle from column 0", () => {
    const [one] = readExpectations("part\n#^^^ error syntax").expected;
    expect(one).toMatchObject({ line: 0, from: 0, to: 4 });
    expect(spellExpectation({ line: 0, from: 0, to: 4, severity: "error", rule: "syntax" }, false)).toBe("#^^^ error syntax");
    for (const to of [0, 1, 2])
      expect(compareExpectations("p\n#^ error syntax", [{ line: 0, from: 0, to, severity: "error", rule: "syntax" }]).same).toBe(true);
    expect(compareExpectations("part\n#^ error syntax", [{ line: 0, from: 0, to: 3, severity: "error", rule: "syntax" }]).same).toBe(false);
  });

  it("counts columns in UTF-16, so that an emoji takes two carets", () => {
    const [one] = readExpectations('note "🔩" x\n#         ^ error syntax').expected;
    expect(one?.from).toBe('note "🔩" '.length);
  });

  it("passes what is the same, in any order", () => {
    expect(compareExpectations(sheet, [absent, loose])).toEqual({ same: true, report: "" });
  });

  it("fails on what is missing, what is unexpected, another severity, other columns and a fix that isn't offered", () => {
    expect(compareExpectations(sheet, [loose]).report).toMatch(/missing.*locking-absent/);
    expect(compareExpectations(sheet, [loose, absent, { ...loose, line: 4, from: 0, to: 8, message: "What is wrong." }]).report).toMatch(
      /:5: unexpected.*found-loose.*\n.*What is wrong\./,
    );
    expect(compareExpectations(sheet, [{ ...loose, severity: "warning" }, absent]).report).toMatch(/missing.*said as warning/);
    expect(compareExpectations(sheet, [{ ...loose, to: 9 }, absent]).report).toMatch(/missing.*said at columns 5 to 9, “loos”/);
    expect(compareExpectations(sheet, [loose, { ...absent, fixes: [] }]).report).toMatch(/no fix.*locking-absent/);
    expect(compareExpectations("# a comment\nday 2026-01-01\n", [{ ...loose, line: 1 }]).same).toBe(false);
  });

  it("counts once what is said twice of one place", () => {
    expect(compareExpectations(sheet, [loose, loose, absent, { ...absent, fixes: [] }]).same).toBe(true);
  });

  it("fails on carets that can't be read, or that stand above every line", () => {
    expect(compareExpectations("day 2026-01-01\n#   ^^^ eror syntax", []).report).toMatch(/:2: an expectation that can't be read/);
    expect(compareExpectations("#   ^^^ error syntax\nday 2026-01-01", []).same).toBe(false);
  });

  it("takes an ordinary comment for no expectation", () => {
    expect(readExpectations("# loose ^ here\npart hub # ^^^ error x\n  # ^^ error x").expected).toEqual([]);
  });

  it("rewrites a sheet to what was said, and then it compares equal", () => {
    for (const lineBreak of ["\n", "\r\n"]) {
      const text = sheet.replaceAll("\n", lineBreak);
      // Lines are those of the text that was checked: its expectations are lines of it.
      const said = [absent, { ...loose, line: 4, from: 0, to: 8, severity: "warning" as const }];
      const written = rewriteExpectations(text, said);
      expect(written).toBe(
        [
          "finding hub-nut right",
          "  is loose, unlocked",
          "#           ^^^^^^^^ error locking-absent (fix)",
          "decision reuse",
          "#^^^^^^^ warning found-loose",
          "",
        ].join(lineBreak),
      );
      expect(rewriteExpectations(written, [])).toBe(["finding hub-nut right", "  is loose, unlocked", "decision reuse", ""].join(lineBreak));
    }
    expect(rewriteExpectations("day\n#^^ error syntax", [])).toBe("day");
    expect(rewriteExpectations("day", [{ ...loose, line: 0, from: 0, to: 3 }])).toBe("day\n#^^ error found-loose");
  });

  it("moves carets only where rule, severity and number agree", () => {
    const moved = realignExpectations(sheet, [
      { ...loose, from: 2, to: 4 },
      { ...absent, severity: "warning", from: 2, to: 4 },
    ]);
    expect(moved).toBe(
      ["finding hub-nut right", "  is loose, unlocked", "# ^^ error found-loose", "#           ^^^^^^^^ error locking-absent (fix)", "decision reuse", ""].join(
        "\n",
      ),
    );
  });
});

// The workspace of a sheet is its folder: the first one below `samples` or `tests/sheets`, as somebody would open it in an editor.
const folders = ["samples", "tests/sheets"].flatMap((above) =>
  !existsSync(join(root, above))
    ? []
    : readdirSync(join(root, above))
        .map((name) => `${above}/${name}`)
        .filter((path) => statSync(join(root, path)).isDirectory() && sheetsBelow(join(root, path)).length > 0),
);

describe.each(folders)("%s", (folder) => {
  const paths = sheetsBelow(join(root, folder));
  const at = (path: string) => annotated(folder, path);
  const files: Files = {
    // Read once: what a sheet says of the others of its machine is worked out once for each of them then, and not for each pair.
    read: (path) => (update === "" ? sheetAt(at(path)) : existsSync(at(path)) ? readSheet(readFileSync(at(path), "utf8")) : "missing"),
    jobsheets: () => paths,
  };

  it.each(paths)("%s", (path) => {
    const text = readFileSync(at(path), "utf8");
    const said = checkFile(files, path);
    if (update === "1") writeFileSync(at(path), rewriteExpectations(text, said));
    if (update === "columns") writeFileSync(at(path), realignExpectations(text, said));
    const now = update === "" ? text : readFileSync(at(path), "utf8");
    // A sample is as a practitioner would have it: what is expected of it stands in a copy of it.
    if (at(path) !== join(root, folder, path)) expect(rewriteExpectations(now, [])).toBe(readFileSync(join(root, folder, path), "utf8"));
    expect(
      said.filter((one) => one.file !== path),
      "what is said of a sheet stands in that sheet",
    ).toEqual([]);
    const { report } = compareExpectations(now, update === "" ? said : checkFile(files, path), `${folder}/${path}`);
    expect(report, report).toBe("");
  });
});

it("no sample holds an expectation, and each copy is of a sample", () => {
  const copies = sheetsBelow(join(root, "tests/expect/samples"));
  expect(copies.length).toBeGreaterThanOrEqual(5);
  for (const path of sheetsBelow(join(root, "samples"))) {
    const text = readFileSync(join(root, "samples", path), "utf8");
    expect(rewriteExpectations(text, []), path).toBe(text);
  }
  for (const path of copies) expect(existsSync(join(root, "samples", path)), path).toBe(true);
});

it("finds the samples and the hand-answered sheets", () => {
  expect(folders.filter((folder) => folder.startsWith("samples/")).length).toBeGreaterThanOrEqual(2);
  expect(folders.filter((folder) => folder.startsWith("tests/sheets/")).length).toBeGreaterThanOrEqual(3);
});

/** Where a sheet stands with what is expected of it. */
function annotated(folder: string, path: string): string {
  const copy = join(root, "tests/expect", folder, path);
  return existsSync(copy) ? copy : join(root, folder, path);
}

function sheetsBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".jobsheet"))
    .map((path) => relative(folder, join(folder, path)).split(sep).join("/"))
    .sort();
}
