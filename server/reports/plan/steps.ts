// The steps of a plan as they are shown: what each waits for, in words, and its days.
// Invariant: says what the plan holds, and works nothing out.
import { orderText, small } from "../../model/titles.ts";
import { quantityText } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import { compare, zero } from "../../quantities/exact.ts";
import type { Parcel } from "../../plan/parcels.ts";
import type { PlannedStep } from "../../plan/plan.ts";
import type { Days, LineOf } from "./days.ts";
import type { StepShown, WaitShown } from "./shapes.ts";

export function stepShown(it: PlannedStep, job: string, at: LineOf, days: Days): StepShown {
  const { visit, times, takes, waits } = it;
  const { entry } = visit;
  const head = where(visit.file, entry, 0, entry.keyword);
  const written = entry.details.findLast((detail) => detail.kind === "takes" && detail.fault === undefined);
  const texts = (kind: "tool" | "caution") =>
    entry.details.flatMap((detail) =>
      detail.kind === kind && "text" in detail && detail.text !== undefined && detail.fault === undefined ? [detail.text.value] : [],
    );
  const latest = times?.latestStart === undefined || times.latestFinish === undefined ? undefined : { start: times.latestStart, finish: times.latestFinish };
  return {
    job,
    step: entry.name?.text ?? null,
    title: stepTitle(it),
    places: visit.places ?? [],
    state: it.state,
    doneOn: it.state === "done" ? (visit.day ?? null) : null,
    takes: takes === undefined ? null : days.span(takes),
    takesWritten: written?.kind === "takes" && written.time !== undefined && takes !== undefined ? quantityText(written.time) : null,
    tools: texts("tool"),
    cautions: texts("caution"),
    waitsFor: waits === undefined ? [] : waitsShown(it, at, days),
    earliestStart: times === undefined ? null : days.starts(times.start),
    earliestFinish: times === undefined ? null : days.ends(times.finish, times.start),
    latestStart: latest === undefined ? null : days.starts(latest.start),
    latestFinish: latest === undefined ? null : days.ends(latest.finish, latest.start),
    slack: times?.slack === undefined ? null : days.span(times.slack),
    freeSlack: times?.freeSlack === undefined ? null : days.span(times.freeSlack),
    critical: isCritical(it),
    atEarliest: it.open,
    ...at(head),
  };
}

export function stepTitle({ visit }: Pick<PlannedStep, "visit">): string {
  return visit.entry.title?.value ?? visit.entry.name?.text ?? "a step";
}

/** Without slack: the finish hangs on it. */
export function isCritical(it: { readonly times: PlannedStep["times"] }): boolean {
  return it.times?.slack !== undefined && compare(it.times.slack, zero) <= 0;
}

function waitsShown(it: PlannedStep, at: LineOf, days: Days): WaitShown[] {
  const { waits, story } = it;
  if (waits === undefined) return [];
  return [
    ...waits.steps.map(({ visit, why, where: from }): WaitShown => {
      const name = visit.entry.name?.text;
      const places = visit.places === undefined || visit.places.length === 0 ? "" : ` (${visit.places.join(", ")})`;
      return { kind: "step", text: `\u201c${stepTitle({ visit })}\u201d${places}: ${why}`, ...(name === undefined ? {} : { step: name }), ...at(from) };
    }),
    ...it.parcels.map(({ parcel, times }): WaitShown => {
      const day = parcel.days === undefined || times === undefined ? undefined : (days.day(Number(times.finish.n)) ?? undefined);
      return {
        kind: "parcel",
        text: `${small(parcel.item.title)}, ${comes(parcel, day)}`,
        ...(day === undefined || parcel.overdue > 0 ? {} : { day }),
        ...at(parcel.where),
      };
    }),
    ...waits.questions.map(({ name, where: from }): WaitShown => {
      const question = story.job.things.get(name);
      const home = question === undefined || question.implied ? from : { file: question.file, entry: question.entry, row: 0, at: question.at };
      return { kind: "answer", text: `the answer to \u201c${question?.title ?? name}\u201d`, ...at(home) };
    }),
    ...waits.unmet.map(({ text, where: from }): WaitShown => ({ kind: "fact", text, ...at(from) })),
  ];
}

/** “to be ordered, 2026-05-06 at the earliest” */
function comes(parcel: Parcel, day: string | undefined): string {
  const order = orderText(parcel.reference ?? "");
  if (parcel.kind === "item" && parcel.status === "to order") {
    if (parcel.supplier === undefined) return "which nobody offers";
    return day === undefined ? "to be ordered; nobody says how long it takes" : `to be ordered, here on ${day} at the earliest`;
  }
  const doing = parcel.kind === "work" ? (parcel.status === "sent" ? "away to be worked on, " : "to be worked on, ") : "";
  if (parcel.overdue > 0) return `${doing}${order}, which was due ${parcel.overdue === 1 ? "a day" : `${parcel.overdue} days`} ago`;
  if (day === undefined) return `${doing}${order}; nobody says how long it takes`;
  return `${doing}${order}, here on ${day}${parcel.status === "held" ? " at the earliest" : ""}`;
}
