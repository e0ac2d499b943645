// What is told of the rechecks of a release, and of its counter: `recheck-due.ts` says which it is.
// Invariant: what another rule says of the same line is not said here.
import type { Quantity } from "../../../../grammar/tree.ts";
import { daysBetween } from "../../../quantities/days.ts";
import { measured, quantityText } from "../../../model/values.ts";
import type { Fastener } from "../../../model/things.ts";
import { type Where, where } from "../../../model/where.ts";
import { openedOn } from "../../../story/opened-on.ts";
import { rechecksOf } from "../../../story/rechecks.ts";
import type { Story } from "../../../story/story.ts";
import type { JobContext } from "../../rule.ts";
import { agreeing, called } from "../../wording.ts";

/** Of a job with a release; of one without it says nothing. */
export function tellRechecks(context: JobContext): void {
  const { job, report } = context;
  const { story } = context;
  const { release } = story;
  if (release === undefined) return;
  const counters = (job.sheet?.details ?? []).flatMap((it) => (it.kind === "counter" && it.quantity !== undefined ? [it.quantity] : []));
  const [first, last] = [counters[0], counters.at(-1)];
  const [now, from] = [measured(last), measured(release.entry.counter)];
  const same = now !== undefined && from !== undefined && now.unit.dimension === from.unit.dimension;
  const [at, released] = [last === undefined ? "" : quantityText(last), release.entry.counter === undefined ? "" : quantityText(release.entry.counter)];
  // What reads ten times as much, to within a fiftieth, has lost a figure on one of the two lines.
  if (same && from.value.compare(0) > 0 && from.value.mul(10).sub(now.value).abs().mul(50).compare(now.value) <= 0) {
    report({
      where: release.where,
      severity: "warning",
      open: true,
      message: `It is released at ${released}, and the machine reads ${at}. One of the two has slipped.`,
    });
    return;
  }
  const far = first === undefined ? undefined : tooFar(story, first);
  if (far !== undefined) {
    report({
      where: release.where,
      severity: "warning",
      open: true,
      message: `It is released at ${released}, and the sheet's head reads ${quantityText(first as Quantity)}: ${far}. One of the two has slipped.`,
    });
    return;
  }
  // Miles and hours tell nothing of each other; a machine with two counters has both at its head.
  const isOther = (it: Quantity) => measured(it) !== undefined && measured(it)?.unit.dimension !== from?.unit.dimension;
  if (from !== undefined && first !== undefined && counters.every(isOther)) {
    report({
      where: release.where,
      severity: "warning",
      open: true,
      message: `It is released at ${released}, and the sheet's head reads ${quantityText(first)}: that is another counter. Write the one that was read at the head, or read that one for the release.`,
    });
    return;
  }
  const rechecks = rechecksOf(story);
  const isKeptOn = release.day !== undefined && story.newestDay !== undefined && story.newestDay > release.day;
  if (same && last !== undefined && counters.length === 1 && !isKeptOn && !rechecks.some((it) => it.done) && isOneFigureOff(released, at)) {
    const ahead = now.value.sub(from.value);
    // Exactly as far on as a recheck asks for, it was read for that.
    if (ahead.compare(0) > 0 && !rechecks.some(({ due }) => due?.kind === "counter" && due.value.compare(now.value) === 0)) {
      report({
        where: release.where,
        severity: "warning",
        open: true,
        message: `It is released at ${released}, and the sheet's head reads ${at}, a figure apart: a counter doesn't go back. Correct it; if it has run on since, write its rechecks \`done\`.`,
      });
      return;
    }
  }
  for (const it of beyondItsOwn(story))
    report({
      where: it.where,
      severity: "warning",
      open: true,
      message: `${called(it.thing)} ${agreeing(it.thing, "is")} to be rechecked after ${it.wants}, and the release asks for it after ${it.after}. Write \`recheck ${it.thing.name} after ${it.wants}\`.`,
      ...(it.thing.file === job.path ? { related: [{ where: where(it.thing.file, it.thing.entry, 0, it.thing.at), message: "Declared here." }] } : {}),
    });
  let told = false;
  for (const { of, after, due, done, doneUnread, doneBefore, doneTooSoon, otherCounter, where: there, tightened, isLeftOver } of rechecks) {
    if (otherCounter !== undefined) {
      report({
        where: there,
        severity: "warning",
        message: `The recheck of \`${of}\` is due after ${otherCounter.goesBy}, and beside it stands ${otherCounter.read}, of another counter: nobody can tell when it is due. Write both by the same counter.`,
      });
      continue;
    }
    if (doneBefore) {
      report({
        where: there,
        severity: "warning",
        message: `The recheck of \`${of}\` is written as done before the release that it follows. Correct the day or the counter, or do it again.`,
      });
      continue;
    }
    if (doneTooSoon) {
      const thing = job.things.get(of);
      report({
        where: there,
        severity: "warning",
        open: thing !== undefined && "critical" in thing && thing.critical === true,
        message: `The recheck of \`${of}\` is due after ${after}, and is written as done with next to nothing of that run since the release: it is not done. Take its \`done\` away, or correct what it read.`,
      });
      continue;
    }
    if (doneUnread)
      report({ where: there, severity: "warning", message: `The recheck of \`${of}\` goes by the counter. Write what it read: \`done DATE at Q\`.` });
    if (done || due === undefined) continue;
    const past =
      due.kind === "counter"
        ? now?.unit.dimension === due.unit.dimension && now.value.compare(due.value) >= 0 && `the machine reads ${at}`
        : story.newestDay !== undefined && story.newestDay > due.day && `that was on ${due.day}`;
    if (past === false) continue;
    told = true;
    const thing = job.things.get(of);
    const wasDue = due.kind === "counter" ? from?.unit.dimension === due.unit.dimension && from.value.compare(due.value) >= 0 : (release.day ?? "") > due.day;
    const holds = isLeftOver === true && wasDue && thing !== undefined && "critical" in thing && thing.critical;
    report({
      where: there,
      severity: "warning",
      ...(holds ? { open: true } : {}),
      message: holds
        ? `The recheck of \`${of}\` was due after ${after}, before this was signed, and is not done. Do it and write \`done\`, or ask for it again in this release.`
        : tightened === undefined
          ? `The recheck of \`${of}\` was due after ${after}, and ${past}. Do it, and write \`done\` with the day and the reading.`
          : `${called(job.things.get(of) ?? { name: of })} ${agreeing(job.things.get(of) ?? { name: of }, "is")} to be rechecked after ${after}, and ${past}. Do it, and write \`recheck ${of} after ${after} done\` with the day and the reading.`,
    });
  }
  const begun = measured(counters[0]);
  if (same && begun !== undefined && from.value.compare(begun.value) < 0) {
    // The head of a sheet is brought up to date for a recheck, and then it reads more than the release.
    // Ten times as far as any of them is no day of a recheck.
    const far = begun.value.sub(from.value);
    const isKept = counters.length === 1 && rechecks.some(({ due }) => due?.kind === "counter" && far.compare(due.value.sub(due.from).mul(10)) <= 0);
    const isLater = counters.length === 1 && release.day !== undefined && story.newestDay !== undefined && story.newestDay > release.day;
    if (!isKept)
      report({
        where: release.where,
        severity: "warning",
        open: true,
        message: `It is released at ${released}, and the sheet's head reads ${quantityText(counters[0] as Quantity)}: a counter doesn't go back. One of the two has slipped.`,
      });
    else if (!told && !isLater && !rechecks.some((it) => it.done))
      report({
        where: release.where,
        severity: "information",
        message: `It is released at ${released}, and the sheet's head reads ${at}. If that was read as the job began, one of the two has slipped.`,
      });
  }
}

