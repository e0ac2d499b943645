// What went in before it came, or more of it than ever came; and orders whose own days run backwards.
import type { ItemDetail, OrderEntry, ReceivedDetail, StatusDetail } from "../../../../grammar/tree.ts";
import type { Job } from "../../../model/job.ts";
import { isMentioned, mentionsOf, partsOf } from "../../../model/orders.ts";
import { type Where, where } from "../../../model/where.ts";
import { plainText } from "../../../quantities/exact.ts";
import { type Coming, comesOn } from "../../../story/away.ts";
import { dayWithWhatCame } from "../../../story/came-above.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment } from "../../../story/story.ts";
import { fluidsBeyond, newBeyondOrders } from "../../../supply/beyond-orders.ts";
import { amountText } from "../../../supply/items.ts";
import { lockingsBeyond } from "../../../supply/lockings-beyond.ts";
import { byLine } from "../../by-line.ts";
import type { JobContext } from "../../rule.ts";
import { agreeing, called, midSentence, orderNamed } from "../../wording.ts";

/** New ones that went in before their order came. The names of what was said. */
export function newBeforeTheyCame({ story, report }: JobContext): ReadonlySet<string> {
  const early = byLine<PartCell | FastenerCell, PartMoment | FastenerMoment>(
    [...story.parts, ...story.fasteners],
    (it, { thing }) => it.verb === "fit" && it.isNew && it.phase === "done" && comesOn(story.job, thing.name, dayWithWhatCame(story.job, it)) !== undefined,
  );
  for (const { cell, moment, places } of early) {
    const order = comesOn(story.job, cell.thing.name, dayWithWhatCame(story.job, moment)) as Coming;
    report({
      where: moment.where,
      severity: "error",
      message: `A new ${midSentence(cell.thing, places.length === 1 ? places[0] : "")} ${agreeing(cell.thing, "is")} fitted, and ${orderNamed(order.reference)} for it ${whenItCame(order)}. Correct the order's status, or write what was fitted.`,
      related: [{ where: order.where, message: "Ordered here." }],
    });
  }
  return new Set(early.map(({ cell }) => cell.thing.name));
}

function whenItCame({ day }: { readonly day?: string | undefined }): string {
  return day === undefined ? "has not come yet" : `came on ${day}`;
}

/** More new ones in than came, were ordered or lay in stock; not of those that are `said` already. */
export function moreThanCame({ story, report }: JobContext, said: ReadonlySet<string>): void {
  for (const { cell, moment, fitted, had, came, again, unnamed, ordered } of newBeyondOrders(story)) {
    if (said.has(cell.thing.name)) continue;
    const what =
      fitted === 1
        ? `A new ${midSentence(cell.thing)} ${agreeing(cell.thing, "is")} fitted`
        : `${fitted} new ones of the ${midSentence(cell.thing)} are fitted`;
    if (came && again !== true) {
      const short = `${what}, and no more than ${plainText(had)} came or lay in stock: the rest of the order is still on its way.`;
      report({
        where: moment.where,
        severity: "error",
        message: `${short} Write what came since, or what was fitted.`,
        leaves: short,
        related: [{ where: ordered, message: "Ordered here." }],
      });
      continue;
    }
    const short = `${what}, and ${had.n === 0n ? "none was" : `no more than ${plainText(had)} ${had.compare(1) === 0 ? "was" : "were"}`} ordered or in stock, not counting cancelled.`;
    report({
      where: moment.where,
      severity: again === true || unnamed === true ? "information" : "warning",
      // Which one went on? An old one may be among them.
      open: again !== true && unnamed !== true,
      ...(had.n === 0n ? {} : { leaves: short }),
      message: `${short} Correct the order, write the stock, or write what was fitted.`,
      related: [{ where: ordered, message: "Named here." }],
    });
  }
}

