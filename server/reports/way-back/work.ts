// What must still be done to each thing for it to be as it should be: fitted, new where it must be, tightened, locked, filled, restored.
// Invariant: asked of the state behind all that is done and planned, so that what is planned already is not written again.
import type { Range } from "../../../grammar/tree.ts";
import { placesOf } from "../../model/job.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Fastener, Part } from "../../model/things.ts";
import { torqueText, wantedOf } from "../../model/torque.ts";
import { midSentence } from "../../model/titles.ts";
import { bandOf, quantityText, rangeText } from "../../model/values.ts";
import type { Where } from "../../model/where.ts";
import { type Exact, decimalText, placesOf as decimalsOf } from "../../quantities/exact.ts";
import { inside } from "../../quantities/range.ts";
import { fromBase } from "../../quantities/units.ts";
import { workOrdered } from "../../rules/failures.ts";
import { awayAt, comesOn } from "../../story/away.ts";
import { fastenerAsItStands, partAsItStands } from "../../story/cells.ts";
import { decidedAt } from "../../story/decisions.ts";
import type { Item } from "../../supply/items.ts";
import { isOpen, standsIn } from "../../story/moves.ts";
import { needsOf } from "../../supply/needs.ts";
import { isRight, repairedSince } from "../../story/put-right.ts";
import type { FastenerCell, FluidCell, Found, HazardCell, Moment, PartCell, Story } from "../../story/story.ts";
import { usedOnce } from "../../story/used-once.ts";
import { plain } from "../draw/plain.ts";

/** One action, as a line of a step. */
export interface Act {
  readonly verb: "remove" | "undo" | "repair" | "fit" | "tighten" | "lock" | "drain" | "fill" | "bleed" | "restore";
  /** Places, where it is not about all of them. */
  readonly places: readonly string[];
  readonly count?: number;
  readonly isNew?: true;
  /** What stands behind the places: `to 50 lbf.ft`, `0.6 l`, a text. */
  readonly rest?: string;
  /** What a hand needs to know: the way round, the range, why it is new. */
  readonly note?: string;
}

export interface Work {
  readonly thing: Part | Fastener | FluidCell["thing"] | HazardCell["thing"];
  readonly acts: readonly Act[];
  /** When it was last disturbed: what came off last goes back first. */
  readonly since: number;
  /** The line that it goes back to: where it came off, or was found so. */
  readonly where: Where;
}

/** What the steps can't settle: it needs a person, an answer or a part. */
export interface Unsettled {
  readonly where: Where;
  readonly text: string;
}

export interface AllWork {
  readonly work: readonly Work[];
  readonly unsettled: readonly Unsettled[];
}

export function workOf(story: Story): AllWork {
  const unsettled: Unsettled[] = [];
  const work: Work[] = [];
  const wanted = newWanted(story);
  const others = untouched(story);
  for (const [thing, cells] of byThing([...story.parts, ...others.parts])) add(thing, cells, partActs(story, cells, wanted, unsettled));
  for (const [thing, cells] of byThing([...story.fasteners, ...others.fasteners])) add(thing, cells, fastenerActs(story, cells, wanted, unsettled));
  for (const [thing, cells] of byThing(story.fluids)) add(thing, cells, fluidActs(story, cells));
  for (const cell of story.hazards) {
    if (cell.then || cell.unsure || !cell.history.some((it) => it.verb === "safe")) continue;
    add(cell.thing, [cell], [{ verb: "restore", places: [] }]);
  }
  return { work, unsettled };

  function add(thing: Work["thing"], cells: readonly { readonly history: readonly Moment[] }[], acts: readonly Act[]): void {
    if (acts.length === 0) return;
    const moments = cells.flatMap((cell) => cell.history);
    const last = moments.reduce<Moment | undefined>((a, b) => (a === undefined || b.seq > a.seq ? b : a), undefined);
    work.push({ thing, acts, since: last?.seq ?? -1, where: last?.where ?? { file: thing.file, entry: thing.entry, row: 0, at: thing.at } });
  }
}

// ---------------------------------------------------------------- parts

