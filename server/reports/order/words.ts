// How an order is said in words, for every drawing of it: places, quantities, money, standing, and what it rests on.
// Invariant: says what the report holds, and works nothing out.
import type { OrderChoice, OrderOutcome } from "./choice.ts";
import type { OrderOnHold } from "./on-hold.ts";
import type {
  OrderBack,
  OrderList,
  OrderLot,
  OrderNotOrdered,
  OrderReason,
  OrderRepair,
  OrderReport,
  OrderRow,
  OrderSurplus,
  OrderWaiting,
  OrderWork,
} from "./order-report.ts";
import type { SupplierSum } from "./sums.ts";
import { type Exact, compare, decimalText, exact, placesOf, ratio, trimmed } from "../../quantities/exact.ts";
import { referenceText, small } from "../../model/titles.ts";
import { counted } from "../../rules/wording.ts";
import { plain } from "../draw/plain.ts";
import { ended, soMany, titleAndName } from "../draw/so-many.ts";

/** What every drawing ends with. */
export const orderCaution =
  "Worked out from what the sheet says, no more. Where the maker's parts list says otherwise it rules: compare number, thread and size before the parcel is paid for, and again before the part is fitted.";

export function nothingWords(report: OrderReport): string {
  return report.undecided.length === 0 ? "Nothing is needed that the sheet knows of." : "Nothing is needed by what is decided so far.";
}

/** What it comes to, in a few sentences: how many things are to be ordered of how many, what nobody offers, and the money. */
export function headlineWords(report: OrderReport): string {
  if (report.lines.length === 0) return [nothingWords(report), togetherWords(report)].filter((it) => it !== undefined).join(" ");
  const bought = report.lines.filter((row) => row.lots.length > 0);
  const from = new Set(bought.flatMap((row) => row.lots.map((lot) => lot.supplier))).size;
  const held = bought.filter((row) => row.lots.some((lot) => lot.onHold !== null)).length;
  const known = report.lines.every((row) => row.standing !== "amount not known");
  const without = withoutSourceWords(report);
  const onHold = held === 0 ? "" : `, ${held === bought.length ? "all" : held} of ${bought.length === 1 ? "it" : "them"} on hold`;
  const nothing = without === undefined && known ? "Nothing to order: all of it is in stock or on its way." : "";
  const what = bought.length === 0 ? nothing : `${counted(bought.length, "thing")} to order from ${counted(from, "supplier")}${onHold}.`;
  const money = togetherWords(report);
  return [what, without ?? "", money === undefined ? "" : ended(money)].filter((it) => it !== "").join(" ");
}

/** A sign that is told by its shape, for each way that a row can stand. */
export const standingSigns: Readonly<Record<OrderRow["standing"], string>> = {
  "to order": "\u2192",
  "on hold": "\u2016",
  "in stock": "\u2713",
  "on order": "\u2026",
  "in stock and on order": "\u2026",
  "no source": "\u2717",
  "amount not known": "?",
};

/** `240 ml`, `12`; a dash where there is nothing to say. */
export function quantityWords(figure: string | null, unit: string | null): string {
  if (figure === null) return "–";
  const [shown, of] = asWritten(figure, unit);
  return of === null ? shown : `${shown} ${of}`;
}

/** The figure and unit that a person would write: `10 m` for 10000 mm, `3.5 imp.pt` for 3.51951. What has two decimals or fewer stays as it is. */
export function asWritten(figure: string, unit: string | null): [figure: string, unit: string | null] {
  const value = exact(figure);
  if (value === undefined || unit === null) return [figure, unit];
  const larger = largerUnits[unit];
  if (larger !== undefined && compare(value, larger.from) >= 0) return [rounded(value.div(larger.is)), larger.unit];
  return [rounded(value), unit];
}

const largerUnits: Readonly<Record<string, { readonly from: Exact; readonly is: Exact; readonly unit: string }>> = {
  mm: { from: ratio(1000), is: ratio(1000), unit: "m" },
  ml: { from: ratio(1000), is: ratio(1000), unit: "l" },
  g: { from: ratio(1000), is: ratio(1000), unit: "kg" },
};

