// What must still be done to each thing for it to be as it should be: fitted, new where it must be, tightened, locked, filled, restored.
// Invariant: asked of the state behind all that is done and planned, so that what is planned already is not written again.
import { type Slices, someAtOnce } from "../../../grammar/slices.ts";
import { putInto } from "../../model/grouped.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Fastener, Part } from "../../model/things.ts";
import { midSentence } from "../../model/titles.ts";
import type { Read } from "../../rules/rule.ts";
import { listed } from "../../rules/wording.ts";
import type { Where } from "../../model/where.ts";
import type { FastenerCell, FluidCell, HazardCell, Moment, PartCell, PartState, Story } from "../../story/story.ts";
import type { Act } from "./acts.ts";
import { isSpent } from "./by-words.ts";
import { fastenerActs } from "./fastener-acts.ts";
import { fluidActs } from "./fluid-acts.ts";
import { restoreNote } from "./opening.ts";
import { partActs, verbFor } from "./part-acts.ts";
import type { Unsettled } from "./unsettled.ts";
import { settingsOut } from "./settings-out.ts";
import { newWanted, untouched } from "./wanted.ts";

export interface Work {
  readonly thing: Part | Fastener | FluidCell["thing"] | HazardCell["thing"];
  readonly acts: readonly Act[];
  /** When it came off, was let go, drained or made safe: what came off last goes back first. -1: never. */
  readonly since: number;
  /** It is on again, and only what is left of that is to be done: it is finished before anything else goes on. */
  readonly begun: boolean;
  /** The line that it goes back to: where it came off, or was found so. */
  readonly where: Where;
}

export interface AllWork {
  readonly work: readonly Work[];
  readonly unsettled: readonly Unsettled[];
}

