// What asks for a final reading or look of a limit or a check at a place: a move, work, a trial, a reading of half of it.
import { momentsOf, piecesAt } from "../story/cells.ts";
import { isSamePlace } from "../model/same-place.ts";
import { allWords } from "../model/titles.ts";
import { asItStood } from "../model/as-it-stood.ts";
import { isCritical, relationsOf, setsBearing } from "../model/relations.ts";
import { headOf, isBetweenPieces, isOfRunOut, isOfSize, isOfSurface, isTriedTogether, readWith, wordsOf } from "../model/read-with.ts";
import type { Check, Limit, Part } from "../model/things.ts";
import { bandOf } from "../model/values.ts";
import { inside } from "../quantities/range.ts";
import type { Where } from "../model/where.ts";
import { isConceded } from "../story/conceded.ts";
import { readingsOn, seenOn, unjudgedOn, verdictsOn } from "../story/looked-up.ts";
import { isFoundOutOfSet, isOutOfSet } from "../story/out-of-set.ts";
import type { FastenerMoment, Moment, PartCell, PartMoment, Reading, Seen, Story } from "../story/story.ts";
import type { Judged } from "../story/verdict.ts";
import { fellowsRenewed } from "./fellows-renewed.ts";
import { type Move, isOnlyTried, lastDisturbed, lastOff, lastOpened, lastTurned, lastWorkedOn, mayBeOfBefore } from "./moved.ts";
import { wasReadWithOldOnes } from "./pulls.ts";
import { figuresIn, isShort } from "./read-of-each.ts";
import { takenUpSince } from "./taken-up.ts";
import { isInside, latestOfEach, triedOnly } from "./tried-only.ts";
import { workToRead } from "./work-to-read.ts";
import { isOnlyElsewhere } from "./worked-elsewhere.ts";
import { agreeing, listed, midSentence } from "./wording.ts";
import { type Facts, finalSince, foundGood } from "./final-since.ts";

/** What asks for a final, where, and since when. */
export interface Asking {
  /** One object a line. */
  readonly line: object;
  readonly where: Where;
  readonly seq: number;
  readonly what: string;
  readonly mayBeOfBefore?: boolean;
  /** Read as found, below the last final, and without a day of its own: with one it could be told of before. */
  readonly isUndated?: boolean;
}

/** What asks for a final that is not there; undefined where nothing does. `asks`: as `asked` has it. */
export function dueOf(facts: Facts, thing: Limit | Check, place: string, asks: Asking | undefined): Asking | undefined {
  return asks !== undefined && !finalSince(facts, thing, place, asks.seq)
    ? asks
    : (backUnread(facts, thing, place) ?? tried(facts, thing, place) ?? halfRead(facts, thing, place));
}

/** What asks for a final: a setting that was moved, or a thing that was renewed, repaired, or disturbed and never found inside. */
export function asked(facts: Facts, thing: Limit | Check, place: string): Asking | undefined {
  const { job, story } = facts;
  const moved = lastDisturbed(story, thing.setBy, place);
  // A size that is read with something in is another with a new one in; new bolts pull it as the old ones did.
  const inIt =
    thing.kind === "limit" && thing.setBy.length === 0
      ? readWith(job, thing)
          .filter((it) => it.kind !== "fastener" || !wasReadWithOldOnes(story, thing, it.name, place))
          .map((it) => ({ text: it.name }))
      : [];
  // A cap that was filed makes another bore when it is pulled down, and a bar that was planed another gap to what runs on it.
  const { holds } = relationsOf(job);
  const isNamed = (it: Part) => thing.setBy.length === 0 && wordsOf(allWords(thing)).includes(headOf(it) ?? "");
  const pulledDown =
    thing.kind === "limit"
      ? thing.with
          .flatMap(({ text }) => holds.get(text) ?? [])
          .filter((it) => isOfSize(thing) || isNamed(it))
          .map((it) => ({ text: it.name }))
      : [];
  const of = [...thing.of, ...inIt, ...pulledDown];
  const last = lastWorkedOn(story, of, place);
  const worked = last !== undefined && isOnlyElsewhere(story, of, thing) && foundGood(facts, thing, place) ? undefined : last;
  const off = lastDisturbed(story, thing.of, place);
  const unseen = off !== undefined && worked === undefined && !foundGood(facts, thing, place) ? off : undefined;
  const opened = openedSince(facts, thing, place);
  const fellow = thing.kind === "limit" ? fellowsRenewed(story, thing, place) : undefined;
  const all = [
    ...[moved, worked, unseen, opened, offSince(story, thing, place), feltSince(facts, thing, place), takenUpSince(story, thing, place)].map(
      (it) => it && asking(it),
    ),
    ...(thing.kind === "limit" ? [fellow && asking(fellow), shimmed(facts, thing, place), leftOut(facts, thing, place)] : []),
  ];
  return all.reduce((a, b) => (a === undefined || (b !== undefined && b.seq > a.seq) ? b : a), undefined);
}

