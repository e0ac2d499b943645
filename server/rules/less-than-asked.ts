// What a look tells that is less than its check asks: blue on a quarter of it where three quarters are asked, 12 lb where 35 are, four minutes where it is to come in one, one end where the whole is asked, three
// where all four are, by eye where dye is.
// Invariant: plain shares, times, counts and means alone; a text that tells of what was before, or that gives what is asked somewhere, is not doubted.
import { numberNamed, numberPattern } from "../quantities/number-words.ts";

/** The words that tell too little of what `title` asks for. Undefined where nothing of that kind is asked, or nothing told. */
export function tellsLess(title: string, text: string): string | undefined {
  return (
    smallerShare(title, text) ??
    longerTime(title, text) ??
    anEndOnly(title, text) ??
    fewerThanAll(title, text) ??
    byLessThanAsked(title, text) ??
    countOutside(title, text) ??
    figureOutside(title, text)
  );
}

/** “Oil 35 lb or more, hot”, and “12 lb hot”; “no more than 5 mm”, and “8 mm”: outside by every figure of that unit that is told. */
function figureOutside(title: string, text: string): string | undefined {
  const least = orMore.exec(title) ?? atLeast.exec(title);
  const most = least === null ? (orLess.exec(title) ?? atMost.exec(title)) : null;
  const [, asked = "", unit = ""] = least ?? most ?? [];
  if (asked === "" || past.test(text)) return undefined;
  const told = [...text.matchAll(figureWithUnit)].filter((it) => it[2]?.toLowerCase() === unit.toLowerCase());
  const isOutside = told.map(([, figure]) => (least === null ? Number(figure) > Number(asked) : Number(figure) < Number(asked)));
  return isOutside.length > 0 && isOutside.every((it) => it) ? told[0]?.[0] : undefined;
}

const withUnit = String.raw`(\d+(?:\.\d+)?) ?(lbs?|psi|bar|mm|cm|in|thou|deg|mph|kg|t|cwt|rpm|volts?|v|s|sec|%|tons?)`;
const orMore = new RegExp(String.raw`${withUnit} or (?:more|over|better|above)\b`, "iu");
const atLeast = new RegExp(String.raw`\b(?:at least|(?:no|not) (?:less|under) than|not (?:under|below)) ${withUnit}(?!\w)`, "iu");
const orLess = new RegExp(String.raw`${withUnit} or (?:less|under|below)\b`, "iu");
const atMost = new RegExp(String.raw`\b(?:at most|(?:no|not) more than|not over) ${withUnit}(?!\w)`, "iu");
const figureWithUnit = new RegExp(String.raw`(?<![\d.,/-])${withUnit}(?!\w)`, "giu");

/** “Three to six turns from free to hard on”, and “seven and a half turns”: outside by every such count that is told. */
function countOutside(title: string, text: string): string | undefined {
  const [, few = "", many = "", what = ""] = askedCount.exec(title) ?? [];
  const [least, most] = [countOf(few), countOf(many)];
  if (least === undefined || most === undefined || past.test(text)) return undefined;
  const told = [...text.matchAll(toldCount)].filter((it) => singular(it[3] ?? "") === singular(what));
  const isOutside = told.map(([, count = "", half]) => {
    const value = (countOf(count) ?? least) + (half === undefined ? 0 : 1 / 2);
    return value < least || value > most;
  });
  return isOutside.length > 0 && isOutside.every((it) => it) ? told[0]?.[0] : undefined;
}

const numberWord = String.raw`\d+\.\d+|${numberPattern}`;
const counted = "turns?|notch(?:es)?|clicks?|strokes?|pumps?|flats?|teeth|threads?";
const askedCount = new RegExp(String.raw`\b(${numberWord}) ?(?:to|or|\.\.|–|-) ?(${numberWord}) (${counted})\b`, "iu");
const toldCount = new RegExp(String.raw`\b(${numberWord})( and a half)? (${counted})\b`, "giu");
const singular = (word: string) => word.toLowerCase().replace(/(?<=ch)es$|s$/u, "");

