// How the line under the cursor is written, and which part of it comes next.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import { lineAt } from "./at.ts";
import { wordAbout } from "./word-about.ts";

export interface Signature {
  /** The line as it is written: `tighten FASTENER [PLACE…] [to Q]`. */
  readonly label: string;
  readonly says: string;
  /** Columns of each part in the label, after its first word. */
  readonly parts: readonly (readonly [number, number])[];
  /** The part that the cursor is at. */
  readonly active: number;
}

/** `line` and `column` count from 0. Undefined on a line whose first word means nothing there. */
export function signatureAt(sheet: SheetText, line: number, column: number): Signature | undefined {
  const left = lineText(sheet, line).slice(0, column);
  const word = /^\s*(=|\p{L}[\p{L}-]*)(?=\s)/u.exec(left)?.[1];
  if (word === undefined) return undefined;
  const at = lineAt(sheet, line);
  const head = !/^\s/.test(left);
  const about = wordAbout(word, at?.entry.kind, head);
  if (about === undefined) return undefined;
  const { syntax } = about;
  const ways = waysOf(syntax, word);
  const parts = ways.flatMap((it) => it.parts);
  if (parts.length === 0) return undefined;
  const written = writtenBehind(left, word);
  const way = likeliest(ways, written);
  const active = way === undefined ? 0 : parts.indexOf(way.parts[activePart(way, written)] as Part);
  return { label: syntax, says: about.says, parts: parts.map(({ from, to }) => [from, to] as const), active: Math.max(0, active) };
}

type Kind = "names" | "count" | "places" | "amount" | "text" | "day" | "words";

interface Part {
  readonly from: number;
  readonly to: number;
  readonly kind: Kind;
  /** The words that it may begin with: `by` of `[by GAUGE]`, all three of `found|trial|final`. */
  readonly heads: readonly string[];
  /** Something stands behind that word. */
  readonly more: boolean;
}

/** One of the ways to write the line, with the words that belong to its keyword: `by` of `locked by LOCKING`. */
interface Way {
  readonly own: readonly string[];
  readonly parts: readonly Part[];
}

/** `torque RANGE … | torque by feel "…" | torque none`: bars between blanks and outside of brackets. */
function waysOf(syntax: string, word: string): Way[] {
  const out: Way[] = [];
  let from = 0;
  for (const [it] of syntax.matchAll(/(?:\[(?:[^[\]]|\[[^\]]*\])*\]|(?! \| ).)+/gs)) {
    const at = syntax.indexOf(it, from);
    from = at + it.length;
    const own =
      new RegExp(`^[ |]*(?:${escaped(word)}(?:\\s(?:by(?= LOCKING| FASTENER| nothing| feel| ")|with|before|on|back|its place|serve again))?(?=\\s|$))?`).exec(
        it,
      )?.[0] ?? "";
    out.push({ own: own.split(/[\s|]+/).filter((text) => text !== "" && text !== word), parts: partsOf(syntax, at + own.length, from) });
  }
  return out;
}

/** Brackets with all that is in them, texts, words; a small word goes with what stands behind it, and what a list repeats is no part of its own. */
function partsOf(syntax: string, from: number, to: number): Part[] {
  const out: Part[] = [];
  const tokens =
    /, [A-Z]+(?: \[N\])?…?|\[(?:[^[\]]|\[[^\]]*\])*\]…?|\p{Ll}+(?: stand)?(?:\|\p{Ll}+(?: stand)?)+|\p{Ll}+ (?:"[^"]*"|[A-Z]\S*(?: \p{Ll}[^\s[\]]*)*)|"[^"]*"|[^\s[\]",]+/gu;
  for (const it of syntax.slice(from, to).matchAll(tokens)) {
    if (it[0].startsWith(",") || it[0] === "|") continue;
    const text = it[0].replace(/^\[|\]…?$/g, "");
    const heads = text.split("|").flatMap((one) => /^\s*(\p{Ll}[\p{L}-]*|\+|K)(?=\s|$|,)/u.exec(one)?.[1] ?? []);
    out.push({ from: from + it.index, to: from + it.index + it[0].length, kind: kindOf(text, heads), heads, more: /["A-Z+]/.test(text) });
  }
  return out;
}

function kindOf(text: string, heads: readonly string[]): Kind {
  if (heads.length > 0) return "words";
  if (text.startsWith('"')) return "text";
  if (text === "N") return "count";
  if (/^PLACE/.test(text)) return "places";
  if (/^DATE/.test(text)) return "day";
  return /^(?:Q|N\|Q|RANGE|MONEY|FIGURE|EXPRESSION)/.test(text) ? "amount" : "names";
}

interface Written {
  /** Whole words, a text as `"`, a comma with the word before it. */
  readonly words: readonly string[];
  /** What stands right before the cursor. */
  readonly begun: string;
}

function writtenBehind(left: string, word: string): Written {
  const words = left
    .trimStart()
    .slice(word.length)
    .replace(/"(?:[^"\\]|\\.)*"?/g, '"')
    .replace(/\s*,/g, ",")
    .trimStart()
    .split(/\s+/);
  return { words: words.slice(0, -1), begun: words.at(-1) ?? "" };
}

/** The way of which most words are written; the first of such. */
function likeliest(ways: readonly Way[], { words, begun }: Written): Way | undefined {
  const all = [...words, begun];
  const score = ({ own, parts }: Way) => [...own, ...parts.flatMap((it) => it.heads)].filter((it) => all.includes(it)).length;
  return ways.filter((it) => it.parts.length > 0).reduce<Way | undefined>((best, it) => (best === undefined || score(it) > score(best) ? it : best), undefined);
}

/** Goes along the written words, and from part to part with them. */
function activePart({ own, parts }: Way, { words, begun }: Written): number {
  const next = (kind: Kind, from: number) => parts.findIndex((it, i) => i >= from && it.kind === kind);
  let at = 0;
  /** The part has what it takes; a list goes on behind a comma. */
  let full = false;
  const take = (word: string) => {
    const bare = word.replace(/,$/, "");
    const goesOn = word.endsWith(",");
    const part = parts[at] as Part;
    const headed = parts.findIndex((it, i) => i >= at && it.heads.includes(bare));
    const kind: Kind | undefined = bare === '"' ? "text" : /^\d{4}-\d\d-\d\d$/.test(bare) ? "day" : undefined;
    const own = kind === undefined ? -1 : next(kind, at);
    if (headed >= 0) [at, full] = [headed, !(parts[headed] as Part).more];
    else if (own >= 0 && !(part.kind === "words" && part.more && !full)) [at, full] = [own, true];
    else if (part.kind === "names" && /^\d/.test(bare)) full = !goesOn;
    else if (part.kind === "names" && full) [at, full] = [Math.max(at, next("places", at)), !goesOn];
    else if (part.kind === "amount") full = /^[\p{L}°%]/u.test(bare) && !goesOn;
    else full = !goesOn && part.kind !== "words";
  };
  const behind = [...words];
  for (const it of own) if (behind[0] === it) behind.shift();
  behind.forEach(take);
  if (begun !== "" && full) take(begun);
  else if (begun === "" && full) {
    const { kind } = parts[at] as Part;
    const places = kind === "names" ? next("places", at) : -1;
    // How many there are is asked of whoever begins a figure.
    at = places >= 0 ? places : parts.findIndex((it, i) => i > at && it.kind !== "count");
    if (at < 0) at = parts.length - 1;
  }
  const count = (parts[at] as Part).kind === "names" && /^\d/.test(begun) ? next("count", at) : -1;
  return count >= 0 ? count : at;
}

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
