// A figure for the bench without a sheet: a question in one line, answered in one line, with its source and how sure it is.
// Invariant: pure, and never throws. It answers only what it understood every word of; what it does not know it says, and judges nothing by it.
import { type Answer, notKnown } from "./figures/answer.ts";
import { budgetFigure } from "./figures/doubt-budget.ts";
import { clearanceFigure, whichHoleFigure } from "./figures/clearance.ts";
import { drillFigure, gaugeFigure } from "./figures/drills-and-gauges.ts";
import { fitFigure } from "./figures/fits.ts";
import { gearFigure } from "./figures/gears.ts";
import { heatFigure } from "./figures/heat.ts";
import { cautionFigure, lockingFigure } from "./figures/locking.ts";
import { lookAlikeFigure } from "./figures/look-alikes.ts";
import { makersOwnFigure } from "./figures/makers-own.ts";
import { measureFigure } from "./figures/measure.ts";
import { moneyFigure } from "./figures/money.ts";
import { pinFigure } from "./figures/pins.ts";
import { pitchFigure } from "./figures/pitches.ts";
import { practiceFigure, temperFigure } from "./figures/practice.ts";
import { type Question, bare, questionOf, short, whole } from "./figures/question.ts";
import { shimFigure } from "./figures/shims.ts";
import { slotFigure, slotRuleFigure } from "./figures/slots.ts";
import { spannerFigure } from "./figures/spanners.ts";
import { lineFigure } from "./figures/straight-line.ts";
import { taperFigure } from "./figures/tapers.ts";
import { tappingFigure } from "./figures/tapping.ts";
import { threadFigure, threadTableFigure } from "./figures/threads.ts";
import { torqueFigure } from "./figures/torque.ts";
import { threadDepthFigure, turnOfNutFigure } from "./figures/turn-of-nut.ts";
import { strangeUnitFigure, unitFigure } from "./figures/units.ts";
import { ambiguousIn, longest, tidyQuery } from "./figures/words.ts";

export type { Answer, Confidence, Known, NotKnown, Value } from "./figures/answer.ts";

type Asker = (question: Question) => Answer | undefined;

/** Those that may have a long list of figures in them. */
const ofLists: readonly Asker[] = [shimFigure, lineFigure, measureFigure, budgetFigure];

/** Those that are known by a word of their own first; those that are known by their shape behind them. */
const ofLines: readonly Asker[] = [
  cautionFigure,
  makersOwnFigure,
  unitFigure,
  heatFigure,
  temperFigure,
  clearanceFigure,
  tappingFigure,
  threadDepthFigure,
  turnOfNutFigure,
  gearFigure,
  slotRuleFigure,
  slotFigure,
  torqueFigure,
  spannerFigure,
  whichHoleFigure,
  drillFigure,
  gaugeFigure,
  lockingFigure,
  pinFigure,
  taperFigure,
  practiceFigure,
  lookAlikeFigure,
  threadTableFigure,
  threadFigure,
  pitchFigure,
  fitFigure,
  moneyFigure,
  strangeUnitFigure,
];

/** No question but one with a list in it is longer. */
const longestLine = 400;

/** The questions that stand in the help, one of each kind. */
export const examples: readonly string[] = [
  "1/2-20 UNF grade 5",
  "25 H7/g6",
  "0.015 in in mm",
  "split pin for 5/8 BSF",
  "slot travel for M12",
  "torque 1/2-20 UNF grade 5 K 0.2",
  "torque 50 lbf.ft with extension 6 in on 18 in at 30 deg",
  "shims 0.43 mm to 0.10 .. 0.15 mm from 0.05 mm x 4, 0.10 mm x 3, 0.25 mm x 2",
  "heat 45 mm cast-iron interference 0.040 mm clearance 0.045 mm",
  "backlash 0.1 mm teeth 11/43 pressure 20 deg",
  "look-alike M8 and 5/16-18 UNC",
  "tapping drill for 3/8 BSW",
  "clearance hole for M8",
  "1 flat of M12",
  "spanner for 1/2 BSF",
  "No 7 drill in mm",
  "14 SWG in mm",
  "No 2 Morse taper",
  "journal clearance for 50 mm",
  "module 2 in DP",
  "mean 1.1, 1.2, 1.3 mm",
  "doubt 0.138 mm U 0.012 mm max 0.15 mm",
];

