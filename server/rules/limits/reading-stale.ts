import { putInto } from "../../model/grouped.ts";
import { type Job, placesOf } from "../../model/job.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import { memo } from "../../model/memo.ts";
import { isSamePlace } from "../../model/same-place.ts";
import { allWords } from "../../model/titles.ts";
import { tightenedText, wantedOf } from "../../model/torque.ts";
import { tightnessAt } from "../../story/put-right.ts";
import { isCritical, relationsOf, settersWithHosts } from "../../model/relations.ts";
import {
  fluidsAsRead,
  headOf,
  isAtWork,
  isBetweenPieces,
  isOfCracks,
  isOfLeaks,
  isOfMarksMeeting,
  isSeenOfTwoWheels,
  isOfSurface,
  isOfTeeth,
  isOfAllMounted,
  isReadTogether,
  isReadBoltedUp,
  isOnBench,
  isSeenRunning,
  isSquashed,
  isSubjectOf,
  isTriedTogether,
  outAsRead,
  pulledOver,
  readWith,
  subjectOf,
  wordsOf,
} from "../../model/read-with.ts";
import type { Check, Fluid, Limit, Thing } from "../../model/things.ts";
import type { FastenerCell, FastenerMoment, Moment, PartCell, PartMoment, Reading, Seen, Story } from "../../story/story.ts";
import { isNear } from "../moved.ts";
import { onAt } from "../../story/in-place.ts";
import { offItsWheels } from "../on-its-wheels.ts";
import { type PartlyOn, partlyOn } from "../partly-on.ts";
import {
  type LaterThan,
  type NotYet,
  datedBefore,
  hadCome,
  isBelowWork,
  liveOnlyLater,
  movedSince,
  readBeforeItCame,
  readOfTheOld,
  saysHowItWas,
} from "../stale.ts";
import { triedEarly } from "../tried-early.ts";
import type { JobRule, Report, Severity } from "../rule.ts";
import { agreeing, called, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "reading-stale",
  group: "Limits, readings, checks",
  severity: "error at release, else warning",
  safety: true,
  title: "A final reading older than the last move of what sets it, or than the piece that is in; a look for leaks older than the fluid",
  why: "A nut that goes on to its slot after it was measured has moved the float again. The reading that counts is the one after the last move, with the locking in.",
  wrong: `fastener hub-nut "Hub nut"
limit end-float "Hub end float"
  set 0.05 .. 0.12 mm by hub-nut
  source "Maker's handbook, page 64"
step set-it "Float set"
  tighten hub-nut
  done
measure end-float final
  0.08 mm
# ^^^^^^^ warning reading-stale
step set-again "Float set again"
  tighten hub-nut
  done
`,
  right: `fastener hub-nut "Hub nut"
limit end-float "Hub end float"
  set 0.05 .. 0.12 mm by hub-nut
  source "Maker's handbook, page 64"
step set-it "Float set"
  tighten hub-nut
  done
measure end-float final
  0.08 mm
`,
  scope: "job",
  *check({ job, story, report, line }) {
    const severity = story.release === undefined ? "warning" : "error";
    const datedBack = (it: Reading | Seen, { cell, what, moment }: LaterThan) => ({
      where: it.where,
      severity: severity as Severity,
      message: `${called("limit" in it ? it.limit : { name: it.check.name }, it.place)} ${agreeing("limit" in it ? it.limit : { name: it.check.name }, "is")} dated ${it.day ?? ""}, and ${cell === undefined ? what : `${midSentence(cell.thing, cell.place)} ${what}`}${moment === undefined ? "" : ` (line ${line(moment.where)})`}: it says how it was before. ${"limit" in it ? "Measure it as it is now" : "Look once more"}, or correct the day.`,
      ...(moment === undefined ? {} : { related: [{ where: moment.where, message: "On a later day." }] }),
    });
    const onTrial = (it: Reading | Seen, { cell, moment }: ForNow) => {
      const thing = "limit" in it ? it.limit : { name: it.check.name };
      return {
        where: it.where,
        severity: severity as Severity,
        message: `${called(thing, it.place)} ${agreeing(thing, "was")} ${"limit" in it ? "read" : "seen"} while the ${midSentence(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} on \`for now\`, and that was done up again since (line ${line(moment.where)}): that was a trial. ${"limit" in it ? "Measure it once more" : "Look once more"}.`,
        related: [{ where: moment.where, message: "Done here, after it was read." }],
      };
    };
    const ofSome = (it: Reading | Seen, { cell, on, moment }: PartlyOn) => {
      const thing = "limit" in it ? it.limit : { name: it.check.name };
      const again = "limit" in it ? "Measure it once more" : "Look once more";
      const which = midSentence(cell.thing, cell.place);
      const [how, then] =
        on === 0
          ? [`with the ${which} off, and that went on after it`, "that on"]
          : on < cell.total
            ? [`with ${on} of ${cell.total} on (${which}), and the rest went on after it`, "all of them on"]
            : [`with the ${which} on and slack, and that was tightened after it`, "that tight"];
      return {
        where: it.where,
        severity: severity as Severity,
        message: `${called(thing, it.place)} ${agreeing(thing, "was")} ${"limit" in it ? "read" : "seen"} ${how} (line ${line(moment.where)}). ${again} with ${then}.`,
        related: [{ where: moment.where, message: "Done here, after it." }],
      };
    };
    const readWithin = (it: Reading | Seen, { cell, moment }: ForNow) => {
      const thing = "limit" in it ? it.limit : { name: it.check.name };
      return {
        where: it.where,
        severity: severity as Severity,
        message: `${called(thing, it.place)} ${agreeing(thing, "is")} to be ${"limit" in it ? "read" : "seen"} with the ${midSentence(cell.thing, cell.place)} out, by its own words, and ${agreeing(cell.thing, "it")} went in before (line ${line(moment.where)}). ${"limit" in it ? "Measure" : "Look"} again as it says.`,
        related: [{ where: moment.where, message: "Went in here, before it was read." }],
      };
    };
    const later = new Map<string, { readonly ends: Set<string>; readonly entries: Set<Reading["entry"]> }>();
    for (let i = story.readings.length - 1; i >= 0; i--) {
      if (i % someAtOnce === 0) yield;
      const reading = story.readings[i] as (typeof story.readings)[number];
      if (reading.stage !== "final") continue;
      const { limit, place } = reading;
      // Only the latest final of a place, and of each end there, can be stale; the ones before it were read again. What stands under one `measure` is of one moment.
      const known = later.get(`${limit.name} ${place}`) ?? { ends: new Set(), entries: new Set() };
      later.set(`${limit.name} ${place}`, known);
      const end = reading.position ?? "";
      const all = known.ends.has("") || (limit.positions.length > 0 && limit.positions.every((it) => known.ends.has(it)));
      const isReadLater = all || known.ends.has(end) || known.entries.has(reading.entry);
      known.ends.add(end);
      if (isReadLater) continue;
      known.entries.add(reading.entry);
      const stale = (it: Report) => report({ ...it, reads: [{ name: limit.name, places: [place] }] });
      const off = offItsWheels(story, reading);
      if (off !== undefined) {
        stale({
          where: reading.where,
          severity,
          message: `${called(limit, place)} ${agreeing(limit, "is")} read with the machine on its wheels, and ${off.what} then (line ${line(off.moment.where)}). Measure it when it stands on them.`,
          related: [{ where: off.moment.where, message: "Done here." }],
        });
        continue;
      }
      const within = wasIn(story, limit, reading);
      if (within !== undefined) {
        stale(readWithin(reading, within));
        continue;
      }
      const some = partlyOn(story, reading);
      if (some !== undefined) {
        stale(ofSome(reading, some));
        continue;
      }
      if (limit.setBy.length === 0) {
        const before = readOfTheOld(story, reading);
        if (before !== undefined)
          stale({
            where: reading.where,
            severity,
            message: `${called(limit, place)} ${agreeing(limit, "is")} dated ${reading.day ?? ""}, and ${midSentence(before.cell.thing, before.cell.place)} went in on ${before.moment.day ?? ""} (line ${line(before.moment.where)}): ${readWith(story.job, limit).includes(before.cell.thing) ? "it has its size when it is in" : "it was read of the one that came out"}. Measure the one that is in${before.come ? ", or note `on the bench`" : ""}.`,
            related: [{ where: before.moment.where, message: "Fitted here." }],
          });
        const early = before === undefined ? readBeforeItCame(story, reading) : undefined;
        if (early !== undefined)
          stale({
            where: reading.where,
            severity,
            message: `${called(limit, place)} ${agreeing(limit, "is")} dated ${reading.day ?? ""}, and ${notYet(early)} ${early.order.back === undefined ? "later" : `on ${early.order.back}`}. Measure what came, or correct the day.`,
            related: [{ where: early.order.where, message: early.isNew ? "Ordered here." : "Sent out here." }],
          });
        const was = before === undefined && early === undefined ? (saysHowItWas(story, reading) ?? liveOnlyLater(story, reading)) : undefined;
        if (was !== undefined) stale(datedBack(reading, was));
        const without = readWithout(story, limit, reading);
        if (without.length > 0) stale({ where: reading.where, severity, message: readBare(limit, reading, without) });
        const slack = without.length > 0 ? undefined : slackAt(story, reading);
        if (slack !== undefined)
          stale({
            where: reading.where,
            severity,
            message: `${called(limit, place)} ${agreeing(limit, "is")} read of what is together, and ${midSentence(slack.cell.thing, slack.cell.place)} ${agreeing(slack.cell.thing, "was")} slack then (tightened at line ${line(slack.moment.where)}). Measure it once more.`,
            related: [{ where: slack.moment.where, message: "Tightened here, after it was read." }],
          });
        const nipped = without.length > 0 || slack !== undefined ? undefined : squashedShort(story, reading);
        if (nipped !== undefined)
          stale({
            where: reading.where,
            severity,
            message: `${called(limit, place)} ${agreeing(limit, "is")} read at the torque, and ${midSentence(nipped.cell.thing, nipped.cell.place)} ${agreeing(nipped.cell.thing, "was")} last pulled ${nipped.at} (line ${line(nipped.moment.where)}): it takes ${nipped.wanted}. Pull it up over a new wire or strip, and measure that.`,
            related: [{ where: nipped.moment.where, message: "Pulled up here." }],
          });
        const dry = dryAt(story, reading) ?? unheldAt(story, reading);
        if (dry !== undefined)
          stale({
            where: reading.where,
            severity,
            message: `${called(limit, place)} is read as it works, and ${midSentence(dry.thing, dry.place)} ${dry.what} then (line ${line(dry.moment.where)}). Measure it again.`,
            related: [{ where: dry.moment.where, message: "Done here, after it was read." }],
          });
        continue;
      }
      const moved = movedSince(story, reading);
      if (moved !== undefined) {
        stale({
          where: reading.where,
          severity,
          message: isDatedAfter(reading, moved.moment)
            ? `${called(limit, place)} ${agreeing(limit, "is")} dated ${reading.day} and stands above the line on which ${midSentence(moved.cell.thing, moved.cell.place)} ${agreeing(moved.cell.thing, "was")} moved or locked (line ${line(moved.moment.where)}). Write it below that, if it was read after it.`
            : reading.seq > moved.moment.seq
              ? `${called(limit, place)} ${agreeing(limit, "is")} dated ${reading.day ?? ""}, and ${midSentence(moved.cell.thing, moved.cell.place)} ${agreeing(moved.cell.thing, "was")} moved or locked again on ${moved.moment.day ?? ""} (line ${line(moved.moment.where)}). Measure it once more, or correct the day.`
              : `${called(limit, place)} ${agreeing(limit, "was")} read before ${midSentence(moved.cell.thing, moved.cell.place)} ${agreeing(moved.cell.thing, "was")} moved or locked again (line ${line(moved.moment.where)}). Measure it once more${moved.moment.verb === "lock" ? ", or write that the lock turned nothing" : ""}.`,
          related: [
            { where: moved.moment.where, message: reading.seq > moved.moment.seq ? "Moved here, after that day." : "Moved or locked here, after the reading." },
          ],
        });
        continue;
      }
      const without = limit.with.length > 0 || isReadBoltedUp(limit) || isOfTeeth(limit) ? readWithout(story, limit, reading) : [];
      const trial = without.length > 0 ? undefined : builtForNow(story, reading);
      if (without.length > 0) stale({ where: reading.where, severity, message: readBare(limit, reading, without) });
      else if (trial !== undefined) stale(onTrial(reading, trial));
      else {
        const was = saysHowItWas(story, reading) ?? liveOnlyLater(story, reading);
        if (was !== undefined) stale(datedBack(reading, was));
      }
    }
    const looked = new Set<string>();
    const looks = story.seen.flatMap((seen, i) => (seen.place === "" ? atTheRest(job, story.seen, i) : [seen]));
    for (let i = looks.length - 1; i >= 0; i--) {
      if (i % someAtOnce === 0) yield;
      const seen = looks[i] as Seen;
      const key = `${seen.check.name} ${seen.place}`;
      // A later look that names no place was at all of them.
      if (looked.has(key) || looked.has(`${seen.check.name} `)) continue;
      const stale = (it: Report) => report({ ...it, reads: [{ name: seen.check.name, places: [seen.place] }] });
      if (seen.stage === "found" && seen.good && isCritical(job, seen.check)) {
        looked.add(key);
        const was = saysHowItWas(story, seen);
        // Written at the head of the job it may be of the day before it was begun. What is seen as it stands may be seen before it comes off; a crack is not.
        if (was !== undefined && (was.cell === undefined ? isBelowWork(story, seen) : isOfSurface(seen.check))) stale(datedBack(seen, was));
      }
      if (seen.stage !== "final") continue;
      looked.add(key);
      const dated = seen.good ? movedLater(story, seen) : undefined;
      if (dated !== undefined) {
        stale({
          where: seen.where,
          severity,
          message: `${called({ name: seen.check.name }, seen.place)} is dated ${seen.day ?? ""}, and ${midSentence(dated.cell.thing, dated.cell.place)} ${agreeing(dated.cell.thing, "was")} moved on ${dated.moment.day ?? ""} (line ${line(dated.moment.where)}). Look once more, or correct the days.`,
          related: [{ where: dated.moment.where, message: "Moved here, after that day." }],
        });
        continue;
      }
      const was = seen.good ? (saysHowItWas(story, seen) ?? liveOnlyLater(story, seen)) : undefined;
      if (was !== undefined) {
        stale(datedBack(seen, was));
        continue;
      }
      const within = seen.good ? wasIn(story, seen.check, seen) : undefined;
      if (within !== undefined) {
        stale(readWithin(seen, within));
        continue;
      }
      const some = seen.good ? partlyOn(story, seen) : undefined;
      if (some !== undefined) {
        stale(ofSome(seen, some));
        continue;
      }
      const without = seen.good ? readWithout(story, seen.check, seen) : [];
      if (without.length > 0) {
        const names = listed([...new Set(without.map((cell) => midSentence(cell.thing, cell.place)))]);
        stale({
          where: seen.where,
          severity,
          message: `${called({ name: seen.check.name }, seen.place)} was seen while this was off or slack: ${names}. Look once more when it is on${seen.check.with.length > 0 ? "" : ", or write under the check what is on as it is seen: `with …`"}.`,
        });
        continue;
      }
      const off = !seen.good
        ? undefined
        : isSeenRunning(seen.check)
          ? offAt(story, seen)
          : (dryAt(story, seen) ??
            subjectOff(story, seen) ??
            unheldAt(story, seen) ??
            notYetMeeting(story, seen) ??
            someOff(story, seen) ??
            workedByOff(story, seen) ??
            triedEarly(story, seen));
      if (off !== undefined) {
        stale({
          where: seen.where,
          severity,
          message: `${called({ name: seen.check.name }, seen.place)} shows only ${isSeenRunning(seen.check) ? "as it runs" : off.what === "was slack" ? "with all done up" : "with it in"}, and ${midSentence(off.thing, off.place)} ${off.what} then (line ${line(off.moment.where)}). Try it again with all of it together.`,
          related: [{ where: off.moment.where, message: "Done here, after it was seen." }],
        });
        continue;
      }
      const trial = seen.good ? builtForNow(story, seen) : undefined;
      if (trial !== undefined) {
        stale(onTrial(seen, trial));
        continue;
      }
      const after = seen.good && !isOfSurface(seen.check) ? filledSince(story, seen) : undefined;
      if (after !== undefined)
        stale({
          where: seen.where,
          severity,
          message: `${called({ name: seen.check.name }, seen.place)} was seen before ${midSentence(after.thing, after.place)} ${agreeing(after.thing, "was")} ${after.what} (line ${line(after.moment.where)}). Look once more.`,
          related: [{ where: after.moment.where, message: "Done here, after it was seen." }],
        });
    }
  },
};