function partActs(story: Story, cells: readonly PartCell[], wanted: Wanted, unsettled: Unsettled[]): Act[] {
  const thing = (cells[0] as PartCell).thing;
  const lines = new Lines(story, thing);
  for (const cell of cells) {
    if (cell.unsure) continue;
    const fresh = Math.min(wanted.count(cell), cell.total);
    const short = Math.max(0, cell.total - cell.then.on);
    const extra = cell.then.on - cell.total;
    const decided = decidedAt(story, thing.name, cell.place, cell.total);
    const waiting = decided.find((it) => it.says === "waiting")?.question ?? wanted.asked.get(thing.name);
    if (waiting !== undefined && (short > 0 || cell.then.forNow))
      unsettled.push({ where: lastWhere(cell), text: `${name(cell)} waits for the answer to ${waiting}` });
    if (extra > 0) {
      const held = stillHeld(story, cell);
      if (held === undefined) lines.put({ verb: "remove", count: extra, note: "more than there should be: find where it belongs" }, cell.place);
      else unsettled.push({ where: lastWhere(cell), text: `${name(cell)}: ${extra} more than there should be, behind ${held}: take that down first` });
    }
    const mend = mendFor(story, cell);
    if (mend !== undefined) lines.put({ verb: "repair", rest: quoted(mend) }, cell.place);
    const discarded = !cell.thing.critical && isDiscarded(story, cell);
    if (discarded) continue;
    const away = awayAt(story.job, thing.name, cell.place, story.newestDay);
    if (away !== undefined && short > 0) unsettled.push({ where: away.where, text: `${name(cell)} is away (order ${away.reference})` });
    const why = [
      thing.fits,
      thing.keepsPlace ? "back where it came from, by its mark" : undefined,
      waiting === undefined ? undefined : `waits for the answer to ${waiting}`,
    ].filter((it) => it !== undefined);
    const onAndDone = fresh > short ? fresh - short : 0;
    if (onAndDone > 0) {
      // Still on, and to be renewed: it comes off first, where what is in front of it is off.
      const held = stillHeld(story, cell);
      if (held !== undefined) {
        unsettled.push({
          where: lastWhere(cell),
          text: `${name(cell)} is to be renewed and is still on, behind ${held}: take that down first, or decide on it`,
        });
        if (short === 0) continue;
      } else lines.put({ verb: "remove", ...(onAndDone < cell.then.on ? { count: onAndDone } : {}) }, cell.place);
    }
    const off = short + (stillHeld(story, cell) === undefined ? onAndDone : 0);
    const old = Math.max(0, off - fresh);
    const coming = fresh > 0 ? comesOn(story.job, thing.name, story.newestDay) : undefined;
    if (coming !== undefined && off > 0)
      unsettled.push({
        where: coming.where,
        text: `a new ${name(cell)} waits for order ${coming.reference}${coming.day === undefined ? "" : `, which came on ${coming.day}`}`,
      });
    // The new ones first: what then goes back beside them is what was sound.
    if (fresh > 0 && off > 0)
      lines.put({ verb: "fit", isNew: true, ...(old > 0 ? { count: fresh } : {}), ...noted([...why, ...wanted.why(cell)]) }, cell.place);
    if (old > 0 || (cell.then.forNow && fresh === 0))
      lines.put({ verb: "fit", ...noted(cell.then.forNow ? [...why, "for good: it is in for now"] : why) }, cell.place);
  }
  return lines.acts();
}

/** The repair that was decided and neither done nor planned. */
function mendFor(story: Story, cell: PartCell | FastenerCell): string | undefined {
  const found = findingsAt(story, cell).findLast((it) => it.decision !== undefined);
  const decision = found?.decision?.detail;
  if (found === undefined || decision?.decision !== "repair" || decision.how === undefined || repairedSince(cell, found.seq) !== undefined) return undefined;
  // Sent out to be mended, it is mended when it is back.
  if (workOrdered(story, cell)) return undefined;
  return decision.how.value;
}

function isDiscarded(story: Story, cell: PartCell | FastenerCell): boolean {
  return findingsAt(story, cell).findLast((it) => it.decision !== undefined)?.decision?.detail.decision === "discard";
}

function findingsAt(story: Story, cell: PartCell | FastenerCell): Found[] {
  return story.findings.filter((it) => it.thing.name === cell.thing.name && it.places.includes(cell.place));
}

