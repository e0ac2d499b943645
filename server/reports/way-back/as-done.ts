// The sheet as it would stand with planned steps done: what is still open then, no step of them settles.
// Invariant: nothing of it is written anywhere; a line of it leads back to the sheet as it is, or nowhere.
import type { Slices } from "../../../grammar/slices.ts";
import { countAhead } from "../../model/halving.ts";
import { putInto } from "../../model/grouped.ts";
import { type SheetText, editingSheet, readingSheet } from "../../../grammar/sheet-text.ts";
import type { Files } from "../../model/files.ts";
import type { Story, Visit } from "../../story/story.ts";
import { placedIn } from "./placed.ts";

export interface AsDone {
  readonly files: Files;
  /** The line of the sheet as it is, counted from 0, as is the line asked about; undefined where that is only written here. */
  asItIs(line: number): number | undefined;
}

interface Put {
  readonly line: number;
  readonly column: number;
  readonly text: string;
}

/** `steps`: as a sheet would hold them, each with its `done`; "" for none. `own`: the story of the sheet, whose planned steps are done too. */
export function* takenAsDone(files: Files, path: string, steps: string, own?: Story): Slices<AsDone> {
  const sheet = files.read(path);
  if (typeof sheet === "string") return { files, asItIs: (line) => line };
  const puts = [...(steps === "" ? [] : [placedIn(sheet, steps)]), ...(own === undefined ? [] : ownDone(sheet, path, own))].map((it) => ({
    ...it,
    text: it.text.replaceAll("\n", sheet.newline),
  }));
  // In the order of the sheet; of two at one place the sheet's own line goes before the steps.
  puts.reverse().sort((a, b) => a.line - b.line);
  yield;
  const after = yield* withAll(sheet, puts);
  yield;
  const added: { readonly from: number; readonly to: number; readonly more: number }[] = [];
  let more = 0;
  for (const { line, column, text } of puts) {
    const from = (column > 0 ? line + 1 : line) + more;
    const count = text.split(sheet.newline).length - 1;
    more += count;
    added.push({ from, to: from + count, more });
  }
  return {
    files: { ...files, read: (asked) => (asked === path ? after : files.read(asked)) },
    asItIs(line) {
      const it = added[countAhead(added, ({ from }) => from <= line) - 1];
      if (it === undefined) return line;
      return line < it.to ? undefined : line - it.more;
    },
  };
}

/** Of more edits than so many each would copy the lists of a long sheet once more: the whole is read anew instead. */
const mostEdits = 50;

function* withAll(sheet: SheetText, puts: readonly Put[]): Slices<SheetText> {
  if (puts.length <= mostEdits) {
    // From the end on, so that no edit moves the place of the next.
    let after = sheet;
    for (const { line, column, text } of [...puts].reverse())
      after = yield* editingSheet(after, { startLine: line, startColumn: column, endLine: line, endColumn: column, text });
    return after;
  }
  const lines = sheet.lines.map((it, i) => it + (sheet.breaks[i] ?? ""));
  for (const { line, column, text } of [...puts].reverse()) {
    const there = lines[line] ?? "";
    lines[line] = there.slice(0, column) + text + there.slice(column);
  }
  return yield* readingSheet(lines.join(""));
}

/** A line `done` below each step that the sheet plans, at those places at which it is planned. */
function ownDone(sheet: SheetText, path: string, story: Story): Put[] {
  const planned = new Map<Visit["entry"], Visit[]>();
  for (const visit of story.visits) if (visit.phase === "planned" && visit.file === path) putInto(planned, visit.entry, visit);
  const startOf = new Map(sheet.entries.map((entry, i) => [entry, sheet.starts[i]]));
  return [...planned].flatMap(([entry, visits]): Put[] => {
    const start = startOf.get(entry);
    if (start === undefined) return [];
    const places = visits.some((it) => it.places === undefined) ? [] : [...new Set(visits.flatMap((it) => it.places ?? []))].filter((it) => it !== "");
    const line = start + entry.details.reduce((last, it) => Math.max(last, it.row), 0);
    return [{ line, column: sheet.lines[line]?.length ?? 0, text: `\n  done ${places.join(", ")}`.trimEnd() }];
  });
}
