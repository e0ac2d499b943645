// A critical limit or check that belongs to nothing: no move asks for it, so the release does.
import type { Job } from "../../model/job.ts";
import { placesOf } from "../../model/job.ts";
import { memo } from "../../model/memo.ts";
import { isTriedTogether } from "../../model/read-with.ts";
import { referencesOf } from "../../model/references.ts";
import { isSamePlace } from "../../model/same-place.ts";
import type { Check, Limit } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { readingsOn, seenOn } from "../../story/looked-up.ts";
import type { FastenerMoment, Moment, PartMoment, Story } from "../../story/story.ts";
import { namesIn } from "../../story/worked-out.ts";
import { readAtOnePlace, wasOpened } from "../at-one-place.ts";
import { lastDisturbed } from "../moved.ts";
import type { JobContext, JobRule, Report } from "../rule.ts";
import { agreeing, called, calledAt, listed, midSentence } from "../wording.ts";
import { isBound, isFigureless } from "./shared/belonging.ts";
import { builtUpFor, isAfter, isMoved } from "./shared/critical-work.ts";
import { isReadAtEnd, seenEarly } from "./shared/read-at-end.ts";

export const rule: JobRule = {
  id: "critical-unread",
  group: "Release",
  severity:
    "error at release; warning where one place of several was looked at (which holds a release where the other was open for the same), or a data file asks it of what was opened",
  safety: true,
  title:
    "A critical limit or check without `of`, declared or named in this sheet, and no final reading or look, or none after the last critical work; a trial of what others were put together for",
  why: "What is declared critical here is declared to be looked at. Where it says nothing of what it is of, no part that moves asks for it, so the release asks; and a check that is of nothing is of the whole, so it is seen when all that is critical is together. A data file of the whole machine asks a small job for nothing.",
  wrong: `check selects "No two gears at once"
#     ^^^^^^^ error critical-unread
  critical "two gears at once"
part fork "Fork"
step a "Fork off and on"
  remove fork
  fit fork
  done
release by "A. Moor" 2026-05-10
`,
  right: `check selects "No two gears at once"
  critical "two gears at once"
part fork "Fork"
step a "Fork off and on"
  remove fork
  fit fork
  done
seen selects final good
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check(context) {
    const { job, story, report } = context;
    if (story.release === undefined) return;
    for (const thing of job.things.values()) {
      if ((thing.kind !== "limit" && thing.kind !== "check") || thing.implied || !thing.critical) continue;
      const said = asksFor(context, thing);
      if (said !== undefined) report(said);
    }
  },
};

/** What is said of one that is critical, by what it is: without a figure, of what moves, of a data file, worked out, or of nothing. */
function asksFor(context: JobContext, thing: Limit | Check): Report | undefined {
  const { job, story } = context;
  const isNamed = () => namedIn(job).has(thing.name);
  if (thing.kind === "limit" && isFigureless(story, thing)) return isNamed() ? withoutFigure(thing) : undefined;
  if (story.doubted.has(thing.name)) return undefined;
  if (isBound(context, thing)) return readAtOnePlace(story, thing) ?? (thing.kind === "check" ? untried(context, thing) : undefined);
  if (thing.file !== job.path && !isNamed() && !isWithOpened(story, thing)) return openedAndUnread(story, thing);
  return thing.kind === "limit" && thing.expression !== undefined ? operandsUnread(story, thing) : unread(context, thing);
}

const declaredAt = (thing: Limit | Check) => where(thing.file, thing.entry, 0, thing.at);
/** ` (left and right)`; of what has no places nothing. */
const inBrackets = (places: readonly string[]) => (places.length === 0 ? "" : ` (${listed(places)})`);

function withoutFigure(thing: Limit): Report {
  return {
    where: declaredAt(thing),
    severity: "error",
    message: `${called(thing)} ${agreeing(thing, "is")} critical and has no figure to be judged by. Find what it may be and write \`worn\`, \`new\` or \`set\`, with its source.`,
  };
}

function unread({ story, line }: JobContext, thing: Limit | Check): Report | undefined {
  const missing = touchedOf(story, thing).filter((place) => !isReadAtEnd(story, thing, place));
  if (missing.length === 0) return undefined;
  const early = missing.map((place) => seenEarly(story, thing, place)).find((it) => it !== undefined);
  const at = missing.filter((place) => place !== "");
  const isLimit = thing.kind === "limit";
  const write = isLimit ? `measure ${thing.name} final` : `seen ${thing.name} final good${at.length === 1 ? ` ${at[0]}` : ""}`;
  if (early !== undefined)
    return {
      where: declaredAt(thing),
      severity: "error",
      message: `${called(thing)} ${agreeing(thing, "was")} ${isLimit ? "measured" : "seen"} before the last critical work (line ${line(early.where)}). ${isLimit ? "Measure it" : "Look"} again and write \`${write}\` after it${thing.with.length + thing.setBy.length > 0 ? "" : ", or say with `of` what it is of"}.`,
      related: [{ where: early.where, message: "Done after it was seen." }],
    };
  const isFoundSo = isLimit && thing.with.length === 0 && readingsOn(story, thing.name).some((it) => it.stage === "found");
  return {
    where: declaredAt(thing),
    severity: "error",
    message: `${isLimit ? calledAt(thing, missing) : `${called(thing)}${inBrackets(at)}`} is critical and was not ${isLimit ? "measured" : "seen good"} at the end. Write \`${write}\`${isFoundSo ? ", or say with `of` what it was found so of" : ""}.`,
    reads: [{ name: thing.name, places: missing }],
  };
}

