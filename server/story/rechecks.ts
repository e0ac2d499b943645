// What is to be looked at again after a release: how far or how long after it, when that falls due, and whether it was done.
// Invariant: facts of one sheet; the machine's counter comes from whoever asks. What can't be reckoned has no due.
import type { Quantity } from "../../grammar/tree.ts";
import { placesOf } from "../model/job.ts";
import { isSamePlace } from "../model/same-place.ts";
import { quantityText, measured } from "../model/values.ts";
import type { Where } from "../model/where.ts";
import { addDays } from "../quantities/days.ts";
import { type Exact, decimalText } from "../quantities/exact.ts";
import type { Measured } from "../quantities/quantity.ts";
import type { Unit } from "../quantities/units.ts";
import type { Moment, Story } from "./story.ts";

export interface RecheckDue {
  /** The name of what is to be looked at. */
  readonly of: string;
  /** As written: `500 km`. */
  readonly after: string;
  /** By the counter: `value` in the base unit, `text` as it is shown. By the calendar where it was given in days. */
  readonly due:
    | { readonly kind: "counter"; readonly value: Exact; readonly from: Exact; readonly unit: Unit; readonly text: string }
    | { readonly kind: "day"; readonly day: string }
    | undefined;
  readonly done: boolean;
  /** The day and the counter that are written for it, if any. */
  readonly doneAs?: string;
  /** It goes by the counter, and nobody wrote what that read when it was done. */
  readonly doneUnread: boolean;
  /** Written as done, on a day or at a figure of the counter that was before the release: that was before the work. */
  readonly doneBefore: boolean;
  /** Written as done with less than a tenth of its distance or hours run since the release, or on the very day of it where it is days off: nothing had settled. */
  readonly doneTooSoon: boolean;
  /** It goes by a counter, and what stands beside it was read of another: hours at the release, miles until then, or where it was done. */
  readonly otherCounter?: { readonly goesBy: string; readonly read: string };
  /** An earlier release asks for it, and the last one does not take it up. */
  readonly isLeftOver?: true;
  /** The line of the release that names it, else the release. */
  readonly where: Where;
  /** No release names it: its declaration asks for it, and it was tightened last here. */
  readonly tightened?: Where;
}

/**
 * Of a sheet that is released; none of one that is not. What earlier releases left to be done, then the last release's in their order, then what declarations ask for and
 * it does not name.
 */
export function rechecksOf(story: Story): RecheckDue[] {
  const { release } = story;
  if (release === undefined) return [];
  const own = namedIn(release);
  const out = [...leftOver(story, own), ...own];
  const from = measured(release.entry.counter);
  const day = dayOf(release);
  for (const { thing, history } of story.fasteners) {
    const wants = thing.recheckAfter;
    const last = history.findLast((it) => it.phase === "done" && it.verb === "tighten");
    if (wants === undefined || last === undefined || out.some((it) => it.of === thing.name)) continue;
    out.push({
      of: thing.name,
      after: quantityText(wants),
      due: dueOf(wants, from, day),
      done: false,
      doneUnread: false,
      doneBefore: false,
      doneTooSoon: false,
      where: release.where,
      tightened: last.where,
    });
  }
  return out;
}

type Release = NonNullable<Story["release"]>;

function namedIn(release: Release): RecheckDue[] {
  const from = measured(release.entry.counter);
  const day = dayOf(release);
  return release.entry.details.flatMap((detail): RecheckDue[] => {
    if (detail.kind !== "recheck" || detail.name === undefined || detail.after === undefined) return [];
    const due = dueOf(detail.after, from, day);
    const counted = measured(detail.doneAt);
    const doneBefore =
      (detail.done !== undefined && day !== undefined && detail.done.text < day) ||
      (counted !== undefined && from !== undefined && counted.unit.dimension === from.unit.dimension && counted.value.compare(from.value) < 0);
    const doneAs = [detail.done?.text, detail.doneAt === undefined ? undefined : quantityText(detail.doneAt)].filter((it) => it !== undefined).join(" at ");
    const other = otherCounter(detail.after, release.entry.counter, detail.doneAt);
    const doneTooSoon = !doneBefore && isTooSoon(due, counted, detail.done?.text, day);
    return [
      {
        of: detail.name.text,
        after: quantityText(detail.after),
        due,
        doneUnread: due?.kind === "counter" && detail.done !== undefined && detail.doneAt === undefined,
        done: !doneBefore && !doneTooSoon && doneAs !== "",
        ...(doneAs === "" ? {} : { doneAs }),
        doneBefore,
        doneTooSoon,
        ...(other === undefined ? {} : { otherCounter: other }),
        where: { ...release.where, row: detail.row, at: detail.name.at },
      },
    ];
  });
}