/** A look at all its places, of which some were looked at again further down by name: it speaks for the others. */
function atTheRest(job: Job, all: readonly Seen[], at: number): readonly Seen[] {
  const seen = all[at] as Seen;
  const places = placesOf(job, seen.check);
  if (places.length < 2) return [seen];
  const last = lastNamed(all).get(seen.check.name);
  const rest = places.filter((place) => (last?.get(place) ?? -1) < at);
  return rest.length === places.length ? [seen] : rest.map((place) => ({ ...seen, place }));
}

/** By check and place, the index of the last final that names the place. */
const lastNamed = memo((all: readonly Seen[]): ReadonlyMap<string, ReadonlyMap<string, number>> => {
  const out = new Map<string, Map<string, number>>();
  for (const [i, { check, place, stage }] of all.entries()) {
    if (stage !== "final" || place === "") continue;
    const known = out.get(check.name);
    if (known === undefined) out.set(check.name, new Map([[place, i]]));
    else known.set(place, i);
  }
  return out;
});

/** The sheet is told in the order of its lines: what is written further up under its part was done before, whatever its day. */
function isDatedAfter(reading: Reading, moved: Moment): boolean {
  return reading.seq < moved.seq && reading.day !== undefined && moved.day !== undefined && reading.day > moved.day;
}

