// An order to one supplier as text for a letter: their numbers, whole packs, each price and sum, what goes back for exchange, and the delivery that was named.
// Invariant: plain lines, nothing of a sheet that moves a cursor or breaks a line; what is not known is asked for, never made up.
import { putInto } from "../../model/grouped.ts";
import { lotAmount, moneyWords, warningWords } from "./words.ts";
import type { OrderLot, OrderReport, OrderRow, OrderWork } from "./order-report.ts";
import { exact, zero } from "../../quantities/exact.ts";
import { moneyFigure } from "../draw/money-figure.ts";
import { plain } from "../draw/plain.ts";

/** The suppliers that something is to be ordered from: as the sheet names them. */
export function suppliersToWrite(report: OrderReport): string[] {
  return [...new Set([...salesOf(report).flatMap(({ lot }) => lot.supplier ?? []), ...toSend(report).flatMap((it) => it.supplier ?? [])])];
}

/** Undefined where nothing is to be ordered from that supplier. `supplier` is its name in the sheet, or its title. */
export function orderLetter(report: OrderReport, supplier: string): string | undefined {
  const sales = salesOf(report).filter(({ lot }) => lot.supplier === supplier || lot.supplierName === supplier);
  const work = toSend(report).filter((it) => it.supplier === supplier || it.supplierName === supplier);
  const first = sales[0]?.lot ?? work[0];
  if (first === undefined) return undefined;
  const title = plain(first.supplierName ?? first.supplier ?? "");
  const machines = [...new Set(report.jobs.flatMap((it) => it.machine ?? []))].map(plain);
  const out = warningsFor(report, sales);
  out.push(`Order to ${title}`, "");
  if (machines.length > 0) out.push(`For: ${machines.join("; ")}`, "");
  const fresh = sales.filter(({ lot }) => lot.onHold === null);
  const held = new Map<string, Sale[]>();
  for (const it of sales) if (it.lot.onHold !== null) putInto(held, it.lot.onHold, it);
  let n = 0;
  if (fresh.length > 0) out.push("Please send us:", "");
  for (const it of fresh) out.push(...item(it, ++n), "");
  for (const [reference, list] of held) {
    out.push(
      `${fresh.length > 0 ? "And please send what you hold for us" : "Please send what you hold for us"}${reference === "" ? "" : ` as ${plain(reference)}`}:`,
      "",
    );
    for (const it of list) out.push(...item(it, ++n), "");
  }
  if (work.length > 0) out.push("We send you to be worked on:", "");
  for (const it of work) out.push(...job(it, ++n), "");
  const sum = sums(report, first, work);
  if (sum.length > 0) out.push(...sum, "");
  const back = report.back.filter((it) => it.supplier === first.supplier && it.quantity !== "0");
  if (back.length > 0) {
    out.push("In exchange we send back:", "");
    for (const it of back)
      out.push(`   ${it.quantity} old ${it.packs ? "pack of " : ""}${plain(it.name)}: ${moneyWords(it.recovers, it.currency)} of surcharge to come back`);
    out.push("");
  }
  out.push(delivery([...sales.map(({ lot }) => lot.lead), ...work.map((it) => it.lead)]));
  if (sales.some(({ lot }) => lot.total === null)) out.push("Where there is no price, please tell us yours before you send it.");
  if (work.some((it) => it.price === null)) out.push("Please tell us what the work will cost before you begin.");
  if (sales.length > 0) out.push("Please send nothing else in the place of these without asking us first.");
  out.push("", "With kind regards", "");
  return out.join("\n");
}

interface Sale {
  readonly row: OrderRow;
  readonly lot: OrderLot;
}

function salesOf(report: OrderReport): Sale[] {
  return report.lines.flatMap((row) => row.lots.map((lot) => ({ row, lot })));
}

/** Work that is written down as an order, and has not gone out yet. */
function toSend(report: OrderReport): readonly OrderWork[] {
  return report.work.filter((it) => it.status === "held");
}

