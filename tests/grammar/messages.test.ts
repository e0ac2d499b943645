// What is said of lines that can't be read: the words, where they stand, and that each fix leaves a line without a fault.
import { describe, expect, it } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { meantWords } from "../../grammar/words.ts";
import { faultsIn, faultsOf, fixedLine } from "./reading.ts";

interface Row {
  /** The head that the line stands under; a line that is a head itself has none. */
  readonly under?: string;
  readonly line: string;
  /** What the fault stands on. */
  readonly on: string;
  readonly says: string;
  /** The line after each fix, in order. */
  readonly fixed?: readonly string[];
}

const part = 'part hub "Hub"';
const fastener = 'fastener hub-nut "Hub nut"';
const step = 'step strip "Strip"';
const finding = "finding hub-nut";
const limit = 'limit float "Float"';
const measure = "measure float found";
const offer = "offer hub from tarn";
const order = 'order "1" to tarn';
const shims = "shims cap-shims";

const rows: readonly Row[] = [
  { line: "finding hub-nut left right", on: "right", says: "Places are joined by commas: left, right.", fixed: ["finding hub-nut left, right"] },
  { line: "seen blue final good left right", on: "right", says: "Places are joined by commas: left, right.", fixed: ["seen blue final good left, right"] },
  { under: fastener, line: "thread M20 at left right", on: "right", says: "Places are joined by commas: left, right.", fixed: ["thread M20 at left, right"] },
  { under: fastener, line: "torque 45-55 lbf.ft", on: "-", says: "A range is written with two dots: 45 .. 55.", fixed: ["torque 45 .. 55 lbf.ft"] },
  { under: fastener, line: "torque 45 - 55 lbf.ft", on: "-", says: "A range is written with two dots: 45 .. 55.", fixed: ["torque 45 .. 55 lbf.ft"] },
  { under: fastener, line: "torque 45–55 lbf.ft", on: "–", says: "A range is written with two dots: 45 .. 55.", fixed: ["torque 45 .. 55 lbf.ft"] },
  { under: limit, line: "set 2-5 mm by hub-nut", on: "-", says: "A range is written with two dots: 2 .. 5.", fixed: ["set 2 .. 5 mm by hub-nut"] },
  {
    line: 'part "Front hub"',
    on: '"Front hub"',
    says: 'Write a short name before the text: part front-hub "Front hub".',
    fixed: ['part front-hub "Front hub"'],
  },
  { line: 'part hub_nut "Hub nut"', on: "hub_nut", says: "A name's words are joined by hyphens: hub-nut.", fixed: ['part hub-nut "Hub nut"'] },
  { under: part, line: 'note "no split pin', on: '"no split pin', says: "This text has no closing quote.", fixed: ['note "no split pin"'] },
  {
    under: fastener,
    line: 'thread 5/8" UNF',
    on: '5/8"',
    says: "Inches are written in: 5/8 in. A thread has no mark after its size: 5/8.",
    fixed: ["thread 5/8 UNF"],
  },
  { under: measure, line: 'left 5/8"', on: '5/8"', says: "Inches are written in: 5/8 in.", fixed: ["left 5/8 in"] },
  { under: measure, line: "left 1 1/4 in", on: "1 1/4", says: "A mixed fraction has a hyphen: 1-1/4.", fixed: ["left 1-1/4 in"] },
  {
    under: step,
    line: "tighten hub-nut 95 lbf.ft",
    on: "95",
    says: "Write `to` before the torque: tighten hub-nut to 95 lbf.ft.",
    fixed: ["tighten hub-nut to 95 lbf.ft"],
  },
  {
    under: step,
    line: "tighten hub-nut left 95 lbf.ft by wrench",
    on: "95",
    says: "Write `to` before the torque: tighten hub-nut left to 95 lbf.ft by wrench.",
    fixed: ["tighten hub-nut left to 95 lbf.ft by wrench"],
  },
  { under: step, line: "raise on ramps", on: "ramps", says: "Write `jack`, `lift`, `crane`, `centre stand`, `paddock stand` or `bench` here, not `ramps`." },
  {
    under: step,
    line: "raise on jakc",
    on: "jakc",
    says: "Write `jack`, `lift`, `crane`, `centre stand`, `paddock stand` or `bench` here, not `jakc`. Is `jack` meant?",
    fixed: ["raise on jack"],
  },
  { under: finding, line: "is broke", on: "broke", says: "`broke` isn't a condition. Is `broken` meant?", fixed: ["is broken"] },
  {
    under: finding,
    line: "is worn, zebra",
    on: "zebra",
    says: "`zebra` isn't a condition. There are worn, cracked, bent, loose, missing and more; `damaged` will do for the rest.",
  },
  { under: finding, line: "is worn scored", on: "scored", says: "Conditions are joined by commas: worn, scored.", fixed: ["is worn, scored"] },
  {
    under: step,
    line: "undo hub-nut left remove hub",
    on: "remove",
    says: "One line, one fact: `remove` starts another. Put it on a line of its own.",
    fixed: ["undo hub-nut left\n  remove hub"],
  },
  {
    under: step,
    line: "done 11/04/2026",
    on: "11/04/2026",
    says: "A date is written year, month, day: 2026-04-11 or 2026-11-04.",
    fixed: ["done 2026-04-11", "done 2026-11-04"],
  },
  { under: step, line: "done 23.04.2026", on: "23.04.2026", says: "A date is written year, month, day: 2026-04-23.", fixed: ["done 2026-04-23"] },
  { line: "day 2026-4-1", on: "2026-4-1", says: "A date is written year, month, day: 2026-04-01.", fixed: ["day 2026-04-01"] },
  { under: offer, line: "price £3.20", on: "£3.20", says: "Money is a figure and its code: 3.20 GBP.", fixed: ["price 3.20 GBP"] },
  { under: offer, line: "price $3.20", on: "$3.20", says: "Money is a figure and its code: 3.20 USD." },
  { under: offer, line: "price GBP 3.20", on: "GBP 3.20", says: "Money is a figure and its code: 3.20 GBP.", fixed: ["price 3.20 GBP"] },
  { under: offer, line: "price 3.20", on: "3.20", says: "Money is a figure and its code: 3.20 GBP." },
  {
    under: fastener,
    line: "locked by split-pin 1/8 x 1 in",
    on: "split-pin",
    says: "`split-pin` is two words: split pin.",
    fixed: ["locked by split pin 1/8 x 1 in"],
  },
  {
    under: fastener,
    line: "locked by splitpin 1/8 x 1 in",
    on: "splitpin",
    says: "`splitpin` is two words: split pin.",
    fixed: ["locked by split pin 1/8 x 1 in"],
  },
  {
    under: fastener,
    line: "locked by splt pin 1/8 x 1 in",
    on: "splt pin",
    says: "`splt pin` isn't a locking. Is `split pin` meant?",
    fixed: ["locked by split pin 1/8 x 1 in"],
  },
  {
    under: fastener,
    line: "locked by nylock",
    on: "nylock",
    says: "`nylock` isn't a locking. There are split pin, lock wire, tab washer, lock plate, staking and more; a part that locks is written part NAME.",
  },
  {
    under: fastener,
    line: "locked split pin 1/8 x 1 in",
    on: "split",
    says: '`by` is missing before this: locked by LOCKING [for N] | locked by nothing "why".',
    fixed: ["locked by split pin 1/8 x 1 in"],
  },
  {
    line: "offer split-pin 1/8 x 1 in from tarn",
    on: "split-pin",
    says: "`split-pin` is two words: split pin.",
    fixed: ["offer split pin 1/8 x 1 in from tarn"],
  },
  { line: "stock split pin 12", on: "split pin", says: "Write the size of the split pin: split pin 1/8 x 1-1/4 in. The last figure on the line is how many." },
  { under: fastener, line: "torque 45 .. 55 ft lb", on: "ft lb", says: "A unit is one word: lbf.ft.", fixed: ["torque 45 .. 55 lbf.ft"] },
  { under: step, line: "takes 1 h 30 min", on: "30 min", says: "A quantity has one figure and one unit: 90 min, or 1-1/2 h.", fixed: ["takes 90 min"] },
  {
    under: fastener,
    line: "thread #10-32 UNF",
    on: "#10-32 UNF",
    says: "# starts a comment. A numbered size is written No.10-32 UNF.",
    fixed: ["thread No.10-32 UNF"],
  },
  {
    line: "places cylinder 1, 2, 3",
    on: "1",
    says: "A name starts with a letter: cylinder-1, cylinder-2.",
    fixed: ["places cylinder cylinder-1, cylinder-2, cylinder-3"],
  },
  { under: step, line: "tighten to 95 lbf.ft", on: "to", says: "Before `to` the line needs a fastener." },
  {
    under: step,
    line: "undo hub-nut left 2",
    on: "2",
    says: "Write how many straight after the name, then the place: 2 left.",
    fixed: ["undo hub-nut 2 left"],
  },
  {
    under: step,
    line: 'done by "A. Moor", "B. Vale"',
    on: ",",
    says: 'One text holds both: "A. Moor and B. Vale".',
    fixed: ['done by "A. Moor and B. Vale"'],
  },
  {
    under: step,
    line: "inspect hub 2 left",
    on: "2",
    says: "`inspect` takes no figure here. How many goes straight after a name, where things come off, go on, or are done up or locked.",
  },
  {
    under: step,
    line: "fit arm-nut left 1 new",
    on: "1",
    says: "Write how many straight after the name, then the place: 1 left.",
    fixed: ["fit arm-nut 1 left new"],
  },
  {
    under: step,
    line: "remove shim left, right 2",
    on: "2",
    says: "Write how many straight after the name, then the place: 2 left, right.",
  },
  { under: step, line: "remove hub left right", on: "right", says: "Places are joined by commas: left, right.", fixed: ["remove hub left, right"] },
  {
    under: part,
    line: "held by hub-nut lock-nut",
    on: "lock-nut",
    says: "Names are joined by commas: hub-nut, lock-nut.",
    fixed: ["held by hub-nut, lock-nut"],
  },
  {
    under: part,
    line: "note the thread was chased",
    on: "the thread was chased",
    says: 'Put quotes around a text: "the thread was chased".',
    fixed: ['note "the thread was chased"'],
  },
  { under: part, line: "critical steering", on: "steering", says: 'Put quotes around a text: "steering".', fixed: ['critical "steering"'] },
  { under: part, line: "note “worn”", on: "“worn”", says: 'Quotes are written straight: "…".', fixed: ['note "worn"'] },
  { under: part, line: 'note "a "worn" pin"', on: "worn", says: 'The text ends before this. A quote inside a text is written \\".' },
  { under: measure, line: "left-0.002 in", on: "left-0.002", says: "Write a space between the word and the figure: left -0.002." },
  { under: limit, line: "= bore-0.5 in", on: "bore-0.5", says: "Write a space between the word and the figure: bore - 0.5.", fixed: ["= bore - 0.5 in"] },
  { under: limit, line: "= bore -shaft", on: "-", says: "Put a space on both sides of `-`.", fixed: ["= bore - shaft"] },
  { under: limit, line: "= bore/2", on: "/", says: "Put a space on both sides of `/`.", fixed: ["= bore / 2"] },
  { under: limit, line: "= middle(a, b)", on: "middle", says: "`middle` isn't a function here. There are min, max, mean, span, abs, sqrt, sin, cos, tan." },
  { under: limit, line: "worn max 1...2 mm", on: "...", says: "Write two dots between two figures: 1 .. 2." },
  { under: limit, line: "new 1...2 mm", on: "...", says: "Write two dots between two figures: 1 .. 2.", fixed: ["new 1 .. 2 mm", "new 1 .. .2 mm"] },
  { under: limit, line: "new 1 … 2 mm", on: "…", says: "Write two dots between two figures: 1 .. 2.", fixed: ["new 1 .. 2 mm"] },
  { under: shims, line: "have 0.1 mm x4", on: "x4", says: "Write a space after x: x 4.", fixed: ["have 0.1 mm x 4"] },
  {
    under: order,
    line: "status send 2026-04-01",
    on: "send",
    says: "Write `held`, `placed`, `sent`, `received`, `cancelled` or `returned` here, not `send`. Is `sent` meant?",
    fixed: ["status sent 2026-04-01"],
  },
  {
    line: "measure float fond by dial",
    on: "fond",
    says: "Write `found`, `trial` or `final` here, not `fond`. Is `found` meant?",
    fixed: ["measure float found by dial"],
  },
  { line: "measure float", on: "float", says: "The line needs `found`, `trial` or `final` next: measure LIMIT found|trial|final [by GAUGE] [DATE]." },
  {
    under: part,
    line: "material cast iron",
    on: "cast",
    says: "Write `steel`, `cast-iron`, `bronze`, `brass`, `aluminium` or `white-metal` here, not `cast`. Is `cast-iron` meant?",
  },
  {
    under: step,
    line: "raise beam on jack",
    on: "beam",
    says: "`beam` can't go here. The line is written: raise on jack|lift|crane|centre stand|paddock stand|bench.",
    fixed: ["raise on jack"],
  },
  { under: part, line: "held by", on: "by", says: "A name is missing after this: held by FASTENER…." },
  {
    under: part,
    line: "tourque 5 N.m",
    on: "tourque",
    says: "`tourque` isn't a line of a part. Its lines start with each, qty, number, critical, renew, held and others.",
  },
  { under: fastener, line: "tourque 5 .. 6 N.m", on: "tourque", says: "`tourque` starts no line here. Is `torque` meant?", fixed: ["torque 5 .. 6 N.m"] },
  { line: 'prat hub "Hub"', on: "prat", says: "`prat` starts no line here. Is `part` meant?", fixed: ['part hub "Hub"'] },
  { line: 'Part hub "Hub"', on: "Part", says: "`Part` starts no line here. Is `part` meant?", fixed: ['part hub "Hub"'] },
  { line: 'the part hub "Hub"', on: "the", says: "Nothing goes before `part`: the line starts with it.", fixed: ['part hub "Hub"'] },
  { under: part, line: 'n ote "worn"', on: "n ote", says: "Is `note` meant? It is one word.", fixed: ['note "worn"'] },
  { under: part, line: '"note "worn"', on: '"', says: "The quote before `note` does not belong there.", fixed: ['note "worn"'] },
  { under: part, line: "torque 5 .. 6 N.m", on: "torque", says: "`torque` belongs to a fastener, not to a part." },
  { under: part, line: "undo hub-nut", on: "undo", says: "`undo` is work: write it in a step." },
  {
    under: 'gauge dial "Dial"',
    line: "check 2026-02-01",
    on: "check",
    says: '`check` starts an entry of its own: check NAME ["what good looks like"]. Is `checked` meant?',
    fixed: ["checked 2026-02-01"],
  },
  { under: step, line: "release spring", on: "release", says: '`release` starts an entry of its own: release by "…" [DATE] [at Q].' },
  {
    under: part,
    line: '"left one is bent"',
    on: '"left one is bent"',
    says: "A line starts with a word that says what it is. Is this a note?",
    fixed: ['note "left one is bent"'],
  },
  { under: part, line: 'note\u200b "x"', on: "\u200b", says: "There is an invisible character here. Delete it.", fixed: ['note "x"'] },
  { under: measure, line: "left ½ in", on: "½", says: "A fraction is written with a stroke: 1/2." },
  { under: measure, line: "left", on: "left", says: "A figure is missing after this: left 0.014, 0.015 in." },
  { under: measure, line: "left 0.014, in", on: "in", says: "A figure is wanted here, not `in`: left 0.014, 0.015 in." },
  { under: step, line: "fit hub at left", on: "at", says: "Write the place straight after the name: fit hub left.", fixed: ["fit hub left"] },
  { under: step, line: "remove hub from left", on: "from", says: "Write the place straight after the name: remove hub left.", fixed: ["remove hub left"] },
  { under: step, line: "fit new hub", on: "new", says: "Write `new` after the name: fit hub new.", fixed: ["fit hub new"] },
  { under: step, line: "fit new hub, seal left", on: "new", says: "Write `new` after the name: fit hub new.", fixed: ["fit hub, seal left new"] },
  { under: step, line: "loosen hub-nut 2 left", on: "loosen", says: "`loosen` is written `slacken`.", fixed: ["slacken hub-nut 2 left"] },
  { under: step, line: "slack off hub-nut", on: "slack off", says: "`slack off` is written `slacken`.", fixed: ["slacken hub-nut"] },
  { under: step, line: "drive out hub", on: "drive out", says: "`drive out` is written `remove`.", fixed: ["remove hub"] },
  { under: step, line: "press hub", on: "press", says: "`press` may mean `fit` or `remove`.", fixed: ["fit hub", "remove hub"] },
  { under: step, line: "adjust hub-nut", on: "adjust", says: "`adjust` may mean `tighten` or `slacken`.", fixed: ["tighten hub-nut", "slacken hub-nut"] },
  { under: step, line: "Refit hub left", on: "Refit", says: "`Refit` is written `fit`.", fixed: ["fit hub left"] },
  { under: step, line: "install hub new", on: "install", says: "`install` is written `fit`.", fixed: ["fit hub new"] },
  { under: step, line: "unscrew hub-nut", on: "unscrew", says: "`unscrew` is written `undo`.", fixed: ["undo hub-nut"] },
  { under: step, line: "wash hub", on: "wash", says: "`wash` is written `clean`.", fixed: ["clean hub"] },
  { under: step, line: "jack up", on: "jack up", says: "`jack up` is written `raise on jack`.", fixed: ["raise on jack"] },
  { under: step, line: "jack up front", on: "jack up", says: "`jack up` is written `raise on jack`.", fixed: [] },
  { under: step, line: "split-pin hub-nut left", on: "split-pin", says: "`split-pin` is written `lock`.", fixed: ["lock hub-nut left"] },
  {
    under: step,
    line: "torque hub-nut to 50 Nm",
    on: "torque",
    says: "`torque` is what a fastener is declared with; in a step it is written `tighten`: tighten FASTENER to Q.",
    fixed: ["tighten hub-nut to 50 Nm"],
  },
  {
    under: step,
    line: "torque hub-nut left 50 Nm # dry",
    on: "torque",
    says: "`torque` is what a fastener is declared with; in a step it is written `tighten`: tighten FASTENER to Q.",
    fixed: ["tighten hub-nut left to 50 Nm # dry"],
  },
  { under: step, line: "raise on centre", on: "centre", says: "Two words name it: centre stand.", fixed: ["raise on centre stand"] },
  { under: finding, line: "is tight", on: "tight", says: "Write `serviceable` for `tight`.", fixed: ["is serviceable"] },
  { under: finding, line: "is OK", on: "OK", says: "Write `serviceable` for `OK`.", fixed: ["is serviceable"] },
  {
    under: finding,
    line: "is badly worn",
    on: "badly",
    says: 'Leave `badly` out. How much is a reading, or a text after the condition: worn "step of 10 thou".',
    fixed: ["is worn"],
  },
  {
    under: finding,
    line: "is worn slightly, bent",
    on: "slightly",
    says: 'Leave `slightly` out. How much is a reading, or a text after the condition: worn "step of 10 thou".',
    fixed: ["is worn, bent"],
  },
  { under: finding, line: "is rusty", on: "rusty", says: "Write `corroded` for `rusty`.", fixed: ["is corroded"] },
  { under: finding, line: "decision scrap", on: "scrap", says: "Write `discard` for `scrap`.", fixed: ["decision discard"] },
  {
    under: fastener,
    line: `locked by split pin${"(".repeat(3)}`,
    on: "(",
    says: '`(` can\'t go here. The line is written: locked by LOCKING [for N] | locked by nothing "why".',
  },
];

