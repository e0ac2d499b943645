// How messages name things and put figures: in the sheet's own titles, units and places.
// Invariant: words only; no verdict is made here.
import type { Gauge, Limit, Thing } from "../model/things.ts";
import { midSentence } from "../model/titles.ts";
import { quantityText, rangeText } from "../model/values.ts";
import type { Exact } from "../quantities/exact.ts";
import { sameUnitText } from "../quantities/quantity.ts";
import type { Band } from "../quantities/range.ts";
import type { Unit } from "../quantities/units.ts";

export { agreeing, lockingText, midSentence } from "../model/titles.ts";

/** “Left hub nut”: the place, then as much of the title as is its own, or the name where there is no title. */
export function called(thing: Pick<Thing, "name" | "title" | "short">, place = ""): string {
  return capital(midSentence(thing, place));
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A value in a unit, with as many places as the figures that it came from need, at most six: `0.0143 in`. */
export function valueText(value: Exact, unit: Unit, places: number): string {
  return sameUnitText(value, unit, Math.max(0, Math.min(places, 6)));
}

/** “0.01 mm”, “4 % of the reading”, or both */
export function knownTo({ uncertainty, uncertaintyShare }: Gauge): string {
  return [
    ...(uncertainty === undefined ? [] : [quantityText(uncertainty)]),
    ...(uncertaintyShare === undefined ? [] : [`${uncertaintyShare.figure.text} % of the reading`]),
  ].join(" and ");
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

/** “a, b, c and 4 more”: a list in a message is cut at three. */
export function few(words: readonly string[], most = 3): string {
  return words.length <= most + (most > 1 ? 1 : 0) ? listed(words) : `${words.slice(0, most).join(", ")} and ${words.length - most} more`;
}

/** “order “K-1””; one whose reference is still blank has nothing to call it by. */
export function orderNamed(reference: string | undefined): string {
  return (reference ?? "") === "" ? "the order" : `order “${reference}”`;
}

/** “1 pin”, “2 pins” */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** The one place of a finding, or none. */
export function placeFoundName(places: readonly string[]): string {
  return places.length === 1 ? (places[0] ?? "") : "";
}

/** A thing at several places: “Hub nut (left and right)”. */
export function calledAt(thing: Pick<Thing, "name" | "title" | "short">, places: readonly string[]): string {
  const named = places.filter((place) => place !== "");
  return named.length > 1 ? `${called(thing)} (${listed(named)})` : called(thing, named[0]);
}

/** The sentence that says what is wrong, without what would put it right. */
export function firstSentence(message: string): string {
  const end = message.search(/\.\s+\p{Lu}/u);
  return end < 0 ? message : message.slice(0, end + 1);
}

/** Small words that stand in any title and any line, and tell none of them from another. */
export const namingNothing: readonly string[] = "the and with for off out its one not way end side".split(" ");
