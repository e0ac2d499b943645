// A place in a sheet, for a message to stand on: the entry, the row below its head, the columns.
// Invariant: holds no absolute line; that is looked up only when a message is sent, so an edit above costs nothing.
import type { Entry, Span } from "../../grammar/tree.ts";

export interface Where {
  readonly file: string;
  readonly entry: Entry;
  readonly row: number;
  readonly at: Span;
}

export function where(file: string, entry: Entry, row: number, at: Span): Where {
  return { file, entry, row, at };
}