/** What is in front of a part that is on: the first fastener or part that would have to come off. */
function stillHeld(story: Story, cell: PartCell): string | undefined {
  const here = (names: readonly { readonly text: string }[]) =>
    names.flatMap((it) => story.cells(it.text).filter((other): other is PartCell | FastenerCell => other.kind === "part" || other.kind === "fastener"));
  const near = [...here(cell.thing.heldBy), ...here(cell.thing.behind)].filter((it) => it.place === cell.place || it.place === "" || cell.place === "");
  // A name that the story never touched has no cell, and is on as it always was.
  const untouched = [...cell.thing.heldBy, ...cell.thing.behind].find((it) => story.cells(it.text).length === 0);
  if (untouched !== undefined && cell.then.on > 0) {
    const thing = story.job.things.get(untouched.text);
    return thing === undefined ? untouched.text : `the ${midSentence(thing)}`;
  }
  const on = near.find((it) => it.then.on > 0);
  return on === undefined || cell.then.on === 0 ? undefined : `the ${midSentence(on.thing, on.place)}`;
}

// ---------------------------------------------------------------- fasteners

function fastenerActs(story: Story, cells: readonly FastenerCell[], wanted: Wanted, unsettled: Unsettled[]): Act[] {
  const thing = (cells[0] as FastenerCell).thing;
  const lines = new Lines(story, thing);
  const { adjusting } = relationsOf(story.job);
  const locking = thing.locking?.locking;
  const locks = locking !== undefined && locking.kind !== "nothing" && locking.kind !== "ambiguous";
  for (const cell of cells) {
    if (cell.unsure || (!cell.thing.critical && isDiscarded(story, cell))) continue;
    const { then } = cell;
    const fresh = Math.min(wanted.count(cell), cell.total);
    const short = Math.max(0, cell.total - then.on);
    const open = isOpen(cell, then) || then.forNow;
    if (!open && fresh === 0) continue;
    const asked = thing.torque === undefined ? "" : torqueText(thing.torque);
    if (asked !== "" && middleOf(thing) === undefined)
      unsettled.push({ where: lastWhere(cell), text: `${name(cell)}: no middle can be named of ${asked}; write the figure yourself` });
    const mend = mendFor(story, cell);
    if (mend !== undefined) lines.put({ verb: "repair", rest: quoted(mend) }, cell.place);
    // `undo` counts nothing: all of them come undone, and the sound ones go back with the new.
    const forNow = standsIn(cell);
    const undoes = fresh > short || forNow;
    if (undoes) lines.put({ verb: "undo", ...noted(forNow ? ["one of them is in for now: put the right one in its place"] : []) }, cell.place);
    const old = Math.max(0, (undoes ? cell.total : short) - fresh);
    const atHand = undoes ? then.on + then.off : then.off;
    const never = thing.torque?.none ?? false;
    // `tighten` brings back what lies at hand; what is new, or never tight, is fitted.
    if (fresh > 0) lines.put({ verb: "fit", isNew: true, ...(old > 0 ? { count: fresh } : {}), ...noted(wanted.why(cell)) }, cell.place);
    if (old > 0 && (never || atHand < old)) lines.put({ verb: "fit" }, cell.place);
    const tightens = !never && (short > 0 || fresh > 0 || !then.tight || then.forNow || (!then.locked && locks && asked !== "" && !isAtTorque(cell)));
    if (tightens) lines.put({ verb: "tighten", ...torqueOf(thing, adjusting.has(thing.name), story) }, cell.place);
    if (locks && (tightens || fresh > 0 || short > 0 || !then.locked))
      lines.put({ verb: "lock", ...(usedOnce(story.job, locking, thing) ? { isNew: true as const } : {}) }, cell.place);
  }
  return lines.acts();
}

/** Tight, and last tightened to a figure inside its range: it wants its locking and nothing else, and is never let back to the middle. */
function isAtTorque(cell: FastenerCell): boolean {
  const last = cell.history.findLast((it) => it.verb === "tighten" || it.verb === "slacken" || it.verb === "undo" || it.verb === "found");
  return wantedOf(cell.thing) !== undefined && last?.verb === "tighten" && last.to !== undefined && isRight(cell, last);
}

