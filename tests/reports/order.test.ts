// Whole orders against answers worked out by hand; the working stands beside each. All makers, machines and prices are invented.
import { expect, test } from "vitest";
import { filesFrom, linesNamed, orderOf, rowsOf } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

const hoistData = `places side near, far

part drum "Rope drum"
  held by bearing-nut
  critical "the load drops"

part lip-seal "Lip seal"
  each side
  behind drum
  renew with drum
  number "S-80"

part pawl "Holding pawl"
  each side
  renew in pairs
  critical "the load drops"

part pinion "Hoist pinion"
  matched with wheel
part wheel "Hoist wheel"

part brake-shoe "Brake shoe"
  each side 2

fastener bearing-nut "Bearing cap nut, slotted"
  each side 2
  locked by split pin 1/8 x 1-1/4 in
  critical "the load drops"

fastener guard-screw "Guard screw"
  qty 5
  locked by tab washer 12 mm for 2

fastener tie-bolt "Tie bolt"
  qty 3
  locked by lock wire 1.2 mm x 180 mm

fluid gear-oil "Gear oil"
  in drum
  capacity 1.5 l

fluid grease "Bearing grease"
  each side
  capacity 60 ml

limit shoe-lining "Brake shoe lining"
  each side
  worn min 3.0 mm
  of brake-shoe
  source "Maker's plate"

supplier northgate "Northgate Hoist Spares"
  currency GBP
  freight 7.50 GBP free over 100 GBP
  lead 6 d
supplier lindqvist "Lindqvist Lager"
  currency SEK
  freight 120 SEK
  duty 2.5 %
  lead 15 d

offer lip-seal from northgate
  number "NG-80"
  price 2.75 GBP each
  pack 2
offer pawl from lindqvist
  price 412.50 SEK
offer brake-shoe from northgate
  price 19.95 GBP each
offer split pin 0.125 x 1.25 in from northgate
  price 3.40 GBP a pack
  pack 50
offer tab washer 12 mm from northgate
  price 0.45 GBP each
offer lock wire 1.2 mm from northgate
  price 5.60 GBP a pack
  pack 10 m
offer gear-oil from northgate
  price 8.20 GBP a pack
  pack 1 l
offer pinion from northgate
  price 61.00 GBP
offer wheel from northgate
  price 118.00 GBP
`;

const hoistJob = `sheet "Workshop hoist: brake drags"
  machine "Tarnley half-ton chain hoist"
  opened 2026-06-01
  currency GBP
use "hoist-data.jobsheet"

stock grease 500 ml "Tub" 2026-05-20
stock tab washer 12 mm 1 "Drawer" 2026-05-20

day 2026-06-02
step strip "Drum out"
  undo guard-screw, tie-bolt
  undo bearing-nut
  drain grease
  remove drum, lip-seal
  done

finding bearing-nut 1 near
  is unlocked
  decision reuse

finding pawl near
  is cracked
  decision renew

measure shoe-lining found
  near 2.4, 3.1 mm
  far 3.6, 3.5 mm

need "Cleaning rags, bag" 1 "the oil in the tray"
`;

