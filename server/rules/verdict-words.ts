// What the rules of limits share: how a verdict is worded, what has put it right since, and what a concession makes of it.
// Invariant: a final reading that is in puts right; doubt and trials never do.
import { momentsOf, piecesAt } from "../story/cells.ts";
import { type Exact, compare, exact } from "../quantities/exact.ts";
import { beyond, inside } from "../quantities/range.ts";
import { bandOf } from "../model/values.ts";
import { isCritical } from "../model/relations.ts";
import { withoutWear } from "../story/bands.ts";
import { coversPlace, isConceded } from "../story/conceded.ts";
import type { Name } from "../../grammar/tree.ts";
import { readingsOn, verdictsOn } from "../story/looked-up.ts";
import type { Lot, Note } from "../story/lots.ts";
import { type Cure, backFromWork, mayMend } from "../story/put-right.ts";
import type { Concession, FastenerCell, FastenerMoment, PartCell, PartMoment, Reading, Story } from "../story/story.ts";
import type { Verdict } from "../story/verdict.ts";
import { mendsNothing } from "../story/worked-in.ts";
import { namesIn } from "../story/worked-out.ts";
import { against, isReasoned } from "./failures.ts";
import { cutsThatAddNothing } from "./cut-only.ts";
import { byTheDoer } from "./conceding.ts";
import { curedReport } from "./found.ts";
import { mayBeOfBefore } from "./moved.ts";
import { pardonsIn } from "./pardons.ts";
import { endsOutside, isOfAllEnds, isReadAgainThere } from "./read-of-each.ts";
import type { JobContext, Report, Severity } from "./rule.ts";
import { agreeing, bandText, called, listed, valueText } from "./wording.ts";

/** “Left hub end float is 0.0143 in”, with “worked out” where it is. */
export function readsSo(verdict: Verdict): string {
  const { limit, place, position } = verdict;
  const at = [place, position].filter((it) => it !== undefined && it !== "").join(" ");
  const mean = verdict.reading.spots.some((spot) => spot.again) && !verdict.workedOut ? " (mean)" : "";
  const out = verdict.workedOut ? ` (worked out${verdict.approximate ? ", near enough" : ""})` : "";
  const what = verdict.band === "taper" ? " taper" : verdict.band === "ovality" ? " ovality" : verdict.band === "spread" ? " spread" : "";
  // Several that are called by one limit have a size, and are none: “brake linings measure 3 mm”.
  const verb = what === "" && agreeing(limit, "is") === "are" ? "measure" : "is";
  return `${called(limit, at)}${what} ${verb} ${verdictValue(verdict)}${mean}${out}`;
}

/**
 * In, by what it may be, and past what it is as made: a new bush on a pin that has run, whose clearance may be what the pin has worn. Whoever says the range of a new one says so,
 * for the figure does not lie in it.
 */
export function isPastNew({ band, renewed, outcome, stood, value }: Verdict): boolean {
  const made = bandOf(stood.new);
  return outcome === "in" && made !== undefined && stood.worn !== undefined && (band === "new" || (band === "worn" && renewed)) && !inside(made, value);
}

/** The value in the unit that it was read in, or for a worked-out one in the unit of its limit. */
export function verdictValue(verdict: Verdict): string {
  const figure = verdict.reading.spots[0]?.figures[0];
  const unit = verdict.workedOut || figure === undefined ? verdict.against.unit : figure.unit;
  const written = verdict.reading.spots.flatMap((spot) => spot.figures.map((it) => (it.places < 0 ? 4 : it.places)));
  const limits =
    bandText(verdict.stood, verdict.band, verdict.against)
      .match(/\d*\.(\d+)/g)
      ?.map((it) => it.split(".")[1]?.length ?? 0) ?? [];
  const sameUnit = figure !== undefined && figure.unit.name === verdict.against.unit.name;
  return valueText(verdict.value, unit, Math.max(...written, ...(sameUnit ? limits : [0]), 0));
}