function notYet({ cell, isNew, with: host }: NotYet): string {
  const what = midSentence(cell.thing, cell.place);
  if (isNew) return `the new ${what} came`;
  return host === undefined ? `${what} came back from its work` : `${midSentence(host)}, in which ${what} was worked on, came back`;
}

function readBare(limit: Limit, { place, seq }: Reading, without: readonly (PartCell | FastenerCell)[]): string {
  const off = without.some((cell) => cell.kind === "part" || onAt(cell, seq) < cell.total);
  return `${called(limit, place)} ${agreeing(limit, "is")} read with the ${listed(without.map((cell) => midSentence(cell.thing)))} ${off ? "in, and that was off" : "tight, and that was slack, or short of its torque,"} when this was read. Measure it with that ${off ? "in" : "tight"}.`;
}

/** Something critical that was off, or a fluid that was out, as it was seen to run: it went on or in later, by its line or by its day. */
function offAt(story: Story, seen: Seen): { readonly thing: Thing; readonly place: string; readonly what: string; readonly moment: Moment } | undefined {
  const here = (place: string) => isSamePlace(place, seen.place);
  const later = (it: Moment) => it.phase === "done" && (it.seq > seen.seq || datedBefore(seen, it));
  for (const cell of story.parts) {
    if (!cell.thing.critical || cell.unsure || !here(cell.place)) continue;
    // The first that put it on after that: it was off until then.
    const moment = cell.history.find((it) => later(it) && it.verb !== "found" && it.after.on !== it.before.on);
    if (moment?.verb === "fit" && moment.before.on < cell.total) return { thing: cell.thing, place: cell.place, what: "was off", moment };
  }
  return dryAt(story, seen);
}

