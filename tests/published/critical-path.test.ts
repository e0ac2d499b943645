// Critical paths held against published networks with their answers, and against every path there is, counted out one by one.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ratio, zero } from "../../server/quantities/exact.ts";
import { type Activity, criticalPath } from "../../server/plan/critical-path.ts";

const work = (length: number, after: readonly number[]): Activity => ({ kind: "work", length: ratio(length), after, end: "all" });

/** Earliest start and finish, latest start and finish, total slack, free slack. */
type Row = readonly [es: number, ef: number, ls: number, lf: number, slack: number, free: number];

function table(network: Readonly<Record<string, readonly [length: number, after: readonly string[]]>>): {
  finish: number;
  rows: Record<string, Row>;
  critical: string[];
} {
  const names = Object.keys(network);
  const path = criticalPath(
    Object.values(network).map(([length, after]) =>
      work(
        length,
        after.map((name) => names.indexOf(name)),
      ),
    ),
  );
  const rows = Object.fromEntries(
    names.map((name, i) => {
      const it = path.times[i];
      return [name, [it?.start, it?.finish, it?.latestStart, it?.latestFinish, it?.slack, it?.freeSlack].map(Number) as unknown as Row];
    }),
  );
  return { finish: Number(path.ends.get("all")), rows, critical: names.filter((name) => rows[name]?.[4] === 0) };
}

describe("published networks", () => {
  test("ten activities of putting in a server, in days: a textbook's problem with its worked answer, as seen on public pages", () => {
    const it = table({
      A: [2, []],
      B: [4, ["A"]],
      C: [5, ["A"]],
      D: [2, ["B"]],
      E: [1, ["B"]],
      F: [8, ["B", "C"]],
      G: [3, ["D", "E"]],
      H: [5, ["F"]],
      I: [4, ["F"]],
      J: [7, ["G", "H", "I"]],
    });
    expect(it.finish).toBe(27);
    expect(it.critical).toEqual(["A", "C", "F", "H", "J"]);
    expect(it.rows).toEqual({
      A: [0, 2, 0, 2, 0, 0],
      B: [2, 6, 3, 7, 1, 0],
      C: [2, 7, 2, 7, 0, 0],
      D: [6, 8, 15, 17, 9, 0],
      E: [6, 7, 16, 17, 10, 1],
      F: [7, 15, 7, 15, 0, 0],
      G: [8, 11, 17, 20, 9, 9],
      H: [15, 20, 15, 20, 0, 0],
      I: [15, 19, 16, 20, 1, 1],
      J: [20, 27, 20, 27, 0, 0],
    });
  });

  test("seven arrows, in weeks: B. W. Taylor, Introduction to Management Science, solutions of chapter 8, as quoted on public pages", () => {
    // Activities on arrows: one waits for all that end where it begins.
    const it = table({
      "1-2": [7, []],
      "1-3": [10, []],
      "2-4": [6, ["1-2"]],
      "3-4": [5, ["1-3"]],
      "3-5": [4, ["1-3"]],
      "4-5": [3, ["2-4", "3-4"]],
      "5-6": [2, ["3-5", "4-5"]],
    });
    expect(it.finish).toBe(20);
    expect(it.critical).toEqual(["1-3", "3-4", "4-5", "5-6"]);
    expect(it.rows).toEqual({
      "1-2": [0, 7, 2, 9, 2, 0],
      "1-3": [0, 10, 0, 10, 0, 0],
      "2-4": [7, 13, 9, 15, 2, 2],
      "3-4": [10, 15, 10, 15, 0, 0],
      "3-5": [10, 14, 14, 18, 4, 4],
      "4-5": [15, 18, 15, 18, 0, 0],
      "5-6": [18, 20, 18, 20, 0, 0],
    });
  });
});

// ---------------------------------------------------------------- every path, one by one

interface Network {
  readonly lengths: readonly number[];
  readonly after: readonly (readonly number[])[];
}

/** A network without circles: each waits for some that stand before it. Lengths are whole 64ths, so that sums of them are exact in any arithmetic. */
const networks: fc.Arbitrary<Network> = fc.integer({ min: 1, max: 9 }).chain((count) =>
  fc.record({
    lengths: fc.array(fc.integer({ min: 0, max: 640 }), { minLength: count, maxLength: count }),
    after: fc.tuple(...Array.from({ length: count }, (_, i) => (i === 0 ? fc.constant([] as number[]) : fc.uniqueArray(fc.integer({ min: 0, max: i - 1 }))))),
  }),
);

/** Every chain of activities that ends with `last`, as the lists of them. */
function chainsTo(network: Network, last: number): number[][] {
  const own = network.after[last] ?? [];
  return own.length === 0 ? [[last]] : own.flatMap((i) => chainsTo(network, i).map((chain) => [...chain, last]));
}

function chainsFrom(network: Network, first: number): number[][] {
  const followers = network.after.flatMap((list, i) => (list.includes(first) ? [i] : []));
  return followers.length === 0 ? [[first]] : followers.flatMap((i) => chainsFrom(network, i).map((chain) => [first, ...chain]));
}

const sum = (network: Network, chain: readonly number[]) => chain.reduce((total, i) => total + (network.lengths[i] as number), 0);

