// A broken line costs itself and nothing else: one line of a sheet is damaged, and every other line must be as it was, under the same head.
import { describe, expect, it } from "vitest";
import { type SheetText, editSheet, readSheet } from "../../grammar/sheet-text.ts";
import type { Detail, Entry } from "../../grammar/tree.ts";
import { faultsOf, withoutColumns } from "./reading.ts";
import { times } from "../sampled.ts";
import { seeded } from "../seeded.ts";
import { samples, wholeLanguage } from "./sheets.ts";

type Harm = (line: string, random: (below: number) => number) => string;

const words = (line: string) => [...line.matchAll(/\S+/g)].map((it) => ({ from: it.index, to: it.index + it[0].length }));
const cut = (line: string, at: { from: number; to: number } | undefined, put: string) =>
  at === undefined ? line : line.slice(0, at.from) + put + line.slice(at.to);
const letters = "abcdefghijklmnopqrstuvwxyz-";

const harms: readonly Harm[] = [
  (line, random) => cut(line, words(line)[random(words(line).length)], ""),
  (line, random) => {
    const at = words(line)[random(words(line).length)];
    return at === undefined ? line : `${line.slice(0, at.to)} ${line.slice(at.from)}`;
  },
  (line, random) => cut(line, words(line)[random(words(line).length)], "zebra"),
  (line, random) => {
    const i = random(line.length);
    return line.slice(0, i) + line.slice(i + 1);
  },
  (line, random) => {
    const i = random(line.length);
    return line.slice(0, i) + letters[random(letters.length)] + line.slice(i + 1);
  },
  (line, random) => {
    const i = random(line.length);
    return line.slice(0, i) + letters[random(letters.length)] + line.slice(i);
  },
  (line, random) => {
    const i = random(Math.max(1, line.length - 1));
    return line.slice(0, i) + (line[i + 1] ?? "") + (line[i] ?? "") + line.slice(i + 2);
  },
  (line, random) => line.slice(0, Math.max(1, random(line.length))),
  (line, random) => {
    const i = random(line.length + 1);
    return `${line.slice(0, i)}"${line.slice(i)}`;
  },
  (line, random) => {
    const i = random(line.length + 1);
    return line.slice(0, i) + ["€", "\u200b", "½", "..", ",", "'", "😀"][random(7)] + line.slice(i);
  },
  (line) => line.replaceAll('"', ""),
  (line, random) => {
    const at = words(line)[0];
    return at === undefined ? line : cut(line, at, line.slice(at.from, at.to - 1 - random(2)));
  },
];

/** Whose each line of some entries is, and what it says. */
function owners(sheet: SheetText, of: (entry: Entry) => boolean): Map<number, string> {
  const out = new Map<number, string>();
  sheet.entries.forEach((owner, i) => {
    if (!of(owner)) return;
    const start = sheet.starts[i] as number;
    const say = (node: Entry | Detail, where: string) => {
      const { details: _details, stray: _stray, rows: _rows, row, ...own } = node as unknown as Record<string, unknown>;
      out.set(start + (row as number), `${start} ${where} ${JSON.stringify(withoutColumns(own))}`);
    };
    say(owner, "head");
    for (const it of owner.details) say(it, "detail");
    for (const it of owner.stray) say(it, "stray");
  });
  return out;
}

interface Count {
  readonly damaged: number;
  readonly lost: number;
  readonly misfiled: readonly string[];
}

/** Edits by entry are shown elsewhere to be equal to a fresh read, so only what an edit has read again is looked at. */
function tryDamage(text: string, seed: number, rounds: number): Count {
  const random = seeded(seed);
  const whole = readSheet(text);
  const lines = text.split("\n");
  let damaged = 0;
  let lost = 0;
  const misfiled: string[] = [];
  for (let round = 0; round < rounds; round++) {
    for (const harm of harms) {
      const at = random(lines.length);
      const line = lines[at] as string;
      if (line.trim() === "" || line.startsWith("#")) continue;
      const now = harm(line, random);
      if (now === line || now.trim() === "" || now.trimStart().startsWith("#")) continue;
      const sheet = editSheet(whole, { startLine: at, startColumn: 0, endLine: at, endColumn: line.length, text: now });
      const kept = new Set(sheet.entries);
      const old = new Set(whole.entries);
      const after = owners(sheet, (it) => !old.has(it));
      // A damaged line that is a good line of another meaning is no broken line.
      if (!faultsOf(sheet).some((it) => it.line === at)) continue;
      damaged++;
      for (const [other, said] of owners(whole, (it) => !kept.has(it))) {
        if (other === at) continue;
        const found = after.get(other);
        if (found === undefined) lost++;
        else if (found !== said) {
          misfiled.push(`${JSON.stringify(line)} made ${JSON.stringify(now)}, and ${JSON.stringify(lines[other])} is ${found} and was ${said.slice(0, 30)}`);
          break;
        }
      }
    }
  }
  return { damaged, lost, misfiled };
}

describe("damage to one line", () => {
  it("of every kind of line, set in: no other line is lost, hardly one misfiled", () => {
    const count = tryDamage(wholeLanguage(), 1, times({ plain: 60, run: 180, full: 700 }));
    if (process.env.SHOW !== undefined) console.log(count.damaged, count.misfiled.join("\n"));
    expect(count.damaged).toBeGreaterThan(times({ plain: 300, run: 1000, full: 4000 }));
    expect(count.lost).toBe(0);
    expect(count.misfiled.length / count.damaged).toBeLessThan(0.002);
  });
  it("of every kind of line, no line set in", () => {
    const count = tryDamage(wholeLanguage(""), 2, times({ plain: 40, run: 110, full: 400 }));
    if (process.env.SHOW !== undefined) console.log(count.damaged, count.misfiled.join("\n"));
    expect(count.lost).toBe(0);
    expect(count.misfiled.length / count.damaged).toBeLessThan(0.015);
  });
  it("of the project's own sheets", () => {
    let damaged = 0;
    const misfiled: string[] = [];
    for (const [i, { text }] of samples.entries()) {
      const count = tryDamage(text, 100 + i, times({ plain: 1, run: 4, full: 12 }));
      expect(count.lost).toBe(0);
      damaged += count.damaged;
      misfiled.push(...count.misfiled);
    }
    if (process.env.SHOW !== undefined) console.log(damaged, misfiled.join("\n"));
    expect(damaged).toBeGreaterThan(times({ plain: 150, run: 600, full: 2000 }));
    // Those are heads that have lost their keyword whole, or all of it but a letter: nothing tells such a line from a detail.
    expect(misfiled.length / damaged).toBeLessThan(0.005);
  });
});
