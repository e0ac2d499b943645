// A released sheet is released because of every line in it: take one away that the release needs, and it is not.
import { readFileSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { checkFile } from "../../server/rules/check.ts";
import { releaseReport } from "../../server/reports/release.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const released = [...sheetsIn(join(root, "samples")), ...sheetsIn(join(root, "tests/sheets"))].filter((path) => {
  const text = readFileSync(path, "utf8");
  return /^release /m.test(text) && !/^#\^* *error release-blocked/m.test(text) && !text.includes("release-blocked");
});

/** Lines that a practitioner wrote and the release does not need, judged by hand: read though nobody asked, said twice, or a stage of what follows. */
const notNeeded: Readonly<Record<string, readonly string[]>> = {
  // Bores found inside and not worked on; the bearing's own size is of nothing here. A self-locking nut is new by either of two lines.
  "tests/sheets/practitioners/bevel.jobsheet": ["inner 46.995 mm", "outer 46.996 mm", "inner 47.011 mm", "outer 47.013 mm", "fit box-nut new"],
  // A look that no part is behind.
  "tests/sheets/practitioners/gearbox.jobsheet": ['seen tight-box final good "dry"'],
  // The same, and what was inside when found and not worked on.
  "tests/sheets/practitioners/plain-bearings.jobsheet": [
    "seen guard-shuts final good",
    "back 0.0015 in",
    "front chuck-end 1.4984 in",
    "front tail-end 1.4986 in",
  ],
  // Run up twice, in two steps, the last time after a trial: either leaves it run up. The run-out was inside when found.
  "tests/sheets/practitioners/headstock.jobsheet": ["tighten spindle-nut", "0.003 mm"],
  // Done up by the next line, which puts on what is at hand.
  "tests/sheets/practitioners/hubs.jobsheet": ["fit wheel-nut 4 left"],
  // Inside when found, and not worked on.
  "tests/sheets/practitioners/winch.jobsheet": [
    "starboard 3.009 in",
    "port inboard 2.9955 in",
    "port outboard 2.9952 in",
    "starboard inboard 2.9958 in",
    "starboard outboard 2.9956 in",
  ],
};

describe("a released sheet", () => {
  test("there are some", () => expect(released.length).toBeGreaterThan(1));

  for (const path of released) {
    const text = readFileSync(path, "utf8");
    const name = path.slice(root.length);

    test(`${name}: is released, and the report says so`, () => {
      expect(blocked(path, text)).toBe(false);
      expect(releaseReport(filesOf(path, text), base(path))?.released).toBe(true);
    });

    test(`${name}: without any one line that it needs, it is not`, () => {
      const lines = text.split("\n");
      const spare = notNeeded[name] ?? [];
      const passed = needed(lines).filter((i) => !spare.includes((lines[i] as string).trim()) && !blocked(path, lines.filter((_, k) => k !== i).join("\n")));
      expect(passed.map((i) => `${i + 1}: ${lines[i]}`)).toEqual([]);
    });

    test(`${name}: with any one step only planned, it is not`, () => {
      expect(blocked(path, `${text}\nstep one-more "One more"\n  chock\n`)).toBe(true);
      const lines = text.split("\n");
      const passed = lines.flatMap((line, i) => (/^\s*done\b/.test(line) && !blocked(path, lines.filter((_, k) => k !== i).join("\n")) ? [i + 1] : []));
      expect(passed).toEqual([]);
    });

    test(`${name}: no prefix of it throws`, () => {
      for (let end = 0; end <= text.length; end += 97) expect(() => checkFile(filesOf(path, text.slice(0, end)), base(path))).not.toThrow();
    });
  }
});

/** Indentation means nothing: the words say where an entry begins. */
const heads =
  /^(sheet|places|use|day|rate|part|fastener|fluid|limit|check|gauge|hazard|step|measure|seen|finding|question|concession|pause|supplier|offer|stock|order|need|shims|release)\b/;

/** Lines that the release needs: what locks, tightens, fits, fills, bleeds, restores, and each final reading or look. An earlier torque stage is none. */
function needed(lines: readonly string[]): number[] {
  let head = "";
  return lines.flatMap((line, i) => {
    if (heads.test(line)) head = line;
    if (/^seen .*\bfinal\b/.test(line)) return [i];
    if (/^measure .*\bfinal\b/.test(head) && /^\s*[^#]*\d/.test(line) && !heads.test(line) && !/^\s*(note|photo|accept)\b/.test(line)) return [i];
    const action = /^\s*(lock|tighten|fit|fill|bleed|restore)\s+(\S+)/.exec(line);
    if (action === null || !head.startsWith("step") || /\bfor now\b/.test(line)) return [];
    // What is done up is put on by it: `fit` and then `tighten` says it twice.
    if (action[1] === "fit" && lines.slice(i + 1).some((later) => new RegExp(`^\\s*tighten\\s+${action[2]}\\b`).test(later)) && !/\s(\d+|new)\b/.test(line))
      return [];
    return action[1] === "tighten" && stagedIn(lines, i, action[2] as string) ? [] : [i];
  });
}

/** Whether the same fastener is tightened again, before or after, in the same step: then the one line is a stage of the other. */
function stagedIn(lines: readonly string[], at: number, name: string): boolean {
  let from = at;
  while (from > 0 && !heads.test(lines[from] as string)) from--;
  let to = at + 1;
  while (to < lines.length && !heads.test(lines[to] as string)) to++;
  return lines.slice(from, to).filter((line) => new RegExp(`^\\s*tighten\\s+${name}\\b`).test(line)).length > 1;
}

function blocked(path: string, text: string): boolean {
  return checkFile(filesOf(path, text), base(path)).some((it) => it.rule === "release-blocked");
}

function filesOf(path: string, text: string): Files {
  return {
    read(asked) {
      if (asked === base(path)) return readSheet(text);
      try {
        return readSheet(readFileSync(join(dirname(path), asked), "utf8"));
      } catch {
        return "missing";
      }
    },
  };
}

function base(path: string): string {
  return path.slice(dirname(path).length + 1);
}

function sheetsIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".jobsheet"))
    .map((name) => join(folder, name))
    .sort();
}