/** “Along the whole key”, and “blue at both ends”. */
function anEndOnly(title: string, text: string): string | undefined {
  if (bothWays.test(title) && !all.test(text)) return oneWayOnly.exec(text)?.[0];
  if (
    !/\b((the|its|their|a) whole|whole \w|entire|full (length|width)|all (along|round|over|the way)|from end to end)\b/iu.test(title) ||
    all.test(text) ||
    past.test(text)
  )
    return undefined;
  return endOnly.exec(text.replace(noGapThere, " "))?.[0];
}

const bothWays = /\b(lock to lock|both (ways|sides|locks|directions|hands)|each (way|side))\b/iu;
const oneWayOnly = /\b(left|right|near|off|one|ahead|astern|forward|back)( \w+)? only\b|\bonly (to |on |at )?(the )?(left|right|near|off|one)\b/iu;
const all = /\b(whole|entire|full|all|along|throughout|every|even(ly)?|middle|centre|between|round|end to end)\b/iu;
/** No daylight at the ends is no less than the whole; no blue there is. */
const noGapThere =
  /\b(no|without(?: an?y?)?|nor) (gaps?|daylight|light|space|step|rock|lift|room)( \w+)? (at|on|near|towards?) (the )?(one|both|either|\w+) (ends?|edges?|sides?)\b/giu;
const endOnly =
  /\b(at|on|near|towards?) (the )?(\w+ )?(one|both|either|\w+) (ends?|edges?|sides?|flanks?)\b( only| alone)?|\b(at|on|near|towards?) the (toe|heel|tip|root|edge)s?\b( only| alone)?/iu;

/** “All four bite together”, and “three bite, the fourth a turn later”. */
function fewerThanAll(title: string, text: string): string | undefined {
  const asked = countOf(/\ball (two|three|four|five|six|seven|eight)\b/iu.exec(title)?.[1] ?? "");
  const told = /^\W*(?:only |just )?(one|two|three|four|five|six|seven)(?: of (?:the |them|\w+))?(?: \w+)?\b/iu.exec(text);
  const count = countOf(told?.[1] ?? "");
  if (asked === undefined || count === undefined || count >= asked || !theOthers.test(text) || /\b(now|at first|then|again)\b/iu.test(text)) return undefined;
  return text.split(/[.;]/)[0]?.trim();
}

const theOthers =
  /\b(the|an?) (other|others|last|rest|remaining|second|third|fourth|fifth|sixth|seventh|eighth)\b.*\b(later|late|after|follows?|not|never|slow\w*|hangs?|lags?|drags?|sticks?|hardly|behind)\b/iu;

/** “Under magnetic ink”, and “by eye only, ink used up”. */
function byLessThanAsked(title: string, text: string): string | undefined {
  const means = /\b(dye|ink|magnetic|penetrant|fluorescent|ultrasonic|ultrasound|x-?ray(ed)?|blue)\b/iu;
  if (!means.test(title)) return undefined;
  const said = without.exec(text) ?? (means.test(text) ? null : byEye.exec(text));
  return said?.[0];
}

/** That the means was not there, or not used. */
const without =
  /\b(?:no|without(?: the| any)?|out of|not (?:under|with|in)(?: the)?) (?:dye|ink|penetrant|blue)\b(?! (?:shows?|lines?|marks?|traces?|left))|\b(?:dye|ink|penetrant|blue) (?:was |is )?(?:used up|ran out|finished|empty|all gone)\b/iu;
const byEye = /\bby (?:the )?(?:naked )?eye\b(?: only| alone)?/iu;

