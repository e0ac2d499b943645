// Files that are laid over others: what is read in slices is what is read at once.
import { linkSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { runThrough } from "../../grammar/slices.ts";
import { diskFiles } from "../../server/disk/files.ts";
import { type Files, pricesAt, sheetAt } from "../../server/model/files.ts";
import { neighbourhood } from "../../server/disk/list-sheets.ts";
import { checkFile } from "../../server/rules/check.ts";
import { buildJob } from "../in-one-go.ts";

test("a sheet and a price list that are laid over those of the disk come before them, in slices too", () => {
  const folder = mkdtempSync(join(tmpdir(), "splitpin-files-"));
  try {
    writeFileSync(join(folder, "a.jobsheet"), 'part old "Old"\n');
    writeFileSync(join(folder, "l.csv"), "number,price\n");
    const files = diskFiles([folder]);
    expect(runThrough(sheetAt(files, "a.jobsheet"))).toBe(files.read("a.jobsheet"));
    expect(runThrough(pricesAt(files, "l.csv"))).toBe(files.prices("l.csv"));
    const laid: Files = { ...files, read: () => readSheet('part laid "Laid"\n'), prices: () => ({ text: "laid" }) };
    expect([...(buildJob(laid, "a.jobsheet")?.things.keys() ?? [])]).toEqual(["laid"]);
    expect(runThrough(pricesAt(laid, "l.csv"))).toEqual({ text: "laid" });
    expect([...(buildJob({ ...files }, "a.jobsheet")?.things.keys() ?? [])]).toEqual(["old"]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test("of a folder in which more lies than is searched for sheets nobody says that no other sheet is open, and of one that was searched it is said", () => {
  const folder = mkdtempSync(join(tmpdir(), "splitpin-many-"));
  try {
    mkdirSync(join(folder, "photos"));
    writeFileSync(join(folder, "a.jobsheet"), 'sheet "A"\n  machine "Trap one"\nrelease by "X" 2026-05-02\n  test "t"\n');
    // With the sheet and the folder of photos as many as are looked at.
    // Names of one empty file: another name takes less than another file.
    const [one, ...others] = Array.from({ length: neighbourhood - 2 }, (_, i) => join(folder, "photos", `${i + 2}.jpg`)) as [string, ...string[]];
    writeFileSync(one, "");
    for (const it of others) linkSync(one, it);
    const said = () => checkFile(diskFiles([folder]), "a.jobsheet").filter((it) => it.rule === "other-sheet-open");
    expect(said()).toEqual([]);
    writeFileSync(join(folder, "photos", "one-more.jpg"), "");
    expect(said().map((it) => [it.severity, it.message])).toEqual([["error", expect.stringContaining("Not all that lies in this folder was searched")]]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
