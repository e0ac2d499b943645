// Done, or written, before what it needs; or fitted new before it came, or more of them than ever came.
import type { OrderEntry, ReceivedDetail, StatusDetail } from "../../../grammar/tree.ts";
import { addMonths } from "../../quantities/days.ts";
import { openedOn } from "../../story/machines.ts";
import type { FastenerCell, FastenerMoment, FluidMoment, PartCell, PartMoment, Story, Visit } from "../../story/story.ts";
import type { Job } from "../../model/job.ts";
import { isMentioned, mentionsOf } from "../../model/orders.ts";
import { type Where, where } from "../../model/where.ts";
import { type Coming, comesOn } from "../../story/away.ts";
import { dayWithWhatCame } from "../../story/came-above.ts";
import { plainText } from "../../quantities/exact.ts";
import { fluidsBeyond, newBeyondOrders } from "../../supply/beyond-orders.ts";
import { amountText } from "../../supply/items.ts";
import { lockingsBeyond } from "../../supply/lockings-beyond.ts";
import { byLine } from "../by-line.ts";
import { againstDays } from "../days-against-lines.ts";
import { needsBefore, waitsInTurn } from "../sequence.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "step-too-early",
  group: "Order of work",
  severity:
    "error; warning where more new ones are in than were ordered, or an order came before it was placed; information where one that never goes back went in again",
  safety: false,
  title:
    "Done, or written, before what it needs; fitted new before it came, or more new ones than were ordered or kept; an order that came before it was placed",
  why: "A step that is marked done before the one that it waits for was either done out of turn or marked on the wrong line. A part that is fitted before it arrived is another part.",
  wrong: `step set-it "Set the float"
  after clean-it
#       ^^^^^^^^ error step-too-early
  done
step clean-it "Clean the race"
`,
  right: `step clean-it "Clean the race"
  done
step set-it "Set the float"
  after clean-it
  done
`,
  scope: "job",
  *check({ job, story, report, line }) {
    const graph = needsBefore(story);
    const byName = new Map<string, Visit[]>();
    for (const visit of story.visits) {
      const name = visit.entry.name?.text;
      const same = name === undefined ? undefined : byName.get(name);
      if (same !== undefined) same.push(visit);
      else if (name !== undefined) byName.set(name, [visit]);
    }
    const begun = new Set(story.visits.filter((it) => it.phase === "done").map((it) => it.entry));
    const dated = new Set<Visit>();
    yield;
    let n = 0;
    for (const visit of story.visits) {
      if (visit.phase === "planned" && begun.has(visit.entry)) continue;
      for (const detail of visit.entry.details) {
        if (detail.kind !== "after" || detail.fault !== undefined) continue;
        for (const step of detail.steps) {
          if (++n % someAtOnce === 0) yield;
          const before = byName.get(step.text);
          // Steps that wait for each other are said once, as a circle.
          if (before === undefined || waitsInTurn(graph, step.text, visit.entry.name?.text) || step.text === visit.entry.name?.text) continue;
          const at = where(visit.file, visit.entry, detail.row, step.at);
          const first = before[0] as Visit;
          const there = where(first.file, first.entry, 0, first.entry.keyword);
          if (visit.phase === "done") {
            const open = before.find((it) => it.phase === "planned");
            const late = before.find((it) => it.phase === "done" && it.day !== undefined && visit.day !== undefined && it.day > visit.day);
            if (late !== undefined) dated.add(visit);
            const below = before.find((it) => it.phase === "done" && it.number > visit.number && it.day === visit.day);
            if (open !== undefined)
              report({
                where: at,
                severity: "error",
                message: `This step is done, and \`${step.text}\`, which it needs, is not (line ${line(there)}). Do that first, or take \`after\` away.`,
                related: [{ where: there, message: "Not done." }],
              });
            else if (late !== undefined)
              report({
                where: at,
                severity: "error",
                message: `This step was done on ${visit.day ?? ""}, and \`${step.text}\`, which it needs, on ${late.day ?? ""}. Correct the days, or take \`after\` away.`,
                related: [{ where: there, message: "Done later." }],
              });
            else if (below !== undefined)
              report({
                where: at,
                severity: "error",
                message: `This step is written before \`${step.text}\`, which it needs (line ${line(there)}). Write them in the order in which they were done.`,
                related: [{ where: there, message: "Written below." }],
              });
          } else if (first.phase === "planned" && first.number > visit.number) {
            report({
              where: at,
              severity: "error",
              message: `This step is written before \`${step.text}\`, which it needs (line ${line(there)}). Move it below.`,
              related: [{ where: there, message: "Written below." }],
            });
          }
        }
      }
    }
    yield;
    // The story goes by its lines; days that run against them leave it open which of the two is true.
    for (const cell of [...story.parts, ...story.fasteners, ...story.fluids]) {
      let before: PartMoment | FastenerMoment | FluidMoment | undefined;
      for (const it of cell.history as (PartMoment | FastenerMoment | FluidMoment)[]) {
        if (it.phase !== "done" || it.visit === undefined || it.day === undefined || ofNoMove.has(it.verb)) continue;
        if (before?.day !== undefined && before.day > it.day && before.visit !== it.visit && !dated.has(it.visit)) {
          dated.add(it.visit);
          report({
            where: it.where,
            severity: "error",
            message: `This is dated ${it.day}, before line ${line(before.where)} above it (${before.day}). Correct the days, or write the steps in the order they were done.`,
            related: [{ where: before.where, message: `Done on ${before.day}.` }],
          });
        }
        before = it;
      }
    }
    // So do the days of what one thing orders of another.
    for (const { first, second, of } of againstDays(story)) {
      if (second.visit === undefined || dated.has(second.visit)) continue;
      dated.add(second.visit);
      report({
        where: second.where,
        severity: "error",
        message: `This is dated ${second.day ?? ""}, and ${of}, which comes first, ${first.day ?? ""} (line ${line(first.where)}). Correct the days, or write the steps in the order they were done.`,
        related: [{ where: first.where, message: `Done on ${first.day ?? ""}.` }],
      });
    }
    for (const { visit, at, opened } of aYearEarly(story))
      report({
        where: at,
        severity: "warning",
        message: `This step is dated ${visit.day ?? ""}, and the sheet was opened on ${opened}. Is the year right?`,
      });
    for (const { detail, file, entry, before, isWork } of cameBeforePlaced(job))
      report({
        where: where(file, entry, detail.row, detail.keyword),
        severity: "warning",
        // Work that came back before it went was done on something else, or on no such day.
        ...(isWork ? { open: true } : {}),
        message: `This says that it ${detail.kind === "received" || detail.status === "received" ? "came" : "went back"} on ${detail.date?.text ?? ""}, and line ${line(before)} above it is of a later day. Correct one of them.`,
        related: [{ where: before, message: "Of a later day." }],
      });
    const early = byLine<PartCell | FastenerCell, PartMoment | FastenerMoment>(
      [...story.parts, ...story.fasteners],
      (it, { thing }) => it.verb === "fit" && it.isNew && it.phase === "done" && comesOn(story.job, thing.name, dayWithWhatCame(story.job, it)) !== undefined,
    );
    for (const { cell, moment, places } of early) {
      const order = comesOn(story.job, cell.thing.name, dayWithWhatCame(story.job, moment)) as Coming;
      const when = order.day === undefined ? "has not come yet" : `came on ${order.day}`;
      report({
        where: moment.where,
        severity: "error",
        message: `A new ${midSentence(cell.thing, places.length === 1 ? places[0] : "")} ${agreeing(cell.thing, "is")} fitted, and order “${order.reference}” for it ${when}. Correct the order's status, or write what was fitted.`,
        related: [{ where: order.where, message: "Ordered here." }],
      });
    }
    yield;
    const said = new Set(early.map(({ cell }) => cell.thing.name));
    for (const { cell, moment, fitted, had, came, again, ordered } of newBeyondOrders(story)) {
      if (said.has(cell.thing.name)) continue;
      const what =
        fitted === 1
          ? `A new ${midSentence(cell.thing)} ${agreeing(cell.thing, "is")} fitted`
          : `${fitted} new ones of the ${midSentence(cell.thing)} are fitted`;
      if (came && again !== true) {
        report({
          where: moment.where,
          severity: "error",
          message: `${what}, and no more than ${plainText(had)} came or lay in stock: the rest of the order is still on its way. Write what came since, or what was fitted.`,
          leaves: `${what}, and no more than ${plainText(had)} came or lay in stock: the rest of the order is still on its way.`,
          related: [{ where: ordered, message: "Ordered here." }],
        });
        continue;
      }
      const short = `${what}, and ${had.n === 0n ? "none was" : `no more than ${plainText(had)} ${had.compare(1) === 0 ? "was" : "were"}`} ordered or in stock, not counting cancelled.`;
      report({
        where: moment.where,
        severity: again === true ? "information" : "warning",
        // Which one went on? An old one may be among them.
        open: again !== true,
        ...(had.n === 0n ? {} : { leaves: short }),
        message: `${short} Correct the order, write the stock, or write what was fitted.`,
        related: [{ where: ordered, message: "Named here." }],
      });
    }
    for (const { cell, moment, coming, ordered } of fluidsBeyond(story)) {
      const why =
        coming === undefined
          ? "what was ordered of it was cancelled or went back"
          : `order “${coming.reference}” for it ${coming.day === undefined ? "has not come yet" : `came on ${coming.day}`}`;
      report({
        where: moment.where,
        severity: "warning",
        open: true,
        message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} filled in, and ${why}. Write the stock it came from, correct the order, or write what was filled in.`,
        related: [{ where: ordered, message: "Ordered here." }],
      });
    }
    for (const { moment, item, used, late, named, neverOrdered } of lockingsBeyond(story)) {
      const why = neverOrdered
        ? "was offered and never ordered"
        : late?.status === "received"
          ? `came later, on ${late.day ?? ""}`
          : late !== undefined
            ? `has not come: ${late.reference === undefined ? "its order" : `order “${late.reference}”`} is ${late.status}`
            : "is short: fewer came, counted in pieces";
      report({
        where: moment.where,
        severity: "warning",
        open: true,
        leaves: `New ${item.title}: ${amountText(used)} to go in, and this ${why}.`,
        message: `A new ${item.title} goes in here (${amountText(used)} so far) and ${why}. Write the stock it came from, what came, or what locks it.`,
        related: [{ where: named, message: neverOrdered ? "Offered here." : "Named here." }],
      });
    }
  },
};

/** These move nothing, or are the move of something else. */
const ofNoMove: ReadonlySet<string> = new Set(["other", "mark", "lost"]);

/** Done steps that a slip of the year has put long before the sheet was opened: a year on they are of this job. */
function aYearEarly(story: Story): { readonly visit: Visit; readonly at: Where; readonly opened: string }[] {
  const opened = openedOn(story);
  const { newestDay } = story;
  if (opened === undefined || newestDay === undefined) return [];
  return story.visits.flatMap((visit) => {
    const done = visit.entry.details.find((it) => it.kind === "done" && it.date !== undefined && it.date.text === visit.day);
    if (visit.phase !== "done" || visit.day === undefined || done?.kind !== "done" || done.date === undefined) return [];
    const on = addMonths(visit.day, 12);
    return on !== undefined && on >= opened && on <= newestDay && (addMonths(visit.day, 9) ?? opened) < opened
      ? [{ visit, at: where(visit.file, visit.entry, done.row, done.date.at), opened }]
      : [];
  });
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
