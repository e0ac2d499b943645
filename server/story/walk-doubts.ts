// What can't be read of a sheet as it is walked: what such lines name is unsure from the start.
import { unsaid } from "../../grammar/blanks.ts";
import { lineText } from "../../grammar/sheet-text.ts";
import type { Detail, Entry } from "../../grammar/tree.ts";
import { isNoPlace } from "../model/job.ts";
import { oneAndMany } from "../model/one-and-many.ts";
import { nearestNames } from "../model/near.ts";
import { referencesOf } from "../model/references.ts";
import type { Walk } from "./walk-state.ts";

/** Lines of these kinds say what was done or found. */
const movesThings: ReadonlySet<Entry["kind"]> = new Set(["step", "finding", "unread", "headless", "release"]);

/** A line that can't be read may have said anything of what it names, where lines of its kind say what was done or found. */
export function doubt(walk: Walk, index: number, entry: Entry): void {
  if (entry.kind === "measure" || entry.kind === "seen") {
    const of = entry.kind === "measure" ? entry.limit : entry.check;
    if (of !== undefined && (unsaid(entry) || entry.stray.length > 0 || entry.details.some(unsaid))) walk.doubted.add(of.text);
  }
  for (const { row } of brokenLines(entry)) doubtWordsOf(walk, index, row);
  if (movesThings.has(entry.kind)) doubtPlaces(walk, entry);
  for (const { thing, place } of oneAndMany(walk.job).get(entry) ?? [])
    for (const cell of [...walk.cells.of(thing.name, []), ...walk.cells.of(thing.name, [place.text])]) cell.unsure = true;
}

/** At a place that there is not, a thing may have been meant anywhere: it is said where the place stands, and nothing is made of it. */
function doubtPlaces({ job, cells }: Walk, entry: Entry): void {
  for (const { name, of } of referencesOf(entry).places) {
    if (!isNoPlace(job, name.text)) continue;
    const near = nearestNames(name.text, job.kindsOfPlace.keys());
    for (const it of of) {
      const thing = job.things.get(it);
      const meant = thing !== undefined && "placeKind" in thing && thing.placeKind !== undefined ? near : [];
      for (const cell of cells.of(it, meant)) cell.unsure = true;
    }
  }
}

function brokenLines(entry: Entry): readonly Pick<Detail, "row">[] {
  const broken: Pick<Detail, "row">[] = [];
  if ((entry.fault !== undefined && movesThings.has(entry.kind)) || entry.kind === "unread")
    broken.push(entry, ...(entry.kind === "unread" ? entry.details : []));
  if (movesThings.has(entry.kind)) for (const detail of entry.details) if (detail.fault !== undefined) broken.push(detail);
  // What is left blank in done work may turn out to have been anything; in a plan it counts as far as it is written.
  if (entry.kind === "step" && entry.details.some((it) => it.kind === "done"))
    for (const detail of entry.details) if (detail.fault === undefined && detail.blanks !== undefined && detail.kind === "action") broken.push(detail);
  for (const detail of entry.stray) broken.push(detail);
  return broken;
}

/** Whatever a line names, whichever way it was meant. */
function doubtWordsOf({ job, cells, doubted }: Walk, index: number, row: number): void {
  const text = lineText(job.own.sheet, (job.own.sheet.starts[index] ?? 0) + row).slice(0, 400);
  for (const word of text.normalize("NFC").match(/\p{L}[\p{L}\p{M}\p{N}-]*/gu) ?? []) {
    const thing = job.things.get(word);
    if (thing?.kind === "limit" || thing?.kind === "check") doubted.add(word);
    if (thing !== undefined) for (const cell of cells.of(word, [])) cell.unsure = true;
  }
}

/** A name that may be a slip for one of several: which of them was moved can't be told. */
export function doubtSlips({ job, cells }: Walk): void {
  for (const [name, near] of job.slips)
    if (near.length > 1) for (const it of [name, ...near]) if (job.things.has(it)) for (const cell of cells.of(it, [])) cell.unsure = true;
}