test("a hoist: every kind of need, packs, two currencies, no rate", () => {
  const report = partsOrder(filesFrom({ "hoist-data.jobsheet": hoistData, "hoist.jobsheet": hoistJob }), ["hoist.jobsheet"]);
  // lip-seal: renewed with the drum, one at each side: 2, in packs of 2 at 2.75 each: 5.50.
  // pawl: the near one is to be renewed, and pawls are renewed in pairs: 2 x 412.50.
  // brake-shoe: near reads 2.4 against min 3.0; both shoes there: 2 x 19.95. Far is inside.
  // split pins: 2 nuts at each of 2 sides undone = 4; the near one found unlocked is one of these. A pack of 50. 1/8 in is 0.125 in.
  // tab washers: 5 screws, one for two: 3, less 1 in stock: 2 x 0.45.
  // wire: 3 bolts x 180 mm = 540 mm out of a coil of 10 m.
  // gear-oil: 1.5 l lost as the drum came off, in tins of 1 l. grease: 60 ml at each of 2 sides, out of the tub.
  expect(rowsOf(report)).toEqual([
    "lip-seal | 2 | 0 | 0 | 2 | 1 | 5.50 GBP",
    "pawl | 2 | 0 | 0 | 2 | 2 | 825.00 SEK",
    "brake-shoe | 2 | 0 | 0 | 2 | 2 | 39.90 GBP",
    "split pin 1/8 x 1-1/4 in | 4 | 0 | 0 | 50 | 1 | 3.40 GBP",
    "tab washer 12 mm | 3 | 1 | 0 | 2 | 2 | 0.90 GBP",
    "lock wire 1.2 mm | 540 mm | 0 mm | 0 mm | 10 m | 1 | 5.60 GBP",
    "gear-oil | 1.5 l | 0 l | 0 l | 2 l | 2 | 16.40 GBP",
    "grease | 120 ml | 500 ml | 0 ml | 0 ml | 0 | -",
    "Cleaning rags, bag | 1 | 0 | 0 | 1 | - | -",
  ]);
  // Northgate: 5.50 + 39.90 + 3.40 + 0.90 + 5.60 + 16.40 = 71.70, freight 7.50. Lindqvist: 825.00, 120 freight, 2.5 % of 825 = 20.625, to even 20.62.
  expect(report.suppliers.map((it) => [it.supplier, it.currency, it.goods, it.freight, it.duty, it.total])).toEqual([
    ["northgate", "GBP", "71.70", "7.50", "0.00", "79.20"],
    ["lindqvist", "SEK", "825.00", "120.00", "20.62", "965.62"],
  ]);
  expect(report.together).toBeNull();
  expect(report.withoutRate).toEqual(["SEK"]);
  expect(report.lines.map((row) => row.lead)).toEqual(["6 d", "15 d", "6 d", "6 d", "6 d", "6 d", "6 d", null, null]);
  expect(report.lines.at(-1)?.supplier).toBeNull();
});

test("with a rate on the sheet all of it comes together, rounded once", () => {
  // 965.62 SEK x 0.0743 = 71.745566; with 79.20 that is 150.945566, so 150.95.
  const report = partsOrder(filesFrom({ "hoist-data.jobsheet": hoistData, "hoist.jobsheet": `${hoistJob}\nrate 1 SEK = 0.0743 GBP 2026-06-01\n` }), [
    "hoist.jobsheet",
  ]);
  expect(report.together).toEqual({ amount: "150.95", currency: "GBP" });
  expect(report.rates).toEqual(["1 SEK = 0.0743 GBP"]);
  // The other way round: 1 GBP = 13.5 SEK, so 965.62 / 13.5 = 71.527…; 79.20 + 71.527 = 150.727…, so 150.73. The newer rate holds.
  const turned = partsOrder(
    filesFrom({ "hoist-data.jobsheet": hoistData, "hoist.jobsheet": `${hoistJob}\nrate 1 GBP = 13.5 SEK 2026-06-02\nrate 1 SEK = 0.0743 GBP 2026-06-01\n` }),
    ["hoist.jobsheet"],
  );
  expect(turned.together).toEqual({ amount: "150.73", currency: "GBP" });
});

test("each row names the lines that ask for it, in plain words", () => {
  const report = partsOrder(filesFrom({ "hoist-data.jobsheet": hoistData, "hoist.jobsheet": hoistJob }), ["hoist.jobsheet"]);
  expect(linesNamed(report, "lip-seal", hoistJob)).toEqual([
    "remove drum, lip-seal <- near: comes off with the rope drum",
    "remove drum, lip-seal <- far: comes off with the rope drum",
  ]);
  expect(linesNamed(report, "split pin 1/8 x 1-1/4 in", hoistJob)).toEqual([
    "undo bearing-nut <- near bearing cap nut undone",
    "finding bearing-nut 1 near <- near bearing cap nut found unlocked",
    "undo bearing-nut <- far bearing cap nut undone",
  ]);
  expect(linesNamed(report, "pawl", hoistJob)).toEqual([
    "finding pawl near <- near: found cracked, to be renewed",
    "finding pawl near <- far: renewed in pairs",
  ]);
  expect(linesNamed(report, "brake-shoe", hoistJob)).toEqual(["near 2.4, 3.1 mm <- near: worn past min 3.0 mm (brake shoe lining)"]);
  expect(linesNamed(report, "gear-oil", hoistJob)).toEqual(["remove drum, lip-seal <- lost as the rope drum came off"]);
  expect(report.lines.every((row) => row.why.length > 0)).toBe(true);
});

