// The least cost of many small purchases against every way of buying them, one by one.
import fc from "fast-check";
import { expect, test } from "vitest";
import { type Purchases, type Seller, leastCost } from "../../server/supply/purchases.ts";

/** Counted out as a person would: what is bought of each seller, what it asks, what it waives. */
function costOf(problem: Omit<Purchases, "exact" | "slack">, picks: readonly number[]): bigint {
  let cost = 0n;
  const counts = problem.sellers.map(() => 0n);
  const used = new Set<number>();
  problem.items.forEach((choices, i) => {
    const choice = choices[picks[i] as number];
    if (choice === undefined) throw new Error("no such choice");
    cost += choice.cost;
    used.add(choice.seller);
    counts[choice.seller] = (counts[choice.seller] as bigint) + choice.counts;
  });
  for (const s of used) {
    const seller = problem.sellers[s];
    if (seller === undefined) throw new Error("no such seller");
    cost += seller.always;
    if (seller.freeOver === undefined || (counts[s] as bigint) <= seller.freeOver) cost += seller.freight;
  }
  return cost;
}

function everyWay(items: readonly (readonly unknown[])[]): number[][] {
  return items.reduce<number[][]>((ways, choices) => ways.flatMap((way) => choices.map((_, i) => [...way, i])), [[]]);
}

const small = fc.bigInt({ min: 0n, max: 40n });
const problems = (most: { sellers: number; items: number; choices: number }) =>
  fc.integer({ min: 1, max: most.sellers }).chain((sellers) =>
    fc.record({
      sellers: fc.array(
        fc
          .record({ always: fc.constantFrom(0n, 0n, 3n, 1000n), freight: small, freeOver: fc.option(fc.bigInt({ min: 0n, max: 90n })) })
          .map(({ freeOver, ...rest }): Seller => (freeOver === null ? rest : { ...rest, freeOver })),
        { minLength: sellers, maxLength: sellers },
      ),
      items: fc.array(
        fc.array(fc.record({ seller: fc.integer({ min: 0, max: sellers - 1 }), cost: small, counts: small }), { minLength: 1, maxLength: most.choices }),
        { minLength: 1, maxLength: most.items },
      ),
    }),
  );

/** Rounding that is off by up to the slack, as a rounded duty is, and the same whenever it is asked. */
function roughly(cost: bigint, picks: readonly number[], slack: bigint): bigint {
  const span = 2n * slack + 1n;
  return cost + (picks.reduce((sum, pick, i) => sum + BigInt(pick * 31 + i * 17), 7n) % span) - slack;
}

test.each([0n, 2n])("the least and the next of all ways, with rounding of up to %s", (slack) => {
  fc.assert(
    fc.property(problems({ sellers: 4, items: 5, choices: 4 }), (it) => {
      const exact = (picks: readonly number[]) => roughly(costOf(it, picks), picks, slack);
      const answer = leastCost({ ...it, exact, slack });
      const costs = everyWay(it.items)
        .map(exact)
        .sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
      expect(answer.proved).toBe(true);
      expect(answer.cost).toBe(costs[0]);
      expect(exact(answer.picks)).toBe(answer.cost);
      expect(answer.next?.cost).toBe(costs[1]);
      if (answer.next !== undefined) {
        expect(exact(answer.next.picks)).toBe(answer.next.cost);
        expect(answer.next.picks).not.toEqual(answer.picks);
      }
    }),
    { numRuns: 700, seed: 11 },
  );
});

test("cut short, it says so, and nothing is less than what it says could be", () => {
  fc.assert(
    fc.property(problems({ sellers: 4, items: 5, choices: 4 }), fc.integer({ min: 0, max: 60 }), (it, most) => {
      const exact = (picks: readonly number[]) => costOf(it, picks);
      const answer = leastCost({ ...it, exact, slack: 0n }, most);
      const [least = 0n] = everyWay(it.items)
        .map(exact)
        .sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
      expect(answer.cost).toBe(exact(answer.picks));
      expect(answer.atLeast <= least).toBe(true);
      if (answer.proved) expect(answer.cost).toBe(least);
      else expect(answer.atLeast <= answer.cost).toBe(true);
    }),
    { numRuns: 500, seed: 12 },
  );
});

/** Orders as a shop has them: prices within some way of one another, carriage, some of it free above a sum. */
function workshop(seed: number, sizes: { sellers: number; items: number; choices: number }, thresholds: boolean): Omit<Purchases, "exact" | "slack"> {
  let state = seed;
  const random = (): number => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
  const between = (low: number, high: number) => BigInt(low + Math.floor(random() * (high - low + 1)));
  return {
    sellers: Array.from({ length: sizes.sellers }, (): Seller => {
      const it = { always: 0n, freight: between(300, 1500) };
      return thresholds && random() < 0.5 ? { ...it, freeOver: between(3000, 15_000) } : it;
    }),
    items: Array.from({ length: sizes.items }, () => {
      const about = 100 + Math.floor(random() * random() * 4000);
      const from = new Set<number>();
      for (let n = 1 + Math.floor(random() * sizes.choices); from.size < n; ) from.add(Math.floor(random() * sizes.sellers));
      return [...from].map((seller) => {
        const cost = BigInt(Math.floor(about * (0.85 + 0.3 * random())));
        return { seller, cost, counts: cost };
      });
    }),
  };
}

test("forty things from six suppliers: the least of all sets of suppliers, where nothing is free above a sum", () => {
  for (let seed = 1; seed <= 15; seed++) {
    const it = workshop(seed, { sellers: 6, items: 40, choices: 4 }, false);
    const answer = leastCost({ ...it, exact: (picks) => costOf(it, picks), slack: 0n });
    // With the suppliers settled, each thing is bought where it is cheapest among them.
    let least: bigint | undefined;
    for (let set = 1; set < 1 << 6; set++) {
      let cost = 0n;
      it.sellers.forEach((seller, s) => {
        if ((set & (1 << s)) !== 0) cost += seller.freight;
      });
      const prices = it.items.map((choices) => choices.filter((one) => (set & (1 << one.seller)) !== 0).map((one) => one.cost));
      if (prices.some((list) => list.length === 0)) continue;
      for (const list of prices) cost += [...list].sort((a, b) => (a < b ? -1 : 1))[0] as bigint;
      if (least === undefined || cost < least) least = cost;
    }
    expect([seed, answer.proved, answer.cost]).toEqual([seed, true, least]);
  }
});

test("thirty things from five suppliers, with free carriage and rounding: proved each time, and nothing tried is less", () => {
  for (let seed = 1; seed <= 20; seed++) {
    const it = workshop(seed, { sellers: 5, items: 30, choices: 4 }, true);
    const exact = (picks: readonly number[]) => costOf(it, picks);
    const answer = leastCost({ ...it, exact, slack: 1n });
    expect([seed, answer.proved]).toEqual([seed, true]);
    // Any one thing, or any two, bought otherwise.
    const picks = [...answer.picks];
    for (const [i, choices] of it.items.entries()) {
      for (let c = 0; c < choices.length; c++) {
        const one = picks.map((pick, at) => (at === i ? c : pick));
        expect(exact(one) >= answer.cost).toBe(true);
        const j = (i + 7) % it.items.length;
        for (let d = 0; d < (it.items[j] as readonly unknown[]).length; d++)
          expect(exact(one.map((pick, at) => (at === j ? d : pick))) >= answer.cost).toBe(true);
      }
    }
  }
});
