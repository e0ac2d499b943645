// What is offered has a thread that is not the fastener's own, or is of a weaker grade or class.
import type { Job } from "../../model/job.ts";
import { memo } from "../../model/memo.ts";
import { linesOf, type Fastener } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { lookAlike, sameThread, threadOf } from "../../trade/threads.ts";
import type { Item, OfferEntry, OrderEntry, Span, Thread } from "../../../grammar/tree.ts";
import type { FastenerCell, FastenerMoment, Story } from "../../story/story.ts";
import { itemOf } from "../../supply/items.ts";
import { supplyOfOne } from "../../supply/supply.ts";
import { isLeftHand, threadText, unlikeThread, weakerThan } from "../../supply/offered-thread.ts";
import type { JobRule } from "../rule.ts";
import { allSince } from "../../story/put-right.ts";
import { curedReport } from "../found.ts";
import { byLine } from "../by-line.ts";
import { agreeing, called, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "thread-unlike",
  group: "Tightness",
  severity: "error; a warning on an offer that nothing came from, where the old ones are back, and where nobody says which hand those in stock are",
  safety: true,
  title:
    "What is offered, or fitted from another place, has a thread that is not the fastener's own, above all a look-alike, left hand for right, or of a weaker grade or class",
  why: "Some threads start by hand in a nut that is not theirs, and strip under load: 1/2 UNC and 1/2 BSW, M5 and 2 BA, M8 and 5/16. A left-hand thread keeps some wheel nuts on. Order the fastener's own.",
  wrong: `supplier alder "Alder Lane"
fastener stud-nut "Stud nut"
  thread 1/2-12 BSW
offer stud-nut from alder
  thread 1/2-13 UNC
#        ^^^^^^^^^^ error thread-unlike
  price 0.80 GBP
`,
  right: `supplier alder "Alder Lane"
fastener stud-nut "Stud nut"
  thread 1/2-12 BSW
offer stud-nut from alder
  thread 1/2-12 BSW
  price 0.80 GBP
`,
  scope: "job",
  check(context) {
    const { job, story, report } = context;
    // One that was made for another place goes on where it was not made for.
    const lines = byLine<FastenerCell, FastenerMoment>(
      story.fasteners,
      (it, cell) =>
        !cell.unsure && (it.verb === "fit" || it.verb === "tighten") && it.moved.some((lot) => unlikeAt(cell.thing, lot.madeFor, cell.place) !== undefined),
    );
    for (const { cell, moment, cells, moments, places } of lines) {
      const lot = moment.moved.find((it) => unlikeAt(cell.thing, it.madeFor, cell.place) !== undefined);
      const unlike = lot === undefined ? undefined : unlikeAt(cell.thing, lot.madeFor, cell.place);
      if (lot === undefined || unlike === undefined) continue;
      report(
        curedReport(
          context,
          moment.where,
          "error",
          `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "has")} the thread ${threadText(unlike.here)}, and the one from ${lot.madeFor} has ${threadText(unlike.theirs)}. Fit its own.`,
          cells.map((one, i) => allSince(one, (moments[i] as FastenerMoment).seq, ({ madeFor }) => unlikeAt(one.thing, madeFor, one.place) === undefined)),
        ),
      );
    }
    // New ones at a place of one hand, and all that is offered is of the other.
    for (const { cell, moment, places } of newOnes(({ thing, place }) => boughtOfOtherHand(job, thing, place) !== undefined)) {
      const own = boughtOfOtherHand(job, cell.thing, cell.place);
      if (own === undefined) continue;
      report({
        where: moment.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "has")} the thread ${threadText(own)}, and all of it that is offered, ordered or in stock is ${isLeftHand(own) ? "right" : "left"} hand. Fit its own, or write what was bought.`,
      });
    }
    // New ones, and none lay on any shelf that would go on, nor was any ordered or offered.
    for (const { cell, moment, places } of newOnes(({ thing, place }) => kept(job).has(thing.name) && boughtOfOtherHand(job, thing, place) === undefined)) {
      const [own] = cell.thing.threads;
      if (own === undefined) continue;
      report({
        where: moment.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} ${ownWords(cell.thing, own)}, and those in stock are ${kept(job).get(cell.thing.name) ?? ""}. Fit its own, and write where it came from.`,
      });
    }
    // New ones of one hand, out of a tin of which nobody says the hand.
    for (const { cell, moment, places } of newOnes(({ thing, place }) => ofUnsaidHand(job, thing, place) !== undefined)) {
      const own = ofUnsaidHand(job, cell.thing, cell.place);
      if (own === undefined) continue;
      report({
        where: moment.where,
        severity: "warning",
        open: false,
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "has")} the thread ${threadText(own)}, and no line says which hand those in stock are. Write it there: \`stock ${cell.thing.name} thread ${threadText(own)} N\`.`,
      });
    }
    for (const file of job.files) {
      for (const entry of file.sheet.entries) {
        if (entry.kind === "order" && entry.fault === undefined) ordered(file.path, entry);
        if (entry.kind !== "offer" || entry.item?.kind !== "name") continue;
        const thing = job.things.get(entry.item.name.text);
        if (thing?.kind === "fastener") check(file.path, entry, thing);
      }
    }

    /** The lines that fitted new ones at such places. */
    function newOnes(is: (cell: FastenerCell) => boolean) {
      return byLine<FastenerCell, FastenerMoment>(
        story.fasteners,
        (it, cell) => !cell.unsure && it.verb === "fit" && it.isNew && it.phase === "done" && is(cell),
      );
    }

    /** Lines of an order that name a thread, or a hand, that the fastener has nowhere. */
    function ordered(file: string, entry: OrderEntry): void {
      for (const detail of entry.details) {
        if (detail.kind !== "item" || detail.fault !== undefined || detail.item?.kind !== "name" || detail.item.made === undefined) continue;
        const thing = job.things.get(detail.item.name.text);
        const item = itemOf(job, detail.item);
        const [own] = thing?.kind === "fastener" ? thing.threads : [];
        if (thing?.kind !== "fastener" || own === undefined || item?.threaded === undefined || item.threaded.threads.length > 0) continue;
        const weaker = weakerThan(thing, detail.item.made);
        if (weaker !== undefined) {
          report({
            where: where(file, entry, detail.row, weaker.theirs.at),
            severity: "error",
            message: `${called(thing)} ${agreeing(thing, "is")} ${weaker.by} ${weaker.own}; this one is ${weaker.by} ${weaker.theirs.text}, and weaker. Order its own.`,
          });
          continue;
        }
        const isLeft = (detail.item.made.leftHand ?? detail.item.made.thread?.leftHand) !== undefined;
        const ofHand = thing.threads.some(({ thread }) => (thread.leftHand !== undefined) === isLeft);
        report({
          where: where(file, entry, detail.row, detail.item.at),
          severity: "error",
          message: `${called(thing)} ${agreeing(thing, "has")} the thread ${threadText(own.thread)}; this one is ${item.threaded.text === "LH" ? "left hand" : item.threaded.text}.${ofHand ? "" : " One is left hand, the other right."} Order its own.`,
        });
      }
    }

    function check(file: string, entry: OfferEntry, fastener: Fastener): void {
      for (const detail of entry.details) {
        if (detail.kind !== "thread" || detail.thread === undefined || detail.fault !== undefined) continue;
        const offered = detail.thread;
        const [line] = linesOf(fastener, "thread");
        const say = (at: Span, what: string, own: string | undefined): void => {
          // Whoever writes down what a shop has, and doesn't buy it, is the careful one.
          const isHarmless = nothingCameOf(story, fastener);
          report({
            where: where(file, entry, detail.row, at),
            ...(isHarmless ? { severity: "warning", open: false } : { severity: "error" }),
            message: `${what} ${isHarmless ? "None was bought: keep it so." : "Order its own."}`,
            ...(own === undefined || line === undefined
              ? {}
              : { related: [{ where: where(line.file, line.entry, line.detail.row, line.detail.at), message: own }] }),
          });
        };
        const unlike = unlikeThread(fastener, offered);
        const other = unlike === undefined ? otherHand(fastener, offered) : undefined;
        const threads = (own: Thread) => `${called(fastener)} ${agreeing(fastener, "has")} the thread ${threadText(own)}; this one is ${threadText(offered)}.`;
        const hands = "One is left hand, the other right.";
        if (other !== undefined) {
          say(offered.at, `${threads(other)} ${hands}`, undefined);
          continue;
        }
        if (unlike === undefined) {
          const weaker = weakerThan(fastener, detail);
          if (weaker !== undefined)
            say(
              weaker.theirs.at,
              `${called(fastener)} ${agreeing(fastener, "is")} ${weaker.by} ${weaker.own}; this one is ${weaker.by} ${weaker.theirs.text}, and weaker.`,
              `Its own ${weaker.by}.`,
            );
          continue;
        }
        const { own, theirs } = unlike;
        const alike = lookAlike(own.known, theirs);
        const more = own.known.leftHand !== theirs.leftHand ? ` ${hands}` : alike === undefined ? "" : ` ${why(alike.why)}`;
        say(offered.at, `${threads(own.thread)}${more}`, "Its own thread.");
      }
    }
  },
};

