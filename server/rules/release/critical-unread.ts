// A critical limit or check that belongs to nothing: no move asks for it, so the release does.
import type { Name } from "../../../grammar/tree.ts";
import { isSamePlace } from "../../model/same-place.ts";
import { placesOf } from "../../model/job.ts";
import { isTriedTogether, isWorking, readBesideShims, readWith } from "../../model/read-with.ts";
import { referencesOf } from "../../model/references.ts";
import type { Check, Limit } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { readingsOn, seenOn } from "../../story/looked-up.ts";
import { namesIn } from "../../story/worked-out.ts";
import type { FastenerCell, FastenerMoment, FluidCell, FluidMoment, Moment, PartCell, PartMoment, Reading, Seen } from "../../story/story.ts";
import { openings, readAtOnePlace, wasOpened } from "../at-one-place.ts";
import { lastDisturbed, isNear } from "../moved.ts";
import type { JobRule } from "../rule.ts";
import { asked } from "../what-asks.ts";
import { agreeing, called, calledAt, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "critical-unread",
  group: "Release",
  severity:
    "error at release; warning where one place of several was looked at (which holds a release where the other was open for the same), or a data file asks it of what was opened",
  safety: true,
  title:
    "A critical limit or check without `of`, declared or named in this sheet, and no final reading or look, or none after the last critical work; a trial of what others were put together for",
  why: "What is declared critical here is declared to be looked at. Where it says nothing of what it is of, no part that moves asks for it, so the release asks; and a check that is of nothing is of the whole, so it is seen when all that is critical is together. A data file of the whole machine asks a small job for nothing.",
  wrong: `check selects "No two gears at once"
#     ^^^^^^^ error critical-unread
  critical "two gears at once"
part fork "Fork"
step a "Fork off and on"
  remove fork
  fit fork
  done
release by "A. Moor" 2026-05-10
`,
  right: `check selects "No two gears at once"
  critical "two gears at once"
part fork "Fork"
step a "Fork off and on"
  remove fork
  fit fork
  done
seen selects final good
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check({ job, story, judged, report, line }) {
    if (story.release === undefined) return;
    const lastWork = story.visits.reduce((last, it) => (it.phase === "done" ? it : last), undefined as (typeof story.visits)[number] | undefined);
    const worked = lastWork === undefined ? -1 : lastSeq();
    const critical = new Map<string, readonly Moment[]>();
    let named: ReadonlySet<string> | undefined;
    /** What may be lost, by the critical things that were opened here. */
    let openedFor: ReadonlySet<string | undefined> | undefined;
    let builtUp: Map<string, readonly [Moment, Moment]> | undefined;
    for (const thing of job.things.values()) {
      if ((thing.kind !== "limit" && thing.kind !== "check") || thing.implied || !thing.critical) continue;
      if (thing.kind === "limit" && isFigureless(thing)) {
        named ??= namedHere();
        if (named.has(thing.name))
          report({
            where: where(thing.file, thing.entry, 0, thing.at),
            severity: "error",
            message: `${called(thing)} ${agreeing(thing, "is")} critical and has no figure to be judged by. Find what it may be and write \`worn\`, \`new\` or \`set\`, with its source.`,
          });
        continue;
      }
      if (story.doubted.has(thing.name)) continue;
      if (isBound(thing)) {
        const alone = readAtOnePlace(story, thing);
        if (alone !== undefined) report(alone);
        else if (thing.kind === "check") untried(thing);
        continue;
      }
      named ??= namedHere();
      if (thing.file !== job.path && !named.has(thing.name) && !isWithOpened(thing)) {
        openedAndUnread(thing);
        continue;
      }
      if (thing.kind === "limit" && thing.expression !== undefined) {
        workedOut(thing);
        continue;
      }
      const missing = touchedOf(thing).filter((place) => !read(thing, place, worked));
      if (missing.length === 0) continue;
      const early = missing.map((place) => seenEarly(thing, place)).find((it) => it !== undefined);
      const at = missing.filter((place) => place !== "");
      const write = thing.kind === "limit" ? `measure ${thing.name} final` : `seen ${thing.name} final good${at.length === 1 ? ` ${at[0]}` : ""}`;
      if (early !== undefined) {
        report({
          where: where(thing.file, thing.entry, 0, thing.at),
          severity: "error",
          message: `${called(thing)} ${agreeing(thing, "was")} ${thing.kind === "check" ? "seen" : "measured"} before the last critical work (line ${line(early.where)}). ${thing.kind === "check" ? "Look" : "Measure it"} again and write \`${write}\` after it${thing.with.length + thing.setBy.length > 0 ? "" : ", or say with `of` what it is of"}.`,
          related: [{ where: early.where, message: "Done after it was seen." }],
        });
        continue;
      }
      report({
        where: where(thing.file, thing.entry, 0, thing.at),
        severity: "error",
        message: `${thing.kind === "limit" ? calledAt(thing, missing) : `${called(thing)}${at.length === 0 ? "" : ` (${listed(at)})`}`} is critical and was not ${thing.kind === "limit" ? "measured" : "seen good"} at the end. Write \`${write}\`${thing.kind === "limit" && thing.with.length === 0 && readingsOn(story, thing.name).some((it) => it.stage === "found") ? ", or say with `of` what it was found so of" : ""}.`,
        reads: [{ name: thing.name, places: missing }],
      });
    }

    /** The places of what it is seen or read with, as far as somebody worked there; all, where nothing of that was touched or it is with nothing. */
    function touchedOf(thing: Limit | Check): readonly string[] {
      const places = placesOf(job, thing);
      if (places.length < 2 || thing.with.length === 0) return places;
      const touched = places.filter((place) =>
        thing.with.some(({ text }) =>
          story
            .cells(text)
            .some(
              (cell) =>
                (cell.kind === "part" || cell.kind === "fastener") &&
                cell.place === place &&
                (cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.phase === "done" && it.verb !== "found" && it.verb !== "mark"),
            ),
        ),
      );
      return touched.length === 0 ? places : touched;
    }

    /** It says itself what it is seen or read with, and that was opened here. */
    function isWithOpened({ with: names }: Limit | Check): boolean {
      return names.some(({ text }) => story.cells(text).some((cell) => (cell.kind === "part" || cell.kind === "fastener") && wasOpened(cell)));
    }

    /** In a data file, of nothing that is named, and never read: asked for where something that is critical for the very same was opened. */
    function openedAndUnread(thing: Limit | Check): void {
      const { release } = story;
      const what = thing.criticalWhat;
      if (release === undefined || what === undefined || (thing.kind === "limit" && thing.expression !== undefined)) return;
      const all: readonly Moment[] = thing.kind === "check" ? seenOn(story, thing.name) : readingsOn(story, thing.name);
      if (all.length > 0) return;
      openedFor ??= new Set([...story.parts, ...story.fasteners].filter(wasOpened).map(({ thing: it }) => (it.critical ? it.criticalWhat : undefined)));
      if (!openedFor.has(what)) return;
      // What steers and stops is tried by whoever had it apart, whichever part the file forgot to say.
      const holds =
        thing.kind === "check" && controls.test(what) && isTriedTogether(thing) && placesOf(job, thing).some((place) => builtUpFor(what, place).length > 0);
      report({
        where: release.where,
        severity: "warning",
        ...(holds ? { open: true, reads: [{ name: thing.name, places: placesOf(job, thing) }] } : {}),
        message: `${called(thing)} ${agreeing(thing, "is")} critical for “${what}”, which was opened here, and nobody read it. Write \`${thing.kind === "limit" ? "measure" : "seen"} ${thing.name} final${thing.kind === "limit" ? "" : " good"}\`.`,
        related: [{ where: where(thing.file, thing.entry, 0, thing.at), message: "Declared here." }],
      });
    }

    /**
     * Tried by it is what may be lost, of a part that nobody moved; others that are critical for the very same were put together here, or what sets a figure of that part was
     * moved: lock to lock, with new chains; a switch that stops, with its travel set.
     */
    function untried(thing: Check): void {
      const what = thing.criticalWhat;
      if (what === undefined || thing.file !== job.path || !isTriedTogether(thing) || [...thing.of, ...thing.setBy].some(({ text }) => isMoved(text))) return;
      const workAt = (place: string) => [...builtUpFor(what, place), ...setAnew(thing, what, place)];
      const missing = placesOf(job, thing).filter((place) => {
        const work = workAt(place);
        return (
          work.length > 0 &&
          !seenOn(story, thing.name).some((it) => it.stage !== "trial" && isSamePlace(it.place, place) && work.every((done) => isAfter(it, done)))
        );
      });
      const [last] = missing.flatMap(workAt);
      if (last === undefined) return;
      const at = missing.filter((place) => place !== "");
      report({
        where: where(thing.file, thing.entry, 0, thing.at),
        severity: "error",
        message: `${called(thing)}${at.length === 0 ? "" : ` (${listed(at)})`} is critical for “${what}”, which was put together again here (line ${line(last.where)}), and was not tried since. Write \`seen ${thing.name} final good${at.length === 1 ? ` ${at[0]}` : ""}\`.`,
        reads: [{ name: thing.name, places: missing }],
        related: [{ where: last.where, message: "Put together here." }],
      });
    }

    /** The last move of what sets a figure of the same part, that is critical for the same. */
    function setAnew({ of }: Check, what: string, place: string): readonly Moment[] {
      const setters = [...job.things.values()].flatMap((it) =>
        it.kind === "limit" && it.criticalWhat === what && it.of.some(({ text }) => of.some((name) => name.text === text)) ? it.setBy : [],
      );
      const move = setters.length === 0 ? undefined : lastDisturbed(story, setters, place);
      return move === undefined ? none : [move.moment];
    }

    function isMoved(name: string): boolean {
      return story.cells(name).some((cell) => (cell.kind === "part" || cell.kind === "fastener") && wasOpened(cell));
    }

    /** The last work by which what is critical for that was put together at a place, by its day and as it is written. */
    function builtUpFor(what: string, place: string): readonly Moment[] {
      if (builtUp === undefined) {
        builtUp = new Map();
        for (const cell of story.parts) {
          const its = cell.thing.criticalWhat;
          if (its === undefined) continue;
          for (const it of cell.history.filter(isBuiltUp))
            for (const key of [`${cell.place} ${its}`, ...(cell.place === "" ? [] : [` ${its}`])]) {
              const [dated, written] = builtUp.get(key) ?? [it, it];
              builtUp.set(key, [(it.day ?? "") >= (dated.day ?? "") ? it : dated, it.seq > written.seq ? it : written]);
            }
        }
      }
      return builtUp.get(`${place} ${what}`) ?? none;
    }

    /** Nothing says what it may be, and no other limit is worked out from it. */
    function isFigureless(thing: Limit): boolean {
      if ((thing.new ?? thing.worn ?? thing.set ?? thing.spread ?? thing.ovality ?? thing.taper) !== undefined || story.doubted.has(thing.name)) return false;
      if (["new", "worn", "set", "spread", "ovality", "taper", ""].some((word) => thing.unread.has(word))) return false;
      return ![...job.things.values()].some((other) => other.kind === "limit" && other.expression !== undefined && namesIn(other.expression).has(thing.name));
    }

    /** Of something that is declared, or set by it: then what moves asks for it. What is worked out is read where its operands are. */
    function isBound(thing: Limit | Check): boolean {
      if ((thing.setBy.length > 0 && !isByShimsAlone(thing)) || thing.of.some((name) => job.things.get(name.text)?.implied === false)) return true;
      if (thing.kind === "check" || thing.expression === undefined) return false;
      return [...namesIn(thing.expression)].some((name) => {
        const operand = job.things.get(name);
        return operand?.kind === "limit" && operand.name !== thing.name && operand.expression === undefined && isBound(operand);
      });
    }

    /** `cover-shims`, where there is a `cover` or a `unit-cover`. */
    function isCalledAfterAPart(shims: string): boolean {
      const after = shims.replace(/-[^-]+$/, "");
      return story.parts.some(({ thing: { name } }) => name === after || name.endsWith(`-${after}`));
    }

    /** Nobody says of shims that they moved: they ask for nothing, but by the part that they are called after, by what it is read with, or where something else that they set was read again. */
    function isByShimsAlone(thing: Limit | Check): boolean {
      const isOf = ({ text }: Name) => job.things.get(text)?.kind === "shims" && !isMoved(text) && !isCalledAfterAPart(text);
      const [place, ...others] = placesOf(job, thing);
      if (place === undefined || others.length > 0 || !thing.setBy.every(isOf) || readWith(job, thing).length > 0) return false;
      return (
        asked({ job, story, judged }, thing, place) === undefined &&
        !story.readings.some(
          ({ stage, limit }) =>
            stage !== "found" && limit.name !== thing.name && limit.setBy.some(({ text }) => thing.setBy.some((name) => name.text === text)),
        )
      );
    }

    /** Of operands that belong to nothing: each of them is read. */
    function workedOut(thing: Limit): void {
      const operands = [...namesIn(thing.expression as NonNullable<Limit["expression"]>)].map((name) => job.things.get(name));
      const missing = operands.filter(
        (it): it is Limit =>
          it?.kind === "limit" && it.expression === undefined && !story.doubted.has(it.name) && !placesOf(job, it).every((place) => read(it, place, worked)),
      );
      if (missing.length === 0 || placesOf(job, thing).every((place) => read(thing, place, worked))) return;
      report({
        where: where(thing.file, thing.entry, 0, thing.at),
        severity: "error",
        message: `${called(thing)} ${agreeing(thing, "is")} critical, and what it is worked out from was not measured at the end: ${listed(missing.map((it) => midSentence(it)))}. Write \`measure ${missing[0]?.name} final\`.`,
        reads: missing.map((it) => ({ name: it.name, places: placesOf(job, it) })),
      });
    }

    /** The last moment at which something was moved. */
    function lastSeq(): number {
      let last = -1;
      for (const cell of [...story.parts, ...story.fasteners])
        for (const it of cell.history as readonly { readonly seq: number; readonly phase: string; readonly verb: string }[])
          if (it.phase === "done" && it.verb !== "found" && it.verb !== "mark" && it.seq > last) last = it.seq;
      return last;
    }

    function namedHere(): ReadonlySet<string> {
      const names = new Set<string>();
      for (const entry of job.own.sheet.entries) for (const { name } of referencesOf(entry).things) names.add(name.text);
      return names;
    }

    /** The last critical work, where a final look stands before it. */
    function seenEarly(thing: Limit | Check, place: string): Moment | undefined {
      const work = lookedForAfter(thing, place);
      const all: readonly (Seen | Reading)[] = thing.kind === "check" ? seenOn(story, thing.name) : readingsOn(story, thing.name);
      const finals = all.filter((it) => it.stage === "final" && isSamePlace(it.place, place));
      return finals.length > 0 && !finals.some((it) => work.every((done) => isAfter(it, done))) ? work.at(-1) : undefined;
    }

    /**
     * A final reading, at each of its positions, that is no older than the critical work (it may be of a piece on the bench); a final look, when all critical
     * work was done; or found good, and nothing moved since.
     */
    function read(thing: Limit | Check, place: string, since: number): boolean {
      const here = (it: { readonly place: string; readonly stage: string; readonly seq: number; readonly day: string | undefined }) =>
        isSamePlace(it.place, place) &&
        ((it.stage === "final" &&
          lookedForAfter(thing, place).every((work) => isAfter(it, work)) &&
          !(thing.kind === "limit" && isDatedBack(it, place, thing))) ||
          (it.stage === "found" && it.seq > since));
      // Seen bad, or read outside, is said by the rule that says so.
      if (thing.kind === "check") return seenOn(story, thing.name).some(here);
      const readings = readingsOn(story, thing.name).filter(here);
      return (
        readings.length > 0 && (readings.some((it) => it.position === undefined) || thing.positions.every((end) => readings.some((it) => it.position === end)))
      );
    }

    /** What a final reading or look comes after. What shims make is read of what stands together: when what is critical for the same was in. */
    function lookedForAfter(thing: Limit | Check, place: string): readonly Moment[] {
      if (thing.setBy.length > 0) return fittedFor(thing, place);
      return thing.kind === "limit" && !isWorking(thing) ? firstCritical(place, thing) : lastCritical(place, thing);
    }

    /** The last part that went in of those that it is read with, or that stand beside its shims; else the first of what is critical for the same, for the rest may be of anything. */
    function fittedFor(thing: Limit | Check, place: string): readonly Moment[] {
      const opened = story.parts.filter((cell) => isNear(story, cell, place) && wasOpened(cell));
      const { parts, areNamed } = readBesideShims(
        job,
        thing,
        opened.map((cell) => cell.thing),
      );
      const fits = opened
        .filter((cell) => parts.includes(cell.thing))
        .flatMap((cell) => cell.history.filter((it) => it.phase === "done" && it.verb === "fit"))
        .sort((a, b) => a.seq - b.seq);
      const one = areNamed ? fits.at(-1) : fits[0];
      return one === undefined ? none : [one];
    }

    /** Written below critical work, and dated before it: what was built up since is not what was read. */
    function isDatedBack(it: { readonly seq: number; readonly day: string | undefined }, place: string, thing: Limit | Check): boolean {
      return lastCritical(place, thing).some((work) => work.seq < it.seq && it.day !== undefined && work.day !== undefined && it.day < work.day);
    }

    /** What is seen or read with something says itself what it hangs on; else that is all that is critical. */
    function hangsOn(thing: Limit | Check, cell: PartCell | FastenerCell): boolean {
      return thing.with.length > 0 ? thing.with.some(({ text }) => text === cell.thing.name) : cell.thing.critical;
    }

    /** The first line that opened something that it hangs on at a place. */
    function firstCritical(place: string, thing: Limit | Check): readonly Moment[] {
      let first: Moment | undefined;
      for (const cell of [...story.parts, ...story.fasteners]) {
        if (!hangsOn(thing, cell) || !isNear(story, cell, place)) continue;
        for (const it of cell.history as readonly (PartMoment | FastenerMoment)[])
          if (it.phase === "done" && openings.has(it.verb) && (first === undefined || it.seq < first.seq)) first = it;
      }
      return first === undefined ? none : [first];
    }

    /** Critical work at a place, the last by its day and the last as written behind it: they may be two. Of what it is seen or read with, where it says so. */
    function lastCritical(place: string, thing: Limit | Check): readonly Moment[] {
      // Without `with` it is the same for all.
      const key = `${thing.with.length > 0 ? thing.name : ""} ${place}`;
      let list = critical.get(key);
      if (list === undefined) {
        const all = [...story.parts, ...story.fasteners, ...story.fluids]
          .filter((cell) => isNear(story, cell, place))
          .flatMap((cell): readonly Moment[] => {
            if (cell.kind === "fluid") return holdsCritical(cell) && (thing.with.length === 0 || isFluidOf(thing, cell)) ? cell.history.filter(isFilled) : [];
            return hangsOn(thing, cell) ? (cell.history as readonly (PartMoment | FastenerMoment)[]).filter(isBuiltUp) : [];
          });
        const written = all.reduce((last, it) => (last === undefined || it.seq > last.seq ? it : last), undefined as Moment | undefined);
        const dated = all.reduce((last, it) => (last === undefined || (it.day ?? "") >= (last.day ?? "") ? it : last), undefined as Moment | undefined);
        list = [dated, written].filter((it) => it !== undefined);
        critical.set(key, list);
      }
      return list;
    }

    /** In what it is seen or read with, in what is critical for the very same, or in nothing that is named: an oil bath of the shaft is nothing to a cotter of the motion. */
    function isFluidOf({ with: names, criticalWhat }: Limit | Check, { thing: fluid }: FluidCell): boolean {
      if (fluid.in.length === 0 || names.some(({ text }) => text === fluid.name)) return true;
      return fluid.in.some((name) => {
        const part = job.things.get(name.text);
        return names.some(({ text }) => text === name.text) || (part?.kind === "part" && part.criticalWhat === criticalWhat);
      });
    }

    /** In something critical; or in nothing that is named, and bled: brakes, a clutch. */
    function holdsCritical({ thing }: FluidCell): boolean {
      if (thing.in.length === 0) return thing.needsBleed;
      return thing.in.some((name) => {
        const part = job.things.get(name.text);
        return part?.kind === "part" && part.critical;
      });
    }
  },
};

const none: readonly never[] = [];

const controls = /\b(steer|brak)\w*/iu;

/** A nut that is tried again for its tightness, and was tight, is no work. */
function isBuiltUp(it: PartMoment | FastenerMoment): boolean {
  if (it.phase !== "done") return false;
  if (it.verb === "tighten") return !it.before.tight;
  return it.verb === "lock" ? !it.before.locked : it.verb === "fit";
}

function isFilled(it: FluidMoment): boolean {
  return it.phase === "done" && (it.verb === "bleed" || (it.verb === "fill" && !it.before.full));
}

/** By their days, where these differ; else as they are written. */
function isAfter(it: { readonly seq: number; readonly day: string | undefined }, work: Moment): boolean {
  return it.day !== undefined && work.day !== undefined && it.day !== work.day ? it.day > work.day : it.seq > work.seq;
}
