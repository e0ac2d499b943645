// A seller in the program of an order: whether anything is bought there, its carriage, and what hangs on all that is bought: free carriage, least order, duty, tax.
// Invariant: sums are rounded as a bill rounds them.
import { type Exact, compare, one, zero } from "../quantities/exact.ts";
import { type Terms, termsOf } from "./terms.ts";
import type { OfferSupplier } from "./offers.ts";
import { type OrderProgram, coinsOf, numberOf } from "./order-program.ts";

/** A column, and what one of it comes to. */
type Sum = [column: number, coins: number];

export interface Seller {
  /** Undefined: the offers that name nobody. */
  readonly supplier: OfferSupplier | undefined;
  readonly terms: Terms;
  /** 1 where anything is bought there. */
  readonly used: number;
  /** 1 where its carriage is free. */
  readonly free: number | undefined;
  /** What free carriage saves, in coins. */
  readonly carriage: number;
  /** By currency, in its coins. */
  readonly goods: Map<string, Sum[]>;
  /** Surcharges, the same. */
  readonly taxed: Map<string, Sum[]>;
  /** All that may be bought there. */
  readonly any: number[];
  /** By the place of a lead among all: whether anything of that lead is bought there. */
  readonly groups: Map<number, number>;
}

export function sellerOf(program: OrderProgram, supplier: OfferSupplier | undefined): Seller {
  const terms: Terms = supplier === undefined ? { duty: zero, tax: zero } : termsOf(supplier);
  // An offer that names nobody is in no bill, and comes in no carriage.
  const carriage = supplier === undefined || terms.freight === undefined ? 0 : program.cost(terms.freight.amount, terms.freight.code);
  const used = program.column(carriage, 1);
  const free = terms.freeOver === undefined || carriage <= 0 ? undefined : program.column(-carriage, 1);
  if (free !== undefined) program.atMost(0, [free, 1], [used, -1]);
  return { supplier, terms, used, free, carriage: carriage * (1 + numberOf(terms.tax)), goods: new Map(), taxed: new Map(), any: [], groups: new Map() };
}

/** What hangs on all that is bought of a seller, once all is written that may be. */
export function closeSeller(program: OrderProgram, seller: Seller): void {
  // It is not used where nothing is bought.
  program.atMost(0, [seller.used, 1], ...seller.any.map((it) => [it, -1] as const));
  freeCarriage(program, seller);
  leastOrder(program, seller);
  if (seller.supplier === undefined) return;
  for (const [code, goods] of seller.goods) share(program, seller.terms.duty, goods, code);
  tax(program, seller);
}

/** Over the threshold, so a coin more than it. */
function freeCarriage(program: OrderProgram, { terms: { freeOver }, free, goods }: Seller): void {
  if (free === undefined || freeOver === undefined) return;
  const over = freeOver.amount.mul(coinsOf(freeOver.code)).floor().add(1);
  program.atLeast(0, ...(goods.get(freeOver.code) ?? []).map(([it, n]) => [it, n / numberOf(over)] as const), [free, -1]);
}

function leastOrder(program: OrderProgram, { terms, used, goods }: Seller): void {
  if (terms.least === undefined || compare(terms.least.amount, zero) <= 0) return;
  const counted = goods.get(terms.least.code) ?? [];
  const least = numberOf(terms.least.amount.mul(coinsOf(terms.least.code)));
  if (counted.length > 0) program.atLeast(0, ...counted.map(([it, n]) => [it, n / least] as const), [used, -1]);
}

/** On goods, surcharges and carriage, currency by currency. */
function tax(program: OrderProgram, { terms, used, free, goods, taxed }: Seller): void {
  if (terms.tax.n === 0n) return;
  const codes = new Set([...goods.keys(), ...taxed.keys(), ...(terms.freight === undefined ? [] : [terms.freight.code])]);
  for (const code of codes) {
    const base = [...(goods.get(code) ?? []), ...(taxed.get(code) ?? [])];
    if (terms.freight?.code === code) {
      const freight = numberOf(terms.freight.amount.mul(coinsOf(code)));
      base.push([used, freight]);
      if (free !== undefined) base.push([free, -freight]);
    }
    share(program, terms.tax, base, code);
  }
}

/** A share of a sum, rounded half to even to the coin as a bill rounds it: a whole number of coins of which an odd one takes no half. */
function share(program: OrderProgram, of: Exact, sums: readonly Sum[], code: string): void {
  if (of.n === 0n || sums.length === 0) return;
  const coin = program.cost(one.div(coinsOf(code)), code);
  const rounded = program.column(coin, Number.POSITIVE_INFINITY);
  const times = numberOf(of);
  const parts = Number(of.d);
  const taken = sums.map(([it, n]) => [it, -n * times] as const);
  if (of.d % 2n === 1n) {
    program.atLeast(-(parts - 1) / (2 * parts), [rounded, 1], ...taken);
    return;
  }
  const odd = program.column(0, 1);
  const half = program.column(0, Number.POSITIVE_INFINITY);
  program.rows.push({
    low: 0,
    high: 0,
    terms: [
      [rounded, 1],
      [half, -2],
      [odd, -1],
    ],
  });
  program.atLeast(-1 / 2, [rounded, 1], [odd, -1 / parts], ...taken);
}
