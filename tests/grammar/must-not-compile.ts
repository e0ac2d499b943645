// What must not compile: a field that no row gives a line, a word without a shape. Nothing here runs: `tsc` fails where one of these lines compiles.
import type { Detail, Entry, TorqueDetail } from "../../grammar/tree.ts";
import type { DetailOf, DetailWord } from "../../grammar/words/detail-words.ts";
import type { EntryOf } from "../../grammar/words/entry-words.ts";
import { line, text } from "../../grammar/words/shape.ts";

type Field<K extends Detail["kind"]> = keyof Extract<Detail, { readonly kind: K }>;

export function fieldsThatAre(torque: TorqueDetail, held: DetailOf<"held">, measure: EntryOf<"measure">): unknown[] {
  const because: Field<"because"> = "text";
  return [torque.range?.kind, torque.stages?.[0], held.by[0]?.text, measure.limit?.text, because];
}

export function fieldsThatAreNot(torque: TorqueDetail, held: DetailOf<"held">, measure: EntryOf<"measure">, entry: Entry): unknown[] {
  // @ts-expect-error the field is `range`
  const misspelt: Field<"torque"> = "ranges";
  return [
    misspelt,
    // @ts-expect-error no shape gives a torque a text
    torque.text,
    // @ts-expect-error what holds it stands in `by`
    held.fasteners,
    // @ts-expect-error the place of a reading stands in its own line
    measure.place,
    // @ts-expect-error only some entries have a name
    entry.name,
  ];
}

// @ts-expect-error there is no such detail
export type NoDetail = DetailOf<"spanner">;
// @ts-expect-error there is no such entry
export type NoEntry = EntryOf<"spanner">;

// @ts-expect-error a row without a shape is no row
export const withoutShape: DetailWord = { word: "spanner", kind: "spanner", under: ["step"], syntax: "spanner", says: "None.", example: "spanner" };
// @ts-expect-error no entry is called so
export const underNothing: DetailWord = { ...withoutShape, under: ["spanners"], shape: text("text") };
// @ts-expect-error a list that is not named once more would be missing in a broken line
export const withoutList = line<{ readonly names: readonly string[] }>((it) => it.namesLine("names"));
// @ts-expect-error there is no rule of that name
export const withoutRule = line<{ readonly name?: string }>((it) => it.spannerLine());
