// Shims against brute force: every way of taking shims from the drawer is tried by plain enumeration.
import fc from "fast-check";
import { expect, test } from "vitest";
import { type Exact, compare, figure, ratio } from "../../server/quantities/exact.ts";
import { type ShimJob, aimOf, bestStack, totalOf } from "../../server/trade/shims.ts";
import type { Shims } from "../../server/trade/shim-pool.ts";
import { moveShims } from "../../server/trade/two-sides.ts";

const list = (shims: Record<string, number>): Shims[] => Object.entries(shims).map(([thickness, count]) => ({ thickness: figure(thickness), count }));
const written = (shims: readonly Shims[]) => shims.map((it) => `${it.thickness.toString()} x ${it.count}`).join(", ");

/** Every stack that a pool can make: counts by thickness. */
function* every(pool: readonly Shims[]): Generator<number[]> {
  const [first, ...rest] = pool;
  if (first === undefined) {
    yield [];
    return;
  }
  for (const tail of every(rest)) for (let k = 0; k <= first.count; k++) yield [k, ...tail];
}

/** The best by the rule in words: nearest, then fewest shims, then fewest thicknesses, then fewest changes. */
function bruteForce(pool: readonly Shims[], fitted: readonly number[], off: (total: Exact) => Exact): { off: Exact; cost: number[] } {
  let best: { off: Exact; cost: number[] } | undefined;
  for (const counts of every(pool)) {
    const total = totalOf(pool.map((it, i) => ({ thickness: it.thickness, count: counts[i] ?? 0 })));
    const cost = [
      counts.reduce((a, b) => a + b, 0),
      counts.filter((it) => it > 0).length,
      counts.reduce((sum, it, i) => sum + Math.abs(it - (fitted[i] ?? 0)), 0),
    ];
    const it = { off: off(total), cost };
    if (best === undefined || compare(it.off, best.off) < 0 || (compare(it.off, best.off) === 0 && less(it.cost, best.cost))) best = it;
  }
  return best ?? expect.fail("no stack at all");
}

function less(a: number[], b: number[]): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return (a[i] ?? 0) < (b[i] ?? 0);
  return false;
}

const sizes = ["0.002", "0.003", "0.005", "0.008", "0.010", "0.020"];

test("agrees with brute force over random drawers, in both directions of effect", () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.constantFrom(...sizes), { minLength: 1, maxLength: 4 }),
      fc.array(fc.nat({ max: 3 }), { minLength: 4, maxLength: 4 }),
      fc.array(fc.nat({ max: 2 }), { minLength: 4, maxLength: 4 }),
      fc.integer({ min: -10, max: 60 }),
      fc.constantFrom("1", "-1", "0.7", "-1/2", "2"),
      fc.constantFrom<[string | undefined, string | undefined]>(["0.004", "0.008"], ["0.005", "0.005"], [undefined, "0.006"], ["0.002", undefined]),
      (thicknesses, inDrawer, inPlace, readingThou, effect, [low, high]) => {
        const job: ShimJob = {
          reading: ratio(readingThou, 1000),
          effect: figure(effect),
          ...(low === undefined ? {} : { low: figure(low) }),
          ...(high === undefined ? {} : { high: figure(high) }),
          drawer: thicknesses.map((it, i) => ({ thickness: figure(it), count: inDrawer[i] ?? 0 })),
          fitted: thicknesses.map((it, i) => ({ thickness: figure(it), count: inPlace[i] ?? 0 })),
        };
        const pool = thicknesses.map((it, i) => ({ thickness: figure(it), count: (inDrawer[i] ?? 0) + (inPlace[i] ?? 0) }));
        const now = totalOf(job.fitted);
        const readingOf = (total: Exact) => job.reading.add(job.effect.mul(total.sub(now)));
        const isIn = (x: Exact) => (job.low === undefined || compare(x, job.low) >= 0) && (job.high === undefined || compare(x, job.high) <= 0);
        const target = job.low !== undefined && job.high !== undefined ? job.low.add(job.high).div(2) : (job.low ?? job.high ?? ratio(0));
        const oneEnd = low === undefined || high === undefined;
        const wanted = bruteForce(pool, inPlace, (total) => (oneEnd && isIn(readingOf(total)) ? ratio(0) : readingOf(total).sub(target).abs()));
        const said = bestStack(job);
        const stack = said.kind === "stack" ? said.stack : said.kind === "none" ? said.nearest : expect.fail(said.kind);
        const reading = readingOf(stack.total);
        expect(oneEnd && isIn(reading) ? 0 : reading.sub(target).abs().valueOf()).toBe(wanted.off.valueOf());
        expect([stack.pieces, stack.shims.length, stack.change.reduce((sum, it) => sum + Math.abs(it.count), 0)]).toEqual(wanted.cost);
        expect(said.kind === "stack").toBe(isIn(reading));
        // What is used is there.
        for (const it of stack.shims) expect(it.count).toBeLessThanOrEqual(pool.find((p) => p.thickness.equals(it.thickness))?.count ?? 0);
      },
    ),
    { numRuns: 150, seed: 10 },
  );
});

