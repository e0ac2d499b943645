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
  const parts = partsOf(about.syntax);
  return parts.length === 0 ? undefined : { label: about.syntax, says: about.says, parts, active: activePart(about.syntax, parts, left) };
}

/** `[by GAUGE]`, `"why"`, `found|trial|final`, `FASTENER`, `held by` is the word itself. */
function partsOf(syntax: string): [number, number][] {
  const first = /^\S+(?:\s(?:by|with|max|before|after|back|its place|serve again|at|order|to)(?=\s|$))?/.exec(syntax)?.[0].length ?? 0;
  const out: [number, number][] = [];
  for (const it of syntax.slice(first).matchAll(/\[[^\]]*\](?:…)?|"[^"]*"|[^\s[\]"]+(?:, [A-Z]+…?)?/g)) {
    if (it[0] === "|") continue;
    out.push([first + it.index, first + it.index + it[0].length]);
  }
  return out;
}

/** A part that begins with a small word is at the cursor where that word was written last; else the parts go by how many words there are. */
function activePart(syntax: string, parts: readonly (readonly [number, number])[], left: string): number {
  const words = left
    .trimStart()
    .replace(/"[^"]*"?/g, "T")
    .split(/\s+/);
  for (let i = words.length - 1; i > 0; i--) {
    const found = parts.findIndex(([from, to]) => new RegExp(`^\\[?${escaped(words[i] as string)}(?![\\p{L}-])`, "u").test(syntax.slice(from, to)));
    if (found >= 0 && /^\p{Ll}/u.test(words[i] as string)) return found;
  }
  const first = parts[0]?.[0] ?? 0;
  const own = syntax.slice(0, first).trim().split(/\s+/).length;
  return Math.max(0, Math.min(parts.length - 1, words.length - 1 - own));
}

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