/** The old ones are all back on, and new ones were neither fitted, ordered nor needed: nothing hangs on what is offered of them. */
function nothingCameOf(story: Story, fastener: Fastener): boolean {
  const cells = story.cells(fastener.name).filter((it) => it.kind === "fastener");
  const areBack = cells.every(
    ({ unsure, now, total, history }) =>
      !unsure &&
      now.on >= total &&
      history.some((it) => (it.verb === "fit" || it.verb === "tighten") && it.phase === "done") &&
      !history.some((it) => it.verb === "fit" && it.isNew && it.phase === "done"),
  );
  if (cells.length === 0 || !areBack) return false;
  const isOrdered = story.job.files.some(({ sheet }) =>
    sheet.entries.some(
      (entry) => entry.kind === "order" && entry.details.some((it) => it.kind === "item" && it.item?.kind === "name" && it.item.name.text === fastener.name),
    ),
  );
  return !isOrdered && !supplyOfOne(story).rows.some(({ item }) => item.kind === "fastener" && item.written === fastener.name);
}

/** How they differ, without the two designations, which the sentence before has named. */
function why(text: string): string {
  const said = text.slice(text.indexOf(": ") + 1).trim();
  return `${said.charAt(0).toUpperCase()}${said.slice(1).replace(/\.?$/, ".")}`;
}

