// Where each reading and each look goes in the order: a size before its piece goes in, a setting as soon as it can be taken, and before its clamps are done up for good.
// Invariant: only what is better so gives way; what a reading needs to be there is a fact.
import { fluidsAsRead, isSeenRunning, isSubjectOf, isTriedTogether, isWorking, outAsRead, readBesideShims } from "../../model/read-with.ts";
import { settersWithHosts } from "../../model/relations.ts";
import type { Check, Fastener, Limit } from "../../model/things.ts";
import { wasOff } from "../../story/standing.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment } from "../../story/story.ts";
import type { Act } from "./acts.ts";
import { inUse, isAtControl, isCurrent, isLeak, needsItsMate, isOfWheels, isReadWithout, isSeenHot, isSeenToFlow, placeWords, wordsOf } from "./by-words.ts";
import { type Deed, type ReadDeed, soon } from "./deeds.ts";
import { type DeedsByThing, ofKind } from "./deeds-by-thing.ts";
import type { Graph } from "./graph.ts";
import type { ToRead } from "./readings.ts";

/** Where readings are put, and what they are put among. */
interface Ordering extends DeedsByThing {
  readonly graph: Graph<Deed>;
}

/** Puts them into the graph; the final ones, for what is better so. */
export function orderReadings(by: DeedsByThing, graph: Graph<Deed>, readings: readonly ToRead[]): ReadDeed[] {
  const order: Ordering = { ...by, graph };
  const finals: ReadDeed[] = [];
  for (const read of readings) {
    const final: ReadDeed = { kind: "read", read, stage: "final", since: sinceOf(by, read) };
    finals.push(final);
    graph.add(final);
    atItsPiece(order, final);
    tried(order, final);
    for (const { name } of outAsRead(by.story.job, read.thing)) graph.rather(by.fitting(name), final);
    // What is in and tight as it is read.
    for (const name of read.inIt) for (const deed of by.fast(name)) graph.wait(final, deed);
    if (read.before.length > 0) continue;
    behindTheRest(order, final);
    behindWhatItIsOf(order, final);
    asItWasTried(order, final);
    for (const name of namedIn(by, read)) for (const it of by.fast(name)) graph.rather(final, it);
  }
  return finals;
}

/** Behind what it says it comes after; before the piece goes in that it can be read of only while that is out, and when that is mended. */
function atItsPiece({ graph, last, doing, fitting }: Ordering, final: ReadDeed): void {
  for (const name of final.read.after) graph.wait(final, last(name));
  for (const name of final.read.before) {
    graph.wait(final, doing(name, "repair"));
    graph.wait(fitting(name), final);
  }
}

/** Set before its clamps are done up for good: once by trial, with them finger-tight. */
function tried(order: Ordering, final: ReadDeed): void {
  const { graph, work, last, doing, fitting, fast } = order;
  const { read } = final;
  const clamps = clampsOf(order, read);
  if (clamps.length === 0) return;
  const trial: Deed = { kind: "read", read, stage: "trial", since: soon };
  graph.add(trial);
  for (const clamp of clamps) {
    graph.wait(doing(clamp.name, "tighten"), trial);
    graph.rather(trial, fitting(clamp.name));
  }
  for (const { text } of read.thing.of) for (const it of fast(text)) graph.rather(trial, it);
  // Of nothing that is named (toe-in), it is tried when all else is together.
  if (read.thing.of.length === 0)
    for (const { thing } of work)
      if ((thing.kind === "part" || thing.kind === "fastener") && !clamps.some((it) => it.name === thing.name)) graph.rather(trial, last(thing.name));
  graph.rather(final, trial);
}

// ------------------------------------------------------------- behind the whole

/** What is of the whole, or seen as it runs, comes when the whole is there and filled. */
function behindTheRest(order: Ordering, final: ReadDeed): void {
  const { graph, story, work, last, since } = order;
  const { read } = final;
  if (isOfNothing(read) || (read.thing.kind === "check" && isSeenRunning(read.thing))) whenTogether(order, final);
  if (read.thing.of.length === 0 && isSetByShims(order, read.thing)) withItsShims(order, final);
  if (isOfTheWhole(read))
    for (const { thing } of work)
      if ((thing.kind === "part" || thing.kind === "fastener") && since(thing.name) > final.since) graph.rather(final, last(thing.name));
  for (const { fluid } of fluidsAsRead(story.job, read.thing)) graph.wait(final, last(fluid.name));
  if (read.thing.kind === "check" && isSeenToFlow(read.thing)) for (const { thing } of work) if (thing.kind === "fluid") graph.rather(final, last(thing.name));
  if (read.thing.kind === "check") behindWhatItTries(order, read.thing, final);
}

