// Which offers to take for all that is short, taken together: the cheapest, from the fewest suppliers, or what is all there soonest.
// Invariant: whole packs; every sum that is told is added up by `bills.ts` in exact figures, and nothing is called the cheapest that was not proved to be, to less than
// a coin. At equal money fewer parcels come first, then the earlier last one. Prices in a currency without a rate on the sheets are compared with one another only.
import { type Exact, compare, one, orNothing, ratio, zero } from "../quantities/exact.ts";
import { currencyDigits } from "../quantities/money.ts";
import type { Story } from "../story/story.ts";
import { billsOf } from "./bills.ts";
import { termsOf } from "./terms.ts";
import { cheapestGoods } from "./combine.ts";
import { totalAmount } from "./items.ts";
import { type Offer, type Purchase, purchase } from "./offers.ts";
import { type OrderModel, type Wanted, orderModel } from "./order-model.ts";
import { type Outcome, type Worth, leadOf, outcomeOf, suppliersOf } from "./outcome.ts";
import { currencyOfSheets, rateBetween, ratesOf } from "./rates.ts";
import type { Bounded, Row, Solved, Solver } from "./solver.ts";

export const waysToChoose = ["cheapest", "fewest", "soonest"] as const;
export type Way = (typeof waysToChoose)[number];

/** Chooses for each thing that is short, of what would serve. With `next`, the next best is looked for as well. @throws TooManyOffers */
export type Choosing = (wants: readonly Wanted[], stories: readonly Story[], asked?: { readonly next?: boolean }) => ChoiceMade;

/** Handed in by who asks for a choice: only then is any of this loaded. */
export function choosingBy(way: Way, solver: Solver): Choosing {
  return (wants, stories, { next = false } = {}) => chooseAll({ way, solver, tells: next }, wants, stories);
}

export interface ChoiceMade {
  readonly way: Way;
  /** One list for each thing, in their order; empty where nobody offers it. */
  readonly taken: readonly (readonly Purchase[])[];
  readonly currency: string | undefined;
  readonly outcome: Outcome;
  /** The best of all ways that buy from other suppliers than these; undefined where there is none, or it was not worked out. */
  readonly next?: Outcome;
  /** All of it can be had from other suppliers than these, or with another besides: in the same time, where that comes first. */
  readonly others: boolean;
  /** Each thing has one offer, and there is nothing to choose. */
  readonly onlyWay: boolean;
  /** Each thing from the seller whose goods are the cheapest, freight not counted. */
  readonly oneByOne: Outcome;
  readonly proved: boolean;
  /** Where it is not proved: so much dearer than the least that could be, at most; undefined where a parcel fewer might do. */
  readonly atMostOver: Exact | undefined;
  /** Currencies that could not be compared, for want of a rate. */
  readonly apart: readonly string[];
}

