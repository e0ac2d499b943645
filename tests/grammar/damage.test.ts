// A broken line costs itself and nothing else: one line of a sheet is damaged, and every other line must be as it was, under the same head.
import { describe, expect, it } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { faultsOf, placedLines, seeded, withoutColumns } from "./reading.ts";
import { samples, wholeLanguage } from "./sheets.ts";

type Harm = (line: string, random: (below: number) => number) => string;

const words = (line: string) => [...line.matchAll(/\S+/g)].map((it) => ({ from: it.index, to: it.index + it[0].length }));
const cut = (line: string, at: { from: number; to: number } | undefined, put: string) => (at === undefined ? line : line.slice(0, at.from) + put + line.slice(at.to));
const letters = "abcdefghijklmnopqrstuvwxyz-";

const harms: readonly Harm[] = [
  (line, random) => cut(line, words(line)[random(words(line).length)], ""),
  (line, random) => { const at = words(line)[random(words(line).length)]; return at === undefined ? line : `${line.slice(0, at.to)} ${line.slice(at.from)}`; },
  (line, random) => cut(line, words(line)[random(words(line).length)], "zebra"),
  (line, random) => { const i = random(line.length); return line.slice(0, i) + line.slice(i + 1); },
  (line, random) => { const i = random(line.length); return line.slice(0, i) + letters[random(letters.length)] + line.slice(i + 1); },
  (line, random) => { const i = random(line.length); return line.slice(0, i) + letters[random(letters.length)] + line.slice(i); },
  (line, random) => { const i = random(Math.max(1, line.length - 1)); return line.slice(0, i) + (line[i + 1] ?? "") + (line[i] ?? "") + line.slice(i + 2); },
  (line, random) => line.slice(0, Math.max(1, random(line.length))),
  (line, random) => { const i = random(line.length + 1); return `${line.slice(0, i)}"${line.slice(i)}`; },
  (line, random) => { const i = random(line.length + 1); return line.slice(0, i) + ["€", "\u200b", "½", "..", ",", "'", "😀"][random(7)] + line.slice(i); },
  (line) => line.replaceAll('"', ""),
  (line, random) => { const at = words(line)[0]; return at === undefined ? line : cut(line, at, line.slice(at.from, at.to - 1 - random(2))); },
];

/** Whose each line is and what it says; lines of which the tree knows nothing are left out. */
function owners(text: string): Map<number, string> {
  const sheet = readSheet(text);
  const out = new Map<number, string>();
  const at = new Map(sheet.entries.map((entry, i) => [entry, sheet.starts[i]]));
  for (const { line, node, owner, stray } of placedLines(sheet)) {
    const { details: _details, stray: _stray, rows: _rows, row: _row, ...own } = node as unknown as Record<string, unknown>;
    out.set(line, `${at.get(owner)} ${stray ? "stray" : ""} ${JSON.stringify(withoutColumns(own))}`);
  }
  return out;
}

function tryDamage(text: string, seed: number, rounds: number): { damaged: number; lost: number; misfiled: number; unread: number } {
  const random = seeded(seed);
  const lines = text.split("\n");
  const before = owners(text);
  const count = { damaged: 0, lost: 0, misfiled: 0, unread: 0 };
  for (let round = 0; round < rounds; round++) {
    for (const harm of harms) {
      const at = random(lines.length);
      const line = lines[at] as string;
      if (line.trim() === "" || line.startsWith("#")) continue;
      const now = harm(line, random);
      // A damaged line that is a good line of another meaning is no broken line; a line that is gone altogether is not one either.
      if (now === line || now.trim() === "" || now.trimStart().startsWith("#")) continue;
      const broken = [...lines.slice(0, at), now, ...lines.slice(at + 1)].join("\n");
      const sheet = readSheet(broken);
      if (!faultsOf(sheet).some((it) => it.line === at)) continue;
      count.damaged++;
      const after = owners(broken);
      for (const [other, said] of before) {
        if (other === at) continue;
        const found = after.get(other);
        if (found === undefined) count.lost++;
        // Behind a head that can't be read, its own lines have that head still: the line of the head is what counts.
        else if (found !== said) {
          count.misfiled++;
          if (process.env.SHOW !== undefined) console.log(JSON.stringify({ now, other, line: lines[other], said, found }, null, 1));
          break;
        }
      }
    }
  }
  return count;
}

describe("damage to one line", () => {
  it("of every kind of line, set in: no other line is lost, hardly one misfiled", () => {
    const count = tryDamage(wholeLanguage(), 1, 700);
    console.log("damage, set in", count);
    expect(count.damaged).toBeGreaterThan(4000);
    expect(count.lost).toBe(0);
    // The known rest: a head cut to a word that is near to nothing, a quote that makes another keyword.
    expect(count.misfiled / count.damaged).toBeLessThan(0.002);
  });
  it("of every kind of line, no line set in", () => {
    const count = tryDamage(wholeLanguage(""), 2, 400);
    console.log("damage, not set in", count);
    expect(count.lost).toBe(0);
    expect(count.misfiled / count.damaged).toBeLessThan(0.015);
  });
  it("of the project's own sheets", () => {
    let damaged = 0;
    let misfiled = 0;
    for (const [i, { text }] of samples.entries()) {
      const count = tryDamage(text, 100 + i, 25);
      expect(count.lost).toBe(0);
      damaged += count.damaged;
      misfiled += count.misfiled;
    }
    console.log("damage, own sheets", { damaged, misfiled });
    expect(damaged).toBeGreaterThan(3000);
    expect(misfiled / damaged).toBeLessThan(0.002);
  });
});
