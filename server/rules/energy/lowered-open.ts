// Let down with a wheel off or a critical fastener slack.
import { isSamePlace } from "../../model/same-place.ts";
import { hasAction } from "../../model/has.ts";
import { allWords } from "../../model/titles.ts";
import type { Job } from "../../model/job.ts";
import type { Part } from "../../model/things.ts";
import type { FastenerCell, PartCell, Story, SupportMoment } from "../../story/story.ts";
import { isFoundOpen, isSlack } from "../../story/standing.ts";
import { relationsOf } from "../../model/relations.ts";
import { bearsFrame, rollsOrCarries } from "../../model/carries.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called, few, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "lowered-open",
  group: "Energy and support",
  severity: "error; warning where it was never up and no wheel was off",
  safety: true,
  title: "Let down with a wheel, an axle or a spring that bears the frame off, or a critical fastener slack, or when nothing says that it was ever up",
  why: "Once it is on its wheels a slack nut carries load, and what is off is not there to carry it. A wheel that came off a machine that nobody raised stood on something that nobody wrote down. Finish what is critical before it comes down. A part alone that hangs on a crane may be set down.",
  wrong: `fastener wheel-nut "Wheel nut"
  critical "a wheel"
step strip "Wheel nuts slack"
  chock
  raise on jack
  slacken wheel-nut
  lower
# ^^^^^ error lowered-open
  done
`,
  right: `fastener wheel-nut "Wheel nut"
  critical "a wheel"
step strip "Wheel nuts slack and tight"
  chock
  raise on jack
  slacken wheel-nut
  tighten wheel-nut
  lower
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "lower")) return;
    const { story } = context;
    for (const it of story.support) {
      if (it.verb !== "lower") continue;
      // Nothing says that the machine was raised, and a line that can't be read may have said what else comes down.
      if (it.before.raised === undefined && it.before.unclear?.hold) continue;
      if (neverUp(story, it)) {
        const bared = story.parts.find((cell) => rollsOrCarries(cell.thing) && cell.history.some((was) => was.seq < it.seq && was.after.on < cell.total));
        const under = story.support.find((was) => was.verb === "under" && was.seq < it.seq);
        const what =
          bared !== undefined
            ? `${called(bared.thing, bared.place)} ${agreeing(bared.thing, "was")} off`
            : under !== undefined
              ? "somebody was underneath"
              : undefined;
        report({
          where: it.where,
          severity: what === undefined ? "warning" : "error",
          message: `Let down here, ${what === undefined ? "" : `${what} before, `}and nothing says that it was ever raised, nor on what it stood. Write \`raise on …\` and \`support on …\` where that was done.`,
        });
        continue;
      }
      const slung = slungAlone(story, it);
      const open = it.open
        .filter((cell) => !setOnItsWheels(story, cell, it) && !isOffWithItsPart(story, cell, it))
        .filter((cell) =>
          slung === undefined
            ? cell.kind === "part"
              ? rollsOrCarries(cell.thing) || (cell.thing.critical && bearsFrame(cell.thing))
              : cell.thing.critical
            : cell.kind === "fastener" && cell.thing.critical && slung.has(cell.thing.name),
        );
      if (open.length === 0) continue;
      const names = [...new Set(open.map((cell) => midSentence(cell.thing, cell.place)))];
      report({
        where: it.where,
        severity: "error",
        message: `It is let down while this is off or slack: ${few(names)}. Finish it first.`,
        related: open.flatMap((cell) => {
          const last = cell.history.findLast((moment) => moment.seq < it.seq);
          return last === undefined ? [] : [{ where: last.where, message: `${midSentence(cell.thing, cell.place)}: last here.` }];
        }),
      });
    }
  },
};

/** Nothing that was done before raised the machine, bore it, or bore a part of it. */
function neverUp(story: Story, it: SupportMoment): boolean {
  const before = (was: { readonly seq: number }) => was.seq < it.seq;
  return (
    !story.support.some((was) => before(was) && (was.verb === "raise" || was.verb === "support")) &&
    !story.blurred.some((was) => before(was) && was.after.unclear?.hold === true)
  );
}