/** What whoever sends it has to know first, set apart from the letter. */
function warningsFor(report: OrderReport, sales: readonly Sale[]): string[] {
  const out: string[] = [];
  const [first] = report.errors;
  if (first !== undefined) out.push(...warningWords({ ...report, lines: [], undecided: [] }).map((it) => `[Before you send this: ${it}]`));
  const held = new Set(sales.flatMap(({ lot }) => lot.onHold ?? []));
  for (const it of held)
    out.push(
      `[${it === "" ? "What is on hold" : `“${plain(it)}”`} is on hold, and not ordered yet: send it too? Its lines are below; strike them out if not.]`,
    );
  return out.length === 0 ? [] : [...out, ""];
}

function item({ row, lot }: Sale, n: number): string[] {
  const out = [`${n}. ${lotAmount(lot)} × ${plain(row.name)}`];
  if (lot.number !== null) out.push(`your number ${plain(lot.number)}`);
  if (row.makersNumber !== null) out.push(`maker's number ${plain(row.makersNumber)}`);
  if (lot.unitPrice !== null) {
    const per = lot.per === "pack" ? "a pack" : lot.per === "each" ? "each" : "(each, or a pack? please say)";
    out.push(`${moneyWords(lot.unitPrice, lot.currency)} ${per}${lot.total === null ? "" : `: ${moneyWords(lot.total, lot.currency)}`}`);
  }
  if (lot.exchange !== null) out.push(`surcharge until the old ones are back: ${moneyWords(lot.exchange, lot.exchangeCurrency)}`);
  if (lot.lead !== null) out.push(`delivery named: ${plain(lot.lead)}`);
  return out.map((line, i) => (i === 0 ? line : `   ${line}`));
}

function job(it: OrderWork, n: number): string[] {
  const out = [`${n}. ${plain(it.name)}${it.place === null ? "" : `, ${plain(it.place)}`}: ${plain(it.what)}`];
  if (it.order !== "") out.push(`our reference ${plain(it.order)}`);
  if (it.price !== null) out.push(moneyWords(it.price, it.currency));
  if (it.lead !== null) out.push(`time named: ${plain(it.lead)}`);
  return out.map((line, i) => (i === 0 ? line : `   ${line}`));
}

/** Duty is not paid to the supplier, so it is not in the letter. */
function sums(report: OrderReport, { supplier }: Pick<OrderLot, "supplier">, work: readonly OrderWork[]): string[] {
  const out: string[] = [];
  const bills = report.suppliers.filter((it) => it.supplier === supplier);
  const codes = new Set([...bills.map((it) => it.currency), ...work.flatMap((it) => it.currency ?? [])]);
  for (const code of codes) {
    const bill = bills.find((it) => it.currency === code);
    const lines: [string, string][] = [];
    if (bill !== undefined) lines.push(["Goods", bill.goods]);
    if (bill !== undefined && /[1-9]/.test(bill.exchange)) lines.push(["Surcharge on exchange", bill.exchange]);
    if (bill !== undefined && /[1-9]/.test(bill.freight)) lines.push(["Carriage", bill.freight]);
    if (bill !== undefined && /[1-9]/.test(bill.tax)) lines.push(["Tax", bill.tax]);
    const prices = work.flatMap((it) => (it.currency === code && it.price !== null ? it.price : []));
    if (prices.length > 0) lines.push(["Work", addedUp(prices, code)]);
    const unpriced = (bill?.unpriced ?? 0) > 0 || work.some((it) => it.price === null);
    lines.push([unpriced ? "Together, without what has no price" : "Together", addedUp([...(bill === undefined ? [] : [bill.payable]), ...prices], code)]);
    const wide = Math.max(...lines.map(([, figure]) => figure.length));
    for (const [what, figure] of lines) out.push(`${what.padEnd(36)}${figure.padStart(wide)} ${code}`.trimEnd());
  }
  return out;
}

function addedUp(figures: readonly string[], code: string): string {
  return moneyFigure({ amount: figures.reduce((sum, it) => sum.add(exact(it) ?? zero), zero), code });
}

/** `leads`: what is named for each thing, null where nothing is. */
function delivery(leads: readonly (string | null)[]): string {
  if (leads.every((it) => it === null)) return "Please tell us when it can be here.";
  return `Please tell us if any of it will be later than the delivery named${leads.includes(null) ? ", and when the rest can be here" : ""}.`;
}
