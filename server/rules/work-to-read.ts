// Outside work that has come back, and what it asks to be measured or seen before the piece is trusted.
// Invariant: told by orders, findings and the words of the order; what was read since is for the rule that asks.
import type { WorkDetail } from "../../grammar/tree.ts";
import { placesOf } from "../model/job.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import type { Check, Limit } from "../model/things.ts";
import { type Where, where } from "../model/where.ts";
import { readWhileAway } from "../story/away.ts";
import { findingsOf } from "../story/decisions.ts";
import { readingsOn, verdictsOn } from "../story/looked-up.ts";
import type { Story } from "../story/story.ts";
import type { Judged } from "../story/verdicts.ts";
import { givesSize } from "../story/worked-in.ts";

export interface WorkToRead {
  readonly detail: WorkDetail;
  readonly where: Where;
  /** The day on which it came back. */
  readonly since: string;
}

/** Work on what a limit or a check is of, after which this place of it is read again. */
export function* workToRead(story: Story, judged: Judged, thing: Limit | Check, place: string): Generator<WorkToRead> {
  // What was found past its limit stays flagged there until it is measured again.
  if (verdictsOn(judged, thing.name).some((it) => it.stage !== "trial" && it.outcome === "out" && it.band !== "new" && it.place === place)) return;
  // That it was read while it was away is said at that reading.
  if (readWhileAway(story).some(({ of }) => ("limit" in of ? of.limit : of.check).name === thing.name && of.place === place)) return;
  for (const name of thing.of) {
    for (const { file, entry, detail, status } of ordersOf(story.job).work.get(name.text) ?? []) {
      const since = status?.date?.text;
      if (status?.status !== "received" || since === undefined || !isAt(detail, place)) continue;
      const mended =
        givesSize(detail.text?.value ?? "") ||
        (findingsOf(story).get(name.text) ?? []).some(
          ({ decision, places }) =>
            (decision?.detail.decision === "repair" || decision?.detail.decision === "make") && (place === "" || places.includes("") || places.includes(place)),
        );
      const begun = readingsOn(story, thing.name).some((it) => it.stage === "final" && it.place === place && onOrAfter(it.day, since));
      if (begun || (mended && (isWhole(story, name.text, detail, place) || isReadBesides(story, judged, thing, detail, place, since))))
        yield { detail, where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword), since };
    }
  }
}

/** What was worked on is all that the limit has at this place: it has one place alone, the order names it, or the piece of this place was sent with the others. */
function isWhole(story: Story, name: string, detail: WorkDetail, place: string): boolean {
  if (place === "" || (detail.place !== undefined && detail.place.text === place)) return true;
  const cell = story.cell(name, place);
  return cell?.kind === "part" && detail.count === undefined && cell.history.some((it) => it.phase === "done" && it.after.on < it.before.on);
}

/**
 * One thing with the limit at several places, worked on at none that anybody names: it was read again at one, and nothing that was found or written tells
 * that one from this.
 */
function isReadBesides(story: Story, judged: Judged, thing: Limit | Check, detail: WorkDetail, place: string, since: string): boolean {
  if (thing.kind !== "limit" || detail.place !== undefined || namesPlace(detail.text?.value ?? "", placesOf(story.job, thing))) return false;
  const read = readingsOn(story, thing.name);
  const again = read.filter((it) => it.stage === "final" && it.place !== place && it.day !== undefined && it.day >= since);
  const wasBad = (at: string) => verdictsOn(judged, thing.name).some((it) => it.stage === "found" && it.place === at && it.outcome !== "in");
  return again.length > 0 && read.some((it) => it.stage === "found" && it.place === place) && !again.some((it) => wasBad(it.place));
}

/** By its name, or by a number. */
function namesPlace(text: string, places: readonly string[]): boolean {
  const words: readonly string[] = text.toLowerCase().match(/[\p{L}\d]+/gu) ?? [];
  return /\b(no\.? ?\d|number)\b/i.test(text) || places.some((place) => place.split("-").some((word) => words.includes(word.toLowerCase())));
}

/** What has no day is taken to be late enough. */
export function onOrAfter(day: string | undefined, from: string): boolean {
  return day === undefined || day >= from;
}
