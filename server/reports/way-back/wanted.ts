// What must be new, made, answered or decided before it goes back: asked of the needs of the job, less what planned steps do already.
// Invariant: reads only; a thing that nobody touched stands as it always did.
import { isSamePlace } from "../../model/same-place.ts";
import { orderText } from "../../model/titles.ts";
import { neverGoesBack } from "../../model/things.ts";
import { placesOf } from "../../model/job.ts";
import { wholeNumber } from "../../model/declare.ts";
import { ordersOf } from "../../model/orders.ts";
import type { Where } from "../../model/where.ts";
import { against } from "../../rules/failures.ts";
import { fastenerAsItStands, partAsItStands } from "../../story/cells.ts";
import { countAt, decidedAt, discardedAt, findingsOf, obvious } from "../../story/decisions.ts";
import { renewedAsFound, repairedAsFound } from "../../story/put-right.ts";
import type { FastenerCell, Found, Moment, PartCell, Story } from "../../story/story.ts";
import { judge } from "../../story/verdicts.ts";
import { usedOnce } from "../../story/used-once.ts";
import type { Item } from "../../supply/items.ts";
import type { PlacedNeed } from "../../supply/need.ts";
import { needsOf } from "../../supply/needs.ts";

export interface Wanted {
  count(cell: PartCell | FastenerCell): number;
  why(cell: PartCell | FastenerCell): readonly string[];
  /** How many were decided to be made, and are not yet. */
  toMake(cell: PartCell | FastenerCell): number;
  /** “from key steel”. */
  made(cell: PartCell | FastenerCell): string;
  /** What an open question is about, with its name. */
  readonly asked: ReadonlyMap<string, string>;
}

/** The needs of the job, less what planned steps fit new already. */
export function newWanted(story: Story): Wanted {
  const needs = needsOf(story);
  const plannedNew = (cell: PartCell | FastenerCell) =>
    (cell.history as readonly { verb: string; isNew: boolean; phase: string; count: number }[]).reduce(
      (sum, it) => (it.verb === "fit" && it.isNew && it.phase === "planned" ? sum + it.count : sum),
      0,
    );
  const key = (name: string, place: string) => `${name}\n${place}`;
  // The first of each name and place.
  const byCell = new Map([...needs.needed].reverse().flatMap((it) => (isPiece(it.item) ? [[key(it.item.written, it.place), it] as const] : [])));
  const came = newCome(story);
  const needFor = (cell: PartCell | FastenerCell) => {
    const need = byCell.get(key(cell.thing.name, cell.place));
    return need !== undefined && isToBuyOnly(need) && cell.then.on >= cell.total ? undefined : need;
  };
  return {
    asked: new Map(needs.waiting.flatMap((it) => (isPiece(it.item) ? [[it.item.written, it.question] as const] : []))),
    count(cell) {
      const value = needFor(cell)?.amount?.value;
      if (comesWithLock(story, cell)) return 0;
      const needed = value === undefined ? 0 : Math.max(0, Number(value.valueOf()) - plannedNew(cell));
      return Math.max(needed, came.get(cell)?.count ?? 0);
    },
    toMake(cell) {
      let count = 0;
      for (const { found, count: some } of decidedAt(story, cell.thing.name, cell.place, cell.total)) {
        if (found.decision?.detail.decision === "make" && !workedOn(cell, found)) count += some;
      }
      return count;
    },
    made(cell) {
      const decision = findingsAt(story, cell).findLast((it) => it.decision?.detail.decision === "make")?.decision?.detail;
      return ["made", decision?.how?.value].filter((it) => it !== undefined).join(" ");
    },
    why(cell) {
      const order = came.get(cell)?.order;
      if (order !== undefined) return [`a new one came (${orderText(order)})`];
      const reason = needFor(cell)?.reasons[0];
      return reason === undefined ? [] : [reason.text.startsWith(`${cell.place}: `) ? reason.text.slice(cell.place.length + 2) : reason.text];
    },
  };
}

/**
 * A new one came though nothing asks for it, and the old one is off: it was bought to go in. Which ones, where fewer came than are off, is for whoever fits them to say;
 * here it is the first.
 */
