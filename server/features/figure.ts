// A figure for the bench without a sheet: a question in one line, answered in one line, with its source and how sure it is.
// Invariant: pure, and never throws. What the project does not know it says, and judges nothing by it.
import { type Answer, notKnown } from "./figures/answer.ts";
import { budgetFigure } from "./figures/doubt-budget.ts";
import { fitFigure } from "./figures/fits.ts";
import { gearFigure } from "./figures/gears.ts";
import { heatFigure } from "./figures/heat.ts";
import { cautionFigure, lockingFigure } from "./figures/locking.ts";
import { lookAlikeFigure } from "./figures/look-alikes.ts";
import { measureFigure } from "./figures/measure.ts";
import { moneyFigure } from "./figures/money.ts";
import { pinFigure, slotFigure, slotRuleFigure } from "./figures/pins.ts";
import { practiceFigure } from "./figures/practice.ts";
import { shimFigure } from "./figures/shims.ts";
import { threadFigure, threadTableFigure } from "./figures/threads.ts";
import { torqueFigure } from "./figures/torque.ts";
import { unitFigure } from "./figures/units.ts";
import { ambiguousIn, longest, tidyQuery } from "./figures/words.ts";

export type { Answer, Confidence, Known, NotKnown, Value } from "./figures/answer.ts";

type Asker = (query: string) => Answer | undefined;

/** Those that may have a long list of figures in them. */
const ofLists: readonly Asker[] = [shimFigure, measureFigure, budgetFigure];

/** Those led by a word of their own first; those that are known by their shape behind them. */
const ofLines: readonly Asker[] = [
  cautionFigure,
  heatFigure,
  gearFigure,
  torqueFigure,
  slotRuleFigure,
  slotFigure,
  lockingFigure,
  pinFigure,
  practiceFigure,
  lookAlikeFigure,
  threadTableFigure,
  threadFigure,
  fitFigure,
  moneyFigure,
  unitFigure,
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
  "mean 1.1, 1.2, 1.3 mm",
  "doubt 0.138 mm U 0.012 mm max 0.15 mm",
];

export function figure(query: string): Answer {
  if (query.length > longest) return notKnown("That is longer than any question that can be answered here.", ...examples);
  const text = tidyQuery(query);
  const comma = /(?<![\d,.])\d{1,40},\d{1,40}(?![\d.,]| ?[xX*])/.exec(text);
  // A comma between two figures without a blank is how half of the world writes a decimal: it is asked about, not guessed.
  if (comma !== null)
    return notKnown(
      `“${comma[0]}” may be a decimal comma. Write the point, or a blank behind the comma of a list.`,
      text.replace(comma[0], comma[0].replace(",", ".")),
      text.replace(comma[0], comma[0].replace(",", ", ")),
    );
  for (const ask of text.length > longestLine ? ofLists : [...ofLists, ...ofLines]) {
    const answer = ask(text);
    if (answer !== undefined) return answer;
  }
  const two = text.length > longestLine ? undefined : ambiguousIn(text);
  if (two !== undefined)
    return notKnown(
      `“${two.spelling}” means two things: ${two.meanings.join(" or ")}. Say which.`,
      ...two.meanings.map((it) => text.replace(two.spelling, it)),
    );
  return notKnown(`Splitpin does not know “${text.length > 60 ? `${text.slice(0, 60)}…` : text}”. It can be asked such things as these.`, ...examples);
}
