// The parts order as a whole page: a row for each thing to get, and below it each line that asks for it.
// Invariant: what is written in a sheet is text there. Each row and each reason leads to its line by an address and by data attributes.
import { column } from "../draw/figure-column.ts";
import { type Content, type Markup, html } from "../draw/html.ts";
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
  standingSigns,
  surplusWords,
  togetherWords,
  waitingWords,
  whereWords,
  workWords,
} from "./words.ts";
import type { OrderReport, OrderRow } from "./order.ts";
import { lineIn, listOf, pageOf, rowAt } from "../draw/page.ts";

/** A page for a browser, or for an editor that takes the rows' `data-file` and `data-line` (from 1) and goes there. */
export function orderHtml(report: OrderReport): string {
  const machines = report.jobs.flatMap((it) => it.machine ?? []);
  const own = report.jobs.length === 1 ? report.jobs[0]?.file : undefined;
  const together = togetherWords(report);
  return pageOf({
    name: "Parts order",
    heading: {
      title: report.jobs.map((it) => it.title ?? it.file).join("; "),
      ...(machines.length === 0 ? {} : { machine: machines.join("; ") }),
      file: report.jobs.map((it) => it.file).join(", "),
    },
    ...(together === undefined ? {} : { headline: together }),
    body: [
      report.lines.length === 0 ? html`<p>${nothingToGet}</p>\n` : rows(report, own),
      sums(report),
      list("How it was chosen", choiceWords(report)),
      list("To send back", report.back.map(backWords)),
      listOf("Work sent out", report.work, own, workWords),
      listOf("Not needed after all", report.surplus, own, surplusWords),
      without(noSource(report)),
      listOf("Waiting for an answer", report.waiting, own, waitingWords),
      list("Price lists", report.lists.map(listWords)),
    ],
    foot: orderCaution,
  });
}

// ---------------------------------------------------------------- the rows

function rows(report: OrderReport, own: string | undefined): Markup {
  const { lines } = report;
  const need = column(lines.map((it) => [it.need, it.unit]));
  const stock = column(lines.map((it) => [it.stock, it.unit]));
  const onOrder = column(lines.map((it) => [it.onOrder, it.unit]));
  const toOrder = column(lines.map((it) => [it.toOrder, it.orderUnit]));
  const price = column(lines.map((it) => [it.unitPrice, it.unitPrice === null ? null : it.currency]));
  const total = column(lines.map((it) => [it.total, it.total === null ? null : it.currency]));
  const head = ["What", "How it stands", "Needed", "In stock", "On order", "To order", "From", "Price", "Total", "Lead"];
  const numbers = new Set(["Needed", "In stock", "On order", "To order", "Price", "Total"]);
  return html`<table class="order stack">
<thead><tr>${head.map((it) => (numbers.has(it) ? html`<th scope="col" class="n">${it}</th>` : html`<th scope="col">${it}</th>`))}</tr></thead>
${lines.map((row, i) => {
  const first = row.why[0];
  const where = whereWords(row);
  const jobs = jobsWords(row, report);
  return html`<tbody${first === undefined ? html` data-row="${row.item}"` : rowAt(first, row.item)}>
<tr>
<td><span class="item">${row.name}</span>${where !== "" && html`<br>${where}`}${jobs !== "" && html`<br><span class="code">for ${jobs}</span>`}${row.name !== row.item && html`<br><span class="code">${row.item}</span>`}${row.makersNumber !== null && html`<br><span class="code">maker's no. ${row.makersNumber}</span>`}</td>
<td class="standing" data-label="How it stands"><span class="sign">${standingSigns[row.standing]}</span> ${row.standing}</td>
<td class="n" data-label="Needed">${need[i]}</td>
<td class="n" data-label="In stock">${stock[i]}</td>
<td class="n" data-label="On order">${onOrder[i]}</td>
<td class="n get" data-label="To order">${toOrder[i]}${packs(row)}</td>
<td class="late${row.supplierName === null && " none"}" data-label="From">${row.supplierName ?? (row.standing === "no source" ? "no source" : "–")}${row.number !== null && html`<br><span class="code">${row.number}</span>`}</td>
<td class="n${row.unitPrice === null && " none"}" data-label="Price">${price[i]}${row.unitPrice !== null && html`<br><span class="code">${row.per === "pack" ? "a pack" : row.per === "each" ? "each" : "each or a pack?"}</span>`}</td>
<td class="n${row.total === null && " none"}" data-label="Total">${total[i]}</td>
<td class="whole" data-label="Lead">${row.lead ?? ""}</td>
</tr>
<tr class="why"><td colspan="${head.length}"><ul>
${row.why.map((why) => html`<li>${why.text} ${lineIn(own, why)}</li>\n`)}${row.notes.map((note) => html`<li class="note">${note}</li>\n`)}</ul></td></tr>
</tbody>
`;
})}</table>
`;
}

/** `1 pack of 2`, below how many are to be ordered. */
function packs(row: OrderRow): Content {
  if (row.pack === null || row.packs === null || row.packs === "0") return false;
  return html`<br><span class="code">${row.packs} ${row.packs === "1" ? "pack" : "packs"} of ${row.pack}</span>`;
}

// ---------------------------------------------------------------- the rest

function sums(report: OrderReport): Markup | false {
  const { suppliers } = report;
  if (suppliers.length === 0) return false;
  const goods = column(suppliers.map((it) => [it.goods, it.currency]));
  const freight = column(suppliers.map((it) => [it.freight, it.currency]));
  const duty = column(suppliers.map((it) => [it.duty, it.currency]));
  const total = column(suppliers.map((it) => [it.total, it.currency]));
  const exchange = hasExchange(report) ? column(suppliers.map((it) => [it.exchange, it.currency])) : undefined;
  return html`<section>
<h2>Sums by supplier</h2>
<table class="sums stack">
<thead><tr><th scope="col">Supplier</th><th scope="col" class="n">Goods</th>${exchange !== undefined && html`<th scope="col" class="n">Exchange</th>`}<th scope="col" class="n">Freight</th><th scope="col" class="n">Duty</th><th scope="col" class="n">Total</th></tr></thead>
<tbody>
${suppliers.map(
  (
    it,
    i,
  ) => html`<tr data-row="sum of ${it.name}"><td><span class="item">${it.name}</span>${it.unpriced > 0 && html`<br><span class="note">without ${it.unpriced} of which no price is known</span>`}</td><td class="n" data-label="Goods">${goods[i]}</td>${exchange !== undefined && html`<td class="n" data-label="Exchange">${exchange[i]}</td>`}<td class="n" data-label="Freight">${freight[i]}</td><td class="n" data-label="Duty">${duty[i]}</td><td class="n get" data-label="Total">${total[i]}</td></tr>
`,
)}</tbody>
</table>
</section>
`;
}

function without(lines: readonly OrderRow[]): Markup | false {
  if (lines.length === 0) return false;
  return html`<section>
<h2>No source</h2>
<ul>
${lines.map((it) => html`<li${it.why[0] !== undefined && html` data-file="${it.why[0].file}" data-line="${it.why[0].line}"`}>${quantityWords(it.toOrder, it.orderUnit)} of ${it.name === it.item ? it.item : `${it.name} (${it.item})`}${it.makersNumber !== null && `, maker's number ${it.makersNumber}`}</li>\n`)}</ul>
</section>
`;
}

function list(title: string, lines: readonly string[]): Markup | false {
  if (lines.length === 0) return false;
  return html`<section>
<h2>${title}</h2>
<ul>
${lines.map((it) => html`<li>${it}</li>\n`)}</ul>
</section>
`;
}
