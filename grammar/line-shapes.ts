// Which rule of the grammar reads a line, by its first word: the rows of the tables of words, looked up.
import type { Grammar } from "./line-grammar.ts";
import { type EntryKind, detailWords, entryWords } from "./words.ts";
import { actionShapes } from "./words/action-words.ts";

export interface LineShape<Kind extends string> {
  readonly kind: Kind;
  readonly read: (grammar: Grammar) => void;
}

export const headShapes: ReadonlyMap<string, LineShape<EntryKind>> = new Map(entryWords.map(({ word, shape }) => [word, { kind: word, read: shape.read }]));

/** All details of one word are read by the rule of its first row, or, where it is a verb too, by that of the verb; `detail-places.ts` checks which it is. */
export const detailShapes: ReadonlyMap<string, LineShape<string>> = new Map<string, LineShape<string>>([
  ...detailWords.toReversed().map(({ word, kind, shape }): [string, LineShape<string>] => [word, { kind, read: shape.read }]),
  ...[...actionShapes].map(([word, { read }]): [string, LineShape<string>] => [word, { kind: "action", read }]),
]);

/** The lists that a consumer takes as there, though the line be broken before them. */
export const listsOf: ReadonlyMap<string, readonly string[]> = new Map<string, readonly string[]>([
  ...entryWords.map(({ word, shape }): [string, readonly string[]] => [word, shape.lists]),
  ...detailWords.map(({ kind, shape }): [string, readonly string[]] => [kind, shape.lists]),
  ["action", ["things", "places"]],
  ["reading", ["words", "figures"]],
]);