/** A fastener that was tightened here, and is named in the release for a recheck further off than it asks for itself, by more than a tenth. */
function beyondItsOwn(story: Story): { readonly thing: Fastener; readonly wants: string; readonly after: string; readonly where: Where }[] {
  const { release } = story;
  if (release === undefined) return [];
  return release.entry.details.flatMap((detail) => {
    if (detail.kind !== "recheck" || detail.name === undefined || detail.done !== undefined || detail.doneAt !== undefined) return [];
    const thing = story.job.things.get(detail.name.text);
    const [wants, after] = [measured(thing?.kind === "fastener" ? thing.recheckAfter : undefined), measured(detail.after)];
    if (thing?.kind !== "fastener" || thing.recheckAfter === undefined || detail.after === undefined || wants === undefined || after === undefined) return [];
    if (wants.unit.dimension !== after.unit.dimension || after.value.mul(10).compare(wants.value.mul(11)) <= 0) return [];
    if (!story.fasteners.some((cell) => cell.thing === thing && cell.history.some((it) => it.phase === "done" && it.verb === "tighten"))) return [];
    // Another line asks for it in time.
    const name = thing.name;
    const isInTime = release.entry.details.some((other) => {
      const first = other.kind === "recheck" && other.name?.text === name ? measured(other.after) : undefined;
      return first !== undefined && first.unit.dimension === wants.unit.dimension && first.value.mul(10).compare(wants.value.mul(11)) <= 0;
    });
    return isInTime
      ? []
      : [
          {
            thing,
            wants: quantityText(thing.recheckAfter),
            after: quantityText(detail.after),
            where: { ...release.where, row: detail.row, at: detail.name.at },
          },
        ];
  });
}

