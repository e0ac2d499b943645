// The sheet as it would stand with planned steps done: what is still open then, no step of them settles.
// Invariant: nothing of it is written anywhere; a line of it leads back to the sheet as it is, or nowhere.
import { type SheetText, editSheet } from "../../../grammar/sheet-text.ts";
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
export function asDone(files: Files, path: string, steps: string, own?: Story): AsDone {
  const sheet = files.read(path);
  if (typeof sheet === "string") return { files, asItIs: (line) => line };
  const puts = [...(steps === "" ? [] : [placedIn(sheet, steps)]), ...(own === undefined ? [] : ownDone(sheet, path, own))];
  // From the end on, so that no edit moves the place of the next; of two at one place the steps go in first, and the sheet's own line before them.
  puts.sort((a, b) => b.line - a.line);
  let after = sheet;
  const added: { line: number; count: number }[] = [];
  for (const { line, column, text } of puts) {
    const before = after.lines.length;
    after = editSheet(after, { startLine: line, startColumn: column, endLine: line, endColumn: column, text });
    added.unshift({ line: column > 0 ? line + 1 : line, count: after.lines.length - before });
  }
  return {
    files: { ...files, read: (asked) => (asked === path ? after : files.read(asked)) },
    asItIs(line) {
      let more = 0;
      for (const it of added) {
        if (line < it.line + more) break;
        if (line < it.line + more + it.count) return undefined;
        more += it.count;
      }
      return line - more;
    },
  };
}

/** A line `done` below each step that the sheet plans, at those places at which it is planned. */
function ownDone(sheet: SheetText, path: string, story: Story): Put[] {
  const planned = new Map<Visit["entry"], Visit[]>();
  for (const visit of story.visits)
    if (visit.phase === "planned" && visit.file === path) planned.set(visit.entry, [...(planned.get(visit.entry) ?? []), visit]);
  return [...planned].flatMap(([entry, visits]): Put[] => {
    const start = sheet.starts[sheet.entries.indexOf(entry)];
    if (start === undefined) return [];
    const places = visits.some((it) => it.places === undefined) ? [] : [...new Set(visits.flatMap((it) => it.places ?? []))].filter((it) => it !== "");
    const line = start + entry.details.reduce((last, it) => Math.max(last, it.row), 0);
    return [{ line, column: sheet.lines[line]?.length ?? 0, text: `\n  done ${places.join(", ")}`.trimEnd() }];
  });
}
