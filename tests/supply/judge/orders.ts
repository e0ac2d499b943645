// Random orders in whole pence, the sheet that tells one, and what a choice comes to, reckoned here by hand: nothing of the program is used.
// Invariant: money is whole pence in integers; duty and tax are rounded half to even, once for each seller.
import { seeded } from "../../seeded.ts";

export interface Seller {
  readonly freight: number;
  /** Carriage is free where the goods come to more than this. */
  readonly over: number | null;
  readonly least: number | null;
  /** In tenths of a percent. */
  readonly tax: number;
  readonly duty: number;
  readonly lead: number;
}

export interface Offer {
  readonly thing: number;
  readonly seller: number;
  readonly pack: number;
  /** The price is for each piece, else for the pack. */
  readonly each: boolean;
  /** From so many pieces, or packs, on: the price. The first is from 1. */
  readonly tiers: readonly (readonly [from: number, pence: number])[];
}

export interface RandomOrder {
  readonly sellers: readonly Seller[];
  readonly needs: readonly number[];
  readonly offers: readonly Offer[];
}

export type Way = "cheapest" | "fewest" | "soonest";

/** Small enough for every way of buying to be gone through: prices are whole multiples of `grid` pence. */
export const grid = 50;

export function smallOrder(seed: number): RandomOrder {
  const below = seeded(seed);
  const pick = <T>(...list: readonly T[]) => list[below(list.length)] as T;
  const sellers = Array.from(
    { length: 1 + below(3) },
    (): Seller => ({
      freight: below(4) === 0 ? 0 : below(700),
      over: pick(null, null, 500 + below(2500), 500 + below(2500), (2 + below(40)) * grid),
      least: pick(null, null, null, 300 + below(1500), (2 + below(30)) * grid),
      tax: pick(0, 0, 200, 175, 55, 75),
      duty: pick(0, 0, 0, 25, 47),
      lead: 1 + below(6),
    }),
  );
  const needs = Array.from({ length: 1 + below(4) }, () => 1 + below(7));
  const offers = needs.flatMap((_, thing) => {
    const list: Offer[] = [];
    for (const seller of sellers.keys()) {
      if (below(10) < 3 && (seller > 0 || list.length > 0)) continue;
      for (let n = below(4) === 0 ? 2 : 1; n > 0; n--) list.push(smallOffer(thing, seller));
    }
    return list.length > 0 ? list : [smallOffer(thing, 0)];
  });
  return { sellers, needs, offers };

  function smallOffer(thing: number, seller: number): Offer {
    const pack = pick(1, 1, 1, 2, 3, 5);
    const each = below(3) > 0;
    const first = (each ? 2 + below(10) : (2 + below(10)) * Math.max(1, pack - 1)) * grid;
    const tiers: [number, number][] = [[1, first]];
    if (below(3) === 0 && first > 2 * grid) tiers.push([2 + below(6), first - grid * (1 + below(Math.min(4, first / grid - 2)))]);
    return { thing, seller, pack, each, tiers };
  }
}

/** As many things and sellers as are said; every figure of money a multiple of 5 p, so that a tax of 20 % is whole pence. `close`: what sellers ask for a thing differs little. */
export function largeOrder(seed: number, things: number, sellers: number, close: boolean): RandomOrder {
  const below = seeded(seed);
  const pick = <T>(...list: readonly T[]) => list[below(list.length)] as T;
  const fives = (from: number, to: number) => 5 * (from / 5 + below((to - from) / 5 + 1));
  return {
    sellers: Array.from({ length: sellers }, () => ({
      freight: fives(250, 1200),
      over: pick(null, fives(3000, 15000), fives(5000, 25000)),
      least: pick(null, null, fives(1000, 4000)),
      tax: pick(0, 0, 200),
      duty: 0,
      lead: 1 + below(20),
    })),
    needs: Array.from({ length: things }, () => 1 + below(12)),
    offers: Array.from({ length: things }, (_, thing) => {
      const usual = fives(200, 4000);
      const list: Offer[] = [];
      for (let seller = 0; seller < sellers; seller++) {
        if (below(10) < 4 && !(seller === sellers - 1 && list.length === 0)) continue;
        const price = close ? usual + 5 * (below(9) - 4) : 5 * Math.ceil((usual * (60 + below(81))) / 500);
        const tiers: [number, number][] = [[1, price]];
        if (below(4) === 0) tiers.push([5 + below(8), 5 * Math.ceil((price * (80 + below(16))) / 500)]);
        list.push({ thing, seller, pack: 1, each: true, tiers });
        if (below(4) === 0) {
          const pack = pick(5, 10, 12);
          list.push({ thing, seller, pack, each: false, tiers: [[1, 5 * Math.ceil((pack * price * (70 + below(31))) / 500)]] });
        }
      }
      return list;
    }).flat(),
  };
}

