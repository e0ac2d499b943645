// Ways in which a text may say something, each a pattern. They are hundreds, and a text has the words of few: each is compiled when a text first has a word without which it takes none.
// Invariant: what is found is what all patterns of a list joined by `|` would have found.
import { once } from "../model/memo.ts";
import { needs } from "./ways-need.ts";

/** A list of ways. */
export type Ways = readonly Way[];

interface Way {
  /** Bits of words, in small letters, of which every text that the pattern takes has one. */
  readonly needs: readonly string[];
  readonly sign: () => RegExp;
}

/** Of the sources of a list, which are looked at without regard to capitals. Throws where `npm run generate` has not been run since the list was changed in length. */
export function waysOf(name: keyof typeof needs, sources: readonly string[]): Ways {
  const ofEach = needs[name].trim().split("\n");
  if (ofEach.length !== sources.length) throw new Error(`The words that the ways of "${name}" need are stale: run npm run generate.`);
  return sources.map((source, i) => ({ needs: (ofEach[i] as string).split("/"), sign: once(() => new RegExp(source, "iu")) }));
}

/** Those that may take a text, or a part of it: it has a word of theirs. */
export function waysIn(ways: Ways, text: string): Ways {
  const small = text.toLowerCase();
  return ways.filter(({ needs: any }) => any.some((it) => small.includes(it)));
}

/** What the first of them takes of a text, by where it stands; null where none does. */
export function firstOf(ways: Ways, text: string): RegExpExecArray | null {
  let first: RegExpExecArray | null = null;
  for (const { sign } of waysIn(ways, text)) {
    const found = sign().exec(text);
    if (found !== null && (first === null || found.index < first.index)) first = found;
  }
  return first;
}
