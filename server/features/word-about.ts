// What the table of words says of a keyword where it stands, and the words that may follow it.
import type { Entry } from "../../grammar/tree.ts";
import { actionWords, conditionOf, conditions, detailWords, entryWord, entryWords, functions, lockings } from "../../grammar/words.ts";

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
  const details = detailWords.filter((it) => it.under === "any" || it.under.includes(kind));
  return kind === "step" ? [...actionWords, ...details] : details;
}

export const heads: readonly WordAbout[] = entryWords;

/**
 * Words that may come next, read off the way that a line is written: `[new] [from PLACE]` gives `new` and `from`. `written` is what stands behind the keyword.
 * Words that belong together are one, one that is written already is not offered again, nor another in its place, and behind one that a name or a figure must follow there is none.
 */
export function wordsBehind(about: WordAbout | undefined, written = ""): { readonly word: string; readonly says?: string }[] {
  if (about === undefined) return [];
  const plain = about.syntax.replace(/"[^"]*"/g, text);
  const said = ` ${written
    .replace(/"[^"]*"?/g, text)
    .trim()
    .replace(/[\s,]+/g, " ")} `.replace(/^ +$/, " ");
  const out: { word: string; says?: string }[] = [];
  const asks = asksForMore(about.word, plain, said);
  for (const [group] of plain.matchAll(groups)) {
    const phrases = group
      .split("|")
      .flatMap((it) => (it === about.word || it === "x" ? [] : [it.startsWith(`${about.word} `) ? it.slice(about.word.length + 1) : it]));
    const rest = phrases.map((it) => restOf(it, said)).find((it) => it !== undefined);
    if (rest !== undefined && !asks) return [{ word: rest }];
    if (rest !== undefined) out.push({ word: rest });
    if (!asks && !phrases.some((it) => said.includes(` ${it} `))) out.push(...phrases.map((word) => ({ word })));
  }
  if (/\bLH\b/.test(plain) && !asks && !said.includes(" LH ")) out.push({ word: "LH", says: "left-hand thread" });
  if (/CONDITION/.test(plain) || about.word === "is") out.push(...conditions);
  if (/LOCKING|\bITEM\b/.test(plain))
    out.push(...lockings.flatMap((it) => it.words.map((word) => ({ word, says: it.says }))), { word: "part", says: "a declared part that locks" });
  if (/EXPRESSION/.test(plain)) out.push(...functions.map((word) => ({ word })));
  return out;
}

/** Stands for a text in quotes. */
const text = "\u0001";
const phrase = String.raw`(?<![\p{L}-])\p{Ll}[\p{L}-]*(?: \p{Ll}[\p{L}-]*)*(?![\p{L}-])`;
/** Words that belong together, with those that may stand in their place. */
const groups = new RegExp(String.raw`${phrase}(?:\|${phrase})*`, "gu");

/** What is missing of words that belong together and are begun. */
function restOf(whole: string, said: string): string | undefined {
  const words = whole.split(" ");
  for (let count = words.length - 1; count > 0; count--) if (said.endsWith(` ${words.slice(0, count).join(" ")} `)) return words.slice(count).join(" ");
  return undefined;
}

/** Behind the keyword, or behind the word that was written last, stands what is to be named or measured, and that is not there yet. */
function asksForMore(keyword: string, plain: string, said: string): boolean {
  const last = said.trim().split(" ").at(-1) || keyword;
  if (!/^\p{Ll}[\p{L}-]*$/u.test(last)) return false;
  return new RegExp(String.raw`(?<![\p{L}-])${last} (?:[A-Z]|${text})`, "u").test(plain);
}

/** What a word within a line means, where it has a meaning of its own: a condition, a locking. */
export function wordWithin(word: string): string | undefined {
  return conditionOf(word)?.says;
}
