// How a thing is best bought without regard to anything else that is bought: from one seller, its packs and singles combined.
// Invariant: exact; no more sellers than one. Among like sums the one with the fewest different packs, then the first written.
import { type Slices, runThrough } from "../../grammar/slices.ts";
import { type Exact, compare } from "../quantities/exact.ts";
import type { Amount } from "./items.ts";
import { combining, sumOf } from "./combining.ts";
import { type Offer, type Purchase, purchase } from "./offers.ts";
import { grouped } from "../model/grouped.ts";

/**
 * From the seller whose goods come to the least; freight is not counted. Only what is priced in the currency of the first that has a price is compared.
 * Empty where there are no offers.
 */
export function cheapestGoods(offers: readonly Offer[], short: Amount): readonly Purchase[] {
  return runThrough(findingCheapest(offers, short));
}

/** The same in slices. */
export function* findingCheapest(offers: readonly Offer[], short: Amount): Slices<readonly Purchase[]> {
  const [only, another] = offers;
  // One offer at one price leaves nothing to combine.
  if (only !== undefined && another === undefined && only.breaks === undefined) return [purchase(only, short)];
  const sellers = grouped(offers, (it) => it.supplier?.key ?? "");
  const code =
    offers.find((it) => purchase(it, short).total !== undefined)?.price?.code ?? offers.find((it) => it.breaks !== undefined)?.breaks?.[0]?.price.code;
  let best: readonly Purchase[] | undefined;
  let least: Exact | undefined;
  for (const own of sellers.values()) {
    const found = yield* combining(
      own.filter((it) => (it.price ?? it.breaks?.[0]?.price)?.code === code),
      short,
    );
    if (found === undefined) continue;
    const sum = sumOf(found);
    if (least === undefined || compare(sum, least) < 0) [best, least] = [found, sum];
  }
  const [first] = offers;
  return best ?? (first === undefined ? [] : [purchase(first, short)]);
}
