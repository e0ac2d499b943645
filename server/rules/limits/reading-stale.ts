// Which final readings and looks say nothing of the machine as it goes out: a ladder of reasons, the first of which is told.
import { someAtOnce } from "../../../grammar/slices.ts";
import { isOfSurface, isOfTeeth, isReadBoltedUp, setOf } from "../../model/read-with.ts";
import type { Reading, Seen, Story } from "../../story/story.ts";
import { offItsWheels } from "../on-its-wheels.ts";
import { partlyOn } from "../partly-on.ts";
import type { JobContext, JobRule } from "../rule.ts";
import type { Otherwise } from "../shut-again.ts";
import { ifSquashed, shutAgain } from "../squashed.ts";
import { type LaterThan, isBelowWork, liveOnlyLater, movedSince, readBeforeItCame, readOfTheOld, saysHowItWas } from "../stale.ts";
import { atItsDay } from "./shared/by-its-day.ts";
import { builtForNow, wasIn } from "./shared/built-otherwise.ts";
import { dryAt, filledSince } from "./shared/fluids-as-read.ts";
import { inPlaceAsSeen } from "./shared/in-place-as-seen.ts";
import { lastLooks, lastReadings } from "./shared/last-finals.ts";
import { movedLater } from "./shared/moved-later.ts";
import { lackingAsSeen, namedOff, offAsRun, unheldAt } from "./shared/off-as-seen.ts";
import { readWithout, slackAt, squashedShort } from "./shared/slack-as-read.ts";
import * as words from "./shared/stale-words.ts";
import { shutOffAt, unsprungAt } from "./shared/unsprung-as-read.ts";
import { workedAfter } from "./shared/worked-after.ts";
import { workedBeside } from "./shared/worked-beside.ts";

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
    const tell = (it: Reading | Seen, name: string, why: words.Said | undefined) => {
      if (why !== undefined) report({ where: it.where, severity, ...why, reads: [{ name, places: [it.place] }] });
    };
    const readings = yield* lastReadings(story.readings);
    for (const [i, reading] of readings.entries()) {
      if (i % someAtOnce === 0) yield;
      const asBuilt = firstOf(ofOtherBuild, story, reading, line);
      // A setting is one thing; of a size its day, what held it and what was in it are told apart.
      const reasons = asBuilt !== undefined ? [] : reading.limit.setBy.length > 0 ? [ofSetting] : ofSize;
      tell(reading, reading.limit.name, asBuilt);
      for (const ladder of reasons) tell(reading, reading.limit.name, firstOf(ladder, story, reading, line));
    }
    const looks = yield* lastLooks(job, story.seen);
    for (const [i, seen] of looks.entries()) {
      if (i % someAtOnce === 0) yield;
      // One that found it bad is told by the rule for that.
      if (seen.good) tell(seen, seen.check.name, firstOf(seen.stage === "final" ? ofLook : ofFirstLook, story, seen, line) ?? onItsDay(story, seen, line));
    }
  },
};

/** Dated back: what was off or out on its day, though it stands below the work that put it on. */
function onItsDay(story: Story, seen: Seen, line: JobContext["line"]): words.Said | undefined {
  const then = seen.stage === "final" ? atItsDay(story, seen) : undefined;
  return then === undefined ? undefined : firstOf(ofLookThen, story, then, line);
}

/** One reason: how it is found, and how it is said. */
type Reason<It> = (story: Story, it: It, line: JobContext["line"]) => words.Said | undefined;

function reason<It, T>(find: (story: Story, it: It) => T | undefined, say: (it: It, found: T, line: JobContext["line"]) => words.Said): Reason<It> {
  return (story, it, line) => {
    const found = find(story, it);
    return found === undefined ? undefined : say(it, found, line);
  };
}

function firstOf<It>(ladder: readonly Reason<It>[], story: Story, it: It, line: JobContext["line"]): words.Said | undefined {
  for (const ask of ladder) {
    const said = ask(story, it, line);
    if (said !== undefined) return said;
  }
  return undefined;
}

/** What wire or strip showed under a cap that was shut again as it was is of that, whatever was off or slack as it was read. */
function unlessShutAgain<It extends Reading | Seen, T>(find: (story: Story, it: It) => T | undefined): (story: Story, it: It) => T | undefined {
  return (story, it) => ("limit" in it && shutAgain(story, it) === "same" ? undefined : find(story, it));
}

