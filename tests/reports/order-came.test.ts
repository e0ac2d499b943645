// What came of an order and what did not: another thing in its place, more than was asked for, sent back; and what is away, worked out by hand.
import { parse } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { orderCsv } from "../../server/reports/order/csv.ts";
import { orderJson } from "../../server/reports/order/json.ts";
import { orderTable } from "../../server/reports/order/table.ts";
import { orderHtml, orderMarkdown, orderOf } from "./sheets.ts";

const seals = (order: string) => `sheet "Seals"
  opened 2026-05-01
  currency GBP
part seal "Oil seal, leather"
  qty 2
  renew
part rubber "Oil seal, rubber"
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

describe("another thing came in the place of what was ordered", () => {
  const ways = [
    "  received rubber 2 on 2026-05-09\n",
    'order "W-1" to weir\n  received rubber 2 on 2026-05-09\n',
    'order "W-1" to weir\n  status received 2026-05-09\n  item rubber 2\n',
    '  received "Oil seal, rubber" 2 on 2026-05-09\n',
  ];
  test.each(ways)("it is named, and what was ordered is still to come: %j", (way) => {
    const report = orderOf(seals(way));
    expect(row(seals(way))).toEqual([["2", "0", "2", "0"]]);
    expect(report.notOrdered).toMatchObject([
      { name: "Oil seal, rubber", order: "W-1", supplierName: "Weir Lane", quantity: "2", toCome: [{ item: "seal", quantity: "2" }] },
    ]);
    for (const drawn of [orderTable(report, 200), orderMarkdown(report), orderHtml(report), orderCsv(report)]) {
      expect(drawn).toMatch(/oil seal, rubber/i);
      expect(drawn).toContain("which does not ask for it");
    }
    expect(JSON.parse(orderJson(report)).notOrdered).toHaveLength(1);
    // It lies on the shelf: the spreadsheet has it in a column that can be added up.
    const [head = [], ...cells] = parse(orderCsv(report)) as string[][];
    const came = cells.filter((it) => it[0] === "not ordered").map((it) => it[head.indexOf("in stock")]);
    expect(came).toEqual(["2"]);
  });
  test("more came than was ordered: the rest is named", () => {
    const report = orderOf(seals("  received seal 3 on 2026-05-09\n"));
    expect(report.lines[0]).toMatchObject({ need: "2", stock: "3", onOrder: "0", toOrder: "0" });
    expect(report.notOrdered).toMatchObject([{ item: "seal", quantity: "1", toCome: [] }]);
  });
  test.each([
    "  received seal 2 on 2026-05-09\n",
    "  received seal 1 on 2026-05-09\n",
    'order "W-2" to weir\n  status received 2026-05-09\n  item rubber 1\n',
    "",
  ])("what was ordered came, or an order of its own: nothing is named: %j", (way) => {
    expect(orderOf(seals(way)).notOrdered).toEqual([]);
    expect(orderTable(orderOf(seals(way)))).not.toContain("Came and was not ordered");
  });
});

test("sent back after it came, it is wanted again", () => {
  const sheet = seals('order "W-1" to weir\n  status received 2026-05-06\norder "W-1" to weir\n  status returned 2026-05-08\n  item seal 1\n');
  expect(row(sheet)).toEqual([["2", "1", "0", "1"]]);
});

test("of two drums past wear one is away to be turned: one is asked for new", () => {
  const sheet = (place: string) => `sheet "Away"
  opened 2026-05-01
places side left, right
part drum "Drum"
  each side
limit bore "Drum bore"
  each side
  worn max 10.060 in
  of drum
  source "Book"
supplier g "Grinder"
step off
  remove drum left, right
  done 2026-05-04
measure bore found 2026-05-04
  left 10.080 in
  right 10.075 in
order "G-1" to g
  status sent 2026-05-05
  work drum ${place}"Turn out 0.040 in" price 30.00 GBP
`;
  expect(orderOf(sheet("left ")).lines).toMatchObject([{ item: "drum", places: [{ place: "right" }], need: "1" }]);
  expect(orderOf(sheet("")).lines).toEqual([]);
});

test("locked with the wrong new pin on one side, the right pin is wanted for that side alone", () => {
  const sheet = `sheet "Pins"
  opened 2026-05-01
places side left, right
fastener nut "Stub axle nut"
  each side
  thread 3/4-16 UNF
  torque 40 .. 50 lbf.ft
  locked by split pin 5/32 x 1-3/4 in
  source "Book"
step off
  undo nut left, right
  done 2026-05-04
step on
  tighten nut left to 45 lbf.ft
  lock nut left with new split pin 1/8 x 1-1/2 in
  tighten nut right to 45 lbf.ft
  lock nut right new
  done 2026-05-06
`;
  expect(orderOf(sheet).lines).toMatchObject([{ item: "split pin 5/32 x 1-3/4 in", need: "1", places: [{ place: "left" }] }]);
});

test("nothing that a sheet says acts on a terminal: the note of an offer that is left out names its supplier, whatever that is called", () => {
  const sheet = `sheet "Terminal"
  currency GBP
fastener nut "Nut\u001b[31m"
  thread 3/4-16 UNF
  renew
supplier weir "Weir\u001b]0;x\u0007 \u202eLane\u2066"
offer nut from weir
  thread 3/4-10 UNC
  price 4.00 GBP each
step off
  undo nut
  done 2026-05-04
`;
  const table = orderTable(orderOf(sheet));
  expect(table).toContain("is left out");
  // biome-ignore lint/suspicious/noControlCharactersInRegex: that none of them comes out is what is tested.
  expect(table.replaceAll("\n", "")).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\u2028\u2029]/);
});