/**
 * How a thing runs with its key driven and its nut pulled up is new with each assembly: what was read before one of them was open is of the one before. A bore or a
 * clearance is measured by taking it apart, and goes together as it was.
 */
function openedSince({ story, judged }: Facts, limit: Limit | Check, place: string): Move | undefined {
  // What is set is read with these in, and a clearance that shims make is another with new plates in.
  if (limit.with.length === 0 || (limit.setBy.length === 0 && (limit.of.length === 0 || (limit.kind === "limit" && isOfSize(limit))))) return undefined;
  const opened = lastOpened(story, limit.with, place);
  if (opened === undefined) return undefined;
  const here = (at: string) => isSamePlace(at, place);
  const { seq, day } = opened.moment;
  const isSince = (it: Moment) => it.seq > seq || (it.day !== undefined && day !== undefined && it.day > day);
  if (limit.kind === "check") return isLookedAtBefore(story, limit, place, opened) ? opened : undefined;
  if (readingsOn(story, limit.name).some((it) => it.stage !== "trial" && here(it.place) && isSince(it))) return undefined;
  // Past its limit it stays flagged until it is read again.
  if (standsOut(judged, limit, here)) return undefined;
  return opened;
}

/**
 * What was tried after its work and came off once more behind that is together anew: “stays in gear, shoved both ways”. A crack or a pattern stays with the piece.
 */
function offSince(story: Story, thing: Limit | Check, place: string): Move | undefined {
  if (thing.kind === "limit") return offSinceRead(story, thing, place);
  const off = lastOff(story, thing.of, place);
  return off !== undefined && isLookedAtBefore(story, thing, place, off) ? off : undefined;
}

/**
 * The same of how critical pieces run or stand to one another: read with them on, and one of them came off once more behind that, or the nut that holds it was turned
 * on: the run-out of a built-up crank.
 */
function offSinceRead(story: Story, limit: Limit, place: string): Move | undefined {
  if (limit.setBy.length > 0 || limit.with.length > 0 || limit.expression !== undefined || !isCritical(story.job, limit) || !isBetweenPieces(limit))
    return undefined;
  const final = readingsOn(story, limit.name).findLast((it) => it.stage !== "trial" && isSamePlace(it.place, place));
  if (final?.stage !== "final") return undefined;
  const isSince = ({ moment: { seq, day } }: Move) => seq > final.seq && !(final.day !== undefined && day !== undefined && final.day > day);
  // Read before anything was touched, it is how it was found, and says so of what was only off and on again.
  if (!wasApart(story, limit, place, final)) return undefined;
  const wasOn = ({ cell }: Move) => (cell.history as readonly (FastenerMoment | PartMoment)[]).findLast((it) => it.seq < final.seq)?.after.on !== 0;
  const off = lastOff(story, limit.of, place);
  if (off !== undefined && isSince(off) && wasOn(off) && (off.cell.kind === "fastener" || isLetGo(story, off.cell, final, off))) return off;
  const turned = isOfRunOut(limit) ? turnedOnSince(story, limit, place, final) : undefined;
  return turned !== undefined && isSince(turned) ? turned : undefined;
}

/** What holds it was off as it came off: a wheel that comes out bolted to its hub runs as it did. */
function isLetGo(story: Story, { thing, place }: PartCell, final: Reading, { moment }: Move): boolean {
  return thing.heldBy.some(({ text }) =>
    story
      .cells(text)
      .some(
        (cell) =>
          cell.kind === "fastener" &&
          !cell.unsure &&
          isSamePlace(cell.place, place) &&
          cell.history.some((it) => it.seq > final.seq && it.seq < moment.seq && it.after.on < it.before.on),
      ),
  );
}