/** The middle of the range as a planned figure, and the range beside it. */
function torqueOf(thing: Fastener, adjusts: boolean, story: Story): { rest?: string; note?: string } {
  const asked = thing.torque === undefined ? "" : torqueText(thing.torque);
  if (asked !== "") {
    const middle = middleOf(thing);
    const words = [asked, thing.torque?.condition].filter((it) => it !== undefined).join(" ");
    return { ...(middle === undefined ? {} : { rest: `to ${middle}` }), note: `${words}: write the figure that you read` };
  }
  if (thing.torque?.byFeel !== undefined) return { note: `by feel: ${thing.torque.byFeel}` };
  if (!adjusts) return {};
  const sets = relationsOf(story.job).sets.get(thing.name) ?? [];
  const ranges = sets.flatMap((it) => (it.kind === "limit" && it.set !== undefined ? [`${midSentence(it)} ${rangeText(it.set)}`] : []));
  return ranges.length === 0 ? {} : { note: `sets ${ranges.join(", ")}` };
}

/** Half way between the ends, with no more decimals than it needs to be inside: `27.5 lbf.ft`. */
export function middleOf(thing: Fastener): string | undefined {
  const { torque } = thing;
  if (torque === undefined || wantedOf(thing) === undefined) return undefined;
  if (torque.range !== undefined) return middleText(torque.range);
  // Stages that are figures alone are written as they stand; of ranges, the middle of each.
  const stages = torque.stages ?? [];
  const all = stages.every((it) => it.kind === "bare") ? [stages.map(rangeText).join(", ")] : stages.map(middleText);
  const angle = torque.angle === undefined ? undefined : torque.angle.kind === "bare" ? rangeText(torque.angle) : middleText(torque.angle);
  if (all.includes(undefined) || (torque.angle !== undefined && angle === undefined)) return undefined;
  return angle === undefined ? all.join(", ") : `${all.join(", ")} + ${angle}`;
}

function middleText(range: Range): string | undefined {
  const band = bandOf(range);
  if (band?.low === undefined || band.high === undefined) return undefined;
  const middle: Exact = band.low.add(band.high).div(2);
  const figure = fromBase(middle, band.unit);
  const decimals = Math.min(decimalsOf(figure) ?? 3, 3);
  const text = decimalText(figure, decimals);
  return inside(band, middle) ? `${text} ${band.unit.spelling}` : undefined;
}

// ---------------------------------------------------------------- fluids

function fluidActs(story: Story, cells: readonly FluidCell[]): Act[] {
  const thing = (cells[0] as FluidCell).thing;
  const lines = new Lines(story, thing);
  for (const cell of cells) {
    if (cell.unsure) continue;
    const dirty = cell.then.full && isDirty(story, cell);
    if (dirty) lines.put({ verb: "drain" }, cell.place);
    if (!cell.then.full || dirty) {
      const capacity = thing.capacity === undefined ? undefined : quantityText(thing.capacity);
      lines.put(
        {
          verb: "fill",
          ...(capacity === undefined ? {} : { rest: capacity }),
          ...noted(
            [thing.grade, capacity === undefined ? "write how much went in" : "write how much went in, if it was less"].filter((it) => it !== undefined),
          ),
        },
        cell.place,
      );
    } else if (isLow(story, cell)) lines.put({ verb: "fill", note: "top it up, and write how much went in" }, cell.place);
    if (thing.needsBleed && (cell.then.airIn || dirty)) lines.put({ verb: "bleed" }, cell.place);
  }
  return lines.acts();
}

/** Found low and not topped up since. */
function isLow(story: Story, cell: FluidCell): boolean {
  const found = story.findings.findLast(
    (it) => it.thing.name === cell.thing.name && it.places.includes(cell.place) && it.conditions.some(({ condition }) => condition.kind === "low"),
  );
  return found !== undefined && !cell.history.some((it) => it.seq > found.seq && it.verb === "fill");
}

const foul = new Set(["metallic", "fragments", "milky", "wrong", "contaminated"]);

/** Found foul and not changed since. */
function isDirty(story: Story, cell: FluidCell): boolean {
  const found = story.findings.findLast(
    (it) => it.thing.name === cell.thing.name && it.places.includes(cell.place) && it.conditions.some(({ condition }) => foul.has(condition.kind)),
  );
  return (
    found !== undefined &&
    !cell.history.some((it) => it.seq > found.seq && it.verb === "fill") &&
    cell.history.every((it) => it.verb !== "drain" && it.verb !== "lost")
  );
}

// ---------------------------------------------------------------- what must be new

interface Wanted {
  count(cell: PartCell | FastenerCell): number;
  why(cell: PartCell | FastenerCell): readonly string[];
  /** What an open question is about, with its name. */
  readonly asked: ReadonlyMap<string, string>;
}