/** U as shown, in the unit of the limit: two figures that count. The comparison itself is made with U squared, exactly. */
export function uncertaintyText(verdict: Verdict): string {
  const { unit } = verdict.against;
  const root = Math.sqrt((verdict.uncertaintySquared ?? zero).div(unit.factor.mul(unit.factor)).valueOf());
  return `${Number(root.toPrecision(2))} ${unit.spelling}`;
}
const zero = exact("0") as Exact;

export function limitWords(verdict: Verdict): string {
  return bandText(verdict.stood, verdict.band, verdict.against);
}

/** “over its wear limit of 12.060 in”: which side of the limit, in words, then its figure. */
export function beyondWords(verdict: Verdict, limit: string): string {
  const words = limitWords(verdict);
  const [, end, figure] = /^(max|min) (.*)$/s.exec(words) ?? [];
  if (figure === undefined) return `outside ${limit} ${words}`;
  return `${end === "max" ? "over" : "under"} ${limit} ${figure}`;
}

/** Whether the limit is critical, or of something that is. */
export function verdictCritical(context: JobContext, verdict: Verdict): boolean {
  return isCritical(context.job, verdict.limit);
}

/**
 * Since then read at every position that the limit is read at: one end of a pin says nothing of the other. Where it names none and its readings have positions of their own, at each of those where
 * it was outside, or by a figure that is of no position.
 */
function readThroughout({ story }: JobContext, verdict: Verdict): boolean {
  const { limit } = verdict;
  if (limit.positions.length === 0) return unreadEnds(story, verdict).length === 0;
  const finals = finalsSince(story, verdict);
  return limit.positions.every((position) => finals.some((it) => it.position === position));
}

function finalsSince(story: Story, { limit, place, seq }: Verdict): readonly Reading[] {
  return readingsOn(story, limit.name).filter((it) => it.limit === limit && it.place === place && it.stage === "final" && it.seq > seq);
}

/** The positions of its own at which it was outside, and which no final since then is of; none where a final is of no position, or there is none. */
function unreadEnds(story: Story, verdict: Verdict): readonly string[] {
  if (verdict.limit.positions.length > 0 || verdict.workedOut) return [];
  const finals = finalsSince(story, verdict);
  if (finals.length === 0 || finals.some(isOfAllEnds)) return [];
  return endsOutside(story, verdict).filter((end) => !finals.some((it) => it.position === end));
}

/** The final reading that is in, since this one; else the done or planned work that makes it as it should be. */
export function verdictCure(context: JobContext, verdict: Verdict): Cure | undefined {
  const { judged, story } = context;
  const kinds = verdict.band === "worn" || verdict.band === "set" || verdict.band === "new" ? main : [verdict.band];
  const later = verdictsOn(judged, verdict.limit.name).filter(
    (it) =>
      (it.seq > verdict.seq || isWrittenLate(verdict, it) || mayBeOfBefore(story, verdict.reading, it.reading)) &&
      it.limit === verdict.limit &&
      it.place === verdict.place &&
      it.stage === "final" &&
      // Read directly, what is worked out is proved and not put right.
      (verdict.limit.expression === undefined || it.workedOut === verdict.workedOut) &&
      (kinds as readonly string[]).includes(it.band),
  );
  const last = later.at(-1);
  if (
    last !== undefined &&
    (last.outcome === "in" || isToItsMate(last)) &&
    !(verdict.band === "new" && stillWorn(last, verdict)) &&
    readThroughout(context, verdict) &&
    (verdict.stage === "found" || isReadAgainThere(story, verdict)) &&
    !isContradicted(context, verdict) &&
    !cutsThatAddNothing(context, verdict, last)
  )
    return { moment: { ...last.reading, where: last.where }, planned: false };
  const names =
    verdict.workedOut && verdict.limit.expression !== undefined
      ? [...namesIn(verdict.limit.expression)].flatMap((name) => ofLimit(context, name))
      : verdict.limit.of;
  let planned: Cure | undefined;
  for (const name of names) {
    for (const cell of piecesAt(story, name.text, verdict.place)) {
      const renewed = renewal(cell, verdict.seq) ?? renewedAbove(cell, verdict);
      if (renewed === undefined) continue;
      if (renewed.planned) planned ??= renewed;
      // That a new one is measured before it is trusted is for another rule to say.
      else if (!verdict.workedOut && verdict.stage === "found" && !isContradicted(context, verdict)) return renewed;
    }
  }
  if (planned !== undefined) return planned;
  for (const name of verdict.limit.setBy) {
    for (const cell of piecesAt(story, name.text, verdict.place)) {
      const moved = momentsOf(cell).find((it) => it.seq > verdict.seq && it.phase === "planned" && (it.verb === "tighten" || it.verb === "fit"));
      if (moved !== undefined) return { moment: moved as never, planned: true };
    }
  }
  return undefined;
}

