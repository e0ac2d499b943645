// How an order is said in words, for every drawing of it: places, quantities, money, standing, and what it rests on.
// Invariant: says what the report holds, and works nothing out.
import type { OrderChoice, OrderOutcome } from "./choice.ts";
import type { OrderBack, OrderList, OrderReport, OrderRow, OrderSurplus, OrderWaiting, OrderWork } from "./order.ts";
import { plain } from "../draw/plain.ts";

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
  const due = it.due === null ? "" : ` It is due ${it.due}.`;
  const carriage =
    it.freightSaved !== null
      ? ` Nothing is left of that order, so its carriage of ${moneyWords(it.freightSaved, it.freightCurrency)} is saved too.`
      : it.freightDue !== null
        ? ` What is left of that order no longer earns free carriage: ${moneyWords(it.freightDue, it.freightCurrency)} becomes due.`
        : "";
  switch (it.cancel) {
    case "strike out":
      return `${what}: ${from}. Cancelling ${saved}.${carriage}`;
    case "ask":
      return `${what}: ${from}.${due} Ask before it is sent: cancelling ${saved}.${carriage}`;
    default:
      return `${what}: ${from}.${due} It is too late to cancel it; if it can be sent back, that ${it.saves === null ? "saves what was paid for it" : saved}, less the carriage.`;
  }
}

export function waitingWords(it: OrderWaiting): string {
  const places = it.places.length === 0 ? "" : ` (${it.places.map(plain).join(", ")})`;
  const amount = it.quantity === null ? "" : it.onOrder ? `, ${quantityWords(it.quantity, it.unit)} on order` : `, ${quantityWords(it.quantity, it.unit)}`;
  return `${nameWords(it)}${amount}${places}: “${plain(it.asks)}”`;
}

/** What all of it comes to, or why that is not said. */
export function togetherWords(report: OrderReport): string | undefined {
  if (report.totals.length === 0) return undefined;
  const out = report.work.some((it) => it.price !== null) ? ", with the work that is out" : "";
  if (report.together !== null)
    return `All together ${moneyWords(report.together.amount, report.together.currency)}${out}${report.rates.length === 0 ? "" : `, at ${report.rates.join(", ")}`}`;
  const codes = report.withoutRate.filter((it) => it !== "");
  if (codes.length === 0) return undefined;
  const each = report.totals.length > 1 ? ` In each currency${out}: ${report.totals.map((it) => moneyWords(it.amount, it.currency)).join(", ")}.` : "";
  return `No total together: the sheet gives no rate for ${codes.join(", ")}.${each}`;
}

/** `Hub bearings 2, Steering 1`; nothing where there is one job only. */
export function jobsWords(row: OrderRow, report: OrderReport): string {
  if (report.jobs.length < 2) return "";
  return row.jobs.map((it) => plain(`${it.title ?? it.file}${it.amount === null ? "" : ` ${quantityWords(it.amount, row.unit)}`}`)).join(", ");
}

const ways: Readonly<Record<OrderChoice["by"], string>> = {
  cheapest: "Chosen to be the cheapest all together",
  fewest: "Chosen to come in the fewest parcels, and then to be the cheapest",
  soonest: "Chosen to be all there soonest, and then to be the cheapest",
};

