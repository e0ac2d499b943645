// `--choose`: orders of random small sheets against every way of buying, splitting and buying more included, reckoned here in whole pence by hand; and small orders
// worked out beside them. SPLITPIN_RUNS=1000 goes deeper, SPLITPIN_SEED=… elsewhere.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { loadSolver } from "../../server/disk/load-solver.ts";
import type { Way } from "../../server/supply/choose.ts";
import { filesFrom } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

const solver = await loadSolver();
const runs = Number(process.env.SPLITPIN_RUNS ?? 60);
const seed = Number(process.env.SPLITPIN_SEED ?? 5);

function chosen(text: string, way: Way) {
  return partsOrder(filesFrom({ "job.jobsheet": text }), ["job.jobsheet"], { way, solver });
}

interface Seller {
  readonly currency: "GBP" | "USD";
  readonly freight: number;
  readonly over: number | null;
  /** In tenths of a percent. */
  readonly duty: number;
  /** The same: on goods, surcharges and carriage. */
  readonly tax: number;
  readonly lead: number;
}
interface Offer {
  readonly seller: number;
  readonly cents: number;
  readonly pack: number;
  readonly each: boolean;
  readonly surcharge: number;
}
interface Case {
  readonly sellers: readonly Seller[];
  readonly things: readonly { readonly need: number; readonly offers: readonly Offer[] }[];
  /** Pence for a dollar. */
  readonly rate: number;
}

const cents = (n: number) => `${Math.floor(n / 100)}.${String(n % 100).padStart(2, "0")}`;

function sheetOf({ sellers, things, rate }: Case): string {
  const lines = ['sheet "Random"', "  currency GBP", `rate 1 USD = ${cents(rate)} GBP`];
  sellers.forEach((it, s) => {
    const money = (n: number) => `${cents(n)} ${it.currency}`;
    lines.push(`supplier s${s} "Supplier ${s}"`, `  currency ${it.currency}`, `  lead ${it.lead} d`);
    lines.push(`  freight ${money(it.freight)}${it.over === null ? "" : ` free over ${money(it.over)}`}`, `  duty ${it.duty / 10} %`);
    if (it.tax > 0) lines.push(`  tax ${it.tax / 10} %`);
  });
  things.forEach(({ need, offers }, i) => {
    lines.push(`part p${i} "Part ${i}"`, `  qty ${need}`, `finding p${i}`, "  is damaged");
    for (const it of offers) {
      const { currency } = sellers[it.seller] as Seller;
      lines.push(`offer p${i} from s${it.seller}`, `  price ${cents(it.cents)} ${currency} ${it.each ? "each" : "a pack"}`, `  pack ${it.pack}`);
      if (it.surcharge > 0) lines.push(`  exchange ${cents(it.surcharge)} ${currency}`);
    }
  });
  return `${lines.join("\n")}\n`;
}

/** What is bought of one thing in one way: by seller, whether anything, the goods and the surcharges in its own cents. */
interface Bought {
  readonly used: readonly boolean[];
  readonly goods: readonly number[];
  readonly surcharges: readonly number[];
}

/** Every number of packs of each offer that suffices together; of none so many more that they cost more than the carriage they could save. */
function waysFor({ need, offers }: Case["things"][number], sellers: readonly Seller[]): Bought[] {
  const out = new Map<string, Bought>();
  const times = (it: Offer) => (it.each ? it.pack : 1);
  const most = offers.map((it) => Math.ceil(need / it.pack) + Math.floor((sellers[it.seller] as Seller).freight / (it.cents * times(it))));
  const go = (at: number, left: number, packs: readonly number[]): void => {
    if (at === offers.length) {
      if (left > 0) return;
      const sums = (of: (it: Offer, n: number) => number) =>
        sellers.map((_, s) => offers.reduce((sum, it, i) => (it.seller === s ? sum + of(it, packs[i] as number) : sum), 0));
      const it: Bought = {
        used: sums((_, n) => n).map((n) => n > 0),
        goods: sums((one, n) => one.cents * times(one) * n),
        surcharges: sums((one, n) => one.surcharge * times(one) * n),
      };
      out.set(JSON.stringify(it), it);
      return;
    }
    for (let n = 0; n <= (most[at] as number); n++) go(at + 1, left - n * (offers[at] as Offer).pack, [...packs, n]);
  };
  go(0, need, []);
  return [...out.values()];
}

