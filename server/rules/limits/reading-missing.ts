// Disturbed, worked on or renewed, and no final reading or check.
import { placesOf } from "../../model/job.ts";
import type { Check, Limit } from "../../model/things.ts";
import { bandOf } from "../../model/values.ts";
import { isOfSize, isOfSurface, readWith } from "../../model/read-with.ts";
import { isCritical } from "../../model/relations.ts";
import type { Where } from "../../model/where.ts";
import { addMonths } from "../../quantities/days.ts";
import { sharesWords } from "../../story/cells.ts";
import { readingsOn, seenOn, verdictsOn } from "../../story/looked-up.ts";
import type { FastenerMoment, Moment, PartMoment, Seen, Story } from "../../story/story.ts";
import { isConceded } from "../../story/conceded.ts";
import { isFoundOutOfSet, isOutOfSet } from "../../story/out-of-set.ts";
import { openedOn } from "../../story/machines.ts";
import { isDifference } from "../../story/verdict.ts";
import { mendedUnseen } from "../mended.ts";
import { figuresIn, isShort, readOnce } from "../read-of-each.ts";
import { onOrAfter, workToRead } from "../work-to-read.ts";
import { isInside, triedOnly } from "../tried-only.ts";
import { type Move, lastDisturbed, lastOff, lastOpened, lastWorkedOn, mayBeOfBefore } from "../moved.ts";
import type { JobRule } from "../rule.ts";
import { called, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "reading-missing",
  group: "Limits, readings, checks",
  severity: "error at release; warning where what is outside may have been read before the work of its day",
  safety: false,
  title: "Something disturbed, worked on or renewed, and no final reading or check",
  why: "A setting that was undone is set again by measuring, not by feel, and a new or repaired part is measured before it is trusted. So is a setting that was found outside what it must be left at, or tried so where shims make it. What was inside when found and was only off and on again needs no second reading.",
  wrong: `fastener hub-nut "Hub nut"
limit end-float "Hub end float"
  set 0.05 .. 0.12 mm by hub-nut
  source "Maker's handbook, page 64"
step set-it "Float set"
  tighten hub-nut
#         ^^^^^^^ error reading-missing
  done
release by "A. Moor" 2026-05-10
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
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check(context) {
    const { job, story, judged, report } = context;
    if (story.release === undefined) return;
    const opened = openedOn(story);
    const mended = new Set(mendedUnseen(story).map(({ repair }) => repair.seq));
    for (const thing of job.things.values()) {
      if ((thing.kind !== "limit" && thing.kind !== "check") || thing.implied || story.doubted.has(thing.name)) continue;
      // A limit that is worked out is read where its operands are.
      if (thing.kind === "limit" && thing.expression !== undefined && thing.setBy.length === 0) continue;
      const missing = new Map<object, { readonly asks: Asking; readonly places: string[] }>();
      for (const place of placesHere(thing)) {
        const asks = asked(thing, place);
        if (asks === undefined && thing.critical) reshimmed(thing, place);
        const due =
          asks !== undefined && !finalSince(thing, place, asks.seq) ? asks : (backUnread(thing, place) ?? tried(thing, place) ?? halfRead(thing, place));
        // Mended after a crack or a bend and never looked at since: another rule says that once, at the same line.
        if (due === undefined || mended.has(due.seq)) continue;
        // One line that disturbed both sides is said once.
        const known = missing.get(due.line);
        if (known === undefined) missing.set(due.line, { asks: due, places: [place] });
        else known.places.push(place);
      }
      for (const { asks, places } of missing.values()) {
        const at = places.filter((place) => place !== "");
        const what =
          thing.kind === "limit"
            ? `${at.length > 1 ? `${midSentence(thing)} (${listed(at)})` : midSentence(thing, at[0])} was not measured${everywhere(thing)} since. Write \`measure ${thing.name} final\``
            : `\`${thing.name}\`${at.length === 0 ? "" : ` (${listed(at)})`} was not seen good since. Write \`seen ${thing.name} final good${at.length === 1 ? ` ${at[0]}` : ""}\``;
        report({
          where: asks.where,
          severity: asks.mayBeOfBefore ? "warning" : "error",
          message: asks.mayBeOfBefore
            ? `${asks.what}, below the last final of that day: taken for how it was before. If it is so now, write \`measure ${thing.name} final\`.`
            : `${asks.what}, and ${what} before it is released.`,
          reads: [{ name: thing.name, places }],
          ...(isCritical(job, thing) && !asks.mayBeOfBefore ? { firm: true as const } : {}),
        });
      }
      const bare = thing.kind === "limit" && missing.size === 0 ? readOnce(story, thing) : undefined;
      if (bare !== undefined)
        report({
          where: bare.it.where,
          severity: "error",
          message: `${called(thing, bare.it.place)} was read once, and one figure shows no ${bare.what}. Measure it at another spot too, with the same gauge: \`measure ${thing.name} final\`.`,
          reads: [{ name: thing.name, places: [bare.it.place] }],
          ...(isCritical(job, thing) ? { firm: true as const } : {}),
        });
    }

    /** Nobody writes that shims were changed; but what else they set has been measured again since it came apart. */
    function reshimmed(thing: Limit | Check, place: string): void {
      const shims = thing.setBy.filter((name) => job.things.get(name.text)?.kind === "shims").map((name) => name.text);
      const other = story.readings.findLast(
        (it) =>
          it.stage !== "found" &&
          it.limit.name !== thing.name &&
          (it.place === place || it.place === "" || place === "") &&
          it.limit.setBy.some((name) => shims.includes(name.text)),
      );
      if (other === undefined || finalSince(thing, place, 0)) return;
      const at = place === "" ? "" : ` ${place}`;
      report({
        where: other.where,
        severity: "error",
        reads: [{ name: thing.name, places: [place] }],
        message:
          thing.kind === "limit"
            ? `${called(other.limit, other.place)} was set again, and ${midSentence(thing, place)}, on the same shims, was not measured. Write \`measure ${thing.name} final\` before it is released.`
            : `${called(other.limit, other.place)} was set again, and \`${thing.name}\`${at === "" ? "" : ` (${place})`}, on the same shims, was not seen good. Write \`seen ${thing.name} final good${at}\` before it is released.`,
      });
    }

    /** A check is looked at wherever that is of which it is. */
    function placesHere(thing: Limit | Check): readonly string[] {
      if (thing.kind === "limit" || thing.placeKind !== undefined) return placesOf(job, thing);
      const all = new Set<string>();
      for (const name of [...thing.of, ...thing.setBy]) {
        const it = job.things.get(name.text);
        if (it !== undefined && "placeKind" in it) for (const place of placesOf(job, it)) if (place !== "") all.add(place);
      }
      return all.size === 0 ? [""] : [...all];
    }

    /** What asks for a final: a setting that was moved, or a thing that was renewed, repaired, or disturbed and never found inside. */
    function asked(thing: Limit | Check, place: string): Asking | undefined {
      const moved = lastDisturbed(story, thing.setBy, place);
      // A size that is read with something in is another with a new one in.
      const inIt = thing.kind === "limit" && thing.setBy.length === 0 ? readWith(job, thing).map((it) => ({ text: it.name })) : [];
      const worked = lastWorkedOn(story, [...thing.of, ...inIt], place);
      const off = lastDisturbed(story, thing.of, place);
      const unseen = off !== undefined && worked === undefined && !foundGood(thing, place) ? off : undefined;
      const opened = thing.kind === "limit" ? openedSince(thing, place) : undefined;
      const all = [
        ...[moved, worked, unseen, opened].map((it) => it && asking(it)),
        ...(thing.kind === "limit" ? [shimmed(thing, place), leftOut(thing, place)] : []),
      ];
      return all.reduce((a, b) => (a === undefined || (b !== undefined && b.seq > a.seq) ? b : a), undefined);
    }

    /**
     * How a thing runs with its key driven and its nut pulled up is new with each assembly: what was read before one of them was open is of the one before. A bore or a
     * clearance is measured by taking it apart, and goes together as it was.
     */
    function openedSince(limit: Limit, place: string): Move | undefined {
      if (limit.with.length === 0 || limit.setBy.length > 0 || limit.of.length === 0 || isOfSize(limit)) return undefined;
      const opened = lastOpened(story, limit.with, place);
      if (opened === undefined) return undefined;
      const here = (at: string) => at === place || at === "" || place === "";
      const { seq, day } = opened.moment;
      const isSince = (it: Moment) => it.seq > seq || (it.day !== undefined && day !== undefined && it.day > day);
      if (readingsOn(story, limit.name).some((it) => it.stage !== "trial" && here(it.place) && isSince(it))) return undefined;
      // Past its limit it stays flagged until it is read again.
      if (verdictsOn(judged, limit.name).some((it) => it.stage !== "trial" && it.outcome === "out" && it.band !== "new" && here(it.place))) return undefined;
      return opened;
    }

    /**
     * Nobody writes that a shim went in: a setting that shims make, and that was found or tried outside what it must be left at, asks for a final:
     * once what it is of was apart behind that reading, or at once where nobody says what it is of.
     */
    function shimmed(limit: Limit, place: string): Asking | undefined {
      if (limit.setBy.length === 0 || !limit.setBy.every((name) => job.things.get(name.text)?.kind === "shims")) return undefined;
      const here = (at: string) => at === place || at === "" || place === "";
      const read = readingsOn(story, limit.name).find((it) => it.stage !== "final" && here(it.place) && isOutOfSet(it));
      if (read === undefined) return undefined;
      // Past wear or spread is said by the rule that says so, until a final is inside.
      if (verdictsOn(judged, limit.name).some((it) => it.stage === "found" && it.outcome === "out" && it.band !== "new" && here(it.place))) return undefined;
      if (limit.of.length === 0) return { line: read.detail, where: read.where, seq: read.seq, what: "Read outside what it must be left at here" };
      const apart = lastDisturbed(story, limit.of, place);
      return apart === undefined || apart.moment.seq < read.seq ? undefined : asking(apart);
    }

    /** What only its setting says anything of, and that was found outside that: it is set, and nobody has measured it since. */
    function leftOut(limit: Limit, place: string): Asking | undefined {
      const here = (at: string) => at === place || at === "" || place === "";
      const last = readingsOn(story, limit.name).findLast((it) => it.stage !== "trial" && here(it.place));
      if (last === undefined || !isFoundOutOfSet(last) || isConceded(story, limit.name, place)) return undefined;
      return { line: last.detail, where: last.where, seq: last.seq, what: "Read outside what it must be left at here" };
    }

    /** What came back from work is measured before it is trusted, though it was inside when found. */
    function backUnread(thing: Limit | Check, place: string): Asking | undefined {
      for (const it of workToRead(story, judged, thing, place))
        if (!finalSince(thing, place, -1, it.since)) return { line: it.detail, where: it.where, seq: -1, what: "Back from work" };
      return undefined;
    }

    function tried(thing: Limit | Check, place: string): Asking | undefined {
      // What was found bad or past its limit stays flagged there until it is read again.
      if (verdictsOn(judged, thing.name).some((was) => was.stage !== "trial" && was.outcome === "out" && was.band !== "new" && was.place === place))
        return thing.kind === "limit" ? outOnTrial(thing, place) : undefined;
      if (thing.kind === "check" && seenOn(story, thing.name).some((was) => !was.good && was.stage !== "trial")) return undefined;
      const past = thing.kind === "limit" ? outOnTrial(thing, place) : undefined;
      if (past !== undefined) return past;
      const it = triedOnly(job, story, thing, place);
      return it === undefined ? undefined : { line: it.entry, where: it.where, seq: it.seq, what: "Only tried here" };
    }

    /** Put right, read inside at the end, and past its wear or out of its setting when it was tried or found so after that: news of the machine as it is. */
    function outOnTrial(limit: Limit, place: string): Asking | undefined {
      const here = readingsOn(story, limit.name).filter((it) => it.place === place || it.place === "" || place === "");
      const last = here.at(-1);
      const it = last?.stage === "found" ? last : triedOnly(job, story, limit, place);
      if (it === undefined || !("limit" in it)) return undefined;
      const final = here.findLast((was) => was.stage === "final" && was.seq < it.seq);
      if (final === undefined || (final.day !== undefined && it.day !== undefined && it.day < final.day)) return undefined;
      // Written below the last final, and found on a day before what sets it was moved: as it was.
      const moved = it.stage === "found" && final.day === undefined && it.day !== undefined ? lastDisturbed(story, limit.setBy, place)?.moment.day : undefined;
      if (moved !== undefined && it.day !== undefined && it.day < moved) return undefined;
      const verdict = verdictsOn(judged, limit.name).findLast((was) => was.stage === "final" && was.place === place && was.seq < it.seq);
      if (verdict === undefined || verdict.outcome === "out") return undefined;
      // What is found past its wear has a rule that says so.
      const [worn, set] = [it.stage === "found" ? undefined : bandOf(it.stood.worn), bandOf(it.stood.set)];
      const what =
        worn !== undefined && !isInside(it, worn)
          ? "Past its limit of wear"
          : set !== undefined && !isInside(it, set)
            ? "Outside what it must be set to"
            : undefined;
      if (what === undefined) return undefined;
      const asks = { line: it.entry, where: it.where, seq: it.seq };
      if (mayBeOfBefore(story, it, final)) return { ...asks, what: `${what} when it was found here`, mayBeOfBefore: true };
      return { ...asks, what: `${what} when it was ${it.stage === "found" ? "read" : "tried"} here, after the last final` };
    }

    /** What is critical, and was read at one of its positions alone, whether or not anything moved it: the other end may be worn, and a taper can't be told. */
    function halfRead(thing: Limit | Check, place: string): Asking | undefined {
      if (thing.kind === "check" || (thing.of.length === 0 && thing.setBy.length === 0) || !isCritical(job, thing)) return undefined;
      if (thing.positions.length === 0 && (thing.perPlace ?? 1) === 1) return undefined;
      // What is past its limit at one end is condemned whatever the other end is.
      if (verdictsOn(judged, thing.name).some((it) => it.stage !== "trial" && it.outcome === "out" && it.band !== "new" && it.place === place))
        return undefined;
      const read = readingsOn(story, thing.name).filter((it) => it.stage !== "trial" && it.place === place);
      const last = read.at(-1);
      if (last === undefined) return undefined;
      if (thing.positions.length === 0)
        return isShort(story, thing, place, read)
          ? { line: last.detail, where: last.where, seq: last.seq, what: `Read of ${figuresIn(read)} of ${thing.perPlace ?? 1}` }
          : undefined;
      if (read.some((it) => it.position === undefined) || thing.positions.every((end) => read.some((it) => it.position === end))) return undefined;
      return { line: last.detail, where: last.where, seq: last.seq, what: `Read at ${listed([...new Set(read.map((it) => it.position ?? ""))])} alone` };
    }

    function foundGood(thing: Limit | Check, place: string): boolean {
      const here = (at: string) => at === place || at === "" || place === "";
      // What shows only when it is in and works is tried again when it is back.
      if (thing.kind === "check") {
        // How a thing sits is new with each assembly: what was seen before it came off is of the one before. A crack or a pattern stays with the piece.
        const off = isOfSurface(thing) ? undefined : lastOff(story, thing.of, place);
        return (
          readWith(job, thing).length === 0 &&
          seenOn(story, thing.name).some(
            (it) =>
              it.good &&
              it.stage !== "trial" &&
              here(it.place) &&
              isOfThisJob(it) &&
              (off === undefined || it.seq > off.moment.seq) &&
              !(it.stage === "final" && isHalfApart(story, thing, it)),
          )
        );
      }
      // One that was found out is said by the rule that says so.
      // A trial neither condemns nor clears.
      const verdicts = verdictsOn(judged, thing.name).filter((it) => it.stage !== "trial" && here(it.place));
      // Of a spread that was found in doubt nothing is said but here.
      const read = readingsOn(story, thing.name).filter((it) => it.stage !== "trial" && here(it.place) && isOfThisJob(it));
      // One end of a pin says nothing of the other.
      if (!read.some((it) => it.position === undefined) && !thing.positions.every((end) => read.some((it) => it.position === end))) return false;
      if (isShort(story, thing, place, read)) return false;
      if (thing.expression === undefined && read.length === 0) return false;
      if (verdicts.length > 0) return verdicts.some((it) => it.stage === "final" || it.outcome !== "doubt" || !isDifference(it));
      return read.length > 0;
    }

    /** What was read or seen more than a month before the job was begun says how it was then: it may have run for all that while. */
    function isOfThisJob(it: Moment): boolean {
      if (it.day === undefined || opened === undefined || it.day >= opened) return true;
      const since = addMonths(it.day, 1);
      return since === undefined || since >= opened;
    }

    function everywhere(thing: Limit): string {
      const each = thing.perPlace ?? 1;
      if (each > 1) return each === 2 ? " on both" : ` on all ${each}`;
      return thing.positions.length > 1 ? ` at ${listed(thing.positions)}` : "";
    }

    function finalSince(thing: Limit | Check, place: string, seq: number, from?: string): boolean {
      const here = (at: string) => at === place || at === "" || place === "";
      const late = (it: Moment) => (it.seq > seq || readOpen(story, thing, place, seq, it)) && (from === undefined || onOrAfter(it.day, from));
      if (thing.kind === "check") return seenOn(story, thing.name).some((it) => it.stage === "final" && here(it.place) && late(it));
      // What is worked out is read where its operands are, the last of them behind the move.
      if (thing.expression !== undefined && verdictsOn(judged, thing.name).some((it) => it.workedOut && it.stage === "final" && here(it.place) && it.seq > seq))
        return true;
      // A reading before the last move of its setting is stale, and that is said there.
      const setting = thing.setBy.length > 0;
      const finals = readingsOn(story, thing.name).filter((it) => it.stage === "final" && here(it.place) && (setting || late(it)));
      // One end of a pin says nothing of the other; a reading that names no end is taken for all of them.
      return (
        finals.length > 0 &&
        !isShort(story, thing, place, finals) &&
        (finals.some((it) => it.position === undefined) || thing.positions.every((end) => finals.some((it) => it.position === end)))
      );
    }
  },
};

