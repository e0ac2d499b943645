// Brakes, steering, an axle, a wheel or what people sit in disturbed, and nobody wrote that it was tried.
import { isTrial } from "../../model/read-with.ts";
import { isNoTest, isOnlyALook, saysWhere, shortened } from "../test-words.ts";
import { hasEntry } from "../../model/has.ts";
import { memo } from "../../model/memo.ts";
import { isCritical } from "../../model/relations.ts";
import type { FastenerMoment, PartMoment, Seen } from "../../story/story.ts";
import type { Job } from "../../model/job.ts";
import type { Fastener, Part } from "../../model/things.ts";
import { allWords } from "../../model/titles.ts";
import { roadWords, roadWordsOf } from "../../model/carries.ts";
import type { JobRule } from "../rule.ts";
import { few, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "test-missing",
  group: "Release",
  severity: "error; warning that holds where a test says itself that it was not done, or failed",
  safety: true,
  title:
    "Brakes, steering, an axle, a wheel or what people sit in disturbed, and no `test` of more than a look, nor a critical check that tries just that; the brake of what carries people, and no test that tells how it stops",
  why: "What stops, steers or carries is tried before it goes on the road: turned by hand, lock to lock, brakes at walking pace on private ground. Write what was tried and what it showed; a look (for cracks, at blue, or that it is all there) tries nothing. Local rules may ask for a licensed person.",
  wrong: `fastener arm-nut "Steering arm nut"
step refit "Arm back"
  tighten arm-nut
  done
release by "A. Moor" 2026-05-10
#^^^^^^ error test-missing
`,
  right: `fastener arm-nut "Steering arm nut"
step refit "Arm back"
  tighten arm-nut
  done
release by "A. Moor" 2026-05-10
  test "Steered lock to lock on the stands, then 10 km: straight"
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasEntry(job, "release")) return;
    const { story } = context;
    const release = story.release;
    if (release === undefined) return;
    const tests = release.entry.details.filter((it) => it.kind === "test").filter((it) => it.text !== undefined);
    for (const test of tests) {
      const { fault } = saidBy(test);
      if (fault === undefined) continue;
      report({
        where: { ...release.where, row: test.row, at: test.text?.at ?? test.keyword },
        severity: "warning",
        open: true,
        message: fault,
      });
    }
    // What lights and hoots says nothing of what stops, steers or rolls.
    const trials = tests.filter((it) => !saidBy(it).isOnlyALook && !ofTrimmings.test(it.text?.value ?? "") && !isPullAlone(it.text?.value ?? ""));
    if (release.entry.details.some((it) => it.kind === "unread" && it.guess === "test")) return;
    const worked = [...story.parts, ...story.fasteners].filter((cell) => (cell.history as (PartMoment | FastenerMoment)[]).some(isWork));
    const isDone = (kind: RegExp) => worked.some(({ thing }) => isOfKind(thing, kind));
    // What carries people where nobody drives it runs for hours and never shows its brake: that is told by itself.
    const isTold = (kind: RegExp) => trials.some((it) => kind.test(it.text?.value ?? ""));
    const byHandAlone =
      trials.length > 0 &&
      trials.every((it) => isOfHandBrakeAlone(it.text?.value ?? "")) &&
      worked.some(({ thing }) => isOfKind(thing, brakes) && byFoot.test(allWords(thing)));
    const asked = trials.length === 0 ? kinds : [...((isDone(people) && !isTold(stops)) || byHandAlone ? [brakes] : []), ...(isTold(parks) ? [] : [handBrake])];
    // A trial of the brakes tells nothing of the steering.
    const touched = asked.flatMap((kind) => {
      const ofKind = worked.filter(({ thing }) => isOfKind(thing, kind) && !(byHandAlone && isOfKind(thing, handBrake)));
      const last = Math.max(...ofKind.map((cell) => (cell.history as (PartMoment | FastenerMoment)[]).findLast(isWork)?.seq ?? 0));
      // That no joint weeps under a held pedal is no stop.
      return story.seen.some((it) => it.seq > last && isTriedBy(job, it, kind) && (!byHandAlone || ofAStop.test(saidOf(it)))) ? [] : ofKind;
    });
    if (touched.length === 0) return;
    const names = [...new Set(touched.map((cell) => midSentence(cell.thing)))].slice(0, 4);
    const isParked = asked.length === 1 && asked[0] === handBrake;
    report({
      where: release.where,
      severity: "error",
      message: isParked
        ? `No test tells that it holds, and this of the hand brake was worked on: ${few(names)}. Try that, then write \`test "where it was held, and how"\`.`
        : trials.length === 0
          ? `Not tested since this was worked on: ${few(names)}. Try it, then write \`test "what was tried, and what it showed"\`.`
          : `No test tells how it stops, and this of the brake was worked on: ${few(names)}. Try that, then write \`test "how it was stopped, and in what"\`.`,
    });
  },
};