/** A thread that is in no table, of the same words and the other hand: that much can be told. */
function otherHand(fastener: Fastener, offered: Thread): Thread | undefined {
  const alike = fastener.threads.filter(({ thread }) => thread.designation === offered.designation);
  return alike.length > 0 && alike.every(({ thread }) => (thread.leftHand === undefined) !== (offered.leftHand === undefined)) ? alike[0]?.thread : undefined;
}

/** The thread of a place, where the places differ in hand and all that is offered, ordered or kept says the other; undefined where one could have come from elsewhere. */
function boughtOfOtherHand(job: Job, fastener: Fastener, place: string): Thread | undefined {
  const isLeft = (thread: Thread) => isLeftHand(thread);
  // A line that names no place is of all the others.
  const own = (fastener.threads.find((it) => it.place === place) ?? fastener.threads.find((it) => it.place === undefined))?.thread;
  if (own === undefined || fastener.threads.every(({ thread }) => isLeft(thread) === isLeft(own))) return undefined;
  const offered: (Thread | undefined)[] = [];
  /** The hand that a line of the shelf or of an order says, of these fasteners; null where it says none. */
  const handIn = (item: Item | undefined): boolean | null | undefined => {
    if (item?.kind !== "name" || item.name.text !== fastener.name) return undefined;
    return item.made === undefined ? null : item.made.leftHand !== undefined || (item.made.thread !== undefined && isLeftHand(item.made.thread));
  };
  let isOther = false;
  let isUnsaid = false;
  for (const { sheet } of job.files) {
    for (const entry of sheet.entries) {
      const hand = entry.kind === "stock" ? handIn(entry.item) : undefined;
      // What lay on the shelf without a word of its hand may be what was fitted.
      if (hand === null || hand === isLeft(own)) return undefined;
      if (hand !== undefined) isOther = true;
      for (const it of entry.kind === "order" ? entry.details : []) {
        const ordered = it.kind === "item" && it.fault === undefined ? handIn(it.item) : undefined;
        if (ordered === isLeft(own)) return undefined;
        if (ordered === null) isUnsaid = true;
        else if (ordered !== undefined) isOther = true;
      }
      if (entry.kind !== "offer" || entry.item?.kind !== "name" || entry.item.name.text !== fastener.name) continue;
      const threads = entry.details.flatMap((it) => (it.kind === "thread" && it.thread !== undefined && it.fault === undefined ? [it.thread] : []));
      offered.push(...(threads.length === 0 ? [undefined] : threads));
    }
  }
  // Where every order says its thread, it was not bought in another; else it is of what is offered.
  if (isOther && !isUnsaid) return own;
  return offered.length > 0 && offered.every((thread) => thread !== undefined && isLeft(thread) !== isLeft(own)) ? own : undefined;
}

