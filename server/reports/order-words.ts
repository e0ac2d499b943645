// How an order is said in words, for every drawing of it: places, quantities, money, standing, and what it rests on.
// Invariant: says what the report holds, and works nothing out.
import type { OrderReport, OrderRow, OrderSurplus, OrderWaiting } from "./order.ts";
import { plain } from "./plain.ts";

/** What every drawing ends with. */
export const orderCaution =
  "Worked out from what the sheet says, no more. Where the maker's parts list says otherwise it rules: compare number, thread and size before the parcel is paid for, and again before the part is fitted.";

export const nothingToGet = "Nothing is needed that the sheet knows of.";

/** A sign that is told by its shape, for each way that a row can stand. */
export const standingSigns: Readonly<Record<OrderRow["standing"], string>> = {
  "to order": "\u2192",
  "in stock": "\u2713",
  "on order": "\u2026",
  "in stock and on order": "\u2026",
  "no source": "\u2717",
  "amount not known": "?",
};

/** `240 ml`, `12`; a dash where there is nothing to say. */
export function quantityWords(figure: string | null, unit: string | null): string {
  if (figure === null) return "–";
  return unit === null ? figure : `${figure} ${unit}`;
}

export function moneyWords(amount: string | null, currency: string | null): string {
  return amount === null ? "–" : `${amount} ${currency ?? ""}`.trim();
}

/** `left 1, right 2`; one at each is not counted out. */
export function whereWords(row: OrderRow): string {
  const plainly = row.places.every((it) => it.amount === "1");
  return row.places.map((it) => (plainly || it.amount === null ? it.place : `${it.place} ${it.amount}${row.unit === null ? "" : ` ${row.unit}`}`)).join(", ");
}

/** The title with the item as the sheet names it behind, where the two differ. */
export function nameWords(row: { readonly item: string; readonly name: string }): string {
  return plain(row.name === row.item ? row.item : `${row.name} (${row.item})`);
}

/** `3.20 each`, `2.10 a pack of 25`. */
export function priceWords(row: OrderRow): string {
  if (row.unitPrice === null) return "–";
  const money = moneyWords(row.unitPrice, row.currency);
  if (row.per === "pack") return `${money} a pack${row.pack === null ? "" : ` of ${row.pack}`}`;
  return row.per === "each" ? `${money} each` : `${money}, each or a pack is not said`;
}

/** `25 (1 pack)`. */
export function toOrderWords(row: OrderRow): string {
  const amount = quantityWords(row.toOrder, row.orderUnit);
  if (row.pack === null || row.packs === null || row.packs === "0") return amount;
  return `${amount} (${row.packs} ${row.packs === "1" ? "pack" : "packs"})`;
}

export function surplusWords(it: OrderSurplus): string {
  const what = `${quantityWords(it.quantity, it.unit)} of ${nameWords(it)}`;
  const from = `order ${it.order === "" ? "without a reference" : `“${plain(it.order)}”`}${it.supplierName === null ? "" : ` to ${plain(it.supplierName)}`}, ${it.status}`;
  const saved = it.saves === null ? "what that saves is not known" : `saves ${moneyWords(it.saves, it.currency)}`;
  return it.status === "held"
    ? `${what}: ${from}. Cancelling ${saved}.`
    : `${what}: ${from}. If it can still be cancelled or sent back, that ${it.saves === null ? "saves what was paid for it" : saved}.`;
}

export function waitingWords(it: OrderWaiting): string {
  const places = it.places.length === 0 ? "" : ` (${it.places.map(plain).join(", ")})`;
  const amount = it.quantity === null ? "" : it.onOrder ? `, ${quantityWords(it.quantity, it.unit)} on order` : `, ${quantityWords(it.quantity, it.unit)}`;
  return `${nameWords(it)}${amount}${places}: “${plain(it.asks)}”`;
}

/** What all of it comes to, or why that is not said. */
export function togetherWords(report: OrderReport): string | undefined {
  if (report.suppliers.length === 0) return undefined;
  if (report.together !== null)
    return `All together ${moneyWords(report.together.amount, report.together.currency)}${report.rates.length === 0 ? "" : `, at ${report.rates.join(", ")}`}`;
  const codes = report.withoutRate.filter((it) => it !== "");
  return codes.length === 0 ? undefined : `No total together: the sheet gives no rate for ${codes.join(", ")}.`;
}

export function titleOf(report: OrderReport): string {
  const titles = report.jobs.map((it) => it.title ?? it.file);
  return titles.length === 0 ? "Parts order" : `Parts order: ${titles.map(plain).join("; ")}`;
}

/** Rows of three kinds: to be ordered, short without a source, and covered. */
export function noSource(report: OrderReport): readonly OrderRow[] {
  return report.lines.filter((row) => row.standing === "no source");
}
