// The parts order of one job or of several: what to get, how many, from whom, at what price, and which lines ask for it.
// Invariant: a plain value, worked out here and drawn elsewhere. Money and quantities are exact, and leave as decimal strings; nothing is invented.
import { type Slices, apart, mapping } from "../../../grammar/slices.ts";
import type { Files } from "../../model/files.ts";
import { pricesOf } from "../../supply/prices.ts";
import { plainText } from "../../quantities/exact.ts";
import type { Choosing } from "../../supply/choose.ts";
import type { NotOrdered } from "../../supply/not-ordered.ts";
import { supplierNamed } from "../../supply/offers.ts";
import { type RepairToCome, repairsToCome } from "../../supply/repairs.ts";
import { type SendBack, sendBackOf } from "../../supply/send-back.ts";
import type { Story } from "../../story/story.ts";
import { type WaitingRow, supplyingAll } from "../../supply/supply.ts";
import type { SurplusLine } from "../../supply/surplus.ts";
import { judging } from "../../story/verdicts.ts";
import { type WorkOut, workOutOf } from "../../supply/work-out.ts";
import { type Slip, slipsOf } from "../../rules/slips.ts";
import { storiesOf } from "../draw/heading.ts";
import { moneyFigure } from "../draw/money-figure.ts";
import { figureText, unitText } from "./amount-figure.ts";
import { choiceOf } from "./choice.ts";
import { onHoldOf } from "./on-hold.ts";
import { sumsOf } from "./sums.ts";
import { togetherOf } from "./job-by-job.ts";
import { type LineOf, lineFinder } from "./lines-of.ts";
import type { OrderBack, OrderList, OrderNotOrdered, OrderRemark, OrderRepair, OrderReport, OrderSurplus, OrderWaiting, OrderWork } from "./order-report.ts";
import { lineOfOrder } from "./order-row.ts";

/**
 * The order of the sheets at `paths`, taken together: the needs of each job, then one shelf. A path that can't be read is left out.
 * `choosing` chooses among the offers; without it each thing is taken from the seller whose goods are cheapest.
 */
export function* ordering(files: Files, paths: readonly string[], choosing?: Choosing): Slices<OrderReport> {
  const stories = yield* storiesOf(files, paths);
  const lineOf = lineFinder(stories.map((story) => story.job));
  const supply = yield* supplyingAll(stories, choosing);
  for (const story of stories) yield* judging(story);
  const remarks = yield* remarksOf(stories, lineOf);
  const work = yield* apart(() => workOutOf(stories));
  const titles = new Map(stories.map((story) => [story.job.path, story.job.sheet?.title?.value ?? null]));
  return {
    ...remarks,
    jobs: stories.filter((story) => story.job.sheet !== undefined || stories.length === 1).map(headOf),
    lines: yield* mapping(supply.rows, (row) => lineOfOrder(row, lineOf, titles)),
    surplus: yield* mapping(yield* apart(() => supply.surplus), (it) => surplusOf(it, stories, lineOf)),
    waiting: yield* mapping(supply.waiting, (it) => waitingOf(it, stories, lineOf)),
    choice: supply.choice === undefined ? null : choiceOf(supply.choice),
    onHold: yield* apart(() => (supply.onHold === undefined ? null : onHoldOf(supply.onHold, stories, supply.choice, lineOf))),
    jobByJob: yield* apart(() => togetherOf(supply, stories)),
    back: yield* apart(() => sendBackOf(supply.rows, stories).map(backOf)),
    work: work.map((it) => workOf(it, lineOf)),
    repairs: yield* mapping(yield* repairsToCome(stories), (it) => repairOf(it, lineOf)),
    notOrdered: yield* mapping(supply.notOrdered, (it) => notOrderedIn(it, stories, lineOf)),
    lists: listsOf(stories),
    ...(yield* apart(() => sumsOf(stories, supply.rows, work))),
  };
}

function headOf(story: Story): OrderReport["jobs"][number] {
  const { sheet, path } = story.job;
  const machine = sheet?.details.find((it) => it.kind === "machine");
  return { file: path, title: sheet?.title?.value ?? null, machine: machine?.kind === "machine" ? (machine.text?.value ?? null) : null };
}

/** The slips of the sheets, and what is found in them and not decided; what is said of a file that several jobs use is told once. */
function* remarksOf(stories: readonly Story[], lineOf: LineOf): Slices<Pick<OrderReport, "errors" | "undecided">> {
  const told = new Set<string>();
  const remark = ({ where, message }: Slip): OrderRemark[] => {
    const it = { ...lineOf(where), text: message };
    const key = JSON.stringify(it);
    if (told.has(key)) return [];
    told.add(key);
    return [it];
  };
  const slips = [];
  for (const story of stories) slips.push(yield* slipsOf(story, (where) => lineOf(where).line));
  const errors = yield* mapping(
    slips.flatMap((it) => it.errors),
    remark,
  );
  const undecided = yield* mapping(
    slips.flatMap((it) => it.undecided),
    remark,
  );
  return { errors: errors.flat(), undecided: undecided.flat() };
}

