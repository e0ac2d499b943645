// What must still be done to a part at each of its places: mended, its weight taken, fitted, new where it must be.
// Invariant: what waits for a decision, an answer or somebody's hands is a blank, never the old one.
import { isSamePlace } from "../../model/same-place.ts";
import { isClearedOutside, isLubricated } from "../../story/put-right.ts";
import { discardedAt } from "../../story/decisions.ts";
import type { Part } from "../../model/things.ts";
import { awayAt } from "../../story/away.ts";
import type { PartCell, Story } from "../../story/story.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Act } from "./acts.ts";
import { isGrease, isOiled } from "./by-words.ts";
import { Lines, calledAt, noted, quoted } from "./lines.ts";
import { mendFor, shareOf, waitsFor, whyNew } from "./share.ts";
import { type Unsettled, lateDay, waitForNew, waitForOrder, waitingRow } from "./unsettled.ts";
import { type Wanted, findingsAt, isDiscarded, lastWhere } from "./wanted.ts";
import { settingsOut } from "./settings-out.ts";
import { downInto, weightOf } from "./weights.ts";

export function partActs(story: Story, cells: readonly PartCell[], wanted: Wanted, unsettled: Unsettled[]): Act[] {
  const thing = (cells[0] as PartCell).thing;
  const lines = new Lines(story, thing);
  const dry: { place: string; blank: boolean }[] = [];
  for (const cell of cells) {
    if (cell.unsure) continue;
    const short = Math.max(0, cell.total - cell.then.on);
    const wants = short > discardedAt(story, cell);
    const waiting = waitsFor(story, cell, wanted);
    if (waiting !== undefined && (wants || cell.then.forNow)) unsettled.push(waitingRow(cell, lastWhere(cell), waiting));
    const mend = mendFor(story, cell);
    if (mend !== undefined) lines.put({ verb: "repair", ...(mend.count === undefined ? {} : { count: mend.count }), rest: quoted(mend.how) }, cell.place);
    if (isDiscarded(story, cell)) continue;
    const away = awayAt(story.job, thing.name, cell.place, story.newestDay);
    if (away !== undefined && wants) {
      if (away.back !== undefined) lateDay(story, away.where, unsettled);
      else waitForOrder(unsettled, away.where, away.reference, false, calledAt(cell));
    }
    const why = [thing.fits, thing.keepsPlace ? byItsMark : undefined, notAsItWas(story, cell)].filter((it) => it !== undefined);
    const { fresh, made, open, old } = shareOf(story, cell, wanted, waiting !== undefined);
    if (fresh < cell.total && isBlocked(story, cell)) lines.put({ verb: "clean", note: "found blocked" }, cell.place);
    if (isDry(story, cell)) dry.push({ place: cell.place, blank: made + open > 0 });
    const some = (count: number) => (count < short ? { count } : {});
    // A blank says the same before and after the others are planned beside it.
    const ofAll = (count: number) => (count < cell.total ? { count } : {});
    if (fresh > 0) waitForNew(story, cell, unsettled);
    const weight = wants ? weightOf(thing) : undefined;
    if (weight !== undefined && !hangs(story, thing)) lines.put(weight, "");
    const down = wants ? downInto(thing) : undefined;
    if (down !== undefined) lines.put(down, "");
    // What lies on its cradle goes on from there, and who lifts it has to know. A blank says the same before and after.
    const known = weight?.note !== undefined && hangs(story, thing) ? [...why, weight.note] : why;
    // The new ones first: what then goes back beside them is what was sound.
    // A new one has no mark of where it came from.
    const ofNew = known.filter((it) => it !== byItsMark);
    if (fresh > 0) lines.put({ verb: "fit", isNew: true, ...some(fresh), ...noted([...ofNew, ...whyNew(story, cell, wanted)]) }, cell.place);
    if (made > 0) lines.put({ verb: "fit", blank: true, isNew: true, ...ofAll(made), ...noted([wanted.made(cell), ...why]) }, cell.place);
    if (open > 0) lines.put({ verb: "fit", blank: true, ...ofAll(open), ...noted([waiting?.text ?? "", ...why]) }, cell.place);
    if (waiting !== undefined && short === 0 && cell.then.forNow)
      lines.put({ verb: "fit", blank: true, ...noted([waiting.text, "it is in for now"]) }, cell.place);
    else if (old > 0 || (cell.then.forNow && short === 0))
      lines.put({ verb: "fit", ...(old > 0 ? some(old) : {}), ...noted(cell.then.forNow ? [...known, "for good: it is in for now"] : known) }, cell.place);
  }
  for (const { place, blank } of dry) lines.put({ verb: verbFor(story, thing), ...(blank ? { blank: true as const } : {}), note: "found dry" }, place);
  return lines.acts();
}

const byItsMark = "back where it came from, by its mark";

/** Oil where oil is in it, or its name speaks of what lives by oil; else grease. */
export function verbFor(story: Story, thing: Part): "oil" | "grease" {
  const fluids = relationsOf(story.job).fluidsIn.get(thing.name) ?? [];
  if (fluids.length > 0) return fluids.some(isGrease) ? "grease" : "oil";
  return isOiled(thing) ? "oil" : "grease";
}

/** A stack of shims with which its limit was outside goes back as another one. */
function notAsItWas(story: Story, { thing, place }: PartCell): string | undefined {
  if (story.job.things.get(thing.name)?.kind !== "shims") return undefined;
  const out = settingsOut(story).find((it) => it.limit.setBy.some(({ text }) => text === thing.name) && isSamePlace(it.place, place));
  return out === undefined ? undefined : `another stack than was in: ${out.text}`;
}

/** Found blocked, and neither cleaned, mended nor renewed since, nor planned to be. */
function isBlocked(story: Story, cell: PartCell): boolean {
  const found = findingsAt(story, cell).findLast((it) => it.conditions.some(({ condition }) => condition.kind === "blocked"));
  if (found === undefined || mendFor(story, cell) !== undefined || isClearedOutside(story, cell, found.day)) return false;
  return !cell.history.some((it) => it.seq > found.seq && (it.action?.verb === "clean" || it.verb === "repair" || (it.verb === "fit" && it.isNew)));
}

/** Found dry, and neither oiled nor greased since, nor planned to be; and no fluid that is in it is filled. */
function isDry(story: Story, cell: PartCell): boolean {
  const found = findingsAt(story, cell).findLast((it) => it.conditions.some(({ condition }) => condition.kind === "dry"));
  if (found === undefined || cell.history.some((it) => it.seq > found.seq && isLubricated(it))) return false;
  return (relationsOf(story.job).fluidsIn.get(cell.thing.name) ?? []).every((fluid) =>
    story.cells(fluid.name).every((it) => it.kind !== "fluid" || (it.then.full && !it.history.some((was) => was.seq > found.seq && was.verb === "fill"))),
  );
}

/** Its weight is taken already, as the sheet stands. */
function hangs(story: Story, part: Part): boolean {
  return story.support.at(-1)?.after.supports.some((it) => it.part === part.name) ?? false;
}