/** What it comes to, in hundredths of a penny; how many parcels; the longest lead; from whom. */
interface Reckoned {
  readonly cost: bigint;
  readonly parcels: number;
  readonly lead: number;
  readonly from: string;
}

/** So many thousandths of cents, half to even. */
function share(of: bigint, thousandths: number): bigint {
  const all = of * BigInt(thousandths);
  const rest = all % 1000n;
  return all / 1000n + (rest > 500n || (rest === 500n && (all / 1000n) % 2n === 1n) ? 1n : 0n);
}

function reckon({ sellers, rate }: Case, list: readonly Bought[]): Reckoned {
  let cost = 0n;
  let parcels = 0;
  let lead = 0;
  let from = "";
  sellers.forEach((seller, s) => {
    if (!list.some((it) => it.used[s])) return;
    const goods = BigInt(list.reduce((sum, it) => sum + (it.goods[s] as number), 0));
    const surcharges = BigInt(list.reduce((sum, it) => sum + (it.surcharges[s] as number), 0));
    parcels += 1;
    from += ` ${s}`;
    lead = Math.max(lead, seller.lead);
    const freight = seller.over !== null && goods > BigInt(seller.over) ? 0n : BigInt(seller.freight);
    const sum = goods + surcharges + freight;
    cost += (sum + share(goods, seller.duty) + share(sum, seller.tax)) * (seller.currency === "GBP" ? 100n : BigInt(rate));
  });
  return { cost, parcels, lead, from };
}

/** Undefined where there are too many to go through. */
function everyWay(it: Case): Reckoned[] | undefined {
  const each = it.things.map((thing) => waysFor(thing, it.sellers));
  if (each.reduce((n, list) => n * list.length, 1) > 20_000) return undefined;
  const lists = each.reduce<Bought[][]>((ways, options) => ways.flatMap((way) => options.map((one) => [...way, one])), [[]]);
  return lists.map((list) => reckon(it, list));
}

/** Hundredths of a penny to pounds, half to even. */
function pounds(cost: bigint): string {
  let pence = cost / 100n;
  const rest = cost % 100n;
  if (rest > 50n || (rest === 50n && pence % 2n === 1n)) pence += 1n;
  return `${pence / 100n}.${String(pence % 100n).padStart(2, "0")}`;
}

const cases = fc.integer({ min: 1, max: 3 }).chain((sellers) =>
  fc.record({
    rate: fc.integer({ min: 40, max: 130 }),
    sellers: fc.array(
      fc.record({
        currency: fc.constantFrom("GBP" as const, "GBP" as const, "USD" as const),
        freight: fc.integer({ min: 0, max: 900 }),
        over: fc.option(fc.integer({ min: 0, max: 5000 })),
        duty: fc.constantFrom(0, 0, 25, 47, 175),
        tax: fc.constantFrom(0, 0, 200, 175, 55),
        lead: fc.integer({ min: 1, max: 6 }),
      }),
      { minLength: sellers, maxLength: sellers },
    ),
    things: fc.array(
      fc.record({
        need: fc.integer({ min: 1, max: 7 }),
        offers: fc.array(
          fc.record({
            seller: fc.integer({ min: 0, max: sellers - 1 }),
            cents: fc.oneof(fc.integer({ min: 200, max: 1800 }), fc.constantFrom(300, 400, 600)),
            pack: fc.integer({ min: 1, max: 5 }),
            each: fc.boolean(),
            surcharge: fc.constantFrom(0, 0, 0, 500),
          }),
          { minLength: 1, maxLength: 3 },
        ),
      }),
      { minLength: 1, maxLength: 3 },
    ),
  }),
);