function rounded(value: Exact): string {
  const places = placesOf(value);
  if (places !== undefined && places <= 2) return trimmed(decimalText(value, 2));
  const one = compare(value, ratio(1)) >= 0;
  return trimmed(decimalText(value, compare(value, ratio(100)) >= 0 ? 0 : one ? 1 : 3));
}

export function moneyWords(amount: string | null, currency: string | null): string {
  return amount === null ? "–" : `${amount} ${currency ?? ""}`.trim();
}

/** `left 1, right 2`; one at each is not counted out. */
export function whereWords(row: OrderRow): string {
  const plainly = row.places.every((it) => it.amount === "1");
  return row.places.map((it) => (plainly || it.amount === null ? it.place : `${it.place} ${it.amount}${row.unit === null ? "" : ` ${row.unit}`}`)).join(", ");
}

function nameWords(row: { readonly item: string; readonly name: string }): string {
  return plain(titleAndName(row));
}

/** `4 × tab washer 20 mm`, `250 ml of bevel drive oil (drive-oil)`. */
export function amountWords(figure: string | null, unit: string | null, row: { readonly item: string; readonly name: string }): string {
  return figure === null ? nameWords(row) : soMany(quantityWords(figure, unit), nameWords(row));
}

/** `2 packs of 12`, `3`: how many of a sale. */
export function lotAmount(lot: OrderLot): string {
  if (lot.pack === null || lot.packs === null || lot.pack === "1") return quantityWords(lot.quantity, lot.unit);
  return `${lot.packs} ${lot.packs === "1" ? "pack" : "packs"} of ${packWords(lot.pack)}`;
}

/** `25`, `10 m`. */
function packWords(pack: string): string {
  const [figure, unit] = pack.split(" ");
  return quantityWords(figure ?? pack, unit ?? null);
}

/** `2.50 GBP each`, `20.00 GBP a pack`. */
function lotPrice(lot: OrderLot): string {
  if (lot.unitPrice === null) return "–";
  const money = moneyWords(lot.unitPrice, lot.currency);
  return lot.per === "pack" ? `${money} a pack` : lot.per === "each" ? `${money} each` : `${money}, each or a pack is not said`;
}

/** `4 needed, 2 on order`, of what is there or coming in part; nothing where all of it is to be got. */
export function partlyWords(row: OrderRow): string {
  const there = [[row.stock, "in stock"] as const, [row.onOrder, "on order"] as const].filter(([figure]) => exact(figure)?.compare(0) === 1);
  if (row.need === null || there.length === 0) return "";
  return [`${quantityWords(row.need, row.unit)} needed`, ...there.map(([figure, words]) => `${quantityWords(figure, row.unit)} ${words}`)].join(", ");
}

/** `A-1 on hold`; nothing where it is not of an order on hold. */
export function holdWords(lot: OrderLot): string {
  return lot.onHold === null ? "" : lot.onHold === "" ? "on hold" : `on hold as ${referenceText(plain(lot.onHold))}`;
}

/** `2.50 GBP each` of one sale; of several how each is made up: `1 pack of 12 at 20.00 GBP a pack + 1 at 2.50 GBP each`. */
export function lotsWords(row: OrderRow): string[] {
  if (row.lots.length < 2 && row.lots.every((it) => it.onHold === null)) return [];
  const several = new Set(row.lots.map((it) => it.supplier)).size > 1;
  return row.lots.map((lot) => {
    const hold = holdWords(lot);
    const from = several && lot.supplierName !== null ? ` from ${plain(lot.supplierName)}` : "";
    const total = lot.total === null ? "" : `: ${moneyWords(lot.total, lot.currency)}`;
    return `${lotAmount(lot)}${from}${lot.number === null || row.lots.length < 2 ? "" : `, ${plain(lot.number)}`} at ${lotPrice(lot)}${total}${hold === "" ? "" : ` (${hold})`}`;
  });
}

/** One cause, and every line and place that it is of. */
export interface Cause {
  readonly text: string;
  readonly lines: readonly OrderReason[];
}

