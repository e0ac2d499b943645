// A reading so far outside every limit that a point or a unit has slipped.
import type { Entry, Quantity, ReadingDetail } from "../../../grammar/tree.ts";
import { unsaid } from "../../../grammar/blanks.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import { putInto } from "../../model/grouped.ts";
import { isCritical } from "../../model/relations.ts";
import { type Limit, lineOf } from "../../model/things.ts";
import { bandOf, quantityText, rangeText, unitsOf } from "../../model/values.ts";
import { type Where, where } from "../../model/where.ts";
import { type Exact, exact, figure, plainText } from "../../quantities/exact.ts";
import { inside } from "../../quantities/range.ts";
import { unitOf } from "../../quantities/units.ts";
import { readingsOn } from "../../story/looked-up.ts";
import type { Slip } from "../../story/slips.ts";
import type { Reading, Spot, Story } from "../../story/story.ts";
import type { Judged, Verdict } from "../../story/verdict.ts";
import { lastWorkedOn } from "../moved.ts";
import { type JobContext, type JobRule, type RuleEdit, type RuleFix, addLine } from "../rule.ts";
import { called, midSentence } from "../wording.ts";

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
    const [others, times] = own.length > 0 ? [own, ofNew] : [read, ofReadings];
    if (bound === undefined || bound.compare(0) <= 0 || others.length === 0 || others.some((it) => it.compare(0) <= 0)) continue;
    const isFar = (it: Exact) => (worn.high === undefined ? it.compare(bound.mul(times)) > 0 : bound.compare(it.mul(times)) > 0);
    if (!others.every(isFar)) continue;
    const row = limit.entry.details.find((it) => it.kind === "worn")?.row ?? 0;
    const line = lineOf(limit, "worn");
    const [file, entry, at] = line === undefined ? [limit.file, limit.entry, row] : [line.file, line.entry, line.detail.row];
    report({
      where: where(file, entry, at, limit.worn.at),
      severity: "warning",
      open: isCritical(job, limit),
      message: `${called(limit)}: worn ${rangeText(limit.worn)} is ${worn.high === undefined ? `less than a ${times}th` : `more than ${times} times`} of what ${own.length === 0 ? "was read" : limit.new === undefined ? "is set" : "is new"}. Look whether its point or its unit slipped.`,
      fixes: [
        addLine('Accept the limit as it is: `accept figure-slip "\u2026"`', where(file, entry, lastRow(entry), limit.worn.at), 'accept figure-slip "___"'),
      ],
    });
  }
}

function accepting({ where: line, detail, entry }: Reading): RuleFix {
  return addLine('Accept the figure as it is: `accept figure-slip "…"`', where(line.file, line.entry, lastRow(entry), detail.at), 'accept figure-slip "___"');
}

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

/** That has a verdict of its own. */
function isOutside({ stood }: Reading, spot: Spot): boolean {
  return [stood.worn, stood.set].some((range) => {
    const band = bandOf(range);
    return band !== undefined && (band.unit.dimension !== spot.figures[0]?.unit.dimension || !inside(band, spot.value));
  });
}

/**
 * The final reading, inside, that came after this one and stands for it: of a setting, of a limit that belongs to no piece, or of a piece that was renewed
 * or worked on between. A leak may well be ten times what it may be, and that is why the machine is apart; and a float is so before its nut is set. A slip of the pen that
 * is read once more, and says so, is put right as well.
 */
function readAgain(story: Story, judged: Judged, { limit, place, seq, entry }: Reading): Verdict | undefined {
  const final = judged.verdicts.findLast((it) => it.limit.name === limit.name && it.place === place && it.stage === "final" && it.seq > seq && !it.workedOut);
  if (final === undefined || final.outcome !== "in" || final.where.entry === entry) return undefined;
  if (saysWhy(final.where.entry)) return final;
  const worked = limit.of.length === 0 || limit.set !== undefined ? undefined : lastWorkedOn(story, limit.of, place);
  const stands = limit.of.length === 0 || limit.set !== undefined || (worked !== undefined && worked.moment.seq > seq);
  return stands ? final : undefined;
}

/** A reason stands under it, or a note that says that the one before was no reading. */
function saysWhy({ details }: Entry): boolean {
  return details.some(
    (it) =>
      (it.kind === "because" || it.kind === "note") && it.fault === undefined && !unsaid(it) && (it.kind === "because" || ofASlip.test(it.text?.value ?? "")),
  );
}