/** A critical look that tries something, and is of that kind by its words, by what may be lost, or by what it is of. */
function isTriedBy(job: Job, seen: Seen, kind: RegExp): boolean {
  const { good, stage, check, entry } = seen;
  if (!good || stage !== "final" || !isCritical(job, check) || !isTrial(check) || isOnlyALook(entry.text?.value ?? "")) return false;
  // “Turns free with the brake off” is no stop.
  if (kind === brakes && !ofStopping.test(saidOf(seen))) return false;
  const of = check.of.flatMap(({ text }) => job.things.get(text) ?? []);
  return [
    roadWords(allWords(check).replace(asItStands, " ")),
    check.criticalWhat ?? "",
    ...of.map((it) => `${roadWordsOf(it)} ${"criticalWhat" in it ? (it.criticalWhat ?? "") : ""}`),
  ].some((it) => kind.test(it));
}

function saidOf({ check, entry }: Seen): string {
  return `${allWords(check)} ${entry.text?.value ?? ""}`;
}

/** “Lock to lock with the wheels up” tries no wheel. */
const asItStands = /\b(with|on|from) (the|its|all|both|two|four)? ?(\w+ )?(wheels?|axles?) ?(up|off|down|on|clear|hanging|raised|jacked)?\b/giu;

/** Words are taken apart once for as long as the line stands: that takes longer than all else that is asked of it. */
const saidBy = memo(({ text }: { readonly text?: { readonly value: string } }) => {
  const said = text?.value ?? "";
  return { fault: isNoTest(said) ? saysSo(said) : undefined, isOnlyALook: isOnlyALook(said) };
});

/** With the words that say so. */
function saysSo(text: string): string {
  const words = saysWhere(text);
  return words === undefined
    ? "This says that it was not tried, or failed. Try it, and write what it showed."
    : `“${shortened(words)}” says that it was not tried, or failed. Put it right and try it; where that is as it should be, write that it is.`;
}

/** What is only looked at, marked or greased behind a trial is as it was tried. */
function isWork({ phase, verb }: PartMoment | FastenerMoment): boolean {
  return phase === "done" && verb !== "found" && verb !== "mark" && verb !== "other";
}

const brakes = /brak/iu;
const ofTrimmings =
  /^(?=.*\b(horn|hooter|bell|whistle|\w*lamps?|lights?|indicators?|flashers?|wipers?|dynamo|ammeter|battery|starter|heater)\b)\W*((the|all|both|and|horn|hooter|bell|whistle|head|tail|side|brake|stop|lamps?|lights?|indicators?|flashers?|wipers?|dynamo|ammeter|charg(es|ing)|battery|starter|heater|speedo\w*|gauges?|works?|working|ok(ay)?|fine|good|right|on|off|checked|tried|tested|bright)\b\W*)+$/iu;
/** A lever that was pulled as she stood, and not a word of what that showed. */
function isPullAlone(text: string): boolean {
  return /brak/iu.test(text) && pullAlone.test(text);
}

