// The parts order as a whole page: the style inside, nothing fetched, nothing that runs. It prints on A4 and on Letter.
// Invariant: what is written in a sheet is text there. Each row and each reason leads to its line by an address and by data attributes.
import { type Content, Markup, hrefOf, html } from "./html.ts";
import { orderStyle } from "./order-style.ts";
import {
  backWords,
  choiceWords,
  hasExchange,
  jobsWords,
  listWords,
  noSource,
  nothingToGet,
  orderCaution,
  quantityWords,
  surplusWords,
  titleOf,
  togetherWords,
  waitingWords,
  whereWords,
  workWords,
} from "./order-words.ts";
import type { OrderReport, OrderRow } from "./order.ts";

const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/** A page for a browser, or for an editor that takes the rows' `data-file` and `data-line` (from 1) and goes there. */
export function orderHtml(report: OrderReport): string {
  const title = titleOf(report);
  const machines = report.jobs.flatMap((it) => it.machine ?? []);
  const page = html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${new Markup(orderStyle)}</style>
</head>
<body>
<main>
<header>
<h1>${title}</h1>
${machines.length > 0 && html`<p>${machines.join("; ")}</p>\n`}</header>
${report.lines.length === 0 ? html`<p>${nothingToGet}</p>\n` : rows(report)}${sums(report)}${list("How it was chosen", choiceWords(report))}${list("To send back", report.back.map(backWords))}${section("Work sent out", report.work, workWords)}${section("Not needed after all", report.surplus, surplusWords)}${without(noSource(report))}${section("Waiting for an answer", report.waiting, waitingWords)}${list("Price lists", report.lists.map(listWords))}<footer>${orderCaution}</footer>
</main>
</body>
</html>
`;
  return page.text;
}

// ---------------------------------------------------------------- the rows

function rows(report: OrderReport): Markup {
  const { lines } = report;
  const need = column(lines.map((it) => [it.need, it.unit]));
  const stock = column(lines.map((it) => [it.stock, it.unit]));
  const onOrder = column(lines.map((it) => [it.onOrder, it.unit]));
  const toOrder = column(lines.map((it) => [it.toOrder, it.orderUnit]));
  const packs = column(lines.map((it) => [it.packs, null]));
  const price = column(lines.map((it) => [it.unitPrice, it.unitPrice === null ? null : it.currency]));
  const total = column(lines.map((it) => [it.total, it.total === null ? null : it.currency]));
  const head = ["What", "Where", "How it stands", "Needed", "In stock", "On order", "To order", "Packs", "From", "Price", "Total", "Lead"];
  const numbers = new Set(["Needed", "In stock", "On order", "To order", "Packs", "Price", "Total"]);
  return html`<div class="wide">
<table class="order">
<thead><tr>${head.map((it) => (numbers.has(it) ? html`<th scope="col" class="n">${it}</th>` : html`<th scope="col">${it}</th>`))}</tr></thead>
${lines.map((row, i) => {
  const first = row.why[0];
  const at = first === undefined ? undefined : html` data-file="${first.file}" data-line="${first.line}"`;
  const name = html`<span class="item">${row.name}</span>`;
  return html`<tbody>
<tr${at}>
<td>${first === undefined ? name : html`<a href="${hrefOf(first.file, first.line)}"${at}>${name}</a>`}${row.name !== row.item && html`<br><span class="code">${row.item}</span>`}${row.makersNumber !== null && html`<br><span class="code">maker's no. ${row.makersNumber}</span>`}</td>
<td>${whereWords(row)}${jobsWords(row, report) !== "" && html`<br><span class="code">for ${jobsWords(row, report)}</span>`}</td>
<td class="standing">${row.standing}</td>
<td class="n">${need[i]}</td>
<td class="n">${stock[i]}</td>
<td class="n">${onOrder[i]}</td>
<td class="n get">${toOrder[i]}</td>
<td class="n">${packs[i]}${row.pack !== null && html`<br><span class="code">of ${row.pack}</span>`}</td>
<td>${row.supplierName ?? (row.standing === "no source" ? "no source" : "–")}${row.number !== null && html`<br><span class="code">${row.number}</span>`}</td>
<td class="n">${price[i]}${row.unitPrice !== null && html`<br><span class="code">${row.per === "pack" ? "a pack" : row.per === "each" ? "each" : "each or a pack?"}</span>`}</td>
<td class="n">${total[i]}</td>
<td>${row.lead ?? ""}</td>
</tr>
<tr class="why"><td colspan="${head.length}"><ul>
${row.why.map((why) => html`<li>${why.text} ${link(why.file, why.line)}</li>\n`)}${row.notes.map((note) => html`<li class="note">${note}</li>\n`)}</ul></td></tr>
</tbody>
`;
})}</table>
</div>
`;
}

/** The figures of a column, the points one below the other: what stands behind the point is as wide everywhere. */
function column(cells: readonly (readonly [figure: string | null, unit: string | null])[]): Content[] {
  const split = cells.map(([figure]) => (figure ?? "").split("."));
  const behind = Math.max(0, ...split.map(([, decimals]) => (decimals === undefined ? 0 : decimals.length + 1)));
  const units = Math.max(0, ...cells.map(([, unit]) => [...(unit ?? "")].length));
  return cells.map(([figure, unit], i) => {
    if (figure === null) return "–";
    const [whole, decimals] = split[i] as [string, string?];
    return html`${whole}${behind > 0 && html`<span class="f" style="width:${behind}ch">${decimals === undefined ? "" : `.${decimals}`}</span>`}${units > 0 && html`<span class="u" style="width:${units + 0.6}ch">${unit ?? ""}</span>`}`;
  });
}

function link(file: string, line: number): Markup {
  return html`<a href="${hrefOf(file, line)}" data-file="${file}" data-line="${line}">${file}:${line}</a>`;
}

// ---------------------------------------------------------------- the rest

function sums(report: OrderReport): Markup | false {
  const { suppliers } = report;
  const together = togetherWords(report);
  if (suppliers.length === 0) return together !== undefined && html`<p>${together}</p>\n`;
  const goods = column(suppliers.map((it) => [it.goods, null]));
  const freight = column(suppliers.map((it) => [it.freight, null]));
  const duty = column(suppliers.map((it) => [it.duty, null]));
  const total = column(suppliers.map((it) => [it.total, it.currency]));
  const exchange = hasExchange(report) ? column(suppliers.map((it) => [it.exchange, null])) : undefined;
  return html`<h2>Sums by supplier</h2>
<table class="sums">
<thead><tr><th scope="col">Supplier</th><th scope="col" class="n">Goods</th>${exchange !== undefined && html`<th scope="col" class="n">Exchange</th>`}<th scope="col" class="n">Freight</th><th scope="col" class="n">Duty</th><th scope="col" class="n">Total</th></tr></thead>
<tbody>
${suppliers.map(
  (
    it,
    i,
  ) => html`<tr><td>${it.name}${it.unpriced > 0 && html`<br><span class="note">without ${it.unpriced} of which no price is known</span>`}</td><td class="n">${goods[i]}</td>${exchange !== undefined && html`<td class="n">${exchange[i]}</td>`}<td class="n">${freight[i]}</td><td class="n">${duty[i]}</td><td class="n get">${total[i]}</td></tr>
`,
)}</tbody>
</table>
${together !== undefined && html`<p>${together}</p>\n`}`;
}

function without(lines: readonly OrderRow[]): Markup | false {
  if (lines.length === 0) return false;
  return html`<h2>No source</h2>
<ul>
${lines.map((it) => html`<li>${quantityWords(it.toOrder, it.orderUnit)} of ${it.name === it.item ? it.item : `${it.name} (${it.item})`}${it.makersNumber !== null && `, maker's number ${it.makersNumber}`}</li>\n`)}</ul>
`;
}

function list(title: string, lines: readonly string[]): Markup | false {
  if (lines.length === 0) return false;
  return html`<h2>${title}</h2>
<ul>
${lines.map((it) => html`<li>${it}</li>\n`)}</ul>
`;
}

function section<T extends { readonly file: string; readonly line: number }>(title: string, list: readonly T[], words: (it: T) => string): Markup | false {
  if (list.length === 0) return false;
  return html`<h2>${title}</h2>
<ul>
${list.map((it) => html`<li data-file="${it.file}" data-line="${it.line}">${words(it)} ${link(it.file, it.line)}</li>\n`)}</ul>
`;
}
