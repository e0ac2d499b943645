// What follows a line's first word: the rule that reads it, and the fields that it gives the line. A row of a table of words holds one.
// The type of a line follows from its row, so a field that no shape gives does not exist, and a word without a shape does not compile.
// Invariant: types and closures only; nothing here knows of a word.
import type { Grammar } from "../line-grammar.ts";
import type { DateText, Figure, Money, Name, Quantity, Range, Text } from "../tree.ts";

export interface Shape<Fields> {
  /** Reads the line, its first word included, into the node that the grammar holds. */
  readonly read: (grammar: Grammar) => void;
  /** The lists that whoever reads the line takes as there, though it be broken before them. */
  readonly lists: readonly string[];
  /** Of the line's type; never set. */
  readonly fields?: Fields;
}

/** The fields that are there always and hold a list. */
type ListField<Fields> = { [K in keyof Fields]-?: undefined extends Fields[K] ? never : Fields[K] extends readonly unknown[] ? K : never }[keyof Fields];
/** Every list of the fields, named once more where the program can see it; nothing where there is none. */
type Lists<Fields> = [ListField<Fields>] extends [never] ? [] : [Readonly<Record<ListField<Fields>, true>>];

/** A line with a rule of its own. */
export function line<Fields>(read: (grammar: Grammar) => void, ...[lists]: Lists<Fields>): Shape<Fields> {
  return { read, lists: Object.keys(lists ?? {}) };
}

type One<K extends string, T> = { readonly [P in K]?: T };
type Many<K extends string, T> = { readonly [P in K]: readonly T[] };

export const text = <K extends string>(field: K): Shape<One<K, Text>> => ({ read: (it) => it.textLine(field), lists: [] });
export const maybeText = <K extends string>(field: K): Shape<One<K, Text>> => ({ read: (it) => it.maybeTextLine(field), lists: [] });
export const name = <K extends string>(field: K): Shape<One<K, Name>> => ({ read: (it) => it.nameLine(field), lists: [] });
export const names = <K extends string>(field: K): Shape<Many<K, Name>> => ({ read: (it) => it.namesLine(field), lists: [field] });
export const date = <K extends string>(field: K): Shape<One<K, DateText>> => ({ read: (it) => it.dateLine(field), lists: [] });
export const count = <K extends string>(field: K): Shape<One<K, Figure>> => ({ read: (it) => it.countLine(field), lists: [] });
export const quantity = <K extends string>(field: K): Shape<One<K, Quantity>> => ({ read: (it) => it.quantityLine(field), lists: [] });
export const money = <K extends string>(field: K): Shape<One<K, Money>> => ({ read: (it) => it.moneyLine(field), lists: [] });
export const range = <K extends string>(field: K): Shape<One<K, Range>> => ({ read: (it) => it.rangeLine(field), lists: [] });
/** `max Q` */
export const most = <K extends string>(field: K): Shape<One<K, Quantity>> => ({ read: (it) => it.maxLine(field), lists: [] });
/** A name and a text: `accept RULE "why"`. */
export const nameAndText = <N extends string, T extends string>(named: N, told: T): Shape<One<N, Name> & One<T, Text>> => ({
  read: (it) => it.nameTextLine(named, told),
  lists: [],
});

/** Fields as one object, as an editor shows them best. */
export type Flat<T> = { [K in keyof T]: T[K] };
/** The fields that a row's shape gives. */
export type FieldsOf<Row> = Row extends { readonly shape: Shape<infer Fields> } ? Fields : never;
