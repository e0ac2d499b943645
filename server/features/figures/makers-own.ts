// Figures that no table has, for each machine has its own: asked for by name, they are refused with where to look.
import { type Answer, notKnown } from "./answer.ts";
import { type Question, bare, takeAll } from "./question.ts";

const own =
  /\b(?:valve clearances?|tappets?(?: clearances?| gaps?)?|end[- ]?floats?|end play|points? gaps?|contact breaker gaps?|(?:spark )?plug gaps?|toe[- ]?in|toe[- ]?out|camber|castor|caster|(?:ignition|valve) timing|head (?:bolt |nut )?torques?|bearing preloads?|oil pressures?|tyre pressures?|compression ratios?|firing orders?|wear limits?)\b/i;

export function makersOwnFigure(q: Question): Answer | undefined {
  const asked = own.exec(q.left)?.[0];
  if (asked === undefined) return undefined;
  takeAll(q, own);
  // With a figure, a unit or a thing beside it the question is another.
  if (bare(q.left) !== "") return undefined;
  return notKnown(
    `\u201c${asked}\u201d: that is the machine's own figure, and in no table here. Take it from its handbook or its maker, and write it into the sheet as a limit.`,
  );
}
