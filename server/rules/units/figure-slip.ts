// A reading so far outside every limit that a point or a unit has slipped.
import { someAtOnce } from "../../../grammar/slices.ts";
import { putInto } from "../../model/grouped.ts";
import { isCritical } from "../../model/relations.ts";
import { type Limit, lineOf } from "../../model/things.ts";
import { allWords } from "../../model/titles.ts";
import { bandOf, rangeText } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import { type Exact, figure } from "../../quantities/exact.ts";
import { readingsOn } from "../../story/looked-up.ts";
import type { Slip } from "../../story/slips.ts";
import type { Reading, Spot, Story } from "../../story/story.ts";
import { type JobContext, type JobRule, addLine } from "../rule.ts";
import { called, midSentence } from "../wording.ts";
import { accepting, fixFor, isOutside, lastRow, likely, readAgain } from "./shared/slipped.ts";

export const rule: JobRule = {
  id: "figure-slip",
  group: "Units and figures",
  severity: "warning",
  safety: false,
  title: "A point or a unit that slipped: far outside every limit, or ten times all that was read with it; a limit of wear that is twenty times what is new",
  why: "A reading five times outside every limit, and right when its point moves or its unit changes, is more likely a slip of the pen than a ruined part. No verdict is given on it until it is answered: write what was read, or accept the figure with the reason.",
  wrong: `limit tappet-gap "Tappet gap, cold"
  new 0.25 .. 0.30 mm
  worn max 0.45 mm
  source "Maker's handbook, page 22"

measure tappet-gap found
  2.8 mm
# ^^^^^^ warning figure-slip (fix)
`,
  right: `limit tappet-gap "Tappet gap, cold"
  new 0.25 .. 0.30 mm
  worn max 0.45 mm
  source "Maker's handbook, page 22"

measure tappet-gap found
  0.28 mm
`,
  fixed: `limit tappet-gap "Tappet gap, cold"
  new 0.25 .. 0.30 mm
  worn max 0.45 mm
  source "Maker's handbook, page 22"

measure tappet-gap found
  0.28 mm
  note "___"
`,
  scope: "job",
  *check(context) {
    const { story, judged, line: numberOf, report } = context;
    wearFarOff(context);
    for (const { reading, spot, slip } of judged.slips) {
      const { where: line, detail, limit } = reading;
      const fixes = likely(slip, limit)
        .flatMap((it) => fixFor(line, detail, spot, it) ?? [])
        .slice(0, 2);
      const written = spot.figures.map((it) => `${it.figure} ${it.unit.spelling}`);
      const again = readAgain(story, judged, reading);
      report({
        where: where(line.file, line.entry, detail.row, spot.at),
        severity: again === undefined ? "warning" : "information",
        message: `${written.length === 1 ? written[0] : `The mean of ${written.join(", ")}`} is at least five times outside what ${midSentence(limit)} may be.${fixes.length === 0 ? " Look whether its unit or its point slipped." : ` Is ${fixes.map((it) => it.meant).join(" or ")} meant?`}${again === undefined ? "" : ` It was read again at line ${numberOf(again.where)}.`}`,
        fixes: [...fixes.map((it) => it.fix), accepting(reading)],
      });
    }
    const slipped = new Set(judged.slips.map((it) => it.spot));
    for (const [i, together] of sittings(story).entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      const odd = oddOne(together);
      if (odd === undefined || slipped.has(odd.spot) || isOutside(odd.reading, odd.spot)) continue;
      const { where: line, detail, limit } = odd.reading;
      const fix = fixFor(line, detail, odd.spot, odd.instead);
      const again = readAgain(story, judged, odd.reading);
      const [it] = odd.spot.figures;
      report({
        where: where(line.file, line.entry, detail.row, odd.spot.at),
        severity: again === undefined ? "warning" : "information",
        message: `${it === undefined ? "" : `${it.figure} ${it.unit.spelling}`} is ${odd.instead.factor === 10 ? "ten" : "twenty-five"} times ${odd.instead.times ? "less" : "more"} than whatever else was read with it of ${midSentence(limit)}.${fix === undefined ? " Look whether its unit or its point slipped." : ` Is ${fix.meant} meant?`}`,
        fixes: [...(fix === undefined ? [] : [fix.fix]), accepting(odd.reading)],
      });
    }
  },
};

