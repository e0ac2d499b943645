// Completion: what is offered where, and above all that Enter behind a line that is written changes nothing of it.
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { completionsAt } from "../../server/features/completion.ts";
import type { Files } from "../../server/model/files.ts";
import { buildJob } from "../../server/model/job.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const sheets = ["samples", "tests/sheets"].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((it) => it.endsWith(".jobsheet"))
    .map((it) => `${folder}/${it}`),
);

const machine = `places side left, right
part hub "Hub"
  each side
part hub-seal "Hub seal"
fastener hub-nut "Hub nut"
limit end-float "End float"
  set 0.004 .. 0.008 in
step strip "Strip"
`;

/** What is offered where the bar stands in the last line. */
function offered(line: string, above = machine): string[] {
  const column = line.indexOf("|");
  const text = above + line.replace("|", "");
  const files: Files = {
    read: (path) => (path === "jobs/a.jobsheet" ? readSheet(text) : "missing"),
    jobsheets: () => ["jobs/a.jobsheet", "jobs/deep/hub.jobsheet", "axle.jobsheet"],
  };
  const job = buildJob(files, "jobs/a.jobsheet");
  return job === undefined ? [] : completionsAt(job, text.split("\n").length - 1, column).map((it) => it.label);
}

describe("every line of every sheet, typed to its end: Enter takes nothing from a list", () => {
  for (const path of sheets) {
    test(path, () => {
      const lines = readFileSync(join(root, path), "utf8").split("\n");
      const wrong: string[] = [];
      // The names of the whole sheet are known, so that more is offered than to one who types it from its head.
      const read = (it: string) => (existsSync(join(root, it)) ? readSheet(readFileSync(join(root, it), "utf8")) : "missing");
      const job = buildJob({ read }, path);
      if (job === undefined) throw new Error("no job");
      for (const [i, line] of lines.entries()) {
        const written = line.replace(/\s+$/, "");
        if (written === "") continue;
        const list = completionsAt(job, i, written.length);
        if (list.length > 0) wrong.push(`${i + 1}: ${written} → ${list.slice(0, 4).map((it) => it.label)}`);
      }
      expect(wrong).toEqual([]);
    });
  }
});

describe("a word that is whole stays as it is", () => {
  test.each([
    "fastener x\n  locked by split pin 5/32 x 1-1/4 in|",
    "fastener x\n  locked by self-locking nut|",
    "fastener x\n  locked by split pin|",
    'stock 1 "Shelf"|',
    "part x\n  each side|",
    "  undo hub-nut|",
    "  remove hub|",
    "  done|",
    "  tighten hub-nut to 45 lbf.ft|",
    "finding hub\n  is worn|",
    'finding hub\n  is worn "step of 10 thou"|',
    "  safe|",
  ])("%s", (line) => {
    const lines = line.split("\n");
    expect(offered(lines.at(-1) as string, `${machine}${lines.slice(0, -1).join("\n")}${lines.length > 1 ? "\n" : ""}`)).toEqual([]);
  });
});

describe("what may stand there, and nothing else", () => {
  test("names of the right kind, by what is typed of them", () => {
    expect(offered("  undo hub-n|")).toEqual(["hub-nut"]);
    expect(offered("  remove hub-|")).toEqual(["hub-seal"]);
    expect(offered("  remove h|")).toEqual(["hub", "hub-seal"]);
    expect(offered("  remove zz|")).toEqual([]);
  });
  test("behind a figure its unit, behind the unit nothing", () => {
    const units = offered("  tighten hub-nut to 45 |");
    expect(units).toContain("lbf.ft");
    expect(units).toContain("N.m");
    expect(units).not.toContain("hub");
    expect(offered("  tighten hub-nut to 45 lbf.|")).toContain("lbf.ft");
    expect(offered("  tighten hub-nut to 45 lbf.ft |")).toEqual([]);
  });
  test("a locking of two words from its first letter and from its first word, and behind it nothing but its size", () => {
    const above = `${machine}fastener x\n`;
    expect(offered("  locked by spl|", above)).toEqual(["split pin"]);
    expect(offered("  locked by split |", above)).toEqual(["pin"]);
    expect(offered("  locked by self-locking |", above)).toEqual(["nut"]);
    expect(offered("  locked by split pin |", above)).toEqual([]);
  });
  test("within quotes nothing, but for the sheets that may be used", () => {
    expect(offered('  note "h|', machine)).toEqual([]);
    expect(offered('use "|', machine)).toEqual(["deep/hub.jobsheet", "../axle.jobsheet"]);
    expect(offered('use "de|', machine)).toEqual(["deep/hub.jobsheet"]);
  });
  test("at the start of a line the details of its entry, and entries", () => {
    expect(offered("  und|")).toEqual(["under", "undo"].filter((it) => offered("  |").includes(it)).sort());
    expect(offered("fin|")).toEqual(["finding"]);
  });
});