/** Final as it is written, and what it is of was on its way off for the first time: its nuts were undone, or what is before it was off, and it came off behind that. */
function isHalfApart(story: Story, { of }: Check, { seq, place }: Seen): boolean {
  const here = (at: string) => at === place || at === "" || place === "";
  const isOff = (name: string) =>
    story
      .cells(name)
      .some(
        (it) =>
          (it.kind === "fastener" || it.kind === "part") &&
          !it.unsure &&
          here(it.place) &&
          (it.history as readonly (PartMoment | FastenerMoment)[]).findLast((was) => was.seq < seq)?.after.on === 0,
      );
  return of.some(({ text }) =>
    story.cells(text).some((cell) => {
      if (cell.kind !== "part" || cell.unsure || !here(cell.place)) return false;
      // What was off or worked on before is looked at as it was made: a shell that is blued, and comes out once more to be cleaned.
      if (cell.history.some((it) => it.seq < seq && (it.verb === "repair" || it.after.on < cell.total))) return false;
      if (!cell.history.some((it) => it.seq > seq && it.phase === "done" && it.verb === "remove" && it.after.on < it.before.on)) return false;
      return [...cell.thing.heldBy, ...cell.thing.behind].some((name) => isOff(name.text));
    }),
  );
}

/** Read while the place was empty, it is of what was fitted there next, at `seq`: what was measured before it went in need not be measured again. */
function readOpen(story: Story, thing: Limit | Check, place: string, seq: number, it: Moment): boolean {
  if (it.seq > seq || thing.setBy.length > 0) return false;
  const inIt = thing.kind === "limit" ? readWith(story.job, thing) : [];
  return thing.of.some(
    (name) =>
      // What is read with it in is not read before it goes in.
      !inIt.some((other) => other.name === name.text) &&
      story.cells(name.text).some((cell) => {
        if ((cell.kind !== "part" && cell.kind !== "fastener") || (place !== "" && cell.place !== "" && !sharesWords(cell.place, place))) return false;
        const history = cell.history as readonly (PartMoment | FastenerMoment)[];
        const fit = history.find((was) => was.seq === seq && was.verb === "fit");
        const last = fit === undefined ? undefined : history.findLast((was) => was.seq < it.seq);
        if (last === undefined || history.some((was) => was.seq > it.seq && was.seq < seq && was.verb === "repair")) return false;
        return last.after.on === 0 || isNextOfTrial(story, thing, place, history, fit as PartMoment | FastenerMoment, it);
      }),
  );
}

