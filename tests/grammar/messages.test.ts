// What is said of lines that can't be read: the words, where they stand, and that each fix leaves a line without a fault.
import { describe, expect, it } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { conditions, decisions, statuses, verdicts } from "../../grammar/words.ts";
import { meantWords } from "../../grammar/words/meant-words.ts";
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
const sheet = 'sheet "S"';
const supplier = 'supplier tarn "Tarn"';
const gauge = 'gauge mic "Micrometer"';
const fluid = 'fluid hub-oil "Hub oil"';
const release = 'release by "A. Moor"';
const heads: Readonly<Record<string, string>> = { sheet, part, fastener, fluid, limit, gauge, finding, supplier, offer, order, release };

const rows: readonly Row[] = [
  // The place of a list given each time, a small word with its letters turned, a line that ends before its figure.
  {
    under: step,
    line: "remove outer left, inner left, hub-seal left",
    on: "outer left, inner left, hub-seal left",
    says: "The place of them all comes once, behind the last: outer, inner, hub-seal left.",
    fixed: ["remove outer, inner, hub-seal left"],
  },
  {
    under: step,
    line: "fit outer left, inner left new",
    on: "outer left, inner left new",
    says: "Are all of them new? fit outer, inner left new. If not, a line for each: fit outer left / fit inner left new.",
    fixed: ["fit outer left\n  fit inner left new", "fit outer, inner left new"],
  },
  {
    under: step,
    line: "remove outer left, inner right",
    on: "outer left, inner right",
    says: "What has a place of its own has its own line: remove outer left / remove inner right.",
    fixed: ["remove outer left\n  remove inner right"],
  },
  {
    under: step,
    line: "tighten hub-nut left, lug left to 90 N.m",
    on: "hub-nut left, lug left to 90 N.m",
    says: "What has a place of its own has its own line: tighten hub-nut left / tighten lug left to 90 N.m.",
    fixed: [],
  },
  {
    under: step,
    line: "tighten hub-nut to 40 then 90 N.m",
    on: "then",
    says: "What it is pulled to in turn is joined by commas: to 40, 90 N.m.",
    fixed: ["tighten hub-nut to 40, 90 N.m"],
  },
  {
    under: measure,
    line: "uphill 2 1.20 mm",
    on: "uphill 2 1.20",
    says: "Of several at a place the figures go on its line in turn, the first one's first: uphill …, 1.20 mm.",
  },
  {
    under: measure,
    line: "1 uphill 1.20 mm",
    on: "1 uphill 1.20",
    says: "Of several at a place the figures go on its line in turn, the first one's first: uphill 1.20, … mm.",
  },
  {
    line: "shims cap-shims high-pressure-side",
    on: "high-pressure-side",
    says: "Shims have no place. Those of each place have a name of their own: shims cap-shims-high-pressure-side.",
    fixed: ["shims cap-shims-high-pressure-side"],
  },
  {
    under: step,
    line: 'fit hub fro now "dry build"',
    on: "fro",
    says: 'Is `for now` meant? fit hub for now "dry build".',
    fixed: ['fit hub for now "dry build"'],
  },
  { under: step, line: "fit hub fro left", on: "fro", says: "`fro` may be `from` or `for`, or a name. Write which." },
  { line: "offer fro tarn", on: "fro", says: "`fro` may be `from` or `for`, or a name. Write which." },
  { line: "offer hub fro", on: "fro", says: "`fro` may be `from` or `for`, or a name. Write which." },
  {
    under: release,
    line: "recheck hub-nut",
    on: "hub-nut",
    says: "Write after how much it is tried again, a distance, hours or a time: recheck hub-nut after ….",
    fixed: ["recheck hub-nut after ___"],
  },
  // What was written where it is thought of.
  {
    under: step,
    line: "fit bush new near, far",
    on: "new near, far",
    says: "`new` goes behind the places: near, far new.",
    fixed: ["fit bush near, far new"],
  },
  {
    under: step,
    line: "tighten cap-bolt to 100 lbf.ft dry",
    on: "dry",
    says: "`dry` stands with the torque where it is declared: torque 90 .. 110 lbf.ft dry. Here a note says it.",
    fixed: [],
  },
  {
    under: order,
    line: "bush 2 price 31.00 GBP",
    on: "bush 2",
    says: "What is ordered goes after `item`: item bush 2.",
    fixed: ["item bush 2 price 31.00 GBP"],
  },
  {
    under: gauge,
    line: "every 12 months",
    on: "every",
    says: "How often it is checked goes behind the day on which it was: checked 2026-04-11 every 12 months.",
    fixed: [],
  },
  { under: finding, line: "is worn dry", on: "dry", says: "What was found is joined by commas: worn, dry.", fixed: ["is worn, dry"] },
  // A text that has lost the quote it begins with.
  { line: 'part hub Front hub"', on: "Front hub", says: 'A text has a quote at both ends: "Front hub".', fixed: ['part hub "Front hub"'] },
  { under: finding, line: 'is worn at the lip"', on: "at the lip", says: 'A text has a quote at both ends: "at the lip".', fixed: ['is worn "at the lip"'] },
  {
    under: step,
    line: 'done by A. Moor" 2026-06-10',
    on: "A. Moor",
    says: 'A text has a quote at both ends: "A. Moor".',
    fixed: ['done by "A. Moor" 2026-06-10'],
  },
  { under: fastener, line: "torque 45 .. 50 lbf,ft", on: "lbf,ft", says: "The unit is written with a point: lbf.ft.", fixed: ["torque 45 .. 50 lbf.ft"] },
  { under: step, line: "tighten hub-nut to 20 N,m", on: "N,m", says: "The unit is written with a point: N.m.", fixed: ["tighten hub-nut to 20 N.m"] },
  {
    under: step,
    line: "tighten hub-nut to 60 125 lbf.ft",
    on: "125",
    says: "What it is pulled to in turn is joined by commas: to 60, 125 lbf.ft.",
    fixed: ["tighten hub-nut to 60, 125 lbf.ft"],
  },
  { under: measure, line: "0.", on: ".", says: "A figure does not end with a point. Write all of it: 0, or 0.5.", fixed: [] },
  {
    under: measure,
    line: "1 mm by rule",
    on: "by rule",
    says: "What it was read by stands on the line above: `measure LIMIT found by GAUGE`. Take it out here.",
    fixed: [],
  },
  {
    under: offer,
    line: "each price 8.40 GBP",
    on: "each",
    says: "`each` goes behind the price: price 8.40 GBP each.",
    fixed: ["price 8.40 GBP each"],
  },
  {
    under: step,
    line: "front 0.7590, 0.7582 in",
    on: "front",
    says: "A reading stands under the line that says of what it is: `measure LIMIT found` or `measure LIMIT final`. Write that above it.",
    fixed: [],
  },
  { under: step, line: "un", on: "un", says: "`un` starts no line here. Is `undo` or `under` meant?", fixed: [] },
  { under: limit, line: "set", on: "set", says: "Write what it is set to, and by what: set RANGE by NAME.", fixed: [] },
  { under: part, line: "renew wi", on: "wi", says: "Is `with` meant? Names are joined by commas: renew, wi.", fixed: ["renew with ___"] },
  // A quote that came in by a slip is taken away, not closed.
  { under: finding, line: 'decision reuse"', on: '"', says: "This quote does not belong there.", fixed: ["decision reuse"] },
  { under: measure, line: '1 mm"', on: '"', says: "This quote does not belong there.", fixed: ["1 mm"] },
  { under: sheet, line: 'opened 2026-06-01"', on: '"', says: "This quote does not belong there.", fixed: ["opened 2026-06-01"] },
  { under: part, line: 'mass 9" kg', on: '"', says: "This quote does not belong there.", fixed: ["mass 9 kg"] },
  { line: 'part "hub "Front hub"', on: '"', says: "This quote does not belong there.", fixed: ['part hub "Front hub"'] },
  {
    under: fastener,
    line: 'thread "M10x1',
    on: '"M10x1',
    says: "This text has no closing quote.",
    fixed: ['thread "M10x1"', "thread M10x1"],
  },
  // What a line is of stands before its first word: it is turned, and nothing of it is taken away.
  { under: part, line: '"OS-31" number', on: '"OS-31" number', says: 'The line starts with `number`: number "OS-31".', fixed: ['number "OS-31"'] },
  { under: part, line: "9 mass kg", on: "9 mass kg", says: "The line starts with `mass`: mass 9 kg.", fixed: ["mass 9 kg"] },
  { under: part, line: "cover behind", on: "cover behind", says: "The line starts with `behind`: behind cover.", fixed: ["behind cover"] },
  { under: order, line: "2026-06-08 received status", on: "2026-06-08", says: "Nothing goes before `received`: the line starts with it.", fixed: [] },
  { line: 'part "Front hub" hub', on: '"Front hub"', says: 'The short name comes first, then the text: hub "Front hub".', fixed: ['part hub "Front hub"'] },
  // A word that denies is no name.
  ...["not", "never", "no", "except", "without", "but"].flatMap((no): Row[] =>
    [
      { under: part, line: `behind cover ${no}` },
      { under: part, line: `behind cover, ${no}` },
      { under: limit, line: `set 12 .. 18 mm by hub-nut ${no}` },
      { under: 'hazard spring "Spring"', line: `safe before hub-nut ${no}` },
      { under: step, line: `undo hub-nut ${no} left` },
      { under: step, line: `grease ${no} bush` },
      { under: step, line: `tighten ${no} hub-nut left` },
      { line: `part ${no} hub "Hub"` },
    ].map((it) => ({
      ...it,
      on: no,
      says: `\`${no}\` is no name: it turns round what the line says. Write what is so, and what is not so in a \`note\`.`,
      fixed: [],
    })),
  ),
  // Two words for one, where the first of them is a word of another entry.
  { under: step, line: "torque up hub-nut to 20 lbf.ft", on: "torque up", says: "`torque up` is written `tighten`.", fixed: ["tighten hub-nut to 20 lbf.ft"] },
  // Nothing is written that would be the next fault, or no day.
  { line: "offer from tarn", on: "from", says: "Before `from` the line needs what it is of: offer ITEM from SUPPLIER.", fixed: [] },
  { line: 'stock split pin x 1 in 8 "Tin"', on: "x", says: 'A figure is wanted here, not `x`: stock ITEM N|Q ["where"] [DATE].', fixed: [] },
  {
    under: part,
    line: "mass 9 kg about 5",
    on: "about",
    says: "A figure is wanted here, and an estimate is none: write what was read or counted. What is only thought goes in a note.",
    fixed: [],
  },
  {
    under: gauge,
    line: "checked 2026-02-10 every 12 MONTHS",
    on: "MONTHS",
    says: "Is `months` meant, not `MONTHS`? Checked DATE [every N months].",
    fixed: ["checked 2026-02-10 every 12 months"],
  },
  { under: order, line: "status received 2026-06-0", on: "2026-06-0", says: "A date is written year, month, day: 2026-04-11.", fixed: [] },
  { under: fastener, line: 'critical "the arm" new', on: "new", says: '`new` can\'t go here. The line is written: critical ["what is lost"].', fixed: [] },
  {
    line: 'seen arm-straight final left good "true"',
    on: "left",
    says: 'The place goes behind what was seen: seen arm-straight final good "…" left. Without it the line speaks of every place.',
    fixed: ['seen arm-straight final good "true" left'],
  },
  {
    line: 'seen arm-straight left, right final good by "A. Moor"',
    on: "left, right",
    says: "The place goes behind what was seen: seen arm-straight final good left, right. Without it the line speaks of every place.",
    fixed: ['seen arm-straight final good left, right by "A. Moor"'],
  },
  {
    line: "seen near taper-blue final good",
    on: "near",
    says: "The place goes behind what was seen: seen taper-blue final good near. Without it the line speaks of every place.",
    fixed: ["seen taper-blue final good near"],
  },
  { under: sheet, line: "reading 61 220 km", on: "61 220", says: "A figure is written without spaces: 61220 km.", fixed: ["reading 61220 km"] },
  { line: "measure float near final", on: "near", says: "The place goes under it, before its figure: measure float final, and below it near 0.004 in." },
  {
    under: step,
    line: "tighten arm-bolt left 1 to 37 lbf.ft",
    on: "1",
    says: "Write how many straight after the name, then the place: tighten arm-bolt 1 left to 37 lbf.ft.",
    fixed: ["tighten arm-bolt 1 left to 37 lbf.ft"],
  },
  {
    line: "shims cap-shims near",
    on: "near",
    says: "Shims have no place. Those of each place have a name of their own: shims cap-shims-near.",
    fixed: ["shims cap-shims-near"],
  },
  {
    under: finding,
    line: "is metallic, fragments from main-shell, rod-shell",
    on: "rod-shell",
    says: "One name goes behind `from`. Say it of each: fragments from main-shell, fragments from rod-shell.",
    fixed: ["is metallic, fragments from main-shell, fragments from rod-shell"],
  },
  // Half a word that several begin with is none of them yet: a fix for each, so that no editor takes one at once.
  { under: step, line: "fi hub", on: "fi", says: "`fi` starts no line here. Is `fit` or `fill` meant?", fixed: ["fit hub", "fill hub"] },
  {
    under: order,
    line: "status re 2026-05-01",
    on: "re",
    says: "Write `held`, `placed`, `sent`, `received`, `cancelled` or `returned` here, not `re`. Is `received` or `returned` meant?",
    fixed: ["status received 2026-05-01", "status returned 2026-05-01"],
  },
  {
    under: fastener,
    line: "thread 1/2 x 20 cycle",
    on: "1/2 x 20 cycle",
    says: 'A thread of another kind goes in quotes: "1/2 x 20 cycle".',
    fixed: ['thread "1/2 x 20 cycle"'],
  },
  { under: part, line: "note 'as it came off'", on: "'as it came off'", says: "Write a text in double quotes.", fixed: ['note "as it came off"'] },
  { under: part, line: "note 'as it came", on: "'", says: "Write a text in double quotes." },
  { under: step, line: "fil oil 9 l", on: "fil", says: "`fil` starts no line here. Is `fill` meant?", fixed: ["fill oil 9 l"] },
  { under: step, line: "tight hub-nut", on: "tight", says: "`tight` starts no line here. Is `tighten` meant?", fixed: ["tighten hub-nut"] },
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
    says: '`zebra` isn\'t a condition. There are worn, cracked, bent, loose, missing and more; where none of them fits, damaged "zebra".',
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
    line: "tighten cap-bolt 1, 3 to 50 lbf.ft",
    on: "1, 3",
    says: "A figure behind a name is how many, not which ones: cap-bolt 2. Which ones goes into a `note`.",
    fixed: ['tighten cap-bolt 2 to 50 lbf.ft\n  note "cap-bolt 1, 3"'],
  },
  {
    under: step,
    line: "tighten cap-bolt 1, 2 and 4 to 50 lbf.ft",
    on: "1, 2 and 4",
    says: "A figure behind a name is how many, not which ones: cap-bolt 3. Which ones goes into a `note`.",
    fixed: ['tighten cap-bolt 3 to 50 lbf.ft\n  note "cap-bolt 1, 2 and 4"'],
  },
  {
    under: step,
    line: "tighten cap-bolt 1 .. 3 to 50 lbf.ft",
    on: "1 .. 3",
    says: "A figure behind a name is how many, not which ones: cap-bolt 3. Which ones goes into a `note`.",
    fixed: ['tighten cap-bolt 3 to 50 lbf.ft\n  note "cap-bolt 1 .. 3"'],
  },
  {
    under: step,
    line: "lock cap-bolt 1 to 3 new",
    on: "1 to 3",
    says: "A figure behind a name is how many, not which ones: cap-bolt 3. Which ones goes into a `note`.",
    fixed: ['lock cap-bolt 3 new\n  note "cap-bolt 1 to 3"'],
  },
  {
    under: step,
    line: "undo cap-bolt 1 and 2",
    on: "1 and 2",
    says: "A figure behind a name is how many, not which ones: cap-bolt 2. Which ones goes into a `note`.",
    fixed: ['undo cap-bolt 2\n  note "cap-bolt 1 and 2"'],
  },
  {
    under: step,
    line: "remove cup, cone left, cone right",
    on: "right",
    says: "The names come first, then the places of them all. Write a line of its own: remove cone right.",
  },
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
    line: "undo arm-nut left 2, right 2",
    on: "2",
    says: "How many goes straight after the name, and a place with its own number has its own line: undo arm-nut 2 left / undo arm-nut 2 right.",
  },
  {
    under: step,
    line: "tighten arm-nut left 2, right 2 to 45 lbf.ft",
    on: "2",
    says: "How many goes straight after the name, and a place with its own number has its own line: tighten arm-nut 2 left … / tighten arm-nut 2 right ….",
  },
  {
    under: step,
    line: "fit arm-nut left 1 new",
    on: "1",
    says: "Write how many straight after the name, then the place: fit arm-nut 1 left new.",
    fixed: ["fit arm-nut 1 left new"],
  },
  {
    under: step,
    line: "remove shim left, right 2",
    on: "2",
    says: "Write how many straight after the name, then the place: 2 left, right.",
  },
  {
    under: step,
    line: "fit hub left ne",
    on: "ne",
    says: "Is `new` meant? Places are joined by commas: left, ne.",
    fixed: ["fit hub left new", "fit hub left, ne"],
  },
  {
    under: step,
    line: "lock hub-nut left enw",
    on: "enw",
    says: "Is `new` meant? Places are joined by commas: left, enw.",
    fixed: ["lock hub-nut left new", "lock hub-nut left, enw"],
  },
  {
    under: step,
    line: "fit hub left fro",
    on: "fro",
    says: "Is `from` meant? Places are joined by commas: left, fro.",
    fixed: ["fit hub left from ___", "fit hub left, fro"],
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
    fixed: ['raise on jack\n  note "beam"'],
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
    says: 'How much is a reading, or a text after the condition: worn "badly".',
    fixed: ['is worn "badly"'],
  },
  {
    under: finding,
    line: "is worn slightly, bent",
    on: "slightly",
    says: 'How much is a reading, or a text after the condition: worn "slightly".',
    fixed: ['is worn "slightly", bent'],
  },
  { under: finding, line: "is rusty", on: "rusty", says: "Write `corroded` for `rusty`.", fixed: ["is corroded"] },
  { under: finding, line: "decision scrap", on: "scrap", says: "Write `discard` for `scrap`.", fixed: ["decision discard"] },
  { line: 'fastener axle nut "Axle nut"', on: "axle nut", says: "A name's words are joined by hyphens: axle-nut.", fixed: ['fastener axle-nut "Axle nut"'] },
  { line: 'gauge dial gauge "Dial"', on: "dial gauge", says: "A name's words are joined by hyphens: dial-gauge.", fixed: ['gauge dial-gauge "Dial"'] },
  {
    line: "fastener axle nut",
    on: "axle nut",
    says: 'A name\'s words are joined by hyphens: axle-nut. A text stands in quotes: "nut".',
    fixed: ["fastener axle-nut", 'fastener axle "nut"'],
  },
  {
    line: "supplier Weir Lane Bearings",
    on: "Weir Lane Bearings",
    says: 'Write a short name, then the words in quotes: weir-lane-bearings "Weir Lane Bearings".',
    fixed: ['supplier weir-lane-bearings "Weir Lane Bearings"'],
  },
  { line: "part hub Front hub", on: "Front hub", says: 'Put quotes around a text: "Front hub".', fixed: ['part hub "Front hub"'] },
  {
    line: 'part hub "Hub" each side',
    on: "each",
    says: "One line, one fact: `each` starts another. Put it on a line of its own.",
    fixed: ['part hub "Hub"\n  each side'],
  },
  { under: fastener, line: "qty 4 each side", on: "each", says: "The count at each place goes after it: each side 4.", fixed: ["each side 4"] },
  { line: "places side nearside offside", on: "offside", says: "Names are joined by commas: nearside, offside.", fixed: ["places side nearside, offside"] },
  { line: "places side left and right", on: "and", says: "Names are joined by commas: left, right.", fixed: ["places side left, right"] },
  { under: step, line: "remove hub and drum", on: "and", says: "Names are joined by commas: hub, drum.", fixed: ["remove hub, drum"] },
  { under: step, line: "undo hub-nut left and right", on: "and", says: "Places are joined by commas: left, right.", fixed: ["undo hub-nut left, right"] },
  { under: finding, line: "is loose and unlocked", on: "and", says: "Conditions are joined by commas: loose, unlocked.", fixed: ["is loose, unlocked"] },
  {
    line: "seen blue final good left by",
    on: "by",
    says: 'A text in quotes is missing after this: seen CHECK found|trial|final good|bad ["…"] [PLACE…] [by "…"] [DATE].',
    fixed: [],
  },
  { line: "finding hub-nut, cap-nut", on: ", cap-nut", says: "A finding is of one thing. Write another one: finding cap-nut.", fixed: [] },
  { line: "measure float, blue final", on: ", blue", says: "A reading is of one limit. Write another one: measure blue.", fixed: [] },
  { line: "seen blue and float final good", on: "and float", says: "A look is for one check. Write another one: seen float.", fixed: [] },
  { line: "finding hub-nut and cap-nut", on: "and cap-nut", says: "A finding is of one thing. Write another one: finding cap-nut.", fixed: [] },
  {
    under: part,
    line: "held by hub-nut and lock-nut",
    on: "and",
    says: "Names are joined by commas: hub-nut, lock-nut.",
    fixed: ["held by hub-nut, lock-nut"],
  },
  {
    under: part,
    line: "held by axle nut",
    on: "nut",
    says: "Names are joined by commas, the words of one name by hyphens: axle, nut or axle-nut.",
    fixed: ["held by axle, nut", "held by axle-nut"],
  },
  {
    under: step,
    line: "undo wheel nuts offside",
    on: "wheel nuts offside",
    says: "A name's words are joined by hyphens: wheel-nuts offside. Places are joined by commas: nuts, offside.",
    fixed: ["undo wheel-nuts offside", "undo wheel nuts, offside"],
  },
  {
    line: "finding hub-nut is loose",
    on: "is",
    says: "One line, one fact: `is` starts another. Put it on a line of its own.",
    fixed: ["finding hub-nut\n  is loose"],
  },
  {
    line: "order to weir",
    on: "to weir",
    says: 'An order has a reference before that, its number or any words: order "___" to weir.',
    fixed: ['order "___" to weir'],
  },
  {
    line: "order from weir lane",
    on: "from weir lane",
    says: 'An order has a reference before that, its number or any words: order "___" to weir-lane.',
    fixed: ['order "___" to weir-lane'],
  },
  {
    line: "measure float found left 0.004 in",
    on: "left 0.004 in",
    says: "A reading goes on a line of its own below: left 0.004 in.",
    fixed: ["measure float found\n  left 0.004 in"],
  },
  { line: "day 1 March 2026", on: "1 March 2026", says: "A date is written year, month, day: 2026-03-01.", fixed: ["day 2026-03-01"] },
  { under: step, line: "done March 1, 2026", on: "March 1, 2026", says: "A date is written year, month, day: 2026-03-01.", fixed: ["done 2026-03-01"] },
  { under: step, line: "done on 2026-03-01", on: "on", says: "Leave `on` out: done 2026-03-01.", fixed: ["done 2026-03-01"] },
  { under: step, line: "done 2026-03-01 J Moor", on: "J Moor", says: 'Who did it goes after `by`: by "J Moor".', fixed: ['done 2026-03-01 by "J Moor"'] },
  { line: "stock 2 hub-seal", on: "2", says: "The count goes after the name: hub-seal 2.", fixed: ["stock hub-seal 2"] },
  { under: step, line: "undo 4 wheel-nut left", on: "4", says: "The count goes after the name: wheel-nut 4.", fixed: ["undo wheel-nut 4 left"] },
  { under: order, line: "2 x hub-seal", on: "2 x hub-seal", says: "What is ordered goes after `item`: item hub-seal 2.", fixed: ["item hub-seal 2"] },
  { under: order, line: "hub-seal 2", on: "hub-seal 2", says: "What is ordered goes after `item`: item hub-seal 2.", fixed: ["item hub-seal 2"] },
  {
    under: order,
    line: "received hub-seal on 2026-05-06",
    on: "hub-seal",
    says: "How many came? The count goes after the name: hub-seal 1 on 2026-05-06.",
    fixed: [],
  },
  { under: order, line: "sent 2026-05-01", on: "sent", says: "`sent` is written `status sent`.", fixed: ["status sent 2026-05-01"] },
  {
    under: step,
    line: "tighten hub-nut to 45 lbf.ft left",
    on: "left",
    says: "The place goes straight after the name: tighten hub-nut left to 45 lbf.ft.",
    fixed: ["tighten hub-nut left to 45 lbf.ft"],
  },
  { under: step, line: "fit hub new left", on: "left", says: "The place goes straight after the name: fit hub left new.", fixed: ["fit hub left new"] },
  {
    under: step,
    line: "lock hub-nut split pin",
    on: "split pin",
    says: "What it is locked with goes after `with`: with split pin; `new` alone is a new one of its own kind.",
    fixed: ["lock hub-nut with split pin"],
  },
  {
    under: step,
    line: "lock hub-nut left lock wire",
    on: "lock wire",
    says: "What it is locked with goes after `with`: with lock wire; `new` alone is a new one of its own kind.",
    fixed: ["lock hub-nut left with lock wire"],
  },
  {
    under: step,
    line: 'remove hub "came off by hand"',
    on: '"came off by hand"',
    says: 'Words of your own go in a note: note "came off by hand".',
    fixed: ['remove hub\n  note "came off by hand"'],
  },
  {
    under: 'fastener hub-nut "Hub nut"',
    line: `torque 30 .. 35 lbf.ft "Maker's card 4"`,
    on: `"Maker's card 4"`,
    says: `Where a figure is from goes on a line of its own: source "Maker's card 4".`,
    fixed: [`torque 30 .. 35 lbf.ft\n  source "Maker's card 4"`],
  },
  {
    under: 'limit drum-bore "Bore"',
    line: 'worn max 180 mm "Sheet 2"',
    on: '"Sheet 2"',
    says: 'Where a figure is from goes on a line of its own: source "Sheet 2".',
    fixed: ['worn max 180 mm\n  source "Sheet 2"'],
  },
  {
    under: step,
    line: "undo hub-nut with a long bar",
    on: "with a long bar",
    says: 'A tool goes on a line of its own: tool "long bar".',
    fixed: ['undo hub-nut\n  tool "long bar"'],
  },
  {
    under: step,
    line: "grease hub with graphite",
    on: "with graphite",
    says: 'Words of your own go in a note: note "with graphite".',
    fixed: ['grease hub\n  note "with graphite"'],
  },
  { under: step, line: "fill hub-oil to level", on: "to level", says: "`fill` without a figure says that it is full.", fixed: ["fill hub-oil"] },
  { under: step, line: "chock front wheels", on: "front wheels", says: 'Put quotes around a text: "front wheels".', fixed: ['chock "front wheels"'] },
  { under: finding, line: "renew bearing", on: "renew", says: "`renew` is written `decision renew`." },
  { under: step, line: "raise on trolley jack", on: "trolley", says: "Leave `trolley` out: jack.", fixed: ["raise on jack"] },
  { under: step, line: "support on axle stands", on: "axle", says: "Leave `axle` out: stands.", fixed: ["support on stands"] },
  { under: part, line: "material mild steel", on: "mild", says: "Leave `mild` out: steel.", fixed: ["material steel"] },
  { under: step, line: "pull hub off left", on: "pull", says: "`pull … off` is written `remove`.", fixed: ["remove hub left"] },
  { under: step, line: "knock hub out", on: "knock", says: "`knock … out` is written `remove`.", fixed: ["remove hub"] },
  { under: step, line: "make spring safe", on: "make", says: "`make … safe` is written `safe`.", fixed: ["safe spring"] },
  { under: step, line: "fitted hub left", on: "fitted", says: "`fitted` is written `fit`.", fixed: ["fit hub left"] },
  { under: step, line: "took 2 h", on: "took", says: "`took` is written `takes`.", fixed: ["takes 2 h"] },
  { under: step, line: "not done", on: "not", says: 'What was not so is not written. Leave the line out, or make it a note: note "not done".', fixed: [] },
  {
    under: step,
    line: "let go hub-nut",
    on: "let",
    says: "This can't be read here. The line is written: let back FASTENER [N]… [PLACE…] by N flats|N turns|Q.",
    fixed: [],
  },
  { under: finding, line: "loose", on: "loose", says: "`loose` is written `is loose`.", fixed: ["is loose"] },
  { under: finding, line: 'worn, loose "by a turn"', on: "worn", says: "`worn` is written `is worn`.", fixed: ['is worn, loose "by a turn"'] },
  { under: finding, line: "renew", on: "renew", says: "`renew` is written `decision renew`.", fixed: ["decision renew"] },
  { under: finding, line: "left is loose", on: "left", says: "The place goes after the finding's name: finding NAME left.", fixed: [] },
  { under: finding, line: "is not locked", on: "not locked", says: "Write `unlocked` for `not locked`.", fixed: ["is unlocked"] },
  {
    under: finding,
    line: "is not good",
    on: "not",
    says: "Write what it is, not what it is not: worn, loose, missing, unlocked, serviceable and others.",
    fixed: [],
  },
  {
    under: finding,
    line: "is no split pin",
    on: "no split pin",
    says: 'Write `unlocked`, and the rest as a text: unlocked "no split pin".',
    fixed: ['is unlocked "no split pin"'],
  },
  { under: finding, line: "is 2 missing", on: "2", says: "The count goes after the finding's name: finding NAME 2.", fixed: [] },
  { under: finding, line: "is wrong bolt", on: "bolt", says: 'Put quotes around a text: wrong "bolt".', fixed: ['is wrong "bolt"'] },
  { under: finding, line: "is bent 3 mm", on: "3 mm", says: 'Put quotes around a text: bent "3 mm".', fixed: ['is bent "3 mm"'] },
  {
    under: fastener,
    line: "torque min 45 max 50 lbf.ft",
    on: "min 45 max 50",
    says: "A range is written with two dots: 45 .. 50.",
    fixed: ["torque 45 .. 50 lbf.ft"],
  },
  {
    under: fastener,
    line: "torque hand tight",
    on: "hand tight",
    says: 'How tight in words is written: by feel "hand tight".',
    fixed: ['torque by feel "hand tight"'],
  },
  { under: fastener, line: "thread 5/8 18 UNF", on: "5/8 18 UNF", says: "Size and pitch are joined by a hyphen: 5/8-18 UNF.", fixed: ["thread 5/8-18 UNF"] },
  { under: fastener, line: "thread M10 8.8", on: "8.8", says: "Its class has a word before it: class 8.8.", fixed: ["thread M10 class 8.8"] },
  // Worn when it is under that, or good while it is under that: nobody can tell, and one of the two condemns what is good and passes what is not.
  {
    under: limit,
    line: "worn over 0.010 in",
    on: "over 0.010",
    says: "Say which way it wears: may it be up to 0.010 (`worn max 0.010`), or down to it (`worn min 0.010`)?",
    fixed: ["worn max 0.010 in", "worn min 0.010 in"],
  },
  {
    under: limit,
    line: "worn under 0.010 in",
    on: "under 0.010",
    says: "Say which way it wears: may it be up to 0.010 (`worn max 0.010`), or down to it (`worn min 0.010`)?",
    fixed: ["worn max 0.010 in", "worn min 0.010 in"],
  },
  {
    under: limit,
    line: "worn > 0.010 in",
    on: ">",
    says: "Say which way it wears: may it be up to 0.010 (`worn max 0.010`), or down to it (`worn min 0.010`)?",
    fixed: [],
  },
  {
    under: limit,
    line: "worn < 0.010 in",
    on: "<",
    says: "Say which way it wears: may it be up to 0.010 (`worn max 0.010`), or down to it (`worn min 0.010`)?",
    fixed: [],
  },
  { under: limit, line: "worn max < 0.010 in", on: "<", says: "`max` says it already. Leave `<` out: worn max 0.010.", fixed: [] },
  { under: limit, line: "worn min > 0.010 in", on: ">", says: "`min` says it already. Leave `>` out: worn min 0.010.", fixed: [] },
  {
    under: limit,
    line: "not more than 0.5 mm",
    on: "not",
    says: "Write what it may be at the most or at the least: `worn max`, `worn min`, and the figure.",
    fixed: [],
  },
  {
    line: "places left, right",
    on: "left, right",
    says: "First a word for what kind of places they are: places side left, right.",
    fixed: ["places side left, right"],
  },
  { line: "places one, two", on: "one, two", says: "First a word for what kind of places they are: places place one, two.", fixed: ["places place one, two"] },
  { under: step, line: "done 20261006", on: "20261006", says: "A date is written year, month, day: 2026-10-06.", fixed: ["done 2026-10-06"] },
  { under: step, line: "takes 1 hour 30 min", on: "30 min", says: "A quantity has one figure and one unit: 90 min.", fixed: ["takes 90 min"] },
  { line: "measure float found with dial", on: "with", says: "What it was read with goes after `by`: by dial.", fixed: ["measure float found by dial"] },
  {
    under: step,
    line: "tighten hub-nut to 20-25 lbf.ft",
    on: "-",
    says: "Work has one torque, not a range: write the figure that it was tightened to. The range is declared with the fastener.",
    fixed: [],
  },
  {
    under: step,
    line: "tighten hub-nut left to 20 lbf.ft to 25 lbf.ft",
    on: "to",
    says: "Work has one torque, not a range: write the figure that it was tightened to. The range is declared with the fastener.",
    fixed: [],
  },
  // What was lost is not locked.
  {
    under: step,
    line: "lost hub-nut left",
    on: "lost",
    says: "What was found, lost or broke is an entry of its own: `finding NAME`, with `is missing` below it.",
    fixed: [],
  },
  {
    under: step,
    line: "broke hub-nut left",
    on: "broke",
    says: "What was found, lost or broke is an entry of its own: `finding NAME`, with `is broken` below it.",
    fixed: [],
  },
  // Of the pin, and not that the nut is split.
  {
    under: finding,
    line: "split pin missing",
    on: "split",
    says: "`split` isn't a line of a finding. Its lines start with is, because, decision, see.",
    fixed: [],
  },
  {
    under: step,
    line: "check hub left for cracks",
    on: "check",
    says: "In a step, looking at a thing is `inspect`. What it looked like at a check is an entry of its own: seen CHECK final good.",
    fixed: [],
  },
  { under: finding, line: "no play", on: "no", says: "What was not so is not written. Leave the line out, or make it a note.", fixed: [] },
  { line: "found hub left cracked", on: "found", says: "`found` starts no line. `finding` does: finding PART|FASTENER|FLUID [N] [PLACE…] [DATE].", fixed: [] },
  { under: limit, line: "max 0.010 in", on: "max", says: "`max` may mean `worn max` or `new max`.", fixed: ["worn max 0.010 in", "new max 0.010 in"] },
  { under: limit, line: 'from "Handbook"', on: "from", says: "Where figures are from is written `source`.", fixed: ['source "Handbook"'] },
  {
    under: limit,
    line: "0.002 to 0.006 in",
    on: "0.002",
    says: "A line of a limit starts with a word that says what it is: each, critical, source, new, worn, set and others. Figures alone go under `measure` only.",
    fixed: [],
  },
  { under: part, line: 'source "Handbook", p 5', on: ", p 5", says: 'One text holds all of it: "Handbook, p 5".', fixed: ['source "Handbook, p 5"'] },
  { under: supplier, line: "currency £", on: "£", says: "A currency is written by its code: GBP.", fixed: ["currency GBP"] },
  { under: sheet, line: "opened monday", on: "monday", says: "A date, such as 2026-04-11, is wanted here, not `monday`: opened DATE.", fixed: [] },
  { under: step, line: "- remove hub", on: "-", says: "Nothing goes before `remove`: the line starts with it.", fixed: ["remove hub"] },
  {
    under: step,
    line: "fit hub left new, seal left new",
    on: ",",
    says: "`new` ends what the line says. What comes next goes on a line of its own: fit seal left new.",
    fixed: ["fit hub left new\n  fit seal left new"],
  },
  {
    under: step,
    line: "fit hub new and seal new",
    on: "and",
    says: "`new` ends what the line says. What comes next goes on a line of its own: fit seal new.",
    fixed: ["fit hub new\n  fit seal new"],
  },
  {
    under: step,
    line: "tighten hub-nut hand tight",
    on: "hand tight",
    says: 'Words of your own go in a note: note "hand tight". That a fastener is tightened so is declared with it: torque by feel "hand tight".',
    fixed: ['tighten hub-nut\n  note "hand tight"'],
  },
  {
    under: step,
    line: "tighten hub-nut left finger tight",
    on: "finger tight",
    says: 'Words of your own go in a note: note "finger tight". That a fastener is tightened so is declared with it: torque by feel "finger tight".',
    fixed: ['tighten hub-nut left\n  note "finger tight"'],
  },
  {
    under: step,
    line: "tighten hub-nut left hand-tight",
    on: "hand-tight",
    says: 'Words of your own go in a note: note "hand-tight".',
    fixed: ['tighten hub-nut left\n  note "hand-tight"'],
  },
  {
    under: step,
    line: "tighten hub-nut left to 20 lbf.ft and lock new",
    on: "and lock",
    says: "One line, one fact: `lock` starts another. Put it on a line of its own.",
    fixed: ["tighten hub-nut left to 20 lbf.ft\n  lock hub-nut left new"],
  },
  {
    under: step,
    line: "tighten hub-nut to 20 lbf.ft, lock",
    on: ", lock",
    says: "One line, one fact: `lock` starts another. Put it on a line of its own.",
    fixed: ["tighten hub-nut to 20 lbf.ft\n  lock hub-nut"],
  },
  {
    under: step,
    line: "tighten and lock hub-nut left to 20 lbf.ft",
    on: "and lock",
    says: "One line, one fact: tighten hub-nut left to 20 lbf.ft, and below it lock hub-nut left.",
    fixed: ["tighten hub-nut left to 20 lbf.ft\n  lock hub-nut left"],
  },
  {
    under: step,
    line: "undo and remove hub",
    on: "and remove",
    says: "One line, one fact: undo hub, and below it remove hub.",
    fixed: ["undo hub\n  remove hub"],
  },
  {
    under: step,
    line: "buy seal",
    on: "buy",
    says: 'What is to be got is no work of a step: `decision renew` in a finding orders it, or write `need seal 1 "why"`.',
  },
  { under: step, line: "remove both hubs", on: "both", says: "Leave `both` out: where no place is named, all of them are meant.", fixed: ["remove hubs"] },
  { under: step, line: "remove the left hub", on: "the left hub", says: "The name comes first, then its place: remove hub left.", fixed: ["remove hub left"] },
  { line: "finding both hubs", on: "both", says: "Leave `both` out: where no place is named, all of them are meant.", fixed: ["finding hubs"] },
  { line: "finding the left hub", on: "the left hub", says: "The name comes first, then its place: finding hub left.", fixed: ["finding hub left"] },
  { line: "finding the hub", on: "the", says: "Leave `the` out: finding hub.", fixed: ["finding hub"] },
  {
    under: gauge,
    line: "checked 2026-01-10 due 2027-01-10",
    on: "due 2027-01-10",
    says: "How long that holds is written in months: every 12 months.",
    fixed: ["checked 2026-01-10 every 12 months"],
  },
  {
    under: gauge,
    line: "checked 2026-01-10 next 2026-07-10",
    on: "next 2026-07-10",
    says: "How long that holds is written in months: every 6 months.",
    fixed: ["checked 2026-01-10 every 6 months"],
  },
  {
    under: gauge,
    line: "checked 2026-01-10 due 2026-07-15",
    on: "due 2026-07-15",
    says: "How long that holds is written in months: every N months.",
    fixed: [],
  },
  {
    under: limit,
    line: "set 2 .. 5 mm",
    on: "mm",
    says: "What it is set by stands behind it: set 2 .. 5 mm by NAME. Where nothing sets it, the line is `worn` or `new`.",
    fixed: ["set 2 .. 5 mm by ___"],
  },
  { under: step, line: "remove old packing", on: "old", says: "Leave `old` out: remove packing.", fixed: ["remove packing"] },
  { under: step, line: "fill with oil", on: "with", says: "Leave `with` out: fill oil.", fixed: ["fill oil"] },
  {
    under: step,
    line: "tighten gland-nut a flat",
    on: "a flat",
    says: 'Words of your own go in a note: note "a flat".',
    fixed: ['tighten gland-nut\n  note "a flat"'],
  },
  {
    under: step,
    line: "drain oil into a tin",
    on: "into a tin",
    says: 'Words of your own go in a note: note "into a tin".',
    fixed: ['drain oil\n  note "into a tin"'],
  },
  {
    under: step,
    line: "tighten hub-nut left as before",
    on: "as before",
    says: 'Words of your own go in a note: note "as before".',
    fixed: ['tighten hub-nut left\n  note "as before"'],
  },
  {
    under: step,
    line: "tighten hub-nut to book",
    on: "book",
    says: "Write the figure that it was pulled to, with its unit; by what book stands under the fastener, as its `source`.",
  },
  { under: step, line: "renew packing", on: "renew", says: "A new one that goes on is written `fit NAME new`.", fixed: ["fit packing new"] },
  {
    under: fastener,
    line: `locked by split pin${"(".repeat(3)}`,
    on: "(",
    says: '`(` can\'t go here. The line is written: locked by LOCKING [for N] | locked by nothing "why".',
  },
  // What the trade writes elsewhere.
  {
    under: step,
    line: "fill hub-grease 60 g left, right",
    on: "left, right",
    says: "The place goes straight after the name: fill hub-grease left, right 60 g.",
    fixed: ["fill hub-grease left, right 60 g"],
  },
  {
    under: part,
    line: "each axle, side",
    on: "axle, side",
    says: "One kind of place goes behind `each`. What stands at each axle and each side has places of a kind of its own, such as places wheel front-left, front-right, rear-left, rear-right; then write each wheel.",
  },
  {
    under: fastener,
    line: "each axle each side",
    on: "axle each side",
    says: "One kind of place goes behind `each`. What stands at each axle and each side has places of a kind of its own, such as places wheel front-left, front-right, rear-left, rear-right; then write each wheel.",
  },
  {
    under: part,
    line: "each side x 2",
    on: "side x 2",
    says: "How many at each goes straight behind it: each side 2.",
    fixed: ["each side 2"],
  },
  {
    under: part,
    line: "renew in set",
    on: "in set",
    says: "All of one name together: renew in pairs, whatever their number. Parts of several names that make a set: matched with NAME.",
    fixed: ["renew in pairs"],
  },
  {
    under: part,
    line: "renew as a pair",
    on: "as a pair",
    says: "Those of both sides, or all at one place, together: renew in pairs.",
    fixed: ["renew in pairs"],
  },
  {
    line: 'part stud "Stud" (2 of 4)',
    on: "(2 of 4)",
    says: "How many there should be goes on a line of its own below: qty 4.",
    fixed: ['part stud "Stud"\n  qty 4'],
  },
  {
    under: step,
    line: "fit packing (4)",
    on: "(4)",
    says: "How many goes straight after the name, as a bare figure: packing 4.",
    fixed: ["fit packing 4"],
  },
  {
    under: step,
    line: "fit packing left (4) new",
    on: "(4)",
    says: "How many goes straight after the name, as a bare figure: packing 4 left.",
    fixed: ["fit packing 4 left new"],
  },
  {
    under: step,
    line: "undo stud-nut x 4",
    on: "x 4",
    says: "How many goes straight after the name, as a bare figure: stud-nut 4.",
    fixed: ["undo stud-nut 4"],
  },
  {
    under: step,
    line: "remove packing (all)",
    on: "(all)",
    says: "Leave (all) out: a name without a figure is all of them.",
    fixed: ["remove packing"],
  },
  {
    line: "finding stud (2 of 4)",
    on: "(2 of 4)",
    says: "How many goes straight after the name, as a bare figure: stud 2.",
    fixed: ["finding stud 2"],
  },
  {
    line: "finding stud 2 of 4",
    on: "of 4",
    says: "How many goes straight after the name, as a bare figure: stud 2.",
    fixed: ["finding stud 2"],
  },
  {
    under: order,
    line: "received stud (4)",
    on: "(4)",
    says: "How many goes straight after the name, as a bare figure: stud 4.",
    fixed: ["received stud 4"],
  },
  {
    under: fastener,
    line: "retained by spring clip",
    on: "spring clip",
    says: "Write `circlip` (sprung into a groove) or `R clip` (through a hole in a clevis pin) for `spring clip`.",
    fixed: ["retained by circlip", "retained by R clip"],
  },
  {
    under: fastener,
    line: "retained by snap-ring 30 mm",
    on: "snap-ring",
    says: "Write `circlip` for `snap ring`.",
    fixed: ["retained by circlip 30 mm"],
  },
  {
    under: fastener,
    line: "locked by lock washer",
    on: "lock washer",
    says: "Write `tab washer` (bent up against a flat) or `spring washer` (holds by friction) for `lock washer`.",
    fixed: ["locked by tab washer", "locked by spring washer"],
  },
  {
    line: "stock snap ring 30 mm 4",
    on: "snap ring",
    says: "Write `circlip` for `snap ring`.",
    fixed: ["stock circlip 30 mm 4"],
  },
  {
    under: fastener,
    line: "locked by self-locking nut M8",
    on: "M8",
    says: "The size of a self-locking nut is a length, the thread is the fastener's own: self-locking nut 8 mm.",
    fixed: ["locked by self-locking nut 8 mm"],
  },
  {
    line: "offer spring washer M10x1 from tarn",
    on: "M10x1",
    says: "The size of a spring washer is a length, the thread is the fastener's own: spring washer 10 mm.",
    fixed: ["offer spring washer 10 mm from tarn"],
  },
  {
    under: step,
    line: "fit bearing load",
    on: "load",
    says: "`load` is a word of the line here, so no place can be called that. Give the place another name wherever it stands, such as load-end.",
  },
  {
    under: supplier,
    line: "freight 8.50 free over 150 GBP",
    on: "8.50",
    says: "Money is a figure and its code: 8.50 GBP.",
  },
  // Where a text ends, the line goes on: a day, a count, a supplier does not go into the quotes.
  { under: step, line: "done by Ilse 2026-08-09", on: "Ilse", says: 'Put quotes around a text: "Ilse" 2026-08-09.', fixed: ['done by "Ilse" 2026-08-09'] },
  { under: step, line: "done by Ilse on 2026-08-09", on: "Ilse", says: 'Put quotes around a text: "Ilse" 2026-08-09.', fixed: ['done by "Ilse" 2026-08-09'] },
  { under: step, line: "done by Ilse left", on: "Ilse", says: 'Put quotes around a text: "Ilse" left.', fixed: ['done by "Ilse" left'] },
  {
    line: "release by I. Wren 2026-08-09 at 90412 km",
    on: "I. Wren",
    says: 'Put quotes around a text: "I. Wren" 2026-08-09 at 90412 km.',
    fixed: ['release by "I. Wren" 2026-08-09 at 90412 km'],
  },
  {
    line: 'release 2026-08-30 by "A. Moor" at 90412 km',
    on: "2026-08-30",
    says: 'Who released it comes first: release by "A. Moor" 2026-08-30 at 90412 km.',
    fixed: ['release by "A. Moor" 2026-08-30 at 90412 km'],
  },
  {
    line: "seen blue final good by Ilse 2026-08-09",
    on: "Ilse",
    says: 'Put quotes around a text: "Ilse" 2026-08-09.',
    fixed: ['seen blue final good by "Ilse" 2026-08-09'],
  },
  { line: "concession hub worn by Ilse", on: "worn", says: 'Put quotes around a text: "worn" by "Ilse".', fixed: ['concession hub "worn" by "Ilse"'] },
  {
    line: "pause waiting for parts 2026-08-09",
    on: "waiting for parts 2026-08-09",
    says: 'The day comes first, then the words in quotes: pause 2026-08-09 "waiting for parts".',
    fixed: ['pause 2026-08-09 "waiting for parts"'],
  },
  { line: "order LH-2231 to weir", on: "LH-2231 to weir", says: 'Put quotes around its reference: "LH-2231" to weir.', fixed: ['order "LH-2231" to weir'] },
  { line: "order LH-2231 from weir", on: "LH-2231 from weir", says: 'Put quotes around its reference: "LH-2231" to weir.', fixed: ['order "LH-2231" to weir'] },
  { line: 'order "LH-2231" from weir', on: "from weir", says: "Who it went to goes after `to`: to weir.", fixed: ['order "LH-2231" to weir'] },
  { line: 'order "LH-2231" weir', on: "weir", says: "Who it went to goes after `to`: to weir.", fixed: ['order "LH-2231" to weir'] },
  {
    line: "order LH-2231 weir",
    on: "LH-2231 weir",
    says: 'Put quotes around its reference, and write `to` before who it went to: "LH-2231" to weir. Or is all of it the reference: "LH-2231 weir"?',
    fixed: ['order "LH-2231" to weir', 'order "LH-2231 weir"'],
  },
  // An estimate is never a reading, nor a torque, nor a limit.
  {
    under: measure,
    line: "about 18 mm",
    on: "about",
    says: "An estimate is no reading: it would be judged as if it had been measured. Measure it, or make it a note.",
    fixed: ['note "about 18 mm"'],
  },
  {
    under: measure,
    line: "left roughly 18 mm",
    on: "roughly",
    says: "An estimate is no reading: it would be judged as if it had been measured. Measure it, or make it a note.",
    fixed: ['note "left roughly 18 mm"'],
  },
  {
    under: measure,
    line: "ca. 18 mm",
    on: "ca",
    says: "An estimate is no reading: it would be judged as if it had been measured. Measure it, or make it a note.",
    fixed: ['note "ca. 18 mm"'],
  },
  {
    under: measure,
    line: "~18 mm",
    on: "~",
    says: "An estimate is no reading: it would be judged as if it had been measured. Measure it, or make it a note.",
    fixed: ['note "~18 mm"'],
  },
  {
    under: measure,
    line: "18 mm or so",
    on: "or",
    says: "An estimate is no reading: it would be judged as if it had been measured. Measure it, or make it a note.",
    fixed: ['note "18 mm or so"'],
  },
  {
    under: measure,
    line: "18 mm approx.",
    on: "approx",
    says: "An estimate is no reading: it would be judged as if it had been measured. Measure it, or make it a note.",
    fixed: ['note "18 mm approx."'],
  },
  {
    under: measure,
    line: "18 mm?",
    on: "?",
    says: "An estimate is no reading: it would be judged as if it had been measured. Measure it, or make it a note.",
    fixed: ['note "18 mm?"'],
  },
  { under: measure, line: "72 - 75 mm", on: "-", says: "A reading is a figure, not a range. Write each that was read, with commas: 72, 75.", fixed: [] },
  { under: measure, line: "72 mm at the rim", on: "at the rim", says: "Where it was read stands before the figure: rim 72 mm.", fixed: ["rim 72 mm"] },
  {
    under: step,
    line: "tighten hub-nut left to about 18 lbf.ft",
    on: "about",
    says: "An estimate is no torque: it would be judged as if a wrench had shown it. Write what it was pulled to, or make it a note.",
    fixed: ['tighten hub-nut left\n  note "to about 18 lbf.ft"'],
  },
  {
    under: step,
    line: "tighten hub-nut to ~18 lbf.ft",
    on: "~",
    says: "An estimate is no torque: it would be judged as if a wrench had shown it. Write what it was pulled to, or make it a note.",
    fixed: ['tighten hub-nut\n  note "to ~18 lbf.ft"'],
  },
  {
    under: step,
    line: "tighten hub-nut to 18 lbf.ft or so",
    on: "or",
    says: "An estimate is no torque: it would be judged as if a wrench had shown it. Write what it was pulled to, or make it a note.",
    fixed: ['tighten hub-nut\n  note "to 18 lbf.ft or so"'],
  },
  {
    under: step,
    line: "drain hub-oil about 3 l",
    on: "about",
    says: '`drain hub-oil` alone says that it is out; an estimate of how much goes in a note: note "about 3 l".',
    fixed: ['drain hub-oil\n  note "about 3 l"'],
  },
  {
    under: step,
    line: "fill hub-oil about 3 l",
    on: "about",
    says: "A figure is wanted here, and an estimate is none: write what was read or counted. What is only thought goes in a note.",
    fixed: [],
  },
  {
    under: step,
    line: "let back hub-nut by about 1 flat",
    on: "about",
    says: "A figure is wanted here, and an estimate is none: write what was read or counted. What is only thought goes in a note.",
    fixed: [],
  },
  {
    under: step,
    line: "support on 2 stands rated about 2 t",
    on: "about",
    says: "A figure is wanted here, and an estimate is none: write what was read or counted. What is only thought goes in a note.",
    fixed: [],
  },
  {
    under: fastener,
    line: "torque ca. 170 N.m",
    on: "ca",
    says: "An estimate is no limit. Write the figure that its source gives; what is only thought goes in a note.",
    fixed: [],
  },
  {
    under: limit,
    line: "worn max about 40 mm",
    on: "about",
    says: "An estimate is no limit. Write the figure that its source gives; what is only thought goes in a note.",
    fixed: [],
  },
  {
    under: part,
    line: "mass about 20 kg",
    on: "about",
    says: "A figure stands alone; that it is only about that goes in a note: mass 20 kg.",
    fixed: ['mass 20 kg\n  note "about 20 kg"'],
  },
  {
    under: measure,
    line: "not 0.6 N.m",
    on: "not",
    says: "`not` says that this is not what was read. Write what was, or make it a note.",
    fixed: ['note "not 0.6 N.m"'],
  },
  {
    under: measure,
    line: "left target 0.05 mm",
    on: "target",
    says: "`target` says that this is not what was read. Write what was, or make it a note.",
    fixed: ['note "left target 0.05 mm"'],
  },
  // Without its "not" a line would say the contrary.
  { line: "seen blue final not good", on: "not good", says: "Write `bad` for `not good`.", fixed: ["seen blue final bad"] },
  { line: 'seen blue final no good "smeared"', on: "no good", says: "Write `bad` for `no good`.", fixed: ['seen blue final bad "smeared"'] },
  { line: "seen blue final good not burnt", on: "not burnt", says: 'Put quotes around a text: "not burnt".', fixed: ['seen blue final good "not burnt"'] },
  {
    under: finding,
    line: "decision not reuse",
    on: "not",
    says: "Write what is decided, not what is not: renew, repair, make, discard, exchange, reuse, or ask and a question.",
    fixed: [],
  },
  {
    under: order,
    line: "status not received 2026-05-01",
    on: "not",
    says: "Write how far it has come: placed, sent or another. What has not come yet needs no line of its own.",
    fixed: [],
  },
  {
    under: finding,
    line: "is hardly worn",
    on: "hardly",
    says: "Write what it is, not what it is not: worn, loose, missing, unlocked, serviceable and others.",
    fixed: [],
  },
  {
    under: finding,
    line: "is finger tight",
    on: "finger tight",
    says: 'Write `loose`, and how tight it was as a text: loose "finger tight".',
    fixed: ['is loose "finger tight"'],
  },
  {
    under: finding,
    line: 'is finger tight, "nail"',
    on: "finger tight",
    says: 'Write `loose`, and how tight it was as a text: loose "finger tight, nail".',
    fixed: ['is loose "finger tight, nail"'],
  },
  {
    under: finding,
    line: "is only half tight, unlocked",
    on: "only half tight",
    says: 'Write `loose`, and how tight it was as a text: loose "only half tight".',
    fixed: ['is loose "only half tight", unlocked'],
  },
  {
    under: finding,
    line: "is finger loose",
    on: "finger loose",
    says: 'Words of your own go behind the condition, in quotes: loose "finger loose".',
    fixed: ['is loose "finger loose"'],
  },
  // A count in words is a count.
  { under: step, line: "support on two stands", on: "two stands", says: "Write the count as a figure: support on 2 stands.", fixed: ["support on 2 stands"] },
  {
    under: step,
    line: 'support on two axle stands under "front crossmember" rated 2 t each load 600 kg',
    on: "two axle stands",
    says: "Write the count as a figure: support on 2 stands.",
    fixed: ['support on 2 stands under "front crossmember" rated 2 t each load 600 kg'],
  },
  {
    under: step,
    line: "support on a pair of stands",
    on: "a pair of stands",
    says: "Write the count as a figure: support on 2 stands.",
    fixed: ["support on 2 stands"],
  },
  {
    under: step,
    line: "support on stand",
    on: "stand",
    says: "How many stands? Write 1 stand, 2 stands or how many it was.",
    fixed: ["support on 1 stand", "support on 2 stands"],
  },
  {
    under: step,
    line: "support on stands under front crossmember",
    on: "front crossmember",
    says: 'Put quotes around a text: under "front crossmember".',
    fixed: ['support on stands under "front crossmember"'],
  },
  {
    under: step,
    line: 'support hub on bench "trolley"',
    on: '"trolley"',
    says: 'Where it bears goes after `under`: under "trolley".',
    fixed: ['support hub on bench under "trolley"', 'support hub on bench\n  note "trolley"'],
  },
  { under: step, line: "on stands", on: "on", says: "`on` may mean `support on` or `raise on`.", fixed: ["support on stands"] },
  { under: step, line: "raise on jack front", on: "front", says: 'Words of your own go in a note: note "front".', fixed: ['raise on jack\n  note "front"'] },
  { under: step, line: "undo two hub-nut left", on: "two", says: "The count goes after the name: hub-nut 2.", fixed: ["undo hub-nut 2 left"] },
  { line: "finding two stud", on: "two", says: "The count goes after the name: stud 2.", fixed: ["finding stud 2"] },
  { under: part, line: "qty four", on: "four", says: "Write a figure for `four`: 4.", fixed: ["qty 4"] },
  { under: part, line: "5 each side", on: "5", says: "How many at each goes behind it: each side 5.", fixed: ["each side 5"] },
  { under: part, line: "each side five", on: "five", says: "How many at each goes straight behind it: each side 5.", fixed: ["each side 5"] },
  { under: step, line: "takes two h", on: "two", says: "Write a figure for `two`: 2.", fixed: ["takes 2 h"] },
  { under: order, line: "item two hub-seal", on: "two", says: "The count goes after the name: hub-seal 2.", fixed: ["item hub-seal 2"] },
  { under: order, line: "item hub-seal two", on: "two", says: "Write a figure for `two`: 2.", fixed: ["item hub-seal 2"] },
  { under: finding, line: "is two missing", on: "two", says: "The count goes after the finding's name: finding NAME 2.", fixed: [] },
  {
    under: step,
    line: "carefully remove hub",
    on: "carefully",
    says: 'Nothing goes before `remove`: the line starts with it. Words of your own go in a note: note "carefully".',
    fixed: ['remove hub\n  note "carefully"'],
  },
  {
    under: step,
    line: "lock hub-nut both sides new",
    on: "both sides",
    says: "Leave `both sides` out: where no place is named, all of them are meant.",
    fixed: ["lock hub-nut new"],
  },
  // What is turned back after a torque.
  {
    under: step,
    line: "slacken hub-nut one flat",
    on: "one flat",
    says: "How far it is turned back after its torque is written: let back hub-nut by 1 flat.",
    fixed: ["let back hub-nut by 1 flat", 'slacken hub-nut\n  note "slacken hub-nut one flat"'],
  },
  {
    under: step,
    line: "slacken hub-nut 1 flat",
    on: "1 flat",
    says: "How far it is turned back after its torque is written: let back hub-nut by 1 flat.",
    fixed: ["let back hub-nut by 1 flat", 'slacken hub-nut\n  note "slacken hub-nut 1 flat"'],
  },
  {
    under: step,
    line: "back off hub-nut left 1 flat",
    on: "1 flat",
    says: "How far it is turned back after its torque is written: let back hub-nut left by 1 flat.",
    fixed: ["let back hub-nut left by 1 flat"],
  },
  {
    under: step,
    line: "let back hub-nut one flat",
    on: "one flat",
    says: "How far it is turned back after its torque is written: let back hub-nut by 1 flat.",
    fixed: ["let back hub-nut by 1 flat"],
  },
  {
    under: step,
    line: "let back hub-nut by half a turn",
    on: "half a turn",
    says: "How far it is turned back after its torque is written: let back hub-nut by 1/2 turn.",
    fixed: ["let back hub-nut by 1/2 turn"],
  },
  {
    under: step,
    line: "tighten hub-nut with wrench to 18 lbf.ft",
    on: "with wrench to 18 lbf.ft",
    says: "What it was pulled with goes after `by`: by wrench.",
    fixed: ["tighten hub-nut by wrench to 18 lbf.ft"],
  },
  { under: step, line: "tighten hub-nut at 18 lbf.ft", on: "at", says: "Write `to` before the torque: to 18 lbf.ft.", fixed: ["tighten hub-nut to 18 lbf.ft"] },
  // What came of an order.
  {
    under: order,
    line: "received 2026-08-17",
    on: "received 2026-08-17",
    says: "Where all of it came, write `status received 2026-08-17`; where a part of it did, what and how many: received ITEM 1 on 2026-08-17.",
    fixed: ["status received 2026-08-17"],
  },
  {
    under: order,
    line: "received all on 2026-08-17",
    on: "received all on 2026-08-17",
    says: "Where all of it came, write `status received 2026-08-17`; where a part of it did, what and how many: received ITEM 1 on 2026-08-17.",
    fixed: ["status received 2026-08-17"],
  },
  {
    under: order,
    line: "received bearing 2026-08-17",
    on: "bearing",
    says: "How many came? The count goes after the name: bearing 1 on 2026-08-17.",
    fixed: [],
  },
  { under: order, line: "received 1 2026-08-17", on: "1", says: "Write what came, then how many: received ITEM 1 on 2026-08-17.", fixed: [] },
  {
    under: order,
    line: "arrived 2026-08-17",
    on: "arrived",
    says: "`arrived` may mean `status received` or `received`.",
    fixed: ["status received 2026-08-17"],
  },
  {
    under: order,
    line: "date 2026-08-17",
    on: "date",
    says: "A day has no line of its own here. It goes on the line that it is of, year, month, day: status placed 2026-04-11.",
    fixed: [],
  },
  { under: order, line: "sent back 2026-08-17", on: "sent back", says: "`sent back` is written `status returned`.", fixed: ["status returned 2026-08-17"] },
  // First the check or the limit, then when, then what.
  {
    line: "seen final free-turn good",
    on: "final free-turn good",
    says: "First the check, then when it was seen, then what: seen free-turn final good.",
    fixed: ["seen free-turn final good"],
  },
  {
    line: "seen final free-turn good by I. Wren 2026-08-30",
    on: "final free-turn good",
    says: "First the check, then when it was seen, then what: seen free-turn final good.",
    fixed: ['seen free-turn final good by "I. Wren" 2026-08-30'],
  },
  {
    line: 'seen free-turn good final "no drag" left',
    on: "free-turn good final",
    says: 'First the check, then when it was seen, then what: seen free-turn final good "…".',
    fixed: [],
  },
  {
    line: "seen free-turn good",
    on: "good",
    says: "When was it seen? As it is left: seen free-turn final good; as it came: found; in a trial: trial.",
    fixed: ["seen free-turn final good", "seen free-turn trial good", "seen free-turn found good"],
  },
  { line: "seen free-turn final ok", on: "ok", says: "Write `good` for `ok`.", fixed: ["seen free-turn final good"] },
  {
    line: "check free-turn final good",
    on: "check",
    says: "`check` says what good looks like. What was seen is written: seen free-turn final good.",
    fixed: ["seen free-turn final good"],
  },
  {
    line: "measure found rim-play by dial",
    on: "found rim-play",
    says: "First the limit, then when it was measured: measure rim-play found.",
    fixed: ["measure rim-play found by dial"],
  },
  {
    line: "measure rim-play before",
    on: "before",
    says: "Write `found` (as it came) or `trial` (while it is tried) for `before`.",
    fixed: ["measure rim-play found", "measure rim-play trial"],
  },
  {
    line: "measure rim-play final left",
    on: "left",
    says: "The place goes under it, before its figure: measure rim-play final, and below it left 0.004 in.",
    fixed: [],
  },
  {
    line: "measured float found",
    on: "measured",
    says: "`measured` starts no line. `measure` does: measure LIMIT found|trial|final [by GAUGE] [DATE].",
    fixed: ["measure float found"],
  },
  {
    line: 'released by "A. Moor" 2026-08-30 at 90412 km',
    on: "released",
    says: '`released` starts no line. `release` does: release by "…" [DATE] [at Q].',
    fixed: ['release by "A. Moor" 2026-08-30 at 90412 km'],
  },
  { line: 'signed by "A. Moor" 2026-08-30', on: "signed", says: '`signed` starts no line. `release` does: release by "…" [DATE] [at Q].', fixed: [] },
  // Names of one word, and lists without a comma.
  {
    line: "finding hub nut ns",
    on: "hub nut ns",
    says: "A name's words are joined by hyphens: hub-nut ns. Places are joined by commas: nut, ns.",
    fixed: ["finding hub-nut ns", "finding hub nut, ns"],
  },
  {
    under: step,
    line: "remove d-washer hub outer inner seal",
    on: "d-washer hub outer inner seal",
    says: "Names are joined by commas, the words of one name by hyphens, and the place of them all comes last: d-washer, hub, outer, inner, seal.",
    fixed: ["remove d-washer, hub, outer, inner, seal", "remove d-washer-hub-outer-inner-seal"],
  },
  {
    line: "found hub-nut ns",
    on: "found",
    says: "`found` starts no line. `finding` does: finding PART|FASTENER|FLUID [N] [PLACE…] [DATE].",
    fixed: ["finding hub-nut ns"],
  },
  {
    line: "found hub-nut ns loose, nail for a pin",
    on: "found",
    says: "`found` starts no line. `finding` does: finding PART|FASTENER|FLUID [N] [PLACE…] [DATE].",
    fixed: [],
  },
  { line: "date 2026-10-10", on: "date", says: "`date` starts no line. `day` does: day DATE.", fixed: ["day 2026-10-10"] },
  { under: sheet, line: "date 2026-10-05", on: "date", says: "`date` is written `opened`.", fixed: ["opened 2026-10-05"] },
  {
    under: finding,
    line: "date 2026-10-10",
    on: "date",
    says: "A day has no line of its own here. It goes on the line that it is of, year, month, day: finding NAME 2026-04-11.",
    fixed: [],
  },
  { under: finding, line: 'cause "ran slack"', on: "cause", says: "`cause` is written `because`.", fixed: ['because "ran slack"'] },
  {
    under: finding,
    line: "hub is serviceable",
    on: "hub",
    says: "What it is of stands on the line above: finding hub, and below it is serviceable.",
    fixed: [],
  },
  {
    under: finding,
    line: "decision repair by welding",
    on: "by welding",
    says: 'Say how, in quotes: decision repair "by welding".',
    fixed: ['decision repair "by welding"'],
  },
  { under: step, line: "lower to ground", on: "to ground", says: "`lower` alone says that the machine is back on the ground.", fixed: ["lower"] },
  { under: step, line: "down off stands", on: "down", says: "`down` is written `lower`.", fixed: ["lower"] },
  {
    under: step,
    line: "new split pins hub-nut left",
    on: "new",
    says: "A new one that locks is written lock FASTENER with new split pin; `lock FASTENER new` is a new one of its own kind.",
    fixed: ["lock hub-nut left with new split pin"],
  },
  {
    under: step,
    line: "new hub left",
    on: "new",
    says: "A new one that goes on is written `fit NAME new`, and one that locks `lock FASTENER new`.",
    fixed: ["fit hub left new"],
  },
  { under: step, line: "fit hub new ns", on: "ns", says: "The place goes straight after the name: fit hub ns new.", fixed: ["fit hub ns new"] },
  {
    under: step,
    line: "fill with 0.35 l hub-oil",
    on: "hub-oil",
    says: "What it is filled with comes first, then how much: fill hub-oil 0.35 l.",
    fixed: ["fill hub-oil 0.35 l"],
  },
  { under: release, line: "tested 6 mi, brakes straight", on: "tested", says: "`tested` is written `test`.", fixed: ['test "6 mi, brakes straight"'] },
  { under: release, line: "recheck hub-nut at 200 km", on: "at", says: "Write `after` for `at`: after 200 km.", fixed: ["recheck hub-nut after 200 km"] },
  { under: part, line: "held with hub-nut", on: "with", says: "Write `by` for `with`: by hub-nut.", fixed: ["held by hub-nut"] },
  {
    under: fastener,
    line: "locked with split pin 1/8 x 1 in",
    on: "with",
    says: "Write `by` for `with`: by split pin 1/8 x 1 in.",
    fixed: ["locked by split pin 1/8 x 1 in"],
  },
  {
    under: limit,
    line: "wear limit 40 mm",
    on: "wear limit",
    says: "`wear limit` may mean `worn max` or `worn min`.",
    fixed: ["worn max 40 mm", "worn min 40 mm"],
  },
  { under: limit, line: "max wear 40 mm", on: "max wear", says: "`max wear` is written `worn max`.", fixed: ["worn max 40 mm"] },
  { under: limit, line: "worn 40 mm max", on: "40 mm max", says: "The end goes before its figure: worn max 40 mm.", fixed: ["worn max 40 mm"] },
  { under: limit, line: "worn up to 40 mm", on: "up to 40 mm", says: "The end goes before its figure: worn max 40 mm.", fixed: ["worn max 40 mm"] },
  {
    under: limit,
    line: "set to 25 mm max by hub-nut",
    on: "to 25 mm max by hub-nut",
    says: "The end goes before its figure: set max 25 mm by hub-nut.",
    fixed: ["set max 25 mm by hub-nut"],
  },
  {
    under: limit,
    line: "set by hub-nut max 25 mm",
    on: "by hub-nut max 25 mm",
    says: "The end goes before its figure: set max 25 mm by hub-nut.",
    fixed: ["set max 25 mm by hub-nut"],
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
    const line =
      where === "action"
        ? `${typed} hub-nut`
        : where === "condition"
          ? `is ${typed}`
          : where === "decision"
            ? `decision ${typed}`
            : where === "locking"
              ? `locked by ${typed}`
              : `${typed} "x"`;
    if (where === "stage" || where === "verdict") {
      const [found, ...more] = faultsIn(where === "stage" ? `measure float ${typed}` : `seen blue final ${typed}`);
      expect(more).toEqual([]);
      for (const it of write) expect(found?.fault.message).toContain(`\`${it}\``);
      expect(found?.fault.fixes.map(({ edits }) => edits.map((it) => it.text.split(" ").at(-1)))).toEqual(write.map((it) => [it]));
      return;
    }
    if (where === "entry") {
      const [found, ...more] = faultsIn(`${typed} hub-nut`);
      expect([found?.fault.message.split("`")[3], more]).toEqual([write[0], []]);
      return;
    }
    const head = where === "action" ? step : where === "condition" || where === "decision" ? finding : where === "locking" ? fastener : heads[where];
    if (head === undefined) throw new Error(`no head for ${where}`);
    const [found, ...more] = faultsIn(`${head}\n  ${line}`);
    expect(more).toEqual([]);
    for (const it of write) expect(found?.fault.message, line).toContain(`\`${it}\``);
    if (where === "condition" || where === "decision" || where === "locking") return;
    for (const fix of found?.fault.fixes ?? []) expect(faultsIn(`${head}\n${fixedLine(`  ${line}`, fix)}`)).toEqual([]);
  });
});

