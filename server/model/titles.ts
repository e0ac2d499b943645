// How things are named in a sentence: by the titles that the sheet gives them, and lockings as a sheet would write them.
// Invariant: words only; made from declarations, never from what was done or found.
import type { Locking, Name, Quantity } from "../../grammar/tree.ts";
import { firstPart } from "./short-titles.ts";
import type { Thing } from "./things.ts";
import { unitsOf } from "./values.ts";

/** “left hub nut”, for the inside of a sentence: the place, then as much of the title as is its own (`short-titles.ts`), or the name where there is no title. */
export function midSentence(thing: Pick<Thing, "name" | "title" | "short">, place = ""): string {
  const title = thing.title === undefined ? `\`${thing.name}\`` : small(thing.short ?? firstPart(thing.title));
  return place === "" ? title : `${place} ${title}`;
}

/** Its name as words, and its title: what a telling by words looks through. */
export function allWords(thing: Pick<Thing, "name" | "title">): string {
  return `${thing.name.replaceAll("-", " ")} ${thing.title ?? ""}`;
}

/** `left, right`: names as a sheet would list them; nothing where there are none. */
export function namesText(names: readonly Name[]): string {
  return names.map((it) => it.text).join(", ");
}

/** A title for the inside of a sentence, whole: “cover oil seal” of “Cover oil seal”. */
export function small(text: string): string {
  // A title that opens with a capital word (`BSF nut`, `M10 bolt`, `D washer`) keeps it.
  return /^(?:\p{Lu}(?:\p{Ll}|$)|A\s)/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

/** A locking as a sheet would say it: `split pin 1/8 x 1-1/4 in`. */
export function lockingText(locking: Locking): string {
  if (locking.kind === "part") return `part ${locking.part?.text ?? ""}`.trim();
  return [locking.kind, sizeText(locking.size), locking.grade === undefined ? "" : `"${locking.grade.value}"`].filter((it) => it !== "").join(" ");
}

/** `1/8 x 1-1/4 in`: the unit once where it stands at the last only. */
export function sizeText(size: readonly Quantity[]): string {
  const units = unitsOf(size);
  const shared = size.every((it, i) => i === size.length - 1 || it.unit === undefined);
  if (shared) return `${size.map((it) => it.figure.text).join(" x ")}${units.at(-1) === undefined ? "" : ` ${units.at(-1)?.text}`}`;
  return size.map((it, i) => `${it.figure.text} ${units[i]?.text ?? ""}`.trim()).join(" x ");
}

/** “order R-1182”, and one whose reference is words by its words: “order “by telephone””. */
export function orderText(reference: string): string {
  return reference === "" ? "an order" : `order ${referenceText(reference)}`;
}

export function referenceText(reference: string): string {
  return /\s/u.test(reference) ? `\u201c${reference}\u201d` : reference;
}
