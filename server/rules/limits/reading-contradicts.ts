// A later reading says what nothing brought about: inside, of a piece that was past its limit and was not worked on; or other than its own arithmetic.
import { piecesAt } from "../../story/cells.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import { besideShims, isOfRunOut } from "../../model/read-with.ts";
import { isAt, ordersOf } from "../../model/orders.ts";
import { isCritical, relationsOf } from "../../model/relations.ts";
import { isSamePlace } from "../../model/same-place.ts";
import { isAnewSince } from "../../story/put-right.ts";
import { compare, zero } from "../../quantities/exact.ts";
import { findingsOf } from "../../story/decisions.ts";
import type { FastenerMoment, Moment, PartMoment, Reading, Story } from "../../story/story.ts";
import type { Verdict } from "../../story/verdict.ts";
import type { Limit } from "../../model/things.ts";
import type { JobContext, JobRule } from "../rule.ts";
import { closed, cutsThatAddNothing, grown, shrunk, uncut } from "../cut-only.ts";
import { onAt } from "../../story/in-place.ts";
import { reRead } from "../re-read.ts";
import { shimsAgainst } from "../shims-against.ts";
import { isSetBetween } from "../looked-good.ts";
import { isContradicted, readsSo, verdictValue } from "../verdict-words.ts";
import { agreeing, called, valueText } from "../wording.ts";

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
            message: `${readsSo(after)}, but was ${verdictValue(out)} at line ${line(out.where)}, and nothing between them trues it. Write what was done, or which reading is right and why.`,
            related: [{ where: out.where, message: "Past its limit here." }],
          });
      }
      const set = setByNothing(context, out, i);
      if (set !== undefined)
        report({
          where: set.where,
          severity: "error",
          message: `${readsSo(set)}, but was ${verdictValue(out)} at line ${line(out.where)}, and nothing that sets it was moved between. Write what was done, or which reading is right and why.`,
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
          message: `${readsSo(later)}, but was ${verdictValue(out)} at line ${line(out.where)}, and the work since only takes metal off. Write what else was done, or which reading is right and why.`,
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
        message: `${readsSo(later)}, but was ${verdictValue(out)} at line ${line(out.where)}, and ${wasWorkedOn(context, out) ? "the work since does not explain it" : "nothing was done to it since"}. Write what was done, or which reading is right and why.`,
        related: [{ where: out.where, message: "Past its limit here." }],
      });
    }
    ofShims(context);
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
      message: `${readsSo(out)}, which is more metal than at line ${line(thinner.found.where)}, and ${thinner.isCut ? "the work since only takes metal off" : "nothing was done to it since"}. Write what ${thinner.isCut ? "else " : ""}was done, or which reading is right and why.`,
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
      message: `${readsSo(final)}, less than half of what it was at line ${context.line(found.where)}, and nothing was done to it since. Write what was done, or which reading is right and why.`,
      related: [{ where: found.where, message: "Read so before." }],
    });
}