describe("what a fix leaves", () => {
  // Written otherwise, a figure is another run of digits.
  const rewritten = /date is written|quantity has one figure|without spaces|fraction|comma in it|in months/;
  // How many there are in all stands where it is declared.
  const ofAll = /\d of \d/;
  const facts = /\d+|\b(?:not|no|never|hardly)\b/g;

  it.each(rows.filter(({ says }) => !rewritten.test(says)).filter(({ line }) => !ofAll.test(line)))(
    "holds each figure, day and denial of $line",
    ({ under, line }) => {
      const written = under === undefined ? line : `  ${line}`;
      const [found] = faultsIn(under === undefined ? line : `${under}\n${written}`);
      for (const fix of found?.fault.fixes ?? []) {
        const now = fixedLine(written, fix);
        const lost = (line.match(facts) ?? []).filter((it) => !now.includes(it));
        // What is not good is bad; what is not locked is unlocked, what is not tight loose.
        expect(
          lost.filter((it) => !/^n/.test(it) || !/\b(?:bad|unlocked|loose)\b/.test(now)),
          now,
        ).toEqual([]);
      }
    },
  );

  it("says the contrary of nothing that is denied", () => {
    const said: readonly { readonly under?: string; readonly line: string }[] = [
      ...statuses.map((it) => ({ under: order, line: `status ~ ${it} 2026-05-01` })),
      ...decisions.map((it) => ({ under: finding, line: `decision ~ ${it}` })),
      ...conditions.map(({ word }) => ({ under: finding, line: `is ~ ${word}` })),
      ...verdicts.map((it) => ({ line: `seen blue final ~ ${it}` })),
    ];
    for (const { under, line } of said) {
      for (const no of ["not", "no", "never", "hardly", "without"]) {
        const written = `${under === undefined ? "" : "  "}${line.replace("~", no)}`;
        const faults = faultsIn(under === undefined ? written : `${under}\n${written}`);
        expect(faults.length, written).toBe(1);
        for (const fix of faults[0]?.fault.fixes ?? []) expect(fixedLine(written, fix), written).toMatch(/\b(?:unlocked|loose|missing|bad)\b|"(?:no|not) /);
      }
    }
  });
});

describe("a place called as a word that goes on elsewhere", () => {
  it("is read: the free end of a shaft, and freight that is free", () => {
    for (const line of ["undo circlip free", "remove hub free, drive", "fit hub 2 free new", "done free"]) expect(faultsIn(`${step}\n  ${line}`)).toEqual([]);
    expect(faultsIn("finding hub free\n  is worn\nmeasure float found\n  free 0.1 mm\n")).toEqual([]);
    expect(faultsIn(`${supplier}\n  freight 8.50 GBP free over 150 GBP\n`)).toEqual([]);
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
