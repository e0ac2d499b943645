// An edit gives what a fresh read of the new text gives: the same entries, starts, lines and ends; and entries that it did not touch stay the same objects.
import { describe, expect, it } from "vitest";
import { type SheetChange, type SheetText, editSheet, factsKey, readSheet, sheetEntryOf, textOf } from "../../grammar/sheet-text.ts";
import { times } from "../sampled.ts";
import { seeded } from "../seeded.ts";
import { samples, wholeLanguage } from "./sheets.ts";

/** The same change made to plain text, by the Language Server Protocol's own count of lines. */
function changed(text: string, change: SheetChange): string {
  const starts = [0];
  for (const it of text.matchAll(/\r\n|\n|\r/g)) starts.push(it.index + it[0].length);
  const ends = [...text.matchAll(/\r\n|\n|\r/g)].map((it) => it.index).concat(text.length);
  const at = (line: number, column: number) => Math.min((starts[line] as number) + column, ends[line] as number);
  return text.slice(0, at(change.startLine, change.startColumn)) + change.text + text.slice(at(change.endLine, change.endColumn));
}

function sameAsFresh(sheet: SheetText, text: string, what: string): void {
  const fresh = readSheet(text);
  // Compared as text: a tree is plain data, and this is many times quicker than a deep comparison.
  const [mine, theirs] = [JSON.stringify(sheet), JSON.stringify(fresh)];
  if (mine !== theirs) expect(sheet, what).toEqual(fresh);
  if (mine !== theirs) throw new Error(`${what}: the same but for the order of fields`);
  expect(textOf(sheet)).toBe(text);
  // What a sheet says of itself is found without reading the rest, and is the same.
  const head = fresh.entries.find((it) => it.kind === "sheet");
  if (JSON.stringify(sheetEntryOf(text)) !== JSON.stringify(head)) expect(sheetEntryOf(text), what).toEqual(head);
}

const pasted = [
  "\n",
  "\r\n",
  "\r",
  "\n\n",
  "x",
  " ",
  "  ",
  "\t",
  '"',
  "#",
  "😀",
  "\u0301",
  "\ufeff",
  "\u2028",
  "part ",
  "step a\n",
  '\npart hub-2 "Hub"\n  each side\n',
  "measure f found\n  left 0.1 in\n",
  "  undo nut\n",
  "zebra",
  "check a\n",
  "= a - b",
  "\0",
  "fastener",
  'prat x "y"\n',
];

function randomChange(sheet: SheetText, random: (below: number) => number): SheetChange {
  const line = random(sheet.lineCount);
  const length = (at: number) => (sheet.lines[at] as string).length;
  const place = { startLine: line, startColumn: random(length(line) + 1) };
  switch (random(8)) {
    // Text put in, anywhere or at a line's beginning.
    case 0:
    case 1:
      return { ...place, endLine: line, endColumn: place.startColumn, text: pasted[random(pasted.length)] as string };
    case 2:
      return { startLine: line, startColumn: 0, endLine: line, endColumn: 0, text: pasted[random(pasted.length)] as string };
    // A few characters taken away.
    case 3:
      return { ...place, endLine: line, endColumn: Math.min(length(line), place.startColumn + 1 + random(4)), text: "" };
    // Two lines joined.
    case 4:
      return line + 1 < sheet.lineCount
        ? { startLine: line, startColumn: length(line), endLine: line + 1, endColumn: 0, text: "" }
        : { ...place, endLine: line, endColumn: place.startColumn, text: "" };
    // A keyword broken or made whole.
    case 5:
      return {
        startLine: line,
        startColumn: Math.min(1, length(line)),
        endLine: line,
        endColumn: Math.min(2, length(line)),
        text: "aeio"[random(4)] as string,
      };
    // Several lines replaced.
    case 6: {
      const last = Math.min(sheet.lineCount - 1, line + random(5));
      return { ...place, endLine: last, endColumn: last === line ? length(line) : random(length(last) + 1), text: pasted[random(pasted.length)] as string };
    }
    default:
      return { startLine: line, startColumn: 0, endLine: line, endColumn: length(line), text: sheet.lines[random(sheet.lineCount)] as string };
  }
}

describe("edits", () => {
  const texts = [
    ...samples.slice(0, 12).map((it) => it.text),
    wholeLanguage(),
    wholeLanguage(""),
    wholeLanguage().replaceAll("\n", "\r\n"),
    wholeLanguage().slice(0, 2000).replaceAll("\n", "\r"),
    "",
    "\n",
    "\r",
  ].map((text, i) => ({ text, i }));
  it.each(texts)("any edits give what a fresh read gives: text $i", ({ text: start, i }) => {
    // Short pieces, so that an edit is often at a border between entries.
    for (const text of [start.slice(0, 600), start.slice(0, 3000)]) {
      const random = seeded(7000 + i + text.length);
      let sheet = readSheet(text);
      let now = text;
      for (let n = 0; n < times({ plain: 15, run: 40, full: 200 }); n++) {
        const change = randomChange(sheet, random);
        const next = changed(now, change);
        sheet = editSheet(sheet, change);
        sameAsFresh(sheet, next, `edit ${n}: ${JSON.stringify(change)} on ${JSON.stringify(now)}`);
        now = next;
      }
    }
  });

  it("entries that an edit does not touch stay the same objects, wherever they move", () => {
    const before = readSheet(wholeLanguage());
    const at = before.entries.findIndex((it) => it.kind === "step");
    const line = (before.starts[at] as number) + 1;
    const after = editSheet(before, { startLine: line, startColumn: 2, endLine: line, endColumn: 2, text: "\n  " });
    const kept = new Set(before.entries);
    expect(after.entries.filter((it) => !kept.has(it)).map((it) => it.kind)).toEqual(["step"]);
    expect(after.starts[at + 1]).toBe((before.starts[at + 1] as number) + 1);
  });

  it("typing in a note or a comment leaves every facts key", () => {
    const before = readSheet(wholeLanguage().replace('note "The left', 'note "The left'));
    const line = before.lines.findIndex((it) => it.includes('note "The'));
    const after = editSheet(before, { startLine: line, startColumn: 10, endLine: line, endColumn: 10, text: "very " });
    expect(after.entries.map(factsKey)).toEqual(before.entries.map(factsKey));
  });

  it("positions outside the text are taken as the nearest inside", () => {
    const sheet = readSheet("part a\n  each side");
    for (const [startLine, startColumn, endLine, endColumn, wanted] of [
      [9, 9, 9, 9, "part a\n  each sideX"],
      [-1, -1, -1, -1, "Xpart a\n  each side"],
      [0, 99, 0, 99, "part aX\n  each side"],
      [1, 4, 0, 2, "part a\n  eaXch side"],
      [Number.NaN, 0, 0, 4, "X a\n  each side"],
    ] as const) {
      const after = editSheet(sheet, { startLine, startColumn, endLine, endColumn, text: "X" });
      expect(textOf(after)).toBe(wanted);
      sameAsFresh(after, wanted, wanted);
    }
  });
});
