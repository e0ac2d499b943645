// Orders on hold: what of them is needed, what it costs, and whether they are best sent as they stand, added to, or struck out.
// Invariant: what is on hold is bought of its own supplier, at the price of its line where there is one; no more of it than is short counts, to whole packs.
import { type Exact, compare, orNothing, ratio, zero } from "../quantities/exact.ts";
import type { Story } from "../story/story.ts";
import type { ChoiceMade, Choosing } from "./choose.ts";
import { cheapestGoods } from "./combine.ts";
import { type Amount, inUnitOf, totalAmount } from "./items.ts";
import { type Offer, type Purchase, bought, packFor, purchase, readMoney, supplierNamed } from "./offers.ts";
import type { Wanted } from "./order-model.ts";
import type { OrderLine } from "./order-lines.ts";
import { type Outcome, outcomeIn } from "./outcome.ts";
import type { Draft, HeldUse, SupplyRow } from "./supply-row.ts";

/** All orders on hold of which something is short. */
export interface OnHold {
  /** By order, in the order written. */
  readonly orders: readonly HeldOrder[];
  /** Of whom something is bought besides what is on hold. */
  readonly besides: ReadonlySet<string>;
  readonly currency: string | undefined;
  /** All that is bought, with every order on hold sent as far as it is needed. */
  readonly kept: Outcome;
  /** All that is bought, with each of them struck out. */
  readonly struckOut: Outcome;
}

export interface HeldOrder {
  readonly entry: OrderLine["entry"];
  readonly uses: readonly HeldUse[];
  /** What is bought of it by the choice that was made. */
  readonly kept: readonly Purchase[];
}

/** The lines on hold serve in the order written until nothing is short. */
export function heldOf(open: readonly OrderLine[], wants: Amount, offers: readonly Offer[], stories: readonly Story[]): HeldUse[] {
  let left: Exact = wants.value;
  return open.flatMap((line) => {
    if (line.status !== "held" || compare(left, zero) <= 0) return [];
    const offer = offerOf(line, offers, stories);
    const size = packFor(offer, wants);
    const most = size === undefined ? left : left.div(size.value).ceil().mul(size.value);
    const value = compare(line.amount.value, most) < 0 ? line.amount.value : most;
    left = left.sub(value);
    const amount = inUnitOf({ value }, wants);
    return [{ line, amount, offer: { ...offer, onHold: { line, amount } } }];
  });
}

export function heldPurchases(held: readonly HeldUse[]): Purchase[] {
  return held.map((it) => purchase(it.offer, it.amount));
}

/** What is short, with what is on hold among the offers. What is on hold without a price can be weighed against nothing: it stands, and where it suffices there is nothing to choose. */
export function withHeld({ wants, offers, held }: Draft): Wanted {
  const standing = totalAmount(held.filter((it) => !hasPrice(it)).map((it) => it.amount));
  const short = { ...(wants as Amount), value: orNothing((wants as Amount).value.sub(standing)) };
  if (short.value.n === 0n) return { short, offers: [] };
  return { short, offers: [...held.filter(hasPrice).map((it) => it.offer), ...offers] };
}

/** What was chosen, with what stands besides; of two lines of one seller at one price what is on hold comes first. */
export function chosenWithHeld({ held }: Draft, chosen: readonly Purchase[]): Purchase[] {
  const out = [...heldPurchases(held.filter((it) => !hasPrice(it))), ...chosen];
  for (const { offer, amount } of held.filter(hasPrice)) {
    const size = packFor(offer, amount);
    if (size === undefined) continue;
    const most = amount.value.div(size.value).ceil();
    const at = out.findIndex((it) => it.offer.onHold?.line === offer.onHold?.line);
    const other = out.findIndex((it) => it.offer.onHold === undefined && sameSale(it.offer, offer, amount));
    const [mine, theirs] = [out[at]?.packs ?? zero, out[other]?.packs];
    if (theirs === undefined || compare(mine, most) >= 0) continue;
    const moved = compare(theirs, most.sub(mine)) < 0 ? theirs : most.sub(mine);
    const rest = theirs.sub(moved);
    if (rest.n === 0n) out.splice(other, 1);
    else out[other] = bought((out[other] as Purchase).offer, rest, size);
    const whole = bought(offer, mine.add(moved), size);
    const place = out.findIndex((it) => it.offer.onHold?.line === offer.onHold?.line);
    if (place < 0) out.unshift(whole);
    else out[place] = whole;
  }
  return out;
}

