// The words that every drawing of a plan shares: times, what a step or a parcel waits for, and how all of it is counted.
// Invariant: says what the report holds; what is rounded here is for reading only.
import { compare, decimalText, exact, trimmed, zero } from "../../quantities/exact.ts";
import { grouped } from "../../model/grouped.ts";
import { memo } from "../../model/memo.ts";
import { orderText, small } from "../../model/titles.ts";
import { capital, counted, listed } from "../../rules/wording.ts";
import { ended, soMany, stepsListed, titleAndName, titlesListed } from "../draw/so-many.ts";
import type { Duration, GaugeShown, JobShown, MakeShown, ParcelShown, PlanReport, StepShown } from "./shapes.ts";

/** “2 d 3 h”, “40 min”. */
export function durationWords(it: Duration, hoursADay: number): string {
  const hours = exact(it.hours) ?? zero;
  if (compare(hours, zero) <= 0) return "no time";
  const days = hours.div(hoursADay).floor();
  const rest = hours.sub(days.mul(hoursADay));
  const small = compare(rest, exact("1") ?? zero) < 0;
  const figure = trimmed(decimalText(small ? rest.mul(60) : rest, small ? 1 : 2));
  const words = [days.n === 0n ? "" : `${days.n} d`, figure === "0" ? "" : `${figure} ${small ? "min" : "h"}`].filter((word) => word !== "");
  return words.length === 0 ? "under a minute" : words.join(" ");
}

/** What a job comes to, in sentences. */
export function jobWords(job: JobShown, report: PlanReport): string[] {
  const span = (it: Duration) => durationWords(it, report.hoursADay);
  const left = withoutStepWords(job);
  if (job.planned === 0) {
    const none = job.done === 0 ? "No step is written yet." : `Nothing more is planned; ${counted(job.done, "step")} done.`;
    return left === undefined ? [none] : [left, none];
  }
  // What is not planned can't be counted in any finish, so it is said before it.
  const out: string[] = left === undefined ? [] : [left];
  const what = left === undefined ? "Earliest finish" : "Earliest end of what is planned";
  if (job.finish === null) out.push("No finish date: steps wait for each other.");
  else if (job.atEarliest) {
    const day = job.finish.day ?? "later than can be written";
    const waits = [...job.unknown.slice(0, 3), ...(job.unknown.length > 3 ? [`and ${job.unknown.length - 3} more`] : [])];
    out.push("Finish: not known.");
    if (waits.length > 0) out.push(ended(`It waits for ${waits.join("; ")}`));
    out.push(`If all of that came today: ${day} (${span(job.finish)}).`);
  } else out.push(`${what}: ${job.finish.day ?? "later than can be written"} (${span(job.finish)}).`);
  const more = job.finish !== null && compare(exact(job.work.hours) ?? zero, exact(job.finish.hours) ?? zero) > 0;
  out.push(`Work left: ${span(job.work)}${more ? ", which one pair of hands can't do by then" : ""}.`);
  if (job.untimed === 1) out.push("One step doesn't say how long it takes, and counts as nothing.");
  else if (job.untimed > 1) out.push(`${job.untimed} steps don't say how long they take, and count as nothing.`);
  return out;
}

/** “27 things that are off and 1 that is slack have no step yet.” */
export function withoutStepWords({ withoutStep: { off, slack, drained } }: Pick<JobShown, "withoutStep">): string | undefined {
  const are = (count: number) => (count === 1 ? "is" : "are");
  const parts = (
    [
      [off, "off"],
      [slack, "slack"],
      [drained, "drained"],
    ] as const
  ).filter(([count]) => count > 0);
  if (parts.length === 0) return undefined;
  const words = parts.map(([count, state], i) => `${i === 0 ? counted(count, "thing") : count} that ${are(count)} ${state}`);
  return `${listed(words)} ${off + slack + drained === 1 ? "has" : "have"} no step yet.`;
}

/** “2026-06-01 to 2026-06-03”; “not before …” where it hangs on what has no day. */
export function daysWords(it: StepShown): string {
  const [first, last] = [it.earliestStart?.day, it.earliestFinish?.day];
  if (it.earliestStart === null) return it.state === "done" ? (it.doneOn ?? "") : "no day: it waits in a circle";
  if (first === null || first === undefined || last === null || last === undefined) return "later than can be written";
  const days = first === last ? first : `${first} to ${last}`;
  return it.atEarliest ? `not before ${days}` : days;
}

/** How much later it may start. */
export function slackWords(it: StepShown, report: PlanReport): string {
  // What waits for something without a day may be as late as that.
  if (it.state === "done" || it.slack === null || it.atEarliest) return "";
  return it.critical ? "none: the finish depends on it" : `${durationWords(it.slack, report.hoursADay)} to spare`;
}

/** “Draw the hubs, left and right” */
export function stepWords(it: Pick<StepShown, "title" | "places">): string {
  return it.places.length === 0 ? it.title : `${it.title}, ${listed(it.places)}`;
}

export function stateWords(it: StepShown): string {
  return it.state === "waiting" ? "waits" : it.state;
}

/** Where work is left and none of it can be begun. */
export function nothingReady(report: PlanReport): boolean {
  return report.steps.some((it) => it.state === "waiting") && report.steps.every((it) => it.state !== "ready");
}
export const nothingReadyWords = "Nothing can be begun today: every step waits.";

/** A sign for each state, so that no colour need say it. */
export const stateSigns: Readonly<Record<StepShown["state"], string>> = { done: "\u2713", ready: "\u25b6", waiting: "\u2026" };

