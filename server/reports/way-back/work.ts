// What must still be done to each thing for it to be as it should be: fitted, new where it must be, tightened, locked, filled, restored.
// Invariant: asked of the state behind all that is done and planned, so that what is planned already is not written again.
import type { Range } from "../../../grammar/tree.ts";
import { placesOf } from "../../model/job.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Fastener, Part } from "../../model/things.ts";
import { backText, torqueText, wantedOf } from "../../model/torque.ts";
import { midSentence } from "../../model/titles.ts";
import { bandOf, quantityText, rangeText } from "../../model/values.ts";
import type { Where } from "../../model/where.ts";
import { type Exact, decimalText, placesOf as decimalsOf } from "../../quantities/exact.ts";
import { inside } from "../../quantities/range.ts";
import { fromBase } from "../../quantities/units.ts";
import { against, decidedAway, workOrdered } from "../../rules/failures.ts";
import { awayAt, comesOn } from "../../story/away.ts";
import { decidedAt } from "../../story/decisions.ts";
import { countOf } from "../../story/lots.ts";
import { isOpen } from "../../story/standing.ts";
import { isRight, repairedSince } from "../../story/put-right.ts";
import type { FastenerCell, FluidCell, HazardCell, Moment, PartCell, PartState, Story } from "../../story/story.ts";
import { usedOnce } from "../../story/used-once.ts";
import { judge } from "../../story/verdicts.ts";
import { plain } from "../draw/plain.ts";
import type { Act } from "./acts.ts";
import { isSpent } from "./by-words.ts";
import { cautionOf } from "./opening.ts";
import { type Wanted, findingsAt, isDiscarded, lastWhere, newWanted, undecidedAt, untouched } from "./wanted.ts";
import { weightOf } from "./weights.ts";

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

/** What the steps can't settle: it needs a person, an answer or a part. */
export interface Unsettled {
  readonly where: Where;
  readonly text: string;
}

export interface AllWork {
  readonly work: readonly Work[];
  readonly unsettled: readonly Unsettled[];
}

