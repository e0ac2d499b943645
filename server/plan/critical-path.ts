// The critical path of work and parcels: earliest and latest times, slack, and what waits for itself.
// Method: forward and backward pass over activities on nodes (Kelley and Walker, Critical-Path Planning and Scheduling, 1959; the citation is from memory).
// Invariant: exact; never hangs. What is in a circle, or waits for one, has no times.
import { type Exact, compare, zero } from "../quantities/exact.ts";
import { circlesOf } from "./circles.ts";

export interface Activity {
  /**
   * `work` takes its length in working days. A `parcel` takes whole days of the calendar: it goes out on the day on which what it waits for is finished, or on the
   * first day, and is there at the beginning of the day so many days later.
   */
  readonly kind: "work" | "parcel";
  /** In days, not below nothing; whole for a parcel. */
  readonly length: Exact;
  /** The activities that it waits for, by their index. */
  readonly after: readonly number[];
  /** The end that it counts towards; a parcel without one counts through what waits for it. */
  readonly end?: string;
}

/** All in days from the beginning of the first day. Of a parcel the starts are the days on which it goes out: 1 is the second day, until its evening. */
export interface Times {
  readonly start: Exact;
  readonly finish: Exact;
  /** What follows is undefined where an end that it counts towards has no day. */
  readonly latestStart?: Exact;
  readonly latestFinish?: Exact;
  /** How much later it may start and its end stay where it is. Whole days for a parcel. */
  readonly slack?: Exact;
  /** How much later it may start and everything else stay where it is. */
  readonly freeSlack?: Exact;
}

export interface CriticalPath {
  /** By the index of the activity; undefined in a circle and behind one. */
  readonly times: readonly (Times | undefined)[];
  /** When each end is reached at the earliest; an end that hangs on a circle is not among them. */
  readonly ends: ReadonlyMap<string, Exact>;
  /** Activities that wait for each other, each set whole, in the order in which they were given. */
  readonly circles: readonly (readonly number[])[];
}

export function criticalPath(activities: readonly Activity[]): CriticalPath {
  const after = activities.map((it) => [...new Set(it.after)]);
  const before: number[][] = activities.map(() => []);
  after.forEach((list, i) => {
    for (const j of list) before[j]?.push(i);
  });
  const order = inOrder(after, before);
  const start: (Exact | undefined)[] = activities.map(() => undefined);
  const finish: (Exact | undefined)[] = activities.map(() => undefined);
  for (const i of order) {
    const { kind, length } = activities[i] as Activity;
    const from = after[i]?.reduce((latest, j) => max(latest, finish[j] as Exact), zero) ?? zero;
    start[i] = kind === "work" ? from : dayOf(from);
    finish[i] = start[i].add(length);
  }

  const ends = new Map<string, Exact>();
  const endless = new Set<string>();
  activities.forEach(({ end }, i) => {
    if (end === undefined) return;
    const at = finish[i];
    if (at === undefined) endless.add(end);
    else ends.set(end, max(ends.get(end) ?? zero, at));
  });
  for (const end of endless) ends.delete(end);

  const latestFinish: (Exact | undefined)[] = activities.map(() => undefined);
  const freeUntil: (Exact | undefined)[] = activities.map(() => undefined);
  const latestStart: (Exact | undefined)[] = activities.map(() => undefined);
  for (const i of [...order].reverse()) {
    const { kind, length, end } = activities[i] as Activity;
    const followers = before[i] as number[];
    // Where one of those that it holds up has no day, nor has what it may take.
    const bounds = followers.map((j) => outBy(activities[j] as Activity, latestStart[j]));
    const free = followers.map((j) => outBy(activities[j] as Activity, start[j]));
    if (end !== undefined) {
      bounds.push(ends.get(end));
      free.push(ends.get(end));
    }
    const latest = least(bounds);
    const until = least(free);
    if (latest === undefined || until === undefined) continue;
    latestFinish[i] = kind === "work" ? latest : latest.floor();
    freeUntil[i] = kind === "work" ? until : until.floor();
    latestStart[i] = latestFinish[i].sub(length);
  }

  const times = activities.map((_, i): Times | undefined => {
    const [from, to, late, until] = [start[i], finish[i], latestFinish[i], freeUntil[i]];
    if (from === undefined || to === undefined) return undefined;
    if (late === undefined || until === undefined) return { start: from, finish: to };
    return { start: from, finish: to, latestStart: latestStart[i] as Exact, latestFinish: late, slack: late.sub(to), freeSlack: until.sub(to) };
  });
  return { times, ends, circles: circlesOf(after) };
}

/** The day in which a time falls: the end of a day is in that day still. */
function dayOf(time: Exact): Exact {
  return compare(time, zero) <= 0 ? zero : time.ceil().sub(1);
}

/** By when what an activity waits for must be finished, if it is to start then: a parcel may go out until the evening of its day. */
function outBy(follower: Activity, start: Exact | undefined): Exact | undefined {
  return start === undefined || follower.kind === "work" ? start : start.add(1);
}

/** Undefined where there is none, or one of them is not known. */
function least(list: readonly (Exact | undefined)[]): Exact | undefined {
  let out: Exact | undefined;
  for (const it of list) {
    if (it === undefined) return undefined;
    if (out === undefined || compare(it, out) < 0) out = it;
  }
  return out;
}

function max(a: Exact, b: Exact): Exact {
  return compare(a, b) >= 0 ? a : b;
}

/** Each behind all that it waits for. What is in a circle or behind one is left out. */
function inOrder(after: readonly (readonly number[])[], before: readonly (readonly number[])[]): number[] {
  const waits = after.map((list) => list.length);
  const order = waits.flatMap((count, i) => (count === 0 ? [i] : []));
  for (const i of order) {
    for (const j of before[i] ?? []) {
      waits[j] = (waits[j] as number) - 1;
      if (waits[j] === 0) order.push(j);
    }
  }
  return order;
}
