// Notes that were written up late: what was found on a day, and stands in the sheet below what was done on later days, is told where its day stood.
// Invariant: only findings, readings as found and looks that found it bad, with a day of their own or under a day that goes back and has such notes alone; each comes before work of later days alone, never before work of its own
// day or without one. A day from long before the job is a slip of the pen, and moves nothing.
import type { Entry, FindingEntry, MeasureEntry, SeenEntry, StepEntry } from "../../grammar/tree.ts";
import { countAhead } from "../model/halving.ts";
import { addMonths } from "../quantities/days.ts";

interface Told {
  readonly entry: Entry;
  /** Where it stands in the sheet. */
  readonly index: number;
}

interface Late extends Told {
  readonly day: string;
}

/** Its place in the sheet, itself, and its day where it is told elsewhere than it stands. */
type ToldAt = readonly [index: number, entry: Entry, under?: string];

/** The entries of a sheet in the order in which its story is told. */
export function inOrderOfDays(entries: readonly Entry[]): Iterable<ToldAt> {
  const late = lateOnes(entries);
  if (late.size === 0) return entries.entries();
  const moved = new Set([...late.values()].flat().map((it) => it.index));
  const out: ToldAt[] = [];
  const tell = (behind: number) => {
    const here = late.get(behind) ?? [];
    for (const it of here.sort((a, b) => (a.day === b.day ? a.index - b.index : a.day < b.day ? -1 : 1))) out.push([it.index, it.entry, it.day]);
  };
  tell(first);
  for (const [index, entry] of entries.entries()) {
    if (!moved.has(index)) out.push([index, entry]);
    tell(index);
  }
  return out;
}

/** Ahead of all entries. */
const first = -1;

/** Those that are told elsewhere, by the step behind which they are told. */
function lateOnes(entries: readonly Entry[]): ReadonlyMap<number, Late[]> {
  const late = new Map<number, Late[]>();
  /** Done steps, their days rising: one that is dated no later than those above it takes their place, for a note is told behind the lowest work of its own day or an earlier one. */
  const steps: { readonly index: number; readonly day: string }[] = [];
  let day = "";
  /** The day under which notes stand that were written up late: it goes back behind what is above it. */
  let back: string | undefined;
  let begun: string | undefined;
  for (const [index, entry] of entries.entries()) {
    if (entry.kind === "day") {
      day = entry.fault === undefined ? (entry.date?.text ?? day) : day;
      back = (steps.at(-1)?.day ?? "") > day && !hasWork(entries, index + 1) ? day : undefined;
    } else if (entry.kind === "sheet") for (const it of entry.details) begun = it.kind === "opened" ? (it.date?.text ?? begun) : begun;
    else if (entry.kind === "step") {
      const done = doneOn(entry);
      if (done === undefined) continue;
      const on = done === "" ? day : done;
      begun ??= on === "" ? undefined : on;
      while (steps.length > 0 && (steps.at(-1)?.day ?? "") >= on) steps.pop();
      steps.push({ index, day: on });
    } else if (isAsFound(entry)) {
      const own = entry.date?.text ?? back;
      if (own === undefined || steps.length === 0 || begun === undefined || (addMonths(own, 1) ?? "") < begun) continue;
      const ahead = countAhead(steps, (it) => it.day <= own);
      if (ahead === steps.length) continue;
      const behind = steps[ahead - 1]?.index ?? first;
      const here = late.get(behind);
      if (here === undefined) late.set(behind, [{ entry, index, day: own }]);
      else here.push({ entry, index, day: own });
    }
  }
  return late;
}

/** Work was done between here and the next day line: then the day is as likely a slip of the pen. */
function hasWork(entries: readonly Entry[], from: number): boolean {
  for (let i = from; i < entries.length; i++) {
    const it = entries[i] as Entry;
    if (it.kind === "day") return false;
    if (it.kind === "step" && doneOn(it) !== undefined) return true;
  }
  return false;
}

/** What asks for something to be done. What was good before work is no word on what came after it, wherever it stands. */
function isAsFound(entry: Entry): entry is FindingEntry | MeasureEntry | SeenEntry {
  if (entry.kind === "finding") return true;
  return entry.kind === "measure" ? entry.stage === "found" : entry.kind === "seen" && entry.stage === "found" && entry.verdict === "bad";
}

/** The day that its `done` says, the last of several; empty where it says none, undefined where nothing of it is done. */
function doneOn(entry: StepEntry): string | undefined {
  let on: string | undefined;
  for (const it of entry.details) if (it.kind === "done") on = it.fault === undefined ? (it.date?.text ?? on ?? "") : (on ?? "");
  return on;
}