/** `comes off with the hub (left, right)`: the lines of one cause together. */
export function causesOf(row: OrderRow): Cause[] {
  const places = row.places.map((it) => it.place).sort((a, b) => b.length - a.length);
  const causes = new Map<string, { places: string[]; lines: OrderReason[] }>();
  for (const why of row.why) {
    const place = places.find((it) => why.text.startsWith(`${it}: `));
    const text = place === undefined ? why.text : why.text.slice(place.length + 2);
    const cause = causes.get(text) ?? { places: [], lines: [] };
    if (place !== undefined && !cause.places.includes(place)) cause.places.push(place);
    if (!cause.lines.some((it) => it.file === why.file && it.line === why.line)) cause.lines.push(why);
    causes.set(text, cause);
  }
  return [...causes].map(([text, cause]) => ({ text: cause.places.length === 0 ? text : `${text} (${cause.places.join(", ")})`, lines: cause.lines }));
}

/** What a reader has to know before any of it is ordered: a line each. */
export function warningWords(report: OrderReport): string[] {
  return [errorWords(report), withoutSourceWords(report), undecidedWords(report)].filter((it) => it !== undefined);
}

/** That what is ordered may be wrong, for the sheet has errors. */
export function errorWords(report: OrderReport): string | undefined {
  const { errors } = report;
  const [first] = errors;
  if (first !== undefined) {
    const sheets = new Set(errors.map((it) => it.file)).size;
    const have = report.jobs.length < 2 && sheets < 2 ? "This sheet has" : sheets < 2 ? "One of these sheets has" : "These sheets have";
    const at = report.jobs.length === 1 && report.jobs[0]?.file === first.file ? `line ${first.line}` : `${plain(first.file)}:${first.line}`;
    return `${have} ${errors.length} ${errors.length === 1 ? "error" : "errors"}: ${plain(first.text)} (${at})${errors.length === 1 ? "" : ` and ${errors.length - 1} more`}. What is ordered from it may be wrong.`;
  }
  return undefined;
}

function withoutSourceWords(report: OrderReport): string | undefined {
  const without = noSource(report);
  if (without.length > 0) {
    const named = without.slice(0, 3).map((it) => soMany(quantityWords(it.toOrder, it.orderUnit), plain(it.name)));
    const more = without.length - named.length;
    return `Nobody offers ${named.join(", ")}${more === 0 ? "" : `, and ${more} more ${more === 1 ? "thing" : "things"}`}.`;
  }
  return undefined;
}

/** That more may have to be ordered. */
export function undecidedWords(report: OrderReport): string | undefined {
  const many = report.undecided.length;
  return many === 0 ? undefined : `${many} ${many === 1 ? "finding is" : "findings are"} not decided: more may have to be ordered.`;
}

/** Whether what is on hold is best sent, added to or struck out, a sentence each. */
export function onHoldWords(onHold: OrderOnHold): string[] {
  const out = onHold.orders.map((it) => {
    const what = it.items.map((one) => amountWords(one.quantity, one.unit, one)).join(", ");
    const to = it.supplierName === null ? "" : ` to ${plain(it.supplierName)}`;
    const money = it.goods === null ? "" : `: ${moneyWords(it.goods, it.currency)} of goods`;
    const free = it.freeOver === null ? "" : `, which count towards free carriage over ${moneyWords(it.freeOver, it.currency)}`;
    return `${it.order === "" ? "An order without a reference" : `“${plain(it.order)}”`}${to} is on hold, and not ordered: ${what}${money}${free}. ${advice[it.advice ?? "none"]}`;
  });
  const comes = (it: OrderOutcome) =>
    `${moneyWords(it.total, onHold.currency)} in ${it.parcels} ${it.parcels === 1 ? "parcel" : "parcels"}${it.lead === null ? "" : `, the last in ${plain(it.lead)}`}`;
  const cheaper =
    onHold.saves === null
      ? ""
      : onHold.saves.startsWith("-")
        ? `: striking out costs ${moneyWords(onHold.saves.slice(1), onHold.currency)} more`
        : isMore(onHold.saves)
          ? `: striking out saves ${moneyWords(onHold.saves, onHold.currency)}`
          : "";
  out.push(`Sent, with the rest of the order: ${comes(onHold.kept)}. Struck out, and bought otherwise: ${comes(onHold.struckOut)}${cheaper}.`);
  return out;
}

