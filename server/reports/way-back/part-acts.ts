// What must still be done to a part at each of its places: mended, its weight taken, fitted, new where it must be.
// Invariant: what waits for a decision, an answer or somebody's hands is a blank, never the old one.
import type { Part } from "../../model/things.ts";
import { awayAt, comesOn } from "../../story/away.ts";
import type { PartCell, Story } from "../../story/story.ts";
import type { Act } from "./acts.ts";
import { Lines, calledAt, noted, quoted } from "./lines.ts";
import { mendFor, shareOf, waitsFor, whyNew } from "./share.ts";
import { type Unsettled, lateDay } from "./unsettled.ts";
import { type Wanted, isDiscarded, lastWhere } from "./wanted.ts";
import { weightOf } from "./weights.ts";

export function partActs(story: Story, cells: readonly PartCell[], wanted: Wanted, unsettled: Unsettled[]): Act[] {
  const thing = (cells[0] as PartCell).thing;
  const lines = new Lines(story, thing);
  for (const cell of cells) {
    if (cell.unsure) continue;
    const short = Math.max(0, cell.total - cell.then.on);
    const waiting = waitsFor(story, cell, wanted);
    if (waiting !== undefined && (short > 0 || cell.then.forNow)) unsettled.push({ where: lastWhere(cell), text: `${calledAt(cell)} ${waiting}` });
    const mend = mendFor(story, cell);
    if (mend !== undefined) lines.put({ verb: "repair", rest: quoted(mend) }, cell.place);
    if (!cell.thing.critical && isDiscarded(story, cell)) continue;
    const away = awayAt(story.job, thing.name, cell.place, story.newestDay);
    if (away !== undefined && short > 0) {
      if (away.back !== undefined) lateDay(story, away.where, unsettled);
      else unsettled.push({ where: away.where, text: `${calledAt(cell)} is away (order ${away.reference})` });
    }
    const why = [thing.fits, thing.keepsPlace ? "back where it came from, by its mark" : undefined].filter((it) => it !== undefined);
    const { fresh, made, open, old } = shareOf(story, cell, wanted, waiting !== undefined);
    const some = (count: number) => (count < short ? { count } : {});
    // A blank says the same before and after the others are planned beside it.
    const ofAll = (count: number) => (count < cell.total ? { count } : {});
    const coming = fresh > 0 ? comesOn(story.job, thing.name, story.newestDay) : undefined;
    if (coming?.day !== undefined) lateDay(story, coming.where, unsettled);
    else if (coming !== undefined) unsettled.push({ where: coming.where, text: `a new ${calledAt(cell)} waits for order ${coming.reference}` });
    const weight = short > 0 ? weightOf(thing) : undefined;
    if (weight !== undefined && !hangs(story, thing)) lines.put(weight, cell.place);
    // The new ones first: what then goes back beside them is what was sound.
    if (fresh > 0) lines.put({ verb: "fit", isNew: true, ...some(fresh), ...noted([...why, ...whyNew(story, cell, wanted)]) }, cell.place);
    if (made > 0) lines.put({ verb: "fit", blank: true, isNew: true, ...ofAll(made), ...noted([wanted.made(cell), ...why]) }, cell.place);
    if (open > 0) lines.put({ verb: "fit", blank: true, ...ofAll(open), ...noted([waiting ?? "", ...why]) }, cell.place);
    if (waiting !== undefined && short === 0 && cell.then.forNow) lines.put({ verb: "fit", blank: true, ...noted([waiting, "it is in for now"]) }, cell.place);
    else if (old > 0 || (cell.then.forNow && short === 0))
      lines.put({ verb: "fit", ...(old > 0 ? some(old) : {}), ...noted(cell.then.forNow ? [...why, "for good: it is in for now"] : why) }, cell.place);
  }
  return lines.acts();
}

/** Its weight is taken already, as the sheet stands. */
function hangs(story: Story, part: Part): boolean {
  return story.support.at(-1)?.after.supports.some((it) => it.part === part.name) ?? false;
}