/** “Rope runs in both grooves”: what the look speaks of first went on later, by its line or by its day. */
function subjectOff(story: Story, seen: Seen): { readonly thing: Thing; readonly place: string; readonly what: string; readonly moment: Moment } | undefined {
  const subject = subjectOf(seen.check);
  if (subject === undefined) return undefined;
  const byHead = (criticalByHead(story).get(subject) ?? []).filter((cell) => isSubjectOf(story.job, seen.check, cell.thing));
  // A “hanging carriage, swan” is called a swan.
  const byName = seen.check.of.flatMap(({ text }) => (wordsOf(text).includes(subject) ? story.cells(text) : []));
  for (const cell of [...byHead, ...byName]) {
    if (cell.kind !== "part" || !cell.thing.critical || cell.unsure || !isSamePlace(cell.place, seen.place)) continue;
    const moment = cell.history.find(
      (it) => it.phase === "done" && (it.seq > seen.seq || datedBefore(seen, it)) && it.verb !== "found" && it.after.on !== it.before.on,
    );
    if (moment?.verb === "fit" && moment.before.on < cell.total) return { thing: cell.thing, place: cell.place, what: "was off", moment };
  }
  return undefined;
}

/** Several turn or work together in it, and some of them were off as it was seen, while others were on: whoever tries one by itself has all of the others off. */
function someOff(story: Story, seen: Seen): ReturnType<typeof dryAt> {
  const { check, place, seq } = seen;
  if (check.of.length < 2 || check.with.length > 0 || !check.critical || !isTriedTogether(check) || isOnBench(allWords(check))) return undefined;
  const cells = check.of
    .flatMap(({ text }) => story.cells(text))
    .filter((cell): cell is PartCell => cell.kind === "part" && !cell.unsure && isSamePlace(cell.place, place));
  if (!cells.some((cell) => onAt(cell, seq) > 0)) return undefined;
  return firstBackOn(cells, seq);
}