const advice = {
  send: "It is what is needed: send it.",
  add: "Keep it, and add to it what else is ordered there.",
  "strike out": "Bought otherwise it comes to less all together: strike it out.",
  "strike out a part": "A part of it comes to less bought otherwise: strike that out.",
  none: "It is counted here as if it were sent.",
} as const;

/** `Goods 12.00, carriage 6.00: 18.00 GBP`; what is nothing is not told. */
export function sumParts(it: SupplierSum): [what: string, amount: string][] {
  const parts: [string, string][] = [
    ["Goods", it.goods],
    ["Exchange", it.exchange],
    ["Freight", it.freight],
    ["Duty", it.duty],
    ["Tax", it.tax],
  ];
  return parts.filter(([what, amount]) => what === "Goods" || isMore(amount));
}

/** What is wanting in a supplier's sum. */
export function sumNotes(it: SupplierSum): string[] {
  const out: string[] = [];
  if (it.unpriced > 0) out.push(`without ${it.unpriced} of which no price is known`);
  if (it.leastOrder !== null) out.push(`its least order is ${moneyWords(it.leastOrder, it.currency)}`);
  return out;
}

/** What one order for all jobs saves. */
export function jobByJobWords(report: OrderReport): string | undefined {
  const it = report.jobByJob;
  if (it === null) return undefined;
  const parcels = (n: number) => `${n} ${n === 1 ? "parcel" : "parcels"}`;
  const saves = isMore(it.saves) ? `: one order to each supplier saves ${moneyWords(it.saves, it.currency)}` : "";
  return `Ordered job by job it would be ${moneyWords(it.jobByJob, it.currency)} in ${parcels(it.parcelsJobByJob)}; all together it is ${moneyWords(it.together, it.currency)} in ${parcels(it.parcels)}${saves}.`;
}

/** What is counted besides the need: columns of which some row has something. */
export function countColumns(report: OrderReport): (readonly [name: string, of: (row: OrderRow) => string])[] {
  const all: (readonly [string, (row: OrderRow) => string])[] = [
    ["In stock", (row) => row.stock],
    ["On order", (row) => row.onOrder],
    ["On hold", (row) => row.held],
  ];
  return all.filter(([, of]) => report.lines.some((row) => isMore(of(row))));
}

export function surplusWords(it: OrderSurplus): string {
  const what = amountWords(it.quantity, it.unit, it);
  const from = `order ${it.order === "" ? "without a reference" : `“${plain(it.order)}”`}${it.supplierName === null ? "" : ` to ${plain(it.supplierName)}`}, ${it.status === "held" ? "on hold" : it.status}`;
  if (it.isUnasked)
    return `${what}: ${from}. Nothing asks for it by that text: write \`need\` with it and what it is for. What a kit has in it is counted as \`stock\` when it has come.`;
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
  const out = [`${ways[choice.by]}: ${comes(choice)}, freight, duty, tax and surcharges counted.`];
  const { next, oneByOne } = choice;
  if (!choice.proved)
    out.push(
      choice.atMostOver === null
        ? "There are too many ways to buy all this to look at each: it is not proved that nothing better would do."
        : `There are too many ways to buy all this to look at each, so this is not proved to be the cheapest: it is at most ${money(choice.atMostOver)} above it.`,
    );
  else if (choice.onlyWay) out.push("There is no other way to buy all this.");
  else if (!choice.others) out.push(choice.by === "soonest" ? "No other suppliers have all of it in that time." : "No other suppliers have all of it.");
  else if (next === null) out.push("What it comes to from other suppliers was not worked out.");
  else if (next.saves !== null && isMore(next.saves)) out.push(`The next best from other suppliers comes to ${comes(next)}: this saves ${money(next.saves)}.`);
  else out.push(`The next best from other suppliers comes to ${comes(next)}.`);
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
  const what = it.packs
    ? `${counted(Number(it.quantity), "old pack")} of ${small(nameWords(it))}`
    : `${soMany(it.quantity, nameWords(it))}, ${it.quantity === "1" ? "the old one" : "the old ones"},`;
  const lost = isMore(it.lost)
    ? ` ${moneyWords(it.lost, it.currency)} does not come back: ${it.missing === "0" ? "fewer old ones come off than are bought" : `${it.missing} found missing`}.`
    : "";
  return it.quantity === "0"
    ? `No old ${small(nameWords(it))} can be sent back${to}.${lost}`
    : `Send ${what} back${to}: ${moneyWords(it.recovers, it.currency)} comes back.${lost}`;
}

