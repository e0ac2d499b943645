// Figures that are said in words: `two and a half thou`, `three eighths`, `half an inch`, `2 1/4`, `½`, as a sheet writes them.
// Invariant: a word is made a figure only before a fraction or a unit, where it can be nothing else.

const numbers: Readonly<Record<string, number>> = Object.fromEntries(
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty"
    .split(" ")
    .map((it, i) => [it, i]),
);
const fractions: Readonly<Record<string, number>> = {
  half: 2,
  halve: 2,
  third: 3,
  quarter: 4,
  eighth: 8,
  sixth: 6,
  sixteenth: 16,
  "thirty-second": 32,
  "sixty-fourth": 64,
};

const number = Object.keys(numbers).join("|");
const fraction = Object.keys(fractions).join("|");
const unit =
  "thou|thousandths?|inch(?:es)?|in|mm|millimet(?:re|er)s?|foot|feet|pints?|gallons?|quarts?|litres?|tons?|pounds?|lbs?|degrees?|turns?|flats?|slots?|holes?|imperial|us|british|american";

const glyphs: Readonly<Record<string, string>> = {
  "\u00bd": "1/2",
  "\u00bc": "1/4",
  "\u00be": "3/4",
  "\u215b": "1/8",
  "\u215c": "3/8",
  "\u215d": "5/8",
  "\u215e": "7/8",
};

const mixedWords = new RegExp(`\\b(${number}|\\d{1,4}) and (?:an? |one )?(${number}|)[ -]?(${fraction})s?\\b(?: of an?(?= ))?`, "gi");
const fractionWords = new RegExp(
  `\\b(?:an? |(${number}) |(${number})-)?(${fraction})s?\\b(?:(?: of)? an?(?= (?:${unit})\\b))?(?= (?:${unit}|BSW|BSF|UNC|UNF|whit\\w*|BSP|an?)\\b)`,
  "gi",
);
const plainWords = new RegExp(`\\b(${number}) (?=(?:${unit})\\b)`, "gi");

export function figuresFromWords(text: string): string {
  if (text.length > 400) return text;
  return (
    text
      .replace(/[\u00bd\u00bc\u00be\u215b-\u215e]/g, (it) => ` ${glyphs[it] ?? it} `)
      .replace(/ {2,}/g, " ")
      .replace(mixedWords, (_, whole: string, top: string, part: string) => `${numberOf(whole)}-${top === "" ? 1 : numberOf(top)}/${denominator(part)}`)
      .replace(
        fractionWords,
        (_, top: string | undefined, glued: string | undefined, part: string) => `${numberOf(top ?? glued ?? "one")}/${denominator(part)}`,
      )
      .replace(plainWords, (_, it: string) => `${numberOf(it)} `)
      // A whole number, a blank and an inch fraction are one figure.
      .replace(
        /(?<![\p{L}\d./-])(?<!\b(?:grade|gr\.?|class|no\.?|number|module|DP|slots?|holes?) )(\d{1,4}) (\d{1,2}\/(?:2|4|8|16|32|64))(?![\d/.])/giu,
        (all, whole: string, part: string) => {
          const [top = "", bottom = ""] = part.split("/");
          return Number(top) < Number(bottom) ? `${whole}-${part}` : all;
        },
      )
      .trim()
  );
}

function numberOf(word: string): number {
  return numbers[word.toLowerCase()] ?? Number(word);
}

function denominator(word: string): number {
  return fractions[word.toLowerCase()] ?? 1;
}
