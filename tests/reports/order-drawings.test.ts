// The drawings of an order: each holds what the value holds, and what a sheet says can't become markup, a formula or a terminal's command.
import { expect, test } from "vitest";
import { cell, orderCsv } from "../../server/reports/order/csv.ts";
import { orderJson } from "../../server/reports/order/json.ts";
import { text as markdownText } from "../../server/reports/draw/markdown-text.ts";
import { orderTable } from "../../server/reports/order/table.ts";
import { filesFrom, orderHtml, orderMarkdown, orderOf } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

const plainSheet = `sheet "Lift gate: lock worn"
  machine "Invented goods lift, 1938"
  currency GBP
part bolt "Lock bolt"
  number "L-4"
part roller "Roller, hardened"
  qty 3
supplier crane-and-sons "Crane and Sons"
  currency GBP
  freight 6.00 GBP
offer bolt from crane-and-sons
  number "CS 4"
  price 12.50 GBP
  lead 4 d
finding bolt
  is broken
  decision renew
finding roller
  is damaged
order "77" to crane-and-sons
  status held
  item bolt 3
`;

/** Texts that have broken one program or another that shows what others wrote. */
const hostile = [
  "<script>alert(1)</script>",
  "<img src=x onerror=alert(1)>",
  "' onmouseover='alert(1)",
  "</style></td></table><h1>gone",
  "&lt;b&gt; &amp;",
  '=HYPERLINK(\\"http://x.example\\")',
  "+1+cmd|' /C calc'!A0",
  "@SUM(A1)",
  "-2+3",
  "a, b; c",
  "| a | b |",
  "[x](javascript:alert(1))",
  "![x](http://x.example/y.png)",
  "`x` **x** _x_ # x",
  "http://x.example www.x.example a@x.example",
  "\u001b[31mred\u001b]0;title\u0007",
  "\u202efdp.exe",
  "\u0000\u0008\u009b",
  "\ud800 half",
];

function hostileSheet(text: string): string {
  return `sheet "${text}"
  machine "${text}"
  by "${text}"
  currency GBP
part bolt "${text}"
  number "${text}"
supplier them "${text}"
  currency GBP
offer bolt from them
  number "${text}"
  price 2.00 GBP
offer "${text}" from them
  price 1.00 GBP
finding bolt
  is broken
  decision renew
question what "${text}"
  about gear
part gear "${text}"
need "${text}" 2 "${text}"
order "${text}" to them
  status held
  item bolt 4
`;
}

test("JSON has the names that users rely on, figures as strings", () => {
  const value = JSON.parse(orderJson(orderOf(plainSheet))) as Record<string, Record<string, unknown>[]>;
  expect(value.lines?.[0]).toMatchObject({
    item: "bolt",
    name: "Lock bolt",
    need: "1",
    stock: "0",
    onOrder: "0",
    // Of the three on hold one is needed.
    held: "1",
    standing: "on hold",
    toOrder: "0",
    packs: "0",
    supplier: "crane-and-sons",
    number: "CS 4",
    unitPrice: "12.50",
    total: "12.50",
    currency: "GBP",
    lead: "4 d",
    why: [{ file: "job.jobsheet", line: 15, text: "found broken, to be renewed" }],
  });
  expect(value.lines?.[1]).toMatchObject({
    item: "roller",
    need: "3",
    toOrder: "3",
    packs: null,
    supplier: null,
    number: null,
    unitPrice: null,
    total: null,
    currency: null,
    lead: null,
  });
  expect(value.surplus).toMatchObject([
    { item: "bolt", order: "77", quantity: "2", unit: null, supplier: "crane-and-sons", saves: "25.00", currency: "GBP", line: 22, file: "job.jobsheet" },
  ]);
  // The bolt on hold at 12.50, and 6.00 for its carriage.
  expect(value.suppliers).toMatchObject([{ supplier: "crane-and-sons", goods: "12.50", freight: "6.00", total: "18.50" }]);
});