/** What it holds is off too, rolls or carries nothing, and goes on the same day: nobody lets a machine down on a side rod, and some parts only go on when it stands. A tie bar is on before that. */
function isOffWithItsPart(story: Story, cell: FastenerCell | PartCell, it: SupportMoment): boolean {
  if (cell.kind !== "fastener") return false;
  const held = relationsOf(story.job).holds.get(cell.thing.name) ?? [];
  if (held.length === 0 || held.some((part) => rollsOrCarries(part) || bearsFrame(part) || keepsWheels(story.job, part))) return false;
  const later = cell.history.filter((next) => next.seq > it.seq && next.phase === it.phase);
  // On a sheet under way it may still go on that day: that it is off is told where the job is to be released.
  const isYetToCome = later.length === 0 && it.phase === "done" && story.release === undefined;
  if (!isYetToCome && !later.some((next) => next.day === it.day && !isSlack(cell, next.after))) return false;
  return held.every((part) =>
    story
      .cells(part.name)
      .filter((one): one is PartCell => one.kind === "part" && isSamePlace(one.place, cell.place))
      .every((one) => one.history.findLast(({ seq }) => seq < it.seq)?.after.on === 0),
  );
}

/** It keeps a wheel or an axle in its place: what rolls lies behind it, and the same is lost with both. What drives a wheel, or hangs before it as brake rigging does, bears nothing. */
function keepsWheels(job: Job, part: Part): boolean {
  if (drives.test(allWords(part))) return false;
  return [...job.things.values()].some(
    (it) =>
      it.kind === "part" &&
      rollsOrCarries(it) &&
      it.behind.some(({ text }) => text === part.name) &&
      it.criticalWhat !== undefined &&
      it.criticalWhat === part.criticalWhat &&
      /(^|[^\p{L}])(wheels?|axles?)($|[^\p{L}])/iu.test(it.criticalWhat),
  );
}

/** From wheel to wheel, or from the engine to a wheel: it goes on when she stands. */
const drives = /\b(side|coupling|connecting|main|driving|eccentric|radius|piston|valve)[- ]rods?\b/iu;

/** Only slackened, all of it on, and done up in the same step once the machine stands, or where it sets something the same day: a rod or a bush that is set under its load. */
function setOnItsWheels(story: Story, cell: FastenerCell | PartCell, it: SupportMoment): boolean {
  if (cell.kind !== "fastener") return false;
  // A wheel is made fast before it stands on the ground.
  if ((relationsOf(story.job).holds.get(cell.thing.name) ?? []).some(rollsOrCarries)) return false;
  const before = cell.history.filter((was) => was.seq < it.seq);
  const last = before.findLast((was) => was.verb === "undo" || was.verb === "slacken" || was.verb === "fit" || isFoundOpen(was));
  // What sets the machine as it stands is set in a step of its own, the same day; put in finger-tight, or found slack, it is as one that was let go.
  const sets = (relationsOf(story.job).sets.get(cell.thing.name) ?? []).length > 0;
  if (!(last?.verb === "slacken" || (sets && (last?.verb === "fit" || last?.verb === "found"))) || (before.at(-1)?.after.on ?? 0) < cell.total) return false;
  return cell.history.some(
    (next) =>
      next.seq > it.seq &&
      (next.visit === it.visit || (sets && next.day === it.day && next.visit !== undefined)) &&
      next.phase === it.phase &&
      next.verb === "tighten" &&
      next.after.tight,
  );
}

/**
 * Where the machine itself never left the ground and only parts of it hang on the crane, those parts are set down, not the machine: what counts then
 * is what holds a part that is in its place. The names of those fasteners; nothing where the machine comes down.
 */
function slungAlone(story: Story, it: SupportMoment): ReadonlySet<string> | undefined {
  const { raised, supports } = it.before;
  if (raised !== undefined || !supports.some(({ on }) => on === "crane") || supports.some(({ part }) => part === undefined)) return undefined;
  const inPlace = supports.flatMap(({ part }) =>
    story
      .cells(part as string)
      .filter((cell): cell is PartCell => cell.kind === "part" && (cell.history.findLast(({ seq }) => seq < it.seq)?.after.on ?? cell.total) > 0),
  );
  return new Set(inPlace.flatMap((cell) => cell.thing.heldBy.map(({ text }) => text)));
}
