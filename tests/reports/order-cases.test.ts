// Orders that once came out wrong, worked out by hand: what is needed, from whom, and to the penny what it comes to.
import { describe, expect, test } from "vitest";
import { loadSolver } from "../../server/disk/load-solver.ts";
import { orderCsv } from "../../server/reports/order/csv.ts";
import { orderJson } from "../../server/reports/order/json.ts";
import { orderLetter } from "../../server/reports/order/letter.ts";
import { orderTable } from "../../server/reports/order/table.ts";
import { asWritten } from "../../server/reports/order/words.ts";
import type { Way } from "../../server/supply/choose.ts";
import { filesFrom, orderHtml, orderMarkdown, orderOf } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

const solver = await loadSolver();
const chosen = (text: string, way: Way) => partsOrder(filesFrom({ "job.jobsheet": text }), ["job.jobsheet"], { way, solver });

/** A job in which so many of a part are needed, with what else is said. */
const needing = (qty: number, rest: string, currency = "GBP") => `sheet "Job"
  opened 2026-05-04
  currency ${currency}
part clip "Clip"
  qty ${qty}
  renew
step off
  remove clip
  done 2026-05-04
${rest}`;

describe("packs, prices and terms", () => {
  const box = needing(
    13,
    `supplier a "A"
  freight 3.00 GBP
offer clip from a
  price 2.50 GBP each
offer clip from a
  price 20.00 GBP a pack
  pack 12
`,
  );
  test("thirteen are a box of twelve and one: 20.00 + 2.50, and 3.00 carriage", () => {
    for (const report of [orderOf(box), chosen(box, "cheapest"), chosen(box, "fewest"), chosen(box, "soonest")]) {
      expect(report.lines[0]).toMatchObject({ toOrder: "13", total: "22.50", supplier: "a" });
      expect(report.lines[0]?.lots.map((it) => [it.packs, it.pack, it.total])).toEqual(
        expect.arrayContaining([
          ["1", "12", "20.00"],
          ["1", null, "2.50"],
        ]),
      );
      expect(report.together?.amount).toBe("25.50");
    }
  });
  test("the page, the letter and the terminal tell both", () => {
    const report = orderOf(box);
    expect(orderHtml(report)).toContain("1 pack of 12");
    expect(orderLetter(report, "a")).toContain("1 pack of 12 × Clip");
    expect(orderTable(report)).toContain("1 pack of 12 at 20.00 GBP a pack: 20.00 GBP");
    expect(orderMarkdown(report)).toMatch(/\| 1 pack of 12 \|.* 20\.00 GBP; a pack \|/);
  });

  const breaks = (qty: number) => needing(qty, 'supplier a "A"\noffer clip from a\n  price 2.50 GBP each\n  price 2.10 GBP each from 10\n');
  test("a price from ten on: ten are 21.00, nine are bought as ten for 22.50 would be dearer, eight are 20.00", () => {
    for (const [qty, toOrder, total] of [
      [10, "10", "21.00"],
      [9, "10", "21.00"],
      [8, "8", "20.00"],
      [12, "12", "25.20"],
    ] as const) {
      for (const report of [orderOf(breaks(qty)), chosen(breaks(qty), "cheapest")]) expect(report.lines[0]).toMatchObject({ toOrder, total });
    }
    expect(orderOf(breaks(9)).lines[0]?.notes[0]).toMatch(/^It is more than is short/);
  });
  test("a price of packs from three on: seven in packs of three are three packs at 5.00", () => {
    const sheet = needing(7, 'supplier a "A"\noffer clip from a\n  price 6.00 GBP a pack\n  pack 3\n  price 5.00 GBP a pack from 3\n');
    for (const report of [orderOf(sheet), chosen(sheet, "cheapest")]) expect(report.lines[0]).toMatchObject({ toOrder: "9", packs: "3", total: "15.00" });
  });

  const least = needing(
    3,
    `supplier a "A"
  least order 15.00 GBP
supplier b "B"
offer clip from a
  price 4.00 GBP each
offer clip from b
  price 5.50 GBP each
`,
  );
  test("a least order is bought up to, or another is taken: four at 4.00 are 16.00 against three at 5.50, 16.50", () => {
    expect(chosen(least, "cheapest").lines[0]).toMatchObject({ supplier: "a", toOrder: "4", total: "16.00" });
    // 5.30 each are 15.90.
    expect(chosen(least.replace("5.50", "5.30"), "cheapest").lines[0]).toMatchObject({ supplier: "b", toOrder: "3", total: "15.90" });
  });
  test("without a choice the least order is told: three at 4.00 are 12.00", () => {
    expect(orderOf(least).suppliers).toMatchObject([{ supplier: "a", goods: "12.00", leastOrder: "15.00" }]);
    expect(orderTable(orderOf(least))).toContain("A: its least order is 15.00 GBP.");
  });

  test("tax on goods and carriage, rounded once, half to even: 20 % of 3 x 4.11 + 3.00 = 15.33 is 3.066, so 3.07", () => {
    const sheet = needing(3, 'supplier a "A"\n  freight 3.00 GBP\n  tax 20 %\noffer clip from a\n  price 4.11 GBP each\n');
    for (const report of [orderOf(sheet), chosen(sheet, "cheapest")]) {
      expect(report.suppliers).toMatchObject([{ goods: "12.33", freight: "3.00", tax: "3.07", total: "18.40" }]);
      expect(report.together?.amount).toBe("18.40");
    }
  });
  // 4 at 1.15 are 4.60, their old ones 4 at 0.40 are 1.60, carriage 6.00: 12.20, and a fifth of that 2.44. Untaxed it is 12.20; the surcharge in dollars
  // is a bill of its own, 1.60 USD: 4.60 + 6.00 = 10.60, a fifth 2.12, and 1.60 USD with a fifth 0.32.
  test("a surcharge is taxed with the goods, chosen or not; untaxed, or in another currency, it is not lost", () => {
    const selling = (tax: string, surcharge: string) =>
      needing(4, `rate 1 GBP = 1.25 USD\nsupplier a "A"\n  freight 6.00 GBP\n${tax}offer clip from a\n  price 1.15 GBP each\n  exchange ${surcharge}\n`);
    const ways: readonly ((text: string) => ReturnType<typeof orderOf>)[] = [
      orderOf,
      (it) => chosen(it, "cheapest"),
      (it) => chosen(it, "fewest"),
      (it) => chosen(it, "soonest"),
    ];
    for (const report of ways.map((way) => way(selling("  tax 20 %\n", "0.40 GBP")))) {
      expect(report.suppliers).toMatchObject([{ goods: "4.60", freight: "6.00", tax: "2.44", total: "14.64" }]);
      expect(report.together?.amount).toBe("14.64");
    }
    for (const report of ways.map((way) => way(selling("", "0.40 GBP")))) expect(report.together?.amount).toBe("12.20");
    for (const report of ways.map((way) => way(selling("  tax 20 %\n", "0.40 USD")))) {
      expect(report.suppliers.map((it) => [it.currency, it.tax, it.total])).toEqual([
        ["GBP", "2.12", "12.72"],
        ["USD", "0.32", "1.92"],
      ]);
    }
  });
  test("tax turns the choice: 4.00 and a fifth is 4.80 a piece, dearer than 4.50", () => {
    const sheet = needing(
      2,
      'supplier a "A"\n  tax 20 %\nsupplier b "B"\noffer clip from a\n  price 4.00 GBP each\noffer clip from b\n  price 4.50 GBP each\n',
    );
    expect(chosen(sheet, "cheapest").lines[0]).toMatchObject({ supplier: "b", total: "9.00" });
  });

  test("one more than is needed where it earns free carriage: 4 at 5.00 are 20.00 and 6.00, 5 are 25.00 and free over 20", () => {
    const sheet = needing(4, 'supplier a "A"\n  freight 6.00 GBP free over 20 GBP\noffer clip from a\n  price 5.00 GBP each\n');
    expect(chosen(sheet, "cheapest")).toMatchObject({ lines: [{ toOrder: "5", total: "25.00" }], together: { amount: "25.00" } });
    // At 7.00 the fifth costs more than the carriage: 28.00 is over 20 already.
    expect(chosen(sheet.replace("price 5.00", "price 7.00"), "cheapest")).toMatchObject({ lines: [{ toOrder: "4", total: "28.00" }] });
  });
  test("a thing is split where nobody has it all cheaper: a box of ten from one, two singles from another", () => {
    // a: 10.00 + 2 x 1.60 of b = 13.20; two boxes of a are 20.00, twelve singles of b 19.20.
    const sheet = needing(
      12,
      'supplier a "A"\nsupplier b "B"\noffer clip from a\n  price 10.00 GBP a pack\n  pack 10\noffer clip from b\n  price 1.60 GBP each\n',
    );
    const report = chosen(sheet, "cheapest");
    expect(report.together?.amount).toBe("13.20");
    expect(report.lines[0]).toMatchObject({ supplier: null, toOrder: "12", total: "13.20" });
    expect(report.lines[0]?.lots.map((it) => [it.supplier, it.quantity, it.total])).toEqual([
      ["a", "10", "10.00"],
      ["b", "2", "3.20"],
    ]);
    // Fewest parcels: one, and then b alone at 19.20.
    expect(chosen(sheet, "fewest").lines[0]).toMatchObject({ supplier: "b", total: "19.20" });
    for (const drawn of [orderTable(report), orderMarkdown(report), orderHtml(report), orderCsv(report)]) expect(drawn).toContain("3.20");
  });
  test("at equal money fewer parcels, then the earlier one", () => {
    const sheet = `${needing(1, 'supplier late "L"\n  lead 9 d\nsupplier soon "S"\n  lead 2 d\nsupplier other "O"\n  lead 1 d\n')}part pin "Pin"
  renew
step off-too
  remove pin
  done 2026-05-04
${["late", "soon"].map((it) => `offer clip from ${it}\n  price 4.00 GBP\noffer pin from ${it}\n  price 6.00 GBP\n`).join("")}offer pin from other
  price 6.00 GBP
`;
    expect(chosen(sheet, "cheapest").choice).toMatchObject({ total: "10.00", parcels: 1, lead: "2 d", onlyWay: false });
    expect(chosen(sheet, "cheapest").lines.map((it) => it.supplier)).toEqual(["soon", "soon"]);
  });
  test("there is no other way only where there is none", () => {
    const one = needing(2, 'supplier a "A"\noffer clip from a\n  price 5.00 GBP each\n');
    expect(orderTable(chosen(one, "cheapest"))).toContain("There is no other way to buy all this.");
    expect(orderTable(chosen(box, "cheapest"))).not.toContain("There is no other way");
  });
});

