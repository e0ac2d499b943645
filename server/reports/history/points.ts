// The readings of one limit at one place over all sheets of a machine, in the order of time, and where what was measured became another: renewed, repaired, or set anew.
// Invariant: one point a measure, the value that was judged; no verdict is made here.
import { type Slices, someAtOnce } from "../../../grammar/slices.ts";
import { ordersOf } from "../../model/orders.ts";
import type { Limit } from "../../model/things.ts";
import { measured, quantityText } from "../../model/values.ts";
import { compare } from "../../quantities/exact.ts";
import type { Measured } from "../../quantities/quantity.ts";
import type { Story } from "../../story/story.ts";
import type { Verdict } from "../../story/verdict.ts";
import { judge } from "../../story/verdicts.ts";
import { namesIn } from "../../story/worked-out.ts";

export interface Point {
  readonly story: Story;
  readonly verdict: Verdict;
  readonly day: string | undefined;
  readonly counter: (Measured & { readonly text: string }) | undefined;
  readonly anew: boolean;
}

export interface LimitPoints {
  /** As the newest sheet has it. */
  readonly limit: Limit;
  readonly place: string;
  readonly points: readonly Point[];
}

/** Of the sheets of one machine, in the order in which they were opened. A limit is known again by its name. */
export function* limitPoints(stories: readonly Story[]): Slices<LimitPoints[]> {
  let n = 0;
  const groups = new Map<string, { limit: Limit; place: string; points: Point[] }>();
  for (const story of stories) {
    yield;
    for (const verdict of mainVerdicts(story)) {
      if (++n % someAtOnce === 0) yield;
      const key = `${verdict.limit.name} ${verdict.place}`;
      const group = groups.get(key) ?? { limit: verdict.limit, place: verdict.place, points: [] };
      groups.set(key, group);
      if (verdict.against.unit.dimension !== (group.points[0]?.verdict.against.unit.dimension ?? verdict.against.unit.dimension)) continue;
      group.limit = verdict.limit;
      const last = group.points.at(-1);
      const anew = last !== undefined && becameAnother(last, story, verdict, stories);
      group.points.push({ story, verdict, day: verdict.day, counter: counterAt(story, verdict), anew });
    }
  }
  return [...groups.values()];
}

const preferred = ["worn", "set", "new"];

/** One of each measure: against wear where it was judged so, read directly where it was. */
function mainVerdicts(story: Story): Verdict[] {
  const best = new Map<string, Verdict>();
  const rank = (it: Verdict) => (it.workedOut ? 10 : 0) + preferred.indexOf(it.band);
  for (const it of judge(story).verdicts) {
    if (!preferred.includes(it.band)) continue;
    const key = `${it.limit.name} ${it.place} ${it.seq}`;
    const known = best.get(key);
    if (known === undefined || rank(it) < rank(known)) best.set(key, it);
  }
  return [...best.values()].sort((a, b) => a.seq - b.seq);
}

/** A machine stands still while it is apart: what was found was at its sheet's first figure, what is left at that of its release. */
function counterAt(story: Story, { stage }: Verdict): Point["counter"] {
  const head = story.job.sheet?.details.findLast((it) => it.kind === "counter");
  const written = { head: head?.kind === "counter" ? head.quantity : undefined, release: story.release?.entry.counter };
  const [first, second] = stage === "found" ? [written.head, written.release] : [written.release, written.head];
  const [a, b] = [measured(first), measured(second)];
  // The head's figure may have been brought up to date after the release.
  const quantity =
    stage === "found" && a !== undefined && b !== undefined && a.unit.dimension === b.unit.dimension && compare(b.value, a.value) < 0
      ? second
      : (first ?? second);
  const value = measured(quantity);
  return value === undefined || quantity === undefined ? undefined : { ...value, text: quantityText(quantity) };
}

// ---------------------------------------------------------------- where it became another

/** Whether what is measured was renewed, repaired or set anew between two readings. */
function becameAnother(last: Point, story: Story, verdict: Verdict, stories: readonly Story[]): boolean {
  const from = stories.indexOf(last.story);
  const to = stories.indexOf(story);
  for (let i = from; i <= to; i++) {
    const each = stories[i] as Story;
    const after = i === from ? last.verdict.seq : -1;
    const until = i === to ? verdict.seq : Number.POSITIVE_INFINITY;
    if (movedWithin(each, verdict, after, until)) return true;
  }
  // What a sheet says was set, or came back from work, is not what it was found as.
  return (
    last.story === story &&
    last.verdict.stage === "found" &&
    verdict.stage !== "found" &&
    (verdict.stood.set !== undefined || cameFromWork(story, verdict.limit))
  );
}

function cameFromWork(story: Story, limit: Limit): boolean {
  const { of } = leaning(story, limit);
  return [...of].some((name) => (ordersOf(story.job).work.get(name) ?? []).some((it) => it.status?.status === "received"));
}

function movedWithin(story: Story, { limit, place }: Verdict, after: number, until: number): boolean {
  const { of, setBy } = leaning(story, limit);
  for (const name of new Set([...of, ...setBy])) {
    for (const cell of story.cells(name)) {
      if (cell.kind !== "part" && cell.kind !== "fastener") continue;
      const elsewhere = cell.place !== place && cell.place !== "" && place !== "" && cell.thing.placeKind?.text === limit.placeKind?.text;
      if (elsewhere) continue;
      const history = cell.history as readonly { seq: number; phase: string; verb: string; isNew: boolean }[];
      for (let i = firstAfter(history, after); i < history.length; i++) {
        const it = history[i] as (typeof history)[number];
        if (it.phase !== "done" || it.seq > until) break;
        if (of.has(name) && ((it.verb === "fit" && it.isNew) || it.verb === "repair")) return true;
        if (setBy.has(name) && settles.has(it.verb)) return true;
      }
    }
  }
  return false;
}

/** A history is in the order of its numbers. */
function firstAfter(history: readonly { readonly seq: number }[], after: number): number {
  let low = 0;
  let high = history.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((history[middle] as { seq: number }).seq <= after) low = middle + 1;
    else high = middle;
  }
  return low;
}

const settles: ReadonlySet<string> = new Set(["undo", "slacken", "fit", "tighten", "let", "remove", "repair"]);

interface Leaning {
  readonly of: ReadonlySet<string>;
  readonly setBy: ReadonlySet<string>;
}

const remembered = new WeakMap<Limit, Leaning>();

/** More limits than this are not looked through for one that is worked out from them. */
const mostLimits = 50;

/** What a limit is of and what sets it; of one that is worked out, what those are of that it is worked out from. */
function leaning(story: Story, limit: Limit): Leaning {
  let known = remembered.get(limit);
  if (known === undefined) {
    const of = new Set<string>();
    const setBy = new Set<string>();
    const limits = new Set([limit]);
    for (const each of limits) {
      for (const it of each.of) of.add(it.text);
      for (const it of each.setBy) setBy.add(it.text);
      for (const name of each.expression === undefined ? [] : namesIn(each.expression)) {
        const other = story.job.things.get(name);
        if (other?.kind === "limit" && limits.size < mostLimits) limits.add(other);
      }
    }
    known = { of, setBy };
    remembered.set(limit, known);
  }
  return known;
}

/** The readings since what is measured became another the last time. */
export function sinceAnew<T extends { readonly anew: boolean }>(points: readonly T[]): readonly T[] {
  return points.slice(
    Math.max(
      0,
      points.findLastIndex((it) => it.anew),
    ),
  );
}