/** `opening`: the name of the planned step that opens the way in, whose lines are no place to lead to. */
export function* workOf(story: Story, opening?: string): Slices<AllWork> {
  let n = 0;
  const unsettled: Unsettled[] = [];
  const work: Work[] = [];
  const wanted = newWanted(story);
  yield;
  const others = untouched(story);
  for (const [thing, cells] of byThing([...story.parts, ...others.parts])) {
    if (n++ % someAtOnce === 0) yield;
    add(thing, cells, partActs(story, cells, wanted, unsettled));
  }
  for (const [thing, cells] of byThing([...story.fasteners, ...others.fasteners])) {
    if (n++ % someAtOnce === 0) yield;
    add(thing, cells, fastenerActs(story, cells, wanted, unsettled));
  }
  yield;
  for (const [thing, cells] of byThing(story.fluids)) add(thing, cells, fluidActs(story, cells));
  for (const cell of story.hazards) {
    if (cell.then || cell.unsure || isSpent(cell.thing) || !cell.history.some((it) => it.verb === "safe")) continue;
    add(cell.thing, [cell], [{ verb: "restore", places: [], ...restoreNote(cell.thing) }]);
  }
  // What is set by another thickness of something is for somebody to choose; one that comes in sizes is renewed, and stands among the work.
  for (const it of settingsOut(story)) {
    const setters = it.limit.setBy.map(({ text }) => story.job.things.get(text)).filter((thing) => thing !== undefined);
    const isShimmed = setters.some((thing) => thing.kind === "shims");
    const isAnew = ({ name }: { readonly name: string }) =>
      work.some((other) => other.thing.name === name && (!isShimmed || other.acts.some((act) => act.isNew === true)));
    if (setters.length === 0 || setters.some(isAnew)) continue;
    const by = listed(setters.map((thing) => `the ${midSentence(thing)}`));
    unsettled.push({ where: it.where, text: `${it.text}: ${isShimmed ? `change ${by}, and write what is then fitted` : `move ${by}`}` });
  }
  // What need not be live again is not made live for its own sake, once the machine is released.
  const ended = story.release !== undefined && work.every(({ thing }) => thing.kind === "hazard" && thing.restoreAfter.length === 0);
  return { work: ended ? [] : work, unsettled };

  function add(thing: Work["thing"], cells: readonly { readonly history: readonly Moment[] }[], acts: readonly Act[]): void {
    if (acts.length === 0) return;
    const moments = cells.flatMap((cell) => cell.history as readonly Moved[]);
    const off = latest(moments.filter(letGo)) ?? latest(moments);
    const back = off === undefined ? undefined : backSince(thing, cells, off.seq);
    const where = latest(moments.filter((it) => it.phase === "done" || it.visit === undefined || it.visit.entry.name?.text !== opening));
    work.push({
      thing,
      acts,
      // What nobody let go, and was found slack, is done up before anything is built on it.
      since: back !== undefined ? firstOfAll - back.seq : thing.kind === "fastener" && off !== undefined && !letGo(off) ? firstOfAll : (off?.seq ?? -1),
      begun: back !== undefined,
      where: where?.where ?? { file: thing.file, entry: thing.entry, row: 0, at: thing.at },
    });
  }

  /** The last thing done since it came off that put it, or what a fastener holds, back at all of its places; undefined where some of it is still off. */
  function backSince(thing: Work["thing"], cells: readonly { readonly history: readonly Moment[] }[], off: number): Moment | undefined {
    if (thing.kind !== "part" && thing.kind !== "fastener") return undefined;
    const isBack = (cell: PartCell | FastenerCell) => cell.then.on >= cell.total;
    const own = story.cells(thing.name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    const held = thing.kind === "part" ? [] : (relationsOf(story.job).holds.get(thing.name) ?? []).flatMap((part) => story.cells(part.name));
    const carried = held.filter((it): it is PartCell => it.kind === "part");
    const done = (list: readonly { readonly history: readonly Moment[] }[]) =>
      latest(list.flatMap((cell) => cell.history as readonly Moved[]).filter((it) => it.seq > off && (it.verb === "fit" || it.verb === "tighten")));
    if (own.length > 0 && own.every(isBack)) return done(cells);
    return carried.length > 0 && carried.every(isBack) ? done(carried) : undefined;
  }
}

/** The same, with oil or grease on what would go back without: behind its fit, or by itself where it is on already. */
export function greased(story: Story, work: readonly Work[], greases: readonly Read[]): readonly Work[] {
  const out = [...work];
  for (const { name, places } of greases) {
    const thing = story.job.things.get(name);
    if (thing?.kind !== "part") continue;
    const act: Act = {
      verb: verbFor(story, thing),
      places: places.filter((it) => it !== ""),
      note: "nothing says that it was since it was washed, or as its fellow was",
    };
    const at = out.findIndex((it) => it.thing === thing);
    const own = out[at];
    if (own !== undefined) out[at] = { ...own, acts: [...own.acts, act] };
    else out.push({ thing, acts: [act], since: firstOfAll, begun: true, where: { file: thing.file, entry: thing.entry, row: 0, at: thing.at } });
  }
  return out;
}

/** More than there are moments in any sheet: what is begun goes first, in the order in which it was begun. */
const firstOfAll = 1e9;

type Moved = Moment & { readonly verb: string; readonly before?: unknown; readonly after?: unknown };

/** It came off, was slackened, drained, lost or made safe. */
function letGo(it: Moved): boolean {
  if (it.verb === "drain" || it.verb === "lost" || it.verb === "safe" || it.verb === "slacken") return true;
  return (it.verb === "undo" || it.verb === "remove") && (it.before as PartState).on > (it.after as PartState).on;
}

function latest<M extends Moment>(moments: readonly M[]): M | undefined {
  return moments.reduce<M | undefined>((a, b) => (a === undefined || b.seq > a.seq ? b : a), undefined);
}

function byThing<C extends { readonly thing: { readonly name: string } }>(cells: readonly C[]): Map<C["thing"], C[]> {
  const map = new Map<C["thing"], C[]>();
  for (const cell of cells) putInto<C["thing"], C>(map, cell.thing, cell);
  return map;
}
