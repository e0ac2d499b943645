// `--choose` of whatever a sheet may say of money at once: carriage, free over a sum, least orders, duty, tax, surcharges, prices by the number, packs, three currencies, fluids,
// wire, stock, and what is on hold with a price or without one. What comes out is not reckoned here (`choose.test.ts` does that of simpler sheets): it is held to itself.
import { expect, test } from "vitest";
import { loadSolver } from "../../server/disk/load-solver.ts";
import type { Way } from "../../server/supply/choose.ts";
import { sampleSeed, times } from "../sampled.ts";
import { seeded } from "../seeded.ts";
import { filesFrom } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

const solver = await loadSolver();
const random = seeded(sampleSeed);
const int = (least: number, most: number) => least + random(most - least + 1);
const pick = <T>(...list: readonly T[]) => list[random(list.length)] as T;
const oneIn = (n: number) => random(n) === 0;
const money = (pence: number, code: string) => `${Math.floor(pence / 100)}.${String(pence % 100).padStart(2, "0")} ${code}`;
const maybe = (is: boolean, line: string) => (is ? [line] : []);

function supplier(name: string, code: string): string[] {
  const own = () => (oneIn(7) ? pick("GBP", "USD", "EUR") : code);
  const free = oneIn(2) ? ` free over ${money(int(0, 5000), own())}` : "";
  return [
    `supplier ${name} "${name}"`,
    `  currency ${code}`,
    ...maybe(!oneIn(3), `  freight ${money(int(0, 900), own())}${free}`),
    ...maybe(oneIn(3), `  least ${money(int(1, 3000), own())}`),
    ...maybe(oneIn(2), `  duty ${pick("2.5", "4.7", "10")} %`),
    ...maybe(!oneIn(3), `  tax ${pick("20", "17.5", "5.5")} %`),
    ...maybe(!oneIn(3), `  lead ${int(1, 6)} d`),
  ];
}

function offer(item: string, from: string, code: string, packs: readonly string[], isPiece: boolean): string[] {
  const per = isPiece ? pick("each", "each", "a pack") : "a pack";
  const price = int(200, 1800);
  return [
    `offer ${item} from ${from}`,
    ...maybe(!oneIn(12), `  price ${money(price, code)} ${per}`),
    ...maybe(oneIn(3), `  price ${money(Math.floor(price * 0.8), code)} ${per} from ${int(2, 6)}`),
    ...maybe(!isPiece || oneIn(2), `  pack ${pick(...packs)}`),
    ...maybe(oneIn(3), `  exchange ${money(pick(500, 40, 125), oneIn(7) ? pick("GBP", "USD", "EUR") : code)}`),
    ...maybe(oneIn(3), `  lead ${int(1, 9)} d`),
  ];
}

function sheet(): string {
  const sellers = Array.from({ length: int(1, 3) }, (_, i) => ({ name: `s${i}`, code: pick("GBP", "GBP", "USD") }));
  const head = sellers.flatMap((it) => supplier(it.name, it.code));
  const work: string[] = [];
  const held: string[] = [];
  for (let t = int(1, 3); t > 0; t--) {
    const kind = pick("part", "part", "fluid", "wire");
    const offers = (item: string, ...packs: string[]) =>
      Array.from({ length: int(1, 3) }, () => pick(...sellers)).flatMap((it) => offer(item, it.name, it.code, packs, kind === "part"));
    if (kind === "part") {
      head.push(`part p${t} "Part ${t}"`, `  qty ${int(1, 7)}`, ...offers(`p${t}`, "2", "5", "6"), ...maybe(oneIn(5), `stock p${t} ${int(1, 3)} 2026-05-03`));
      work.push(`finding p${t}`, "  is damaged");
      if (oneIn(4)) held.push(`  item p${t} ${int(1, 8)}${oneIn(2) ? ` price ${money(int(200, 1800), pick("GBP", "USD"))} each` : ""}`);
    } else if (kind === "fluid") {
      head.push(`part sump${t} "Sump ${t}"`, `fluid f${t} "Fluid ${t}"`, `  in sump${t}`, `  capacity ${pick("5 l", "3 l", "1.2 l")}`);
      head.push(...offers(`f${t}`, "1 l", "500 ml", "2.5 l"));
      work.push(`step d${t}`, `  drain f${t}`, "  done 2026-05-04");
    } else {
      const wire = `lock wire 0.${5 + t} mm`;
      head.push(`fastener b${t} "Bolt ${t}"`, `  qty ${int(1, 6)}`, "  torque 8 .. 10 N.m", `  locked by ${wire} x 250 mm`, ...offers(wire, "1 m", "500 mm"));
      work.push(`step u${t}`, `  undo b${t}`, "  done 2026-05-04");
    }
  }
  const order = held.length === 0 ? [] : [`order "H" to ${pick(...sellers).name}`, "  status held 2026-05-04", ...held];
  const rates = ["rate 1 USD = 0.80 GBP", "rate 1 EUR = 0.85 GBP"];
  return `${['sheet "Mixed"', "  opened 2026-05-04", "  currency GBP", ...rates, ...head, ...order, ...work].join("\n")}\n`;
}

test(`each way is worked out, bills add up, and nothing is dearer than the cheapest, SPLITPIN_SEED=${sampleSeed}`, () => {
  let compared = 0;
  const runs = times({ plain: 12, run: 40, full: 400 });
  for (let i = 0; i < runs; i++) {
    const text = sheet();
    const files = filesFrom({ "job.jobsheet": text });
    const chosen = (way: Way) => partsOrder(files, ["job.jobsheet"], { way, solver });
    const cheapest = chosen("cheapest");
    const others = [chosen("fewest"), chosen("soonest")];
    // Without a choice no least order is kept to, so that it may come to less.
    for (const report of [cheapest, ...others, partsOrder(files, ["job.jobsheet"])])
      for (const it of report.suppliers) {
        const parts = [it.goods, it.exchange, it.freight, it.duty, it.tax].reduce((sum, one) => sum + Math.round(Number(one ?? 0) * 100), 0);
        expect(parts, text).toBe(Math.round(Number(it.total) * 100));
      }
    const unpriced = (report: typeof cheapest) => report.suppliers.reduce((sum, it) => sum + it.unpriced, 0);
    for (const report of others) {
      if (cheapest.together === null || report.together === null || unpriced(report) !== unpriced(cheapest)) continue;
      compared += 1;
      expect(Number(report.together.amount), text).toBeGreaterThanOrEqual(Number(cheapest.together.amount));
    }
  }
  expect(compared).toBeGreaterThan(runs);
});
