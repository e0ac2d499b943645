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

/** All rows of a keyword there: `price` has one for a price each, and one for more. */
export function wordsAbout(word: string, under: Entry["kind"] | undefined, atHead: boolean): readonly WordAbout[] {
  const head = atHead ? entryWord(word) : undefined;
  return head === undefined ? linesUnder(under).filter((it) => it.word === word) : [head];
}

export interface WordWithin {
  readonly word: string;
  readonly says?: string;
  /** As the reader is asked about it: a function is one by its parenthesis, a locking that is a name too by its size. */
  readonly read?: string;
}

/**
 * Words that the line has at any place, read off the way that it is written: `[new] [from PLACE]` gives `new` and `from`. Words that belong together are one, and what is
 * missing of them where they are begun in `written`, which is what stands behind the keyword. Which of them fit there the reader says.
 */
export function wordsWithin(about: WordAbout, written: string): readonly WordWithin[] {
  const plain = about.syntax.replace(/"[^"]*"/g, text);
  const said = ` ${written
    .replace(/"[^"]*"?/g, text)
    .trim()
    .replace(/[\s,]+/g, " ")} `.replace(/^ +$/, " ");
  const out: WordWithin[] = [];
  for (const [group] of plain.matchAll(groups)) {
    const all = group
      .split("|")
      .filter((it) => it !== about.word && it !== "x")
      .map((it) => (it.startsWith(`${about.word} `) ? it.slice(about.word.length + 1) : it));
    for (const it of all) {
      const rest = restOf(it, said);
      out.push({ word: it }, ...(rest === undefined ? [] : [{ word: rest }]));
      // `on jack|lift`, `found|final good|bad`: what comes before a choice, and each of the choice.
      const last = it.lastIndexOf(" ");
      if (all.length > 1 && last > 0) out.push({ word: it.slice(0, last) }, { word: it.slice(last + 1) });
    }
  }
  for (const { word } of [...out]) if (/^(flat|turn)s$/.test(word)) out.push({ word: word.slice(0, -1) });
  if (/\b(LH|ITEM)\b/.test(plain)) out.push({ word: "LH", says: "left-hand thread" });
  if (/\bITEM\b/.test(plain))
    out.push(
      { word: "thread", says: "which thread, where it has several", read: "thread M6" },
      { word: "grade", says: "how strong, by SAE J429", read: "grade 5" },
      { word: "class", says: "how strong, by ISO 898-1", read: "class 8.8" },
    );
  if (/RANGE/.test(plain))
    out.push({ word: "max", says: "no more than" }, { word: "min", says: "no less than" }, { word: "to", says: "from one to the other" });
  if (about.word === "is") out.push(...conditions, { word: "from", says: "from which part" });
  if (/LOCKING|\bITEM\b/.test(plain))
    out.push(
      ...lockings.flatMap((it) => it.words.map((word) => ({ word, says: it.says, read: `${word} 1 mm` }))),
      {
        word: "part",
        says: "a declared part that locks",
      },
      { word: "x", says: "by its length", read: "x 1 mm" },
    );
  if (/EXPRESSION/.test(plain)) out.push(...functions.map((word) => ({ word, read: `${word}(` })));
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

/** What a word within a line means, where it has a meaning of its own: a condition, a locking. */
export function wordWithin(word: string): string | undefined {
  return conditionOf(word)?.says;
}
