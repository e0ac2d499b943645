import { someAtOnce } from "../../../grammar/slices.ts";
import { hasEntry } from "../../model/has.ts";
import { isOfRunOut } from "../../model/read-with.ts";
import { isCritical } from "../../model/relations.ts";
import { compare, zero } from "../../quantities/exact.ts";
import type { Verdict } from "../../story/verdict.ts";
import type { JobContext, JobRule } from "../rule.ts";
import { closed, cutsThatAddNothing, grown, shrunk, uncut } from "../cut-only.ts";
import { otherSizes } from "../made-to-size.ts";
import { reRead } from "../re-read.ts";
import { shimsAgainst } from "../shims-against.ts";
import { isSetBetween } from "../looked-good.ts";
import { isContradicted, readsSo, verdictValue } from "../verdict-words.ts";
import { agreeing, called, valueText } from "../wording.ts";
import { areShutIn, isToChange, isUntouched, wasWorkedOn } from "./shared/nothing-between.ts";

export const rule: JobRule = {
  id: "reading-contradicts",
  group: "Limits, readings, checks",
  severity: "error; warning while the job is under way and another piece, or work on this one, is decided or ordered; both are open",
  safety: true,
  title:
    "A reading that says what nothing brought about: inside of what was past its limit and is the same still; set right, and nothing that sets it was moved; more, where metal was taken off; half the slack; or other than its own arithmetic",
  why: "Metal does not grow back. If the first reading was the slip, read it once more as `found` and write `because` under it; if it was the fastener, take it off, look at it and write a finding `serviceable` with `because`. What is worked out from other readings and is measured directly too must agree with them.",
  wrong: `part drum "Brake drum"
limit bore "Drum bore"
  worn max 9.060 in
  of drum
  source "Maker's handbook, page 40"
measure bore found
  9.070 in
measure bore final
  9.010 in
# ^^^^^^^^ error reading-contradicts
`,
  right: `part drum "Brake drum"
limit bore "Drum bore"
  worn max 9.060 in
  of drum
  source "Maker's handbook, page 40"
measure bore found
  9.070 in
measure bore found
  9.010 in
  because "The first was read over a ridge of rust"
measure bore final
  9.010 in
`,
  scope: "job",
  *check(context) {
    const { judged, report, line } = context;
    for (const [i, out] of judged.verdicts.entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      if (out.stage === "trial" && isPastMost(out) && isOfRunOut(out.limit)) {
        const after = judged.verdicts.slice(i + 1).find((it) => it.limit === out.limit && it.place === out.place && it.seq > out.seq && it.stage !== "found");
        if (after?.stage === "final" && after.outcome === "in" && isMoreThanDoubt(out, after) && isUntouched(context, out, after))
          report({
            where: after.where,
            severity: "error",
            message: `${readsSo(after)}, but was ${verdictValue(out)} at line ${line(out.where)}, and nothing between them trues it. Write what was done, or \`found\` again, with \`because\`.`,
            related: [{ where: out.where, message: "Past its limit here." }],
          });
      }
      const set = setByNothing(context, out, i);
      if (set !== undefined)
        report({
          where: set.where,
          severity: "error",
          message: `${readsSo(set)}, but was ${verdictValue(out)} at line ${line(out.where)}, and nothing that sets it was moved between. Write what was done, or \`found\` again, with \`because\`.`,
          related: [{ where: out.where, message: "Past its limit here." }],
        });
      ofThePieces(context, out);
      ofTheFit(context, out);
      ofTheCut(context, out);
      const contradicted = isContradicted(context, out);
      if (!contradicted && (out.band !== "worn" || out.outcome !== "out")) continue;
      const later = judged.verdicts
        .slice(i + 1)
        .find(
          (it) => it.limit === out.limit && it.place === out.place && it.seq > out.seq && it.stage === "final" && it.band === out.band && it.outcome === "in",
        );
      if (later === undefined) continue;
      if (!contradicted && cutsThatAddNothing(context, out, later))
        report({
          where: later.where,
          severity: "error",
          message: `${readsSo(later)}, but was ${verdictValue(out)} at line ${line(out.where)}, and the work since only takes metal off. Write what else was done, or \`found\` again, with \`because\`.`,
          related: [{ where: out.where, message: "Past its limit here." }],
        });
      if (!contradicted) continue;
      // What has come is measured on the bench, and goes in later.
      if (context.story.release === undefined && isToChange(context, out)) {
        report({
          where: later.where,
          severity: "warning",
          open: true,
          message: `${readsSo(later)}, and was ${verdictValue(out)} at line ${line(out.where)}. Is it of the new one, or after the work? Write what went in or was done: until then it proves nothing.`,
          related: [{ where: out.where, message: "Past its limit here." }],
        });
        continue;
      }
      report({
        where: later.where,
        severity: "error",
        message: `${readsSo(later)}, but was ${verdictValue(out)} at line ${line(out.where)}, and ${wasWorkedOn(context, out) ? "the work since does not explain it" : "nothing was done to it since"}. Write what was done, or \`found\` again, with \`because\`.`,
        related: [{ where: out.where, message: "Past its limit here." }],
      });
    }
    ofShims(context);
    for (const { reading, asked, order } of otherSizes(context.story))
      report({
        where: reading.where,
        severity: "warning",
        open: isCritical(context.job, reading.limit),
        message: `${called(reading.limit, reading.place)} was ordered to be ${asked} at line ${line(order)}, and reads otherwise. Ask who did it; where that is right, write why under the reading.`,
        related: [{ where: order, message: "Ordered here." }],
      });
    for (const { direct, worked } of judged.disagreeing) {
      report({
        where: direct.where,
        severity: "error",
        message: `${readsSo(direct)}, and its own figures make it ${verdictValue(worked)}. Measure those again: a direct reading does not cure what is worked out.`,
        related: [{ where: worked.where, message: `${called(worked.limit, worked.place)} ${agreeing(worked.limit, "is")} worked out from here.` }],
      });
    }
  },
};

