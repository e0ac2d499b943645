// An order to one supplier as text for a letter: their numbers, whole packs, each price and sum, what goes back for exchange, and the delivery that was named.
// Invariant: plain lines, nothing of a sheet that moves a cursor or breaks a line; what is not known is asked for, never made up.
import { lotAmount, moneyWords, warningWords } from "./words.ts";
import type { OrderLot, OrderReport, OrderRow } from "./order.ts";
import { plain } from "../draw/plain.ts";

/** The suppliers that something is to be ordered from: as the sheet names them. */
export function suppliersToWrite(report: OrderReport): string[] {
  return [...new Set(salesOf(report).flatMap(({ lot }) => lot.supplier ?? []))];
}

/** Undefined where nothing is to be ordered from that supplier. `supplier` is its name in the sheet, or its title. */
export function orderLetter(report: OrderReport, supplier: string): string | undefined {
  const sales = salesOf(report).filter(({ lot }) => lot.supplier === supplier || lot.supplierName === supplier);
  const [first] = sales;
  if (first === undefined) return undefined;
  const title = plain(first.lot.supplierName ?? first.lot.supplier ?? "");
  const machines = [...new Set(report.jobs.flatMap((it) => it.machine ?? []))].map(plain);
  const out = warningsFor(report, sales);
  out.push(`Order to ${title}`, "");
  if (machines.length > 0) out.push(`For: ${machines.join("; ")}`, "");
  const fresh = sales.filter(({ lot }) => lot.onHold === null);
  const held = new Map<string, Sale[]>();
  for (const it of sales) if (it.lot.onHold !== null) held.set(it.lot.onHold, [...(held.get(it.lot.onHold) ?? []), it]);
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
  out.push(...sums(report, first.lot), "");
  const back = report.back.filter((it) => it.supplier === first.lot.supplier && it.quantity !== "0");
  if (back.length > 0) {
    out.push("In exchange we send back:", "");
    for (const it of back)
      out.push(`   ${it.quantity} old ${it.packs ? "pack of " : ""}${plain(it.name)}: ${moneyWords(it.recovers, it.currency)} of surcharge to come back`);
    out.push("");
  }
  out.push(delivery(sales));
  if (sales.some(({ lot }) => lot.total === null)) out.push("Where there is no price, please tell us yours before you send it.");
  out.push("Please send nothing else in the place of these without asking us first.", "", "With kind regards", "");
  return out.join("\n");
}

interface Sale {
  readonly row: OrderRow;
  readonly lot: OrderLot;
}

function salesOf(report: OrderReport): Sale[] {
  return report.lines.flatMap((row) => row.lots.map((lot) => ({ row, lot })));
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

/** Duty is not paid to the supplier, so it is not in the letter. */
function sums(report: OrderReport, { supplier }: OrderLot): string[] {
  const out: string[] = [];
  for (const it of report.suppliers) {
    if (it.supplier !== supplier) continue;
    const lines: [string, string][] = [["Goods", it.goods]];
    if (/[1-9]/.test(it.exchange)) lines.push(["Surcharge on exchange", it.exchange]);
    if (/[1-9]/.test(it.freight)) lines.push(["Carriage", it.freight]);
    if (/[1-9]/.test(it.tax)) lines.push(["Tax", it.tax]);
    lines.push([it.unpriced > 0 ? "Together, without what has no price" : "Together", it.payable]);
    const wide = Math.max(...lines.map(([, figure]) => figure.length));
    for (const [what, figure] of lines) out.push(`${what.padEnd(36)}${figure.padStart(wide)} ${it.currency}`.trimEnd());
  }
  return out;
}

function delivery(sales: readonly Sale[]): string {
  const unsaid = sales.some(({ lot }) => lot.lead === null);
  if (sales.every(({ lot }) => lot.lead === null)) return "Please tell us when it can be here.";
  return `Please tell us if any of it will be later than the delivery named${unsaid ? ", and when the rest can be here" : ""}.`;
}
