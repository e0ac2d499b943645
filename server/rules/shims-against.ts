// What shims make, read before and after other shims went in: by their thickness and their declared effect the reading comes to something else.
// Invariant: only where the sheet says how the reading follows the shims, what was in each time, and nothing else that is written down changed between the two readings.
import type { Entry } from "../../grammar/tree.ts";
import { isCritical } from "../model/relations.ts";
import { packAt } from "../model/shim-stacks.ts";
import { grouped } from "../model/grouped.ts";
import type { Job } from "../model/job.ts";
import { headOf, wordsOf } from "../model/read-with.ts";
import { type Limit, type Shims, lineOf } from "../model/things.ts";
import { allWords } from "../model/titles.ts";
import { figureValue } from "../model/values.ts";
import { type Exact, exact } from "../quantities/exact.ts";
import { ofNoGauge, uncertaintyOf } from "../story/bands.ts";
import { readingsOn } from "../story/looked-up.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Reading, Story } from "../story/story.ts";
import { mean } from "../story/worked-out.ts";
import type { JobContext } from "./rule.ts";

export interface ShimsAgainst {
  readonly before: Reading;
  readonly after: Reading;
  /** What it should have come to. */
  readonly expected: Exact;
}

/** Of each critical limit that one pack of shims sets at a place, the last final there against the reading before it, and against how it was found. */
export function shimsAgainst({ job, story }: JobContext): ShimsAgainst[] {
  const out: ShimsAgainst[] = [];
  for (const limit of job.things.values()) {
    if (limit.kind !== "limit" || limit.setBy.length === 0 || limit.positions.length > 0 || !isCritical(job, limit)) continue;
    for (const [place, readings] of grouped(readingsOn(story, limit.name), (it) => it.place)) {
      const shims = packOf(job, limit, place);
      const effect = shims === undefined ? undefined : lineOf(shims, "effect")?.detail.figure;
      const factor = effect === undefined ? undefined : figureValue(effect);
      const after = readings.at(-1);
      if (shims === undefined || factor === undefined || after?.stage !== "final") continue;
      const earlier = [readings.findLast((it) => it.entry !== after.entry), readings.findLast((it) => it.stage === "found")];
      for (const before of new Set(earlier)) {
        const expected = before === undefined ? undefined : unlikeShims(story, limit, shims, before, after, factor);
        if (before === undefined || expected === undefined) continue;
        out.push({ before, after, expected });
        break;
      }
    }
  }
  return out;
}

/** What it should have come to, where it did not, by half of what the shims make and by more than the gauges let be. */
function unlikeShims(story: Story, limit: Limit, shims: Shims, before: Reading, after: Reading, factor: Exact): Exact | undefined {
  const [was, is] = [stackAt(story, shims, before.entry), stackAt(story, shims, after.entry)];
  if (was === undefined || is === undefined || before.spots.length === 0 || after.spots.length === 0 || isOther(story, limit, before, after)) return undefined;
  const more = is.sub(was).mul(factor);
  const expected = mean(before.spots.map((it) => it.value)).add(more);
  const off = mean(after.spots.map((it) => it.value))
    .sub(expected)
    .abs();
  const doubt = [before, after].reduce((sum, it) => sum.add(uncertaintyOf(it.gauge, expected) ?? ofNoGauge), exact("0") as Exact);
  return more.compare(0) !== 0 && off.compare(doubt) > 0 && off.mul(2).compare(more.abs()) >= 0 ? expected : undefined;
}

/** The pack that sets it there: the only thing that does; or, beside fasteners that are pulled to their torque, the only pack, or the only one whose words name the place. */
function packOf(job: Job, limit: Limit, place: string): Shims | undefined {
  const all = limit.setBy.map(({ text }) => job.things.get(text));
  const packs = all.filter((it): it is Shims => it?.kind === "shims");
  if (all.some((it) => it?.kind !== "shims" && !(it?.kind === "fastener" && (it.torque?.range ?? it.torque?.stages) !== undefined))) return undefined;
  const named = packs.filter((it) => place !== "" && allWords(it).toLowerCase().replaceAll("-", " ").includes(place.toLowerCase().replaceAll("-", " ")));
  const [pack, ...others] = named.length > 0 ? named : limit.placeKind === undefined ? packs : [];
  return pack === undefined || others.length > 0 || pack.placeKind !== undefined || pack.unread.size > 0 ? undefined : pack;
}

/** The thickness of all that were in as that was read. */
function stackAt({ job }: Story, shims: Shims, entry: Entry): Exact | undefined {
  return packAt(job, shims, entry)?.stack?.shims.reduce((sum, { thickness, count }) => sum.add(thickness.mul(count)), exact("0") as Exact);
}

/**
 * Another piece of the joint went in or was worked on between them, or it was found slack, or a word under either reading says what it was. Of a limit at one of several places what is done at
 * another place is of another joint, and so is what has no name in common with this one.
 */
function isOther(story: Story, limit: Limit, before: Reading, after: Reading): boolean {
  if ([before, after].some(({ entry }) => entry.details.some((it) => it.kind === "because" || it.kind === "note"))) return true;
  const names = new Set([...limit.of, ...limit.setBy, ...limit.with].map((it) => it.text));
  const words = new Set(wordsOf(allWords(limit)));
  const isOfJoint = ({ thing, place }: PartCell | FastenerCell) => {
    if (limit.placeKind === undefined || thing.implied || names.has(thing.name)) return true;
    if (place !== "" && thing.placeKind?.text === limit.placeKind.text && place !== before.place) return false;
    return place === "" || words.has(headOf(thing) ?? "") || (thing.kind === "part" && thing.heldBy.some(({ text }) => names.has(text)));
  };
  if (story.findings.some((it) => names.has(it.thing.name) && it.seq < after.seq && it.conditions.some(({ condition }) => condition.kind !== "serviceable")))
    return true;
  return [...story.parts, ...story.fasteners].some(
    (cell) =>
      isOfJoint(cell) &&
      (cell.unsure ||
        (cell.history as readonly (PartMoment | FastenerMoment)[]).some(
          (it) =>
            it.phase === "done" &&
            it.seq > before.seq &&
            it.seq < after.seq &&
            (it.verb === "repair" || (it.verb === "fit" && it.isNew && cell.kind === "part")),
        )),
  );
}