/** From whom, and how it stands. */
export function fromWords(it: ParcelShown): string {
  const order = it.order === null ? "an order" : orderText(it.order);
  const whom = it.supplier === null ? "" : `${it.supplier}, `;
  if (it.status === "to order") return it.supplier === null ? "Nobody offers it" : `${whom}to be ordered`;
  const stands = it.status === "held" ? "on hold, not sent" : it.status;
  return `${whom}${order}, ${it.kind === "work" && it.status === "sent" ? "out to be worked on" : stands}`;
}

/** “2 × hub seal”, “250 ml of axle oil”; with the name in the sheet where another thing of the report has the same title. */
export function itemsWords(it: ParcelShown, report: PlanReport): string[] {
  return it.items.map((item) => {
    const name = sharedTitles(report).has(item.name) ? titleAndName(item) : item.name;
    if (it.kind === "work") return `${name}: work on it`;
    return item.quantity === null ? name : soMany(`${item.quantity}${item.unit === null ? "" : ` ${item.unit}`}`, name);
  });
}

/** Titles that two things in the parcels have. */
const sharedTitles = memo((report: PlanReport): ReadonlySet<string> => {
  const items = [...report.parcels, ...report.notPlanned].flatMap((it) => it.items);
  return new Set([...grouped(items, (it) => it.name)].filter(([, all]) => all.some((it) => it.item !== all[0]?.item)).map(([name]) => name));
});

/** When it comes, and what that rests on. */
export function comesWords(it: ParcelShown): string {
  if (it.overdue > 0) return `was due ${counted(it.overdue, "day")} ago: ask where it is`;
  if (it.arrivesIn === null) return it.supplier === null && it.status === "to order" ? "no day" : "nobody says how long it takes: ask";
  if (it.arrives === null) return "later than can be written";
  return it.status === "placed" || it.status === "sent" ? `here on ${it.arrives}` : `here on ${it.arrives} if it goes out on ${it.leaves ?? "the first day"}`;
}

/** How much it may be late, or by when it must go out. */
export function parcelSlackWords(it: ParcelShown): string {
  if (it.questions.length > 0) return "not before the answer";
  if (it.slack === null) return "";
  if (it.mustGoToday) return "order today or the job finishes late";
  if (it.goesOutBy !== null) return it.critical ? `order by ${it.goesOutBy} or the job finishes late` : `order by ${it.goesOutBy}`;
  return it.critical ? "none: the finish depends on it" : `${it.slack} d to spare`;
}

/** “Flywheel key: new gib key, filed and blued (“Flywheel and its new key” waits for it)”. */
export function makeWords(it: MakeShown): string {
  const waits = it.steps.length === 0 ? "no step fits it yet" : waitFor(it.steps);
  return `${it.count > 1 ? soMany(`${it.count}`, it.name) : capital(it.name)}${it.how === null ? "" : `: ${it.how}`} (${waits})`;
}

/** What is to be asked today: questions, and what keeps a parcel without a day. */
export function toAsk(report: PlanReport): { readonly text: string; readonly file: string; readonly line: number }[] {
  const parcels = report.parcels.flatMap((it) => {
    const [first] = it.items;
    if (first === undefined || (it.arrivesIn !== null && it.overdue === 0)) return [];
    const names = titlesListed(it.items.map((item) => item.name));
    const order = it.order === null ? "the order" : orderText(it.order);
    const who = it.supplier ?? "the supplier";
    const text =
      it.overdue > 0
        ? `${it.supplier ?? "The supplier"}: where is ${order} (${names})? It was due ${counted(it.overdue, "day")} ago.`
        : it.status === "to order" && it.supplier === null
          ? `Who has ${names}? Nobody offers ${it.items.length > 1 ? "them" : "it"}.`
          : `How long does ${who} take with ${names}?`;
    return [{ text, file: first.file, line: first.line }];
  });
  const questions = report.questions.map((it) => ({
    text: `${it.asks} (${waitFor(it.steps)})`,
    file: it.file,
    line: it.line,
  }));
  return [...questions, ...parcels];
}

function waitFor(steps: readonly string[]): string {
  return `${stepsListed(steps)} ${steps.length === 1 ? "waits" : "wait"} for it`;
}

/** “Torque wrench: to be checked; its check holds to 2026-06-05; it is wanted for “Pinion nut” on 2026-06-13” */
export function gaugeWords(it: GaugeShown): string {
  return `${it.name}: to be checked. Its check holds to ${it.due}; it is wanted for \u201c${it.step}\u201d on ${it.day} at the earliest.`;
}

/** What must go out today. */
export function toSendFor(report: PlanReport): ParcelShown[] {
  return report.parcels.filter((it) => it.mustGoToday);
}

export function meanwhileWords(it: PlanReport["meanwhile"][number]): string {
  const until = `Until ${small(it.waitsFor)} comes${it.until === null ? "" : ` on ${it.until}`}`;
  return it.steps.length === 0 ? `${until}, nothing else of it can be done.` : `${until}, there is time for ${stepsListed(it.steps)}.`;
}

/** How time is counted, said on every drawing. */
export function countedWords(report: PlanReport): string {
  return (
    `Counted from ${report.from} at ${report.hoursADay} hours of work a day, every day of the week; “takes 1 d” is one such day. ` +
    "A lead is counted in days of the calendar: what comes on a day is there in its morning, and what is not sent for yet goes out on the first day. " +
    "Steps that don't wait for each other are counted side by side; what a job may be late is counted against its own finish. It is an estimate from what the sheet says."
  );
}
