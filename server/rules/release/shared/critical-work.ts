// Critical work: what was opened and built up, and after which of it a final reading or look must come.
// Invariant: done work only.
import { memo } from "../../../model/memo.ts";
import { isWorking, readBesideShims } from "../../../model/read-with.ts";
import type { Check, Limit } from "../../../model/things.ts";
import type { FastenerCell, FastenerMoment, FluidCell, FluidMoment, Moment, PartCell, PartMoment, Story } from "../../../story/story.ts";
import { openings, wasOpened } from "../../at-one-place.ts";
import { isNear } from "../../moved.ts";

const none: readonly never[] = [];

/** What a final reading or look comes after. What shims make is read of what stands together: when what is critical for the same was in. */
export function lookedForAfter(story: Story, thing: Limit | Check, place: string): readonly Moment[] {
  if (thing.setBy.length > 0) return fittedFor(story, thing, place);
  return thing.kind === "limit" && !isWorking(thing) ? firstCritical(story, place, thing) : lastCritical(story, place, thing);
}

/** The last part that went in of those that it is read with, or that stand beside its shims; else the first of what is critical for the same, for the rest may be of anything. */
function fittedFor(story: Story, thing: Limit | Check, place: string): readonly Moment[] {
  const opened = story.parts.filter((cell) => isNear(story, cell, place) && wasOpened(cell));
  const { parts, areNamed } = readBesideShims(
    story.job,
    thing,
    opened.map((cell) => cell.thing),
  );
  const fits = opened
    .filter((cell) => parts.includes(cell.thing))
    .flatMap((cell) => cell.history.filter((it) => it.phase === "done" && it.verb === "fit"))
    .sort((a, b) => a.seq - b.seq);
  const one = areNamed ? fits.at(-1) : fits[0];
  return one === undefined ? none : [one];
}

/** The first line that opened something that it hangs on at a place. */
function firstCritical(story: Story, place: string, thing: Limit | Check): readonly Moment[] {
  let first: Moment | undefined;
  for (const cell of [...story.parts, ...story.fasteners]) {
    if (!hangsOn(thing, cell) || !isNear(story, cell, place)) continue;
    for (const it of cell.history as readonly (PartMoment | FastenerMoment)[])
      if (it.phase === "done" && openings.has(it.verb) && (first === undefined || it.seq < first.seq)) first = it;
  }
  return first === undefined ? none : [first];
}

/** Critical work at a place, the last by its day and the last as written behind it: they may be two. Of what it is seen or read with, where it says so. */
export function lastCritical(story: Story, place: string, thing: Limit | Check): readonly Moment[] {
  // Without `with` it is the same for all.
  const key = `${thing.with.length > 0 ? thing.name : ""} ${place}`;
  const known = criticalWork(story);
  let list = known.get(key);
  if (list === undefined) {
    const all = [...story.parts, ...story.fasteners, ...story.fluids]
      .filter((cell) => isNear(story, cell, place))
      .flatMap((cell): readonly Moment[] => {
        if (cell.kind === "fluid")
          return holdsCritical(story, cell) && (thing.with.length === 0 || isFluidOf(story, thing, cell)) ? cell.history.filter(isFilled) : [];
        return hangsOn(thing, cell) ? (cell.history as readonly (PartMoment | FastenerMoment)[]).filter(isBuiltUp) : [];
      });
    const written = all.reduce((last, it) => (last === undefined || it.seq > last.seq ? it : last), undefined as Moment | undefined);
    const dated = all.reduce((last, it) => (last === undefined || (it.day ?? "") >= (last.day ?? "") ? it : last), undefined as Moment | undefined);
    list = [dated, written].filter((it) => it !== undefined);
    known.set(key, list);
  }
  return list;
}

/** By what it hangs on and its place, as far as it was asked for. */
const criticalWork = memo((_: Story) => new Map<string, readonly Moment[]>());

/** What is seen or read with something says itself what it hangs on; else that is all that is critical. */
function hangsOn(thing: Limit | Check, cell: PartCell | FastenerCell): boolean {
  return thing.with.length > 0 ? thing.with.some(({ text }) => text === cell.thing.name) : cell.thing.critical;
}

/** In what it is seen or read with, in what is critical for the very same, or in nothing that is named: an oil bath of the shaft is nothing to a cotter of the motion. */
function isFluidOf({ job }: Story, { with: names, criticalWhat }: Limit | Check, { thing: fluid }: FluidCell): boolean {
  if (fluid.in.length === 0 || names.some(({ text }) => text === fluid.name)) return true;
  return fluid.in.some((name) => {
    const part = job.things.get(name.text);
    return names.some(({ text }) => text === name.text) || (part?.kind === "part" && part.criticalWhat === criticalWhat);
  });
}

/** In something critical; or in nothing that is named, and bled: brakes, a clutch. */
function holdsCritical({ job }: Story, { thing }: FluidCell): boolean {
  if (thing.in.length === 0) return thing.needsBleed;
  return thing.in.some((name) => {
    const part = job.things.get(name.text);
    return part?.kind === "part" && part.critical;
  });
}

/** The last work by which what is critical for that was put together at a place, by its day and as it is written. */
export function builtUpFor(story: Story, what: string, place: string): readonly Moment[] {
  return builtUp(story).get(`${place} ${what}`) ?? none;
}

const builtUp = memo((story: Story): ReadonlyMap<string, readonly [dated: Moment, written: Moment]> => {
  const out = new Map<string, readonly [Moment, Moment]>();
  for (const cell of story.parts) {
    const what = cell.thing.criticalWhat;
    if (what === undefined) continue;
    for (const it of cell.history.filter(isBuiltUp))
      for (const key of [`${cell.place} ${what}`, ...(cell.place === "" ? [] : [` ${what}`])]) {
        const [dated, written] = out.get(key) ?? [it, it];
        out.set(key, [(it.day ?? "") >= (dated.day ?? "") ? it : dated, it.seq > written.seq ? it : written]);
      }
  }
  return out;
});

/** The last moment at which something was moved; before all others where nothing was done. */
export const lastWorkSeq = memo((story: Story): number => {
  let last = -1;
  if (!story.visits.some((it) => it.phase === "done")) return last;
  for (const cell of [...story.parts, ...story.fasteners])
    for (const it of cell.history as readonly (PartMoment | FastenerMoment)[])
      if (it.phase === "done" && it.verb !== "found" && it.verb !== "mark" && it.seq > last) last = it.seq;
  return last;
});

/** It was opened here, whichever of its places. */
export function isMoved(story: Story, name: string): boolean {
  return story.cells(name).some((cell) => (cell.kind === "part" || cell.kind === "fastener") && wasOpened(cell));
}

/** A nut that is tried again for its tightness, and was tight, is no work. */
function isBuiltUp(it: PartMoment | FastenerMoment): boolean {
  if (it.phase !== "done") return false;
  if (it.verb === "tighten") return !it.before.tight;
  return it.verb === "lock" ? !it.before.locked : it.verb === "fit";
}

function isFilled(it: FluidMoment): boolean {
  return it.phase === "done" && (it.verb === "bleed" || (it.verb === "fill" && !it.before.full));
}

/** By their days, where these differ; else as they are written. */
export function isAfter(it: { readonly seq: number; readonly day: string | undefined }, work: Moment): boolean {
  return it.day !== undefined && work.day !== undefined && it.day !== work.day ? it.day > work.day : it.seq > work.seq;
}