/** A brake by its lever or its pedal: seen while something of that brake, its rod or its cable, was off. */
function workedByOff(story: Story, seen: Seen): ReturnType<typeof dryAt> {
  const { check, place, seq } = seen;
  const what = check.criticalWhat;
  if (
    what === undefined ||
    check.with.length > 0 ||
    !/\bbrak/i.test(what) ||
    !byLever.test(check.title ?? "") ||
    !isTriedTogether(check) ||
    isOnBench(allWords(check))
  )
    return undefined;
  const named = new Set(check.of.map(({ text }) => text));
  // A ratchet or a cover is no way from the hand to the shoes, nor is the pedal's cylinder where a lever is pulled.
  const isOfIt = ({ thing }: PartCell) => named.has(thing.name) || !(besideBrakes.has(headOf(thing) ?? "") || isOfTheOther(allWords(check), allWords(thing)));
  // Where all of what it names is on the bench, nobody pulls a lever.
  return firstBackOn(
    story.parts.filter((cell) => cell.thing.criticalWhat === what && !cell.unsure && isSamePlace(cell.place, place) && isOfIt(cell)),
    seq,
  );
}

const besideBrakes: ReadonlySet<string> = new Set("pawl ratchet detent stop guard cover cap shield plug gaiter boot bell lamp switch mudguard".split(" "));

/** A hand brake, and what only the foot works; or the other way about. */
function isOfTheOther(check: string, thing: string): boolean {
  return (
    (byHand.test(check) && !byFoot.test(check) && byFoot.test(thing) && !byHand.test(thing)) ||
    (byFoot.test(check) && !byHand.test(check) && byHand.test(thing))
  );
}

const byHand = /\b(hand ?-?brake|parking brake|hand ?-?lever)\b/i;
const byFoot = /\b(pedal|foot ?-?brake|master|hydraulic|hoses?|pipes?|servo|fluid|reservoir)\b/i;

const byLever = /\b(by|with|on|at|under|pull\w*|press\w*|pump\w*)\b[^.;]*\b(lever|pedal|hand ?brake)\b/i;

/** The first of them that was off at a line and went on later. */
function firstBackOn(cells: readonly PartCell[], seq: number): ReturnType<typeof dryAt> {
  for (const cell of cells) {
    if (onAt(cell, seq) >= cell.total) continue;
    const moment = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "fit" && it.after.on > it.before.on);
    if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: "was off", moment };
  }
  return undefined;
}

interface ForNow {
  readonly cell: PartCell | FastenerCell;
  readonly moment: Moment;
}

/** What its title says is out was on as it was read or seen: it had come off, and was back by then. Where the words may mean several, all of them were. */
function wasIn(story: Story, thing: Limit | Check, it: Reading | Seen): ForNow | undefined {
  const parts = outAsRead(story.job, thing);
  if (parts.length === 0 || !isCritical(story.job, thing)) return undefined;
  let last: ForNow | undefined;
  for (const part of parts) {
    // Of thousands of places those that may be meant are looked up.
    const cells = it.place === "" ? story.cells(part.name) : [story.cell(part.name, it.place), story.cell(part.name, "")];
    for (const cell of cells) {
      if (cell?.kind !== "part") continue;
      const before = cell.history.filter((was) => was.seq < it.seq && was.phase === "done" && was.after.on !== was.before.on);
      const moment = before.at(-1);
      if (cell.unsure || moment?.verb !== "fit" || moment.after.on < cell.total || (it.day !== undefined && moment.day !== undefined && moment.day > it.day))
        return undefined;
      if (last === undefined || moment.seq > last.moment.seq) last = { cell, moment };
    }
  }
  return last;
}

/**
 * How they mesh, or the play that shims set, read on a trial build: what it goes through was on for now, and was taken down and done up since. What says itself that
 * something is out as it is read is read so.
 */
function builtForNow(story: Story, it: Reading | Seen): ForNow | undefined {
  const thing = "limit" in it ? it.limit : it.check;
  if (thing.setBy.length === 0 || !isCritical(story.job, thing) || readOpen.test(allWords(thing))) return undefined;
  if ("limit" in it ? !isBetweenPieces(it.limit) : !isOfSurface(it.check) || isOfCracks(it.check)) return undefined;
  const names = new Set([...thing.setBy, ...thing.of].flatMap(({ text }) => [text, ...settersWithHosts(story.job, [{ text }]).map((host) => host.text)]));
  // `cover-shims` lie under the `unit-cover`, where nothing is called by that word alone.
  const ends = thing.setBy.filter(({ text }) => story.job.things.get(text)?.kind === "shims").map(({ text }) => `-${text.replace(/-[^-]+$/, "")}`);
  for (const cell of [...story.parts, ...story.fasteners]) {
    if (cell.kind === "part" && ends.some((end) => cell.thing.name.endsWith(end))) names.add(cell.thing.name);
    if (cell.unsure || !isSamePlace(cell.place, it.place)) continue;
    const history = cell.history as readonly (PartMoment | FastenerMoment)[];
    if (history.findLast((was) => was.seq < it.seq)?.after.forNow !== true) continue;
    const isOfIt = names.has(cell.thing.name) || (cell.kind === "part" && [...cell.thing.behind, ...cell.thing.heldBy].some(({ text }) => names.has(text)));
    const moment = history.find((was) => was.seq > it.seq && was.phase === "done" && (was.verb === "fit" || was.verb === "tighten"));
    if (isOfIt && moment !== undefined) return { cell, moment };
  }
  return undefined;
}