/** The thread of a place, where the places differ in hand, nothing of it is ordered or offered, and all that is in stock says neither hand nor thread. */
function ofUnsaidHand(job: Job, fastener: Fastener, place: string): Thread | undefined {
  const own = (fastener.threads.find((it) => it.place === place) ?? fastener.threads.find((it) => it.place === undefined))?.thread;
  if (own === undefined || fastener.threads.every(({ thread }) => isLeftHand(thread) === isLeftHand(own))) return undefined;
  return saysNoThread(job).has(fastener.name) ? own : undefined;
}

const saysNoThread = memo((job: Job): ReadonlySet<string> => {
  const silent = new Set<string>();
  const others = new Set<string>();
  for (const { sheet } of job.files)
    for (const entry of sheet.entries) {
      if (entry.kind === "stock" && entry.item?.kind === "name") {
        const { made } = entry.item;
        (made?.thread === undefined && made?.leftHand === undefined ? silent : others).add(entry.item.name.text);
      } else if (entry.kind === "offer" && entry.item?.kind === "name") others.add(entry.item.name.text);
      else if (entry.kind === "order") for (const it of entry.details) if (it.kind === "item" && it.item?.kind === "name") others.add(it.item.name.text);
    }
  for (const name of others) silent.delete(name);
  return silent;
});

/** Fasteners of which nothing is ordered or offered, and all that is in stock is of a thread or a hand that they have nowhere; how that is called. */
const kept = memo((job: Job): ReadonlyMap<string, string> => {
  const unlike = new Map<string, string>();
  const others = new Set<string>();
  for (const { sheet } of job.files)
    for (const entry of sheet.entries) {
      const items =
        entry.kind === "stock" || entry.kind === "offer"
          ? [entry.item]
          : entry.kind === "order"
            ? entry.details.map((it) => (it.kind === "item" ? it.item : undefined))
            : [];
      for (const item of items) {
        if (item?.kind !== "name") continue;
        const { threaded } = itemOf(job, item) ?? {};
        if (entry.kind !== "stock" || threaded === undefined || threaded.threads.length > 0) others.add(item.name.text);
        else unlike.set(item.name.text, threaded.text === "LH" ? "left hand" : threaded.text);
      }
    }
  for (const name of others) unlike.delete(name);
  return unlike;
});

/** “has the thread 1/2-20 UNF grade 8” */
function ownWords(thing: Fastener, { thread, grade, class: strength }: Fastener["threads"][number]): string {
  const strong = grade !== undefined ? ` grade ${grade}` : strength !== undefined ? ` class ${strength}` : "";
  return `${agreeing(thing, "has")} the thread ${threadText(thread)}${strong}`;
}

/** The threads of the two places, where they are not the same. */
function unlikeAt(fastener: Fastener, from: string, to: string): { readonly here: Thread; readonly theirs: Thread } | undefined {
  if (from === to) return undefined;
  const at = (place: string) => (fastener.threads.find((it) => it.place === place) ?? fastener.threads.find((it) => it.place === undefined))?.thread;
  const here = at(to);
  const theirs = at(from);
  if (here === undefined || theirs === undefined || threadText(here) === threadText(theirs)) return undefined;
  const known = [here, theirs].map((it) => (it.free ? undefined : threadOf(it.designation, it.leftHand !== undefined)));
  const [a, b] = known;
  return a !== undefined && b !== undefined && sameThread(a, b) ? undefined : { here, theirs };
}