export function fluidsBeforeTheyCame({ story, report }: JobContext): void {
  for (const { cell, moment, coming, ordered } of fluidsBeyond(story)) {
    const why = coming === undefined ? "what was ordered of it was cancelled or went back" : `${orderNamed(coming.reference)} for it ${whenItCame(coming)}`;
    report({
      where: moment.where,
      severity: "warning",
      open: true,
      message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} filled in, and ${why}. Write the stock it came from, correct the order, or write what was filled in.`,
      related: [{ where: ordered, message: "Ordered here." }],
    });
  }
}

export function lockingsBeforeTheyCame({ story, report }: JobContext): void {
  for (const { moment, item, used, late, named, neverOrdered } of lockingsBeyond(story)) {
    const why = neverOrdered
      ? "was offered and never ordered"
      : late?.status === "received"
        ? `came later, on ${late.day ?? ""}`
        : late !== undefined
          ? `has not come: ${orderNamed(late.reference)} is ${late.status}`
          : "is short: there were fewer, counted in pieces";
    report({
      where: moment.where,
      severity: "warning",
      open: true,
      leaves: `New ${item.title}: ${amountText(used)} to go in, and this ${why}.`,
      message: `A new ${item.title} goes in here (${amountText(used)} so far) and ${why}. Write the stock it came from, what came, or what locks it.`,
      related: [{ where: named, message: neverOrdered ? "Offered here." : "Named here." }],
    });
  }
}

export function ordersRunningBackwards({ job, line, report }: JobContext): void {
  for (const { detail, file, entry, before, isWork } of cameBeforePlaced(job))
    report({
      where: where(file, entry, detail.row, detail.keyword),
      severity: "warning",
      // Work that came back before it went was done on something else, or on no such day.
      ...(isWork ? { open: true } : {}),
      message: `This says that it ${detail.kind === "received" || detail.status === "received" ? "came" : "went back"} on ${detail.date?.text ?? ""}, and line ${line(before)} above it is of a later day. Correct one of them.`,
      related: [{ where: before, message: "Of a later day." }],
    });
}

/** Written off on one day and received on a later one, more of it than the rest that was left: either it came, or it was cancelled. */
export function cameThoughCancelled({ job, line, report }: JobContext): void {
  for (const { path, sheet } of job.files) {
    for (const order of sheet.entries) {
      if (order.kind !== "order" || order.fault !== undefined || isMentioned(job, order)) continue;
      for (const { day, at, left } of cancelledOf(job, path, order)) {
        const came = mentionsOf(job, order).flatMap(({ details }) =>
          details.flatMap((it) => (it.kind === "received" && it.fault === undefined ? it.items.map((item) => ({ ...item, date: it.date?.text })) : [])),
        );
        for (const [name, rest] of left) {
          const own = came.filter(({ item }) => item?.kind === "name" && item.name.text === name);
          const late = own.find((it) => it.date !== undefined && it.date > day);
          if (late === undefined || own.reduce((sum, it) => sum + countOfAmount(it.amount), 0) <= rest) continue;
          const thing = job.things.get(name);
          report({
            where: at,
            severity: "warning",
            open: true,
            message: `${thing === undefined ? `\`${name}\`` : called(thing)} ${thing === undefined ? "is" : agreeing(thing, "is")} cancelled here on ${day}, and came by the same order on ${late.date ?? ""} (line ${line(where(path, order, 0, order.keyword))}). Correct one of them.`,
          });
        }
      }
    }
  }
}

/** What was cancelled of an order, with the day, and how many of each item were left of it: none, where all of it was. */
function cancelledOf(job: Job, path: string, order: OrderEntry): { readonly day: string; readonly at: Where; readonly left: ReadonlyMap<string, number> }[] {
  const itemsIn = (entry: OrderEntry) =>
    entry.details.flatMap((it) =>
      it.kind === "item" && it.fault === undefined && it.item?.kind === "name" ? [[it.item.name.text, countOfAmount(it.amount)] as const] : [],
    );
  const ordered = new Map<string, number>();
  for (const [name, count] of itemsIn(order)) ordered.set(name, (ordered.get(name) ?? 0) + count);
  return [...mentionsOf(job, order), ...partsOf(job, order)].flatMap((entry) => {
    const status = entry.details.filter((it): it is StatusDetail => it.kind === "status" && it.fault === undefined).at(-1);
    if (status?.status !== "cancelled" || status.date === undefined) return [];
    const isPart = partsOf(job, order).includes(entry);
    const gone = new Map(isPart ? itemsIn(entry) : ordered);
    const left = new Map([...gone].map(([name, count]) => [name, (ordered.get(name) ?? 0) - count] as const));
    const file = job.files.find((it) => it.sheet.entries.includes(entry))?.path ?? path;
    return [{ day: status.date.text, at: where(file, entry, status.row, status.keyword), left }];
  });
}

function countOfAmount(amount: ItemDetail["amount"]): number {
  return Number(amount?.figure.text ?? 1);
}

interface Came {
  readonly detail: StatusDetail | ReceivedDetail;
  readonly file: string;
  readonly entry: OrderEntry;
  /** The line above it, of a later day, that says it was placed, sent, or came. */
  readonly before: Where;
  /** By the order something was worked on. */
  readonly isWork: boolean;
}

interface Above {
  readonly rank: number;
  readonly day: string;
  readonly where: Where;
}

/** Lines of orders by which something came before it was placed or sent, or went back before it came. Parcels of one order may be written in any order. */
function cameBeforePlaced(job: Job): Came[] {
  const out: Came[] = [];
  for (const { path, sheet } of job.files) {
    for (const order of sheet.entries) {
      if (order.kind !== "order" || order.fault !== undefined || isMentioned(job, order)) continue;
      const above: Above[] = [];
      const mentions = mentionsOf(job, order);
      const isWork = mentions.some(({ details }) => details.some((it) => it.kind === "work"));
      for (const entry of mentions) {
        const file = entry === order ? path : (job.files.find((it) => it.sheet.entries.includes(entry))?.path ?? path);
        for (const detail of entry.details) {
          if ((detail.kind !== "status" && detail.kind !== "received") || detail.fault !== undefined || detail.date === undefined) continue;
          const rank = ranks[detail.kind === "received" ? "received" : (detail.status ?? "")];
          const day = detail.date.text;
          if (rank === undefined) continue;
          // The latest of those that come before it by their word.
          const before = above
            .filter((it) => it.rank < rank && it.day > day)
            .reduce<Above | undefined>((a, b) => (a === undefined || b.day > a.day ? b : a), undefined);
          if (before !== undefined) out.push({ detail, file, entry, before: before.where, isWork });
          else above.push({ rank, day, where: where(file, entry, detail.row, detail.keyword) });
        }
      }
    }
  }
  return out;
}

/** How far an order is by each word. */
const ranks: Readonly<Record<string, number | undefined>> = { held: 0, placed: 1, sent: 1, received: 2, returned: 3 };
