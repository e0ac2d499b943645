// The words of the language: the one table that reading, completion, the editor grammar and the reference are made from.
// Invariant: a word stands in one row; what is made from it is generated, never typed again.
import { type ActionWord, actionWords } from "./words/action-words.ts";
import { type DetailWord, detailWords } from "./words/detail-words.ts";
import { type EntryKind, type EntryWord, entryWords } from "./words/entry-words.ts";

export { type ActionWord, actionWords } from "./words/action-words.ts";
export { type ConditionWord, conditionOf, conditions } from "./words/condition-words.ts";
export { type DetailKind, type DetailWord, detailWords } from "./words/detail-words.ts";
export { type EntryKind, type EntryWord, entryWords } from "./words/entry-words.ts";
export { type LockingWord, lockingInfo, lockingPhrases, lockings } from "./words/locking-words.ts";
export { nearestWord, wordDistance } from "./words/nearest.ts";

export const stages = ["found", "trial", "final"] as const;
export const verdicts = ["good", "bad"] as const;
export const statuses = ["held", "placed", "sent", "received", "cancelled", "returned"] as const;
export const decisions = ["reuse", "renew", "repair", "make", "discard", "exchange", "ask"] as const;
export const materials = ["steel", "cast-iron", "bronze", "brass", "aluminium", "white-metal"] as const;
/** What `raise on` takes. */
export const lifters = ["jack", "lift", "crane", "centre stand", "paddock stand", "bench"] as const;
/** What `support on` takes. */
export const bearers = ["stands", "crane", "cradle", "bench"] as const;
/** What `lower PART on` takes, beside a text. */
export const rests = ["bench", "stands", "cradle", "floor"] as const;
export const torqueConditions = ["dry", "oiled"] as const;
export const functions = ["min", "max", "mean", "span", "abs", "sqrt", "sin", "cos", "tan"] as const;

/** A word of the trade that means two things, where it stands, and what to write for each meaning. */
export interface AmbiguousWord {
  readonly word: string;
  readonly where: "locking" | "action" | "decision" | "raise on";
  readonly meanings: readonly { readonly write: string; readonly means: string }[];
}

export const ambiguousWords: readonly AmbiguousWord[] = [
  {
    word: "cotter pin",
    where: "locking",
    meanings: [
      { write: "split pin", means: "a pin of bent wire whose legs are opened" },
      { write: "taper pin", means: "a tapered pin or wedge that is driven in" },
    ],
  },
  {
    word: "cotter",
    where: "locking",
    meanings: [
      { write: "split pin", means: "a pin of bent wire whose legs are opened" },
      { write: "taper pin", means: "a tapered pin or wedge that is driven in" },
    ],
  },
  {
    word: "replace",
    where: "action",
    meanings: [
      { write: "fit … new", means: "a new one goes on" },
      { write: "fit", means: "the old one goes back" },
    ],
  },
  {
    word: "replace",
    where: "decision",
    meanings: [
      { write: "renew", means: "a new one is got" },
      { write: "reuse", means: "the old one goes back" },
    ],
  },
  {
    word: "hoist",
    where: "raise on",
    meanings: [
      { write: "lift", means: "one that you may stand under" },
      { write: "crane", means: "one that you never stand under" },
    ],
  },
];

export function entryWord(word: string): EntryWord | undefined {
  return entriesByWord.get(word);
}

const entriesByWord: ReadonlyMap<string, EntryWord> = new Map(entryWords.map((it) => [it.word, it]));

/** The details that may start with this word, for any entry. */
export function detailsOf(word: string): readonly DetailWord[] {
  return detailsByWord.get(word) ?? [];
}

const detailsByWord: ReadonlyMap<string, readonly DetailWord[]> = grouped();

function grouped(): Map<string, DetailWord[]> {
  const groups = new Map<string, DetailWord[]>();
  for (const it of detailWords) {
    const group = groups.get(it.word);
    if (group === undefined) groups.set(it.word, [it]);
    else group.push(it);
  }
  return groups;
}

export function actionWord(word: string): ActionWord | undefined {
  return actionsByWord.get(word);
}

/** What such a word is written with, blanks where something is to be filled in. */
export const tailsWritten: Readonly<Record<string, string>> = { new: "new", from: "from ___", to: "to ___", by: "by ___", for: 'for now "___"' };

/** The word that goes on with such a line behind its places, where this is the beginning of it, or the same in capitals or with its letters out of turn: `ne`, `NEW`, `enw`. */
export function tailMeant(verb: string, typed: string): string | undefined {
  const small = typed.toLowerCase();
  const inTurn = [...small].sort().join("");
  const tails = [...(actionWord(verb)?.syntax ?? "").matchAll(/PLACE…\](.*)$/g)].flatMap((it) => (it[1] as string).match(/(?<=\[|\| )\p{Ll}+/gu) ?? []);
  return tails.find(
    (it) => it !== typed && Object.hasOwn(tailsWritten, it) && ((small.length > 1 && it.startsWith(small)) || [...it].sort().join("") === inTurn),
  );
}

const actionsByWord: ReadonlyMap<string, ActionWord> = new Map(actionWords.map((it) => [it.word, it]));

/** First words of the lines that may stand under an entry of this kind, the verbs of a step among them. */
export function firstWordsUnder(kind: EntryKind): ReadonlySet<string> {
  const known = underKind.get(kind);
  if (known !== undefined) return known;
  const words = new Set<string>();
  for (const it of detailWords) if (it.under === "any" || it.under.includes(kind)) words.add(it.word);
  if (kind === "step") {
    for (const it of actionWords) words.add(it.word);
    words.add("replace");
  }
  underKind.set(kind, words);
  return words;
}

const underKind = new Map<EntryKind, ReadonlySet<string>>();