function chooseAll(
  { way, solver, tells }: { readonly way: Way; readonly solver: Solver; readonly tells: boolean },
  wants: readonly Wanted[],
  stories: readonly Story[],
): ChoiceMade {
  const rates = ratesOf(stories);
  const priced = wants.flatMap(({ offers }) => offers.flatMap((it) => pricesOf(it).map((price) => price.code)));
  const currency = currencyOfSheets(stories) ?? priced[0];
  const worth = (code: string) => (currency === undefined ? undefined : rateBetween(rates, code, currency)?.factor);
  const apart = [...new Set(priced)].filter((code) => worth(code) === undefined);

  const candidates = wants.map((it): Wanted => ({ ...it, offers: eligible(way, it, worth) }));
  const places = candidates.flatMap(({ offers }, i) => (offers.length > 0 ? [i] : []));
  const items = places.map((i) => candidates[i] as Wanted);
  const latest = way === "soonest" ? earliestLast(items) : undefined;
  const inTime = items.map((it): Wanted => (latest === undefined ? it : { ...it, offers: thoseBy(it.offers, latest) }));

  // A currency without a rate counts by its own figures: what is bought in it is weighed against nothing else, but where the fewest parcels come first.
  const compared = (offer: Offer) => way !== "fewest" || pricesOf(offer).every((it) => worth(it.code) !== undefined);
  const counts = (code: string) => worth(code) ?? (way === "fewest" ? zero : one);
  const model = orderModel(inTime, { currency, worth: counts, compared, leadOf });
  const { columns, rows } = model.program;
  if (columns.length * rows.length > mostToWeigh[way] && inTime.some((it) => suppliersOffering(it).size > 1)) throw new TooManyOffers(inTime, model, way);
  const coins = ratio(10n ** BigInt(currencyDigits(currency ?? "") ?? 2));
  const coinsFor = (list: readonly Purchase[]) =>
    billsOf(list)
      .reduce((sum, it) => sum.add(it.total.mul(counts(it.currency))), zero)
      .mul(coins);

  const alone = items.map(({ offers, short }) => cheapestGoods(offers, short));
  // Each thing by itself: what is there at once, where the search is cut short.
  const known = way === "cheapest" && keepsLeastOrders(alone.flat()) ? alone : undefined;
  const found = inTime.length === 0 ? { lists: [], proved: true, over: zero } : least(model, inTime, way, solver, coinsFor, { otherwise: known });
  // Nothing found is a search that was cut short: each thing by itself then, and it is told that this is not proved.
  const lists = found?.lists ?? inTime.map(({ offers, short }) => cheapestGoods(offers, short));
  const outcome = outcomeOf(lists.flat(), worth);
  const others = haveOthers(inTime, lists);
  const isWorkedOut = tells && others && found?.proved === true && inTime.length <= mostForNext;
  const next = isWorkedOut ? nextBest(model, inTime, found.lists, way, solver, coinsFor) : undefined;
  const taken: (readonly Purchase[])[] = wants.map(() => []);
  for (const [k, list] of lists.entries()) taken[places[k] as number] = list;
  return {
    way,
    taken,
    currency,
    outcome,
    ...(next === undefined ? {} : { next: outcomeOf(next.flat(), worth) }),
    others,
    onlyWay: wants.every((it) => it.offers.length <= 1),
    oneByOne: outcomeOf(alone.flat(), worth),
    proved: found?.proved === true,
    atMostOver: found?.over?.div(coins),
    apart,
  };
}

/**
 * Columns times rows of a program that is still solved within seconds, in the worst cases that were tried (each thing offered by all, tax, packs, carriage free over a sum). What bounds the
 * search (`solver.ts`) ends it for the cheapest and the soonest in time: 1000 things of 5 sellers have 30 million, a workshop of 200 sheets 16. The fewest are asked for twice, by parcels and
 * then by money, and a single round of the second is ended by nothing: 200 things of 10 sellers have 4.6 million, 300 of 10, with 10, take six times as long, and 1000 of 5 a minute. Where each thing
 * has one seller nothing is weighed, and 5000 are done at once.
 */
const mostToWeigh: Readonly<Record<Way, number>> = { cheapest: 30_500_000, soonest: 30_500_000, fewest: 5_000_000 };

/** There is more to choose from than is worked out within seconds. Its message says what to do instead. */
export class TooManyOffers extends Error {
  constructor(wants: readonly Wanted[], { program: { columns, rows }, used }: OrderModel, way: Way) {
    const offers = wants.reduce((sum, it) => sum + it.offers.length, 0);
    super(
      `${offers} offers of ${used.length} suppliers are too many for --choose ${way}: weighing all against all makes ${columns.length} columns by ${rows.length} rows, and more than ${mostToWeigh[way]} in all are not worked out. ${columns.length * rows.length > mostToWeigh.cheapest ? "Order" : "Choose the cheapest, or order"} without --choose, which takes each thing from the seller whose goods are the cheapest, or leave out offers.`,
    );
  }
}

