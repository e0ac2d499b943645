// Whether what a reading is of was renewed, or worked on, before it was read.
import { isSamePlace } from "../model/same-place.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { allWords } from "../model/titles.ts";
import { isOfAllMounted } from "../model/read-with.ts";
import type { Limit } from "../model/things.ts";
import { bandOf } from "../model/values.ts";
import { type Exact, compare } from "../quantities/exact.ts";
import { inside as isInside } from "../quantities/range.ts";
import { type Renewed, withoutWear } from "./bands.ts";
import { readingsOn } from "./looked-up.ts";
import { addsMetal } from "./worked-in.ts";
import type { FastenerMoment, PartMoment, Reading, Story } from "./story.ts";
import { greatest, least } from "./worked-out.ts";
import type { Group } from "./verdict.ts";

export const namesOf = (limit: Limit) => limit.of.map((name) => name.text);

/** Were these fitted new before a reading, or is it of new ones that go in next? */
export function wasRenewed(story: Story, names: readonly string[], place: string, before: number): Renewed {
  const renewed = names.filter((name) => isRenewed(story, [name], place, before)).length;
  return renewed === 0 ? "none" : renewed < names.length ? "some" : "all";
}

export function isRenewed(story: Story, names: readonly string[], place: string, before: number): boolean {
  return names.some((name) =>
    story.cells(name).some((cell) => {
      if (cell.kind !== "part" && cell.kind !== "fastener") return false;
      if (cell.place !== place && cell.place !== "" && place !== "") return false;
      const done = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done");
      if (done.some((it) => it.verb === "fit" && it.isNew && it.seq < before)) return true;
      // Read on the bench while the place was empty, it is of what goes in there next.
      return done.findLast((it) => it.seq < before)?.after.on === 0 && done.find((it) => it.verb === "fit" && it.seq > before)?.isNew === true;
    }),
  );
}

/**
 * How many of the figures may be of pieces that have run: some of those at that place are new and some are not, and each figure is of one of them. None, where nobody can
 * tell.
 */
export function figuresOfOld(story: Story, { limit, place }: Group, before: number, figures: number): number {
  const [name, other] = namesOf(limit);
  if (name === undefined || other !== undefined || limit.positions.length > 0) return 0;
  const cell = story.cells(name).find((it) => it.place === place);
  if (cell === undefined || (cell.kind !== "part" && cell.kind !== "fastener")) return 0;
  const on = (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast((it) => it.phase === "done" && it.seq < before)?.after;
  if (on === undefined || on.on !== figures) return 0;
  return on.lots.reduce((sum, lot) => sum + (lot.isNew ? 0 : lot.count), 0);
}

/**
 * Repaired here, or out for work and back: what is worked on is given its size. Where it was found inside `new`, or as tight as it is now, the work was of something else,
 * or the two ran so.
 */
export function wasMended(story: Story, { limit, stood, place }: Group, before: number): boolean {
  if (withoutWear(stood) === undefined || !isMended(story, namesOf(limit), place, before)) return false;
  const found = readingsOn(story, limit.name).filter((it) => it.stage === "found" && it.seq < before && (it.place === place || it.place === ""));
  return isWorn(
    found.flatMap((it) => it.spots.map((spot) => spot.value)),
    stood,
  );
}

/** Outside `new` where it wears, and nowhere else; or never read. */
export function isWorn(values: readonly Exact[], limit: Limit): boolean {
  const fresh = bandOf(limit.new);
  const unworn = withoutWear(limit);
  if (fresh === undefined || unworn === undefined) return false;
  return values.length === 0 || (values.some((value) => !isInside(fresh, value)) && values.every((value) => isInside(unworn, value)));
}

/**
 * Given new metal: all that a clearance or a float is of, a brass that was re-metalled and bored, has no wear behind it; nor has a seat that was sprayed and is larger than it was
 * found. Of the size of the piece elsewhere it says nothing. All of a lining is new behind a relining.
 */
export function wasRemade(story: Story, group: Group, before: number): boolean {
  const names = namesOf(group.limit);
  if (linings.test(allWords(group.limit)) && isMended(story, names, group.place, before, (work) => relines.test(work))) return true;
  if (names.length === 0 || !names.every((name) => isMended(story, [name], group.place, before, addsMetal))) return false;
  return isOfAllMounted(group.limit) || (names.length === 1 && isBuiltUp(story, group, before));
}

const linings = /\blinings?\b/iu;
const relines = /\b(re-?lin(e|ed|es|ing)|new linings?|fresh linings?)\b/iu;

/** There is more metal by each figure than by any that was found there: against the way in which it wears. */
function isBuiltUp(story: Story, { limit, stood, place, readings }: Group, before: number): boolean {
  const worn = bandOf(stood.worn);
  const valuesOf = (list: readonly Reading[]) => list.flatMap((it) => it.spots.map((spot) => spot.value));
  const found = valuesOf(readingsOn(story, limit.name).filter((it) => it.stage === "found" && it.seq < before && (it.place === place || it.place === "")));
  const now = valuesOf(readings);
  if (worn === undefined || found.length === 0 || now.length === 0) return false;
  if (worn.high === undefined) return compare(least(now), greatest(found)) > 0;
  return worn.low === undefined && compare(greatest(now), least(found)) < 0;
}

export function isMended(story: Story, names: readonly string[], place: string, before: number, serves: (work: string) => boolean = () => true): boolean {
  return names.some(
    (name) =>
      story
        .cells(name)
        .some(
          (cell) =>
            (cell.kind === "part" || cell.kind === "fastener") &&
            isSamePlace(cell.place, place) &&
            (cell.history as readonly (PartMoment | FastenerMoment)[]).some(
              (it) => it.phase === "done" && it.verb === "repair" && it.seq < before && serves(it.action?.text?.value ?? ""),
            ),
        ) ||
      (ordersOf(story.job).work.get(name) ?? []).some(
        ({ detail, status }) => isAt(detail, place) && status?.status === "received" && serves(detail.text?.value ?? ""),
      ),
  );
}