/** Some of what it is of was off, or went in, before this. */
function wasApart(story: Story, limit: Limit, place: string, { seq }: Reading): boolean {
  return limit.of.some(({ text }) => piecesAt(story, text, place).some((cell) => momentsOf(cell).some((it) => it.seq < seq && it.after.on !== it.before.on)));
}

/** What holds a piece of it was done up to another figure than the one at which it was read, or undone and done up. */
function turnedOnSince(story: Story, limit: Limit, place: string, final: Reading): Move | undefined {
  for (const { text } of limit.of) {
    const part = story.job.things.get(text);
    if (part?.kind !== "part") continue;
    const isOff = story
      .cells(text)
      .some((it) => it.kind === "part" && isSamePlace(it.place, place) && it.history.findLast((was) => was.seq < final.seq)?.after.on === 0);
    if (isOff) continue;
    for (const cell of part.heldBy.flatMap((by) => story.cells(by.text))) {
      if (cell.kind !== "fastener" || cell.unsure || !cell.thing.critical || !isSamePlace(cell.place, place)) continue;
      if (cell.history.findLast((it) => it.seq < final.seq)?.after.on === 0) continue;
      const before = cell.history.findLast((it) => it.seq < final.seq && it.verb === "tighten");
      // Eased and done up to the same figure, it pulls as it did; off and on again it may have seated otherwise.
      const off = cell.history.find((it) => it.seq > final.seq && it.after.on < it.before.on);
      const cameOff = (it: FastenerMoment) => off !== undefined && off.seq < it.seq;
      const moment = cell.history.findLast(
        (it) =>
          it.phase === "done" &&
          it.seq > final.seq &&
          it.verb === "tighten" &&
          !isOnlyTried(cell, it) &&
          !(before !== undefined && isSameFigure(before, it) && !cameOff(it)),
      );
      if (moment !== undefined) return { cell, moment };
    }
  }
  return undefined;
}

function isSameFigure(one: FastenerMoment, other: FastenerMoment): boolean {
  if (other.to === undefined || one.to === undefined) return other.to === undefined;
  return one.to.unit.dimension === other.to.unit.dimension && one.to.value.compare(other.to.value) === 0;
}

/** A final look that found it good, and stands before this move by its line and by its day. */
function isLookedAtBefore(story: Story, check: Check, place: string, { moment }: Move): boolean {
  if (isOfSurface(check)) return false;
  const finals = seenOn(story, check.name).filter((it) => it.stage === "final" && it.good && isSamePlace(it.place, place));
  return finals.length > 0 && finals.every((it) => it.seq < moment.seq && !(it.day !== undefined && moment.day !== undefined && it.day > moment.day));
}

/** Found or left past its limit, and no final has been inside since: the rule that says so says it until one is. */
function standsOut(judged: Judged, { name }: Limit | Check, here: (place: string) => boolean): boolean {
  const all = verdictsOn(judged, name).filter((it) => it.stage !== "trial" && here(it.place));
  const out = all.findLast((it) => it.outcome === "out" && it.band !== "new");
  return out !== undefined && !all.some((it) => it.seq > out.seq && it.stage === "final" && it.outcome === "in");
}

/** How free it is, or how slack. Three turns on a drum are counted. */
const freedom = /\b(shake|rock|play|slack|lash|falls|spins?|(?<!\b(one|two|three|four|five|six|half a|\d) )turns?|free(ly)?|binds?|notch|drags?)\b/i;