describe("what is on hold", () => {
  const held = `sheet "held"
  opened 2026-11-02
  currency GBP
part brg "Bearing"
part seal "Seal"
supplier a "A & Co"
  freight 6 GBP free over 100 GBP
  lead 3 d
supplier b "B"
  lead 9 d
offer brg from b
  price 80 GBP each
offer brg from a
  price 90 GBP each
offer seal from a
  price 12 GBP each
finding brg
  is worn
  decision renew
finding seal
  is worn
  decision renew
order "A-1" to a
  status held
  item brg 1 price 90 GBP
`;
  test("is not ordered: its own supplier, its money and its weight toward free carriage: 90 + 12 = 102, over 100", () => {
    const report = orderOf(held);
    expect(report.lines[0]).toMatchObject({ onOrder: "0", held: "1", toOrder: "0", standing: "on hold", supplier: "a", total: "90.00" });
    expect(report.suppliers).toMatchObject([{ supplier: "a", goods: "102.00", freight: "0.00", total: "102.00" }]);
    // Struck out: 80 from B, 12 and 6 of carriage from A: 98, in two parcels.
    expect(report.onHold).toMatchObject({
      orders: [{ order: "A-1", supplierName: "A & Co", goods: "90.00", freeOver: "100.00" }],
      kept: { total: "102.00", parcels: 1 },
      struckOut: { total: "98.00", parcels: 2 },
      saves: "4.00",
    });
  });
  test("its lines stand in the letter, and whether to send it is asked", () => {
    const letter = orderLetter(orderOf(held), "a") ?? "";
    expect(letter).toContain("“A-1” is on hold, and not ordered yet: send it too?");
    expect(letter).toContain("And please send what you hold for us as A-1:");
    expect(letter).toContain("× Bearing");
    expect(letter).toMatch(/^Together +102\.00 GBP$/m);
  });
  test("keep, add or strike out is worked out", () => {
    expect(chosen(held, "cheapest")).toMatchObject({ together: { amount: "98.00" }, onHold: { orders: [{ advice: "strike out" }] } });
    expect(chosen(held, "fewest")).toMatchObject({ together: { amount: "102.00" }, onHold: { orders: [{ advice: "add" }] } });
    const only = held.replace("finding seal\n  is worn\n  decision renew\n", "").replace("80 GBP each", "99 GBP each");
    // 90 and 6 of carriage against 99.
    expect(chosen(only, "cheapest")).toMatchObject({ together: { amount: "96.00" }, onHold: { orders: [{ advice: "send" }] } });
  });
  test("more is on hold than is needed: what is needed counts, the rest is to be struck out", () => {
    const report = orderOf(held.replace("item brg 1", "item brg 3"));
    expect(report.lines[0]).toMatchObject({ held: "1", total: "90.00" });
    expect(report.surplus).toMatchObject([{ item: "brg", quantity: "2", saves: "180.00", cancel: "strike out" }]);
  });
  test("less is on hold than is needed: the rest is ordered beside it", () => {
    const report = orderOf(held.replace('"Bearing"', '"Bearing"\n  qty 3'));
    // One on hold at 90; two more of B at 80.
    expect(report.lines[0]).toMatchObject({ need: "3", held: "1", toOrder: "2", total: "250.00", supplier: null });
  });
  // Five are needed, and what b asks for those on hold nobody knows: it can't be weighed against a's 2.00, and stands. Of three on hold two are left to buy, 4.00.
  test("on hold without a price it stands, whichever way is chosen: all five, or three and two more at 2.00", () => {
    const holding = (n: number) =>
      `${needing(5, 'supplier a "A"\nsupplier b "B"\noffer clip from a\n  price 2.00 GBP each\n')}order "H" to b\n  status held\n  item clip ${n}\n`;
    for (const way of ["cheapest", "fewest", "soonest"] as const) {
      const all = chosen(holding(5), way);
      expect(all.lines[0]).toMatchObject({ held: "5", toOrder: "0", standing: "on hold" });
      expect(all.suppliers.map((it) => [it.supplier, it.goods])).toEqual(orderOf(holding(5)).suppliers.map((it) => [it.supplier, it.goods]));
      expect(chosen(holding(3), way).lines[0]).toMatchObject({ held: "3", toOrder: "2" });
      expect(chosen(holding(3), way).lines[0]?.lots.map((it) => [it.supplier, it.packs, it.total])).toContainEqual(["a", "2", "4.00"]);
    }
  });
});