const main = ["worn", "set", "new"] as const;

/** Worked on, past new on the side to which nothing wears, and accepted with its why: bored to a mate that has worn. Inside the limit of wear it is as it should be. */
function isToItsMate({ band, outcome, mended, stood, value, where }: Verdict): boolean {
  const [worn, unworn] = [bandOf(stood.worn), withoutWear(stood)];
  if (band !== "new" || outcome !== "out" || !mended || worn === undefined || unworn === undefined) return false;
  return inside(worn, value) && !inside(unworn, value) && pardonsIn(where.entry).some((it) => it.kind === "accept" && it.rule.text === "limit-not-new");
}

/** As found, and below a line that is dated after it. */
function isWrittenLate({ stage, day }: Verdict, later: { readonly day: string | undefined }): boolean {
  return stage === "found" && day !== undefined && later.day !== undefined && later.day > day;
}

/** As found, and written below the new one: no piece that is there has it. */
function renewedAbove(cell: PartCell | FastenerCell, { seq, day, reading }: Verdict): Cure | undefined {
  if (reading.stage !== "found" || day === undefined || reading.stood.set !== undefined) return undefined;
  if ([...cell.now.lots, ...cell.now.bench].some((lot) => lot.notes.some((note) => note.kind === "read" && note.reading.entry === reading.entry)))
    return undefined;
  const moment = (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast(
    (it) => it.phase === "done" && it.seq < seq && it.verb === "fit" && it.isNew && it.day !== undefined && it.day >= day,
  );
  return moment === undefined ? undefined : { moment, planned: false };
}

/**
 * What was read of a piece past its limit stays with it: no later reading takes that back. True where those pieces are still there, neither renewed nor worked
 * on, nor found good with a reason.
 */
export function isContradicted(context: JobContext, verdict: Verdict): boolean {
  const { limit, stood } = verdict;
  if (verdict.outcome !== "out" || verdict.band === "new" || verdict.band === "set") return false;
  if (stood.set !== undefined || limit.setBy.length > 0 || limit.expression !== undefined) return false;
  let still = false;
  for (const name of limit.of) {
    const thing = context.job.things.get(name.text);
    if ((thing?.kind !== "part" && thing?.kind !== "fastener") || thing.implied) return false;
    for (const cell of piecesAt(context.story, name.text, verdict.place)) {
      if (cell.unsure) return false;
      const { lots, bench } = cell.now;
      const carriers = [...lots, ...bench].filter((lot) => lot.notes.some((note) => note.kind === "read" && note.reading.entry === verdict.reading.entry));
      const bad = carriers.filter((lot) => {
        const { worn, conceded } = against(context, cell, lot, Number.POSITIVE_INFINITY);
        // Its own doer accepts nothing that is critical.
        const isOfThis = worn?.limit === limit || !isMendedSince(context, cell, lot, verdict);
        return (
          (worn !== undefined && isOfThis) || (conceded !== undefined && verdictCritical(context, verdict) && byTheDoer(context.job, context.story, conceded))
        );
      });
      // One of what a fit is between has been renewed or worked on.
      if (bad.length === 0) return false;
      still = true;
    }
  }
  return still;
}

/** Worked on since, here or outside: what it is past now is past another limit, read after that. */
function isMendedSince({ story }: JobContext, cell: PartCell | FastenerCell, lot: Lot, { seq, day }: Verdict): boolean {
  const isMending = (note: Note) => note.kind === "repair" && note.seq > seq && !mendsNothing(note.text);
  return lot.notes.some(isMending) || backFromWork(story, cell, day, mayMend);
}

/** Inside the limit of wear, against which it was judged, and still outside new; of a fit of which one half went in new, and no better for that. */
function stillWorn(last: Verdict, was: Verdict): boolean {
  const band = last.band === "worn" ? bandOf(last.stood.new) : undefined;
  if (band === undefined || band.unit.dimension !== last.against.unit.dimension || inside(band, last.value)) return false;
  return !(last.workedOut && last.renewed && compare(beyond(band, last.value), beyond(band, was.value)) < 0);
}

function ofLimit(context: JobContext, name: string): readonly Name[] {
  const limit = context.job.things.get(name);
  return limit?.kind === "limit" ? limit.of : [];
}

function renewal(cell: PartCell | FastenerCell, seq: number): Cure | undefined {
  const found = (cell.history as readonly { seq: number; phase: string; verb: string; isNew: boolean }[]).find(
    (it) => it.seq > seq && it.verb === "fit" && it.isNew,
  );
  return found === undefined ? undefined : { moment: found as never, planned: found.phase === "planned" };
}

/** A final that was read again says no more than that. One figure shows no difference: that is read again as a difference, or of a new one. */
export function readAgain(context: JobContext, verdict: Verdict): Verdict | undefined {
  if (verdict.stage === "trial" || !isReadAgainThere(context.story, verdict)) return undefined;
  if (verdict.stage === "found") return misread(context, verdict);
  const isMain = (main as readonly string[]).includes(verdict.band) || isRenewedSince(context, verdict);
  return verdictsOn(context.judged, verdict.limit.name).find(
    (it) =>
      it.seq > verdict.seq &&
      it.limit === verdict.limit &&
      it.place === verdict.place &&
      it.stage === "final" &&
      it.workedOut === verdict.workedOut &&
      (it.band === verdict.band || (isMain && (main as readonly string[]).includes(it.band))),
  );
}

function isRenewedSince({ story }: JobContext, { limit, place, seq }: Verdict): boolean {
  return limit.of.some((name) => piecesAt(story, name.text, place).some((cell) => renewal(cell, seq)?.planned === false));
}

/** Read again as found at the same spot, inside, and why the first was wrong stands with it. */
function misread({ judged, story }: JobContext, verdict: Verdict): Verdict | undefined {
  return verdictsOn(judged, verdict.limit.name).find(
    (it) =>
      it.seq > verdict.seq &&
      it.limit === verdict.limit &&
      it.place === verdict.place &&
      it.stage === "found" &&
      it.workedOut === verdict.workedOut &&
      // Past new and inside wear is as good: it has run.
      (it.outcome !== "out" || it.band === "new") &&
      (it.band === verdict.band || (main as readonly string[]).includes(it.band)) &&
      isReasoned(it.reading) &&
      story.readings.some((one) => one.entry === it.reading.entry && one.place === it.place && one.position === verdict.reading.position),
  );
}

/**
 * The concession that covers a limit at a place. Nobody concedes what was not read yet: it covers what was read by its day, and what is no further out than that. One that
 * is dated after the release was not there when somebody signed.
 */
export function concessionFor(context: JobContext, verdict: Verdict): Concession | undefined {
  const { release } = context.story;
  const own = context.story.concessions.filter((it) => it.thing.name === verdict.limit.name);
  if (own.length === 0) return undefined;
  const out = verdictsOn(context.judged, verdict.limit.name).filter((it) => it.outcome !== "in" && it.stage !== "trial" && it.place === verdict.place);
  const byThen = (it: Verdict, concession: Concession) =>
    it.day !== undefined && concession.day !== undefined ? it.day <= concession.day : it.seq <= concession.seq || it.day === concession.day;
  const excess = (it: Verdict) => beyond(it.against, it.value);
  return own.find(
    (it) =>
      (it.places.includes(verdict.place) || it.places.includes("") || it.entry.places.length === 0) &&
      !(it.day !== undefined && release?.day !== undefined && it.seq < release.seq && it.day > release.day) &&
      (byThen(verdict, it) || out.some((was) => byThen(was, it) && was.band === verdict.band && compare(excess(was), excess(verdict)) >= 0)),
  );
}

/** A concession of the part says nothing of what was read of it, and whoever wrote it takes it for answered. */
function concededElsewhere({ story, line }: JobContext, { limit, place }: Verdict): string {
  const by = story.concessions.find((it) => limit.of.some(({ text }) => text === it.thing.name) && coversPlace(it, place));
  if (by === undefined || isConceded(story, limit.name, place)) return "";
  return ` The concession at line ${line(by.where)} is of \`${by.thing.name}\`. Of this figure it is written \`concession ${limit.name}${place === "" ? "" : ` ${place}`}\`.`;
}

/** Read again since, and elsewhere. */
function unreadWords({ story }: JobContext, verdict: Verdict): string {
  const ends = unreadEnds(story, verdict);
  return ends.length === 0 ? "" : ` The final reading says nothing of ${listed(ends.map((it) => `\`${it}\``))}: read it there too.`;
}

/** The report of a verdict: cured it falls to a hint, conceded it falls to information with a name on it, or on a critical limit to a warning. */
export function verdictReport(context: JobContext, verdict: Verdict, severity: Severity, message: string): Report {
  const again = readAgain(context, verdict);
  if (again !== undefined) {
    return {
      where: verdict.where,
      severity: "hint",
      message: `${readsSo(verdict)}. It was read again at line ${context.line(again.where)}.`,
      related: [{ where: again.where, message: "Read again here." }],
    };
  }
  const report = unpardoned(context, verdict, curedReport(context, verdict.where, severity, message, [verdictCure(context, verdict)]));
  const concession = concessionFor(context, verdict);
  if (report.severity === "hint" || severity === "information") return report;
  if (concession === undefined) return { ...report, message: `${report.message}${unreadWords(context, verdict)}${concededElsewhere(context, verdict)}` };
  const by = concession.entry.by?.value ?? "somebody unnamed";
  if (verdictCritical(context, verdict)) {
    const related = [{ where: concession.where, message: "Accepted here." }];
    const at = `line ${context.line(concession.where)}`;
    if (byTheDoer(context.job, context.story, concession))
      return { ...report, message: `${message} Accepted at ${at} by its own doer; somebody else must.`, related };
    return {
      ...report,
      severity: "warning",
      open: false,
      message: `${readsSo(verdict)}, outside ${limitWords(verdict)}. Accepted by ${by} at ${at}.`,
      related,
    };
  }
  return {
    ...report,
    severity: "information",
    message: `${readsSo(verdict)}, outside ${limitWords(verdict)}. Accepted by ${by} at line ${context.line(concession.where)}.`,
    related: [{ where: concession.where, message: "Accepted here." }],
  };
}

/** What is critical is accepted by a concession of somebody else, with a name: an `accept` has none. */
function unpardoned(context: JobContext, verdict: Verdict, report: Report): Report {
  if (report.severity !== "error" || !verdictCritical(context, verdict)) return report;
  const accepts = report.where.entry.details.some((it) => it.kind === "accept");
  return { ...report, firm: true, ...(accepts ? { message: `${report.message} \`accept\` is not enough: it is critical.` } : {}) };
}