/** “Over four fifths”, “three quarters of each brass”. */
function smallerShare(title: string, text: string): string | undefined {
  if (!/\b(blued?|contact|bedd\w*|bears|bearing|pattern|marks?)\b/iu.test(title)) return undefined;
  const asked = sharesIn(title).map(({ share }) => share);
  if (asked.length !== 1) return undefined;
  const least = asked[0] as number;
  const told = sharesIn(text);
  const less = told.find(({ share }) => share < least - 1e-9);
  // At the left and the right nothing is left.
  if (less === undefined || past.test(text.replace(sides, " ")) || (told.at(-1)?.share ?? 0) >= least) return undefined;
  return less.words;
}

const sides = /\b(at |on |the |and )*left( side| and right|, right)?$|\bleft (and|,) right\b|\b(at|on) the (left|right)\b/giu;

function sharesIn(text: string): { readonly words: string; readonly share: number }[] {
  return [...text.matchAll(shares)].map((it) => {
    const [words, many = "", part, half, percent] = it;
    if (percent !== undefined) return { words, share: Number(percent) / 100 };
    if (half !== undefined) return { words, share: 1 / 2 };
    const count = many.trim() === "" ? 1 : (countOf(many.trim()) ?? 1);
    return { words, share: count / (parts.get((part ?? "").toLowerCase().replace(/s$/, "")) ?? 1) };
  });
}

const parts: ReadonlyMap<string, number> = new Map([
  ["third", 3],
  ["quarter", 4],
  ["fifth", 5],
  ["eighth", 8],
  ["tenth", 10],
]);
/** Not of an inch, a turn or an hour, and no third of several: “the third brass”. */
const shares =
  /(?<!\b(?:the|every|each|last) )\b(?:(a |one |two |three |four |five |six |seven |eight |nine )(thirds?|quarters?|fifths?|eighths?|tenths?)|(?<=^|\b(?:over|about|only|on|barely|than|under|nearly|some) )(half(?= (?:of|the|its)\b)|a half\b)|(\d\d?) ?%)(?! ?(?:of )?(?:an? )?(?:inch|in\b(?! the)|turn|hour|mile|mm|thou|pint|litre|ton|brass|half|one|time|try|go\b))/giu;

const past =
  /\b(first|then|now|again|before|at last|until|till|after|from|was|were|been|bare|clear|dry|without|free|left|short of|all but|more|better|off)\b/iu;

/** “In a minute”, “within ten seconds”: longer than that by every time that is told. */
function longerTime(title: string, text: string): string | undefined {
  const limit = askedTime.exec(title);
  if (limit === null) return undefined;
  const most = secondsOf(limit[1] ?? "", limit[2] ?? "");
  const told = [...text.matchAll(times)].map(([words, many = "", unit = ""]) => ({ words, seconds: secondsOf(many, unit) }));
  if (most === undefined || told.length === 0 || past.test(text) || /\b(for|ran|run|running|of|every|each|later|apart|held|stood)\b/iu.test(text))
    return undefined;
  return told.every(({ seconds }) => seconds !== undefined && seconds > most) ? told[0]?.words : undefined;
}

const many = `half an?|an?|${numberWord}`;
const unit = "s|secs?|seconds?|min|mins|minutes?|h|hours?";
const askedTime = new RegExp(String.raw`\b(?:in|within|inside|under|less than)(?: about)? (${many}) ?(${unit})\b`, "iu");
const times = new RegExp(String.raw`\b(${many}) ?(${unit})\b`, "giu");
/** In words or in figures; undefined of nothing. */
function countOf(words: string): number | undefined {
  const small = words.toLowerCase();
  if (/^half an?$/u.test(small)) return 1 / 2;
  return /^an?$/u.test(small) ? 1 : numberNamed(small);
}

function secondsOf(count: string, of: string): number | undefined {
  const n = countOf(count);
  if (n === undefined) return undefined;
  const first = of.toLowerCase().charAt(0);
  return n * (first === "h" ? 3600 : first === "m" ? 60 : 1);
}