describe("what came, went back, is away or is used otherwise", () => {
  const seals = (order: string) => `sheet "Seals"
  opened 2026-05-04
  currency GBP
part seal "Seal"
  qty 2
  renew
supplier weir "Weir Lane"
offer seal from weir
  price 4.00 GBP each
step off
  remove seal
  done 2026-05-04
order "W-1" to weir
  status placed 2026-05-05
  item seal 2
${order}`;
  const row = (text: string) => orderOf(text).lines.map((it) => [it.need, it.stock, it.onOrder, it.toOrder]);
  test("one came, one is still on order, and nothing is too many", () => {
    for (const part of [
      'order "W-1" to weir\n  status received 2026-05-09\n  item seal 1\n',
      'order "W-1" to weir\n  received seal 1 on 2026-05-09\n',
      "  received seal 1 on 2026-05-09\n",
    ]) {
      expect(row(seals(part))).toEqual([["2", "1", "1", "0"]]);
      expect(orderOf(seals(part)).surplus).toEqual([]);
    }
  });
  test("and then the rest: all of it is there", () => {
    const rest = 'order "W-1" to weir\n  status received 2026-05-09\n  item seal 1\norder "W-1" to weir\n  status received 2026-05-12\n';
    expect(row(seals(rest))).toEqual([["2", "2", "0", "0"]]);
  });
  test("one of two is cancelled, or went back: it is wanted again", () => {
    expect(row(seals('order "W-1" to weir\n  status cancelled 2026-05-09\n  item seal 1\n'))).toEqual([["2", "0", "1", "1"]]);
    const back = 'order "W-1" to weir\n  status received 2026-05-09\norder "W-1" to weir\n  status returned 2026-05-10\n  item seal 1\n';
    expect(row(seals(back))).toEqual([["2", "1", "0", "1"]]);
  });
  test("another order of the same reference is one of its own where it orders something else", () => {
    expect(row(seals('order "W-2" to weir\n  status received 2026-05-09\n  item seal 1\n'))).toEqual([["2", "1", "2", "0"]]);
  });

  test("a new bearing that was fitted before the order came is not the one that is still to come", () => {
    const sheet = `sheet "T"
  currency GBP
  opened 2026-03-01
places side left, right
part bearing "Bearing"
  each side
supplier k "K"
offer bearing from k
  price 14.60 GBP each
finding bearing left
  is pitted
  decision renew
finding bearing right
  is pitted
  decision renew
order "K" to k
  status placed 2026-03-01
  item bearing 1 price 14.60 GBP
step build
  remove bearing
  fit bearing left new
  done 2026-03-05
`;
    expect(row(sheet)).toEqual([["1", "0", "1", "0"]]);
    expect(orderOf(sheet).surplus).toEqual([]);
  });

  const repair = (order: string) => `sheet "r6"
  opened 2026-11-02
  currency GBP
part shaft "Shaft"
limit dia "Shaft dia"
  worn min 1.490 in
  of shaft
  source "s"
supplier t "T"
step off
  remove shaft
  done 2026-11-02
measure dia found 2026-11-02
  1.488 in
${order}`;
  test("what is away to be put right is not asked for new; where nobody has it, it is", () => {
    expect(row(repair('order "H1" to t\n  status sent 2026-11-03\n  work shaft "spray and grind" price 145.00 GBP\n'))).toEqual([]);
    expect(row(repair('order "H1" to t\n  status cancelled 2026-11-03\n  work shaft "spray and grind" price 145.00 GBP\n'))).toHaveLength(1);
    expect(row(repair(""))).toHaveLength(1);
  });

  test("wire in pieces of a length counts as wire: 300 mm needed, ten pieces of it are on order", () => {
    const sheet = (order: string) => `sheet "T"
  currency GBP
fastener bolt "Box bolt"
  qty 3
  torque 40 .. 48 N.m
  locked by lock wire 1.2 mm x 300 mm for 3
supplier a "A"
offer lock wire 1.2 mm x 300 mm from a
  price 4.80 GBP a pack
  pack 10
step off
  undo bolt
  done 2026-03-02
${order}`;
    const ordered = orderOf(sheet('order "O" to a\n  status placed 2026-03-03\n  item lock wire 1.2 mm x 300 mm 10\n'));
    expect(ordered.lines).toMatchObject([{ need: "300", onOrder: "3000", toOrder: "0", notes: [] }]);
    expect(ordered.surplus).toEqual([]);
    // A pack is ten pieces: three metres for 4.80. Sold each at 0.60 it is one piece.
    expect(orderOf(sheet("")).lines).toMatchObject([{ toOrder: "3000", packs: "1", total: "4.80" }]);
    expect(orderOf(sheet("").replace("4.80 GBP a pack\n  pack 10", "0.60 GBP each")).lines).toMatchObject([{ toOrder: "300", packs: "1", total: "0.60" }]);
  });

  test("a bottle of thread lock for twelve screws, and one for two jobs; one on the shelf is enough", () => {
    const sheet = (stock: string) => `sheet "Grub screws"
  currency GBP
fastener grub "Grub screw"
  qty 12
  locked by thread lock "medium"
  critical "the spindle"
fastener stud "Stud"
  qty 4
  locked by thread lock "medium"
  critical "the spindle"
supplier a "A"
offer thread lock "medium" from a
  price 6.90 GBP each
${stock}step off
  undo grub, stud
  done 2026-05-04
`;
    expect(orderOf(sheet("")).lines).toMatchObject([{ need: "1", toOrder: "1", total: "6.90" }]);
    for (const stock of ['stock thread lock "medium" 1 "Shelf"\n', 'stock thread lock "medium" 10 ml "Shelf"\n'])
      expect(orderOf(sheet(stock)).lines).toMatchObject([{ need: "1", toOrder: "0" }]);
  });

  test("locked with the wrong pin, the right one is still wanted; with a longer one of the size it is not", () => {
    const sheet = (pin: string) => `sheet "T"
fastener nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step off
  undo nut
  done 2026-03-02
step on
  tighten nut
  lock nut with new ${pin}
  done 2026-03-03
`;
    expect(orderOf(sheet("split pin 2 x 40 mm")).lines).toMatchObject([{ item: "split pin 4 x 40 mm", need: "1" }]);
    expect(orderOf(sheet("split pin 4 x 45 mm")).lines).toEqual([]);
  });

  test("what sets a limit that is outside its set is wanted in some size, and not too many", () => {
    const sheet = (reading: string) => `sheet "T"
  currency GBP
part thrust "Thrust washer, selective"
limit float "Float"
  set 0.001 .. 0.003 in by thrust
  source "Book"
supplier a "A"
offer thrust from a
  price 3.10 GBP each
measure float found 2026-03-01
  ${reading}
order "O" to a
  status placed 2026-03-03
  item thrust 1
`;
    expect(orderOf(sheet("0.009 in"))).toMatchObject({ lines: [{ item: "thrust", need: "1", onOrder: "1", toOrder: "0" }], surplus: [] });
    expect(orderOf(sheet("0.002 in")).surplus).toHaveLength(1);
    // 0.009 - 0.003 = 0.006 and 0.009 - 0.001 = 0.008: what the washer takes up goes off the float. 0.003 - 0.0005 and 0.001 - 0.0005 the other way.
    const why = (reading: string) => orderOf(sheet(reading)).lines[0]?.why[0]?.text;
    expect(why("0.009 in")).toMatch(/^0\.006 to 0\.008 in thicker than the one that it was read with: /);
    expect(why("0.0005 in")).toMatch(/^0\.0005 to 0\.0025 in thinner than the one that it was read with: /);
    expect(
      orderOf(sheet("0.009 in").replace("limit float", "limit squeeze").replace('"Float"', '"Squeeze"').replace("measure float", "measure squeeze")).lines[0]
        ?.why[0]?.text,
    ).toMatch(/^in another size: /);
  });
});