/** The places of what it is seen or read with, as far as somebody worked there; all, where nothing of that was touched or it is with nothing. */
function touchedOf(story: Story, thing: Limit | Check): readonly string[] {
  const places = placesOf(story.job, thing);
  if (places.length < 2 || thing.with.length === 0) return places;
  const touched = places.filter((place) =>
    thing.with.some(({ text }) =>
      story
        .cells(text)
        .some(
          (cell) =>
            (cell.kind === "part" || cell.kind === "fastener") &&
            cell.place === place &&
            (cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.phase === "done" && it.verb !== "found" && it.verb !== "mark"),
        ),
    ),
  );
  return touched.length === 0 ? places : touched;
}

/** It says itself what it is seen or read with, and that was opened here. */
function isWithOpened(story: Story, { with: names }: Limit | Check): boolean {
  return names.some(({ text }) => story.cells(text).some((cell) => (cell.kind === "part" || cell.kind === "fastener") && wasOpened(cell)));
}

/** In a data file, of nothing that is named, and never read: asked for where something that is critical for the very same was opened. */
function openedAndUnread(story: Story, thing: Limit | Check): Report | undefined {
  const { job, release } = story;
  const what = thing.criticalWhat;
  if (release === undefined || what === undefined || (thing.kind === "limit" && thing.expression !== undefined)) return undefined;
  const all: readonly Moment[] = thing.kind === "check" ? seenOn(story, thing.name) : readingsOn(story, thing.name);
  if (all.length > 0) return undefined;
  if (!openedFor(story).has(what)) return undefined;
  // What steers and stops is tried by whoever had it apart, whichever part the file forgot to say.
  const holds =
    thing.kind === "check" && controls.test(what) && isTriedTogether(thing) && placesOf(job, thing).some((place) => builtUpFor(story, what, place).length > 0);
  return {
    where: release.where,
    severity: "warning",
    ...(holds ? { open: true, reads: [{ name: thing.name, places: placesOf(job, thing) }] } : {}),
    message: `${called(thing)} ${agreeing(thing, "is")} critical for “${what}”, which was opened here, and nobody read it. Write \`${thing.kind === "limit" ? "measure" : "seen"} ${thing.name} final${thing.kind === "limit" ? "" : " good"}\`.`,
    related: [{ where: declaredAt(thing), message: "Declared here." }],
  };
}

/** What may be lost, by the critical things that were opened here. */
const openedFor = memo(
  (story: Story): ReadonlySet<string | undefined> =>
    new Set([...story.parts, ...story.fasteners].filter(wasOpened).map(({ thing: it }) => (it.critical ? it.criticalWhat : undefined))),
);

const controls = /\b(steer|brak)\w*/iu;

/**
 * Tried by it is what may be lost, of a part that nobody moved; others that are critical for the very same were put together here, or what sets a figure of that part was
 * moved: lock to lock, with new chains; a switch that stops, with its travel set.
 */
function untried({ job, story, line }: JobContext, thing: Check): Report | undefined {
  const what = thing.criticalWhat;
  if (what === undefined || thing.file !== job.path || !isTriedTogether(thing) || [...thing.of, ...thing.setBy].some(({ text }) => isMoved(story, text)))
    return undefined;
  const workAt = (place: string) => [...builtUpFor(story, what, place), ...setAnew(story, thing, what, place)];
  const missing = placesOf(job, thing).filter((place) => {
    const work = workAt(place);
    return (
      work.length > 0 &&
      !seenOn(story, thing.name).some((it) => it.stage !== "trial" && isSamePlace(it.place, place) && work.every((done) => isAfter(it, done)))
    );
  });
  const [last] = missing.flatMap(workAt);
  if (last === undefined) return undefined;
  const at = missing.filter((place) => place !== "");
  return {
    where: declaredAt(thing),
    severity: "error",
    message: `${called(thing)}${inBrackets(at)} is critical for “${what}”, which was put together again here (line ${line(last.where)}), and was not tried since. Write \`seen ${thing.name} final good${at.length === 1 ? ` ${at[0]}` : ""}\`.`,
    reads: [{ name: thing.name, places: missing }],
    related: [{ where: last.where, message: "Put together here." }],
  };
}

/** The last move of what sets a figure of the same part, that is critical for the same. */
function setAnew(story: Story, { of }: Check, what: string, place: string): readonly Moment[] {
  const setters = [...story.job.things.values()].flatMap((it) =>
    it.kind === "limit" && it.criticalWhat === what && it.of.some(({ text }) => of.some((name) => name.text === text)) ? it.setBy : [],
  );
  const move = setters.length === 0 ? undefined : lastDisturbed(story, setters, place);
  return move === undefined ? none : [move.moment];
}

/** Of operands that belong to nothing: each of them is read. */
function operandsUnread(story: Story, thing: Limit): Report | undefined {
  const { job } = story;
  const operands = [...namesIn(thing.expression as NonNullable<Limit["expression"]>)].map((name) => job.things.get(name));
  const missing = operands.filter(
    (it): it is Limit =>
      it?.kind === "limit" && it.expression === undefined && !story.doubted.has(it.name) && !placesOf(job, it).every((place) => isReadAtEnd(story, it, place)),
  );
  if (missing.length === 0 || placesOf(job, thing).every((place) => isReadAtEnd(story, thing, place))) return undefined;
  return {
    where: declaredAt(thing),
    severity: "error",
    message: `${called(thing)} ${agreeing(thing, "is")} critical, and what it is worked out from was not measured at the end: ${listed(missing.map((it) => midSentence(it)))}. Write \`measure ${missing[0]?.name} final\`.`,
    reads: missing.map((it) => ({ name: it.name, places: placesOf(job, it) })),
  };
}

const namedIn = memo((job: Job): ReadonlySet<string> => {
  const names = new Set<string>();
  for (const entry of job.own.sheet.entries) for (const { name } of referencesOf(entry).things) names.add(name.text);
  return names;
});

const none: readonly never[] = [];
