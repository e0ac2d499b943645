// How messages name things and put figures: in the sheet's own titles, units and places.
// Invariant: words only; no verdict is made here.
import type { Locking, Quantity } from "../../grammar/tree.ts";
import type { Limit, Thing } from "../model/things.ts";
import { rangeText, unitsOf } from "../model/values.ts";
import type { Exact } from "../quantities/exact.ts";
import { sameUnitText } from "../quantities/quantity.ts";
import type { Band } from "../quantities/range.ts";
import type { Unit } from "../quantities/units.ts";

/** “Left hub nut”: the place, then the title up to its first comma, or the name where there is no title. */
export function called(thing: Pick<Thing, "name" | "title">, place = ""): string {
  return capital(midSentence(thing, place));
}

/** The same inside a sentence: “left hub nut”. */
export function midSentence(thing: Pick<Thing, "name" | "title">, place = ""): string {
  const title = thing.title === undefined ? `\`${thing.name}\`` : small((thing.title.split(/[,;(]/)[0] as string).trim());
  return place === "" ? title : `${place} ${title}`;
}

function small(text: string): string {
  // A title that opens with a capital word (`BSF nut`, `M10 bolt`) keeps it.
  return /^\p{Lu}(?:\p{Ll}|\s|$)/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A value in a unit, with as many places as the figures that it came from need, at most six: `0.0143 in`. */
export function valueText(value: Exact, unit: Unit, places: number): string {
  return sameUnitText(value, unit, Math.max(0, Math.min(places, 6)));
}

/** A locking as a sheet would say it: `split pin 1/8 x 1-1/4 in`. */
export function lockingText(locking: Locking): string {
  if (locking.kind === "part") return `part ${locking.part?.text ?? ""}`.trim();
  const size = sizeText(locking.size);
  return [locking.kind, size, locking.grade === undefined ? "" : `"${locking.grade.value}"`].filter((it) => it !== "").join(" ");
}

function sizeText(size: readonly Quantity[]): string {
  const units = unitsOf(size);
  const shared = size.every((it, i) => i === size.length - 1 || it.unit === undefined);
  if (shared) return `${size.map((it) => it.figure.text).join(" x ")}${units.at(-1) === undefined ? "" : ` ${units.at(-1)?.text}`}`;
  return size.map((it, i) => `${it.figure.text} ${units[i]?.text ?? ""}`.trim()).join(" x ");
}

/** A band in the words of the limit that it belongs to: `max 0.010 in`. */
export function bandText(limit: Limit, band: "worn" | "set" | "new" | "spread" | "ovality" | "taper", against: Band): string {
  const range = band === "worn" ? limit.worn : band === "set" ? limit.set : band === "new" ? limit.new : undefined;
  return range === undefined ? against.text : rangeText(range);
}

/** “a, b and c” */
export function listed(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`;
}

/** “1 pin”, “2 pins” */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** The one place of a finding, or none. */
export function placeFoundName(places: readonly string[]): string {
  return places.length === 1 ? (places[0] ?? "") : "";
}