function compareWays(a: readonly bigint[], b: readonly bigint[]): number {
  for (const [i, it] of a.entries()) if (it !== b[i]) return it < (b[i] as bigint) ? -1 : 1;
  return 0;
}

/** At equal money fewer parcels, then the earlier last one. */
const measures: Readonly<Record<Way, (it: Reckoned) => bigint[]>> = {
  cheapest: (it) => [it.cost, BigInt(it.parcels), BigInt(it.lead)],
  fewest: (it) => [BigInt(it.parcels), it.cost, BigInt(it.lead)],
  soonest: (it) => [BigInt(it.lead), it.cost, BigInt(it.parcels)],
};

/** The same orders are asked in each way: every way to buy one is gone through once. */
const gone = new Map<string, Reckoned[] | undefined>();
function everyWayOnce(it: Case): Reckoned[] | undefined {
  const key = JSON.stringify(it);
  if (!gone.has(key)) gone.set(key, everyWay(it));
  return gone.get(key);
}

describe.each(Object.keys(measures) as Way[])("%s", (way) => {
  test("is the best of every way to buy a random small order, to the penny, and the next best is the next from other suppliers", () => {
    let looked = 0;
    fc.assert(
      fc.property(cases, (it) => {
        const outcomes = everyWayOnce(it);
        if (outcomes === undefined) return;
        looked += 1;
        const report = chosen(sheetOf(it), way);
        // The last arrival first of all; what comes earlier than it need not.
        const soonest = outcomes.reduce((lead, one) => Math.min(lead, one.lead), 99);
        const ranked = outcomes.filter((one) => way !== "soonest" || one.lead === soonest).sort((a, b) => compareWays(measures[way](a), measures[way](b)));
        const [best] = ranked as [Reckoned];
        expect(report.together).toEqual({ amount: pounds(best.cost), currency: "GBP" });
        expect(report.choice).toMatchObject({ by: way, proved: true, total: pounds(best.cost), parcels: best.parcels, lead: `${best.lead} d` });
        expect(report.suppliers).toHaveLength(best.parcels);
        const taken = [...new Set(report.lines.flatMap((row) => row.lots.map((lot) => lot.supplier)))]
          .sort()
          .map((name) => ` ${name?.slice(1)}`)
          .join("");
        const second = ranked.find((one) => one.from !== taken);
        expect(report.choice?.others).toBe(second !== undefined);
        if (second === undefined) expect(report.choice?.next).toBeNull();
        else expect(report.choice?.next).toMatchObject({ total: pounds(second.cost), parcels: second.parcels });
      }),
      { numRuns: runs, seed },
    );
    expect(looked).toBeGreaterThan(runs / 2);
  });
});

const two = `sheet "Two"
  currency GBP
part seal "Seal"
part pin "Pin"
supplier a "Ashdown"
  freight 6.00 GBP
  lead 9 d
supplier b "Brook"
  freight 5.00 GBP
  lead 3 d
offer seal from a
  price 10.00 GBP
offer seal from b
  price 11.50 GBP
offer pin from a
  price 4.50 GBP
offer pin from b
  price 3.00 GBP
finding seal
  is damaged
finding pin
  is damaged
`;

test("freight turns the choice: each from its own cheapest is two parcels", () => {
  // a and b: 10 + 3 + 6 + 5 = 24.00. All from a: 14.50 + 6 = 20.50. All from b: 14.50 + 5 = 19.50.
  expect(partsOrder(filesFrom({ "job.jobsheet": two }), ["job.jobsheet"]).together?.amount).toBe("24.00");
  expect(chosen(two, "cheapest").choice).toEqual({
    by: "cheapest",
    currency: "GBP",
    total: "19.50",
    parcels: 1,
    lead: "3 d",
    proved: true,
    atMostOver: null,
    onlyWay: false,
    others: true,
    next: { total: "20.50", parcels: 1, lead: "9 d", saves: "1.00" },
    oneByOne: { total: "24.00", parcels: 2, lead: "9 d", saves: "4.50" },
    apart: [],
  });
});

