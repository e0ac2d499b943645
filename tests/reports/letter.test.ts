// The order as text for a letter: what a supplier must be told, each figure worked out by hand, and nothing of a sheet that is more than text.
import { expect, test } from "vitest";
import { orderLetter, suppliersToWrite } from "../../server/reports/order/letter.ts";
import { orderOf } from "./sheets.ts";

const sheet = `sheet "Brakes"
  machine "Tarn & Vale saw bench, 1938"
  currency GBP
part shoe "Brake shoe, relined"
  qty 2
  number "TV-14"
part spring "Return spring"
supplier marl "Marl Brake Relining"
  currency GBP
  freight 6.00 GBP
  duty 5 %
  lead 8 d
supplier other "Other"
offer shoe from marl
  number "MB 140"
  price 31.25 GBP each
  exchange 15.00 GBP
offer split pin 1/8 x 1 in from marl
  price 2.10 GBP a pack
  pack 25
  lead 2 d
offer spring from marl
offer "Rags" from other
  price 3.00 GBP
finding shoe
  is worn
  decision exchange
finding spring
  is broken
  decision renew
need split pin 1/8 x 1 in 30 "spares"
need "Rags" 1 "mess"
`;

test("numbers, packs, prices and sums, what goes back, and the delivery", () => {
  // 2 x 31.25 = 62.50; two packs of 25 for 30: 4.20; goods 66.70; surcharge 30.00; carriage 6.00: 102.70. Duty is the customs' and not in it.
  expect(orderLetter(orderOf(sheet), "marl")).toBe(`Order to Marl Brake Relining

For: Tarn & Vale saw bench, 1938

Please send us:

1. 2 × Brake shoe, relined
   your number MB 140
   maker's number TV-14
   31.25 GBP each: 62.50 GBP
   surcharge until the old ones are back: 30.00 GBP
   delivery named: 8 d

2. 1 × Return spring
   delivery named: 8 d

3. 2 packs of 25 × split pin 1/8 x 1 in
   2.10 GBP a pack: 4.20 GBP
   delivery named: 2 d

Goods                                66.70 GBP
Surcharge on exchange                30.00 GBP
Carriage                              6.00 GBP
Together, without what has no price 102.70 GBP

In exchange we send back:

   2 old Brake shoe, relined: 30.00 GBP of surcharge to come back

Please tell us if any of it will be later than the delivery named.
Where there is no price, please tell us yours before you send it.
Please send nothing else in the place of these without asking us first.

With kind regards
`);
});

test("by its name or its title; nothing for one that nothing is ordered from", () => {
  const report = orderOf(sheet);
  expect(suppliersToWrite(report)).toEqual(["marl", "other"]);
  expect(orderLetter(report, "Marl Brake Relining")).toBe(orderLetter(report, "marl"));
  expect(orderLetter(report, "nobody")).toBeUndefined();
  expect(orderLetter(orderOf(""), "marl")).toBeUndefined();
});

test("no text of a sheet breaks a line or moves a cursor", () => {
  const evil = "\u001b[31mred\u202e\u2028x\u0007";
  const letter =
    orderLetter(
      orderOf(sheet.replace("Brake shoe, relined", evil).replace("Marl Brake Relining", evil).replace("MB 140", evil).replace("8 d", "8 d")),
      "marl",
    ) ?? "";
  // biome-ignore lint/suspicious/noControlCharactersInRegex: none of them may get through.
  expect(letter).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e]/);
  expect(letter.split("\n")).toHaveLength((orderLetter(orderOf(sheet), "marl") ?? "").split("\n").length);
});
