// What stands of a check until the next one is done: each diagnostic moves with its line through the edits made since.
// Invariant: nothing new is said. What stood on a line that is gone goes; a fix stays only where every line that it touches is as it was.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import { type Diagnostic, type LineOf, type Placed, numbered, placed } from "./placing.ts";

/** Where the lines of a file stand after an edit. */
export interface Shift {
  /** Lines before this one are as they were. */
  readonly from: number;
  /** The first line behind the edit, before it and after it. */
  readonly oldTo: number;
  readonly newTo: number;
  readonly now: SheetText;
}

/** Undefined where no line has changed. */
export function shiftOf(before: SheetText, now: SheetText): Shift | undefined {
  if (before.lines === now.lines) return undefined;
  const least = Math.min(before.lines.length, now.lines.length);
  let from = 0;
  while (from < least && before.lines[from] === now.lines[from]) from++;
  if (from === before.lines.length && from === now.lines.length) return undefined;
  let [oldTo, newTo] = [before.lines.length, now.lines.length];
  while (oldTo > from && newTo > from && before.lines[oldTo - 1] === now.lines[newTo - 1]) {
    oldTo--;
    newTo--;
  }
  return { from, oldTo, newTo, now };
}

/** In the order in which they were. `shifts` has the files that have changed. */
export function* standing(list: readonly Placed[], shifts: ReadonlyMap<string, Shift>): Slices<readonly Placed[]> {
  if (shifts.size === 0) return list;
  const shiftIn = finder(shifts);
  const out: Placed[] = [];
  let changed = 0;
  for (const it of list) {
    const moved = stands(it, shiftIn) ? it : yield* standsAt(it, shiftIn);
    if (moved !== undefined) out.push(moved);
    // Those that stand still cost a look.
    if (moved !== it && ++changed % someAtOnce === 0) yield;
  }
  return out;
}

/** Where the lines of a file stand now; undefined where none has moved. */
type ShiftIn = (file: string) => Shift | undefined;

/** Asked for each line that anything names, at each key: most often one file has changed, and then a look is enough. */
function finder(shifts: ReadonlyMap<string, Shift>): ShiftIn {
  const [first, another] = shifts;
  if (first === undefined || another !== undefined) return (file) => shifts.get(file);
  const [changed, shift] = first;
  return (file) => (file === changed ? shift : undefined);
}

/** So it is with all but a few at each key. */
function stands({ diagnostic, first, last }: Placed, shiftIn: ShiftIn): boolean {
  if (first < 0) return false;
  const shift = shiftIn(diagnostic.file);
  return shift === undefined || last < shift.from || (first >= shift.oldTo && shift.newTo === shift.oldTo);
}

/** So many lines that one of them is related to are moved in a slice: a release may be barred by thousands. */
const manyRelated = 1000;

function* standsAt(it: Placed, shiftIn: ShiftIn): Slices<Placed | undefined> {
  const { diagnostic, marked } = it;
  const at = moved(diagnostic, shiftIn);
  if (at === undefined) return undefined;
  let same = at === diagnostic;
  const lines = marked?.lines.map((line) => nearLine(line, shiftIn));
  if (lines?.some((line, i) => line !== marked?.lines[i]) === true) same = false;
  const related: (Diagnostic["related"][number] | undefined)[] = [];
  for (const other of diagnostic.related) if (related.push(moved(other, shiftIn)) % manyRelated === 0) yield;
  if (related.some((other, i) => other !== diagnostic.related[i])) same = false;
  const fixes = diagnostic.fixes.flatMap((fix) => {
    const edits = fix.edits.map((edit) => (isAsItWas(edit, shiftIn) ? moved(edit, shiftIn) : undefined));
    if (edits.every((edit, i) => edit === fix.edits[i])) return [fix];
    same = false;
    return edits.includes(undefined) ? [] : [{ ...fix, edits: edits as Diagnostic["fixes"][number]["edits"] }];
  });
  if (same) return it;
  if (related.length > manyRelated) yield;
  const messageOf = (message: string, i: number) => (marked === undefined || lines === undefined ? message : numbered(marked.related[i] as string, lines));
  return placed(
    {
      ...at,
      message: marked === undefined || lines === undefined ? diagnostic.message : numbered(marked.message, lines),
      related: related.flatMap((other, i) => (other === undefined ? [] : [{ ...other, message: messageOf(other.message, i) }])),
      fixes,
    },
    // Which is whose is not told any more where some of what is related has gone, so its messages stay as they are now.
    marked === undefined || lines === undefined ? undefined : { ...marked, related: marked.related.filter((_, i) => related[i] !== undefined), lines },
  );
}

/** The same where it stands still; undefined where its line is gone. A line that was typed in is still that line. */
function moved<T extends { readonly file: string; readonly line: number; readonly from: number; readonly to: number }>(it: T, shiftIn: ShiftIn): T | undefined {
  const shift = shiftIn(it.file);
  if (shift === undefined || it.line < shift.from) return it;
  const { from, oldTo, newTo, now } = shift;
  if (it.line >= oldTo) return newTo === oldTo ? it : { ...it, line: it.line + newTo - oldTo };
  if (oldTo - from > 1 || newTo === from) return undefined;
  const end = lineText(now, it.line).length;
  return it.to <= end ? it : { ...it, from: Math.min(it.from, end), to: end };
}

function isAsItWas({ file, line }: LineOf, shiftIn: ShiftIn): boolean {
  const shift = shiftIn(file);
  return shift === undefined || line < shift.from || line >= shift.oldTo;
}

/** A line that a message names; where it is gone, the one that stands there now. */
function nearLine(it: LineOf, shiftIn: ShiftIn): LineOf {
  const shift = shiftIn(it.file);
  if (shift === undefined || it.line < shift.from || (it.line < shift.newTo && it.line < shift.oldTo)) return it;
  if (it.line >= shift.oldTo) return shift.newTo === shift.oldTo ? it : { file: it.file, line: it.line + shift.newTo - shift.oldTo };
  return { file: it.file, line: Math.max(0, Math.min(it.line, shift.newTo - 1)) };
}