const readOpen = /\b(out|off|without|open|dry build|trial)\b/i;

const criticalByHead = memo((story: Story): ReadonlyMap<string, readonly PartCell[]> => {
  const all = new Map<string, PartCell[]>();
  for (const cell of story.parts) {
    const head = cell.thing.critical && !cell.unsure ? headOf(cell.thing) : undefined;
    if (head !== undefined) putInto(all, head, cell);
  }
  return all;
});

/** What is in as it is read or seen, and was out, or had air in it still: it was filled or bled later, by its line or by its day. */
function dryAt(
  story: Story,
  it: Seen | Reading,
): { readonly thing: Thing; readonly place: string; readonly what: string; readonly moment: Moment } | undefined {
  const asks = fluidsAsRead(story.job, "limit" in it ? it.limit : it.check);
  if (asks.length === 0) return undefined;
  for (const cell of story.fluids) {
    const ask = asks.find((one) => one.fluid === cell.thing);
    if (ask === undefined || cell.unsure || !isSamePlace(cell.place, it.place)) continue;
    const { thing, place } = cell;
    const later = cell.history.filter((was) => was.phase === "done" && (was.seq > it.seq || datedBefore(it, was)));
    // What was let out after it was read, and filled again, was in.
    const filled = later.find((was) => was.verb === "fill" || was.verb === "drain" || was.verb === "lost");
    if (ask.filled && filled?.verb === "fill" && !filled.before.full) return { thing, place, what: "was not filled", moment: filled };
    const bled = ask.bled ? later.find((was) => was.verb === "bleed" && was.before.airIn) : undefined;
    if (bled !== undefined) return { thing, place, what: "was not bled", moment: bled };
  }
  return undefined;
}

/** How something works is read or tried with what holds it in: a lever on a cable whose pin was still on the bench. */
function unheldAt(story: Story, it: Reading | Seen): ReturnType<typeof dryAt> {
  const { place, seq } = it;
  const thing = "limit" in it ? it.limit : it.check;
  if (!isCritical(story.job, thing) || !(thing.kind === "limit" ? isAtWork(thing) : isTriedTogether(thing))) return undefined;
  for (const { text } of thing.of) {
    const part = story.job.things.get(text);
    // Off itself, it is on the bench.
    if (part?.kind !== "part" || story.cells(text).some((cell) => cell.kind === "part" && isSamePlace(cell.place, place) && onAt(cell, seq) === 0)) continue;
    const holders = part.heldBy
      .flatMap((by) => story.cells(by.text))
      .filter((cell): cell is FastenerCell => cell.kind === "fastener" && cell.thing.critical && isSamePlace(cell.place, place));
    // A crank in its mains turns before its flywheel is on.
    if (holders.some((cell) => cell.unsure || onAt(cell, seq) > 0)) continue;
    for (const cell of holders) {
      const moment = cell.history.find((was) => was.seq > seq && was.phase === "done" && was.after.on > 0);
      if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: "was off", moment };
    }
  }
  return undefined;
}

/** Wire or strip under a cap that is off or slack again as it is read, and was short of its torque when it was last pulled down. */
function squashedShort(
  story: Story,
  { limit, place, seq }: Reading,
): { readonly cell: FastenerCell; readonly moment: FastenerMoment; readonly at: string; readonly wanted: string } | undefined {
  if (!isSquashed(limit)) return undefined;
  for (const cell of pulledOver(story.job, limit).flatMap((it) => story.cells(it.name))) {
    if (cell.kind !== "fastener" || cell.unsure || !isSamePlace(cell.place, place)) continue;
    const before = cell.history.filter((it) => it.seq < seq && it.phase === "done");
    const wanted = wantedOf(cell.thing);
    if (wanted === undefined || before.at(-1)?.after.tight !== false) continue;
    const moment = before.findLast((it) => it.verb === "tighten");
    if (moment?.action === undefined) continue;
    if (moment.action.to === undefined) return { cell, moment, at: "up without a figure", wanted: wanted.text };
    if (tightnessAt(cell, moment, wanted) === "low") return { cell, moment, at: `to ${tightenedText(moment.action)}`, wanted: wanted.text };
  }
  return undefined;
}

/** Marks of several that meet, teeth of two wheels: one of them lay on the bench, and went in later. */
function notYetMeeting(story: Story, { check, place, seq }: Seen): ReturnType<typeof dryAt> {
  if (!isOfMarksMeeting(check) && !(isSeenOfTwoWheels(check) && isOneInAlone(story, check, place, seq))) return undefined;
  for (const { text } of check.of) {
    for (const cell of story.cells(text)) {
      if (cell.kind !== "part" || cell.unsure || !isSamePlace(cell.place, place) || onAt(cell, seq) >= cell.total) continue;
      const moment = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "fit");
      if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: "was off", moment };
    }
  }
  return undefined;
}

