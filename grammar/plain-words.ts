// What words of plain speech say wherever they stand in a line: how many, a guess, a denial, a turn, a usual place.
// Invariant: nothing is said of them here; good lines are looked through for them as well.

const counts: Readonly<Record<string, string>> = {
  one: "1",
  two: "2",
  three: "3",
  four: "4",
  five: "5",
  six: "6",
  seven: "7",
  eight: "8",
  nine: "9",
  ten: "10",
  eleven: "11",
  twelve: "12",
  a: "1",
  an: "1",
  single: "1",
  both: "2",
  pair: "2",
  couple: "2",
  "a pair": "2",
  "a couple": "2",
  "a single": "1",
  half: "1/2",
  quarter: "1/4",
};

const numbers: ReadonlySet<string> = new Set(["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]);

/** The figure for a number in one word, from one to twelve: no other word that tells how many. */
export function numberOf(word: string): string | undefined {
  return numbers.has(word) ? counts[word] : undefined;
}

/** The figure for a count in words. */
export function countOf(words: string): string | undefined {
  const known = words.replace(/ of$/, "").toLowerCase();
  return Object.hasOwn(counts, known) ? counts[known] : undefined;
}

const estimates: ReadonlySet<string> = new Set(
  "about roughly approx approximately ca circa around nearly almost say some maybe perhaps probably guess guessed estimated abt thereabouts ish".split(" "),
);

/** Whether what stands beside such a word was not read but guessed. */
export function isEstimate(word: string): boolean {
  return estimates.has(word) || (word < "a" && estimates.has(word.toLowerCase()));
}

const denials: ReadonlySet<string> = new Set("not no never without except excepting excluding neither nor hardly scarcely barely but cannot".split(" "));

/** Whether such a word turns round what stands beside it: it is no name, and no place. */
export function denies(word: string): boolean {
  return denials.has(word) || (word < "a" && denials.has(word.toLowerCase()));
}

const unread: ReadonlySet<string> = new Set("not no never target aim wanted expected should nominal book spec limit".split(" "));

/** Whether what stands behind such a word is what it is not, or what it ought to be. */
export function isNoReading(word: string): boolean {
  return unread.has(word) || (word < "a" && unread.has(word.toLowerCase()));
}

export const fractions: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
  "⅓": "1/3",
  "⅔": "2/3",
};

/** How far something is turned is told in these. */
export function isTurn(word: string): boolean {
  return /^(?:flats?|turns?|deg|degrees?)$/.test(word);
}

/** Words that are places on most machines. Which words are places on this one a line can't know. */
export const usualPlaces: ReadonlySet<string> = new Set([
  "left",
  "right",
  "front",
  "rear",
  "near-side",
  "off-side",
  "nearside",
  "offside",
  "inner",
  "outer",
  "upper",
  "lower",
  "top",
  "bottom",
]);
