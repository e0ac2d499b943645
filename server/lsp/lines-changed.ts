// The edits that make one text of another, line by line, so that an editor keeps its cursor, folds and marks where they were.
// Invariant: applied together, the edits give exactly the second text.
import type { TextEdit } from "vscode-languageserver";

export function linesChanged(before: string, after: string): TextEdit[] {
  if (before === after) return [];
  const from = before.split(/\r\n|\r|\n/);
  const to = after.split(/\r\n|\r|\n/);
  const out: TextEdit[] = [];
  let i = 0;
  let j = 0;
  // A layout changes blanks and blank lines only, so lines that say something pair up in order.
  while (i < from.length || j < to.length) {
    const iNext = nextSaying(from, i);
    const jNext = nextSaying(to, j);
    if (iNext >= from.length !== jNext >= to.length) return whole(from, after);
    const ended = iNext >= from.length;
    const blanks = ended ? to.slice(j) : to.slice(j, jNext);
    if (ended) {
      if (!same(from.slice(i), blanks)) out.push(replaceToEnd(from, i, blanks));
      break;
    }
    if (!same(from.slice(i, iNext), blanks)) {
      out.push({ range: { start: { line: i, character: 0 }, end: { line: iNext, character: 0 } }, newText: blanks.map((it) => `${it}\n`).join("") });
    }
    const line = to[jNext] as string;
    if (from[iNext] !== line)
      out.push({ range: { start: { line: iNext, character: 0 }, end: { line: iNext, character: (from[iNext] as string).length } }, newText: line });
    i = iNext + 1;
    j = jNext + 1;
  }
  return out;
}

function same(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((it, i) => it === b[i]);
}

function nextSaying(lines: readonly string[], from: number): number {
  let i = from;
  while (i < lines.length && (lines[i] as string).trim() === "") i++;
  return i;
}

/** What stands behind the last line that says something. */
function replaceToEnd(from: readonly string[], i: number, blanks: readonly string[]): TextEdit {
  const end = { line: from.length - 1, character: (from.at(-1) as string).length };
  if (i === 0) return { range: { start: { line: 0, character: 0 }, end }, newText: blanks.join("\n") };
  const start = { line: i - 1, character: (from[i - 1] as string).length };
  return { range: { start, end }, newText: blanks.map((it) => `\n${it}`).join("") };
}

function whole(from: readonly string[], after: string): TextEdit[] {
  return [{ range: { start: { line: 0, character: 0 }, end: { line: from.length - 1, character: (from.at(-1) as string).length } }, newText: after }];
}
