// A released sheet is released because of every line in it: take one away that the release needs, and it is not.
import { readFileSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { entryWords } from "../../grammar/words.ts";
import { checkFile } from "../../server/rules/check.ts";
import { filesAround } from "../reread.ts";
import { sampleName, sampled, thinned } from "../sampled.ts";
import { releaseReport } from "../in-one-go.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const released = [...sheetsIn(join(root, "samples")), ...sheetsIn(join(root, "tests/sheets"))].filter((path) => {
  const text = readFileSync(path, "utf8");
  return /^release /m.test(text) && !/^#\^* *error release-blocked/m.test(text) && !text.includes("release-blocked");
});

describe("a released sheet", () => {
  test("there are some", () => expect(released.length).toBeGreaterThan(1));

  // That none of them is said to be blocked, tests/expect holds of each.
  for (const path of thinned(released, 4)) {
    const text = readFileSync(path, "utf8");

    test(`${path.slice(root.length)}: is released, and the report says so`, () => {
      const files = filesAround(path, text);
      expect(checkFile(files, base(path)).some((it) => it.rule === "release-blocked")).toBe(false);
      expect(releaseReport(files, base(path))?.released).toBe(true);
    });
  }

  for (const path of thinned(released, 8)) {
    const text = readFileSync(path, "utf8");
    const name = path.slice(root.length);

    test(`${name}: without any one line that it needs, it is not (${sampleName})`, () => {
      const lines = text.split("\n");
      const passed = sampled(needed(lines, squeezed(path)), 3).filter((i) => !blocked(path, lines.filter((_, k) => k !== i).join("\n")));
      expect(passed.map((i) => `${i + 1}: ${lines[i]}`)).toEqual([]);
    });

    test(`${name}: with any one step only planned, it is not (${sampleName})`, () => {
      expect(blocked(path, `${text}\nstep one-more "One more"\n  chock\n`)).toBe(true);
      const lines = text.split("\n");
      const done = lines.flatMap((line, i) => (/^\s*done\b/.test(line) ? [i] : []));
      expect(sampled(done, 3).filter((i) => !blocked(path, lines.filter((_, k) => k !== i).join("\n")))).toEqual([]);
    });

    test(`${name}: no prefix of it throws (${sampleName})`, () => {
      const ends = Array.from({ length: Math.floor(text.length / 97) + 1 }, (_, i) => i * 97);
      for (const end of sampled(ends, 4)) expect(() => checkFile(filesAround(path, text.slice(0, end)), base(path))).not.toThrow();
    });
  }
});

/** Indentation means nothing: the words say where an entry begins. */
const heads = new RegExp(`^(${entryWords.map((it) => it.word).join("|")})\\b`);

/**
 * Lines that the release needs: what locks, tightens, fits, fills, bleeds, restores, and each final reading or look. None is an earlier torque stage, the
 * fitting of a nut that is tightened in the same step (tightening puts it back), the locking of what tightening locks, and what a sheet marks as more than is
 * asked of it.
 */
function needed(lines: readonly string[], locked: ReadonlySet<string>): number[] {
  let head = "";
  return lines.flatMap((line, i) => {
    if (heads.test(line)) head = line;
    if (line.includes("# more than is asked")) return [];
    if (/^seen .*\bfinal\b/.test(line)) return [i];
    if (/^measure .*\bfinal\b/.test(head) && /^\s*[^#]*\d/.test(line) && !heads.test(line) && !/^\s*(note|photo|accept)\b/.test(line)) return [i];
    const action = /^\s*(lock|tighten|fit|fill|bleed|restore)\s+(\S+)/.exec(line);
    if (action === null || !head.startsWith("step") || /\bfor now\b/.test(line)) return [];
    if (action[1] === "lock" && locked.has(action[2] as string)) return [];
    const tightenings = tightenedIn(lines, i, action[2] as string);
    if (action[1] === "fit" && tightenings > 0 && !/\bnew\b/.test(line)) return [];
    return action[1] === "tighten" && tightenings > 1 ? [] : [i];
  });
}

/** Fasteners on which nothing critical hangs and that a spring washer locks: tightening squeezes it. */
function squeezed(path: string): ReadonlySet<string> {
  const names = new Set<string>();
  for (const sheet of sheetsIn(dirname(path))) {
    for (const entry of readFileSync(sheet, "utf8").split(new RegExp(`^(?=(?:${entryWords.map((it) => it.word).join("|")})\\b)`, "m"))) {
      const name = /^fastener ([^\s,]+)/.exec(entry)?.[1];
      if (name !== undefined && /^ *locked by spring washer/m.test(entry) && !/^ *critical/m.test(entry)) names.add(name);
    }
  }
  return names;
}

/** How often the step that holds this line tightens the fastener: one line of several is a stage of the others. */
function tightenedIn(lines: readonly string[], at: number, name: string): number {
  let from = at;
  while (from > 0 && !heads.test(lines[from] as string)) from--;
  let to = at + 1;
  while (to < lines.length && !heads.test(lines[to] as string)) to++;
  return lines.slice(from, to).filter((line) => new RegExp(`^\\s*tighten\\s+(?:[^\\s,]+, )*${name}(?![\\w-])`).test(line)).length;
}

function blocked(path: string, text: string): boolean {
  return checkFile(filesAround(path, text), base(path)).some((it) => it.rule === "release-blocked");
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