/** In by one reading of a piece that nobody touched, and out by another; or more metal than before. */
function ofThePieces(context: JobContext, out: Verdict): void {
  const { report, line } = context;
  const again = reRead(context, out);
  if (again !== undefined)
    report({
      where: again.after.where,
      severity: "error",
      message: `${readsSo(out)} by this, was ${verdictValue({ ...out, value: again.value })} by line ${line(again.before.where)}, and nothing was done between. Write what was, or \`because\` under the right one.`,
      related: [{ where: again.before.where, message: "Read so before." }],
    });
  const thinner = grown(context, out);
  if (thinner !== undefined)
    report({
      where: out.where,
      severity: "error",
      message: `${readsSo(out)}, which is more metal than at line ${line(thinner.found.where)}, and ${thinner.isCut ? "the work since only takes metal off" : "nothing was done to it since"}. Write what ${thinner.isCut ? "else " : ""}was done, or \`found\` again, with \`because\`.`,
      related: [{ where: thinner.found.where, message: "Read so before." }],
    });
  const thicker = shrunk(context, out);
  // Where another has grown they have changed places, and that is told there.
  const isTold = () =>
    context.judged.verdicts.some((it) => it.reading.entry === out.reading.entry && it.place !== out.place && grown(context, it) !== undefined);
  if (thicker !== undefined && !isTold())
    report({
      where: out.where,
      severity: "error",
      message: `${readsSo(out)}: since line ${line(thicker.where)} a third of all that it may wear is gone, and nothing was done to it. Write what was, or which reading is right and why.`,
      related: [{ where: thicker.where, message: "Read so before." }],
    });
}

/** As before to the last place, of what was cut by so much. */
function ofTheCut(context: JobContext, final: Verdict): void {
  const cut = uncut(context, final);
  if (cut !== undefined)
    context.report({
      where: final.where,
      severity: "error",
      message: `${readsSo(final)}, to the last place as at line ${context.line(cut.found.where)}, and metal was taken off between (line ${context.line(cut.at)}). Measure it again, or write what was worked on.`,
      related: [{ where: cut.at, message: "Worked on here." }],
    });
}

