// `--choose`: orders of random small sheets against every way of buying, reckoned here in whole pence by hand; and small orders worked out beside them.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { partsOrder } from "../../server/reports/order/order.ts";
import type { Way } from "../../server/supply/choose.ts";
import { filesFrom } from "./sheets.ts";

function chosen(text: string, way: Way) {
  return partsOrder(filesFrom({ "job.jobsheet": text }), ["job.jobsheet"], way);
}

interface Seller {
  readonly currency: "GBP" | "USD";
  readonly freight: number;
  readonly over: number | null;
  /** In tenths of a percent. */
  readonly duty: number;
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

/** What picks come to, in hundredths of a penny; how many parcels; the longest lead. */
function reckon({ sellers, things, rate }: Case, picks: readonly number[]): { cost: bigint; parcels: number; lead: number } {
  let cost = 0n;
  let parcels = 0;
  let lead = 0;
  sellers.forEach((seller, s) => {
    let goods = 0n;
    let surcharges = 0n;
    let used = false;
    things.forEach(({ need, offers }, i) => {
      const it = offers[picks[i] as number] as Offer;
      if (it.seller !== s) return;
      used = true;
      const packs = Math.ceil(need / it.pack);
      const times = BigInt(it.each ? packs * it.pack : packs);
      goods += BigInt(it.cents) * times;
      surcharges += BigInt(it.surcharge) * times;
    });
    if (!used) return;
    parcels += 1;
    lead = Math.max(lead, seller.lead);
    // Half to even: of a thousandth of the goods' cents.
    const thousandths = goods * BigInt(seller.duty);
    let duty = thousandths / 1000n;
    const rest = thousandths % 1000n;
    if (rest > 500n || (rest === 500n && duty % 2n === 1n)) duty += 1n;
    const freight = seller.over !== null && goods > BigInt(seller.over) ? 0n : BigInt(seller.freight);
    cost += (goods + surcharges + duty + freight) * (seller.currency === "GBP" ? 100n : BigInt(rate));
  });
  return { cost, parcels, lead };
}

function everyWay({ things }: Case): number[][] {
  return things.reduce<number[][]>((ways, { offers }) => ways.flatMap((way) => offers.map((_, i) => [...way, i])), [[]]);
}

/** Hundredths of a penny to pounds, half to even. */
function pounds(cost: bigint): string {
  let pence = cost / 100n;
  const rest = cost % 100n;
  if (rest > 50n || (rest === 50n && pence % 2n === 1n)) pence += 1n;
  return `${pence / 100n}.${String(pence % 100n).padStart(2, "0")}`;
}

const cases = fc.integer({ min: 1, max: 4 }).chain((sellers) =>
  fc.record({
    rate: fc.integer({ min: 40, max: 130 }),
    sellers: fc.array(
      fc.record({
        currency: fc.constantFrom("GBP" as const, "GBP" as const, "USD" as const),
        freight: fc.integer({ min: 0, max: 1500 }),
        over: fc.option(fc.integer({ min: 0, max: 6000 })),
        duty: fc.constantFrom(0, 0, 25, 47, 175),
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
            cents: fc.integer({ min: 1, max: 1800 }),
            pack: fc.integer({ min: 1, max: 5 }),
            each: fc.boolean(),
            surcharge: fc.constantFrom(0, 0, 0, 500),
          }),
          { minLength: 1, maxLength: 4 },
        ),
      }),
      { minLength: 1, maxLength: 5 },
    ),
  }),
);

function compareWays(a: readonly bigint[], b: readonly bigint[]): number {
  for (const [i, it] of a.entries()) if (it !== b[i]) return it < (b[i] as bigint) ? -1 : 1;
  return 0;
}

const measures: Readonly<Record<Way, (it: ReturnType<typeof reckon>) => bigint[]>> = {
  cheapest: (it) => [it.cost],
  fewest: (it) => [BigInt(it.parcels), it.cost],
  soonest: (it) => [BigInt(it.lead), it.cost],
};

describe.each(Object.keys(measures) as Way[])("%s", (way) => {
  test("is the best of every way to buy a random small order, to the penny, and the next best is the next", () => {
    fc.assert(
      fc.property(cases, (it) => {
        const report = chosen(sheetOf(it), way);
        const outcomes = everyWay(it).map((picks) => reckon(it, picks));
        // The last arrival first of all; what comes earlier than it need not.
        const soonest = outcomes.reduce((lead, one) => Math.min(lead, one.lead), 99);
        const ranked = outcomes.filter((one) => way !== "soonest" || one.lead === soonest).sort((a, b) => compareWays(measures[way](a), measures[way](b)));
        const [best, second] = ranked as [ReturnType<typeof reckon>, ReturnType<typeof reckon> | undefined];
        expect(report.together).toEqual({ amount: pounds(best.cost), currency: "GBP" });
        expect(report.choice).toMatchObject({ by: way, proved: true, total: pounds(best.cost), parcels: best.parcels });
        expect(report.suppliers).toHaveLength(best.parcels);
        if (way === "soonest") expect(report.choice?.lead).toBe(`${best.lead} d`);
        if (second === undefined) expect(report.choice?.next).toBeNull();
        else {
          const next = report.choice?.next;
          expect(next?.total).toBe(pounds(second.cost));
          expect(next?.parcels === second.parcels || way === "cheapest" || way === "soonest").toBe(true);
        }
      }),
      { numRuns: 60, seed: 5 },
    );
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