/**
 * Measured on the bench while the one that is tried is still on: that one has a trial reading of its own, the step that comes next takes it off and puts a
 * new one in, on the day of the reading or without one. It is of the new one, which is under its nut afterwards and out of reach.
 */
function isNextOfTrial(
  story: Story,
  thing: Limit | Check,
  place: string,
  history: readonly (PartMoment | FastenerMoment)[],
  fit: PartMoment | FastenerMoment,
  it: Moment,
): boolean {
  if (thing.kind !== "limit" || thing.of.length !== 1 || !fit.isNew || fit.visit === undefined) return false;
  if (it.day !== undefined && fit.day !== undefined && it.day !== fit.day) return false;
  const before = history.findLast((was) => was.seq < it.seq);
  if (before?.verb !== "fit" || !before.isNew) return false;
  const between = history.filter((was) => was.seq > it.seq && was.seq < fit.seq);
  if (between.length === 0 || !between.every((was) => was.visit === fit.visit) || !between.some((was) => was.verb === "remove")) return false;
  return readingsOn(story, thing.name).some((was) => was.stage === "trial" && was.seq < it.seq && (was.place === place || was.place === "" || place === ""));
}

/** What asks for a final, where, and since when. */
interface Asking {
  /** One object a line. */
  readonly line: object;
  readonly where: Where;
  readonly seq: number;
  readonly what: string;
  readonly mayBeOfBefore?: boolean;
}

function asking({ moment }: Move): Asking {
  const what = moment.verb === "repair" ? "Repaired here" : moment.isNew ? "Renewed here" : "Disturbed here";
  return { line: moment.action ?? moment, where: moment.where, seq: moment.seq, what };
}