function hasPrice({ offer, amount }: HeldUse): boolean {
  return purchase(offer, amount).total !== undefined;
}

function sameSale(a: Offer, b: Offer, like: Amount): boolean {
  const [one, other] = [packFor(a, like), packFor(b, like)];
  if (a.supplier?.key !== b.supplier?.key || one === undefined || other === undefined || compare(one.value, other.value) !== 0) return false;
  if (a.breaks !== undefined || b.breaks !== undefined || a.exchange !== undefined || b.exchange !== undefined) return false;
  const [mine, theirs] = [bought(a, ratio(1), one).total, bought(b, ratio(1), other).total];
  return mine !== undefined && theirs !== undefined && mine.code === theirs.code && compare(mine.amount, theirs.amount) === 0;
}

export function onHoldOf(
  drafts: readonly Draft[],
  rows: readonly SupplyRow[],
  stories: readonly Story[],
  choosing: Choosing | undefined,
  choice: ChoiceMade | undefined,
): OnHold | undefined {
  const uses = drafts.flatMap((it) => it.held);
  if (uses.length === 0) return undefined;
  const all = rows.flatMap((it) => it.purchases);
  const orders = [...new Set(uses.map((it) => it.line.entry))].map(
    (entry): HeldOrder => ({
      entry,
      uses: uses.filter((it) => it.line.entry === entry),
      kept: all.filter((it) => it.offer.onHold?.line.entry === entry),
    }),
  );
  const besides = new Set(all.flatMap((it) => (it.offer.onHold === undefined ? (it.offer.supplier?.key ?? []) : [])));
  if (choosing === undefined) {
    const struckOut = drafts.flatMap((it) => cheapestGoods(it.offers, it.wants as Amount));
    const { currency, outcome } = outcomeIn(stories, [...all, ...struckOut]);
    return { orders, besides, currency, kept: outcome(all), struckOut: outcome(struckOut) };
  }
  const without = choosing(
    drafts.map((it) => ({ short: it.wants as Amount, offers: it.offers })),
    stories,
  );
  const every = uses.every((use) => all.some((it) => it.offer.onHold?.line === use.line && compare(it.amount.value, use.amount.value) >= 0));
  const asHeld =
    every && choice !== undefined
      ? choice
      : choosing(
          drafts.map((it) => ({
            short: it.wants as Amount,
            offers: [...it.held.map((use) => ({ ...use.offer, onHold: { line: use.line, amount: use.amount, all: true as const } })), ...it.offers],
          })),
          stories,
        );
  return { orders, besides, currency: without.currency, kept: asHeld.outcome, struckOut: without.outcome };
}

/** The line's own price is for each piece; without one its supplier's offer tells it. */
function offerOf(line: OrderLine, offers: readonly Offer[], stories: readonly Story[]): Offer {
  const job = stories.find((story) => story.job.files.some((file) => file.path === line.where.file))?.job;
  const seller = line.supplier === undefined || job === undefined ? undefined : supplierNamed(job, line.supplier);
  const own = offers.find((it) => seller !== undefined && it.supplier?.key === seller.key);
  const price = line.amount.unit === undefined ? readMoney(line.price) : undefined;
  if (price === undefined && own !== undefined) return own;
  const supplier = own?.supplier ?? seller;
  const lead = own?.lead ?? supplier?.lead;
  return {
    item: line.item,
    supplier,
    unlike: false,
    where: line.where,
    ...(own?.number === undefined ? {} : { number: own.number }),
    ...(lead === undefined ? {} : { lead }),
    ...(price === undefined ? {} : { price, per: "each" as const }),
  };
}
