// Orders from price lists: rows found for what is needed, columns as they are documented, rows that can't be read named and left out.
import { describe, expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { pricesOf } from "../../server/supply/prices.ts";
import { orderCsv } from "../../server/reports/order/csv.ts";
import { orderLetter } from "../../server/reports/order/letter.ts";
import { orderTable } from "../../server/reports/order/table.ts";
import { saidBy } from "../rules/sheets.ts";
import { filesFrom, orderHtml, orderMarkdown, orderOf } from "./sheets.ts";
import { buildJob, partsOrder } from "../in-one-go.ts";

const sheet = `sheet "Hub"
  currency GBP
part hub-seal "Hub seal"
  number "M-431"
part hub-key "Hub key"
fastener hub-nut "Hub nut"
  thread 5/8-18 UNF
fluid hub-oil "Hub oil"
  capacity 700 ml
supplier alder "Alder Lane"
  currency GBP
  lead 4 d
  prices "alder.csv"
need hub-seal 3 "worn"
need hub-key 1 "worn"
need hub-nut 2 "worn"
need hub-oil 700 ml "drained"
need split pin 5/32 x 1-1/2 in 2 "undone"
need "Rags, bag" 1 "mess"
`;

const order = (list: string, text = sheet) => orderOf(text, { "alder.csv": list });
const rowsOf = (list: string, text = sheet) =>
  order(list, text).lines.map((row) => [
    row.item,
    row.number,
    row.unitPrice,
    row.per,
    row.packs,
    row.toOrder,
    row.total,
    row.lead,
    row.priceList?.line ?? null,
  ]);

describe("a row is found", () => {
  test("by what a sheet calls it: a name, a locking of that size, a text", () => {
    // 3 x 3.20; a key at 1.15; two nuts at 2.40 each; two cans of 500 ml; a pack of 25 pins; rags.
    expect(
      rowsOf(`Item,Number,Price,Per,Pack,Lead
hub-seal,AL 80,3.20,,,
hub-key,AL 7,1.15,each,,9 d
hub-nut,AL 9,2.40,,,
hub-oil,AL 1,6.00,a pack,500 ml,
split pin 0.15625 x 1.5 in,AL 12,2.10,a pack,25,
"Rags, bag",,3.00,,,
clutch-plate,AL 99,48.00,,,
`),
    ).toEqual([
      ["hub-seal", "AL 80", "3.20", "each", "3", "3", "9.60", "4 d", 2],
      ["hub-key", "AL 7", "1.15", "each", "1", "1", "1.15", "9 d", 3],
      ["hub-nut", "AL 9", "2.40", "each", "2", "2", "4.80", "4 d", 4],
      ["split pin 5/32 x 1-1/2 in", "AL 12", "2.10", "pack", "1", "25", "2.10", "4 d", 6],
      ["hub-oil", "AL 1", "6.00", "pack", "2", "1000", "12.00", "4 d", 5],
      ["Rags, bag", null, "3.00", "each", "1", "1", "3.00", "4 d", 7],
    ]);
  });
  test("by the maker's number", () => {
    expect(rowsOf("maker's number,price\nM-431,2.95\n")[0]).toEqual(["hub-seal", null, "2.95", "each", "3", "3", "8.85", "4 d", 2]);
  });
  test("by the supplier's number that the sheet's own offer gives; what the offer says itself holds", () => {
    const offered = `${sheet}offer hub-seal from alder\n  number "AL 80"\n  lead 2 d\noffer hub-key from alder\n  number "AL 7"\n  price 1.00 GBP\n`;
    const rows = rowsOf("number,price,pack,per\nAL 80,8.00,4,a pack\nAL 7,0.50,,\n", offered);
    expect(rows[0]).toEqual(["hub-seal", "AL 80", "8.00", "pack", "1", "4", "8.00", "2 d", 2]);
    expect(rows[1]).toEqual(["hub-key", "AL 7", "1.00", "each", "1", "1", "1.00", "4 d", null]);
  });
  test("a row whose thread is not the fastener's own is no source", () => {
    const rows = order("item,price,thread\nhub-nut,0.40,5/8-11 UNC\nhub-nut,2.40,5/8-18 UNF\n").lines;
    expect(rows.find((row) => row.item === "hub-nut")).toMatchObject({
      unitPrice: "2.40",
      notes: ["The offer of Alder Lane is left out: its thread is not the fastener's own."],
    });
  });
  test("the cheapest of several rows and offers", () => {
    const text = `${sheet}supplier brook "Brook"\noffer hub-seal from brook\n  price 3.00 GBP\n`;
    expect(order("item,price\nhub-seal,3.20\nhub-seal,3.10\n", text).lines[0]).toMatchObject({ supplier: "brook", unitPrice: "3.00" });
    expect(order("item,price\nhub-seal,3.20\nhub-seal,2.90\n", text).lines[0]).toMatchObject({
      supplier: "alder",
      unitPrice: "2.90",
      priceList: { file: "alder.csv", line: 3 },
    });
  });
});

test("money by the currency column, the code behind the figure, the supplier's; surcharges too", () => {
  const priced = (list: string) => order(list).lines[0];
  expect(priced("item,price,currency\nhub-seal,300,JPY\n")).toMatchObject({ unitPrice: "300", currency: "JPY" });
  expect(priced("item,price\nhub-seal,3.20 EUR\n")).toMatchObject({ unitPrice: "3.20", currency: "EUR" });
  expect(order("item,price,exchange\nhub-seal,3.20,1.50\n").suppliers).toMatchObject([{ goods: "9.60", exchange: "4.50" }]);
});

test("a byte order mark, CRLF, quotes, columns that are not known, and a sheet in another folder", () => {
  const list = '\ufeffDescription,ITEM,"Price"\r\n"Seal, 40 mm\r\nleather",hub-seal,"3.20"\r\n';
  expect(rowsOf(list)[0]).toEqual(["hub-seal", null, "3.20", "each", "3", "3", "9.60", "4 d", 2]);
  const report = partsOrder(
    filesFrom({
      "data/suppliers.jobsheet": 'supplier alder "Alder Lane"\n  currency GBP\n  prices "../lists/alder.csv"\n',
      "lists/alder.csv": "item,price\nhub-seal,3.20\n",
      "jobs/a.jobsheet": 'sheet "A"\nuse "../data/suppliers.jobsheet"\npart hub-seal "Seal"\nfinding hub-seal\n  is damaged\n',
      "jobs/b.jobsheet": 'sheet "B"\nuse "../data/suppliers.jobsheet"\npart hub-seal "Other seal"\nfinding hub-seal\n  is damaged\n',
    }),
    ["jobs/a.jobsheet", "jobs/b.jobsheet"],
  );
  // A name in a list means what it means in the job that knows the supplier: in each its own.
  expect(report.lines.map((row) => [row.name, row.supplier, row.total])).toEqual([
    ["Seal", "alder", "3.20"],
    ["Other seal", "alder", "3.20"],
  ]);
});

describe("what can't be read", () => {
  const said = (list: string) =>
    saidBy("price-row", 'supplier alder "Alder"\n  currency GBP\n  prices "alder.csv"\n', { "alder.csv": list }).map((it) =>
      it.replace(/^3 warning \["alder.csv"\] /, ""),
    );
  test.each([
    ['item,price\na,"12,50"\n', "Line 2 of alder.csv is left out. 12,50 has a decimal comma. Write 12.50."],
    [
      "item,price\na,12,50\n",
      "Line 2 of alder.csv is left out. It has 3 cells, and the head has 2. Put a cell with a comma in quotes, and write a price with a point: 12.50.",
    ],
    ['item,price\na,"1,250.00"\n', "Line 2 of alder.csv is left out. 1,250.00 has a comma in it. Write 1250.00."],
    ["item,price\na,£9.40\n", "Line 2 of alder.csv is left out. The price “£9.40” can't be read. Write the figure alone, with a point: 9.40."],
    ["item,price\na,-1.00\n", "Line 2 of alder.csv is left out. The price “-1.00” can't be read. Write the figure alone, with a point: 9.40."],
    ["item,price\na,\n", "Line 2 of alder.csv is left out. It has no price."],
    ["item,price\n,2.00\n", "Line 2 of alder.csv is left out. It doesn't say of what: give it an item or a number."],
    [
      "item,price,currency\na,2.00,GPB\n",
      "Line 2 of alder.csv is left out. `GPB` isn't an ISO 4217 currency. Write its three letters, such as GBP, EUR or USD.",
    ],
    ["item,price\na,2.005\n", "Line 2 of alder.csv is left out. 2.005 has 3 decimals, and GBP has 2. Write what is paid."],
    ["item,price,per\na,2.00,dozen\n", "Line 2 of alder.csv is left out. “dozen” is not what a price is for. Write each or a pack."],
    [
      "item,price,pack\na,2.00,many\n",
      "Line 2 of alder.csv is left out. A pack of “many” can't be read. Write how many, or how much with its unit: 25, 400 ml.",
    ],
    ["item,price,pack\na,2.00,0\n", "Line 2 of alder.csv is left out. A pack of “0” can't be read. Write how many, or how much with its unit: 25, 400 ml."],
    [
      "item,price,pack\na,2.00,1 pt\n",
      "Line 2 of alder.csv is left out. A pack of “1 pt” can't be read. Write how many, or how much with its unit: 25, 400 ml.",
    ],
    ["item,price,lead\na,2.00,9\n", "Line 2 of alder.csv is left out. A lead of “9” can't be read. Write it with its unit: 9 d."],
    ["item,price,lead\na,2.00,9 mm\n", "Line 2 of alder.csv is left out. A lead of “9 mm” can't be read. Write it with its unit: 9 d."],
    ["item,price,quoted\na,2.00,2026-02-30\n", "Line 2 of alder.csv is left out. “2026-02-30” isn't a date. Write it as 2026-03-04."],
    [
      'item,price\n"a,2.00\nb,3.00\n',
      'Line 2 of alder.csv is left out. A quote is opened and not closed. Close it, or double it where a quote is meant: "5/8"" bolt".',
    ],
    ["item;price\na;2.00\n", "Nothing of alder.csv is used. Its columns are separated by semicolons. Save it with commas between them."],
    [
      "name,cost\na,2.00\n",
      "Nothing of alder.csv is used. The columns can't be recognised. Its first row names the columns: price, and item, number or maker's number.",
    ],
    ["", "Nothing of alder.csv is used. It is empty. Its first row names the columns: price, and item, number or maker's number."],
    ["item,price,price\na,1.00,2.00\n", "Nothing of alder.csv is used. The column price is there twice. Keep one of them."],
  ])("%j", (list, message) => {
    expect(said(list)).toEqual([message]);
  });
  test("no currency anywhere", () => {
    expect(saidBy("price-row", 'supplier alder\n  prices "alder.csv"\n', { "alder.csv": "item,price\na,2.00\n" })[0]).toContain("It has no currency.");
  });
  test("the rest is used, the order says what is not, and a list that is wrong all through is not said row by row", () => {
    const report = order('item,price\nhub-seal,3.20\nhub-key,"1,15"\nhub-nut,2.40\n');
    expect(report.lines.map((row) => row.total)).toEqual(["9.60", null, "4.80", null, null, null]);
    expect(report.lists).toEqual([{ file: "alder.csv", supplierName: "Alder Lane", unread: false, leftOut: [3] }]);
    expect(orderTable(report, 200)).toContain("Of the price list alder.csv a row is left out: line 3.");
    const many = said(`item,price\n${'a,"1,15"\n'.repeat(50)}`);
    expect(many).toHaveLength(21);
    expect(many.at(-1)).toBe("30 more rows of alder.csv are left out.");
  });
  test("a list that is not there, leads out of the workspace, or can't be read", () => {
    const line = (path: string) => `supplier alder "Alder"\n  prices "${path}"\n`;
    expect(saidBy("price-row", line("gone.csv"), {})[0]).toContain("There is no file gone.csv beside this one");
    for (const path of ["../../etc/passwd.csv", "/etc/passwd", "https://x.example/a.csv", "C:\\\\a.csv"]) {
      let asked = false;
      const files: Files = {
        read: () => readSheet(line(path)),
        prices: () => {
          asked = true;
          return "missing";
        },
      };
      const job = buildJob(files, "job.jobsheet");
      expect(job === undefined ? [] : pricesOf(job)).toMatchObject([{ answer: "outside", path: undefined }]);
      expect(asked).toBe(false);
    }
    expect(orderTable(orderOf(sheet), 200)).toContain("The price list alder.csv of Alder Lane could not be read: none of its prices are in this order.");
  });
});

test("what a list holds is text in every drawing", () => {
  for (const evil of [
    "=HYPERLINK(1)",
    "+1+cmd|' /C calc'!A0",
    "@SUM(A1)",
    "-2+3",
    "\t=1",
    "<img src=x onerror=alert(1)>",
    "[x](javascript:1)",
    "\u001b[31m",
    "\u202efdp",
  ]) {
    const report = order(`item,number,price\nhub-seal,"${evil}",3.20\n`);
    expect(report.lines[0]?.unitPrice).toBe("3.20");
    for (const line of orderCsv(report).split("\r\n")) for (const cell of line.split(",")) expect(cell).not.toMatch(/^"?\s*[=+\-@\t]/);
    expect(orderHtml(report)).not.toMatch(/<img|<script/);
    expect(orderMarkdown(report)).not.toMatch(/(?<!\\)<img|(?<!\\)\]\(javascript/);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: none of them may get through.
    for (const text of [orderTable(report), orderLetter(report, "alder") ?? ""]) expect(text).not.toMatch(/[\u0000-\u0009\u001b\u202e]/);
  }
});
