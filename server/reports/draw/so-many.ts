// So many of a thing, as every report says it.
// Invariant: words only. A title is set for the inside of a sentence, and never put into the plural: “4 × tab washer 20 mm”.
import { small } from "../../model/titles.ts";

/** `4 × tab washer 20 mm`, `250 ml of bevel drive oil`. `amount`: the figure with its unit, where it has one. */
export function soMany(amount: string, title: string): string {
  return `${amount}${/^[\d.]+$/u.test(amount) ? " \u00d7" : " of"} ${small(title)}`;
}