function surplusOf(it: SurplusLine, stories: readonly Story[], lineOf: LineOf): OrderSurplus {
  const { line, amount, saves, freightSaved, freightDue } = it;
  const job = stories.find((story) => story.job.files.some((file) => file.path === line.where.file))?.job;
  const supplier = line.supplier === undefined || job === undefined ? undefined : supplierNamed(job, line.supplier);
  return {
    item: line.item.written,
    name: line.item.title,
    order: line.reference ?? "",
    status: line.status,
    quantity: figureText(amount),
    unit: unitText(amount),
    supplier: line.supplier ?? null,
    supplierName: supplier?.title ?? null,
    isUnasked: it.isUnasked,
    saves: saves === undefined ? null : moneyFigure(saves),
    currency: saves?.code ?? null,
    cancel: line.status === "sent" ? "send back" : line.status === "placed" ? "ask" : "strike out",
    due: it.due ?? null,
    freightSaved: freightSaved === undefined ? null : moneyFigure(freightSaved),
    freightDue: freightDue === undefined ? null : moneyFigure(freightDue),
    freightCurrency: (freightSaved ?? freightDue)?.code ?? null,
    ...lineOf(line.where),
  };
}

function waitingOf(it: WaitingRow, stories: readonly Story[], lineOf: LineOf): OrderWaiting {
  const question = stories.flatMap((story) => story.job.things.get(it.question) ?? []).find((thing) => thing.kind === "question");
  return {
    item: it.item.written,
    name: it.item.title,
    question: it.question,
    asks: question?.title ?? it.question,
    quantity: it.amount === undefined ? null : figureText(it.amount),
    unit: it.amount === undefined ? null : unitText(it.amount),
    onOrder: it.onOrder,
    places: it.places,
    ...lineOf(it.where),
  };
}

function listsOf(stories: readonly Story[]): OrderList[] {
  const lists = new Map<string, OrderList>();
  for (const { job } of stories) {
    for (const { supplier, written, path, list } of pricesOf(job)) {
      const unread = list === undefined || list.faults.some((it) => it.whole);
      if (!unread && list.faults.length === 0) continue;
      const key = `${supplier.name} of ${supplier.file} ${path ?? written}`;
      if (lists.has(key)) continue;
      lists.set(key, { file: path ?? written, supplierName: supplier.title ?? supplier.name, unread, leftOut: unread ? [] : list.faults.map((it) => it.line) });
    }
  }
  return [...lists.values()];
}

function backOf({ row, offer, count, packs, recovers, lost, missing }: SendBack): OrderBack {
  return {
    item: row.item.written,
    name: row.item.title,
    supplier: offer.supplier?.name ?? null,
    supplierName: offer.supplier?.title ?? null,
    quantity: plainText(count),
    packs,
    recovers: moneyFigure(recovers),
    lost: moneyFigure(lost),
    currency: recovers.code,
    missing: plainText(missing),
  };
}

function notOrderedIn({ line, amount, toCome }: NotOrdered, stories: readonly Story[], lineOf: LineOf): OrderNotOrdered {
  const job = stories.find((story) => story.job.files.some((file) => file.path === line.where.file))?.job;
  const supplier = line.supplier === undefined || job === undefined ? undefined : supplierNamed(job, line.supplier);
  return {
    item: line.item.written,
    name: line.item.title,
    order: line.reference ?? "",
    supplier: line.supplier ?? null,
    supplierName: supplier?.title ?? null,
    quantity: figureText(amount),
    unit: unitText(amount),
    toCome: toCome.map((it) => ({ item: it.item.written, name: it.item.title, quantity: figureText(it.amount), unit: unitText(it.amount) })),
    ...lineOf(line.where),
  };
}

function workOf({ item, place, what, status, price, supplier, reference, where }: WorkOut, lineOf: LineOf): OrderWork {
  return {
    part: item.written,
    name: item.title,
    place: place === "" ? null : place,
    what,
    order: reference ?? "",
    status,
    supplier: supplier?.name ?? null,
    supplierName: supplier?.title ?? null,
    price: price === undefined ? null : moneyFigure(price),
    currency: price?.code ?? null,
    lead: supplier?.lead ?? null,
    ...lineOf(where),
  };
}

function repairOf({ item, places, count, how, where }: RepairToCome, lineOf: LineOf): OrderRepair {
  return { part: item.written, name: item.title, places, quantity: String(count), how: how ?? null, ...lineOf(where) };
}
