// Done, or written, before what it needs; or fitted new before it came, or more of them than ever came.
import { type Slices, someAtOnce } from "../../../grammar/slices.ts";
import { putInto } from "../../model/grouped.ts";
import { memo } from "../../model/memo.ts";
import { type Where, where } from "../../model/where.ts";
import { addMonths } from "../../quantities/days.ts";
import { openedOn } from "../../story/opened-on.ts";
import type { FastenerMoment, FluidMoment, PartCell, PartMoment, Story, Visit } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { againstDays } from "../days-against-lines.ts";
import type { JobContext, JobRule, Report } from "../rule.ts";
import { agreeing, calledAt } from "../wording.ts";
import { needsBefore, waitsInTurn } from "../sequence.ts";
import {
  cameThoughCancelled,
  fluidsBeforeTheyCame,
  lockingsBeforeTheyCame,
  moreThanCame,
  newBeforeTheyCame,
  ordersRunningBackwards,
} from "./shared/before-it-came.ts";

export const rule: JobRule = {
  id: "step-too-early",
  group: "Order of work",
  severity:
    "error; warning where more new ones are in than were ordered, or an order came before it was placed; information where one that never goes back went in again",
  safety: false,
  title:
    "Done, or written, before what it needs; fitted new before it came, or more new ones than were ordered or kept; an order that came before it was placed, or after it was cancelled; bushes reamed in line with none in",
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
  *check(context) {
    /** Steps whose day is said to be wrong: once is enough. */
    const dated = new Set<Visit>();
    yield* beforeWhatTheySay(context, dated);
    yield;
    againstTheLines(context, dated);
    aYearEarly(context);
    ordersRunningBackwards(context);
    cameThoughCancelled(context);
    const said = newBeforeTheyCame(context);
    yield;
    moreThanCame(context, said);
    linedBeforeTheyWent(context);
    fluidsBeforeTheyCame(context);
    lockingsBeforeTheyCame(context);
  },
};

/** Reamed in line, as bushes are that are in, while none was: the new ones went in behind that, and nothing was done to them since. */
function linedBeforeTheyWent({ story, report, line }: JobContext): void {
  for (const { cell, moment, places } of byLine<PartCell, PartMoment>(story.parts, (it, one) => linedEmpty(one)?.cut === it)) {
    const fit = linedEmpty(cell)?.fit as PartMoment;
    report({
      where: moment.where,
      severity: "warning",
      open: true,
      message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "was")} reamed in line here, with none in: new ones went in after it (line ${line(fit.where)}), and are as they came. Write the work below that, or correct one of them.`,
      related: [{ where: fit.where, message: "Fitted new here." }],
    });
  }
}

const linedEmpty = memo((cell: PartCell): { readonly cut: PartMoment; readonly fit: PartMoment } | undefined => {
  if (cell.unsure || cell.thing.implied) return undefined;
  const done = cell.history.filter((it) => it.phase === "done");
  const cut = done.findLast((it) => it.verb === "repair");
  if (cut === undefined || cut.after.on > 0 || !inLine.test(cut.action?.text?.value ?? "")) return undefined;
  const fit = done.find((it) => it.seq > cut.seq && it.verb === "fit" && it.isNew);
  return fit === undefined || !cell.now.lots.every((lot) => lot.isNew) ? undefined : { cut, fit };
});

/** Of what is in its bore: in the hand nobody reams two in line. */
const inLine = /\b(ream|bor|hon)\w* (\w+ ){0,2}in (line|place|situ|position)\b|\b(in[- ]?line|line)[- ]?(ream|bor|hon)\w*/iu;

/** Steps that stand, or were done, before one that they say they come after. */
function* beforeWhatTheySay({ story, report, line }: JobContext, dated: Set<Visit>): Slices<void> {
  const graph = needsBefore(story);
  const byName = new Map<string, Visit[]>();
  for (const visit of story.visits) if (visit.entry.name !== undefined) putInto(byName, visit.entry.name.text, visit);
  const begun = new Set(story.visits.filter((it) => it.phase === "done").map((it) => it.entry));
  yield;
  let n = 0;
  for (const visit of story.visits) {
    if (visit.phase === "planned" && begun.has(visit.entry)) continue;
    const own = visit.entry.name?.text;
    for (const detail of visit.entry.details) {
      if (detail.kind !== "after" || detail.fault !== undefined) continue;
      for (const step of detail.steps) {
        if (++n % someAtOnce === 0) yield;
        const before = byName.get(step.text);
        // Steps that wait for each other are said once, as a circle.
        if (before === undefined || waitsInTurn(graph, step.text, own) || step.text === own) continue;
        const wrong = beforeOne(visit, step.text, before, line);
        if (wrong?.isByDay === true) dated.add(visit);
        if (wrong !== undefined) report({ where: where(visit.file, visit.entry, detail.row, step.at), severity: "error", ...wrong.said });
      }
    }
  }
}

/** A visit of a step, and all of one that it comes after. */
function beforeOne(
  visit: Visit,
  name: string,
  before: readonly Visit[],
  line: JobContext["line"],
): { readonly said: Pick<Report, "message" | "related">; readonly isByDay?: true } | undefined {
  const first = before[0] as Visit;
  const there = where(first.file, first.entry, 0, first.entry.keyword);
  const at = (message: string) => [{ where: there, message }];
  if (visit.phase !== "done") {
    if (first.phase !== "planned" || first.number <= visit.number) return undefined;
    const message = `This step is written before \`${name}\`, which it needs (line ${line(there)}). Move it below.`;
    return { said: { message, related: at("Written below.") } };
  }
  const late = before.find((it) => it.phase === "done" && it.day !== undefined && visit.day !== undefined && it.day > visit.day);
  const isByDay = late === undefined ? {} : { isByDay: true as const };
  if (before.some((it) => it.phase === "planned")) {
    const message = `This step is done, and \`${name}\`, which it needs, is not (line ${line(there)}). Do that first, or take \`after\` away.`;
    return { said: { message, related: at("Not done.") }, ...isByDay };
  }
  if (late !== undefined) {
    const message = `This step was done on ${visit.day ?? ""}, and \`${name}\`, which it needs, on ${late.day ?? ""}. Correct the days, or take \`after\` away.`;
    return { said: { message, related: at("Done later.") }, ...isByDay };
  }
  if (!before.some((it) => it.phase === "done" && it.number > visit.number && it.day === visit.day)) return undefined;
  const message = `This step is written before \`${name}\`, which it needs (line ${line(there)}). Write them in the order in which they were done.`;
  return { said: { message, related: at("Written below.") } };
}

/** The story goes by its lines; days that run against them leave it open which of the two is true. */
function againstTheLines({ story, report, line }: JobContext, dated: Set<Visit>): void {
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
}

/** These move nothing, or are the move of something else. */
const ofNoMove: ReadonlySet<string> = new Set(["other", "mark", "lost"]);

function aYearEarly({ story, report }: JobContext): void {
  for (const { visit, at, opened } of doneAYearEarly(story))
    report({
      where: at,
      severity: "warning",
      message: `This step is dated ${visit.day ?? ""}, and the sheet was opened on ${opened}. Is the year right?`,
    });
}

/** Done steps that a slip of the year has put long before the sheet was opened: a year on they are of this job. */
function doneAYearEarly(story: Story): { readonly visit: Visit; readonly at: Where; readonly opened: string }[] {
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