test("two sides: what is taken from one goes to the other, as brute force finds it", () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.constantFrom(...sizes), { minLength: 1, maxLength: 3 }),
      fc.array(fc.nat({ max: 2 }), { minLength: 9, maxLength: 9 }),
      fc.integer({ min: 0, max: 30 }),
      fc.constantFrom("1", "-0.7"),
      (thicknesses, counts, readingThou, effect) => {
        const at = (from: number) => thicknesses.map((it, i) => ({ thickness: figure(it), count: counts[from + i] ?? 0 }));
        const [first, second, drawer] = [at(0), at(3), at(6)];
        const job = { reading: ratio(readingThou, 1000), effect: figure(effect), low: figure("0.006"), high: figure("0.010"), first, second, drawer };
        const whole = totalOf(first).add(totalOf(second));
        const pool = thicknesses.map((it, i) => ({ thickness: figure(it), count: (counts[i] ?? 0) + (counts[3 + i] ?? 0) + (counts[6 + i] ?? 0) }));
        let best: { off: Exact; cost: number[] } | undefined;
        for (const a of every(pool)) {
          const left = pool.map((it, i) => ({ thickness: it.thickness, count: it.count - (a[i] ?? 0) }));
          const totalA = totalOf(pool.map((it, i) => ({ thickness: it.thickness, count: a[i] ?? 0 })));
          for (const b of every(left)) {
            const totalB = totalOf(left.map((it, i) => ({ thickness: it.thickness, count: b[i] ?? 0 })));
            if (!totalA.add(totalB).equals(whole)) continue;
            const off = job.reading
              .add(job.effect.mul(totalA.sub(totalOf(first))))
              .sub(figure("0.008"))
              .abs();
            const both = [...a, ...b];
            const fitted = [...first, ...second].map((it) => it.count);
            const cost = [
              both.reduce((x, y) => x + y, 0),
              both.filter((it) => it > 0).length,
              both.reduce((sum, it, i) => sum + Math.abs(it - (fitted[i] ?? 0)), 0),
            ];
            if (best === undefined || compare(off, best.off) < 0 || (compare(off, best.off) === 0 && less(cost, best.cost))) best = { off, cost };
          }
        }
        const said = moveShims(job);
        if (said.kind !== "stacks" && said.kind !== "none") return expect.fail(said.kind);
        expect(said.first.total.add(said.second.total).equals(whole)).toBe(true);
        expect(said.reading.sub(figure("0.008")).abs().valueOf()).toBe(best?.off.valueOf());
        const change = [...said.first.change, ...said.second.change].reduce((sum, it) => sum + Math.abs(it.count), 0);
        expect([said.first.pieces + said.second.pieces, said.first.shims.length + said.second.shims.length, change]).toEqual(best?.cost);
      },
    ),
    { numRuns: 60, seed: 11 },
  );
});

test("inch and metric shims stand in one drawer", () => {
  // 0.010 in is 0.254 mm exactly; with 0.10 mm that makes 0.354 mm.
  const said = bestStack({
    reading: ratio(0),
    effect: ratio(1),
    target: figure("0.354"),
    low: figure("0.354"),
    high: figure("0.354"),
    fitted: [],
    drawer: list({ "0.254": 1, "0.1": 2, "0.35": 1 }),
  });
  expect(said.kind === "stack" ? written(said.stack.shims) : said.kind).toBe("0.254 x 1, 0.1 x 1");
});

test("nothing that fits is said so, with the thickness to get", () => {
  // 0.012 wanted from 0.010 and 0.005: 0.010 is 0.002 short; onto 0.005 a shim of 0.007 would do, from 0.006 to 0.008.
  const said = bestStack({
    reading: figure("0.012"),
    effect: ratio(-1),
    low: figure("-0.001"),
    high: figure("0.001"),
    fitted: [],
    drawer: list({ "0.010": 1, "0.005": 1 }),
  });
  if (said.kind !== "none") return expect.fail(said.kind);
  expect(written(said.nearest.shims)).toBe("0.01 x 1");
  expect(said.reading.toString()).toBe("0.002");
  expect([said.get, said.getLeast, said.getMost].map((it) => it?.toString())).toEqual(["0.007", "0.006", "0.008"]);
  expect(said.onto === undefined ? undefined : written(said.onto.shims)).toBe("0.005 x 1");
});

test("what can't be worked out is not guessed", () => {
  const base = { reading: ratio(1), low: ratio(0), high: ratio(1), fitted: [], drawer: list({ "1": 1 }) };
  expect(bestStack({ ...base, effect: ratio(0) }).kind).toBe("unclear");
  expect(bestStack({ reading: ratio(1), effect: ratio(1), fitted: [], drawer: [] }).kind).toBe("unclear");
  expect(bestStack({ ...base, effect: ratio(1), drawer: [{ thickness: ratio(1), count: 1.5 }] }).kind).toBe("unclear");
  expect(bestStack({ ...base, effect: ratio(1), drawer: [{ thickness: ratio(-1), count: 1 }] }).kind).toBe("unclear");
  // An empty drawer is a drawer: it says what to get.
  expect(bestStack({ ...base, reading: ratio(5), effect: ratio(-1), drawer: [] })).toMatchObject({ kind: "none" });
});

// Without the bound this would not end at all.
test("a drawer without end is not tried without end", () => {
  const drawer = ["0.0001", "0.00013", "0.00017", "0.00019", "0.00023"].map((it) => ({ thickness: figure(it), count: 1_000_000 }));
  expect(bestStack({ reading: ratio(100), effect: ratio(-1), low: ratio(0), high: ratio(0), fitted: [], drawer }).kind).toBe("too-many");
  expect(moveShims({ reading: ratio(100), effect: ratio(-1), low: ratio(0), high: ratio(0), first: drawer, second: drawer, drawer }).kind).toBe("too-many");
});

// Wanted is 0.10; the band has one end, 0.05 and more. Read 0.20 as it stands, it is 0.10 from what is wanted; with no target anything from 0.05 up is right.
test("a target is aimed at though the band has one end", () => {
  const job = { reading: figure("0.20"), effect: ratio(1), low: figure("0.05"), fitted: [] };
  expect(
    aimOf({ ...job, target: figure("0.10") })
      ?.offOf(ratio(0))
      .toString(),
  ).toBe("0.1");
  expect(aimOf(job)?.offOf(ratio(0)).toString()).toBe("0");
});