describe("held against every path there is", () => {
  test("the finish is the longest path; slack is what the longest path through an activity is short of it", () => {
    fc.assert(
      fc.property(networks, (network) => {
        const path = criticalPath(
          network.lengths.map((length, i) => ({ kind: "work" as const, length: ratio(length, 64), after: network.after[i] as number[], end: "all" })),
        );
        const finish = Math.max(...network.lengths.flatMap((_, i) => chainsTo(network, i).map((chain) => sum(network, chain))));
        expect(Number(path.ends.get("all")) * 64).toBe(finish);
        network.lengths.forEach((length, i) => {
          const to = Math.max(...chainsTo(network, i).map((chain) => sum(network, chain)));
          const from = Math.max(...chainsFrom(network, i).map((chain) => sum(network, chain)));
          const it = path.times[i];
          expect([Number(it?.start) * 64, Number(it?.finish) * 64]).toEqual([to - length, to]);
          expect(Number(it?.slack) * 64).toBe(finish - (to + from - length));
          expect(Number(it?.latestStart) * 64).toBe(finish - from);
        });
      }),
      { numRuns: 400 },
    );
  });

  test("starting later by its free slack moves nothing, by any more something; later by its slack never the end", () => {
    fc.assert(
      fc.property(networks, fc.nat(), (network, pick) => {
        const activities: Activity[] = network.lengths.map((length, i) => ({
          kind: "work",
          length: ratio(length, 64),
          after: network.after[i] as number[],
          end: "all",
        }));
        const k = pick % activities.length;
        const before = criticalPath(activities);
        const later = (days: ReturnType<typeof ratio>) => criticalPath(activities.map((it, i) => (i === k ? { ...it, length: it.length.add(days) } : it)));
        const starts = (it: ReturnType<typeof criticalPath>) => [...it.times.map((time) => time?.start.toFraction()), it.ends.get("all")?.toFraction()];
        const own = before.times[k];
        const free = own?.freeSlack ?? zero;
        expect(starts(later(free))).toEqual(starts(before));
        expect(starts(later(free.add(ratio(1, 64))))).not.toEqual(starts(before));
        expect(
          later(own?.slack ?? zero)
            .ends.get("all")
            ?.toFraction(),
        ).toBe(before.ends.get("all")?.toFraction());
      }),
      { numRuns: 300 },
    );
  });
});

describe("parcels", () => {
  test("one that waits for nothing goes out on the first day and is there in the morning, so many days later", () => {
    const path = criticalPath([{ kind: "parcel", length: ratio(9), after: [] }, work(2, [0]), work(3, [])]);
    expect(path.times.map((it) => [it?.start, it?.finish, it?.slack].map(Number))).toEqual([
      [0, 9, 0],
      [9, 11, 0],
      [0, 3, 8],
    ]);
  });
  test("one that waits goes out on the day on which that is finished, and may be finished until the evening", () => {
    // Half a day's work; out on the same day, back four days later in the morning; half a day of that day is to spare before it goes out.
    const half = { kind: "work", length: ratio(1, 2), after: [], end: "all" } as const;
    const path = criticalPath([half, { kind: "parcel", length: ratio(4), after: [0] }, work(1, [1])]);
    expect(path.times.map((it) => [it?.start, it?.finish, it?.slack].map(Number))).toEqual([
      [0, 0.5, 0.5],
      [0, 4, 0],
      [4, 5, 0],
    ]);
    // Two whole days of work end with the second day: it goes out on that day, not on the third.
    const whole = criticalPath([work(2, []), { kind: "parcel", length: ratio(4), after: [0] }, work(1, [1])]);
    expect(whole.times.map((it) => [it?.start, it?.finish, it?.slack].map(Number))).toEqual([
      [0, 2, 0],
      [1, 5, 0],
      [5, 6, 0],
    ]);
  });
  test("what is wanted in the middle of a day must come in its morning", () => {
    const path = criticalPath([
      work(2, []),
      { kind: "work", length: ratio(1, 2), after: [0], end: "all" },
      { kind: "parcel", length: ratio(1), after: [] },
      work(1, [1, 2]),
    ]);
    // Wanted at 2.5 days: it may come on the third day (2), a day later than it does.
    expect([path.times[2]?.latestFinish, path.times[2]?.slack].map(Number)).toEqual([2, 1]);
  });
});

describe("circles", () => {
  test("each is told whole; what is behind has no times, what is beside has", () => {
    const path = criticalPath([work(1, [2]), work(1, [0]), work(1, [1]), work(1, [2]), work(5, []), { ...work(2, []), end: "other" }]);
    expect(path.circles).toEqual([[0, 1, 2]]);
    expect(path.times.map((it) => it !== undefined)).toEqual([false, false, false, false, true, true]);
    expect(path.ends.has("all")).toBe(false);
    expect(Number(path.ends.get("other"))).toBe(2);
    expect(path.times[4]?.slack).toBeUndefined();
  });
  test("one that waits for itself", () => {
    expect(criticalPath([work(1, [0]), work(1, [])]).circles).toEqual([[0]]);
  });
  test("a hundred thousand in a row, and the same closed to a ring, end in time", () => {
    const many = 100_000;
    const row = criticalPath(Array.from({ length: many }, (_, i) => work(1, i === 0 ? [] : [i - 1])));
    expect(Number(row.ends.get("all"))).toBe(many);
    const ring = criticalPath(Array.from({ length: many }, (_, i) => work(1, [i === 0 ? many - 1 : i - 1])));
    expect(ring.circles[0]?.length).toBe(many);
  });
});
