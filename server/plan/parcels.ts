// The parcels that a plan waits for: what planned steps fit, lock or fill new, taken from the shelf first, then from what is on its way, then from what is to be ordered;
// and parts that are out to be worked on.
// Invariant: a day is told only where the sheet gives what it is reckoned from; no lead is guessed.
import { type Slices, mapping, someAtOnce } from "../../grammar/slices.ts";
import type { OrderEntry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { type Ordered, isAt, ordersOf, statusOf } from "../model/orders.ts";
import { lineOf } from "../model/things.ts";
import { measured } from "../model/values.ts";
import type { Where } from "../model/where.ts";
import { daysBetween } from "../quantities/days.ts";
import { type Exact, compare, zero } from "../quantities/exact.ts";
import type { Measured } from "../quantities/quantity.ts";
import { type Amount, type Item, alike, dimensionOfAmount, itemAt, itemNamed, totalAmount } from "../supply/items.ts";
import { daysIn, leadDays, longestLead, sinceOf } from "../supply/leads.ts";
import { offersFor } from "../supply/listed-offers.ts";
import { plannedLocking } from "../supply/needs-of-locking.ts";
import { cheapestGoods } from "../supply/combine.ts";
import { type Offer, supplierNamed } from "../supply/offers.ts";
import { questionsAbout } from "../story/questions.ts";
import type { OrderLine } from "../supply/order-lines.ts";
import { shelfOf } from "../supply/shelf.ts";
import type { FastenerCell, FluidCell, PartCell, Story, Visit } from "../story/story.ts";
import type { Supply } from "../supply/supply.ts";
import { toMake } from "./to-make.ts";
import { grouped } from "../model/grouped.ts";

/** One thing on its way, or to be put on it. */
export interface Parcel {
  readonly kind: "item" | "work";
  readonly item: Item;
  /** Undefined for work. */
  readonly amount: Amount | undefined;
  /** `to order`: no order holds it yet. */
  readonly status: "to order" | "held" | "placed" | "sent";
  readonly reference?: string;
  /** Undefined where nobody offers it. */
  readonly supplier?: { readonly key: string; readonly title: string };
  /** Whole days from the day of the plan until it is here, or from the day on which it goes out where it waits; undefined where nobody says how long it takes. */
  readonly days: number | undefined;
  /** The day on which it went out, as the order says. */
  readonly since?: string;
  /** It should have been here on that many days before the day of the plan. It is reckoned as if it came on that day. */
  readonly overdue: number;
  /** Open questions that must be answered before it is ordered. */
  readonly questions: readonly string[];
  /** The steps that must be done before it goes out: a part that is still on the machine. */
  readonly after: readonly Visit[];
  /** The planned steps that wait for it; none where no step takes it yet. */
  readonly visits: readonly Visit[];
  /** The line of the order; else the first that asks for it. */
  readonly where: Where;
}

/** It is not in anybody's hands yet, and somebody must send for it. */
export function isStillToGo(it: Pick<Parcel, "status">): boolean {
  return it.status === "to order" || it.status === "held";
}

/** What one planned step takes new; or, without a step, what is needed and no planned step takes. */
interface Want {
  readonly visit: Visit | undefined;
  readonly item: Item;
  readonly amount: Amount;
  readonly where: Where;
  readonly questions: readonly string[];
}

/** For all jobs together: they share one shelf. `supply` is theirs. `from` is the day of the plan. */
export function* parcelsOf(stories: readonly Story[], supply: Supply, from: string): Slices<Parcel[]> {
  const wants: Want[] = [];
  for (const story of stories) wants.push(...(yield* wantsOf(story)));
  const keys = new Set([...wants.map((it) => it.item.key), ...supply.rows.map((row) => row.item.key)]);
  const work = stories.flatMap((story) => workOf(story, from));
  if (keys.size === 0) return work;
  const shelf = shelfOf(stories);
  const offers = offersFor(stories);
  const rows = new Map(supply.rows.map((row) => [row.item.key, row]));
  const byKey = grouped(wants, (it) => it.item.key);
  const coming = (key: string, like: Amount): Source[] =>
    shelf.onOrder(key).flatMap((line) => (alike(line.amount, like) ? [{ parcel: comingBy(line, stories, offers, from), left: line.amount.value }] : []));
  const parcels = yield* mapping(keys, (key) => {
    const row = rows.get(key);
    const own = byKey.get(key) ?? [];
    const rest = restOf(row, own);
    const [first, ...more] = rest === undefined ? own : [...own, rest];
    if (first === undefined) return [];
    const stock = shelf.stock(key, dimensionOfAmount(first.amount));
    const offerFor = (short: Amount) => row?.offer ?? cheapest(offers(first.item), short);
    return allotted([first, ...more.filter((it) => alike(it.amount, first.amount))], stock, coming(key, first.amount), offerFor);
  });
  return [...parcels.flat(), ...work];
}

// ---------------------------------------------------------------- what is wanted

function* wantsOf(story: Story): Slices<Want[]> {
  let n = 0;
  const wants: (Want & { readonly seq: number })[] = [];
  const put = (
    cell: PartCell | FastenerCell | FluidCell,
    item: Item,
    amount: Amount,
    moment: { seq: number; visit: Visit | undefined; where: Where },
  ): void => {
    if (moment.visit === undefined || compare(amount.value, zero) <= 0) return;
    wants.push({ seq: moment.seq, visit: moment.visit, item, amount, where: moment.where, questions: questionsAbout(story, cell) });
  };
  for (const cell of [...story.parts, ...story.fasteners]) {
    if (n++ % someAtOnce === 0) yield;
    // What is to be made comes in no parcel.
    let made = toMake(story).find((it) => it.cell === cell)?.count ?? 0;
    for (const it of cell.history) {
      if (it.phase !== "planned" || it.verb !== "fit" || !it.isNew) continue;
      const bought = Math.max(0, it.count - made);
      made -= it.count - bought;
      put(cell, itemAt(story.job, cell.thing.name, cell.place), { value: zero.add(bought) }, it);
    }
  }
  yield;
  for (const { cell, item, amount, moment } of plannedLocking(story)) put(cell, item, amount, moment);
  for (const cell of story.fluids) {
    for (const it of cell.history) {
      // How much nobody says can't be set against what is there.
      const much: Measured | undefined = it.phase === "planned" && it.verb === "fill" ? (it.amount ?? measured(cell.thing.capacity)) : undefined;
      if (much !== undefined) put(cell, itemNamed(story.job, cell.thing.name), { value: much.value, unit: much.unit }, it);
    }
  }
  return wants.sort((a, b) => a.seq - b.seq);
}

/** What is needed beyond what planned steps take. */
function restOf(row: Supply["rows"][number] | undefined, own: readonly Want[]): Want | undefined {
  const where = row?.reasons[0]?.where;
  if (row?.need === undefined || where === undefined) return undefined;
  const need = row.need;
  const taken = own.reduce((sum, it) => (alike(it.amount, need) ? sum.add(it.amount.value) : sum), zero);
  const value = need.value.sub(taken);
  return compare(value, zero) <= 0 ? undefined : { visit: undefined, item: row.item, amount: { ...need, value }, where, questions: [] };
}

// ---------------------------------------------------------------- where it comes from

interface Source {
  readonly parcel: Omit<Parcel, "amount" | "visits" | "questions" | "item">;
  left: Exact;
}

/** The shelf serves first, then what comes first; what is left is to be ordered. The wants are of one item, in one kind of amount. */
function allotted(wants: readonly Want[], onShelf: Exact, onTheWay: readonly Source[], offerFor: (short: Amount) => Offer | undefined): Parcel[] {
  let stock = onShelf;
  const sources = [...onTheWay].sort((a, b) => (a.parcel.days ?? longestLead) - (b.parcel.days ?? longestLead));
  const parcels = new Map<string, { parcel: Parcel; visits: Set<Visit>; amount: Amount }>();
  const take = (key: string, source: Source["parcel"], want: Want, value: Exact): void => {
    // What waits for an answer is not sent for with what does not.
    const id = `${key} ${isStillToGo(source) ? want.questions.join(" ") : ""}`;
    const parcel = parcels.get(id) ?? {
      parcel: { ...source, item: want.item, amount: undefined, questions: isStillToGo(source) ? want.questions : [], visits: [] },
      visits: new Set<Visit>(),
      amount: { ...want.amount, value: zero },
    };
    if (want.visit !== undefined) parcel.visits.add(want.visit);
    parcel.amount = { ...parcel.amount, value: parcel.amount.value.add(value) };
    parcels.set(id, parcel);
  };
  const short: { want: Want; value: Exact }[] = [];
  for (const want of wants) {
    let wanted = want.amount.value;
    const held = smaller(wanted, stock);
    stock = stock.sub(held);
    wanted = wanted.sub(held);
    for (const [i, source] of sources.entries()) {
      if (compare(wanted, zero) <= 0) break;
      const some = smaller(wanted, source.left);
      if (compare(some, zero) <= 0) continue;
      source.left = source.left.sub(some);
      wanted = wanted.sub(some);
      take(`order ${i}`, source.parcel, want, some);
    }
    if (compare(wanted, zero) > 0) short.push({ want, value: wanted });
  }
  if (short.length > 0) {
    const offer = offerFor({ ...(wants[0] as Want).amount, value: totalAmount(short) });
    const days = offer?.lead === undefined ? undefined : leadDays(offer.lead);
    const supplier = offer?.supplier;
    for (const { want, value } of short)
      take(
        "to order",
        {
          kind: "item",
          status: "to order",
          days,
          overdue: 0,
          after: [],
          where: (short[0] as { want: Want }).want.where,
          ...(supplier === undefined ? {} : { supplier: { key: supplier.key, title: supplier.title } }),
        },
        want,
        value,
      );
  }
  return [...parcels.values()].map(({ parcel, visits, amount }) => ({ ...parcel, amount, visits: [...visits] }));
}

function smaller(a: Exact, b: Exact): Exact {
  return compare(a, b) < 0 ? a : b;
}

function cheapest(offers: readonly Offer[], short: Amount): Offer | undefined {
  return cheapestGoods(
    offers.filter((it) => !it.unlike),
    short,
  )[0]?.offer;
}

// ---------------------------------------------------------------- when it comes

function comingBy(line: OrderLine, stories: readonly Story[], offers: ReturnType<typeof offersFor>, from: string): Source["parcel"] {
  const job = (stories.find((story) => story.job.files.some((file) => file.path === line.where.file)) as Story).job;
  const supplier = line.supplier === undefined ? undefined : supplierNamed(job, line.supplier);
  // The offer of the one that it was ordered from knows its lead best; else that is the supplier's.
  const own = offers(line.item).find((offer) => offer.supplier?.key === supplier?.key && offer.lead !== undefined);
  const lead = own?.lead === undefined ? supplierLead(supplier) : leadDays(own.lead);
  return { kind: "item", after: [], where: line.where, ...coming(job, line.entry, lead, from), ...(supplier === undefined ? {} : { supplier }) };
}

/** An order without a status is as good as held. */
function coming(job: Job, entry: OrderEntry, lead: number | undefined, from: string): Pick<Parcel, "status" | "days" | "overdue" | "since" | "reference"> {
  const status = statusOf(job, entry)?.status;
  const reference = entry.reference === undefined ? {} : { reference: entry.reference.value };
  if (status !== "placed" && status !== "sent") return { status: "held", days: lead, overdue: 0, ...reference };
  const since = sinceOf(job, entry);
  const gone = since === undefined ? 0 : daysBetween(since, from);
  if (lead === undefined || gone === undefined) return { status, days: undefined, overdue: 0, ...(since === undefined ? {} : { since }), ...reference };
  const left = lead - gone;
  return { status, days: Math.max(0, left), overdue: Math.max(0, -left), ...(since === undefined ? {} : { since }), ...reference };
}

function supplierLead(supplier: ReturnType<typeof supplierNamed> | undefined): number | undefined {
  const time = supplier?.declared === undefined ? undefined : lineOf(supplier.declared, "lead")?.detail.time;
  return daysIn(measured(time));
}

// ---------------------------------------------------------------- out to be worked on

/** Work that is not back yet, where a planned step fits the part again; and what is out for it and has no step yet. */
function workOf(story: Story, from: string): Parcel[] {
  const { job } = story;
  const out: Parcel[] = [];
  for (const [name, orders] of ordersOf(job).work) {
    const cells = story.cells(name).filter((cell): cell is PartCell | FastenerCell => cell.kind === "part" || cell.kind === "fastener");
    for (const ordered of orders) {
      const status = ordered.status?.status;
      if (status === "received" || status === "cancelled" || status === "returned") continue;
      const parcel = workParcel(story, ordered, from);
      const visits = new Set<Visit>();
      const after = new Set<Visit>();
      for (const cell of cells) {
        if (!isAt(ordered.detail, cell.place)) continue;
        const history = cell.history as readonly { verb: string; phase: string; visit: Visit | undefined; isNew: boolean; seq: number }[];
        // A part that is still on goes out when a planned step has taken it off.
        const here = !isStillToGo(parcel) || cell.now.on < cell.total;
        const off = here ? undefined : history.find((it) => it.phase === "planned" && (it.verb === "remove" || it.verb === "undo"));
        const fit = history.find((it) => it.phase === "planned" && it.verb === "fit" && !it.isNew && (off === undefined || it.seq > off.seq));
        if (fit?.visit === undefined) continue;
        visits.add(fit.visit);
        if (off?.visit !== undefined && off.visit !== fit.visit) after.add(off.visit);
      }
      // With no step yet it is waited for all the same, and asked for when it is late.
      if (visits.size > 0 || status === "sent")
        out.push({ ...parcel, item: itemNamed(job, name), amount: undefined, questions: [], visits: [...visits], after: [...after] });
    }
  }
  return out;
}

function workParcel(
  story: Story,
  { file, entry, detail }: Ordered<{ readonly row: number; readonly part?: { readonly at: Where["at"] }; readonly keyword: Where["at"] }>,
  from: string,
) {
  const supplier = entry.to === undefined ? undefined : supplierNamed(story.job, entry.to.text);
  const where: Where = { file, entry, row: detail.row, at: detail.part?.at ?? detail.keyword };
  return { kind: "work" as const, where, ...coming(story.job, entry, supplierLead(supplier), from), ...(supplier === undefined ? {} : { supplier }) };
}
