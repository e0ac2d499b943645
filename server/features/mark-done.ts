// What the palette writes into a sheet: that a step is done today, and a reading of a limit, with blanks for whatever nobody has said.
// Invariant: only planned work is marked done, and no figure is written.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import { type Job, placesOf } from "../model/job.ts";
import { type Limit, linesOf } from "../model/things.ts";
import { lineAt } from "./at.ts";
import { lineOfStep } from "./lenses.ts";

export interface Insertion {
  /** The line, from 0, behind whose end the text goes. */
  readonly line: number;
  readonly column: number;
  readonly text: string;
}

/**
 * `line` from 0: any line of the step. With a `name`, which a lens gives, it is the step of that name: lines may have been written above it since the lens was drawn, and
 * no other step is called done. A text where there is no step to mark, or it is done already.
 */
export function markDone(sheet: SheetText, line: number, today: string, name?: string): Insertion | string {
  const asked = name === undefined ? line : lineOfStep(sheet, line, name);
  if (asked === undefined) return `There is no one step ${name} here any more.`;
  return markDoneAt(sheet, asked, today);
}

function markDoneAt(sheet: SheetText, line: number, today: string): Insertion | string {
  const at = lineAt(sheet, line);
  if (at?.entry.kind !== "step") return "Put the cursor into the step that is done.";
  const { entry } = at;
  if (entry.details.some((it) => it.kind === "done")) return `${entry.name?.text ?? "This step"} is marked done already.`;
  const start = line - at.row;
  const last = start + [...entry.details, ...entry.stray].reduce((row, it) => Math.max(row, it.row), 0);
  return { line: last, column: lineText(sheet, last).length, text: `${sheet.newline}  done ${today}` };
}

export interface LimitOffered {
  readonly name: string;
  readonly title: string;
  /** What is to be written, with a blank for each reading. */
  readonly text: string;
}

/** The limits of a job that are measured, each with the lines that a reading of it is: one for each place and position. */
export function readingsOffered(job: Job, today: string): LimitOffered[] {
  const limits = [...job.things.values()].filter((it): it is Limit => it.kind === "limit" && !it.implied);
  return limits
    .filter((it) => linesOf(it, "equals").length === 0)
    .map((it) => {
      const places = it.placeKind === undefined ? [""] : placesOf(job, it);
      const positions = linesOf(it, "read-at").flatMap(({ detail }) => detail.positions.map((position) => position.text));
      const rows = places.flatMap((place) => (positions.length === 0 ? [place] : positions.map((position) => `${place} ${position}`.trim())));
      const lines = rows.map((row) => `  ${row === "" ? "" : `${row} `}___`);
      return { name: it.name, title: it.title ?? it.name, text: [`measure ${it.name} found ${today}`, ...lines, ""].join(job.own.sheet.newline) };
    });
}
