// An order to one supplier as text for a letter: their numbers, whole packs, each price and sum, what goes back for exchange, and the delivery that was named.
// Invariant: plain lines, nothing of a sheet that moves a cursor or breaks a line; what is not known is asked for, never made up.
import { moneyWords, quantityWords } from "./words.ts";
import type { OrderReport, OrderRow } from "./order.ts";
import { plain } from "../draw/plain.ts";

/** The suppliers that something is to be ordered from: as the sheet names them. */
export function suppliersToWrite(report: OrderReport): string[] {
  return [...new Set(toOrder(report).flatMap((row) => row.supplier ?? []))];
}

/** Undefined where nothing is to be ordered from that supplier. `supplier` is its name in the sheet, or its title. */
export function orderLetter(report: OrderReport, supplier: string): string | undefined {
  const rows = toOrder(report).filter((row) => row.supplier === supplier || row.supplierName === supplier);
  const [first] = rows;
  if (first === undefined) return undefined;
  const title = plain(first.supplierName ?? first.supplier ?? "");
  const machines = [...new Set(report.jobs.flatMap((it) => it.machine ?? []))].map(plain);
  const out = [`Order to ${title}`, ""];
  if (machines.length > 0) out.push(`For: ${machines.join("; ")}`, "");
  out.push("Please send us:", "");
  for (const [i, row] of rows.entries()) out.push(...item(row, i + 1), "");
  out.push(...sums(report, first), "");
  const back = report.back.filter((it) => it.supplier === first.supplier && it.quantity !== "0");
  if (back.length > 0) {
    out.push("In exchange we send back:", "");
    for (const it of back)
      out.push(`   ${it.quantity} old ${it.packs ? "pack of " : ""}${plain(it.name)}: ${moneyWords(it.recovers, it.currency)} of surcharge to come back`);
    out.push("");
  }
  out.push(delivery(rows));
  if (rows.some((row) => row.total === null)) out.push("Where no price stands, please tell us yours before you send it.");
  out.push("Please send nothing else in the place of these without asking us first.", "", "With kind regards", "");
  return out.join("\n");
}

function toOrder(report: OrderReport): OrderRow[] {
  return report.lines.filter((row) => row.standing === "to order");
}

function item(row: OrderRow, n: number): string[] {
  const amount =
    row.packs !== null && row.pack !== null && row.pack !== "1"
      ? `${row.packs} ${row.packs === "1" ? "pack" : "packs"} of ${row.pack}`
      : quantityWords(row.toOrder, row.orderUnit);
  const out = [`${n}. ${amount} × ${plain(row.name)}`];
  if (row.number !== null) out.push(`your number ${plain(row.number)}`);
  if (row.makersNumber !== null) out.push(`maker's number ${plain(row.makersNumber)}`);
  if (row.unitPrice !== null) {
    const per = row.per === "pack" ? "a pack" : row.per === "each" ? "each" : "(each, or a pack? please say)";
    out.push(`${moneyWords(row.unitPrice, row.currency)} ${per}${row.total === null ? "" : `: ${moneyWords(row.total, row.currency)}`}`);
  }
  if (row.exchange !== null) out.push(`surcharge until the old ones are back: ${moneyWords(row.exchange, row.exchangeCurrency)}`);
  if (row.lead !== null) out.push(`delivery named: ${plain(row.lead)}`);
  return out.map((line, i) => (i === 0 ? line : `   ${line}`));
}

/** Duty is not paid to the supplier, so it is not in the letter. */
function sums(report: OrderReport, { supplier }: OrderRow): string[] {
  const out: string[] = [];
  for (const it of report.suppliers) {
    if (it.supplier !== supplier) continue;
    const lines: [string, string][] = [["Goods", it.goods]];
    if (/[1-9]/.test(it.exchange)) lines.push(["Surcharge on exchange", it.exchange]);
    if (/[1-9]/.test(it.freight)) lines.push(["Carriage", it.freight]);
    lines.push([it.unpriced > 0 ? "Together, without what has no price" : "Together", it.payable]);
    const wide = Math.max(...lines.map(([, figure]) => figure.length));
    for (const [what, figure] of lines) out.push(`${what.padEnd(36)}${figure.padStart(wide)} ${it.currency}`.trimEnd());
  }
  return out;
}

function delivery(rows: readonly OrderRow[]): string {
  const unsaid = rows.some((row) => row.lead === null);
  if (rows.every((row) => row.lead === null)) return "Please tell us when it can be here.";
  return `Please tell us if any of it will be later than the delivery named${unsaid ? ", and when the rest can be here" : ""}.`;
}