function newCome(story: Story): ReadonlyMap<PartCell | FastenerCell, { readonly count: number; readonly order: string }> {
  const out = new Map<PartCell | FastenerCell, { count: number; order: string }>();
  for (const [name, lines] of ordersOf(story.job).items) {
    const come = lines.filter(({ status }) => status?.status === "received");
    const cells = story.cells(name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    const decisions = (cell: PartCell | FastenerCell) => decidedAt(story, name, cell.place, cell.total);
    const isSaid = (cell: PartCell | FastenerCell) =>
      cell.unsure ||
      neverGoesBack(cell.thing) ||
      decisions(cell).some(({ found, says }) => says !== "otherwise" || found.decision?.detail.decision !== "reuse") ||
      (cell.history as readonly { verb: string; isNew: boolean }[]).some((it) => it.verb === "fit" && it.isNew);
    if (come.length === 0) continue;
    let left = come.reduce((sum, { detail }) => sum + (wholeNumber(detail.amount?.figure.text) ?? 1), 0);
    const said = cells.filter(isSaid);
    // One was to be new, and as many came as there are: its fellow was renewed with it.
    const isForAll = left === cells.reduce((sum, { total }) => sum + total, 0) && said.every((cell) => decisions(cell).some(({ says }) => says === "new"));
    if (said.length > 0 && !isForAll) continue;
    left -= said.reduce((sum, { total }) => sum + total, 0);
    for (const cell of cells.filter((it) => !said.includes(it))) {
      const count = Math.min(left, cell.total - cell.then.on);
      if (count > 0) out.set(cell, { count, order: come[0]?.entry.reference?.value ?? "" });
      left -= Math.max(0, count);
    }
  }
  return out;
}

/** It only locks, and came off with its fastener: the line that locks that with a new one brings it. */
function comesWithLock(story: Story, cell: PartCell | FastenerCell): boolean {
  if (cell.kind !== "part" || cell.then.on < cell.total || cell.history.some((it) => it.verb === "remove")) return false;
  return story.fasteners.some(({ thing, place, then, history }) => {
    const locking = thing.locking?.locking;
    if (locking?.part?.text !== cell.thing.name || (place !== cell.place && place !== "" && cell.place !== "")) return false;
    const lock = history.findLast((it) => it.verb === "lock");
    return usedOnce(story.job, locking, thing) && (!then.locked || (lock?.phase === "planned" && lock.isNew));
  });
}

/** Asked for by a `need` line and by nothing else: it is bought, and goes in where its place is empty. What is on stays on. */
function isToBuyOnly({ reasons }: PlacedNeed): boolean {
  return reasons.every(({ where }) => where.entry.kind === "need");
}

function isPiece(item: Item): boolean {
  return item.kind === "part" || item.kind === "fastener";
}

/** What is needed new and was never touched stands as it always did. */
export function untouched(story: Story): { parts: PartCell[]; fasteners: FastenerCell[] } {
  const parts: PartCell[] = [];
  const fasteners: FastenerCell[] = [];
  const touched = new Map<object, Set<string>>();
  for (const { thing, place } of [...story.parts, ...story.fasteners]) touched.set(thing, (touched.get(thing) ?? new Set()).add(place));
  for (const need of needsOf(story).needed) {
    const { item, place } = need;
    if (isToBuyOnly(need)) continue;
    const thing = isPiece(item) ? story.job.things.get(item.written) : undefined;
    // A cell that was only asked about stands in no list.
    // Needed at a place that nobody named, it goes nowhere yet.
    if (thing === undefined || ("placeKind" in thing && !placesOf(story.job, thing).includes(place))) continue;
    // What several lines need is there once.
    if (touched.get(thing)?.has(place)) continue;
    touched.set(thing, (touched.get(thing) ?? new Set()).add(place));
    if (thing.kind === "part") parts.push(partAsItStands(thing, place));
    else if (thing.kind === "fastener") fasteners.push(fastenerAsItStands(thing, place));
  }
  return { parts, fasteners };
}

/** What the last finding says is wrong and nobody decided on: how many, and in what words. */
export function undecidedAt(story: Story, cell: PartCell | FastenerCell): { count: number; words: string; found?: Found } | undefined {
  const found = findingsAt(story, cell).at(-1);
  const worn = wornElsewhere(story, cell);
  if (worn > 0) return { count: worn, words: "past its limit of wear" };
  if (found === undefined || found.decision !== undefined || neverGoesBack(cell.thing)) return undefined;
  const kinds = found.conditions.map(({ condition }) => condition.kind);
  if (kinds.every((it) => obvious.has(it)) || kinds.includes("missing") || kinds.includes("damaged") || workedOn(cell, found)) return undefined;
  return { count: countAt(found, cell.place, cell.total).count, words: kinds.join(" and "), found };
}

/** How many a reading condemns that is told by places of another kind (a box by its side, its heat by the corner): the needs, which go by places, don't know of them. */
function wornElsewhere(story: Story, cell: PartCell | FastenerCell): number {
  const context = { story, judged: judge(story) };
  return cell.now.bench.reduce((sum, lot) => {
    const worn = lot.isNew ? undefined : against(context, cell, lot, Number.POSITIVE_INFINITY).worn;
    return worn === undefined || isSamePlace(worn.place, cell.place) ? sum : sum + lot.count;
  }, 0);
}

/** Renewed or repaired since, or planned to be. */
function workedOn(cell: PartCell | FastenerCell, found: Found): boolean {
  return (renewedAsFound(cell, found) ?? repairedAsFound(cell, found)) !== undefined;
}

/** All of them, and none is to take their place. */
export function isDiscarded(story: Story, cell: PartCell | FastenerCell): boolean {
  return discardedAt(story, cell) >= cell.total;
}

/** How many that are still on were decided to be discarded, and nothing takes them off. */
export function discardedOn(story: Story, cell: PartCell | FastenerCell): number {
  const context = { story, judged: judge(story) };
  return cell.then.lots.reduce((sum, lot) => {
    const away = lot.notes.length > 0 && against(context, cell, lot, Number.POSITIVE_INFINITY).findings.some(({ text }) => text === "decided discard");
    return away ? sum + lot.count : sum;
  }, 0);
}

export function findingsAt(story: Story, cell: PartCell | FastenerCell): Found[] {
  return (findingsOf(story).get(cell.thing.name) ?? []).filter((it) => it.places.includes(cell.place));
}

/** Where it was last spoken of, but for the lines of that planned step. */
export function lastWhere(cell: PartCell | FastenerCell, but?: string): Where {
  const last = (cell.history as readonly Moment[]).findLast((it) => but === undefined || it.visit?.entry.name?.text !== but);
  return last?.where ?? { file: cell.thing.file, entry: cell.thing.entry, row: 0, at: cell.thing.at };
}