/** How the offers were chosen, and what that saves: a sentence each. */
export function choiceWords(report: OrderReport): string[] {
  const { choice } = report;
  if (choice === null || choice.parcels === 0) return [];
  const money = (amount: string | null) => moneyWords(amount, choice.currency);
  const comes = (it: OrderOutcome) =>
    `${money(it.total)}${choice.apart.length === 0 ? "" : ` besides what is in ${choice.apart.join(", ")}`} in ${it.parcels} ${it.parcels === 1 ? "parcel" : "parcels"}${it.lead === null ? "" : `, the last in ${plain(it.lead)}`}`;
  const out = [`${ways[choice.by]}: ${comes(choice)}, freight, duty and surcharges counted.`];
  const { next, oneByOne } = choice;
  if (!choice.proved)
    out.push(
      choice.atMostOver === null
        ? "There are too many ways to buy all this to look at each: that no fewer parcels would do is not proved."
        : `There are too many ways to buy all this to look at each, so this is not proved to be the cheapest: it is at most ${money(choice.atMostOver)} above it.`,
    );
  else if (next === null) out.push("There is no other way to buy all this.");
  else if (next.saves !== null && isMore(next.saves)) out.push(`The next best comes to ${comes(next)}: this saves ${money(next.saves)}.`);
  else out.push(`The next best comes to ${comes(next)}.`);
  if (oneByOne.saves !== null && isMore(oneByOne.saves))
    out.push(`Each thing from its own cheapest offer would be ${comes(oneByOne)}: this saves ${money(oneByOne.saves)}.`);
  else if (choice.by !== "cheapest" && oneByOne.saves !== null && oneByOne.saves.startsWith("-"))
    out.push(`Each thing from its own cheapest offer would be ${comes(oneByOne)}: this costs ${money(oneByOne.saves.slice(1))} more.`);
  if (choice.apart.length > 0) out.push(`The sheet gives no rate for ${choice.apart.join(", ")}: prices in it are compared with one another only.`);
  return out;
}

function isMore(figure: string): boolean {
  return !figure.startsWith("-") && /[1-9]/.test(figure);
}

/** What goes back for a surcharge, and what of it is lost. */
export function backWords(it: OrderBack): string {
  const to = it.supplierName === null ? "" : ` to ${plain(it.supplierName)}`;
  const what = `${it.quantity} old ${it.packs ? (it.quantity === "1" ? "pack of " : "packs of ") : ""}${nameWords(it)}`;
  const lost = isMore(it.lost)
    ? ` ${moneyWords(it.lost, it.currency)} does not come back: ${it.missing === "0" ? "fewer old ones come off than are bought" : `${it.missing} found missing`}.`
    : "";
  return it.quantity === "0"
    ? `Nothing of ${nameWords(it)} can be sent back${to}.${lost}`
    : `Send ${what} back${to}: ${moneyWords(it.recovers, it.currency)} comes back.${lost}`;
}

export function workWords(it: OrderWork): string {
  const place = it.place === null ? "" : `, ${plain(it.place)}`;
  const with_ = it.supplierName === null ? "" : ` with ${plain(it.supplierName)}`;
  const order = it.order === "" ? "" : ` (order “${plain(it.order)}”)`;
  const price = it.price === null ? "its price is not said" : moneyWords(it.price, it.currency);
  return `${nameWords({ item: it.part, name: it.name })}${place}: ${plain(it.what)}${with_}${order}, ${it.status}: ${price}.`;
}

/** A price list that is not wholly in the order. */
export function listWords(it: OrderList): string {
  if (it.unread) return `The price list ${plain(it.file)} of ${plain(it.supplierName)} could not be read: none of its prices are in this order.`;
  const shown = it.leftOut.slice(0, 10).join(", ");
  const more = it.leftOut.length > 10 ? ` and ${it.leftOut.length - 10} more` : "";
  return `Of the price list ${plain(it.file)} ${it.leftOut.length === 1 ? "a row is" : `${it.leftOut.length} rows are`} left out: line ${shown}${more}.`;
}

/** Are there surcharges in these sums? */
export function hasExchange(report: OrderReport): boolean {
  return report.suppliers.some((it) => isMore(it.exchange));
}

export function titleOf(report: OrderReport): string {
  const titles = report.jobs.map((it) => it.title ?? it.file);
  return titles.length === 0 ? "Parts order" : `Parts order: ${titles.map(plain).join("; ")}`;
}

/** Rows of three kinds: to be ordered, short without a source, and covered. */
export function noSource(report: OrderReport): readonly OrderRow[] {
  return report.lines.filter((row) => row.standing === "no source");
}