/** How many times what is new, or what was read, a limit of wear may be. Some run-outs and backlashes may grow tenfold. From memory. */
const [ofNew, ofReadings] = [20, 100];

/** A limit of wear that no part lives to see: the point or the unit of the limit itself slipped, and whatever is read passes. */
function wearFarOff({ job, story, report }: JobContext): void {
  for (const limit of job.things.values()) {
    if (limit.kind !== "limit" || limit.worn === undefined || limit.implied) continue;
    const worn = bandOf(limit.worn);
    if (worn === undefined || worn.unit.dimension === "temperature" || (worn.low !== undefined && worn.high !== undefined)) continue;
    const made = [bandOf(limit.new), bandOf(limit.set)].filter((it) => it?.unit.dimension === worn.unit.dimension);
    const bound = worn.high ?? worn.low;
    const own = made.flatMap((it) => (worn.high === undefined ? (it?.low ?? []) : (it?.high ?? [])));
    const read = own.length > 0 ? [] : readingsOn(story, limit.name).flatMap((it) => it.spots.map((spot) => spot.value));
    const [others, times] = own.length === 0 ? [read, ofReadings] : [own, clearances.test(allWords(limit)) ? ofClearance : ofNew];
    if (bound === undefined || bound.compare(0) <= 0 || others.length === 0 || others.some((it) => it.compare(0) <= 0)) continue;
    const isFar = (it: Exact) => (worn.high === undefined ? it.compare(bound.mul(times)) >= 0 : bound.compare(it.mul(times)) >= 0);
    const fit = others.every(isFar) ? undefined : farFromItsFit(limit, bound);
    if (fit === undefined && !others.every(isFar)) continue;
    const row = limit.entry.details.find((it) => it.kind === "worn")?.row ?? 0;
    const line = lineOf(limit, "worn");
    const [file, entry, at] = line === undefined ? [limit.file, limit.entry, row] : [line.file, line.entry, line.detail.row];
    report({
      where: where(file, entry, at, limit.worn.at),
      severity: "warning",
      open: isCritical(job, limit),
      message:
        fit !== undefined
          ? `${called(limit)}: worn ${rangeText(limit.worn)} is far from new, ${fit}. Look whether a figure of it slipped.`
          : `${called(limit)}: worn ${rangeText(limit.worn)} is ${worn.high === undefined ? `a ${times}th, or less,` : `${times} times, or more,`} of what ${own.length === 0 ? "was read" : limit.new === undefined ? "is set" : "is new"}. Look whether its point or its unit slipped.`,
      fixes: [
        addLine('Accept the limit as it is: `accept figure-slip "\u2026"`', where(file, entry, lastRow(entry), limit.worn.at), 'accept figure-slip "___"'),
      ],
    });
  }
}

/** Clearances of what runs in oil are given up at a few times what is new. From memory. */
const ofClearance = 12;
const clearances = /\bclearances?\b/iu;

/**
 * What new is, of a size that is made to a fit: no journal, pin, bore or link lives to lose half of itself, nor, where it runs in something, a sixteenth that is fifty times what it may be out when it is
 * made. From memory; what is there to be worn away (a lining, a rope, a nose) may.
 */
