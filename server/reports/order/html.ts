// The parts order as a whole page: what to order by supplier, each with its sum, as it is posted; below each thing the causes that ask for it, a line each; then what is there.
// Invariant: what is written in a sheet is text there. Each row and each reason leads to its line by an address and by data attributes. No column is all nothing.
import { column } from "../draw/figure-column.ts";
import { type Content, type Markup, html } from "../draw/html.ts";
import {
  asWritten,
  causesOf,
  choiceWords,
  countColumns,
  holdWords,
  jobsWords,
  lotAmount,
  noSource,
  nothingWords,
  orderCaution,
  partlyWords,
  quantityWords,
  standingSigns,
  sumNotes,
  sumParts,
  togetherWords,
  warningWords,
  whereWords,
} from "./words.ts";
import { listsOfOrder } from "./lists.ts";
import type { OrderLot, OrderReport, OrderRow } from "./order-report.ts";
import type { SupplierSum } from "./sums.ts";
import { lineIn, listOf, pageOf, rowAt } from "../draw/page.ts";

/** A page for a browser, or for an editor that takes the rows' `data-file` and `data-line` (from 1) and goes there. */
export function orderHtml(report: OrderReport): string {
  const machines = report.jobs.flatMap((it) => it.machine ?? []);
  const own = report.jobs.length === 1 ? report.jobs[0]?.file : undefined;
  const headline = [report.lines.length === 0 ? nothingWords(report) : undefined, togetherWords(report), ...warningWords(report)].filter(
    (it) => it !== undefined,
  );
  return pageOf({
    name: "Parts order",
    heading: {
      title: report.jobs.map((it) => it.title ?? it.file).join("; "),
      ...(machines.length === 0 ? {} : { machine: machines.join("; ") }),
      file: report.jobs.map((it) => it.file).join(", "),
    },
    ...(headline[0] === undefined ? {} : { headline: headline[0], about: headline.slice(1) }),
    body: [
      bySupplier(report, own),
      without(report, own),
      covered(report, own),
      list("How it was chosen", choiceWords(report)),
      ...listsOfOrder(report, ["Nobody offers it"]).map(({ title, rows }) => listOf(title, rows, own, (it) => it.words)),
    ],
    foot: orderCaution,
  });
}

// ---------------------------------------------------------------- by supplier

interface Sale {
  readonly row: OrderRow;
  readonly lot: OrderLot;
}

/** A section for each of whom something is bought, in the order of the sums. */
function bySupplier(report: OrderReport, own: string | undefined): Markup[] {
  const sales = report.lines.flatMap((row) => row.lots.map((lot): Sale => ({ row, lot })));
  const groups = new Map<string | null, Sale[]>();
  for (const it of sales) groups.set(it.lot.supplier, [...(groups.get(it.lot.supplier) ?? []), it]);
  return [...groups].map(([supplier, list]) => {
    const sums = report.suppliers.filter((it) => it.supplier === supplier);
    return html`<section>
<h2>${list[0]?.lot.supplierName ?? "Of nobody who is named"}</h2>
${salesTable(list, report, own)}${sums.map(sumOf)}</section>
`;
  });
}

function salesTable(sales: readonly Sale[], report: OrderReport, own: string | undefined): Markup {
  const price = column(sales.map(({ lot }) => [lot.unitPrice, lot.unitPrice === null ? null : lot.currency]));
  const total = column(sales.map(({ lot }) => [lot.total, lot.total === null ? null : lot.currency]));
  const numbers = sales.some(({ lot }) => lot.number !== null);
  const leads = sales.some(({ lot }) => lot.lead !== null);
  const head: readonly (readonly [string, boolean])[] = [
    ["What", false],
    ["To order", true],
    ...(numbers ? [["Their number", false] as const] : []),
    ["Price", true],
    ["Total", true],
    ...(leads ? [["Lead", false] as const] : []),
  ];
  return html`<table class="order stack">
<thead><tr>${head.map(([it, right]) => (right ? html`<th scope="col" class="n">${it}</th>` : html`<th scope="col">${it}</th>`))}</tr></thead>
${sales.map(({ row, lot }, i) => {
  const first = row.why[0];
  // A thing of several sales has a row for each, told apart by their sellers and packs.
  const name = row.lots.length < 2 ? row.item : `${row.item} ${lot.supplier ?? ""} ${lot.pack ?? ""}${lot.onHold === null ? "" : " on hold"}`;
  const hold = holdWords(lot);
  return html`<tbody${first === undefined ? html` data-row="${name}"` : rowAt(first, name)}>
<tr>
<td>${what(row, report)}</td>
<td class="n get" data-label="To order">${lotAmount(lot)}${hold !== "" && html`<br><span class="note">on hold</span>`}</td>
${
  numbers &&
  html`<td class="late" data-label="Their number">${lot.number ?? ""}</td>
`
}<td class="n${lot.unitPrice === null && " none"}" data-label="Price">${price[i]}${lot.unitPrice !== null && html`<br><span class="code">${lot.per === "pack" ? "a pack" : lot.per === "each" ? "each" : "each or a pack?"}</span>`}</td>
<td class="n${lot.total === null && " none"}" data-label="Total">${total[i]}</td>
${
  leads &&
  html`<td class="whole" data-label="Lead">${lot.lead ?? ""}</td>
`
}</tr>
${why(row, head.length, own, hold)}</tbody>
`;
})}</table>
`;
}