/** Words that are no figure, and figures that no bench has. */
const absurd = /\b(?:NaN|Infinity|infinite)\b|(?<![\d.])\d{13,}|\d[eE]\+?\d{2,}/;

export function figure(query: string): Answer {
  if (query.length > longest) return notKnown("That is longer than any question that can be answered here.", ...examples);
  const text = tidyQuery(query);
  const comma = /(?<![\d,.])\d{1,40},\d{1,40}(?![\d.,]| ?[xX*])/.exec(text);
  // A comma between two figures without a blank is how half of the world writes a decimal: it is asked about, not guessed.
  if (comma !== null)
    return notKnown(
      `“${comma[0]}” may be a decimal comma. Write the point, or a space after the comma of a list.`,
      text.replace(comma[0], comma[0].replace(",", ".")),
      text.replace(comma[0], comma[0].replace(",", ", ")),
    );
  const strange = absurd.exec(text);
  if (strange !== null) return notKnown(`“${short(strange[0])}” isn't a figure for the bench.`, ...examples.slice(0, 3));
  return (
    understood(text) ?? ambiguous(text) ?? notKnown(`Splitpin does not know “${short(text)}”. It can be asked such things as these.`, ...examplesFor(text))
  );
}

/** The examples that speak of the same things; all of them where none does. */
function examplesFor(text: string): readonly string[] {
  const words = text
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter((it) => it.length > 3);
  const near = examples.filter((it) => words.some((word) => it.toLowerCase().includes(word)));
  return near.length > 0 ? near : examples;
}

/** The first answer that every word of the question was understood for; failing that, why the first that came near is none. */
function understood(text: string): Answer | undefined {
  let refused: Answer | undefined;
  for (const ask of text.length > longestLine ? ofLists : [...ofLists, ...ofLines]) {
    const question = questionOf(text);
    const answer = ask(question);
    if (answer === undefined) continue;
    const checked = whole(question, answer, []);
    if (checked.known) return checked;
    // A question with a unit that means two things is asked back about that first.
    refused ??= checked;
  }
  return refused === undefined ? undefined : (ambiguous(text) ?? refused);
}

/** What a unit that means two things may be, with what the question comes to for each. */
function ambiguous(text: string): Answer | undefined {
  const two = text.length > longestLine ? undefined : ambiguousIn(text);
  if (two === undefined || bare(text) === "") return undefined;
  const asks = two.meanings.map((it) => withOne(text.replace(two.spelling, it), it));
  const readings = asks.map((it) => unitFigure(questionOf(it))).filter((it) => it !== undefined);
  // What can't be in one reading can't be in the other.
  const wrong = readings.find((it) => !it.known);
  if (wrong !== undefined) return wrong;
  const worked = readings.length === 0 ? "" : ` ${readings.map((it) => it.line.replace(/\.$/, "")).join("; or ")}.`;
  return two.meanings.length === 1
    ? notKnown(`“${two.spelling}” isn't a unit here: say ${two.meanings[0]}.`, ...asks)
    : notKnown(
        `“${two.spelling}” means ${two.meanings.length === 2 ? "two things" : "more than one thing"}: ${two.meanings.join(" or ")}. Say which.${worked}`,
        ...asks,
      );
}

/** Another unit of two meanings in the same question goes with the first: US gallons in US pints. */
function withOne(text: string, meaning: string): string {
  const more = ambiguousIn(text);
  if (more === undefined) return text;
  const country = meaning.split(".")[0] ?? "";
  const same = more.meanings.find((it) => it.startsWith(`${country}.`)) ?? more.meanings[0] ?? "";
  return text.replace(new RegExp(`(?<![\\p{L}.])${more.spelling}(?![\\p{L}])`, "u"), same);
}