function farFromItsFit(limit: Limit, bound: Exact): string | undefined {
  const made = bandOf(limit.new);
  if (limit.new === undefined || made?.low === undefined || made.high === undefined || wornAway.test(allWords(limit))) return undefined;
  const tolerance = made.high.sub(made.low);
  if (tolerance.mul(20).compare(made.low) > 0) return undefined;
  const wear = bound.compare(made.low) < 0 ? made.low.sub(bound) : bound.sub(made.high);
  const isHalf = wear.mul(2).compare(made.low) > 0;
  const isRun = runsInIt.test(allWords(limit)) && wear.mul(16).compare(made.low) > 0 && wear.compare(tolerance.mul(50)) > 0;
  return isHalf || isRun ? rangeText(limit.new) : undefined;
}

const wornAway = /\b(linings?|pads?|shoes?|belts?|tyres?|tires?|treads?|brush(es)?|ropes?|wires?|nose|noses|tips?|thickness|bands?|blocks?)\b/iu;
const runsInIt = /\b(journals?|crank ?pins?|pins?|shafts?|spindles?|bores?|bush(es)?|brass(es)?|stems?|guides?)\b/iu;

type Together = readonly { readonly reading: Reading; readonly spot: Spot }[];

/** The figures of one measure, of four at least: of fewer nobody knows which one is odd. */
function sittings(story: Story): Together[] {
  const all = new Map<Reading["entry"], { reading: Reading; spot: Spot }[]>();
  for (const reading of story.readings) for (const spot of reading.spots) putInto(all, reading.entry, { reading, spot });
  return [...all.values()].filter((it) => it.length >= 4);
}

/** One that is a factor of ten or of 25.4 away from all others, which agree among themselves: with its point or its unit put right it is among them. */
function oddOne(together: Together): { readonly reading: Reading; readonly spot: Spot; readonly instead: Slip["instead"][number] } | undefined {
  // The two least and the two most, of however many.
  const low: Together[number][] = [];
  const high: Together[number][] = [];
  const dimension = together[0]?.spot.figures[0]?.unit.dimension;
  for (const it of together) {
    if (it.spot.figures[0]?.unit.dimension !== dimension) return undefined;
    putFirst(low, it, (other) => it.spot.value.compare(other.spot.value) < 0);
    putFirst(high, it, (other) => it.spot.value.compare(other.spot.value) > 0);
  }
  for (const [odd, least, most] of [
    [low[0], low[1], high[0]],
    [high[0], low[0], high[1]],
  ] as const) {
    if (odd === undefined || least === undefined || most === undefined || odd.spot.value.compare(0) <= 0) continue;
    if (most.spot.value.compare(least.spot.value.mul(figure("1.5"))) > 0) continue;
    for (const factor of [10, 25.4]) {
      // A figure of one digit tells nothing; that it alone is in another unit does.
      if (isOneDigit(odd.spot) && (factor === 10 || unitOfSpot(odd.spot) === unitOfSpot(least.spot) || unitOfSpot(odd.spot) === unitOfSpot(most.spot)))
        continue;
      const times = odd === low[0];
      const by = figure(String(factor));
      const value = times ? odd.spot.value.mul(by) : odd.spot.value.div(by);
      if (value.mul(figure("1.1")).compare(least.spot.value) >= 0 && value.compare(most.spot.value.mul(figure("1.1"))) <= 0)
        return { ...odd, instead: { value, factor, times } };
    }
  }
  return undefined;
}

/** Among two at most, before those that it is ahead of. */
function putFirst<T>(two: T[], it: T, isAhead: (of: T) => boolean): void {
  const at = two.findIndex(isAhead);
  two.splice(at < 0 ? two.length : at, 0, it);
  if (two.length > 2) two.pop();
}

function unitOfSpot({ figures }: Spot): string | undefined {
  return figures[0]?.unit.name;
}

/** Of 0.1 beside 0.01 nobody can tell that a point slipped. */
function isOneDigit(spot: Spot): boolean {
  return spot.figures.every(
    (it) =>
      String(it.figure)
        .replace(/\D/g, "")
        .replace(/^0+|0+$/g, "").length < 2,
  );
}
