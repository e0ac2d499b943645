// Lines whose figures tell which one, and not how many: “tighten bolt 1”, “tighten bolt 2”, one under the other.
import type { ActionDetail } from "../../../../grammar/tree.ts";
import { wholeNumber } from "../../../model/declare.ts";
import { memo } from "../../../model/memo.ts";
import type { FastenerMoment, PartMoment } from "../../../story/story.ts";

type History = readonly (FastenerMoment | PartMoment)[];

/** What a line counts, by name: asked for each cell of a line that may name thousands. */
export const countsIn = memo(
  (action: ActionDetail) => new Map(action.things.flatMap(({ name, count }) => (count === undefined ? [] : [[name.text, count] as const]))),
);

/**
 * Tightened or locked one, two, three of four, line behind line in one step: no fewer by count than there are, so they were numbered and not counted, and it stops
 * before the last. Where it goes on to the last, nothing is left out. This is the last line of such a run.
 */
export function isNumberedShort(history: History, index: number, name: string, says: number, total: number): boolean {
  const last = history[index] as FastenerMoment | PartMoment;
  if (says < 3 || says >= total || (says * (says + 1)) / 2 < total || (last.verb !== "tighten" && last.verb !== "lock")) return false;
  for (let i = index + 1; history[i]?.visit === last.visit && i < history.length; i++) {
    if (history[i]?.verb !== last.verb) continue;
    if (countAt(history[i], name) === says + 1) return false;
    break;
  }
  return isNumbered(history, index, name, says);
}

/**
 * Lines of one verb, one under the other and alike but for their figures, no two of which are the same: where one of them counts more than are left to do, they are numbers. All numbers
 * from one to the last are all of them. This is the last line of such a run; its figures.
 */
export function numberedRun(history: History, index: number, name: string, total: number): readonly number[] | undefined {
  const last = history[index] as FastenerMoment | PartMoment;
  if ((last.verb !== "tighten" && last.verb !== "lock") || last.phase !== "done" || last.action === undefined || last.visit === undefined) return undefined;
  if (history[index + 1] !== undefined && goesOn(history, index + 1, last, name)) return undefined;
  const run: { readonly count: number; readonly open: number }[] = [];
  for (let i = index; i >= 0; i--) {
    const it = history[i] as FastenerMoment;
    if (it.visit !== last.visit || it.action === undefined || it.action.things.length !== 1 || !isNextTo(it, history[i + 1], i === index)) break;
    if (it.verb !== last.verb) continue;
    const count = countAt(it, name);
    if (count === undefined || !isAlikeBut(it.action, last.action)) break;
    run.unshift({ count, open: it.before.lots.reduce((sum, lot) => sum + ((last.verb === "lock" ? lot.locked : lot.tight) ? 0 : lot.count), 0) });
  }
  const counts = run.map((it) => it.count);
  if (counts.length < 2 || new Set(counts).size < counts.length || counts.length === total) return undefined;
  return run.some(({ count, open }, i) => i > 0 && open > 0 && count > open) ? counts : undefined;
}

/** The same lines go on below. */
function goesOn(history: History, from: number, last: FastenerMoment | PartMoment, name: string): boolean {
  for (let i = from; history[i]?.visit === last.visit && i < history.length; i++) {
    const it = history[i] as FastenerMoment | PartMoment;
    if (!isNextTo(history[i - 1] as FastenerMoment | PartMoment, it, false)) return false;
    if (it.verb === last.verb) return countAt(it, name) !== undefined && it.action !== undefined && isAlikeBut(it.action, last.action as ActionDetail);
  }
  return false;
}

/** One line under the other. */
function isNextTo(it: FastenerMoment | PartMoment, next: FastenerMoment | PartMoment | undefined, isLast: boolean): boolean {
  return isLast || (next?.action !== undefined && it.action !== undefined && next.action.row - it.action.row === 1);
}

/** Two lines say the same but for how many. */
function isAlikeBut(one: ActionDetail, other: ActionDetail): boolean {
  return saidBesides(one) === saidBesides(other);
}

const saidBesides = memo(({ places, isNew, forNow, to, stages, angle, by, text, with: locking }: ActionDetail) =>
  JSON.stringify([
    places.map((it) => it.text),
    isNew !== undefined,
    forNow?.value,
    to === undefined ? undefined : [to.figure.text, to.unit?.text],
    stages?.map((it) => it.figure.text),
    angle?.figure.text,
    by?.text,
    text?.value,
    locking && [locking.kind, locking.words, locking.size.map((it) => it.figure.text), locking.part?.text],
  ]),
);

/** The lines of one verb in one step count one, two, and so on up to this one: whoever writes so tells which one, and not how many. */
export function isNumbered(history: History, index: number, name: string, says: number): boolean {
  const last = history[index] as FastenerMoment | PartMoment;
  let next = says;
  for (let i = index; i >= 0 && next > 0 && history[i]?.visit === last.visit; i--) {
    if (history[i]?.verb !== last.verb) continue;
    if (countAt(history[i], name) !== next) return false;
    next--;
  }
  return says > 1 && next === 0;
}

function countAt(it: FastenerMoment | PartMoment | undefined, name: string): number | undefined {
  return it?.action === undefined ? undefined : wholeNumber(countsIn(it.action).get(name)?.text);
}