function sumOf(sum: SupplierSum): Markup {
  const parts = sumParts(sum);
  const shown = parts.length > 1 ? parts : [];
  const figures = column([...shown.map(([, amount]) => [amount, sum.currency] as const), [sum.total, sum.currency] as const]);
  const notes = sumNotes(sum);
  return html`<table class="sums stack">
<tbody>
${shown.map(([part], i) => html`<tr data-row="${part} of ${sum.name} ${sum.currency}"><td>${part}</td><td class="n" data-label="${part}">${figures[i]}</td></tr>\n`)}<tr data-row="sum of ${sum.name} ${sum.currency}"><td><span class="item">Together</span>${notes.map((it) => html`<br><span class="note">${it}</span>`)}</td><td class="n get" data-label="Together">${figures[shown.length]}</td></tr>
</tbody>
</table>
`;
}

function what(row: OrderRow, report: OrderReport): Content {
  const where = whereWords(row);
  const jobs = jobsWords(row, report);
  const small = [row.name === row.item ? "" : row.item, row.makersNumber === null ? "" : `maker's no. ${row.makersNumber}`]
    .filter((it) => it !== "")
    .join(", ");
  return html`<span class="item">${row.name}</span>${where !== "" && html`<br>${where}`}${jobs !== "" && html`<br><span class="code">for ${jobs}</span>`}${small !== "" && html`<br><span class="code">${small}</span>`}`;
}

/** A line for each cause, with every line of the sheet that it is of. */
function why(row: OrderRow, columns: number, own: string | undefined, hold = ""): Markup {
  const partly = row.lots.length === 0 ? "" : partlyWords(row);
  return html`<tr class="why"><td colspan="${columns}"><ul>
${partly !== "" && html`<li>${partly}</li>\n`}${causesOf(row).map((cause) => html`<li>${cause.text} ${cause.lines.map((it, i) => html`${i > 0 && ", "}${lineIn(own, it)}`)}</li>\n`)}${hold !== "" && html`<li class="note">${hold}, not sent</li>\n`}${row.notes.map((note) => html`<li class="note">${note}</li>\n`)}</ul></td></tr>
`;
}

// ---------------------------------------------------------------- what is there

/** What is on the shelf or on its way, and what nobody has said how much of is needed. */
function covered(report: OrderReport, own: string | undefined): Markup | false {
  const lines = report.lines.filter((row) => row.lots.length === 0 && row.standing !== "no source");
  if (lines.length === 0) return false;
  const counts = countColumns({ ...report, lines });
  const need = column(lines.map((it) => pair(it.need, it.unit)));
  const columns = counts.map(([name, of]) => ({ name, figures: column(lines.map((it) => pair(of(it), it.unit))) }));
  return html`<section>
<h2>Nothing to order</h2>
<table class="order stack">
<thead><tr><th scope="col">What</th><th scope="col">Status</th><th scope="col" class="n">Needed</th>${columns.map((it) => html`<th scope="col" class="n">${it.name}</th>`)}</tr></thead>
${lines.map((row, i) => {
  const first = row.why[0];
  return html`<tbody${first === undefined ? html` data-row="${row.item}"` : rowAt(first, row.item)}>
<tr>
<td>${what(row, report)}</td>
<td class="standing" data-label="Status"><span class="sign">${standingSigns[row.standing]}</span> ${row.standing}</td>
<td class="n" data-label="Needed">${need[i]}</td>
${columns.map((it) => html`<td class="n" data-label="${it.name}">${it.figures[i]}</td>\n`)}</tr>
${why(row, 3 + columns.length, own)}</tbody>
`;
})}</table>
</section>
`;
}

function pair(figure: string | null, unit: string | null): readonly [string | null, string | null] {
  return figure === null ? [null, null] : asWritten(figure, unit);
}

/** What nobody offers, with what asks for it. */
function without(report: OrderReport, own: string | undefined): Markup | false {
  const lines = noSource(report);
  if (lines.length === 0) return false;
  return html`<section>
<h2>No source</h2>
<table class="order stack">
<thead><tr><th scope="col">What</th><th scope="col">Status</th><th scope="col" class="n">To order</th></tr></thead>
${lines.map((row) => {
  const first = row.why[0];
  return html`<tbody${first === undefined ? html` data-row="${row.item}"` : rowAt(first, row.item)}>
<tr>
<td>${what(row, report)}</td>
<td class="standing" data-label="Status"><span class="sign">${standingSigns[row.standing]}</span> ${row.standing}</td>
<td class="n get" data-label="To order">${quantityWords(row.toOrder, row.orderUnit)}</td>
</tr>
${why(row, 3, own)}</tbody>
`;
})}</table>
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
