// Whether an old piece came off though no line says so: with what it locks or sits behind, before the job began, or to be worked on.
import type { Job } from "../../../model/job.ts";
import { memo } from "../../../model/memo.ts";
import { relationsOf } from "../../../model/relations.ts";
import { isSamePlace } from "../../../model/same-place.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../../story/story.ts";
import { workOrdered } from "../../failures.ts";

/**
 * The old one came off without a line of its own: what only locks comes off with its fastener; what is renewed with a part comes off with that; and what
 * is renewed whenever it is disturbed is bared when what is before it is off.
 */
export function cameOffUnsaid(story: Story, cell: PartCell | FastenerCell, it: PartMoment | FastenerMoment): boolean {
  // Nothing says that there ever was an old one: it is added, or stands for another by its own name.
  const { behind } = relationsOf(story.job);
  const belongs = cell.kind === "fastener" || cell.thing.heldBy.length > 0 || cell.thing.behind.length > 0 || behind.has(cell.thing.name);
  if (!belongs && cell.thing.perPlace === undefined && cell.history[0] === it && it.over.every((lot) => lot.notes.length === 0)) return true;
  // What was sent out is off.
  if (workOrdered(story, cell)) return true;
  if (cameApart(story, cell, it)) return true;
  if (cell.kind !== "part" || !("overOff" in it)) return false;
  const since = cell.history.findLast((was) => was.seq < it.seq && was.verb === "fit")?.seq ?? -1;
  const opened = (name: string, verbs: readonly string[]) =>
    story
      .cells(name)
      .some(
        (other) =>
          (other.kind === "part" || other.kind === "fastener") &&
          isSamePlace(other.place, cell.place) &&
          (other.history as readonly (PartMoment | FastenerMoment)[]).some((was) => was.seq > since && was.seq < it.seq && verbs.includes(was.verb)),
      );
  for (const other of lockedByPart(story.job).get(cell.thing.name) ?? []) if (opened(other, ["undo", "slacken", "found", "fit"])) return true;
  if (cell.thing.renewWith.some((name) => opened(name.text, ["remove"]))) return true;
  return (
    (cell.thing.renew || cell.thing.renewWith.length > 0) &&
    (cell.thing.behind.some((name) => opened(name.text, ["remove"])) || cell.thing.heldBy.some((name) => opened(name.text, ["undo"])))
  );
}

/**
 * It came apart before this job, and lies in boxes: what it holds, or what it is behind or held by, went on from there; or some old piece of the machine did, and nothing
 * had come off by then.
 */
function cameApart(story: Story, cell: PartCell | FastenerCell, it: PartMoment | FastenerMoment): boolean {
  const { firstOff, beganOff } = boxesOf(story);
  if (beganOff.size === 0) return false;
  if (it.seq < firstOff) return true;
  const { holds } = relationsOf(story.job);
  const around =
    cell.kind === "fastener"
      ? (holds.get(cell.thing.name) ?? []).map((part) => part.name)
      : [...cell.thing.behind, ...cell.thing.heldBy].map((name) => name.text);
  return around.some((name) => [...(beganOff.get(name) ?? [])].some((place) => isSamePlace(place, cell.place)));
}

interface Boxes {
  /** The number of the first line that took anything off. */
  readonly firstOff: number;
  /** The names, and the places, of old ones that went on and never came off here. */
  readonly beganOff: ReadonlyMap<string, ReadonlySet<string>>;
}

const boxesOf = memo((story: Story): Boxes => {
  let firstOff = Number.POSITIVE_INFINITY;
  const beganOff = new Map<string, Set<string>>();
  for (const cell of [...story.fasteners, ...story.parts])
    for (const it of cell.history as readonly (PartMoment | FastenerMoment)[]) {
      if (it.verb === "undo" || it.verb === "remove" || it.verb === "slacken") firstOff = Math.min(firstOff, it.seq);
      if (it.verb === "fit" && it.beganOff && it.phase === "done" && !cell.thing.implied)
        beganOff.set(cell.thing.name, (beganOff.get(cell.thing.name) ?? new Set<string>()).add(cell.place));
    }
  return { firstOff, beganOff };
});

/** Part -> the fasteners that it locks. */
const lockedByPart = memo((job: Job) => {
  const by = new Map<string, string[]>();
  for (const thing of job.things.values()) {
    const part = thing.kind === "fastener" ? thing.locking?.locking.part?.text : undefined;
    if (part === undefined) continue;
    const list = by.get(part);
    if (list === undefined) by.set(part, [thing.name]);
    else list.push(thing.name);
  }
  return by;
});