/** A nut that is done up by feel sets what it holds, and a trial or a shake of that is of the nut as it was: “falls to either stop by itself”. */
function feltSince({ job, story }: Facts, thing: Limit | Check, place: string): Move | undefined {
  if (
    thing.setBy.length > 0 ||
    !isCritical(job, thing) ||
    !(thing.kind === "check" ? isTriedTogether(thing) && freedom.test(allWords(thing)) : isBetweenPieces(thing))
  )
    return undefined;
  const byFeel = thing.of.flatMap(({ text }) => {
    const part = job.things.get(text);
    if (part?.kind !== "part") return [];
    // A nut that is let back behind its torque sets the bearing that lies behind what it holds.
    const over = part.behind.flatMap((name) => {
      const it = job.things.get(name.text);
      return it?.kind === "part" ? it.heldBy.filter((by) => isLetBack(by.text)) : [];
    });
    return [...part.heldBy.filter(({ text: by }) => isLetBack(by) || isByFeel(by)), ...over];
  });
  const all: readonly (Seen | Reading)[] = thing.kind === "check" ? seenOn(story, thing.name) : readingsOn(story, thing.name);
  const tried = all.findLast((it) => it.stage === "final" && !("good" in it && !it.good) && isSamePlace(it.place, place));
  const turned = tried === undefined ? undefined : lastTurned(story, byFeel, place);
  if (tried === undefined || turned?.cell.kind !== "fastener" || turned.moment.seq <= tried.seq) return undefined;
  // On the bench it was tried without.
  return turned.cell.history.findLast((it) => it.seq < tried.seq)?.after.tight === false ? undefined : turned;

  function isByFeel(name: string): boolean {
    const it = job.things.get(name);
    return it?.kind === "fastener" && it.critical && it.torque?.byFeel !== undefined;
  }

  function isLetBack(name: string): boolean {
    const it = job.things.get(name);
    return it?.kind === "fastener" && it.critical && setsBearing(job, it);
  }
}

/**
 * Nobody writes that a shim went in: a setting that shims make, and that was found or tried outside what it must be left at, asks for a final:
 * once what it is of was apart behind that reading, or at once where nobody says what it is of.
 */
function shimmed({ job, story, judged }: Facts, limit: Limit, place: string): Asking | undefined {
  if (limit.setBy.length === 0 || !limit.setBy.every((name) => job.things.get(name.text)?.kind === "shims")) return undefined;
  const here = (at: string) => isSamePlace(at, place);
  const read = readingsOn(story, limit.name).find((it) => it.stage !== "final" && here(it.place) && isOutOfSet(it));
  if (read === undefined) return undefined;
  // Past wear or spread is said by the rule that says so, until a final is inside.
  if (verdictsOn(judged, limit.name).some((it) => it.stage === "found" && it.outcome === "out" && it.band !== "new" && here(it.place))) return undefined;
  if (limit.of.length === 0) return { line: read.detail, where: read.where, seq: read.seq, what: "Read outside what it must be left at here" };
  const apart = lastDisturbed(story, limit.of, place);
  return apart === undefined || apart.moment.seq < read.seq ? undefined : asking(apart);
}

/** What only its setting says anything of, and that was found outside that: it is set, and nobody has measured it since. */
function leftOut(facts: Facts, limit: Limit, place: string): Asking | undefined {
  if (limit.expression !== undefined) return leftSo(facts, limit, place);
  const here = readingsOn(facts.story, limit.name).filter((it) => it.stage !== "trial" && isSamePlace(it.place, place));
  const last = here.at(-1);
  const out = last === undefined ? undefined : latestOfEach(here, last).find(isFoundOutOfSet);
  if (out === undefined || isConceded(facts.story, limit.name, place)) return undefined;
  return { line: out.detail, where: out.where, seq: out.seq, what: "Read outside what it must be left at here" };
}

/** The same of what is worked out of the readings as found: a bush on its shaft. */
function leftSo({ job, story, judged }: Facts, limit: Limit, place: string): Asking | undefined {
  if (limit.setBy.length === 0 || limit.set === undefined || isConceded(story, limit.name, place)) return undefined;
  const here = (it: { readonly stage: string; readonly place: string }) => it.stage === "found" && isSamePlace(it.place, place);
  const verdict = verdictsOn(judged, limit.name).findLast((it) => it.workedOut && here(it));
  const found = verdict === undefined ? unjudgedOn(judged, limit.name).find(here) : { reading: verdict.reading, low: verdict.value, high: verdict.value };
  if (found === undefined) return undefined;
  const stood = asItStood(job, limit, found.reading.entry);
  const set = bandOf(stood.set);
  if (set === undefined || stood.worn !== undefined || (inside(set, found.low) && inside(set, found.high))) return undefined;
  const { detail, where, seq } = found.reading;
  return { line: detail, where, seq, what: `With this ${midSentence(limit, place)} ${agreeing(limit, "is")} outside what it must be left at` };
}