export function workWords(it: OrderWork): string {
  const place = it.place === null ? "" : `, ${plain(it.place)}`;
  const with_ = it.supplierName === null ? "" : ` with ${plain(it.supplierName)}`;
  const order = it.order === "" ? "" : ` (order “${plain(it.order)}”)`;
  const price = it.price === null ? "its price is not said, ask for it" : moneyWords(it.price, it.currency);
  const lead = it.lead === null ? "" : ` It takes ${plain(it.lead)} there.`;
  return `${nameWords({ item: it.part, name: it.name })}${place}: ${plain(it.what)}${with_}${order}, ${it.status}: ${price}.${lead}`;
}

/** What is to be repaired, and nobody has it in hand. */
export function repairWords(it: OrderRepair): string {
  const places = it.places.length === 0 ? "" : ` (${it.places.map(plain).join(", ")})`;
  const how = it.how === null ? "to be repaired" : plain(it.how);
  const name = nameWords({ item: it.part, name: it.name });
  return `${it.quantity === "1" ? name : soMany(it.quantity, name)}${places}: ${how}. No order sends it out, and no step repairs it here: ask a shop for its price and time, and write an order with a \`work\` line, or a step.`;
}

/** What came and was not ordered, and what is still to come instead of it. */
export function notOrderedWords(it: OrderNotOrdered): string {
  const with_ = `${it.order === "" ? "an order without a reference" : `order “${plain(it.order)}”`}${it.supplierName === null ? "" : ` of ${plain(it.supplierName)}`}`;
  const coming = it.toCome.map((one) => amountWords(one.quantity, one.unit, one)).join(", ");
  const rest = coming === "" ? "Nothing else of that order is still to come." : `Still to come of that order: ${coming}.`;
  return `${amountWords(it.quantity, it.unit, it)} came with ${with_}, which does not ask for it. ${rest} It serves as what it is, and for nothing else: send it back, or say why it may.`;
}

/** A price list that is not wholly in the order. */
export function listWords(it: OrderList): string {
  if (it.unread) return `The price list ${plain(it.file)} of ${plain(it.supplierName)} could not be read: none of its prices are in this order.`;
  const shown = it.leftOut.slice(0, 10).join(", ");
  const more = it.leftOut.length > 10 ? ` and ${it.leftOut.length - 10} more` : "";
  return `Of the price list ${plain(it.file)} ${it.leftOut.length === 1 ? "a row is" : `${it.leftOut.length} rows are`} left out: line ${shown}${more}.`;
}

/** The sums that any supplier has, by their names: no column of zeros. */
export function sumColumns(report: OrderReport): string[] {
  return ["Goods", "Exchange", "Freight", "Duty", "Tax"].filter((what) => report.suppliers.some((it) => sumParts(it).some(([part]) => part === what)));
}

/** What a supplier's sum is made of, under the name of its column. */
export function sumAt(it: SupplierSum, what: string): string | null {
  return sumParts(it).find(([part]) => part === what)?.[1] ?? null;
}

export function titleOf(report: OrderReport): string {
  const titles = report.jobs.map((it) => it.title ?? it.file);
  return titles.length === 0 ? "Parts order" : `Parts order: ${titles.map(plain).join("; ")}`;
}

/** Short, and nobody offers it. */
export function noSource(report: OrderReport): readonly OrderRow[] {
  return report.lines.filter((row) => row.standing === "no source");
}