function ofShims(context: JobContext): void {
  const { report, line } = context;
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

/** By the title of the shims they lie under a cover that was on as it was read, and was not let go since, though it was before: whatever a step is called, none came out. */
function areShutIn(story: Story, limit: Limit, { seq, place, entry }: Reading, after: Verdict): boolean {
  const covers = besideShims(story.job, limit).flatMap(({ name }) => story.cells(name));
  const shims = limit.setBy.flatMap(({ text }) => story.cells(text));
  const holders = covers.flatMap((cell) => (cell.kind === "part" ? cell.thing.heldBy.flatMap(({ text }) => story.cells(text)) : []));
  const moments = [...covers, ...holders, ...shims].flatMap((cell) => {
    if ((cell.kind !== "part" && cell.kind !== "fastener") || !isSamePlace(cell.place, place)) return [];
    return (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && opens.has(it.verb));
  });
  const isIn = covers.length > 0 && covers.every((cell) => cell.kind !== "part" || (!cell.unsure && onAt(cell, seq) >= cell.total));
  if (!isIn || !moments.some((it) => it.seq < seq) || moments.some((it) => it.seq > seq && it.seq < after.seq)) return false;
  // Told in words.
  const { entries } = story.job.own.sheet;
  const between = entries.slice(entries.indexOf(entry) + 1, entries.indexOf(after.reading.entry));
  return between.every(
    (it) =>
      it.kind !== "step" ||
      ![it.title?.value, ...it.details.map((line) => (line.kind === "note" ? line.text?.value : undefined))].some((text) => letGo.test(text ?? "")),
  );
}

const letGo =
  /\b(covers?|caps?|bolts?|nuts?|screws?|plates?|flanges?|housings?)\b[^.;]* (off|out|up|back|lifted|slackened|eased|undone|opened)\b|\b(undid|slackened|eased|lifted|opened|took off)\b/iu;

const opens: ReadonlySet<string> = new Set(["remove", "undo", "slacken", "let"]);

/** Repaired here since, or back from work that may have mended it. */
function wasWorkedOn({ story }: JobContext, { limit, place, seq, day }: Verdict): boolean {
  return limit.of.some(({ text }) => isAnewSince(story, text, place, { seq, day }));
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

/** Nothing moved between the two of what it is of, sets it, holds that, or holds it: what is only locked stands as it was. A step, a note or a word under the reading that tells of it counts. */
function isUntouched({ job, story }: JobContext, { limit, place, seq, reading }: Verdict, after: Verdict): boolean {
  const isBetween = (it: Pick<Moment, "seq">) => it.seq > seq && it.seq < after.seq;
  if ((limit.of.length === 0 && limit.setBy.length === 0) || limit.expression !== undefined) return false;
  if ([reading, after.reading].some(({ entry }) => entry.details.some((it) => it.kind === "because" || it.kind === "note"))) return false;
  const held = limit.setBy.flatMap(({ text }) => relationsOf(job).holds.get(text) ?? []);
  const names = [...limit.of.map((it) => it.text), ...limit.setBy.map((it) => it.text), ...held.map((it) => it.name)].flatMap((text) => {
    const thing = job.things.get(text);
    return [text, ...(thing?.kind === "part" ? [...thing.heldBy, ...thing.behind].map((it) => it.text) : [])];
  });
  for (const cell of [...names, ...limit.with.map((it) => it.text)].flatMap((name) => story.cells(name))) {
    if (cell.kind !== "part" && cell.kind !== "fastener") continue;
    if (cell.unsure) return false;
    if (!isSamePlace(cell.place, place)) continue;
    for (const it of cell.history as readonly (PartMoment | FastenerMoment)[]) {
      if (!isBetween(it) || it.verb === "found") continue;
      if (it.verb !== "lock" && it.verb !== "mark") return false;
    }
  }
  // Steps between that only tell of it, and name nothing.
  const { entries } = job.own.sheet;
  const between = entries.slice(entries.indexOf(reading.entry) + 1, entries.indexOf(after.reading.entry));
  return between.every((it) => it.kind !== "step" || (it.details.every((detail) => detail.kind !== "note") && !trues.test(it.title?.value ?? "")));
}

const trues = /\b(tru(e|ed|ing)|straight\w*|knock\w*|hammer\w*|wedg\w*|pinch\w*|spread|set(ting)?|turn\w*|skim\w*|adjust\w*|balanc\w*|shim\w*)\b/iu;

/** What it was read of is to be renewed or worked on: decided, ordered, sent out or planned; or it is off, and another may lie beside it. */
function isToChange({ job, story }: JobContext, { limit, place }: Verdict): boolean {
  const orders = ordersOf(job);
  const stands = (it: { readonly status: { readonly status?: string } | undefined }) => it.status?.status !== "cancelled" && it.status?.status !== "returned";
  return limit.of.some(({ text: name }) => {
    if (orders.items.get(name)?.some(stands)) return true;
    if (orders.work.get(name)?.some((it) => stands(it) && isAt(it.detail, place))) return true;
    const decided = (findingsOf(story).get(name) ?? []).filter((it) => it.decision !== undefined && it.places.some((at) => isSamePlace(at, place)));
    if (decided.some(({ decision }) => changes.has(decision?.detail.decision ?? ""))) return true;
    return piecesAt(story, name, place).some(
      (cell) =>
        // What lies on the bench is measured beside the one that is to go in.
        (cell.history.length > 0 && cell.now.on === 0) ||
        cell.history.some((it) => it.phase === "planned" && (it.verb === "repair" || (it.verb === "fit" && it.isNew))),
    );
  });
}

const changes: ReadonlySet<string> = new Set(["renew", "exchange", "repair", "make"]);
