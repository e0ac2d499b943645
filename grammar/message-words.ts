// Words about words, for the messages of lines that can't be read: how a line is written, a token as it is shown, a list with its last "or".
import type { IToken } from "chevrotain";
import { DateToken, OtherDate, TextToken, endOf } from "./tokens.ts";
import { fault, fixOf } from "./line-nodes.ts";
import type { Fault, Span } from "./tree.ts";
import { type EntryKind, actionWord, detailsOf, entryWord, lockingPhrases } from "./words.ts";

/** How the line that starts with this word is written. */
export function syntaxOf(tokens: readonly IToken[]): string {
  const word = tokens[0]?.image ?? "";
  const details = detailsOf(word);
  const syntax =
    entryWord(word)?.syntax ?? [...details.map((it) => it.syntax), ...(actionWord(word) === undefined ? [] : [actionWord(word)?.syntax])].join(" | ");
  return syntax === "" ? "left 0.014, 0.015 in" : syntax;
}

/** An entry as one says it: “a part”, “an offer”, “shims”. */
export function withArticle(kind: EntryKind): string {
  if (kind === "shims" || kind === "places" || kind === "stock") return kind;
  return `${/^[aeiou]/.test(kind) && kind !== "use" ? "an" : "a"} ${kind}`;
}

export function detailThing(verb: string): string {
  const syntax = actionWord(verb)?.syntax ?? "";
  return syntax.includes("FASTENER") ? "a fastener" : syntax.includes("FLUID") ? "a fluid" : syntax.includes("PART") ? "a part" : "a name";
}

export const goingOn = new Set(["to", "by", "new", "with", "from", "for", "on", "under"]);

export function between(a: IToken, b: IToken): Span {
  return { from: endOf(a), to: b.startOffset };
}

export function shown(it: IToken): string {
  if (it.tokenType === TextToken) return "a text";
  if (it.tokenType === OtherDate || it.tokenType === DateToken) return "a date";
  return `\`${it.image.length > 40 ? `${it.image.slice(0, 40)}…` : it.image}\``;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function orList(words: readonly string[]): string {
  const quoted = words.map((it) => `\`${it}\``);
  return quoted.length < 2 ? (quoted[0] ?? "") : `${quoted.slice(0, -1).join(", ")} or ${quoted[quoted.length - 1]}`;
}

/**
 * What was typed is near to a word. Where several begin with it (`und`, `re`) it is half of one, and nobody says which: each is offered, and none is written for
 * whoever has all spelling mended at once.
 */
export function isMeant(at: Span, said: string, typed: string, near: string, words: readonly string[]): Fault {
  const begun = typed.toLowerCase();
  const whole = near.startsWith(begun) ? [...new Set(words)].filter((it) => it.startsWith(begun)) : [];
  const shown = whole.length < 2 ? [near] : whole.slice(0, 4);
  const or = whole.length > shown.length ? `${shown.map((it) => `\`${it}\``).join(", ")} or another` : orList(shown);
  return fault(
    at,
    `${said} Is ${or} meant?`,
    shown.map((it) => fixOf(`Write \`${it}\``, at, it)),
  );
}

/** A short name from a title: "Front hub, left" → front-hub. */
export function nameFrom(text: string): string {
  const words =
    (text.slice(1, -1).split(/[,;(]/)[0] ?? "")
      .normalize("NFC")
      .toLowerCase()
      .match(/[\p{L}\p{M}\p{N}]+/gu) ?? [];
  const name = words.slice(0, 4).join("-");
  return /^\p{L}/u.test(name) ? name : "short-name";
}

export function together(words: string): string {
  return words.replace(/[- ]/g, "").toLowerCase();
}

export const phrasesTogether: ReadonlyMap<string, string> = new Map(
  [...lockingPhrases.keys()].filter((it) => it.includes(" ")).map((it) => [together(it), it]),
);

/** `worn < 0.5`, `worn over 0.5`: it may be worn then, or still good. */
export function wornEitherWay(figure: string): string {
  return `Say which way it wears: may it be up to ${figure} (\`worn max ${figure}\`), or down to it (\`worn min ${figure}\`)?`;
}

/** Words into quotes, as they are. */
export function quoted(words: string): string {
  return `"${words}"`;
}

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

/** What is said of one where a name would be read. */
export function deniedFault(at: Span, word: string): Fault {
  return fault(at, `\`${word}\` is no name: it turns round what the line says. Write what is so, and what is not so in a \`note\`.`);
}

const unread: ReadonlySet<string> = new Set("not no never target aim wanted expected should nominal book spec limit".split(" "));

/** Whether what stands behind such a word is what it is not, or what it ought to be. */
export function isNoReading(word: string): boolean {
  return unread.has(word) || (word < "a" && unread.has(word.toLowerCase()));
}
