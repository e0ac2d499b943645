// What the rules of failed parts share: which conditions are a failure, which may never be reused, and what condemns a part.
// Invariant: doubt condemns nothing.
import type { ConditionKind, Entry } from "../../grammar/tree.ts";
import { memo } from "../model/memo.ts";
import type { Job } from "../model/job.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { mayTakeUp } from "../model/mates.ts";
import { isOfAllMounted, isOfItsMetal, isOfRunOut } from "../model/read-with.ts";
import { relationsOf } from "../model/relations.ts";
import type { Thing } from "../model/things.ts";
import { momentsOf, piecesAt } from "../story/cells.ts";
import { coversPlace } from "../story/conceded.ts";
import type { Lot, Note } from "../story/lots.ts";
import { type Where, where } from "../model/where.ts";
import { readingsOn, verdictsOn } from "../story/looked-up.ts";
import { anewSince, backFromWork, crackNotThere, isAnewSince, mayMend, workBack } from "../story/put-right.ts";
import { isFound, isOfThoseToGo } from "../story/whose-figures.ts";
import { joinsNothing, mendsNothing, onlyCuts } from "../story/worked-in.ts";
import type { Concession, FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "../story/story.ts";
import type { Judged } from "../story/verdict.ts";
import type { Verdict } from "../story/verdict.ts";
import { putsOff } from "./doubt-words.ts";
import type { JobContext } from "./rule.ts";

/** Found so, a thing has failed until it is renewed or repaired. */
export const failed: ReadonlySet<ConditionKind> = new Set(["cracked", "broken", "bent", "stripped", "sheared", "seized", "damaged"]);

/** Found so, a critical thing may not be reused, whoever says so. */
export const neverReused: ReadonlySet<ConditionKind> = new Set(["cracked", "broken", "bent", "stripped", "sheared", "undrilled"]);

/** Found so, a thing does not go back as it is. */
export const condemning: ReadonlySet<ConditionKind> = new Set(["cracked", "broken", "bent", "stripped", "sheared"]);

/** A concession can't excuse these on a critical thing. */
export const neverExcused: ReadonlySet<ConditionKind> = new Set([
  "cracked",
  "broken",
  "bent",
  "stripped",
  "sheared",
  "undrilled",
  "missing",
  "loose",
  "unlocked",
]);

/** Decided so, or so plain that no decision is written: what is damaged is renewed. */
export function decidedAway(found: Found): string | undefined {
  const decided = found.decision?.detail.decision;
  if (decided === "renew" || decided === "discard" || decided === "exchange" || decided === "make") return `decided ${decided}`;
  return decided === undefined && found.conditions.some(({ condition }) => condition.kind === "damaged") ? "found damaged" : undefined;
}

/** New is what it was cut for, and not itself. */
const toTheNew = /\b(to|for) (suit |fit )?(the |its )?new \w+/giu;

/** What speaks against a piece going back as it is. */
export interface Against {
  /** “found cracked”, “decided renew” */
  readonly findings: readonly { readonly found: Found; readonly text: string }[];
  readonly worn: Verdict | undefined;
  /** By what a reading past wear is accepted. */
  readonly conceded: Concession | undefined;
  /** Decided to go, and the old one was repaired instead: nobody has decided so since. */
  readonly instead: { readonly found: Found; readonly repair: Where } | undefined;
}

/** What stands against the pieces of a lot by then: what was said of them, and neither mended nor taken back since. Doubt condemns nothing. */
export function against(context: Pick<JobContext, "story" | "judged">, cell: PartCell | FastenerCell, lot: Lot, before: number): Against {
  const { story, judged } = context;
  let findings: { found: Found; text: string }[] = [];
  let decided: { found: Found; text: string } | undefined;
  let instead: Against["instead"];
  let worn: { verdict: Verdict; note: Extract<Note, { kind: "read" }> } | undefined;
  for (const note of lot.notes) {
    if (note.seq >= before) break;
    if (note.kind === "repair") {
      if (mendsNothing(note.text) || joinsNothing(cell.thing, note.text)) continue;
      // A worn bush that was to be renewed is no better for the reamer: it was meant for the new one. Of what is critical more is asked below.
      if (
        decided !== undefined &&
        !cell.thing.critical &&
        isFound(decided.found, "worn") &&
        decided.text === "decided renew" &&
        onlyCuts(note.text.replace(toTheNew, " "))
      )
        continue;
      // What is made here is said by what was done to it.
      if (decided?.found.decision !== undefined && decided.found.decision.detail.decision !== "make")
        instead = { found: decided.found, repair: note.moment.where };
      findings = [];
      decided = undefined;
      worn = undefined;
    } else if (note.kind === "found") {
      const { found } = note;
      const says = found.decision?.detail.decision;
      const away = decidedAway(found);
      if (says !== undefined || isReasoned(found)) instead = undefined;
      if (says !== undefined || away !== undefined) decided = away === undefined ? undefined : { found, text: away };
      // It was the nut, and not what was read at it, where that is no metal of its own; or what was read is to be reused against all reason, of which another rule says all. That one says nothing
      // of what is called good and why: no such word makes a piece larger that was measured on the bench.
      const good = isReasoned(found) && found.conditions.some(({ condition }) => condition.kind === "serviceable");
      if (
        worn !== undefined &&
        (good ? worn.note.inPlace && !isOfItsMetal(worn.verdict.limit) && !isUnmoved(story, cell, worn.verdict) : says === "reuse" && cell.thing.critical)
      )
        worn = undefined;
      if (says === "reuse" && cell.thing.critical) continue;
      for (const { condition } of found.conditions) if (condemning.has(condition.kind)) findings.push({ found, text: `found ${condition.kind}` });
    } else {
      const out = condemnedBy(judged, note);
      if (out !== undefined) worn = { verdict: out, note };
      else if (note.reading.stage === "found" && isReasoned(note.reading) && worn?.verdict.limit === note.reading.limit) worn = undefined;
    }
  }
  if (decided?.found.decision !== undefined && decided.found.decision.detail.decision !== "make") {
    const work = workBack(story, cell, decided.found.day, isOnTheOld);
    if (work !== undefined) instead = { found: decided.found, repair: where(work.file, work.entry, work.detail.row, work.detail.keyword) };
  }
  if (decided !== undefined) findings.push(decided);
  const back = (day: string | undefined) => backFromWork(story, cell, day, mayMend);
  const isNone = ({ found, text }: { readonly found: Found; readonly text: string }) =>
    text === "found cracked" && (crackNotThere(story, cell, found)?.seq ?? end) < before;
  findings = findings.filter((it) => !back(it.found.day) && !isNone(it));
  if (worn !== undefined && back(worn.verdict.day)) worn = undefined;
  const conceded = worn === undefined ? undefined : concededAt(story, worn.verdict, cell.place);
  if (conceded !== undefined) worn = undefined;
  if (worn !== undefined && isOfItsFellows(story, cell, lot, worn.note)) worn = undefined;
  if (worn !== undefined && (isFellowNew(story, cell, worn) || isHalfMended(context, cell, lot, worn))) worn = undefined;
  return { findings, worn: worn?.verdict, conceded, instead };
}

/**
 * Neither what was read nor anything that holds it, is before it, behind it or read with it has been moved since: then it was no nut either. Where nothing of that kind is declared nobody knows.
 */
function isUnmoved(story: Story, { thing, place }: PartCell | FastenerCell, { limit, seq }: Verdict): boolean {
  const { job } = story;
  const beside = [...[...limit.of, ...limit.with].map(({ text }) => text), ...mountedWith(job, thing)];
  const holding = [thing.name, ...beside].flatMap((name) => {
    const it = job.things.get(name);
    return it?.kind === "part" ? it.heldBy.map(({ text }) => text) : [];
  });
  const names = new Set([thing.name, ...beside, ...holding]);
  if (names.size === 1 || limit.setBy.length > 0) return false;
  return [...names].every((name) =>
    piecesAt(story, name, place).every(
      (cell) => !cell.unsure && !cell.thing.implied && !momentsOf(cell).some((it) => it.seq > seq && it.verb !== "found" && it.verb !== "mark"),
    ),
  );
}

/** Fewer figures than pieces were read, so that nobody sees of which they are; these were found serviceable, and all that are past wear are of those that are to go. */
function isOfItsFellows(story: Story, cell: PartCell | FastenerCell, lot: Lot, { reading, spot }: Extract<Note, { kind: "read" }>): boolean {
  if (spot !== undefined || reading.place !== cell.place) return false;
  const said = [...lot.notes].flatMap((note) => (note.kind === "found" ? [note.found] : []));
  if (!said.some((it) => isFound(it, "serviceable")) || said.some((it) => isFound(it, "worn") || decidedAway(it) !== undefined)) return false;
  return isOfThoseToGo(story, reading, cell.total, (found) => decidedAway(found) !== undefined);
}

/**
 * A fit of several of one name, read in fewer figures than there are pieces: half of a brass was scraped in since, these were found serviceable, and the fit reads inside
 * at the end.
 */
function isHalfMended(
  { judged }: Pick<JobContext, "judged">,
  cell: PartCell | FastenerCell,
  lot: Lot,
  { verdict, note }: { readonly verdict: Verdict; readonly note: Extract<Note, { kind: "read" }> },
): boolean {
  const { limit } = verdict;
  if (note.spot !== undefined || cell.total < 2 || !(limit.of.length > 1 || isOfAllMounted(limit))) return false;
  if (!lot.notes.some((it) => it.kind === "found" && isFound(it.found, "serviceable"))) return false;
  const mended = (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast(
    (it) => it.phase === "done" && it.seq > verdict.seq && (it.verb === "fit" ? it.isNew : it.verb === "repair" && !mendsNothing(it.action?.text?.value ?? "")),
  );
  const last = verdictsOn(judged, limit.name).filter((it) => it.stage === "final" && it.place === verdict.place);
  return mended !== undefined && last.length > 0 && last.every((it) => it.seq > mended.seq && it.outcome === "in");
}

/** Of its words: it was done to the old one, and made no other. */
function isOnTheOld(work: string): boolean {
  return mayMend(work) && !makesAnother.test(work);
}

const makesAnother = /\b(make|made|making|new|copy|copied|cast|forge[d]?|to pattern|suppl(y|ied)|exchange[d]?|replace[d]?)\b/iu;

/** At that place: what one side may be left at says nothing of the other. */
function concededAt({ concessions }: Story, { limit, place: read }: Verdict, place: string): Concession | undefined {
  const at = place === "" ? read : place;
  return concessions.find((by) => by.thing.name === limit.name && coversPlace(by, at));
}

/** A fit is between two, and the other one has been renewed or worked on since, or is to be: what it reads then is for the final reading to say. */
function isFellowNew(
  story: Story,
  { thing, place }: PartCell | FastenerCell,
  { verdict, note }: { readonly verdict: Verdict; readonly note: Extract<Note, { kind: "read" }> },
): boolean {
  const { limit } = verdict;
  // On the bench a shaft runs out by itself, whatever it lies in later.
  if (!note.inPlace && isOfRunOut(limit) && shaft.test(thing.title ?? thing.name)) return false;
  return (
    limit.of.some(({ text }) => text !== thing.name && isAnewSince(story, text, place, verdict)) ||
    (isOfAllMounted(limit) && isMountedAnew(story, thing, place, verdict))
  );
}

const shaft = /\b\w*(shaft|spindle|axle|crank|rod|stem|screw)\b/iu;

/** How it runs, and with what play, hangs on all that it is mounted in, whether the limit names that or not: a spindle in its bearings, a wheel on its hub. */
function isMountedAnew(story: Story, thing: Thing, place: string, verdict: Verdict): boolean {
  const mayBe = (name: string) => {
    const other = story.job.things.get(name);
    return other === undefined || mayTakeUp(verdict.limit, other);
  };
  const names = [...mountedWith(story.job, thing)].filter((name) => anew(story).has(name) && mayBe(name));
  if (names.length === 0) return false;
  // What was read before that says nothing of it.
  const last = readingsOn(story, verdict.limit.name).findLast((it) => it.stage === "final" && it.place === verdict.place && it.seq > verdict.seq);
  return names.some((name) => (anewSince(story, name, place, verdict) ?? end) < (last?.seq ?? end));
}

const end = Number.POSITIVE_INFINITY;

/** The parts right before it, and those that are behind it, one behind the other. */
export function mountedWith(job: Job, thing: Thing): ReadonlySet<string> {
  const known = mountedByJob(job);
  const names = known.get(thing.name) ?? besides(job, thing);
  known.set(thing.name, names);
  return names;
}

const mountedByJob = memo((_job: Job) => new Map<string, ReadonlySet<string>>());

/** The nearest count; more of them would cost a hostile sheet time. */
const mostMounted = 12;

function besides(job: Job, thing: Thing): ReadonlySet<string> {
  const { behind } = relationsOf(job);
  const names = new Set(thing.kind === "part" ? thing.behind.map(({ text }) => text) : []);
  const from = [thing.name];
  for (const name of from)
    for (const part of behind.get(name) ?? []) {
      if (names.size >= mostMounted) return names;
      if (names.has(part.name) || part.name === thing.name) continue;
      names.add(part.name);
      from.push(part.name);
    }
  return names;
}

/** Whatever has a new piece somewhere, was repaired or sent out: most have not, and need not be asked about. */
const anew = memo(
  (story: Story): ReadonlySet<string> =>
    new Set([
      ...[...story.parts, ...story.fasteners]
        .filter((cell) => (cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.verb === "repair" || (it.verb === "fit" && it.isNew)))
        .map(({ thing }) => thing.name),
      ...ordersOf(story.job).work.keys(),
    ]),
);

export function isAgainst({ findings, worn }: Pick<Against, "findings" | "worn">): boolean {
  return findings.length > 0 || worn !== undefined;
}

/** The verdict by which this reading condemns this piece. */
export function condemnedBy(judged: Judged, { reading, spot }: Extract<Note, { kind: "read" }>): Verdict | undefined {
  return judged.condemning.get(reading)?.find(({ spots }) => spot === undefined || spots === undefined || spots.includes(spot))?.verdict;
}

/** A `because` stands under it, with words in it. Of a reading that is to stand in place of another, they say more than that nobody knows. */
export function isReasoned({ entry }: { readonly entry: Entry }): boolean {
  return saysWhy(entry);
}

/** Asked for each of the lines of an entry, and the same for all. */
const saysWhy = memo((entry: Entry) =>
  entry.details.some((it) => it.kind === "because" && it.fault === undefined && (entry.kind !== "measure" || putsOff(it.text?.value ?? "") === undefined)),
);

/** Whether the finding's unsafe reuse is said by the rule that says all of it. */
export function reusedUnsafely(found: Found, kind: ConditionKind): boolean {
  return found.decision?.detail.decision === "reuse" && "critical" in found.thing && found.thing.critical && neverReused.has(kind);
}

/** Sent out or to be sent: a planned fit waits for that work, and is no mistake. */
export function workOrdered(story: Story, cell: PartCell | FastenerCell): boolean {
  const work = ordersOf(story.job).work.get(cell.thing.name) ?? [];
  return work.some(({ detail, status }) => isAt(detail, cell.place) && status?.status !== "cancelled" && status?.status !== "returned");
}