describe("a broken line is told", () => {
  it.each(rows)("$line", ({ under, line, on, says, fixed }) => {
    const text = under === undefined ? `${line}\n` : `${under}\n  ${line}\n`;
    const faults = faultsIn(text);
    expect(faults.map((it) => it.fault.message)).toEqual([says]);
    const [{ line: at, fault }] = faults as [(typeof faults)[number]];
    expect(at).toBe(under === undefined ? 0 : 1);
    const written = under === undefined ? line : `  ${line}`;
    expect(written.slice(fault.at.from, fault.at.to)).toBe(on);
    if (fixed !== undefined) expect(fault.fixes.map((fix) => fixedLine(written, fix).trimStart())).toEqual(fixed);
    // What a fix leaves is read without a fault.
    for (const fix of fault.fixes) {
      const now = under === undefined ? fixedLine(written, fix) : `${under}\n${fixedLine(written, fix)}`;
      const left = faultsOf(readSheet(now)).filter((it) => !text.includes("cast iron") || it.fault.message === "");
      expect(
        left.map((it) => it.fault.message),
        now,
      ).toEqual([]);
    }
  });
});

describe("words that are not read", () => {
  it.each(meantWords)("$where: $typed", ({ typed, where, write }) => {
    const line = where === "action" ? `${typed} hub-nut` : where === "condition" ? `is ${typed}` : `decision ${typed}`;
    const [found, ...more] = faultsIn(`${where === "action" ? step : finding}\n  ${line}`);
    expect(more).toEqual([]);
    for (const it of write) expect(found?.fault.message, line).toContain(`\`${it}\``);
    for (const fix of found?.fault.fixes ?? []) if (where === "action") expect(faultsIn(`${step}\n${fixedLine(`  ${line}`, fix)}`)).toEqual([]);
  });
});

describe("a message", () => {
  it("stands once a line, inside the line, and says nothing of tokens", () => {
    for (const { under, line } of rows) {
      const [found] = faultsIn(under === undefined ? line : `${under}\n  ${line}`);
      const length = under === undefined ? line.length : line.length + 2;
      expect(found?.fault.at.from).toBeGreaterThanOrEqual(0);
      expect(found?.fault.at.to).toBeLessThanOrEqual(length);
      expect(found?.fault.at.to).toBeGreaterThan(found?.fault.at.from as number);
      expect(found?.fault.message).not.toMatch(/token|expect|invalid|undefined|NaN|object/i);
    }
  });
});
