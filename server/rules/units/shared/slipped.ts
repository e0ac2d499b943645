// What is said of a figure whose point or unit slipped: what was meant, whether it was read again, and how it is put right or accepted.
// Invariant: asked where a slip was found, and not before.
import type { Entry, Quantity, ReadingDetail } from "../../../../grammar/tree.ts";
import { unsaid } from "../../../../grammar/blanks.ts";
import type { Limit } from "../../../model/things.ts";
import { bandOf, quantityText, unitsOf } from "../../../model/values.ts";
import { type Where, where } from "../../../model/where.ts";
import { exact, figure, plainText } from "../../../quantities/exact.ts";
import { inside } from "../../../quantities/range.ts";
import { unitOf } from "../../../quantities/units.ts";
import type { Slip } from "../../../story/slips.ts";
import type { Reading, Spot, Story } from "../../../story/story.ts";
import type { Judged, Verdict } from "../../../story/verdict.ts";
import { lastWorkedOn } from "../../moved.ts";
import { type RuleEdit, type RuleFix, addLine } from "../../rule.ts";

export function accepting({ where: line, detail, entry }: Reading): RuleFix {
  return addLine('Accept the figure as it is: `accept figure-slip "…"`', where(line.file, line.entry, lastRow(entry), detail.at), 'accept figure-slip "___"');
}

/** That has a verdict of its own. */
export function isOutside({ stood }: Reading, spot: Spot): boolean {
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
export function readAgain(story: Story, judged: Judged, { limit, place, seq, entry }: Reading): Verdict | undefined {
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

export function fixFor(
  line: Where,
  detail: ReadingDetail,
  spot: Spot,
  { factor, times }: Slip["instead"][number],
): { meant: string; fix: RuleFix } | undefined {
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
export function likely(slip: Slip, limit: Limit): Slip["instead"] {
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

export function lastRow(entry: Entry): number {
  return entry.details.reduce((row, it) => Math.max(row, it.row), 0);
}
