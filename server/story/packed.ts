// Grease that is put in by greasing: whoever packs the bearings of a hub writes `grease`, and has filled the hub's grease by it.
// Invariant: all that the grease is in was greased since it was lost; where it has a capacity a measured fill is asked, and `grease` says nothing of it.
import { relationsOf } from "../model/relations.ts";
import type { Fluid, Part } from "../model/things.ts";
import { fluidMoves } from "./fluid-moves.ts";
import type { Mover } from "./mover.ts";
import type { FluidCell, Moment, PartCell } from "./story.ts";

/** A cap is packed on the bench, a worm before its cover is on: it stays where it is put. */
export function isGrease(thing: Fluid): boolean {
  return /(^|[^\p{L}])grease/iu.test(`${thing.title ?? thing.name} ${thing.grade ?? ""}`);
}

/** This part was greased: what that has filled. */
export function packGrease(mover: Mover, cell: PartCell, moment: Moment): void {
  const { fluidsIn } = relationsOf(mover.job);
  const round = [cell.thing.name, ...(isBearing(cell.thing) ? cell.thing.behind.map(({ text }) => text) : [])];
  for (const fluid of new Set(round.flatMap((name) => fluidsIn.get(name) ?? []))) {
    if (!isGrease(fluid) || fluid.capacity !== undefined) continue;
    for (const it of mover.cells.beside({ text: fluid.name, at: fluid.at }, cell.place))
      if (it.kind === "fluid" && !it.then.full && it.then.filled === undefined && isPacked(mover, it))
        fluidMoves.act(mover, it, "fill", { ...moment, seq: mover.seq++ }, undefined);
  }
}

/** Each part that it is in was greased since it was lost, or all the bearings that lie behind that were. */
function isPacked(mover: Mover, it: FluidCell): boolean {
  const out = it.history.findLast((was) => was.verb === "drain" || was.verb === "lost")?.seq ?? 0;
  const isGreased = (cell: PartCell) => cell.history.some((was) => was.seq > out && was.verb === "other" && was.action?.verb === "grease");
  const { behind } = relationsOf(mover.job);
  return it.thing.in.every((name) => {
    const cells = partsAt(mover, name.text, it);
    const within = (behind.get(name.text) ?? []).filter(isBearing).flatMap((thing) => partsAt(mover, thing.name, it));
    return (cells.length > 0 && cells.every(isGreased)) || (within.length > 0 && within.every(isGreased));
  });
}

function partsAt(mover: Mover, name: string, { place, thing }: FluidCell): readonly PartCell[] {
  return mover.cells.beside({ text: name, at: thing.at }, place).filter((it): it is PartCell => it.kind === "part");
}

function isBearing(part: Part): boolean {
  return /\b(bearing|race|roller|cone|ball|cup)s?\b/iu.test(`${part.title ?? ""} ${part.name}`);
}