/** The needs of the job, less what planned steps fit new already. */
function newWanted(story: Story): Wanted {
  const needs = needsOf(story);
  const plannedNew = (cell: PartCell | FastenerCell) =>
    (cell.history as readonly { verb: string; isNew: boolean; phase: string; count: number }[]).reduce(
      (sum, it) => (it.verb === "fit" && it.isNew && it.phase === "planned" ? sum + it.count : sum),
      0,
    );
  const needFor = (cell: PartCell | FastenerCell) =>
    needs.needed.find((it) => isPiece(it.item) && it.item.written === cell.thing.name && it.place === cell.place);
  return {
    asked: new Map(needs.waiting.flatMap((it) => (isPiece(it.item) ? [[it.item.written, it.question] as const] : []))),
    count(cell) {
      const value = needFor(cell)?.amount?.value;
      return value === undefined ? 0 : Math.max(0, Number(value.valueOf()) - plannedNew(cell));
    },
    why(cell) {
      const reason = needFor(cell)?.reasons[0];
      return reason === undefined ? [] : [reason.text.startsWith(`${cell.place}: `) ? reason.text.slice(cell.place.length + 2) : reason.text];
    },
  };
}

function isPiece(item: Item): boolean {
  return item.kind === "part" || item.kind === "fastener";
}

/** What is needed new and was never touched stands as it always did. */
function untouched(story: Story): { parts: PartCell[]; fasteners: FastenerCell[] } {
  const parts: PartCell[] = [];
  const fasteners: FastenerCell[] = [];
  for (const { item, place } of needsOf(story).needed) {
    const thing = isPiece(item) ? story.job.things.get(item.written) : undefined;
    if (thing === undefined || story.cell(thing.name, place) !== undefined) continue;
    if (thing.kind === "part") parts.push(partAsItStands(thing, place));
    else if (thing.kind === "fastener") fasteners.push(fastenerAsItStands(thing, place));
  }
  return { parts, fasteners };
}

// ---------------------------------------------------------------- lines

/** Acts of one thing gathered over its places: what is alike at several is one line. */
class Lines {
  readonly #story: Story;
  readonly #thing: { readonly name: string };
  readonly #acts: { act: Omit<Act, "places">; places: string[] }[] = [];
  constructor(story: Story, thing: { readonly name: string }) {
    this.#story = story;
    this.#thing = thing;
  }

  put(act: Omit<Act, "places">, place: string): void {
    const same = this.#acts.find((it) => JSON.stringify(it.act) === JSON.stringify(act) && !it.places.includes(place));
    if (same === undefined) this.#acts.push({ act, places: [place] });
    else same.places.push(place);
  }

  /** In the order in which hands do them, and the places left out where it is about all. */
  acts(): Act[] {
    const thing = this.#story.job.things.get(this.#thing.name);
    const declared = thing !== undefined && "placeKind" in thing ? placesOf(this.#story.job, thing) : [""];
    const known = this.#story.cells(this.#thing.name).map((cell) => cell.place);
    const all = declared[0] !== "" ? declared : known.length > 0 ? known : [""];
    return [...this.#acts]
      .sort((a, b) => order.indexOf(a.act.verb) - order.indexOf(b.act.verb))
      .map(({ act, places }) => ({ ...act, places: all.every((it) => places.includes(it)) ? [] : places.filter((it) => it !== "") }));
  }
}

const order: readonly Act["verb"][] = ["undo", "remove", "drain", "repair", "fit", "tighten", "lock", "fill", "bleed", "restore"];

function byThing<C extends { readonly thing: { readonly name: string } }>(cells: readonly C[]): Map<C["thing"], C[]> {
  const map = new Map<C["thing"], C[]>();
  for (const cell of cells) map.set(cell.thing, [...(map.get(cell.thing) ?? []), cell]);
  return map;
}

function lastWhere(cell: PartCell | FastenerCell): Where {
  return (cell.history.at(-1) as Moment | undefined)?.where ?? { file: cell.thing.file, entry: cell.thing.entry, row: 0, at: cell.thing.at };
}

function name(cell: PartCell | FastenerCell): string {
  return midSentence(cell.thing, cell.place);
}

function noted(why: readonly string[]): { note?: string } {
  return why.length === 0 ? {} : { note: why.join("; ") };
}

/** A text as a sheet writes it, made safe to print. */
function quoted(text: string): string {
  return `"${plain(text).replace(/["\\]/g, "\\$&")}"`;
}
