// Whole numbers in words, as they are written in a note: “none”, “seven”, “thirty-eight”.
const toNineteen = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(
  " ",
);
const tens = "twenty thirty forty fifty sixty seventy eighty ninety".split(" ");

const named: ReadonlyMap<string, number> = new Map([
  ["none", 0],
  ...toNineteen.map((word, i) => [word, i] as const),
  ...tens.map((word, i) => [word, 10 * (i + 2)] as const),
]);

/** Of a word or of figures, from none to ninety-nine in words. Undefined of anything else. */
export function numberNamed(words: string): number | undefined {
  const text = words.trim().toLowerCase();
  if (/^\d+(\.\d+)?$/u.test(text)) return Number(text);
  const [ten = "", one] = text.split(/[- ]/u);
  const [high, low] = [named.get(ten), named.get(one ?? "")];
  if (one === undefined) return high;
  return high === undefined || low === undefined || high < 20 || high % 10 !== 0 || low < 1 || low > 9 ? undefined : high + low;
}

/** A pattern, between word ends, of any that is one or more. */
export const numberPattern = String.raw`(?:\d+|(?:(?:${tens.join("|")})(?:[- ](?:${toNineteen.slice(1, 10).join("|")}))?|${toNineteen.slice(1).toReversed().join("|")}))`;