const money = (pence: number) => `${Math.floor(pence / 100)}.${String(pence % 100).padStart(2, "0")} GBP`;

export function sheetOf({ sellers, needs, offers }: RandomOrder): string {
  const lines = ['sheet "Random"', "  currency GBP"];
  for (const [s, it] of sellers.entries()) {
    lines.push(`supplier s${s} "Supplier ${s}"`, "  currency GBP", `  lead ${it.lead} d`);
    lines.push(`  freight ${money(it.freight)}${it.over === null ? "" : ` free over ${money(it.over)}`}`);
    if (it.least !== null) lines.push(`  least order ${money(it.least)}`);
    if (it.tax > 0) lines.push(`  tax ${it.tax / 10} %`);
    if (it.duty > 0) lines.push(`  duty ${it.duty / 10} %`);
  }
  for (const [i, need] of needs.entries()) lines.push(`part p${i} "Part ${i}"`, `  qty ${need}`, `finding p${i}`, "  is damaged", "  decision renew");
  for (const [n, it] of offers.entries()) {
    const per = it.each ? "each" : "a pack";
    lines.push(`offer p${it.thing} from s${it.seller}`, `  number "N${n}"`, `  pack ${it.pack}`);
    for (const [from, pence] of it.tiers) lines.push(`  price ${money(pence)} ${per}${from === 1 ? "" : ` from ${from}`}`);
  }
  return `${lines.join("\n")}\n`;
}

/** What so many packs of an offer cost. */
export function priceOf({ each, pack, tiers }: Offer, packs: number): number {
  const counted = each ? packs * pack : packs;
  let pence = 0;
  for (const [from, at] of tiers) if (from <= counted) pence = at;
  return pence * counted;
}

/** What is paid to one seller for goods; undefined where it does not send so little. */
export function bill({ freight, over, least, tax, duty }: Seller, goods: number): number | undefined {
  if (goods === 0) return 0;
  if (least !== null && goods < least) return undefined;
  const carriage = over !== null && goods > over ? 0 : freight;
  return goods + carriage + thousandths((goods + carriage) * tax) + thousandths(goods * duty);
}

/** Half to even. */
function thousandths(n: number): number {
  const whole = Math.floor(n / 1000);
  const rest = n % 1000;
  return rest > 500 || (rest === 500 && whole % 2 === 1) ? whole + 1 : whole;
}

export interface Reckoned {
  readonly pence: number;
  readonly parcels: number;
  readonly lead: number;
}

/** What packs of each offer come to; undefined where they do not suffice, or a seller would not send them. */
export function reckon({ sellers, needs, offers }: RandomOrder, packs: readonly number[]): Reckoned | undefined {
  const goods = sellers.map(() => 0);
  const pieces = needs.map(() => 0);
  for (const [n, it] of offers.entries()) {
    goods[it.seller] = (goods[it.seller] as number) + priceOf(it, packs[n] ?? 0);
    pieces[it.thing] = (pieces[it.thing] as number) + (packs[n] ?? 0) * it.pack;
  }
  if (needs.some((need, i) => (pieces[i] as number) < need)) return undefined;
  return paid(sellers, goods);
}

export function paid(sellers: readonly Seller[], goods: readonly number[]): Reckoned | undefined {
  let [pence, parcels, lead] = [0, 0, 0];
  for (const [s, seller] of sellers.entries()) {
    const sum = goods[s] as number;
    const its = bill(seller, sum);
    if (its === undefined) return undefined;
    if (sum === 0) continue;
    pence += its;
    parcels += 1;
    lead = Math.max(lead, seller.lead);
  }
  return { pence, parcels, lead };
}

/** At equal money fewer parcels, then the earlier last one; the other ways put their own first. */
export function better(way: Way, a: Reckoned, b: Reckoned): boolean {
  const by: Readonly<Record<Way, (it: Reckoned) => readonly number[]>> = {
    cheapest: (it) => [it.pence, it.parcels, it.lead],
    fewest: (it) => [it.parcels, it.pence, it.lead],
    soonest: (it) => [it.lead, it.pence, it.parcels],
  };
  const [one, other] = [by[way](a), by[way](b)];
  for (const [i, it] of one.entries()) if (it !== other[i]) return it < (other[i] as number);
  return false;
}