function isSetByShims({ story }: Ordering, { setBy }: Limit | Check): boolean {
  return setBy.length > 0 && setBy.every(({ text }) => story.job.things.get(text)?.kind === "shims");
}

/** What only shims set is read when what they stand beside is in; where nothing says what that is, when what is critical for the same is. */
function withItsShims({ graph, story, work, fitting }: Ordering, final: ReadDeed): void {
  const parts = work.map((it) => it.thing).filter((it) => it.kind === "part");
  for (const { name } of readBesideShims(story.job, final.read.thing, parts).parts) graph.rather(final, fitting(name));
}

/** What a trial speaks of is on, and so is what else would let go the same: nobody locks a wheel over while its chains are off. */
function behindWhatItTries({ graph, story, work, fast }: Ordering, check: Check, final: ReadDeed): void {
  if (!isTriedTogether(check)) return;
  for (const { thing } of work)
    if (
      thing.kind === "part" &&
      thing.critical &&
      (isSubjectOf(story.job, check, thing) || (thing.criticalWhat !== undefined && thing.criticalWhat === check.criticalWhat))
    )
      for (const it of fast(thing.name)) graph.rather(final, it);
}

/**
 * What is critical and of nothing that is declared is of the whole: a look, or what is read of it as it works, comes when all that is critical is together and
 * what was made safe works again. A size is read wherever it can be got at.
 */
function whenTogether({ graph, work, last }: Ordering, final: ReadDeed): void {
  const { thing, places } = final.read;
  if (thing.kind === "limit" && !isWorking(thing)) return;
  const names = new Set(thing.with.map(({ text }) => text));
  const here = (act: Act) => act.places.length === 0 || places.some((place) => place === "" || act.places.includes(place));
  for (const it of work) {
    if (it.thing.kind === "hazard") {
      if (!isCurrent(it.thing) || thing.kind === "limit") graph.rather(final, last(it.thing.name));
    } else if (it.thing.kind === "fluid" || (names.size > 0 ? names.has(it.thing.name) : it.thing.critical && it.acts.some(here)))
      graph.wait(final, last(it.thing.name));
  }
}

// ------------------------------------------------------------- behind what it is of

/** What it is of and what it is set by is fast by then, with what keeps that in its place; and full, where it is looked at for leaks. */
function behindWhatItIsOf(order: Ordering, final: ReadDeed): void {
  const { graph, story, work, relations, last, fast } = order;
  const { read } = final;
  const of = read.thing.of.map(({ text }) => text);
  const setters = settersWithHosts(story.job, read.thing.setBy).map((it) => it.text);
  const held = setters.flatMap((name) => relations.holds.get(name) ?? []).map((it) => it.name);
  for (const name of [...setters, ...held, ...of]) for (const it of fast(name)) graph.rather(final, it);
  if (needsItsMate(read.thing))
    for (const name of [...setters, ...of]) for (const mate of mates(order, name)) for (const it of fast(mate)) graph.rather(final, it);
  // What has no fastener of its own is there when what is in front keeps it there: a thrust washer under its stub axle, a shoe in its drum.
  for (const name of [...of, ...setters, ...read.inIt]) for (const it of heldFast(order, name, read)) graph.rather(final, it);
  if (isLeak(read.thing)) for (const { thing } of work) if (thing.kind === "fluid") graph.rather(final, last(thing.name));
  // Leaks: when it is tight, filled and bled.
  for (const name of of)
    for (const fluid of relations.fluidsIn.get(name) ?? [])
      if (read.thing.kind === "check" || read.thing.set !== undefined) graph.wait(final, last(fluid.name));
      // A travel that it moves: with that in.
      else if (isWorking(read.thing)) graph.rather(final, last(fluid.name));
  // A pedal is hard when what its unions hold has been bled.
  for (const name of held) for (const fluid of relations.fluidsIn.get(name) ?? []) if (fluid.needsBleed) graph.rather(final, last(fluid.name));
}

