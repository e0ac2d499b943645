// The words that start a detail line. A row is all of a word: where it stands, what follows it and the fields that this gives its line, how it is written, what it says.
// The type of each line is made from its row (`DetailOf`); a rule of its own stands in `line-grammar.ts`.
import type { Line } from "../tree.ts";
import type { EntryKind } from "./entry-words.ts";
import { judgedWords } from "./judged-words.ts";
import { madeWords } from "./made-words.ts";
import type { FieldsOf, Flat, Shape } from "./shape.ts";
import { supplyWords } from "./supply-words.ts";
import { workWords } from "./work-words.ts";

export interface DetailWord {
  /** The first word of the line. Several details may share one: `safe` of a hazard and `safe` in a step. All of a word are read by one rule; `detail-places.ts` checks which it is. */
  readonly word: string;
  readonly kind: string;
  readonly under: readonly EntryKind[] | "any";
  readonly shape: Shape<unknown>;
  readonly syntax: string;
  readonly says: string;
  readonly example: string;
}

const rows = [...madeWords, ...judgedWords, ...workWords, ...supplyWords] as const;

type Row = (typeof rows)[number];
export type DetailKind = Row["kind"];
/** The line that a row of this kind gives. */
export type DetailOf<K extends DetailKind> = Flat<Line & { readonly kind: K } & FieldsOf<Extract<Row, { readonly kind: K }>>>;

export const detailWords: readonly (DetailWord & { readonly kind: DetailKind })[] = rows;