test("freight is free over the threshold, not at it", () => {
  const sheet = (price: string) => `part rope "Rope"
supplier kirk "Kirk Rope and Chain"
  currency GBP
  freight 4.00 GBP free over 100 GBP
offer rope from kirk
  price ${price} GBP
finding rope
  is worn
  decision renew
`;
  expect(orderOf(sheet("100.00")).suppliers[0]).toMatchObject({ goods: "100.00", freight: "4.00", total: "104.00" });
  expect(orderOf(sheet("100.01")).suppliers[0]).toMatchObject({ goods: "100.01", freight: "0.00", total: "100.01" });
});

test("of several offers the cheapest for the quantity, packs counted; of like ones the first written; another currency is not compared", () => {
  const sheet = (offers: string) => `part plug "Plug"
  qty 3
supplier a "Ashdown"
supplier b "Brook"
${offers}
finding plug
  is damaged
`;
  // 3 at 2.00 = 6.00; a pack of 4 at 5.00.
  expect(orderOf(sheet("offer plug from a\n  price 2.00 GBP\noffer plug from b\n  price 5.00 GBP a pack\n  pack 4")).lines[0]).toMatchObject({
    supplier: "b",
    total: "5.00",
    toOrder: "4",
    packs: "1",
  });
  expect(orderOf(sheet("offer plug from a\n  price 2.00 GBP\noffer plug from b\n  price 2.00 GBP")).lines[0]).toMatchObject({ supplier: "a", total: "6.00" });
  expect(orderOf(sheet("offer plug from a\n  price 2.00 GBP\noffer plug from b\n  price 1.00 EUR")).lines[0]).toMatchObject({
    supplier: "a",
    total: "6.00",
    currency: "GBP",
  });
  // An offer without a price serves only where there is no other.
  expect(orderOf(sheet('offer plug from a\n  number "7"\noffer plug from b\n  price 1.00 EUR')).lines[0]).toMatchObject({ supplier: "b", total: "3.00" });
  expect(orderOf(sheet('offer plug from a\n  number "7"')).lines[0]).toMatchObject({ supplier: "a", number: "7", toOrder: "3", total: null, unitPrice: null });
});

test("an offer whose thread is not the fastener's own is no source, however cheap", () => {
  // 5/16-18 UNC starts in an M8 nut and jams: a look-alike.
  const sheet = (more: string) => `fastener bolt "Clamp bolt"
  thread M8
supplier a "Ashdown"
supplier b "Brook"
offer bolt from a
  thread 5/16-18 UNC
  price 0.40 GBP
${more}finding bolt
  is damaged
`;
  const alone = orderOf(sheet(""));
  expect(alone.lines[0]).toMatchObject({
    supplier: null,
    standing: "no source",
    notes: ["The offer of Ashdown is left out: its thread is not the fastener's own."],
  });
  expect(orderOf(sheet("offer bolt from b\n  thread M8x1.25\n  price 0.95 GBP\n")).lines[0]).toMatchObject({ supplier: "b", total: "0.95" });
});

test("a price that may be each or a pack gives no total", () => {
  const report = orderOf(`part plug "Plug"
supplier a "Ashdown"
  currency GBP
offer plug from a
  price 2.00 GBP
  pack 10
finding plug
  is damaged
`);
  expect(report.lines[0]).toMatchObject({ toOrder: "10", packs: "1", unitPrice: "2.00", per: null, total: null });
  expect(report.suppliers[0]).toMatchObject({ goods: "0.00", unpriced: 1 });
});

test("money has the decimals of its currency", () => {
  // Yen have none, dinars of Kuwait three (ISO 4217): 3 x 0.125 KWD = 0.375 KWD.
  const sheet = (price: string) => `part plug "Plug"\n  qty 3\nsupplier a "Ashdown"\noffer plug from a\n  price ${price}\nfinding plug\n  is damaged\n`;
  expect(orderOf(sheet("0.125 KWD")).lines[0]?.total).toBe("0.375");
  expect(orderOf(sheet("250 JPY")).suppliers[0]?.total).toBe("750");
});

test("nothing needed, nothing readable, nothing there: an empty order", () => {
  expect(orderOf("").lines).toEqual([]);
  expect(orderOf('part "\n\u0000 ofer x\n  price').lines).toEqual([]);
  const report = partsOrder(filesFrom({}), ["gone.jobsheet"]);
  expect(report).toMatchObject({ lines: [], surplus: [], waiting: [], suppliers: [], together: null });
});