describe("what the sheet leaves open", () => {
  const misspelt = `sheet "Offer slip"
  currency GBP
part hub "Hub"
supplier weir "Weir Lane"
  freight 4.50 GBP
offer hub from wier
  price 10.00 GBP each
finding hub
  is worn
  decision renew
`;
  test("a misspelt supplier is meant, with its carriage, and every drawing says that the sheet has an error", () => {
    const report = orderOf(misspelt);
    // 10.00 and 4.50.
    expect(report).toMatchObject({ together: { amount: "14.50" }, errors: [{ line: 6 }] });
    for (const drawn of [orderTable(report), orderMarkdown(report), orderHtml(report), orderLetter(report, "weir") ?? ""])
      expect(drawn).toContain("This sheet has 1 error");
    expect(orderCsv(report)).toContain("error in the sheet");
    expect(JSON.parse(orderJson(report))).toMatchObject({ errors: [{ file: "job.jobsheet", line: 6 }] });
    for (const drawn of [orderTable, orderMarkdown, orderHtml]) expect(drawn(orderOf(misspelt.replace("wier", "weir")))).not.toContain("error");
  });
  test("what is found and not decided is listed", () => {
    const report = orderOf('sheet "T"\nfastener bolt "Bolt"\n  qty 8\nfinding bolt 2\n  is broken\n');
    expect(report.undecided).toMatchObject([{ line: 4 }]);
    expect(orderTable(report)).toContain("Not decided");
    expect(orderTable(report)).toContain("Nothing is needed by what is decided so far.");
  });
  test("without a source is in the headline, and no column is all nothing", () => {
    const page = orderHtml(orderOf('sheet "T"\npart gear "Gear"\nfinding gear\n  is damaged\n'));
    expect(page).toMatch(/<p class="headline">Nobody offers 1 × gear\.<\/p>/);
    expect(page).not.toMatch(/On order|In stock|On hold/);
  });
});

