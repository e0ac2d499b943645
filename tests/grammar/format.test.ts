// The layout: what it does to a line, that it changes no meaning, and that a second time changes nothing.
import { describe, expect, it } from "vitest";
import { formatSheet } from "../../grammar/format.ts";
import { readSheet } from "../../grammar/sheet-text.ts";
import { withoutColumns } from "./reading.ts";
import { thinned, times } from "../sampled.ts";
import { seeded } from "../seeded.ts";
import { samples, wholeLanguage } from "./sheets.ts";

const meant = (text: string) =>
  readSheet(text).entries.map((entry) =>
    JSON.stringify(
      withoutColumns({ ...entry, rows: 0, details: entry.details.map((it) => ({ ...it, row: 0 })), stray: entry.stray.map((it) => ({ ...it, row: 0 })) }),
    ),
  );

function keeps(text: string): void {
  const once = formatSheet(text);
  // Of a text that is laid out already both are the same text: nothing is left to compare.
  if (once === text) return;
  if (formatSheet(once) !== once)
    throw new Error(`not the same twice:\n${JSON.stringify(text)}\n${JSON.stringify(once)}\n${JSON.stringify(formatSheet(once))}`);
  const [before, after] = [meant(text), meant(once)];
  if (before.join("\n") !== after.join("\n")) throw new Error(`another meaning:\n${text}\n----\n${once}`);
}

describe("the layout", () => {
  it.each<[string, string, string]>([
    ["heads at the margin, details set in", '  part hub "Hub"\neach   side\n\theld  by a,b ,c', 'part hub "Hub"\n  each side\n  held by a, b, c'],
    [
      "units apart, ranges apart",
      "limit f\n new 0.004..0.008in\n worn max 5thou\n set 1±2 mm by a",
      "limit f\n  new 0.004 .. 0.008 in\n  worn max 5 thou\n  set 1 ± 2 mm by a",
    ],
    [
      "sizes and threads as written",
      "fastener a\nthread   5/8-18   UNF  LH\nlocked by split pin 1/8x1-1/4 in",
      "fastener a\n  thread 5/8-18 UNF LH\n  locked by split pin 1/8x1-1/4 in",
    ],
    [
      "texts and comments kept",
      'part a "A   b"   #  two  spaces\n      # set in\n# at the margin',
      'part a "A   b"   #  two  spaces\n  # set in\n# at the margin',
    ],
    ["runs of blank lines", "\n\n\npart a\n\n\n\n\n  each side\n\n\npart b\n\n\n", "\npart a\n\n  each side\n\npart b\n"],
    ["a broken line keeps its words", "part a\nheld  bye   x\n      zz  top", "part a\n  held  bye   x\n      zz  top"],
    ["byte order mark, mixed ends", '\ufeff part a\r\n each side\r note "x"\n', '\ufeffpart a\r\n  each side\r  note "x"\n'],
    ["expressions", "limit a\n=  (b+c)/  2\n= min( b,c )  -  d", "limit a\n  =  (b+c)/  2\n  = min(b, c) - d"],
    ["readings", "measure f found\nleft again 0.014,0.015in\n 14,15 mm", "measure f found\n  left again 0.014, 0.015 in\n  14,15 mm"],
  ])("%s", (_what, text, wanted) => {
    expect(formatSheet(text)).toBe(wanted);
    keeps(text);
  });
  it("leaves the project's samples as they are", () => {
    for (const { name, text } of samples.filter((it) => it.name.startsWith("samples/"))) expect(formatSheet(text), name).toBe(text);
  });
  it("sets a sheet without any layout as one that has it", () => {
    expect(formatSheet(wholeLanguage(""))).toBe(formatSheet(wholeLanguage()));
  });
});

describe("never another meaning, and nothing more the second time", () => {
  it.each(thinned(samples, 3))("of $name, and of beginnings of it", ({ text }) => {
    keeps(text);
    const random = seeded(500 + text.length);
    for (let n = 0; n < times({ plain: 1, run: 4, full: 12 }); n++) keeps(text.slice(0, random(text.length)));
  });
  it("of damaged sheets", () => {
    const pieces = ["\n", "  ", "\t", '"', "#", "part ", "\r\n", "\r", "😀", "\u200b", ",", " - ", "check a", "zebra", "x", "..", "step s\n", "\ufeff"];
    const whole = wholeLanguage().split("\n");
    for (let seed = 0; seed < 250; seed++) {
      const random = seeded(9000 + seed);
      const from = random(whole.length);
      let text = whole.slice(from, from + 5 + random(20)).join(["\n", "\r\n"][random(2)]);
      for (let n = 0; n < 1 + random(6); n++) {
        const at = random(text.length + 1);
        text = text.slice(0, at) + (random(3) === 0 ? "" : pieces[random(pieces.length)]) + text.slice(at + random(4));
      }
      keeps(text);
    }
  });
});