/** What it is matched with, whichever of the two says so. */
function mates({ work, part }: DeedsByThing, name: string): string[] {
  const own = (part(name)?.matchedWith ?? []).map((it) => it.text);
  const others = work.flatMap(({ thing }) => (thing.kind === "part" && thing.matchedWith.some((it) => it.text === name) ? [thing.name] : []));
  return [...new Set([...own, ...others])];
}

/** All that keeps it where it is, with what holds the part before it where it has nothing of its own; but for what was off when it was read in its place before. */
function heldFast(by: DeedsByThing, name: string, read: ToRead, seen = new Set<string>()): (Deed | undefined)[] {
  if (seen.has(name)) return [];
  seen.add(name);
  const { part, fitting, fast } = by;
  const it = part(name);
  // What stayed where it is needs nothing in front of it, and is looked at while it is bare.
  const stays = fitting(name) === undefined && !isSetting(read);
  if (it === undefined || it.heldBy.length > 0 || stays) return fast(name);
  return [
    ...fast(name),
    ...it.behind
      .filter((front) => !wasBare(by, front.text, read) && !isReadWithout(read.thing, part(front.text)))
      .flatMap((front) => heldFast(by, front.text, read, seen)),
  ];
}

function wasBare({ story }: DeedsByThing, front: string, { readWhole, places }: ToRead): boolean {
  if (readWhole === undefined) return false;
  const here = story
    .cells(front)
    .filter((it): it is PartCell => it.kind === "part" && (it.place === "" || places.some((place) => place === "" || place === it.place)));
  return here.length > 0 && here.every((it) => wasOff(it, readWhole));
}