/** What is priced and can be compared, where there is any; else what is priced in the first currency; else all. For fewest parcels, all may serve. */
function eligible(way: Way, { offers, short }: Wanted, worth: Worth): readonly Offer[] {
  const named = offers.filter((it) => it.supplier !== undefined);
  if (named.length > 0 && named.length < offers.length) return eligible(way, { offers: named, short }, worth);
  if (way === "fewest") return offers;
  const total = (it: Offer) => purchase(it, short).total;
  const compared = offers.filter((it) => {
    const sum = total(it);
    return sum !== undefined && worth(sum.code) !== undefined;
  });
  if (compared.length > 0) return compared;
  const first = offers.map(total).find((it) => it !== undefined)?.code;
  return first === undefined ? offers : offers.filter((it) => total(it)?.code === first);
}

function pricesOf(offer: Offer): { readonly code: string }[] {
  return [...(offer.price === undefined ? [] : [offer.price]), ...(offer.breaks ?? []).map((it) => it.price)];
}

// ---------------------------------------------------------------- the least

interface Found {
  readonly lists: readonly (readonly Purchase[])[];
  readonly proved: boolean;
  /** In coins: no choice comes to less than this much below. Undefined where a parcel fewer might do. */
  readonly over: Exact | undefined;
}

/** What is let go of a coin when the search may stop: less than the least that two sums can differ by. */
const slack = 0.9;
/** Sums at a rate of exchange that are closer than this part of a coin are the same money. */
const partOfACoin = 0.01;

/**
 * The first stage of all is what the way asks for, and money decides behind it. Parcels and the last day weigh so little beside money that all of them together are
 * less than the least difference that money can have.
 */
function least(
  model: OrderModel,
  wants: readonly Wanted[],
  way: Way,
  solver: Solver,
  coinsFor: (list: readonly Purchase[]) => Exact,
  { more = [], ties = true, otherwise }: { readonly more?: readonly Row[]; readonly ties?: boolean; readonly otherwise?: Found["lists"] | undefined } = {},
): Found | undefined {
  const rows: Row[] = [...model.program.rows, ...more];
  let sure = true;
  const stage = (costs: readonly number[], gap: number): Solved | Bounded | undefined =>
    solver({ columns: model.program.columns.map((it, i) => ({ ...it, cost: costs[i] as number })), rows }, gap);
  const counted = (columns: readonly number[]): number[] => model.money.map((_, i) => (columns.includes(i) ? 1 : 0));
  const before = way === "fewest" ? [model.used.map((it) => it.column), model.unpriced].filter((it) => it.length > 0) : [];
  for (const columns of before) {
    const solved = stage(counted(columns), slack);
    if (solved?.values === undefined) return undefined;
    const sum = columns.reduce((n, it) => n + Math.round(solved.values[it] ?? 0), 0);
    if (sum - solved.atLeast >= 1) sure = false;
    rows.push({ low: Number.NEGATIVE_INFINITY, high: sum, terms: columns.map((it) => [it, 1] as const) });
  }
  const weights = ties ? tieWeights(model) : { by: new Map<number, number>(), least: model.whole ? 1 : partOfACoin, all: 0 };
  const solved = stage(
    model.money.map((money, i) => money + (weights.by.get(i) ?? 0)),
    weights.least * slack,
  );
  if (solved === undefined) return undefined;
  const searched = solved.values === undefined ? undefined : model.purchases(solved.values);
  if (searched !== undefined && !searched.every((list, i) => suffices(list, wants[i] as Wanted))) return undefined;
  const lists = betterOf(searched, otherwise, coinsFor);
  if (lists === undefined) return undefined;
  const sum = coinsFor(lists.flat());
  // All ways come to as much as the bound less what the parcels weigh in it; a sum of whole coins to the next whole coin.
  const bound = solved.atLeast - weights.all;
  const low = model.whole ? ratio(BigInt(Math.ceil(bound - 1e-6))) : ratio(BigInt(Math.floor(bound * 1000)), 1000n);
  const over = sum.sub(low);
  return { lists, proved: sure && compare(over, one) < 0, over: sure ? orNothing(over) : undefined };
}