test("figures as a person writes them", () => {
  // 2 l are 3.51951 imp.pt; what has two decimals or fewer stays.
  expect(asWritten("3.51951", "imp.pt")).toEqual(["3.5", "imp.pt"]);
  expect(asWritten("10000", "mm")).toEqual(["10", "m"]);
  expect(asWritten("300", "mm")).toEqual(["300", "mm"]);
  expect(asWritten("0.25", "l")).toEqual(["0.25", "l"]);
  expect(asWritten("12", null)).toEqual(["12", null]);
});

test("one order for two jobs: one carriage for two, and one box for both", () => {
  const job = (title: string) => `sheet "${title}"
  currency GBP
use "shop.jobsheet"
part clip-${title} "Clip ${title}"
offer clip-${title} from a
  price 7.00 GBP
finding clip-${title}
  is damaged
`;
  const files = filesFrom({ "shop.jobsheet": 'supplier a "A"\n  freight 3.00 GBP\n', "one.jobsheet": job("one"), "two.jobsheet": job("two") });
  const report = partsOrder(files, ["one.jobsheet", "two.jobsheet"]);
  // 7 + 7 + 3 = 17.00; each by itself 7 + 3 = 10.00.
  expect(report.jobByJob).toEqual({ currency: "GBP", together: "17.00", parcels: 1, jobByJob: "20.00", parcelsJobByJob: 2, saves: "3.00" });
  expect(orderTable(report)).toContain("saves 3.00 GBP");
  expect(partsOrder(files, ["one.jobsheet"]).jobByJob).toBeNull();
});