/** Tried while some was on for now and some still off: the same is read again when the first is on for good, before the second goes on. */
function asItWasTried({ graph, story, work, fitting, fast }: Ordering, final: ReadDeed): void {
  const { tried } = final.read;
  if (tried === undefined) return;
  for (const { thing } of work) {
    if (thing.kind !== "part" && thing.kind !== "fastener") continue;
    const cells = story.cells(thing.name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    if (cells.length === 0) continue;
    if (cells.every((it) => wasOff(it, tried))) graph.rather(fitting(thing.name), final);
    // What was on then, and came off since or has to, is on again by then.
    else if (cells.every((it) => (it.then.forNow || it.then.on < it.total) && !wasOff(it, tried))) for (const it of fast(thing.name)) graph.rather(final, it);
  }
}

// ------------------------------------------------------------- when it is read, where nothing else says so

/** A reading goes where it was taken before; what was never looked at is looked at as late as it can be seen, a setting as soon as it can be. */
function sinceOf(by: DeedsByThing, read: ToRead): number {
  const { thing, readWhole, last: isLast } = read;
  if (read.ahead !== undefined) return soon;
  if (inUse(thing)) return -2;
  if (isSeenHot(thing)) return -1.5;
  if (isOfWheels(thing)) return -1;
  if (read.tried !== undefined) return soon;
  if (isOfTheWhole(read)) return readWhole ?? -1;
  if (isSetting(read)) return isLast ? (readWhole ?? -1) : soon;
  if (readWhole !== undefined) return Math.max(readWhole, ...thing.of.map((it) => takenApart(by, it.text)));
  if (thing.kind === "limit") return isLast ? -1 : soon;
  const covers = thing.of.flatMap((it) => [...by.fronts(it.text)]).filter((it) => !heldFast(by, thing.of[0]?.text ?? "", read).includes(by.last(it)));
  return Math.max(-1, ...covers.map((it) => (by.fitting(it)?.since ?? -1) + 0.5));
}

/** Just before the step began in which it last came off: what came off with it was on when it was read. -1: it never did. */
function takenApart({ story }: DeedsByThing, name: string): number {
  const off = story
    .cells(name)
    .flatMap((cell) => (cell.kind === "part" || cell.kind === "fastener" ? (cell.history as readonly (PartMoment | FastenerMoment)[]) : []))
    .filter((it) => it.verb === "remove" || it.verb === "undo")
    .at(-1);
  if (off?.visit === undefined) return -1;
  return Math.min(...[...story.parts, ...story.fasteners].flatMap((cell) => cell.history.filter((it) => it.visit === off.visit).map((it) => it.seq))) - 0.5;
}

/** What is better so: read before what is in front of it closes it in, and with the machine up or down as it is used. */
export function beforeItIsClosed(by: DeedsByThing, graph: Graph<Deed>, finals: readonly ReadDeed[], lower: Deed | undefined): void {
  const { story, relations, since, fitting, fronts } = by;
  for (const final of finals) {
    const setters = settersWithHosts(story.job, final.read.thing.setBy).map((it) => it.text);
    const held = setters.flatMap((name) => relations.holds.get(name) ?? []).map((it) => it.name);
    if (inUse(final.read.thing) || isOfWheels(final.read.thing)) graph.rather(final, lower);
    else {
      // Read at a piece that is in front: what came off after that is on again by then.
      const whole = isOfTheWhole(final.read) ? final.since : -1;
      const at = Math.max(whole, ...namedIn(by, final.read).map(since));
      for (const name of [...setters, ...held, ...final.read.thing.of.map((it) => it.text)])
        for (const front of fronts(name)) if (at < 0 || since(front) < at) graph.rather(fitting(front), final);
      graph.rather(lower, final);
    }
  }
}

/** A fastener that is done up when what it sets has been tried: it holds none of what is measured, and has a torque of its own. */
export function clampsOf({ story, relations, lists }: DeedsByThing, { thing, clamped }: ToRead): Fastener[] {
  if (thing.kind !== "limit" || thing.set === undefined || !clamped) return [];
  // Of nothing that is named, it is set by what a clamp holds: a rod end, a shim, an adjuster.
  const adjusts = thing.setBy.some(({ text }) => story.job.things.get(text)?.kind !== "fastener" || relations.adjusting.has(text));
  if (thing.of.length === 0 && !adjusts) return [];
  return thing.setBy
    .map((it) => ofKind(story.job.things.get(it.text), "fastener"))
    .filter(
      (it): it is Fastener =>
        it !== undefined &&
        (it.torque?.range !== undefined || it.torque?.byFeel !== undefined) &&
        (lists.get(it.name) ?? []).some((deed) => deed.kind === "acts" && deed.acts.some((act) => act.verb === "tighten")) &&
        !(relations.holds.get(it.name) ?? []).some((held) => (thing as Limit).of.some((name) => name.text === held.name)),
    );
}

/** It goes on with the rest and is done up later. */
export function fingerTight({ story, lists, fitting }: DeedsByThing, clamp: Fastener): void {
  const list = lists.get(clamp.name) as Deed[];
  const at = list.findIndex((it) => it.kind === "acts" && it.acts.some((act) => act.verb === "tighten"));
  const tight = list[at];
  if (tight?.kind !== "acts" || fitting(clamp.name) !== undefined) return;
  const off = story.cells(clamp.name).filter((it) => it.kind === "fastener" && it.then.on < it.total);
  if (off.length === 0) return;
  const places = tight.acts.flatMap((it) => it.places);
  list.splice(at, 0, { ...tight, acts: [{ verb: "fit", places, note: "finger tight: it is done up when the setting has been tried" }] });
}

/** What its words say that it is read at (“at the sheave rim”): a piece that goes on, by its name or its title. */
function namedIn({ work, fitting }: DeedsByThing, { thing }: ToRead): string[] {
  const words = placeWords(thing);
  const own = new Set([...thing.setBy, ...thing.of].map((it) => it.text));
  if (words.size === 0) return [];
  return work.flatMap((it) =>
    it.thing.kind === "part" &&
    !own.has(it.thing.name) &&
    fitting(it.thing.name) !== undefined &&
    [...wordsOf(`${it.thing.name} ${it.thing.title ?? ""}`)].some((word) => words.has(word))
      ? [it.thing.name]
      : [],
  );
}

function isOfNothing({ thing }: ToRead): boolean {
  return thing.setBy.length === 0 && thing.of.length === 0;
}

/** Read at what a hand moves, with all between that and what sets it: what came off since it was read so is on again. */
function isOfTheWhole(read: ToRead): boolean {
  return isSetting(read) && isAtControl(read.thing) && read.readWhole !== undefined && read.tried === undefined;
}

function isSetting(read: ToRead): boolean {
  return read.thing.setBy.length > 0 || (read.thing.kind === "limit" && read.thing.set !== undefined);
}
