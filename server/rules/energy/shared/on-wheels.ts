// Whether what is off as the machine comes down is off with its part, or the machine was set on its wheels: then nothing hangs on it.
import { isSamePlace } from "../../../model/same-place.ts";
import { allWords } from "../../../model/titles.ts";
import type { Job } from "../../../model/job.ts";
import type { Part } from "../../../model/things.ts";
import type { FastenerCell, PartCell, Story, SupportMoment } from "../../../story/story.ts";
import { isFoundOpen, isSlack } from "../../../story/standing.ts";
import { relationsOf } from "../../../model/relations.ts";
import { bearsFrame, rollsOrCarries } from "../../../model/carries.ts";

/** What it holds is off too, rolls or carries nothing, and goes on the same day: nobody lets a machine down on a side rod, and some parts only go on when it stands. A tie bar is on before that. */
export function isOffWithItsPart(story: Story, cell: FastenerCell | PartCell, it: SupportMoment): boolean {
  if (cell.kind !== "fastener") return false;
  const held = relationsOf(story.job).holds.get(cell.thing.name) ?? [];
  if (held.length === 0 || held.some((part) => rollsOrCarries(part) || bearsFrame(part) || keepsWheels(story.job, part))) return false;
  const later = cell.history.filter((next) => next.seq > it.seq && next.phase === it.phase);
  // On a sheet under way it may still go on that day: that it is off is told where the job is to be released.
  const isYetToCome = later.length === 0 && it.phase === "done" && story.release === undefined;
  const isAnyDay = held.every((part) => draws.test(allWords(part)));
  if (!isYetToCome && !later.some((next) => (isAnyDay || next.day === it.day) && !isSlack(cell, next.after))) return false;
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

/** Only slackened, all of it on, and done up in the same step once the machine stands, or where it sets something the same day: a rod or a bush that is set under its load. */
export function setOnItsWheels(story: Story, cell: FastenerCell | PartCell, it: SupportMoment): boolean {
  if (cell.kind !== "fastener") return false;
  // A wheel is made fast before it stands on the ground; its nuts are nipped in the air, and pulled to their figure where it can't turn.
  if ((relationsOf(story.job).holds.get(cell.thing.name) ?? []).some(rollsOrCarries)) return isNipped(cell, it);
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

/** All of them nipped by a spanner as it comes down, and pulled up in the same step. */
function isNipped(cell: FastenerCell, it: SupportMoment): boolean {
  const last = cell.history.findLast((was) => was.seq < it.seq);
  if (last?.verb !== "tighten" || last.after.on < cell.total || !nipped.test(last.action?.forNow?.value ?? "")) return false;
  const next = cell.history.find((was) => was.seq > it.seq);
  return next?.verb === "tighten" && next.visit === it.visit && next.phase === it.phase && next.to !== undefined && next.after.tight;
}

const nipped = /^(?!.*\b(fingers?|hand|thumb|half|some|one|two)\b).*\b(nipped|snug)\b/iu;

/** What she is drawn by: she stands on her wheels without it, for as long as nobody harnesses or couples up. */
const draws =
  /\b(poles?|draw[- ]?(bar|pole|gear|hook)s?|draught[- ]?(pole|bar|gear|hook)s?|tow(ing)?[- ]?(bar|hook|eye|hitch|ball)s?|swingle-?trees?|whipple-?trees?|splinter[- ]?bar|thills?)\b/iu;

/** From wheel to wheel, or from the engine to a wheel: it goes on when she stands. */
const drives = /\b(side|coupling|connecting|main|driving|eccentric|radius|piston|valve)[- ]rods?\b/iu;