function tieWeights({ used, latest, whole }: OrderModel): { by: ReadonlyMap<number, number>; least: number; all: number } {
  const all = whole ? 0.5 : partOfACoin;
  const parcel = all / (used.length + 1);
  const day = parcel / (latest.leads + 1);
  const by = new Map(used.map((it) => [it.column, parcel]));
  by.set(latest.column, day);
  return { by, least: day, all };
}

/** Where the search was cut short, what was known before it may be the better: at less money, and never for a seller's least order, which it does not keep to. */
function betterOf(
  searched: Found["lists"] | undefined,
  known: Found["lists"] | undefined,
  coinsFor: (list: readonly Purchase[]) => Exact,
): Found["lists"] | undefined {
  if (searched === undefined || known === undefined) return searched ?? known;
  return compare(coinsFor(known.flat()), coinsFor(searched.flat())) < 0 ? known : searched;
}

/** Every seller that is bought of is bought of for no less than it sends. */
function keepsLeastOrders(purchases: readonly Purchase[]): boolean {
  return billsOf(purchases).every(({ supplier, currency, goods }) => {
    const { least } = termsOf(supplier);
    return least?.code !== currency || compare(goods, least.amount) >= 0;
  });
}

/** Counted again exactly. */
function suffices(list: readonly Purchase[], { short }: Wanted): boolean {
  return compare(totalAmount(list.map((it) => it.amount)), short.value) >= 0;
}

/** Of more things than this the next best is not looked for: it takes as long again as the best. */
const mostForNext = 100;

/** Somebody else has something of it, or one of these can be left out. */
function haveOthers(wants: readonly Wanted[], lists: readonly (readonly Purchase[])[]): boolean {
  const taken = suppliersOf(lists.flat()).map((it) => it?.key ?? "");
  const sellers = wants.map(suppliersOffering);
  if (sellers.some((list) => [...list].some((it) => !taken.includes(it)))) return true;
  return taken.some((one) => sellers.every((list) => list.size > 1 || !list.has(one)));
}

/** So many things are quickly done: then the next best is told with its fewest parcels too. */
const fewThings = 25;

/** The best that leaves out one of these suppliers at least, or takes another. */
function nextBest(
  model: OrderModel,
  wants: readonly Wanted[],
  lists: readonly (readonly Purchase[])[],
  way: Way,
  solver: Solver,
  coinsFor: (list: readonly Purchase[]) => Exact,
): Found["lists"] | undefined {
  const taken = new Set(suppliersOf(lists.flat()).map((it) => it?.key));
  const terms = model.used.map(({ column, supplier }) => [column, taken.has(supplier?.key) ? -1 : 1] as const);
  const found = least(model, wants, way, solver, coinsFor, {
    more: [{ low: 1 - taken.size, high: Number.POSITIVE_INFINITY, terms }],
    // Only its money is told beside this one's, so that alike ones need not be told apart.
    ties: wants.length <= fewThings,
  });
  return found?.proved === true ? found.lists : undefined;
}

// ---------------------------------------------------------------- when

/** The day on which all can be there at the earliest hangs on the thing that takes longest. What nobody gives a lead for binds nothing. */
function earliestLast(items: readonly Wanted[]): Exact | undefined {
  let last: Exact | undefined;
  for (const { offers } of items) {
    let soonest: Exact | undefined;
    for (const it of offers) {
      const lead = leadOf(it);
      if (lead !== undefined && (soonest === undefined || compare(lead, soonest) < 0)) soonest = lead;
    }
    if (soonest !== undefined && (last === undefined || compare(soonest, last) > 0)) last = soonest;
  }
  return last;
}

function thoseBy(offers: readonly Offer[], latest: Exact): readonly Offer[] {
  const inTime = offers.filter((it) => {
    const lead = leadOf(it);
    return lead !== undefined && compare(lead, latest) <= 0;
  });
  return inTime.length > 0 ? inTime : offers;
}

function suppliersOffering({ offers }: Wanted): ReadonlySet<string> {
  return new Set(offers.map((it) => it.supplier?.key ?? ""));
}