test("fewest parcels may cost more, and soonest too", () => {
  // Without the pin from a and with its freight at 1.00: a and b 10 + 3 + 1 + 1 = 15.00; b alone 14.50 + 1 = 15.50.
  const cheapFreight = two.replace("offer pin from a\n  price 4.50 GBP\n", "").replaceAll(/freight [56].00/g, "freight 1.00");
  expect(chosen(cheapFreight, "cheapest").choice).toMatchObject({ total: "15.00", parcels: 2, lead: "9 d" });
  expect(chosen(cheapFreight, "fewest").choice).toMatchObject({ total: "15.50", parcels: 1, lead: "3 d" });
  expect(chosen(cheapFreight, "soonest").choice).toMatchObject({ total: "15.50", parcels: 1, lead: "3 d" });
});

test("what comes within the time of what takes longest may take that long", () => {
  // The shaft takes 9 days from its only maker; the pin may then take 9 days too, and is cheaper so.
  const sheet = `${two}part shaft "Shaft"\noffer shaft from a\n  price 50.00 GBP\nfinding shaft\n  is damaged\n`.replace("price 3.00", "price 4.40");
  // All from a: 64.50 + 6 = 70.50.
  expect(chosen(sheet, "soonest").choice).toMatchObject({ total: "70.50", parcels: 1, lead: "9 d" });
});

test("a dearer pack is taken where it earns free freight", () => {
  // Ten at 9.90 each are 99.00 and 8.00 freight; the pack of ten at 100.50 is over 100.
  const sheet = `sheet "Pack"
  currency GBP
part stud "Stud"
  qty 10
supplier a "Ashdown"
  freight 8.00 GBP free over 100 GBP
offer stud from a
  price 9.90 GBP each
offer stud from a
  price 100.50 GBP a pack
  pack 10
finding stud
  is damaged
`;
  expect(chosen(sheet, "cheapest").suppliers).toMatchObject([{ goods: "100.50", freight: "0.00", total: "100.50" }]);
});

test("without a rate, prices are compared with those of their own currency, and it is said", () => {
  const sheet = `sheet "Apart"
  currency GBP
part seal "Seal"
part gear "Gear"
supplier a "Ashdown"
supplier c "Corvo"
supplier d "Dahl"
offer seal from c
  price 1.00 CHF
offer seal from a
  price 9.00 GBP
offer gear from c
  price 40.00 CHF
offer gear from d
  price 38.00 CHF
finding seal
  is damaged
finding gear
  is damaged
`;
  const report = chosen(sheet, "cheapest");
  expect(report.lines.map((row) => [row.item, row.supplier, row.total, row.currency])).toEqual([
    ["seal", "a", "9.00", "GBP"],
    ["gear", "d", "38.00", "CHF"],
  ]);
  expect(report.choice?.apart).toEqual(["CHF"]);
  expect(report.together).toBeNull();
  expect(report.totals).toEqual([
    { amount: "9.00", currency: "GBP" },
    { amount: "38.00", currency: "CHF" },
  ]);
});

test("nothing to buy, nobody who sells, no price: a choice that says nothing", () => {
  for (const way of ["cheapest", "fewest", "soonest"] as const) {
    expect(chosen("", way).choice).toMatchObject({ parcels: 0, next: null });
    expect(chosen('part a "A"\nfinding a\n  is damaged\n', way).lines[0]).toMatchObject({ standing: "no source" });
    expect(chosen('part a "A"\nsupplier b "B"\noffer a from b\nfinding a\n  is damaged\n', way).lines[0]).toMatchObject({ supplier: "b", total: null });
  }
});