test("CSV is RFC 4180: one head, CRLF, every row as wide, quotes doubled", () => {
  const rows = readCsv(orderCsv(orderOf(plainSheet)));
  expect(new Set(rows.map((row) => row.length)).size).toBe(1);
  const [head, bolt, roller] = rows as [string[], string[], string[]];
  const gone = rows.find((row) => row[0] === "not needed") as string[];
  const at = (row: string[], name: string) => row[head.indexOf(name)];
  expect([at(bolt, "list"), at(bolt, "item"), at(bolt, "need"), at(bolt, "to order"), at(bolt, "why")]).toEqual([
    "on hold",
    "bolt",
    "1",
    "0",
    "found broken, to be renewed (job.jobsheet:15); on hold as 77",
  ]);
  expect([at(roller, "list"), at(roller, "name"), at(roller, "to order")]).toEqual(["no source", "Roller, hardened", "3"]);
  expect([at(gone, "list"), at(gone, "on hold"), at(gone, "total")]).toEqual(["not needed", "2", ""]);
});

test("the total column of the CSV added up is what the order costs", () => {
  const report = orderOf(plainSheet.replace("status held", "status cancelled"));
  const rows = readCsv(orderCsv(report));
  const column = (rows[0] as string[]).indexOf("total");
  const pence = rows.slice(1).reduce((sum, row) => sum + Math.round(Number(row[column] || "0") * 100), 0);
  // One bolt at 12.50 and 6.00 for its carriage.
  expect(pence).toBe(1850);
});

