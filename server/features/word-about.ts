// What the table of words says of a keyword where it stands, and the words that may follow it.
import type { Entry } from "../../grammar/tree.ts";
import { type EntryKind, actionWords, conditionOf, conditions, detailWords, entryWord, entryWords, functions, lockings } from "../../grammar/words.ts";

export interface WordAbout {
  readonly word: string;
  readonly syntax: string;
  readonly says: string;
}

/** What a keyword is for: at an entry's head, or on a line under an entry of this kind. */
export function wordAbout(word: string, under: Entry["kind"] | undefined, atHead: boolean): WordAbout | undefined {
  if (atHead) return entryWord(word) ?? linesUnder(under).find((it) => it.word === word);
  return linesUnder(under).find((it) => it.word === word);
}

/** The keywords that start a line under an entry of this kind, the actions of a step before the rest. */
export function linesUnder(kind: Entry["kind"] | undefined): readonly WordAbout[] {
  if (kind === undefined || kind === "unread" || kind === "headless") return [];
  const details = detailWords.filter((it) => it.under === "any" || it.under.includes(kind as EntryKind));
  return kind === "step" ? [...actionWords, ...details] : details;
}

export const heads: readonly WordAbout[] = entryWords;

/** Words that may follow, read off the way that a line is written: `[new] [from PLACE]` gives `new` and `from`. */
export function wordsBehind(about: WordAbout | undefined): { readonly word: string; readonly says?: string }[] {
  if (about === undefined) return [];
  const plain = about.syntax.replace(/"[^"]*"/g, " ");
  const out: { word: string; says?: string }[] = [...plain.matchAll(/(?<![\p{L}-])\p{Ll}[\p{L}-]*(?![\p{L}-])/gu)]
    .map(([word]) => ({ word }))
    .filter(({ word }) => word !== about.word && word !== "x");
  if (/\bLH\b/.test(plain)) out.push({ word: "LH", says: "left-hand thread" });
  if (/CONDITION/.test(plain) || about.word === "is") out.push(...conditions);
  if (/LOCKING|\bITEM\b/.test(plain))
    out.push(...lockings.flatMap((it) => it.words.map((word) => ({ word, says: it.says }))), { word: "part", says: "a declared part that locks" });
  if (/EXPRESSION/.test(plain)) out.push(...functions.map((word) => ({ word })));
  return out;
}

/** What a word within a line means, where it has a meaning of its own: a condition, a locking. */
export function wordWithin(word: string): string | undefined {
  return conditionOf(word)?.says;
}