const countersRun: ReadonlySet<string> = new Set(["km", "mi", "h"]);

function otherCounter(after: Quantity, released: Quantity | undefined, doneAt: Quantity | undefined): RecheckDue["otherCounter"] {
  const goesBy = measured(after);
  if (goesBy === undefined || !countersRun.has(goesBy.unit.name)) return undefined;
  const other = [released, doneAt].find((it) => {
    const unit = measured(it)?.unit;
    return unit !== undefined && countersRun.has(unit.name) && unit.dimension !== goesBy.unit.dimension;
  });
  return other === undefined ? undefined : { goesBy: quantityText(after), read: quantityText(other) };
}

function isTooSoon(due: RecheckDue["due"], counted: Measured | undefined, done: string | undefined, released: string | undefined): boolean {
  if (due?.kind === "day") return done !== undefined && released !== undefined && done === released && due.day > released;
  if (due === undefined || counted === undefined || counted.unit.dimension !== due.unit.dimension) return false;
  return counted.value.sub(due.from).mul(10).compare(due.value.sub(due.from)) < 0;
}

/** What earlier releases ask for, was not done, and is not asked for again or overtaken by work or a reading since: a new release takes nothing of that back. */
function leftOver(story: Story, asked: readonly RecheckDue[]): RecheckDue[] {
  const out = new Map<string, RecheckDue>();
  for (const release of story.earlierReleases) {
    const since = (it: Moment) => it.phase === "done" && it.seq > release.seq;
    for (const it of namedIn(release)) {
      out.delete(it.of);
      // Work on the left says nothing of the right.
      const isOvertaken = placesOfNamed(story, it.of).every(
        (place) =>
          story.cells(it.of).some((cell) => cell.kind !== "hazard" && isSamePlace(cell.place, place) && cell.history.some(since)) ||
          story.readings.some((reading) => reading.limit.name === it.of && isSamePlace(reading.place, place) && since(reading)) ||
          story.seen.some((look) => look.check.name === it.of && isSamePlace(look.place, place) && since(look)),
      );
      if (!it.done && !isOvertaken && !asked.some(({ of }) => of === it.of)) out.set(it.of, { ...it, isLeftOver: true });
    }
  }
  return [...out.values()];
}

function placesOfNamed({ job }: Story, name: string): readonly string[] {
  const thing = job.things.get(name);
  return placesOf(job, thing !== undefined && "placeKind" in thing ? thing : {});
}

function dayOf(release: Release): string | undefined {
  return release.entry.date?.text ?? release.day;
}

/** Days are days of the calendar; hours and distances are of the counter. */
function dueOf(after: Quantity, from: Measured | undefined, day: string | undefined): RecheckDue["due"] {
  const far = measured(after);
  if (far === undefined) return undefined;
  if (far.unit.name === "d") {
    const whole = Number(decimalText(far.value.div(far.unit.factor), 0));
    const due = day === undefined ? undefined : addDays(day, whole);
    return due === undefined ? undefined : { kind: "day", day: due };
  }
  if (from === undefined || from.unit.dimension !== far.unit.dimension) return undefined;
  const value = from.value.add(far.value);
  return { kind: "counter", value, from: from.value, unit: from.unit, text: `${decimalText(value.div(from.unit.factor), 0)} ${from.unit.spelling}` };
}