test("no cell is a formula to a spreadsheet", () => {
  // The signs that a spreadsheet takes for the start of a formula: OWASP, "CSV Injection".
  for (const sign of ["=", "+", "-", "@", "\t=", "\r=", "\n=", " =", "\uff1d", "\u0000=", "\u202e="]) expect(cell(`${sign}1+1`)).toMatch(/^"?'/);
  expect(cell('a "b", c')).toBe('"a ""b"", c"');
  expect(cell("12.50")).toBe("12.50");
  for (const text of hostile) {
    for (const row of readCsv(orderCsv(orderOf(hostileSheet(text))))) for (const it of row) expect(it).not.toMatch(/^\s*[=+\-@\t\r\n]/);
  }
});

test("HTML is a whole page with its style inside, nothing fetched, nothing that runs", () => {
  const page = orderHtml(orderOf(plainSheet));
  expect(page.startsWith("<!DOCTYPE html>")).toBe(true);
  expect(page).toContain(`<meta http-equiv="Content-Security-Policy" content="default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;`);
  expect(page).not.toMatch(/<script|<link|<img|<iframe|@import|url\(|https?:/i);
  expect(page).toContain("prefers-color-scheme: dark");
  expect(page).toContain(`<a class="at" href="./job.jobsheet#L15" data-file="job.jobsheet" data-line="15">`);
  expect(page).toContain("no source");
  expect(page).toContain("Not needed after all");
  expect(page).toContain("<title>Parts order: Lift gate: lock worn</title>");
});

test("HTML: what a sheet says is text", () => {
  // A word between backticks is shown as a name.
  const tags = (page: string) => [...page.matchAll(/<\/?([a-z0-9]+)/gi)].flatMap((it) => (it[1] === "code" ? [] : [it[1]?.toLowerCase()])).join(" ");
  const good = tags(orderHtml(orderOf(hostileSheet("harmless"))));
  for (const text of hostile) {
    const page = orderHtml(orderOf(hostileSheet(text)));
    // The same tags in the same order as for a harmless text, and no attribute but ours.
    expect(tags(page)).toBe(good);
    const attributes = new Set(
      [...page.replace(/<style>[\s\S]*<\/style>/, "").matchAll(/<[a-z0-9]+((?:\s+[a-z-]+(?:="[^"]*")?)*)\s*>/gi)].flatMap((it) =>
        [...(it[1] ?? "").matchAll(/([a-z-]+)="/gi)].map((one) => one[1]),
      ),
    );
    for (const name of attributes)
      expect([
        "lang",
        "charset",
        "http-equiv",
        "content",
        "name",
        "class",
        "scope",
        "href",
        "data-file",
        "data-line",
        "data-row",
        "data-label",
        "colspan",
        "data-fold",
        "open",
        "title",
        "aria-label",
      ]).toContain(name);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: none of them may get through.
    expect(page).not.toMatch(/[\u0000-\u0008\u001b\u009b\u202e]/);
  }
});

test("HTML: a file's name can't leave the folder by a scheme or break out of the address", () => {
  for (const name of ["javascript:alert(1).jobsheet", 'a"b<c>.jobsheet', "//x.example/a.jobsheet", "a b#c?.jobsheet", "\ud800.jobsheet"]) {
    const page = orderHtml(partsOrder(filesFrom({ [name]: plainSheet }), [name]));
    const addresses = [...page.matchAll(/href="([^"]*)"/g)].map((it) => it[1] as string);
    expect(addresses.length).toBeGreaterThan(0);
    for (const it of addresses) {
      const url = new URL(it, "file:///work/page.html");
      expect(url.protocol).toBe("file:");
      expect(url.host).toBe("");
      expect(url.hash).toMatch(/^#L\d+$/);
    }
  }
});

test("Markdown: tables of one width, and text that stays text", () => {
  const good = orderMarkdown(orderOf(plainSheet));
  expect(good).toContain("[job.jobsheet:15](./job.jobsheet#L15)");
  expect(good).toContain("| Lock bolt; bolt, maker's no. L-4 | 1; on hold | CS 4 | 12.50 GBP; each | 12.50 GBP | 4 d |");
  expect(good).toContain("| **Together** |  |  |  | **18.50 GBP** |");
  const heads = (drawn: string) => drawn.split("\n").filter((line) => /^#{1,6} /.test(line)).length;
  const edges = (line: string) => line.replace(/\\\\/g, "").replace(/\\\|/g, "").split("|").length;
  for (const text of hostile) {
    const drawn = orderMarkdown(orderOf(hostileSheet(text)));
    // Bars that are not escaped: as many in each row of a table as in the one above it.
    const lines = drawn.split("\n");
    for (const [i, line] of lines.entries())
      if (i > 0 && line.startsWith("|") && lines[i - 1]?.startsWith("|")) expect(edges(line)).toBe(edges(lines[i - 1] as string));
    // What is escaped is itself; a word between backticks is a name, whatever it is.
    const bare = drawn.replace(/\\[!-/:-@[-`{-~]/g, "").replace(/`[\w .-]+`/g, "");
    expect(bare).not.toMatch(/<[a-z!/]|!\[|\]\((?!\.\/job\.jobsheet#L\d+\))|https?:\/\/|www\.\w|`/i);
    expect(heads(drawn)).toBe(heads(orderMarkdown(orderOf(hostileSheet("harmless")))));
  }
  expect(markdownText("1. x")).toBe("1\\. x");
  expect(markdownText("3.20 GBP each")).toBe("3.20 GBP each");
  expect(markdownText("- x")).toBe("\\- x");
});

test("the terminal's table: no control character, no line wider than the terminal but for what can't be broken", () => {
  const drawn = orderTable(orderOf(plainSheet), 80);
  expect(drawn).toContain("Parts order: Lift gate: lock worn");
  expect(drawn).toMatch(/^bolt +1 +1 +0 +0 +12\.50 GBP +crane-and-sons, CS 4, 4 d$/m);
  expect(drawn).toMatch(/^roller +3 +0 +3 +– +– +no source$/m);
  expect(drawn).toContain("found broken, to be renewed job.jobsheet:15");
  for (const text of hostile) {
    const shown = orderTable(orderOf(hostileSheet(text)), 80);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: none of them may get through.
    expect(shown).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);
  }
});

test("an empty order says so in every drawing", () => {
  const report = orderOf('sheet "Nothing yet"\n');
  for (const drawn of [orderTable(report), orderMarkdown(report), orderHtml(report)]) expect(drawn).toContain("Nothing is needed that the sheet knows of.");
  expect(readCsv(orderCsv(report))).toHaveLength(1);
  expect(JSON.parse(orderJson(report))).toMatchObject({ lines: [], surplus: [], waiting: [], suppliers: [] });
});

/** A reader of RFC 4180, strict: anything else fails. */
function readCsv(text: string): string[][] {
  expect(text.endsWith("\r\n")).toBe(true);
  const rows: string[][] = [];
  let at = 0;
  while (at < text.length) {
    const row: string[] = [];
    for (;;) {
      const quoted = /"((?:[^"]|"")*)"/y;
      const bare = /[^",\r\n]*/y;
      quoted.lastIndex = at;
      bare.lastIndex = at;
      const hit = text[at] === '"' ? quoted.exec(text) : bare.exec(text);
      if (hit === null) throw new Error(`no cell at ${at}`);
      row.push(hit[1] === undefined ? hit[0] : hit[1].replaceAll('""', '"'));
      at += hit[0].length;
      if (text[at] === ",") at += 1;
      else break;
    }
    if (text.slice(at, at + 2) !== "\r\n") throw new Error(`no line end at ${at}: ${text.slice(at, at + 20)}`);
    at += 2;
    rows.push(row);
  }
  return rows;
}