/** What came back from work is measured before it is trusted, though it was inside when found. */
function backUnread(facts: Facts, thing: Limit | Check, place: string): Asking | undefined {
  for (const it of workToRead(facts.story, facts.judged, thing, place))
    if (!finalSince(facts, thing, place, -1, it.since)) return { line: it.detail, where: it.where, seq: -1, what: "Back from work" };
  return undefined;
}

/** Only tried, or tried and found outside after the last final. */
function tried(facts: Facts, thing: Limit | Check, place: string): Asking | undefined {
  const { job, story, judged } = facts;
  // What was found bad or past its limit stays flagged there until it is read again.
  if (standsOut(judged, thing, (at) => at === place)) return thing.kind === "limit" ? outOnTrial(facts, thing, place) : undefined;
  if (thing.kind === "check" && seenOn(story, thing.name).some((was) => !was.good && was.stage !== "trial")) return undefined;
  const past = thing.kind === "limit" ? outOnTrial(facts, thing, place) : undefined;
  if (past !== undefined) return past;
  const it = triedOnly(job, story, thing, place);
  return it === undefined ? undefined : { line: it.entry, where: it.where, seq: it.seq, what: "Only tried here" };
}

/** Put right, read inside at the end, and past its wear or out of its setting when it was tried or found so after that: news of the machine as it is. */
function outOnTrial({ job, story, judged }: Facts, limit: Limit, place: string): Asking | undefined {
  const here = readingsOn(story, limit.name).filter((it) => isSamePlace(it.place, place));
  const end = here.at(-1);
  const last = end?.stage === "found" ? end : triedOnly(job, story, limit, place);
  if (last === undefined || !("limit" in last)) return undefined;
  // What is found past its wear has a rule that says so.
  const bands = ({ stage, stood }: Reading) => [stage === "found" ? undefined : bandOf(stood.worn), bandOf(stood.set)] as const;
  const it = latestOfEach(here, last).find((was) => bands(was).some((band) => band !== undefined && !isInside(was, band)));
  if (it === undefined) return undefined;
  const final = here.findLast((was) => was.stage === "final" && was.seq < it.seq);
  if (final === undefined || (final.day !== undefined && it.day !== undefined && it.day < final.day)) return undefined;
  // Written below the last final, and found on a day before what sets it was moved: as it was.
  const moved = it.stage === "found" && final.day === undefined && it.day !== undefined ? lastDisturbed(story, limit.setBy, place)?.moment.day : undefined;
  if (moved !== undefined && it.day !== undefined && it.day < moved) return undefined;
  const verdict = verdictsOn(judged, limit.name).findLast((was) => was.stage === "final" && was.place === place && was.seq < it.seq);
  if (verdict === undefined || verdict.outcome === "out") return undefined;
  const [worn] = bands(it);
  const what = worn !== undefined && !isInside(it, worn) ? "Past its limit of wear" : "Outside what it must be set to";
  const asks = { line: it.entry, where: it.where, seq: it.seq };
  if (mayBeOfBefore(story, it, final)) return { ...asks, what: `${what} when it was found here`, mayBeOfBefore: true };
  return {
    ...asks,
    what: `${what} when it was ${it.stage === "found" ? "read" : "tried"} here, after the last final`,
    isUndated: it.stage === "found" && it.entry.date === undefined,
  };
}

/** What is critical, and was read at one of its positions alone, whether or not anything moved it: the other end may be worn, and a taper can't be told. */
function halfRead({ job, story, judged }: Facts, thing: Limit | Check, place: string): Asking | undefined {
  if (thing.kind === "check" || (thing.of.length === 0 && thing.setBy.length === 0) || !isCritical(job, thing)) return undefined;
  if (thing.positions.length === 0 && (thing.perPlace ?? 1) === 1) return undefined;
  // What is past its limit at one end is condemned whatever the other end is.
  if (verdictsOn(judged, thing.name).some((it) => it.stage !== "trial" && it.outcome === "out" && it.band !== "new" && it.place === place)) return undefined;
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

function asking({ moment }: Move): Asking {
  const what = moment.verb === "repair" ? "Repaired here" : moment.isNew ? "Renewed here" : "Disturbed here";
  return { line: moment.action ?? moment, where: moment.where, seq: moment.seq, what };
}