const pullAlone =
  /^\W*((the|its|her|hand|parking|foot|brakes?|handbrakes?|lever|pedal|was|were|is|pulled|put|set|applied|pushed|pressed|on|up|off|down|and|let|released|again|once|twice|times|few|several|two|three|four|five|six|ten|hard|while|when|with|as|a|she|it|car|bus|lorry|van|standing|stood|still|stationary|at|rest|parked|in|by|shed|yard|garage|shop)\b\W*)+$/iu;
const ofStopping =
  /\b(stop\w*|holds?|held|holding|bites?|bit|grips?|grabs?|locks?|locked|pulls? up|pulled up|braked|braking|efficien\w*|balance\w*|even(ly)?|comes? on|works?|lever|pedal|notch(es)?|clicks?|teeth|travel|apply|applied|roller\w*|decelerat\w*)\b/iu;
/** The hand brake was tried, and nothing else: where the pedal's brake was worked on nobody has stopped with that. */
function isOfHandBrakeAlone(text: string): boolean {
  return handBrake.test(text) && !ofThePedal.test(text.replace(/\b(hand|parking)[- ]?(brake|lever)s?\b/giu, " "));
}

/** What only the pedal's brake has. */
const byFoot = /\b((wheel|master|slave) cylinders?|hydraulic|flexible|pedal|foot ?brake|servo|brake (hose|pipe|fluid)s?)\b/iu;
const ofThePedal =
  /\b(brak\w+|foot|pedal|both|stops?|stopped|stopping|pulls? up|pulled up|mph|km|kph|miles?|drove|driv\w*|road|lanes?|streets?|runs?|ran|round|laps?|everything|all functions|the whole|roller\w*|steered|lock to lock)\b/iu;
const ofAStop = /\b(stop\w*|pulls? up|pulled up|mph|kph|km|roller\w*|bites?|grips?|grabs?|wheels? locks?|even(ly)?|spun|turned)\b/iu;
const ofHandBrake = /\b(hand|parking)[- ]?brake/iu;
const handBrake = /\b(hand|parking)[- ]?(brake|lever)/iu;
/** It holds where it stands, or the brakes were tried: no mile that was driven shows that. */
const parks =
  /(?<!\bfoot[- ]?)brak|\b(holds?|held|ramps?|slopes?|hill|gradient|incline|bank|park\w*|levers?|stand\w*|stood|rolls?|rolled|everything|all functions|the whole|schedule|check-?list)\b/iu;
const people = /\b(people|persons?|passengers?|riders?|children|anybody in it)\b/iu;

/** What stops, what steers, what rolls, and what people sit or hang in. */
const kinds = [brakes, /steer/iu, /axle|wheel/iu, people];

function isOfKind(thing: Part | Fastener, kind: RegExp): boolean {
  // What is critical for "drive and handbrake" is tried by driving: of what may be lost the first is meant.
  // Critical for “brakes”, its title says of which.
  if (kind === handBrake) {
    const [lost = ""] = thing.criticalWhat?.split(/,|\band\b/u) ?? [];
    return thing.critical && ofHandBrake.test(/^\W*(the )?brak(es?|ing)\W*$|^$/iu.test(lost) ? allWords(thing) : lost);
  }
  return kind.test(`${roadWordsOf(thing)} ${roadWords(thing.criticalWhat ?? "")}`);
}

/** A test that tells of a stop, of a load that is held or let down, or of a drive: whoever was out with it has stopped it. */
const stops =
  /brak|\b(stop\w*|halt\w*|slow\w*|(to|at) rest|pull(s|ed) up|stood|grip\w*|park\w*|within \w+ (turns?|seconds?)|e-?stop|emergency|dead ?man|everything|all functions|the whole|schedule|check-?list|book|held|holds?|pedal|levers?|lift\w*|lower\w*|hoist\w*|wound|winds?|trips?|laps?|rounds|miles?|\d+ ?(km|mi)|roads?|lanes?|streets?|yard|track|line|drove|driv\w+|rode|ridden|there and back|out and back|up and down|run-?down)\b/iu;