/** `opening`: the name of the planned step that opens the way in, whose lines are no place to lead to. */
export function workOf(story: Story, opening?: string): AllWork {
  const unsettled: Unsettled[] = [];
  const work: Work[] = [];
  const wanted = newWanted(story);
  const others = untouched(story);
  for (const [thing, cells] of byThing([...story.parts, ...others.parts])) add(thing, cells, partActs(story, cells, wanted, unsettled));
  for (const [thing, cells] of byThing([...story.fasteners, ...others.fasteners])) add(thing, cells, fastenerActs(story, cells, wanted, unsettled));
  for (const [thing, cells] of byThing(story.fluids)) add(thing, cells, fluidActs(story, cells));
  for (const cell of story.hazards) {
    if (cell.then || cell.unsure || isSpent(cell.thing) || !cell.history.some((it) => it.verb === "safe")) continue;
    add(cell.thing, [cell], [{ verb: "restore", places: [], ...cautionOf(cell.thing) }]);
  }
  return { work, unsettled };

  function add(thing: Work["thing"], cells: readonly { readonly history: readonly Moment[] }[], acts: readonly Act[]): void {
    if (acts.length === 0) return;
    const moments = cells.flatMap((cell) => cell.history as readonly Moved[]);
    const off = latest(moments.filter(letGo)) ?? latest(moments);
    const back = off === undefined ? undefined : backSince(thing, cells, off.seq);
    const where = latest(moments.filter((it) => it.phase === "done" || it.visit === undefined || it.visit.entry.name?.text !== opening));
    work.push({
      thing,
      acts,
      since: back === undefined ? (off?.seq ?? -1) : firstOfAll - back.seq,
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

// ---------------------------------------------------------------- parts

function partActs(story: Story, cells: readonly PartCell[], wanted: Wanted, unsettled: Unsettled[]): Act[] {
  const thing = (cells[0] as PartCell).thing;
  const lines = new Lines(story, thing);
  for (const cell of cells) {
    if (cell.unsure) continue;
    const short = Math.max(0, cell.total - cell.then.on);
    const waiting = waitsFor(story, cell, wanted);
    if (waiting !== undefined && (short > 0 || cell.then.forNow)) unsettled.push({ where: lastWhere(cell), text: `${name(cell)} ${waiting}` });
    const mend = mendFor(story, cell);
    if (mend !== undefined) lines.put({ verb: "repair", rest: quoted(mend) }, cell.place);
    if (!cell.thing.critical && isDiscarded(story, cell)) continue;
    const away = awayAt(story.job, thing.name, cell.place, story.newestDay);
    if (away !== undefined && short > 0) {
      if (away.back !== undefined) lateDay(story, away.where, unsettled);
      else unsettled.push({ where: away.where, text: `${name(cell)} is away (order ${away.reference})` });
    }
    const why = [thing.fits, thing.keepsPlace ? "back where it came from, by its mark" : undefined].filter((it) => it !== undefined);
    const { fresh, made, open, old } = shareOf(story, cell, wanted, waiting !== undefined);
    const some = (count: number) => (count < short ? { count } : {});
    // A blank says the same before and after the others are planned beside it.
    const ofAll = (count: number) => (count < cell.total ? { count } : {});
    const coming = fresh > 0 ? comesOn(story.job, thing.name, story.newestDay) : undefined;
    if (coming?.day !== undefined) lateDay(story, coming.where, unsettled);
    else if (coming !== undefined) unsettled.push({ where: coming.where, text: `a new ${name(cell)} waits for order ${coming.reference}` });
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

interface Share {
  readonly fresh: number;
  /** Decided to be made, and not made yet. */
  readonly made: number;
  /** It waits for an answer or a decision. */
  readonly open: number;
  /** Sound, and goes back as it is. */
  readonly old: number;
}

/** What is to go on, by what it is. What was set aside for another and that nothing else takes the place of goes back new: a critical place is never left empty by a word. */
function shareOf(story: Story, cell: PartCell | FastenerCell, wanted: Wanted, waits: boolean): Share {
  const short = Math.max(0, cell.total - cell.then.on);
  const needed = Math.min(wanted.count(cell), short);
  const made = Math.min(wanted.toMake(cell), short - needed);
  const open = waits ? Math.min(undecided(story, cell, wanted), short - needed - made) : 0;
  const gone = Math.max(0, short - cell.then.off);
  const aside = setAside(story, cell).reduce((sum, it) => sum + it.count, 0);
  const more = Math.min(Math.max(0, aside - Math.max(0, needed + made + open - gone)), short - needed - made - open);
  return { fresh: needed + more, made, open, old: short - needed - made - open - more };
}

/** Those on the bench that were decided away, and what was decided. None, where they are mended before they go back. */
function setAside(story: Story, cell: PartCell | FastenerCell): { count: number; text: string }[] {
  if (cell.then.bench.every((lot) => lot.notes.length === 0) || mendFor(story, cell) !== undefined || workOrdered(story, cell)) return [];
  const context = { story, judged: judge(story) };
  return cell.then.bench.flatMap((lot) => {
    const away = against(context, cell, lot, Number.POSITIVE_INFINITY).findings.find(({ found }) => decidedAway(found) !== undefined);
    return away === undefined ? [] : [{ count: lot.count, text: away.text }];
  });
}

function whyNew(story: Story, cell: PartCell | FastenerCell, wanted: Wanted): readonly string[] {
  const why = wanted.why(cell);
  return why.length > 0
    ? why
    : setAside(story, cell)
        .map((it) => it.text)
        .slice(0, 1);
}

/** What came after the last day of the sheet is here; but what is then done under that day would be done too early. Said once. */
function lateDay(story: Story, where: Where, unsettled: Unsettled[]): void {
  const text = `the last day of the sheet is ${story.newestDay}, and parcels came after it: write the day on which you go on above these steps`;
  if (!unsettled.some((it) => it.text === text)) unsettled.push({ where, text });
}

/** What it waits for: an answer, or a decision that nobody took. */
function waitsFor(story: Story, cell: PartCell | FastenerCell, wanted: Wanted): string | undefined {
  const asked = decidedAt(story, cell.thing.name, cell.place, cell.total).find((it) => it.says === "waiting")?.question ?? wanted.asked.get(cell.thing.name);
  if (asked !== undefined) return `waits for the answer to ${asked}`;
  const open = undecidedAt(story, cell);
  return open === undefined ? undefined : `found ${open.words}, and nothing is decided`;
}

/** How many of them wait. */
function undecided(story: Story, cell: PartCell | FastenerCell, wanted: Wanted): number {
  if (wanted.asked.has(cell.thing.name)) return cell.total;
  const asked = decidedAt(story, cell.thing.name, cell.place, cell.total).reduce((sum, it) => (it.says === "waiting" ? sum + it.count : sum), 0);
  return asked > 0 ? asked : (undecidedAt(story, cell)?.count ?? 0);
}

/** Its weight is taken already, as the sheet stands. */
function hangs(story: Story, part: Part): boolean {
  return story.support.at(-1)?.after.supports.some((it) => it.part === part.name) ?? false;
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
    const short = Math.max(0, cell.total - then.on);
    if (!isOpen(cell, then) && !then.forNow && short === 0) continue;
    const torque = thing.torque === undefined ? "" : torqueText(thing.torque);
    if (torque !== "" && middleOf(thing) === undefined)
      unsettled.push({ where: lastWhere(cell), text: `${name(cell)}: no middle can be named of ${torque}; write the figure yourself` });
    const mend = mendFor(story, cell);
    if (mend !== undefined) lines.put({ verb: "repair", rest: quoted(mend) }, cell.place);
    const waiting = waitsFor(story, cell, wanted);
    if (waiting !== undefined && (short > 0 || then.forNow)) unsettled.push({ where: lastWhere(cell), text: `${name(cell)} ${waiting}` });
    const { fresh, made, open: asked, old } = shareOf(story, cell, wanted, waiting !== undefined);
    const never = thing.torque?.none ?? false;
    // Where others stand tight and locked, those that are put back are counted and the others left as they are. One plate that locks several locks them all again.
    const tight = then.lots.filter((lot) => lot.tight && !lot.forNow);
    const fast = (thing.locking?.serves ?? 1) > 1 || (locks && tight.some((lot) => !lot.locked)) ? 0 : countOf(tight);
    const some = (count: number) => (count < cell.total ? { count } : {});
    // `tighten` brings back what lies at hand; what is new, or never tight, is fitted.
    if (fresh > 0) lines.put({ verb: "fit", isNew: true, ...some(fresh), ...noted(whyNew(story, cell, wanted)) }, cell.place);
    if (made > 0) lines.put({ verb: "fit", blank: true, isNew: true, ...some(made), note: wanted.made(cell) }, cell.place);
    if (asked > 0) lines.put({ verb: "fit", blank: true, ...some(asked), ...noted([waiting ?? ""]) }, cell.place);
    // What waits would be brought back as it was by tightening all that lie there: the others are counted.
    const waits = made + asked;
    if (old > 0 && (never || then.off < old || fast + waits > 0)) lines.put({ verb: "fit", ...(fast > 0 || old < short ? some(old) : {}) }, cell.place);
    // Filled in, it is done up and locked as the others are.
    const blank = { blank: true as const, ...some(waits) };
    if (waits > 0 && waits < cell.total && !never) {
      const { rest } = torqueOf(thing, adjusting.has(thing.name), story);
      lines.put({ verb: "tighten", ...blank, ...(rest === undefined ? {} : { rest }), ...noted(made > 0 ? [wanted.made(cell)] : [waiting ?? ""]) }, cell.place);
    }
    if (waits > 0 && waits < cell.total && locks && (thing.locking?.serves ?? 1) === 1)
      lines.put({ verb: "lock", ...blank, ...(usedOnce(story.job, locking, thing) ? { isNew: true as const } : {}), note: "that one too" }, cell.place);
    if (waits === cell.total - fast) continue;
    const tightens = !never && (short > 0 || !then.tight || then.forNow || (!then.locked && locks && torque !== "" && !isAtTorque(cell)));
    const rest = fast + waits > 0 ? some(cell.total - fast - waits) : {};
    if (tightens) lines.put({ verb: "tighten", ...rest, ...torqueOf(thing, adjusting.has(thing.name), story) }, cell.place);
    const back = backText(thing);
    if (tightens && back !== undefined) lines.put({ verb: "let back", ...rest, rest: `by ${back}` }, cell.place);
    if (locks && (tightens || short > 0 || !then.locked))
      lines.put({ verb: "lock", ...rest, ...(usedOnce(story.job, locking, thing) ? { isNew: true as const } : {}) }, cell.place);
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
    const blank = `___ ${bandOf(thing.torque?.range)?.unit.spelling ?? ""}`.trimEnd();
    return { rest: `to ${middle ?? blank}`, note: `${words}: write the figure that you read` };
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
  // Of the stages a figure alone is written as it stands, and of a range its middle.
  const all = (torque.stages ?? []).map((it) => (it.kind === "bare" ? rangeText(it) : middleText(it)));
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

const order: readonly Act["verb"][] = ["drain", "repair", "support", "fit", "tighten", "lock", "fill", "bleed", "restore"];

function byThing<C extends { readonly thing: { readonly name: string } }>(cells: readonly C[]): Map<C["thing"], C[]> {
  const map = new Map<C["thing"], C[]>();
  for (const cell of cells) map.set(cell.thing, [...(map.get(cell.thing) ?? []), cell]);
  return map;
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