/** With what to write where it was wire or strip, and nobody says so. */
function withHint(ask: Reason<Reading>): Reason<Reading> {
  return (story, it, line) => {
    const said = ask(story, it, line);
    return said === undefined ? undefined : { ...said, message: `${said.message}${ifSquashed(story, it)}` };
  };
}

const readBare = withHint(reason(unlessShutAgain(readWithout), words.readBare));
const meantOut = reason(wasIn, words.withItIn);
const ofSome = reason(unlessShutAgain(partlyOn), words.ofSome);
const onTrial = reason(unlessShutAgain(builtForNow), words.onTrial);
const ofAnEarlierDay = reason((story, it: Reading | Seen) => saysHowItWas(story, it) ?? liveOnlyLater(story, it), words.datedBack);

/** Read of something else than what goes out: whatever else may be wrong with it need not be asked. */
const ofOtherBuild: readonly Reason<Reading>[] = [reason(offItsWheels, words.onStands), meantOut, reason(shutOtherwise, words.shutOtherwise), ofSome];

const ofSize: readonly (readonly Reason<Reading>[])[] = [
  [ofTheOld, reason(readBeforeItCame, words.beforeItCame), ofAnEarlierDay],
  [readBare, reason(unlessShutAgain(slackAt), words.whileSlack), reason(squashedShort, words.shortOfTorque)],
  [reason((story, it: Reading) => offAsRun(story, it) ?? dryAt(story, it) ?? unheldAt(story, it), words.notWorking)],
  [reason(workedAfter, words.workedOnAfter)],
];

/** What sets it is read loose as often as not, so what is to be on with it is asked only where its lines or its words say so. */
const ofSetting: readonly Reason<Reading>[] = [
  withHint(reason(movedSince, words.movedAfter)),
  (story, it, line) =>
    it.limit.with.length > 0 || isReadBoltedUp(it.limit) || isOfTeeth(it.limit) || setOf(story.job, it.limit).length > 0
      ? readBare(story, it, line)
      : undefined,
  reason(squashedShort, words.shortOfTorque),
  reason((story, it: Reading) => offAsRun(story, it), words.notWorking),
  onTrial,
  ofAnEarlierDay,
  reason(workedAfter, words.workedOnAfter),
  reason(unsprungAt, words.unsprung),
];

const ofLook: readonly Reason<Seen>[] = [
  reason(movedLater, words.movedOnALaterDay),
  ofAnEarlierDay,
  meantOut,
  ofSome,
  reason(readWithout, words.seenBare),
  reason(inPlaceAsSeen, words.inPlace),
  reason(lackingAsSeen, words.seenWithout),
  reason(unsprungAt, words.unsprung),
  reason(shutOffAt, words.shutOff),
  onTrial,
  reason(workedBeside, words.cutBeside),
  reason((story, it: Seen) => (isOfSurface(it.check) ? undefined : filledSince(story, it)), words.seenBefore),
];

const ofLookThen: readonly Reason<Seen>[] = [reason(namedOff, words.seenWithout)];

const ofFirstLook: readonly Reason<Seen>[] = [reason(foundOnAnEarlierDay, words.datedBack), reason(inPlaceAsSeen, words.inPlace)];

/** Written at the head of the job it may be of the day before it was begun. What is seen as it stands may be seen before it comes off; a crack is not. */
function foundOnAnEarlierDay(story: Story, seen: Seen): LaterThan | undefined {
  const was = saysHowItWas(story, seen);
  return was !== undefined && (was.cell === undefined ? isBelowWork(story, seen) : isOfSurface(seen.check)) ? was : undefined;
}

/** Shut otherwise than over the wire. That something of it went in new or was mended is asked about at the release, where it is what a size is of. */
function shutOtherwise(story: Story, reading: Reading): Otherwise | undefined {
  const { of, setBy } = reading.limit;
  const shut = shutAgain(story, reading);
  if (shut === undefined || shut === "same") return undefined;
  const isAsked = story.release !== undefined && setBy.length === 0 && shut.isAnew && of.some(({ text }) => text === shut.thing.name);
  return isAsked ? undefined : shut;
}

/** Whose size it was hangs on the job as well: it is said with what it is read with. */
function ofTheOld(story: Story, reading: Reading, line: JobContext["line"]): words.Said | undefined {
  const old = readOfTheOld(story, reading);
  return old === undefined ? undefined : words.ofTheOld(story.job, reading, old, line);
}
