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
  const above = new Map<Entry, string>();
  let came: string | undefined;
  for (const entry of job.own.sheet.entries) {
    // From here on the sheet keeps its days.
    if (entry.kind === "day") break;
    if (entry.kind === "order")
      for (const it of entry.details) {
        const date = (it.kind === "status" && it.status === "received") || it.kind === "received" ? it.date?.text : undefined;
        if (date !== undefined && (came === undefined || date > came)) came = date;
      }
    if (came !== undefined && isUndated(entry)) above.set(entry, came);
  }
  return above;
});

function isUndated(entry: Entry): boolean {
  if (entry.kind === "measure" || entry.kind === "seen" || entry.kind === "release") return entry.date === undefined;
  return entry.kind === "step" && !entry.details.some((it) => it.kind === "done" && it.date !== undefined);
}
