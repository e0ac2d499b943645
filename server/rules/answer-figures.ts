// An answer that gives what a thing may be and what it is, and the one is past the other: “3/16 is the least, ours is 5/32”.
// Invariant: two figures of one unit, each told as what it is; one unit may stand for both. Where it may be otherwise, nothing is told.
import { type Exact, compare } from "../quantities/exact.ts";
import { type Measured, quantity } from "../quantities/quantity.ts";

/** Whether what it is lies under the least or over the most that the answer itself gives; the question may have asked for that. */
export function isPastItsOwn(question: string, answer: string): boolean {
  if (!/\d.*\d/su.test(answer)) return false;
  const own = told(ours, answer);
  if (own === undefined) return false;
  const least = told(atLeast, answer) ?? (asksFor(question, leastOf, smallOf) ? told(first, answer) : undefined);
  const most = least === undefined ? (told(atMost, answer) ?? (asksFor(question, mostOf, largeOf) ? told(first, answer) : undefined)) : undefined;
  const bound = least ?? most;
  if (bound === undefined || bound.at === own.at) return false;
  const [one, other] = [sizeOf(own, bound), sizeOf(bound, own)];
  if (one === undefined || other === undefined) return false;
  return least === undefined ? compare(one, other) > 0 : compare(one, other) < 0;
}

/** For a bound by its name, or how far it may go; how much a thing has worn, or stands out, is another question. */
function asksFor(question: string, bound: RegExp, how: RegExp): boolean {
  return bound.test(question) || (how.test(question) && mayBe.test(question));
}

interface Told {
  readonly figure: string;
  readonly unit: string | undefined;
  readonly at: number;
}

function told(ways: readonly string[], answer: string): Told | undefined {
  for (const way of ways) {
    const found = new RegExp(way, "iu").exec(answer);
    const { figure: text, unit } = found?.groups ?? {};
    if (found !== null && text !== undefined) return { figure: text, unit, at: found.index + found[0].indexOf(text) };
  }
  return undefined;
}

/** By its own unit or by that of the other; of neither, as it is written. */
function sizeOf({ figure, unit }: Told, other: Told): Exact | undefined {
  const it: Measured | undefined = quantity(figure.startsWith(".") ? `0${figure}` : figure, spelt(unit ?? other.unit ?? "in"));
  return it?.unit.dimension === "length" || it?.unit.dimension === "mass" || it?.unit.dimension === "force" ? it.value : undefined;
}

const spelt = (unit: string) => (/^(inch|inches|")$/iu.test(unit) ? "in" : unit.toLowerCase());

const figure = String.raw`(?<![\d./])(?<figure>\d+-\d+/\d+|\d+/\d+|\d*\.\d+|\d+)(?![\d/]|\.\d)(?: ?(?<unit>inch(?:es)?|in|thou|mm|cm|lb|kg|")(?![\p{L}]))?`;
const asIs = "(?:'s| is| are| was| has| have| had| of| at| to| than|:| about| only| just| still| down| now| measures?| reads?| got| stands?| comes?)*";
const first = [figure];
const ours = [
  String.raw`\b(?:ours?|mine|this one|that one|the one (?:in|here)|what we have|we(?:'ve| have)(?: got)?|it measures?|(?:it|they|these) (?:is|are) (?:only|just|down to))${asIs} ${figure}`,
];
const bareLeast = "(?:least|minimum|min|thinnest|smallest|lowest)";
const bareMost = "(?:most|maximum|max|largest)";
const atLeast = [
  String.raw`(?<!\b${bareMost} )${figure}(?:,? (?:is|as|was|be))? (?:(?:the|its|a|very|absolute|bare) )*(?:${bareLeast}|or (?:more|better|over))\b`,
  String.raw`\b(?:${bareLeast}|(?:no|not|nothing|never) (?:less|under|below|thinner)|scrap\w*(?: it)? (?:at|under|below))${asIs} ${figure}`,
];
const atMost = [
  String.raw`(?<!\b${bareLeast} )${figure}(?:,? (?:is|as|was|be))? (?:(?:the|its|a|very|absolute) )*(?:${bareMost}|or (?:less|under))\b`,
  String.raw`\b(?:${bareMost}|(?:no|not|nothing|never) (?:more|over|above)|scrap\w*(?: it)? (?:over|above))${asIs} ${figure}`,
];
const leastOf = /\b(least|minimum|thinnest|smallest)\b/iu;
const smallOf = /\b(how (thin|small|far down|low)|(thin|wear|go|turned?|ground) down)\b/iu;
const mostOf = /\b(most|maximum|largest|too (big|wide|large))\b/iu;
const largeOf = /\bhow (big|large|wide|much|far)\b/iu;
const mayBe = /\b(may|can|could|might|allow(s|ed)?|permit(s|ted)?|must|should|before|until|limit|safe(ly)?|scrap)\b/iu;