/** Less slack than before. */
function ofTheFit(context: JobContext, final: Verdict): void {
  const found = closed(context, final);
  if (found !== undefined)
    context.report({
      where: final.where,
      severity: "error",
      message: `${readsSo(final)}, less than half of what it was at line ${context.line(found.where)}, and nothing was done to it since. Write what was done, or \`found\` again, with \`because\`.`,
      related: [{ where: found.where, message: "Read so before." }],
    });
}

function ofShims(context: JobContext): void {
  const { job, report, line } = context;
  if (!hasEntry(job, "shims")) return;
  for (const { before, after, expected } of shimsAgainst(context)) {
    const unit = after.spots[0]?.figures[0]?.unit;
    report({
      where: after.where,
      severity: "error",
      message: `${called(after.limit)} does not follow its shims: by what went in or out since line ${line(before.where)} it comes to ${unit === undefined ? "another figure" : valueText(expected, unit, Math.max(2, after.spots[0]?.figures[0]?.places ?? 2))}. Measure it again, or write which shims are in.`,
      related: [{ where: before.where, message: "Read so before." }],
    });
  }
}

/** A final reading inside what it is to be set to, of what was out of that and by more than the gauges let be, though nothing that sets it was moved since. A word under either tells which is right. */
function setByNothing(context: JobContext, out: Verdict, index: number): Verdict | undefined {
  const { job, story, judged } = context;
  const { limit, place, band, stage, reading } = out;
  if (out.outcome !== "out" || band !== "set" || out.workedOut || !isCritical(job, limit)) return undefined;
  if (stage === "final") return finalAgain(context, out, index);
  if (limit.setBy.length === 0) return undefined;
  // A nut, a nipple or a screw is given a turn between two readings, and nobody writes a line of it; shims are taken out for.
  if (!limit.setBy.every(({ text }) => job.things.get(text)?.kind === "shims")) return undefined;
  const after = judged.verdicts
    .slice(index + 1)
    .find((it) => it.limit === limit && it.place === place && it.position === out.position && it.seq > out.seq && it.stage !== "found");
  if (after?.stage !== "final" || after.outcome !== "in" || after.band !== "set" || !isMoreThanDoubt(out, after)) return undefined;
  if ([reading, after.reading].some(({ entry }) => entry.details.some((it) => it.kind === "because" || it.kind === "note"))) return undefined;
  return isSetBetween(story, limit, reading, after.reading) && !areShutIn(story, limit, reading, after) ? undefined : after;
}

/** Final once, outside what it is to be left at, and final once more, inside, with no line, note or word between of what moved it: whoever calls a reading final has done with setting it. */
function finalAgain(context: JobContext, out: Verdict, index: number): Verdict | undefined {
  const after = context.judged.verdicts
    .slice(index + 1)
    .find((it) => it.limit === out.limit && it.place === out.place && it.position === out.position && it.seq > out.seq && it.stage === "final");
  if (after === undefined || after.outcome !== "in" || after.reading.entry === out.reading.entry || !isMoreThanDoubt(out, after)) return undefined;
  return isUntouched(context, out, after) ? after : undefined;
}

/** Past its wear, or past what a run-out is to be set to, by its figure, the doubt of the gauge left aside. */
function isPastMost({ band, against: { high }, value }: Verdict): boolean {
  return (band === "worn" || band === "set") && high !== undefined && compare(value, high) > 0;
}

/** They are further from one another than the gauges let them be. */
function isMoreThanDoubt(one: Verdict, other: Verdict): boolean {
  const between = one.value.sub(other.value);
  const doubt = [one, other].reduce((sum, it) => (it.uncertaintySquared === undefined ? sum : sum.add(it.uncertaintySquared)), zero);
  return compare(between.mul(between), doubt) > 0;
}