/** Of two wheels one was in and the other out: nobody sees how they mesh. Both out, they may stand in a jig. */
function isOneInAlone(story: Story, { of }: Check, place: string, seq: number): boolean {
  const on = of.map(({ text }) =>
    story
      .cells(text)
      .filter((it): it is PartCell => it.kind === "part" && isSamePlace(it.place, place))
      .map((it) => onAt(it, seq)),
  );
  return on.some((them) => them.some((count) => count > 0)) && on.some((them) => them.length > 0 && them.every((count) => count === 0));
}

/** Written above the look, and dated after it: what it is of, or what sets it, was taken off, put on or done up on a later day. */
function movedLater(story: Story, seen: Seen): { readonly cell: PartCell | FastenerCell; readonly moment: PartMoment | FastenerMoment } | undefined {
  if (seen.day === undefined) return undefined;
  for (const name of [...seen.check.of, ...seen.check.setBy]) {
    for (const cell of story.cells(name.text)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || !isNear(story, cell, seen.place)) continue;
      if (seenOffIt(story, seen, cell) && !isMateNewer(story, seen, cell)) continue;
      const moment = (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast(
        (it) => it.phase === "done" && it.seq < seen.seq && it.day !== undefined && it.day > (seen.day ?? "") && moves.has(it.verb),
      );
      if (moment !== undefined) return { cell, moment };
    }
  }
  return undefined;
}

/**
 * A crack or a pattern of a piece that was off on that day, and only went on again since: it was seen in the hand, and is written below the step that fits it. So may
 * whatever shows on a new one be, where it is written that this had come by then; what is seen with it in may not.
 */
function seenOffIt({ job }: Story, seen: Seen, cell: PartCell | FastenerCell): boolean {
  const { check, day = "" } = seen;
  if (check.with.length > 0 || check.setBy.some(({ text }) => text === cell.thing.name)) return false;
  const before = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && it.seq < seen.seq);
  const later = before.filter((it) => it.day !== undefined && it.day > day);
  const isNew = later.some((it) => it.verb === "fit" && it.isNew);
  // What turns or moves with several of them in is tried with all of them.
  if (isSeenOfTwoWheels(check)) return false;
  const isTogether = check.of.length > 1 && isTriedTogether(check);
  if (isNew ? isTogether || readWith(job, check).length > 0 || !hadCome(job, cell.thing.name, day) : !isOfSurface(check)) return false;
  return (
    before.findLast((it) => !later.includes(it))?.after.on === 0 &&
    later.every(
      (it) =>
        (it.verb === "fit" && it.isNew === isNew && it.from === undefined) || leavesTheFace.has(it.verb) || (!isPatternOfTwo(check) && isCleanedOrOiled(it)),
    )
  );
}

/** Done to a piece that was seen in the hand, and says nothing against what was seen. */
const leavesTheFace: ReadonlySet<string> = new Set(["tighten", "lock", "mark"]);
/** A lining in its drum, blued: it lies otherwise once either of them was wiped or greased. */
const isPatternOfTwo = (check: Check): boolean =>
  check.of.length > 1 && /\b(blued?|blueing|bed(s|ded|ding)?|contact|patterns?)\b/iu.test(allWords(check).replace(/\bno \w+/giu, " "));
const isCleanedOrOiled = ({ verb, action }: PartMoment | FastenerMoment): boolean =>
  verb === "other" && /^(clean|oil|grease|inspect)$/.test(action?.verb ?? "");

/** A pattern is of two, and the check names the other: a key that went in new on a later day was not there to be blued. */
function isMateNewer(story: Story, { check, day = "", seq, place }: Seen, { thing }: PartCell | FastenerCell): boolean {
  const words: readonly string[] =
    allWords(check)
      .toLowerCase()
      .match(/\p{L}+/gu) ?? [];
  return (thing.kind === "part" ? [...thing.heldBy, ...thing.behind] : []).some(
    ({ text }) =>
      words.includes(text.toLowerCase().split("-").at(-1) as string) &&
      story
        .cells(text)
        .some(
          (cell) =>
            (cell.kind === "part" || cell.kind === "fastener") &&
            isSamePlace(cell.place, place) &&
            (cell.history as readonly (PartMoment | FastenerMoment)[]).some(
              (it) => it.phase === "done" && it.verb === "fit" && it.isNew && it.seq < seq && it.day !== undefined && it.day > day,
            ),
        ),
  );
}

const moves: ReadonlySet<string> = new Set(["remove", "fit", "undo", "slacken", "tighten", "repair"]);

/** What should have been in or tight as it was read, and was off or slack then. */
function readWithout(story: Story, thing: Limit | Check, { place, seq }: Reading | Seen): (PartCell | FastenerCell)[] {
  // That a part was renewed since, and is to be measured again, is said at the release.
  const saidAnyway = (cell: PartCell | FastenerCell) =>
    thing.kind === "limit" &&
    story.release !== undefined &&
    (cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.seq > seq && it.phase === "done" && it.verb === "fit" && it.isNew);
  return readWith(story.job, thing).flatMap((it) =>
    story
      .cells(it.name)
      .filter((cell): cell is PartCell | FastenerCell => cell.kind === "part" || cell.kind === "fastener")
      .filter((cell) => !cell.unsure && isSamePlace(cell.place, place) && !saidAnyway(cell))
      .filter((cell) => onAt(cell, seq) < cell.total || isSlackBefore(cell, seq)),
  );
}

