// The choice among offers against judges that share no line with it: small orders against every way of buying them, large ones against a program of another make.
// Twenty small ones, fifty in the full run; SPLITPIN_JUDGE=500 judges so many small ones and a tenth as many large ones; SPLITPIN_SEED=… begins at another seed. A failure says the seed of its order.
import { expect, test } from "vitest";
import { loadSolver } from "../../server/disk/load-solver.ts";
import type { OrderReport } from "../../server/reports/order/order-report.ts";
import "../breathe.ts";
import { filesFrom } from "../reports/sheets.ts";
import { times } from "../sampled.ts";
import { bestOf, fewestSellers } from "./judge/every-way.ts";
import { type RandomOrder, type Way, largeOrder, reckon, sheetOf, smallOrder } from "./judge/orders.ts";
import { leastOf } from "./judge/patterns.ts";
import { partsOrder } from "../in-one-go.ts";

const solver = await loadSolver();
const many = Number(process.env.SPLITPIN_JUDGE ?? times({ plain: 10, run: 20, full: 50 }));
const first = Number(process.env.SPLITPIN_SEED ?? 1);

function chosen(order: RandomOrder, way: Way): OrderReport {
  return partsOrder(filesFrom({ "job.jobsheet": sheetOf(order) }), ["job.jobsheet"], { way, solver });
}

/** How many packs of each offer the report says to buy. */
function packsIn(report: OrderReport, order: RandomOrder): number[] {
  const lots = report.lines.flatMap((it) => it.lots);
  return order.offers.map((_, n) => lots.filter((it) => it.number === `N${n}`).reduce((sum, it) => sum + Number(it.packs), 0));
}

const pounds = (pence: number) => (pence / 100).toFixed(2);

test.each(["cheapest", "fewest", "soonest"] as const)(`${many} small orders: %s is the best of every way to buy, to the penny`, async (way) => {
  for (let seed = first; seed < first + many; seed++) {
    await new Promise<void>((done) => setImmediate(done));
    const order = smallOrder(seed);
    const report = chosen(order, way);
    const said = reckon(order, packsIn(report, order));
    const seen = `seed ${seed}\n${sheetOf(order)}`;
    expect(said, `does not suffice: ${seen}`).toBeDefined();
    if (said === undefined) continue;
    expect({ total: report.choice?.total, together: report.together?.amount, proved: report.choice?.proved }, seen).toEqual({
      total: pounds(said.pence),
      together: pounds(said.pence),
      proved: true,
    });
    expect(bestOf(order, way, said.pence), seen).toEqual(said);
    if (way === "fewest") expect(said.parcels, seen).toBe(fewestSellers(order));
  }
});

const sizes = [
  [12, 4],
  [30, 5],
  [40, 8],
] as const;

const manyLarge = Math.max(times({ plain: 1, run: sizes.length, full: sizes.length }), Math.ceil(many / 10));

test(`${manyLarge} large orders come to what a program of another make comes to`, async () => {
  for (let n = 0; n < manyLarge; n++) {
    await new Promise<void>((done) => setImmediate(done));
    const seed = first + n;
    const [things, sellers] = sizes[n % sizes.length] as (typeof sizes)[number];
    const order = largeOrder(seed, things, sellers, n % 2 === 1);
    const report = chosen(order, "cheapest");
    const said = reckon(order, packsIn(report, order));
    const judged = await leastOf(order);
    const seen = `seed ${seed}, ${things} things, ${sellers} sellers`;
    expect({ total: report.choice?.total, proved: report.choice?.proved, counted: said?.pence }, seen).toEqual({
      total: pounds(judged.pence),
      proved: true,
      counted: judged.pence,
    });
    expect(judged.atLeast, seen).toBe(judged.pence);
  }
});
