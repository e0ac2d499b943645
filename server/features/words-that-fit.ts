// Which words the reader would go on after where they stand: it is asked itself, so that nothing is offered that it would not take.
// Invariant: reads one line below its head, and nothing else of the sheet.
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import { namesOf } from "./at.ts";

/** The line before the cursor, and what it stands below. */
export interface LineBegun {
  /** The head of its entry; undefined where the line is a head itself. */
  readonly head: string | undefined;
  readonly before: string;
}

/** No line takes this sign there: the reader stops at it if it took all that stands before it, and sooner if it did not. */
const stop = ")";

/** Whether the reader takes these words here, as words and not as somebody's name. `read`: with what makes it plain what they are, a size or a parenthesis. */
export function isTaken(begun: LineBegun, words: string, read = words): boolean {
  const end = begun.before.length + words.length;
  const { entry, row } = readLine(begun, `${read} ${stop}`);
  const line = row === 0 ? entry : (entry?.details.find((it) => it.row === row) ?? entry?.stray.find((it) => it.row === row));
  if (line === undefined || (line.fault !== undefined && line.fault.at.from < end)) return false;
  const plain = readLine(begun, read);
  return !(plain.entry === undefined ? [] : namesOf(plain.entry)).some((it) => it.row === plain.row && it.name.at.from === begun.before.length);
}

/** The entry that the line is of when this is written behind it, and the line's row in it. */
export function readLine({ head, before }: LineBegun, behind: string): { readonly entry: Entry | undefined; readonly row: 0 | 1 } {
  const read = readSheet(`${head === undefined ? "" : `${head}\n`}${before}${behind}`);
  return { entry: read.entries.at(-1), row: head === undefined || read.entries.length > 1 ? 0 : 1 };
}