/**
 * A float, a backlash, a wire in a bearing, read while what holds it was on and not yet done up: caps that lie loosely on their studs leave another gap than caps that are pulled.
 * What is off altogether may be meant so, and a line `with …` says for itself what is in.
 */
function slackAt(story: Story, reading: Reading): { readonly cell: FastenerCell; readonly moment: FastenerMoment } | undefined {
  const { limit, place, seq, day } = reading;
  if (limit.with.length > 0 || !isCritical(story.job, limit) || !(isReadTogether(limit) || isOfAllMounted(limit))) return undefined;
  for (const { text } of limit.of) {
    const parts = story.cells(text).filter((it): it is PartCell => it.kind === "part" && isSamePlace(it.place, place));
    if (parts.length === 0 || parts.some((it) => it.unsure || onAt(it, seq) === 0)) continue;
    for (const cell of parts.flatMap(({ thing }) => thing.heldBy.flatMap((by) => story.cells(by.text)))) {
      if (cell.kind !== "fastener" || cell.unsure || !cell.thing.critical || !isSamePlace(cell.place, place)) continue;
      const was = cell.history.findLast((it) => it.seq < seq);
      if (was === undefined || was.after.on < cell.total || was.after.tight) continue;
      const moment = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "tighten");
      if (moment !== undefined && !(day !== undefined && moment.day !== undefined && moment.day < day)) return { cell, moment };
    }
  }
  return undefined;
}

/** Slack, or left short of its torque: bolts at their first stage pull no bore to its shape. */
function isSlackBefore(cell: PartCell | FastenerCell, seq: number): boolean {
  if (cell.kind !== "fastener") return false;
  if (cell.history.findLast((it) => it.seq < seq)?.after.tight === false) return true;
  const pulled = cell.history.findLast((it) => it.seq < seq && it.verb === "tighten");
  const wanted = wantedOf(cell.thing);
  return pulled?.to !== undefined && wanted !== undefined && tightnessAt(cell, pulled, wanted) === "low";
}

/** What a fluid is in is seen to be tight when that is full, bled, and done up: what was filled, bled, fitted or tightened after it. */
function filledSince(story: Story, seen: Seen): { readonly thing: Thing; readonly place: string; readonly what: string; readonly moment: Moment } | undefined {
  const { fluidsIn } = relationsOf(story.job);
  const here = (place: string) => isSamePlace(place, seen.place);
  const later = (it: Moment) => it.phase === "done" && (it.seq > seen.seq || datedBefore(seen, it));
  for (const name of seen.check.of) {
    // Brakes are tried full and bled, whatever is looked for; elsewhere only a look for leaks waits for the fluid: gears are blued dry.
    const fluids = [...(fluidsIn.get(name.text) ?? []), ...keptIn(story.job, seen.check, name.text)].filter((fluid) => fluid.needsBleed || isForLeaks(seen));
    const parts = story.cells(name.text).filter((it): it is PartCell => it.kind === "part" && here(it.place));
    // Seen on the bench, it says something of the piece.
    if (fluids.length === 0 || parts.some((cell) => onAt(cell, seen.seq) === 0)) continue;
    for (const fluid of fluids)
      for (const cell of story.cells(fluid.name)) {
        if (cell.kind !== "fluid" || !here(cell.place)) continue;
        const moment = cell.history.findLast((it) => (it.verb === "fill" || it.verb === "bleed") && later(it));
        if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: moment.verb === "fill" ? "filled" : "bled", moment };
      }
    for (const part of parts) {
      const moment = part.history.findLast((it) => it.verb === "fit" && later(it));
      if (moment !== undefined) return { thing: part.thing, place: part.place, what: "fitted", moment };
      for (const by of part.thing.heldBy)
        for (const cell of story.cells(by.text)) {
          if (cell.kind !== "fastener" || !here(cell.place)) continue;
          const tightened = cell.history.findLast((it) => it.verb === "tighten" && later(it));
          if (tightened !== undefined) return { thing: cell.thing, place: cell.place, what: "tightened", moment: tightened };
        }
    }
  }
  return undefined;
}

/** “No oil at the seal nor the cover joint”: the seal lies by the cover, which the oil is in. What the words name and lies behind the same thing, or holds it in. */
function keptIn(job: Job, check: Check, name: string): readonly Fluid[] {
  const { fluidsIn } = relationsOf(job);
  const of = job.things.get(name);
  if (of?.kind !== "part" || fluidsIn.has(name)) return none;
  const words = wordsOf(allWords(check));
  const before = new Set(of.behind.map(({ text }) => text));
  return [...fluidsIn].flatMap(([host, fluids]) => {
    const part = job.things.get(host);
    if (part?.kind !== "part" || !words.includes(headOf(part) ?? "")) return none;
    return before.has(host) || part.behind.some(({ text }) => before.has(text) || text === name) ? fluids : none;
  });
}

const none: readonly Fluid[] = [];

/** It says so: dry, no weep at the seal. */
function isForLeaks({ check, entry }: Seen): boolean {
  return isOfLeaks(`${allWords(check)} ${entry.text?.value ?? ""}`);
}
