// What a word within a line says, and a day: the ones that the tables of words have no row for.
// Invariant: words of the language alone; a name, a figure and a text are for others.
import { tokensOf } from "../../grammar/lexer.ts";
import { DateToken, endOf } from "../../grammar/tokens.ts";
import type { Span } from "../../grammar/tree.ts";
import type { decisions, stages, statuses, verdicts } from "../../grammar/words.ts";
import { weekdayOf } from "../quantities/days.ts";

export interface InnerWord extends Readonly<Span> {
  readonly says: string;
}

/** At a column of a line of this kind: the word, and what it says; undefined over anything else. */
export function innerWordAt(kind: string, text: string, column: number): InnerWord | undefined {
  const token = tokensOf(text).tokens.find((it) => it.startOffset <= column && column <= endOf(it));
  if (token === undefined) return undefined;
  const span = { from: token.startOffset, to: endOf(token) };
  if (token.tokenType === DateToken) {
    const weekday = weekdayOf(token.image);
    return weekday === undefined ? undefined : { ...span, says: `${token.image}: a ${weekday}` };
  }
  const says = (byKind[kind] as Readonly<Record<string, string>> | undefined)?.[token.image];
  return says === undefined ? undefined : { ...span, says };
}

const ofStage: Readonly<Record<(typeof stages)[number], string>> = {
  found: "As it was, before anything was done about it. It is judged, and puts nothing right.",
  trial: "Tried on the way. It proves nothing at the end, and condemns nothing.",
  final: "As it is left. It must come after the last thing that moved it, and it is what the release goes by.",
};
const ofVerdict: Readonly<Record<(typeof verdicts)[number], string>> = {
  good: "It is as it should be.",
  bad: "It is not as it should be: something is to be done.",
};
const ofStatus: Readonly<Record<(typeof statuses)[number], string>> = {
  held: "Written down and not ordered.",
  placed: "Ordered.",
  sent: "On its way; of work, the part is away.",
  received: "All of it came, or is back.",
  cancelled: "Not wanted any more: it will not come.",
  returned: "It came, and went back to the seller.",
};
const ofDecision: Readonly<Record<(typeof decisions)[number], string>> = {
  reuse: "The old one goes back.",
  renew: "A new one takes its place. It goes on the order by itself, and is fitted `new`.",
  repair: "It is put right, here or outside, and measured or looked at after it.",
  make: "A new one is made.",
  discard: "It does not go back, and nothing takes its place.",
  exchange: "An exchanged one takes its place; the old one goes to the seller.",
  ask: "A question is to be answered first.",
};
const ofAction = {
  new: "A new one. Nothing that was found or read of the old one is of it.",
  from: "From which place it comes, where that is another than the one it goes to.",
  now: "For a trial, or until something comes: it is undone or finished before the release.",
  for: "For a trial, or until something comes: it is undone or finished before the release.",
};

const byKind: Readonly<Record<string, object>> = {
  measure: ofStage,
  seen: { ...ofStage, ...ofVerdict },
  status: ofStatus,
  decision: ofDecision,
  action: ofAction,
};
