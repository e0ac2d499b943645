// The least that a large order can cost, by a formulation of its own: for each thing and seller every number of pieces with the least goods that bring it, one of them
// to be taken; for each seller no order, an order with carriage, or one without, one of them to be taken. The packs and prices of an offer are worked out beforehand
// and stand in no program. All money is whole pence, a tax among it, so that nothing is rounded.
import highs from "highs";
import type { RandomOrder } from "./orders.ts";
import { priceOf } from "./orders.ts";

/** Beyond the need no more than so many pieces of a thing are looked at: what would cost more than any carriage saves, and what a least order could want. */
const beyond = 12;

export interface Judged {
  /** What the best that was found comes to, in pence. */
  readonly pence: number;
  /** Nothing is cheaper. */
  readonly atLeast: number;
}

export async function leastOf({ sellers, needs, offers }: RandomOrder): Promise<Judged> {
  const solver = await highs();
  const cost: number[] = [];
  const rows: { low: number; high: number; terms: [number, number][] }[] = [];
  const column = (pence: number) => cost.push(pence) - 1;
  const goods = sellers.map((): [number, number][] => []);
  const open = sellers.map((it) => {
    const times = 1 + it.tax / 1000;
    return { paid: column(it.freight * times), free: it.over === null ? undefined : column(0) };
  });
  for (const [thing, need] of needs.entries()) {
    const enough: [number, number][] = [];
    for (const [s, seller] of sellers.entries()) {
      const own = offers.filter((it) => it.thing === thing && it.seller === s);
      if (own.length === 0) continue;
      const one: [number, number][] = [];
      for (const [pieces, pence] of leastGoods(own, need + beyond)) {
        const it = column(pence * (1 + seller.tax / 1000));
        one.push([it, 1]);
        enough.push([it, Math.min(pieces, need)]);
        (goods[s] as [number, number][]).push([it, pence]);
      }
      const { paid, free } = open[s] as (typeof open)[number];
      // At most one number of pieces, and only of a seller that an order goes to.
      rows.push({ low: Number.NEGATIVE_INFINITY, high: 0, terms: [...one, [paid, -1], ...(free === undefined ? [] : [[free, -1] as [number, number]])] });
    }
    rows.push({ low: need, high: Number.POSITIVE_INFINITY, terms: enough });
  }
  for (const [s, seller] of sellers.entries()) {
    const { paid, free } = open[s] as (typeof open)[number];
    const sum = goods[s] as [number, number][];
    if (free !== undefined) {
      rows.push({
        low: 0,
        high: 1,
        terms: [
          [paid, 1],
          [free, 1],
        ],
      });
      rows.push({ low: 0, high: Number.POSITIVE_INFINITY, terms: [...sum, [free, -((seller.over as number) + 1)], [paid, -(seller.least ?? 0)]] });
      if (seller.least !== null) rows.push({ low: 0, high: Number.POSITIVE_INFINITY, terms: [...sum, [free, -seller.least], [paid, -seller.least]] });
    } else if (seller.least !== null) rows.push({ low: 0, high: Number.POSITIVE_INFINITY, terms: [...sum, [paid, -seller.least]] });
  }
  return solver.withModel((model) => {
    const starts = [0];
    for (const it of rows) starts.push((starts.at(-1) as number) + it.terms.length);
    model.passModel({
      numCols: cost.length,
      numRows: rows.length,
      colCost: cost,
      colLower: cost.map(() => 0),
      colUpper: cost.map(() => 1),
      rowLower: rows.map((it) => (Number.isFinite(it.low) ? it.low : -solver.infinity)),
      rowUpper: rows.map((it) => (Number.isFinite(it.high) ? it.high : solver.infinity)),
      integrality: cost.map(() => solver.constants.variableType.integer),
      matrix: {
        format: "csr",
        numCols: cost.length,
        numRows: rows.length,
        starts,
        indices: rows.flatMap((it) => it.terms.map(([at]) => at)),
        values: rows.flatMap((it) => it.terms.map(([, n]) => n)),
      },
    });
    model.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0.4 });
    model.run();
    return { pence: Math.round(model.getObjectiveValue()), atLeast: Math.ceil(Number(model.info.get("mip_dual_bound")) - 0.01) };
  });
}

/** For each number of pieces up to `most` the least goods that bring so many, where no larger number costs as little. */
function leastGoods(offers: RandomOrder["offers"], most: number): [pieces: number, pence: number][] {
  const least = new Array<number>(most + 1).fill(Number.POSITIVE_INFINITY);
  least[0] = 0;
  for (const it of offers) {
    const before = [...least];
    for (let packs = 1; packs * it.pack < most + it.pack; packs++) {
      const pence = priceOf(it, packs);
      for (let pieces = 0; pieces <= most; pieces++) {
        const at = Math.min(most, pieces + packs * it.pack);
        const sum = (before[pieces] as number) + pence;
        if (sum < (least[at] as number)) least[at] = sum;
      }
    }
  }
  return least.flatMap((pence, pieces): [number, number][] => (pieces > 0 && Number.isFinite(pence) ? [[pieces, pence]] : []));
}
