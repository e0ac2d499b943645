// So many of a thing, as every report says it.
// Invariant: words only. A title is set for the inside of a sentence, and never put into the plural: “4 × tab washer 20 mm”.
import { small } from "../../model/titles.ts";
import { listed } from "../../rules/wording.ts";

/** `4 × tab washer 20 mm`, `250 ml of bevel drive oil`. `amount`: the figure with its unit, where it has one. */
export function soMany(amount: string, title: string): string {
  return `${amount}${/^[\d.]+$/u.test(amount) ? " \u00d7" : " of"} ${small(title)}`;
}

/** The title with the item as the sheet names it after it, where the two are not the same words: `Rear brake shoe, lined (brake-shoe)`, `Cover gasket`. */
export function titleAndName({ item, name }: { readonly item: string; readonly name: string }): string {
  return wordsOf(name) === wordsOf(item) ? name : `${name} (${item})`;
}

function wordsOf(text: string): string {
  return text.toLowerCase().replaceAll("-", " ");
}

/** A title among others that commas tell apart: “hub bearing (outer)” of “hub bearing, outer”. */
export function inList(title: string): string {
  const at = title.indexOf(", ");
  return at < 0 || title.includes("(") ? title : `${title.slice(0, at)} (${title.slice(at + 2)})`;
}

/** “cover gasket; rear brake shoe, lined and 2 more”: a list of titles for a sentence, told apart by semicolons where one has a comma of its own; cut at `most`. */
export function titlesListed(titles: readonly string[], most = titles.length): string {
  const shown = titles.slice(0, most).map(small);
  const words = titles.length > most ? [...shown, `${titles.length - most} more`] : shown;
  return shown.some((it) => it.includes(",")) ? words.join("; ") : listed(words);
}

/** Steps by their titles, each in quotes: “Hubs, left” and “Brakes”. */
export function stepsListed(titles: readonly string[]): string {
  return listed(titles.map((it) => `\u201c${it}\u201d`));
}

/** A sentence with one point at its end: a question in quotes has its own. */
export function ended(sentence: string): string {
  return /[.!?]\u201d?$/u.test(sentence) ? sentence : `${sentence}.`;
}
