// What must go back to a supplier so that a surcharge on exchange is returned, and what of it is lost.
// Invariant: no more goes back than comes off: what was found missing can't be sent.
import { type Exact, compare, orNothing, ratio, zero } from "../quantities/exact.ts";
import type { Money } from "../quantities/money.ts";
import { countAt, findingsOf } from "../story/decisions.ts";
import { type Amount, alike } from "./items.ts";
import type { Offer } from "./offers.ts";
import type { Story } from "../story/story.ts";
import type { SupplyRow } from "./supply-row.ts";

export interface SendBack {
  readonly row: SupplyRow;
  readonly offer: Offer;
  /** How many old ones: pieces where the surcharge is for each, packs of them else. */
  readonly count: Exact;
  readonly packs: boolean;
  readonly recovers: Money;
  /** Surcharges that nothing can be sent back for. */
  readonly lost: Money;
  readonly missing: Exact;
}

export function sendBackOf(rows: readonly SupplyRow[], stories: readonly Story[]): SendBack[] {
  return rows.flatMap((row) => {
    // Every job would be asked what is missing there.
    if (!row.purchases.some((it) => it.surcharges !== undefined && it.offer.exchange !== undefined)) return [];
    const missing = missingOf(row, stories);
    // An old one goes back once, to the first that gives something for it.
    let old = row.need === undefined ? zero : orNothing(row.need.value.sub(missing));
    return row.purchases.flatMap(({ offer, amount, surcharges }): SendBack[] => {
      const surcharge = offer.exchange;
      if (surcharges === undefined || surcharge === undefined) return [];
      const packs = !(offer.per === "each" && amount.unit === undefined);
      const whole = packs ? inPacks(old, offer.pack, row.need) : old;
      const count = compare(whole, surcharges) < 0 ? whole : surcharges;
      old = orNothing(old.sub(packs && offer.pack !== undefined ? count.mul(offer.pack.value) : count));
      const worth = (n: Exact): Money => ({ amount: surcharge.amount.mul(n), code: surcharge.code });
      return [{ row, offer, count, packs, recovers: worth(count), lost: worth(surcharges.sub(count)), missing }];
    });
  });
}

/** Whole packs of old ones. */
function inPacks(old: Exact, pack: Amount | undefined, need: Amount | undefined): Exact {
  if (pack === undefined || need === undefined || !alike(pack, need) || compare(pack.value, zero) <= 0) return old.floor();
  return old.div(pack.value).floor();
}

/** How many of it were found missing, the last word of each place. */
function missingOf(row: SupplyRow, stories: readonly Story[]): Exact {
  let count = 0;
  for (const story of stories) {
    const at = new Map<string, number>();
    for (const found of findingsOf(story).get(row.item.written) ?? []) {
      if (!("perPlace" in found.thing) && found.thing.kind !== "part" && found.thing.kind !== "fastener") continue;
      const total = "perPlace" in found.thing ? (found.thing.perPlace ?? 1) : 1;
      const isMissing = found.conditions.some(({ condition }) => condition.kind === "missing");
      for (const place of found.places) at.set(place, isMissing ? countAt(found, place, total).count : (at.get(place) ?? 0));
    }
    for (const it of at.values()) count += it;
  }
  return ratio(count);
}
