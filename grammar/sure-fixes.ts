// What a fix of a line that can't be read must hold before anybody is offered it: it leads on, and loses no text and no day.
// Invariant: a fault is never made or taken away here, only fixes; a word that denies never becomes a name by a fix.
import type { IToken } from "chevrotain";
import { tokensOf } from "./lexer.ts";
import { denies } from "./plain-words.ts";
import { deniedFault } from "./message-words.ts";
import { DateToken, TextToken, endOf, nameToken } from "./tokens.ts";
import type { Fault, LineFix } from "./tree.ts";

/** So long a line is nobody's slip: it is not read again for each of its fixes. */
const mostLetters = 1000;

/** Where the first fault of a line stands; undefined where it is read. */
export type FaultAt = (text: string) => number | undefined;

/** The fault with those of its fixes that may be offered. */
export function withSureFixes(said: Fault, text: string, faultAt: FaultAt): Fault {
  if (said.fixes.length === 0 || text.length > mostLetters) return said;
  const facts = tokensOf(text).tokens.filter((it) => it.tokenType === TextToken || it.tokenType === DateToken);
  const kept = facts.map((it) => (it.tokenType === TextToken ? it.image.slice(1, -1).trim() : it.image));
  const before = text.trimEnd().length - said.at.from;
  const denied = maybeDenied.test(text) ? deniedIn(text) : none;
  const fixes = said.fixes.filter((fix) => {
    const now = written(text, fix);
    // The day on which a check runs out is told by the months until then.
    if (kept.some((it) => !now.includes(it)) && !/\bevery \d+ months$/.test(now)) return false;
    const after = leftOf(now, faultAt);
    return (after === 0 || after < before) && (denied.length === 0 || keepsDenial(fix, now, after, denied));
  });
  const [first] = denied;
  if (fixes.length === 0 && first !== undefined) return deniedFault({ from: first.startOffset, to: endOf(first) }, first.image);
  return fixes.length === said.fixes.length ? said : { ...said, fixes };
}

const none: readonly IToken[] = [];
const maybeDenied = /\b(?:n[eo]|except|exclud|without|but|hardly|scarcely|barely|cannot)/i;

/** The words of a line, outside of its texts, that turn round what stands beside them. */
function deniedIn(text: string): readonly IToken[] {
  return tokensOf(text).tokens.filter((it) => nameToken(it) && denies(it.image));
}

/** Such a word goes into a text as it is, stands where reading has not come to it, or is said in another way. */
function keepsDenial({ edits }: LineFix, now: string, after: number, denied: readonly IToken[]): boolean {
  const isTouched = denied.some((it) => edits.some(({ at }) => at.from <= endOf(it) && at.to >= it.startOffset));
  let offset = 0;
  let kept = "";
  for (const line of now.split("\n")) {
    for (const it of tokensOf(line).tokens) {
      if (it.tokenType === TextToken) kept += it.image;
      if (!nameToken(it) || !denies(it.image)) continue;
      if (isTouched || now.length - offset - it.startOffset > after) return false;
      kept += it.image;
    }
    offset += line.length + 1;
  }
  return denied.every((it) => kept.includes(it.image)) || /\b(?:bad|unlocked|loose|missing)\b/.test(now);
}

function written(text: string, { edits }: LineFix): string {
  let out = text.trimEnd();
  for (const { at, text: put } of [...edits].sort((a, b) => b.at.from - a.at.from)) out = out.slice(0, at.from) + put + out.slice(at.to);
  return out.trimEnd();
}

/** How much stands from the first fault of the line that reading stopped in; 0 where it is read. What goes on lines below is moved there as it was. */
function leftOf(text: string, faultAt: FaultAt): number {
  const [line = ""] = text.split("\n", 1);
  const at = faultAt(line);
  return at === undefined ? 0 : Math.max(1, text.length - at);
}
