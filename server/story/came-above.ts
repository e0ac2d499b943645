// Steps, readings and looks whose day nobody wrote, and what had come by the lines above them: the day on which a sheet was opened is not the day of all that follows.
import type { Entry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { memo } from "../model/memo.ts";
import type { Moment } from "./story.ts";

/** The day of done work, a reading or a look, or the later one on which something came that is written above it, where nothing says on which day that was. */
export function dayWithWhatCame(
  job: Job,
  { day, where }: { readonly day: string | undefined; readonly where: Pick<Moment["where"], "entry"> },
): string | undefined {
  const came = cameAbove(job).get(where.entry);
  return day !== undefined && came !== undefined && came > day ? came : day;
}

const cameAbove = memo((job: Job): ReadonlyMap<Entry, string> => {
  const { entries } = job.own.sheet;
  const given = entries.findIndex((it) => it.kind === "day");
  // From a line of its own for the day on, the sheet keeps its days.
  const above = given < 0 ? entries : entries.slice(0, given);
  const known = new Map<Entry, string>();
  let came: string | undefined;
  for (const entry of above) {
    if (entry.kind === "order")
      for (const it of entry.details) {
        const date = (it.kind === "status" && it.status === "received") || it.kind === "received" ? it.date?.text : undefined;
        if (date !== undefined && (came === undefined || date > came)) came = date;
      }
    if (came !== undefined && isUndated(entry)) known.set(entry, came);
  }
  // Orders that stand above what was done before they came, as where all of them are at the head of a sheet, tell no day of what was read or signed below.
  let below: string | undefined;
  for (const entry of [...entries].reverse()) {
    const late = known.get(entry);
    if (late !== undefined && entry.kind !== "step" && below !== undefined && below < late) known.delete(entry);
    for (const date of datesOf(entry)) if (below === undefined || date < below) below = date;
  }
  return known;
});

/** The days on which something was done, read or signed. */
function datesOf(entry: Entry): readonly string[] {
  if (entry.kind === "measure" || entry.kind === "seen" || entry.kind === "release") return entry.date === undefined ? [] : [entry.date.text];
  return entry.kind === "step" ? entry.details.flatMap((it) => (it.kind === "done" && it.date !== undefined ? [it.date.text] : [])) : [];
}

function isUndated(entry: Entry): boolean {
  return (entry.kind === "measure" || entry.kind === "seen" || entry.kind === "release" || entry.kind === "step") && datesOf(entry).length === 0;
}