const ofASlip =
  /\b(slips?|slipped|pen|typing|typed|misread|mis-read|misprint|mistake|mistaken|wrong(ly)?|written|wrote|point|unit|should (be|have|read)|meant|correct(s|ed|ion)?)\b/i;

/** Units that lie a factor apart: the slip was in the unit, and the figure stays as it was read. */
const unitsApart: readonly { readonly factor: number; readonly large: string; readonly small: string }[] = [
  { factor: 25.4, large: "in", small: "mm" },
  { factor: 12, large: "ft", small: "in" },
  { factor: 12, large: "lbf.ft", small: "lbf.in" },
  { factor: 10, large: "cm", small: "mm" },
  { factor: 1000, large: "in", small: "thou" },
  { factor: 1000, large: "mm", small: "um" },
  { factor: 1000, large: "m", small: "mm" },
];

function fixFor(line: Where, detail: ReadingDetail, spot: Spot, { factor, times }: Slip["instead"][number]): { meant: string; fix: RuleFix } | undefined {
  const units = unitsOf(detail.figures);
  const slipped = detail.figures.flatMap((it, i) => (it.at.from >= spot.at.from && it.at.to <= spot.at.to ? [{ it, unit: units[i] }] : []));
  const [first] = slipped;
  if (first === undefined || first.unit === undefined) return undefined;
  const name = unitOf(first.unit.text)?.name;
  const other = unitsApart.find((it) => it.factor === factor && (times ? it.small : it.large) === name);
  // Where one unit serves several figures it can't be changed for one of them, but for all.
  const alone = slipped.every(({ it }) => it.unit !== undefined) || slipped.length === detail.figures.length;
  const together = !alone && isOneUnit(detail) && allSlipped(detail, spot);
  if (other !== undefined && factor !== 10 && (alone || together)) {
    const unit = times ? other.large : other.small;
    const changed = together ? detail.figures : slipped.map(({ it }) => it);
    const edits = changed.flatMap((it): RuleEdit[] => (it.unit === undefined ? [] : [{ where: { ...line, at: it.unit.at }, text: unit }]));
    const meant = changed.map((it) => `${it.figure.text}${together && it.unit === undefined ? "" : ` ${unit}`}`).join(", ");
    return { meant, fix: { title: `Write ${meant}`, edits } };
  }
  // Feet for inches and inches for millimetres are slips of the unit alone: no figure is worked out by them.
  if (factor !== 10 && factor !== 1000) return undefined;
  const texts = slipped.map(({ it }) => scaled(it, factor, times));
  if (texts.some((text) => text === undefined)) return undefined;
  const meant = slipped.map(({ it, unit }, i) => quantityText({ ...it, figure: { ...it.figure, text: texts[i] as string } }, unit)).join(", ");
  return { meant, fix: { title: `Write ${meant}`, edits: slipped.map(({ it }, i) => ({ where: { ...line, at: it.figure.at }, text: texts[i] as string })) } };
}

function scaled(it: Quantity, factor: number, times: boolean): string | undefined {
  const value = exact(it.figure.text);
  if (value === undefined) return undefined;
  const by = figure(String(factor));
  return plainText(times ? value.mul(by) : value.div(by));
}

/** Those that are inside every range of the limit, where any are: what is only not too large is not much of a likeness. */
function likely(slip: Slip, limit: Limit): Slip["instead"] {
  const bands = [limit.new, limit.worn, limit.set].flatMap((range) => bandOf(range) ?? []);
  const best = slip.instead.filter((it) => bands.every((band) => inside(band, it.value)));
  return best.length > 0 ? best : slip.instead;
}

/** Written once, behind the last figure. */
function isOneUnit({ figures }: ReadingDetail): boolean {
  return figures.length > 1 && figures.every((it, i) => (it.unit !== undefined) === (i === figures.length - 1));
}

/** Each figure beside it is of its size: the one unit slipped for all of them. */
function allSlipped({ figures }: ReadingDetail, { figures: own }: Spot): boolean {
  const first = Number(own[0]?.figure);
  return figures.every((it) => Number(it.figure.text) * 3 > first && Number(it.figure.text) < first * 3);
}

function lastRow(entry: Entry): number {
  return entry.details.reduce((row, it) => Math.max(row, it.row), 0);
}