/**
 * More on the counter than can have been run in the days of the job: ten times as much, more hours than there were, or a figure that came in or changed by which it would be a hundred miles of each day, of
 * common practice. Days are counted from `opened` to the release, both whole.
 */
function tooFar(story: Story, head: Quantity): string | undefined {
  const { release, earlierReleases } = story;
  const [begun, ended] = [measured(head), measured(release?.entry.counter)];
  if (release === undefined || begun === undefined || ended === undefined || begun.unit.dimension !== ended.unit.dimension || earlierReleases.length > 0)
    return undefined;
  const more = ended.value.sub(begun.value);
  if (more.compare(0) <= 0) return undefined;
  // A hundred of them is no machine that was new the other day.
  const isRun = begun.value.compare(begun.unit.factor.mul(100)) >= 0;
  if (isRun && ended.value.sub(begun.value.mul(10)).abs().mul(50).compare(ended.value) <= 0) return "ten times as much";
  const opened = openedOn(story);
  const day = release.entry.date?.text ?? release.day;
  const days = opened === undefined || day === undefined ? undefined : daysBetween(opened, day);
  if (days === undefined || days < 0) return undefined;
  const run = days + 1 - daysApart(story);
  if (begun.unit.dimension === "time") {
    if (more.compare((days + 1) * 86_400) > 0) return "more hours than there were between the two days";
    return more.compare(run * 86_400) > 0 ? "more hours than there were while it was in one piece" : undefined;
  }
  // Five hundred miles a day, of common practice: nobody drives further.
  if (begun.unit.dimension === "length" && more.compare(run * 804_672_000) > 0) return "further than it can have gone while it was in one piece";
  const [one, other] = [head.figure.text, release.entry.counter?.figure.text ?? ""];
  // The same figure, in kilometres at the head and in miles here.
  const isSlip =
    one === other ||
    isOneFigureOff(one, other) ||
    (other.length === one.length + 1 && [...other].some((_, i) => other.slice(0, i) + other.slice(i + 1) === one));
  return begun.unit.dimension === "length" && isSlip && more.compare((days + 1) * 160_934_400) > 0
    ? "a figure apart, and too far for the days between"
    : undefined;
}

/** Whole days on which something critical was off from morning to evening. */
function daysApart(story: Story): number {
  const spans = story.parts.flatMap(({ thing, history }) => {
    const done = history.filter((it) => it.phase === "done");
    const off = done.find((it) => it.after.on < it.before.on)?.day;
    const back = done.findLast((it) => it.after.on > it.before.on)?.day;
    return thing.critical && off !== undefined && back !== undefined && off < back ? [{ off, back }] : [];
  });
  let apart = 0;
  let until = "";
  for (const { off, back } of spans.sort((a, b) => (a.off < b.off ? -1 : a.off > b.off ? 1 : 0))) {
    const from = off > until ? off : until;
    if (back <= from) continue;
    apart += Math.max(0, (daysBetween(from, back) ?? 0) - (from === until ? 0 : 1));
    until = back;
  }
  return apart;
}

/** Two figures of the same length, of which one place differs, or two stand the other way round. */
function isOneFigureOff(one: string, other: string): boolean {
  if (one.length !== other.length) return false;
  const apart = [...one].flatMap((letter, i) => (letter === other[i] ? [] : [i]));
  const [first, second] = apart as [number, number];
  return apart.length === 1 || (apart.length === 2 && one[first] === other[second] && one[second] === other[first]);
}
