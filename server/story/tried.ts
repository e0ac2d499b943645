// Whether a step only tried its nuts: it pulled at them, and its words say that none moved.
// Invariant: hangs on the words and the lines of one step; where one of them moved, or its locking came out for it, nothing was only tried.
import type { StepEntry } from "../../grammar/tree.ts";
import { memo } from "../model/memo.ts";

/** A step that tightens and undoes nothing says that none moved. */
export const saysNoneMoved = memo(({ title, details }: StepEntry): boolean => {
  if (details.some((it) => it.kind === "action" && (it.fault !== undefined || (turning.has(it.verb) && it.verb !== "tighten")))) return false;
  // A title that does not tell of a trial is of what else was done: “pinned without turning it”.
  return noneMovedBy([triedBy.test(title?.value ?? "") ? title?.value : undefined, ...notesOf(details)]);
});

/** A step that only locks says that its nut stayed where it was: “slots were in line, nothing turned”. */
export const saysNotTurned = memo(({ title, details }: StepEntry): boolean => {
  if (details.some((it) => it.kind === "action" && (it.fault !== undefined || turning.has(it.verb)))) return false;
  return noneMovedBy([title?.value, ...notesOf(details)]);
});

/** Its locking stayed in meanwhile. */
export const keepsItsLocking = memo(({ title, details }: StepEntry): boolean => ![title?.value ?? "", ...notesOf(details)].some((it) => comesOut.test(it)));

function notesOf(details: StepEntry["details"]): string[] {
  return details.flatMap((it) => (it.kind === "note" && it.text !== undefined ? [it.text.value] : []));
}

function noneMovedBy(texts: readonly (string | undefined)[]): boolean {
  const words = texts.filter((it) => it !== undefined);
  return words.some((it) => notTurned.test(it)) && !words.some((it) => turned.test(it) || oneMoved.test(it.replace(everyNotTurned, " ")));
}

const triedBy = /\b(tried|checked|gone (over|round)|looked (over|at)|again|once more|spanner)\b/iu;
const turning: ReadonlySet<string> = new Set(["undo", "slacken", "tighten", "let", "remove"]);
const notTurned =
  /\b(nothing|not|never|neither|no nut|none)( of them)?( (was|were|had to be|has been|been|needed to be|needed|to be))? (turned|moved|touched|shifted|stirred|budged|turning|moving|gave)\b|\b(nuts?|it|they) (did|do|does|was|were|has|have|would|will)( not|n't) (have to |need to |be |been )*(turn|move|stir|budge|give)(e?d)?\b|\bwithout (turning|moving|touching)\b|\b(nuts?|it) (stayed|stands?|stood|left) (just )?(as|where) (it|they) (was|were|is|are|stood)\b/iu;
const everyNotTurned = new RegExp(notTurned, "giu");
const turned =
  /\b(?<!\b(not|nothing|never|none|no nut)\b.*)(turned|eased|backed|taken (up|on|back)|slackened|tightened|nipped|pulled) (\w+ )?(to|on|up|back|off|by|half|a|one)\b/iu;
/** Told of one beside the others that did not. */
const oneMoved =
  /\b(but|except|bar|save) (for )?(the |one|two|three)\b|\b(one|two|three|some|first|last|other|left|right|it|they|nut) (\w+ )?(moved|turned|gave|stirred|shifted|budged|came (round|on|up)|took|was slack|were slack)\b/iu;
const comesOut =
  /\b(pins?|wires?|tabs?|plates?|washers?|clips?|cotters?|lock \w+) (\w+ )?(drawn|out|off|pulled|removed|knocked back|bent back|straightened|cut)\b|\b(drew|pulled|took|knocked|bent|cut|removed|straightened) (out |back |off )?(the |its |their |all |both |old )*(pins?|wires?|tabs?|plates?|clips?|cotters?|lock\w*)\b/iu;
