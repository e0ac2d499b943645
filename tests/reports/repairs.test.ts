// What is to go to the machine shop is part of what a job needs: repairs that nobody has in hand, work written down and not sent, and its letter.
import { expect, test } from "vitest";
import { orderLetter, suppliersToWrite } from "../../server/reports/order/letter.ts";
import { listsOfOrder } from "../../server/reports/order/lists.ts";
import { orderOf } from "./sheets.ts";

const found = `sheet "Crank"
  currency GBP
  opened 2026-03-01
places side left, right
part crank "Crankshaft"
part rod "Rod"
  each side
supplier mill "Mill Lane"
  currency GBP
  lead 9 d
step off
  remove crank, rod
  done 2026-03-01
finding crank
  is scored
  decision repair "Grind 0.010 in under"
finding rod left
  is bent
  decision repair "Straighten"
`;
const lists = (text: string) => Object.fromEntries(listsOfOrder(orderOf(text), []).map((it) => [it.title, it.rows.map((row) => row.words)]));
const repairs = (text: string) => orderOf(text).repairs.map((it) => [it.part, it.places, it.how]);

test("a repair that nobody has in hand is told, with its place and what is to be done", () => {
  expect(repairs(found)).toEqual([
    ["crank", [], "Grind 0.010 in under"],
    ["rod", ["left"], "Straighten"],
  ]);
  expect(lists(found)["Work to send out"]?.[1]).toMatch(/^Rod \(left\): Straighten\. No order sends it out/);
});

test("an order of the work, a step that repairs it, or its being back on takes it off the list", () => {
  expect(repairs(`${found}order "M-1" to mill\n  status held\n  work crank "Grind" price 60.00 GBP\n`)).toEqual([["rod", ["left"], "Straighten"]]);
  expect(repairs(`${found}order "M-1" to mill\n  status cancelled\n  work crank "Grind"\n`)).toHaveLength(2);
  expect(repairs(`${found}step mend\n  repair rod left "Straightened"\n`)).toEqual([["crank", [], "Grind 0.010 in under"]]);
  expect(repairs(`${found}step back\n  fit rod left\n  done 2026-03-02\n`)).toEqual([["crank", [], "Grind 0.010 in under"]]);
  expect(repairs(`${found}finding rod left\n  is bent\n  decision renew\n`)).toEqual([["crank", [], "Grind 0.010 in under"]]);
});

test("work on hold is listed with its price and lead, apart from what is out, and goes into the letter with its sum", () => {
  const text = `${found}part seal "Seal"
offer seal from mill
  price 2.50 GBP each
finding seal
  is worn
  decision renew
order "M-1" to mill
  status held
  work crank "Grind 0.010 in under" price 60.00 GBP
order "M-2" to mill
  status sent 2026-03-02
  work rod left "Straighten"
`;
  expect(lists(text)["Work to send out"]).toEqual([
    "Crankshaft (crank): Grind 0.010 in under with Mill Lane (order “M-1”), held: 60.00 GBP. It takes 9 d there.",
  ]);
  expect(lists(text)["Work sent out"]).toHaveLength(1);
  const letter = orderLetter(orderOf(text), "mill") ?? "";
  expect(letter).toContain("We send you to be worked on:\n\n2. Crankshaft: Grind 0.010 in under\n   our reference M-1\n   60.00 GBP\n   time named: 9 d");
  expect(letter).toMatch(/Goods +2\.50 GBP\nWork +60\.00 GBP\nTogether +62\.50 GBP/);
  expect(letter).not.toContain("Straighten");
});

test("a supplier of whom nothing is bought gets a letter for its work alone, which asks for the price where none is said", () => {
  const text = `${found}order "M-1" to mill\n  status held\n  work crank "Grind"\n`;
  expect(suppliersToWrite(orderOf(text))).toEqual(["mill"]);
  const letter = orderLetter(orderOf(text), "mill") ?? "";
  expect(letter).toContain("1. Crankshaft: Grind");
  expect(letter).toContain("Please tell us what the work will cost before you begin.");
  expect(letter).not.toContain("in the place of these");
});
