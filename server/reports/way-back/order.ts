// In which order all of it goes back: a graph of deeds with edges from the facts; what they leave open goes in the reverse of the order in which it came off.
// Invariant: never hangs. A fact outweighs what is only better so; of deeds that wait for each other in a circle, the one that came off last goes first.
import { grouped } from "../../model/grouped.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Fastener, Fluid, Hazard, Limit, Part, Thing } from "../../model/things.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { isSeenRunning } from "../../model/read-with.ts";
import { mayStay } from "../../rules/energy/still-raised.ts";
import { isWorking } from "../../rules/release/critical-unread.ts";
import type { Act } from "./acts.ts";
import {
  inUse,
  isAtControl,
  isCurrent,
  isFiller,
  isGrease,
  isLeak,
  isOfMesh,
  isOfWheels,
  isSeenToFlow,
  isWheel,
  isWordOfFillers,
  placeWords,
  wordsOf,
} from "./by-words.ts";
import { type Deed, deedsOf, offAt, soon } from "./deeds.ts";
import { makeGraph } from "./graph.ts";
import { wasOff } from "./opening.ts";
import type { ToRead } from "./readings.ts";
import type { Work } from "./work.ts";

// The mirror counts least: it gives way to what the facts say, and to where a reading can be taken.
export function inOrderOfFitting(story: Story, work: readonly Work[], readings: readonly ToRead[]): Deed[] {
  const { job } = story;
  const relations = relationsOf(job);
  const of = new Map<string, Deed[]>();
  const graph = makeGraph<Deed>();
  const part = (name: string): Part | undefined => ofKind(job.things.get(name), "part");
  const first = (name: string) => of.get(name)?.[0];
  const last = (name: string) => of.get(name)?.at(-1);
  /** Where it goes on: a repair on the bench needs no way in. */
  const entry = (name: string) => of.get(name)?.find((it) => it.kind === "acts" && it.acts.some((act) => act.verb !== "repair" && act.verb !== "clean"));
  const since = (name: string) => entry(name)?.since ?? -1;
  const fitting = (name: string) => of.get(name)?.find((it) => it.kind === "acts" && it.acts.some((act) => act.verb === "fit"));
  /** All of it and of what holds it. */
  const fast = (name: string) => [last(name), ...(part(name)?.heldBy ?? []).map((it) => last(it.text))];

  for (const it of work) of.set(it.thing.name, deedsOf(it.thing.kind === "hazard" ? asSoonAsMayBe(it, it.thing) : it));
  for (const it of readings) clampedBy(it).forEach(fingerTight);
  for (const list of of.values()) {
    for (const it of list) graph.add(it);
    for (const [i, it] of list.entries()) graph.wait(it, list[i - 1]);
  }

  // ---- facts
  for (const { thing } of work) {
    if (thing.kind === "part") {
      for (const front of nearest(thing)) graph.wait(entry(front), last(thing.name));
      for (const { text } of thing.heldBy) graph.wait(entry(text), fitting(thing.name));
    }
    if (thing.kind === "fastener") {
      const locking = thing.locking?.locking;
      if (locking?.kind === "part" && locking.part !== undefined) {
        graph.wait(entry(thing.name), last(locking.part.text));
        // It goes under the nut, on what the nut holds.
        for (const held of relations.holds.get(thing.name) ?? []) graph.rather(entry(locking.part.text), fitting(held.name));
      }
    }
    if (thing.kind === "fluid" && isGrease(thing)) {
      // Packed while it is open: before what closes it.
      for (const { text } of thing.in) {
        graph.wait(first(thing.name), fitting(text));
        for (const it of part(text)?.heldBy ?? []) graph.rather(entry(it.text), first(thing.name));
        for (const front of fronts(text)) graph.rather(fitting(front), first(thing.name));
      }
    } else if (thing.kind === "fluid") for (const { text } of thing.in) for (const it of fast(text)) graph.wait(first(thing.name), it);
    // Bled is when what is in front of it is on: a piston with nothing before it comes out (common practice).
    if (thing.kind === "fluid" && thing.needsBleed)
      for (const { text } of thing.in)
        for (const front of fronts(text)) if (!isWheel(part(front))) for (const it of fast(front)) graph.rather(first(thing.name), it);
    // What was undone to let it out is shut before it is filled.
    if (thing.kind === "fluid") for (const name of opened(thing.name)) if (!isFiller(job.things.get(name))) graph.rather(first(thing.name), last(name));
    // It goes in where its filler or its level plug was, and that is shut behind it.
    if (thing.kind === "fluid") for (const name of fillersOf(thing)) graph.rather(entry(name), last(thing.name));
    if (thing.kind === "hazard") for (const { text } of [...thing.restoreAfter, ...thing.safeBefore]) graph.wait(first(thing.name), last(text));
  }
  const carried = story.support.at(-1)?.after;
  const raised = carried?.raised;
  const lower: Deed | undefined = carried === undefined || raised === undefined || mayStay(carried) ? undefined : { kind: "lower", since: raised.moment.seq };
  if (lower !== undefined) {
    graph.add(lower);
    for (const { thing } of work) {
      if (thing.kind === "part" || thing.kind === "fastener") graph.wait(lower, last(thing.name));
      if (thing.kind === "fluid") graph.rather(lower, last(thing.name));
    }
  }

  // ---- readings: a size before its piece goes in, a setting as soon as it can be taken, and before its clamps are done up for good
  const finals: Extract<Deed, { kind: "read" }>[] = [];
  for (const read of readings) {
    const final: Deed = { kind: "read", read, stage: "final", since: sinceOf(read) };
    finals.push(final);
    graph.add(final);
    for (const name of read.after) graph.wait(final, last(name));
    for (const name of read.before) {
      graph.wait(
        final,
        of.get(name)?.find((it) => it.kind === "acts" && it.acts.some((act) => act.verb === "repair")),
      );
      graph.wait(fitting(name), final);
    }
    const clamps = clampedBy(read);
    if (clamps.length > 0) {
      const trial: Deed = { kind: "read", read, stage: "trial", since: soon };
      graph.add(trial);
      for (const clamp of clamps) {
        const tight = of.get(clamp.name)?.find((it) => it.kind === "acts" && it.acts.some((act) => act.verb === "tighten"));
        graph.wait(tight, trial);
        graph.rather(trial, fitting(clamp.name));
      }
      for (const { text } of read.thing.of) for (const it of fast(text)) graph.rather(trial, it);
      // Of nothing that is named (toe-in), it is tried when all else is together.
      if (read.thing.of.length === 0)
        for (const { thing } of work)
          if ((thing.kind === "part" || thing.kind === "fastener") && !clamps.some((it) => it.name === thing.name)) graph.rather(trial, last(thing.name));
      graph.rather(final, trial);
    }
    // What is in and tight as it is read.
    for (const name of read.inIt) for (const deed of fast(name)) graph.wait(final, deed);
    if (read.before.length > 0) continue;
    if (isOfNothing(read)) whenTogether(read, final);
    if (isOfTheWhole(read))
      for (const { thing } of work)
        if ((thing.kind === "part" || thing.kind === "fastener") && since(thing.name) > final.since) graph.rather(final, last(thing.name));
    if (read.thing.kind === "check" && (isSeenRunning(read.thing) || isSeenToFlow(read.thing)))
      for (const { thing } of work) if (thing.kind === "fluid") graph.rather(final, last(thing.name));
    const setters = read.thing.setBy.map((it) => it.text);
    const held = setters.flatMap((name) => relations.holds.get(name) ?? []).map((it) => it.name);
    for (const name of [...setters, ...held, ...read.thing.of.map((it) => it.text)]) for (const it of fast(name)) graph.rather(final, it);
    if (isOfMesh(read.thing))
      for (const name of [...setters, ...read.thing.of.map((it) => it.text)])
        for (const mate of mates(name)) for (const it of fast(mate)) graph.rather(final, it);
    // What has no fastener of its own is there when what is in front keeps it there: a thrust washer under its stub axle, a shoe in its drum.
    for (const name of [...read.thing.of.map(({ text }) => text), ...setters, ...read.inIt]) for (const it of heldFast(name, read)) graph.rather(final, it);
    if (isLeak(read.thing)) for (const { thing } of work) if (thing.kind === "fluid") graph.rather(final, last(thing.name));
    // Leaks: when it is tight, filled and bled.
    for (const name of read.thing.of)
      for (const fluid of relations.fluidsIn.get(name.text) ?? [])
        if (read.thing.kind === "check" || read.thing.set !== undefined) graph.wait(final, last(fluid.name));
    // A pedal is hard when what its unions hold has been bled.
    for (const name of held) for (const fluid of relations.fluidsIn.get(name) ?? []) if (fluid.needsBleed) graph.rather(final, last(fluid.name));
    asItWasTried(read, final);
    for (const name of namedIn(read)) for (const it of fast(name)) graph.rather(final, it);
  }

  // ---- better so, where nothing speaks against it
  for (const { thing } of work) {
    if (thing.kind !== "fastener") continue;
    for (const held of relations.holds.get(thing.name) ?? [])
      for (const front of nearest(held)) {
        // What is behind a part is out of reach once that is on, unless it was undone while that was on.
        if (since(thing.name) >= 0 && since(thing.name) < since(front)) graph.rather(entry(thing.name), fitting(front));
        else {
          graph.rather(entry(front), last(thing.name));
          graph.rather(entry(front), entry(thing.name));
        }
      }
  }
  for (const final of finals) {
    const setters = final.read.thing.setBy.map((it) => it.text);
    const held = setters.flatMap((name) => relations.holds.get(name) ?? []).map((it) => it.name);
    if (inUse(final.read.thing) || isOfWheels(final.read.thing)) graph.rather(final, lower);
    else {
      // Read at a piece that is in front: what came off after that is on again by then.
      const whole = isOfTheWhole(final.read) ? final.since : -1;
      const at = Math.max(whole, ...namedIn(final.read).map(since));
      for (const name of [...setters, ...held, ...final.read.thing.of.map((it) => it.text)])
        for (const front of fronts(name)) if (at < 0 || since(front) < at) graph.rather(fitting(front), final);
      graph.rather(lower, final);
    }
  }
  // With nothing to say when it was made safe, a hazard comes back when all else is done.
  for (const { thing } of work)
    if (thing.kind === "hazard" && since(thing.name) < 0) for (const other of work) graph.rather(first(thing.name), last(other.thing.name));
  mirror();
  return graph.sorted();

  /**
   * What was made safe just before the thing came off that it bars is live again when that is back, though the same came off later at another place.
   * What was made safe for more than that (a battery, before a gearbox came out) keeps its place.
   */
  function asSoonAsMayBe(it: Work, hazard: Hazard): Work {
    const barred = new Set([...hazard.restoreAfter, ...hazard.safeBefore].map((name) => name.text));
    const moves = [...story.parts, ...story.fasteners].flatMap((cell) =>
      (cell.history as readonly (PartMoment | FastenerMoment)[])
        .filter((was) => was.seq > it.since && (was.verb === "remove" || was.verb === "undo"))
        .map((was) => ({ seq: was.seq, bars: barred.has(cell.thing.name) })),
    );
    const first = moves.reduce<(typeof moves)[number] | undefined>((a, b) => (a === undefined || b.seq < a.seq ? b : a), undefined);
    const off = work.flatMap((other) => (barred.has(other.thing.name) && other.since >= 0 ? [other.since] : []));
    if (it.since < 0 || first?.bars !== true || off.length === 0) return it;
    // Of several, that which was made safe last comes back first.
    return { ...it, since: Math.max(it.since, Math.min(...off) - 1 / (it.since + 2)) };
  }

  /** At each place, what came off before another goes on after it; but what is half on already is finished first. */
  function mirror(): void {
    const pieces = work
      .flatMap(({ thing, begun }) => (!begun && (thing.kind === "part" || thing.kind === "fastener") ? story.cells(thing.name) : []))
      .filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    const turn = new Map(pieces.map((it, i) => [it, i]));
    const byPlace = grouped(pieces, (it) => it.place);
    const everywhere = byPlace.get("") ?? [];
    for (const [place, here] of byPlace) {
      const off = (place === "" ? here : [...here, ...everywhere].sort((a, b) => (turn.get(a) ?? 0) - (turn.get(b) ?? 0)))
        .flatMap((cell) => {
          const deed = entry(cell.thing.name);
          const at = offAt(cell);
          return deed === undefined || at === undefined ? [] : [{ deed, at }];
        })
        .sort((a, b) => b.at - a.at);
      for (const [i, it] of off.entries()) graph.rather(it.deed, off[i - 1]?.deed);
    }
  }

  /**
   * What is critical and of nothing that is declared is of the whole: a look, or what is read of it as it works, comes when all that is critical is together and
   * what was made safe works again. A size is read wherever it can be got at.
   */
  function whenTogether({ thing, places }: ToRead, final: Deed): void {
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

  /** Fillers, level plugs and caps that were open with it: in the same step, or of the same name, or where no other fluid is filled. */
  function fillersOf(fluid: Fluid): string[] {
    const words = new Set(
      [fluid, ...fluid.in.map(({ text }) => job.things.get(text)).filter((it) => it !== undefined)].flatMap((it) => [
        ...wordsOf(`${it.name} ${it.title ?? ""}`),
      ]),
    );
    const alone = work.filter((it) => it.thing.kind === "fluid").length === 1;
    return work.flatMap(({ thing }) => {
      if (!isFiller(thing)) return [];
      const near =
        alone ||
        opened(fluid.name).has(thing.name) ||
        [...wordsOf(`${thing.name} ${thing.title ?? ""}`)].some((word) => words.has(word) && !isWordOfFillers(word));
      return near ? [thing.name] : [];
    });
  }

  /** What was undone or taken off in the same step, before it was drained. */
  function opened(fluid: string): Set<string> {
    const drains = story.cells(fluid).flatMap((cell) => (cell.kind === "fluid" ? cell.history.filter((it) => it.verb === "drain") : []));
    const names = [...story.parts, ...story.fasteners].flatMap((cell) =>
      (cell.history as readonly (PartMoment | FastenerMoment)[])
        .filter(
          (it) =>
            (it.verb === "undo" || it.verb === "remove") && drains.some((drain) => drain.visit !== undefined && drain.visit === it.visit && drain.seq > it.seq),
        )
        .map(() => cell.thing.name),
    );
    return new Set(names);
  }

  /** All that keeps it where it is, with what holds the part before it where it has nothing of its own; but for what was off when it was read in its place before. */
  function heldFast(name: string, read: ToRead, seen = new Set<string>()): (Deed | undefined)[] {
    if (seen.has(name)) return [];
    seen.add(name);
    const it = part(name);
    // What stayed where it is needs nothing in front of it, and is looked at while it is bare.
    const stays = fitting(name) === undefined && !isSetting(read);
    if (it === undefined || it.heldBy.length > 0 || stays) return fast(name);
    return [...fast(name), ...it.behind.filter((front) => !wasBare(front.text, read)).flatMap((front) => heldFast(front.text, read, seen))];
  }

  /** What it is matched with, whichever of the two says so. */
  function mates(name: string): string[] {
    const own = (part(name)?.matchedWith ?? []).map((it) => it.text);
    const others = work.flatMap(({ thing }) => (thing.kind === "part" && thing.matchedWith.some((it) => it.text === name) ? [thing.name] : []));
    return [...new Set([...own, ...others])];
  }

  /** What its words say that it is read at (“at the sheave rim”): a piece that goes on, by its name or its title. */
  function namedIn({ thing }: ToRead): string[] {
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

  /** Tried while some was on for now and some still off: the same is read again when the first is on for good, before the second goes on. */
  function asItWasTried({ tried }: ToRead, final: Deed): void {
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

  function wasBare(front: string, { readWhole, places }: ToRead): boolean {
    if (readWhole === undefined) return false;
    const here = story
      .cells(front)
      .filter((it): it is PartCell => it.kind === "part" && (it.place === "" || places.some((place) => place === "" || place === it.place)));
    return here.length > 0 && here.every((it) => wasOff(it, readWhole));
  }

  /** Just before the step began in which it last came off: what came off with it was on when it was read. -1: it never did. */
  function takenApart(name: string): number {
    const off = story
      .cells(name)
      .flatMap((cell) => (cell.kind === "part" || cell.kind === "fastener" ? (cell.history as readonly (PartMoment | FastenerMoment)[]) : []))
      .filter((it) => it.verb === "remove" || it.verb === "undo")
      .at(-1);
    if (off?.visit === undefined) return -1;
    return Math.min(...[...story.parts, ...story.fasteners].flatMap((cell) => cell.history.filter((it) => it.visit === off.visit).map((it) => it.seq))) - 0.5;
  }

  /** A reading goes where it was taken before; what was never looked at is looked at as late as it can be seen, a setting as soon as it can be. */
  function sinceOf(read: ToRead): number {
    if (read.ahead !== undefined) return soon;
    if (inUse(read.thing)) return -2;
    if (isOfWheels(read.thing)) return -1;
    if (read.tried !== undefined) return soon;
    if (isOfTheWhole(read)) return read.readWhole ?? -1;
    if (isSetting(read)) return read.last ? (read.readWhole ?? -1) : soon;
    if (read.readWhole !== undefined) return Math.max(read.readWhole, ...read.thing.of.map((it) => takenApart(it.text)));
    if (read.thing.kind === "limit") return read.last ? -1 : soon;
    const covers = read.thing.of.flatMap((it) => [...fronts(it.text)]).filter((it) => !heldFast(read.thing.of[0]?.text ?? "", read).includes(last(it)));
    return Math.max(-1, ...covers.map((it) => (fitting(it)?.since ?? -1) + 0.5));
  }

  /** A fastener that is done up when what it sets has been tried: it holds none of what is measured, and has a torque of its own. */
  function clampedBy({ thing, clamped }: ToRead): Fastener[] {
    if (thing.kind !== "limit" || thing.set === undefined || !clamped) return [];
    // Of nothing that is named, it is set by what a clamp holds: a rod end, a shim, an adjuster.
    const adjusts = thing.setBy.some(({ text }) => job.things.get(text)?.kind !== "fastener" || relations.adjusting.has(text));
    if (thing.of.length === 0 && !adjusts) return [];
    return thing.setBy
      .map((it) => ofKind(job.things.get(it.text), "fastener"))
      .filter(
        (it): it is Fastener =>
          it !== undefined &&
          (it.torque?.range !== undefined || it.torque?.byFeel !== undefined) &&
          (of.get(it.name) ?? []).some((deed) => deed.kind === "acts" && deed.acts.some((act) => act.verb === "tighten")) &&
          !(relations.holds.get(it.name) ?? []).some((held) => (thing as Limit).of.some((name) => name.text === held.name)),
      );
  }

  /** It goes on with the rest and is done up later. */
  function fingerTight(clamp: Fastener): void {
    const list = of.get(clamp.name) as Deed[];
    const at = list.findIndex((it) => it.kind === "acts" && it.acts.some((act) => act.verb === "tighten"));
    const tight = list[at];
    if (tight?.kind !== "acts" || fitting(clamp.name) !== undefined) return;
    const off = story.cells(clamp.name).filter((it) => it.kind === "fastener" && it.then.on < it.total);
    if (off.length === 0) return;
    const places = tight.acts.flatMap((it) => it.places);
    list.splice(at, 0, { ...tight, acts: [{ verb: "fit", places, note: "finger tight: it is done up when the setting has been tried" }] });
  }

  /** What is in front of a part and has work to be done on it: a part in between that stays as it is hides nothing of what is beyond. */
  function nearest(thing: Part): string[] {
    const found: string[] = [];
    const seen = new Set(thing.behind.map((it) => it.text));
    for (const name of seen) {
      if (of.has(name)) found.push(name);
      else for (const it of part(name)?.behind ?? []) seen.add(it.text);
    }
    return found;
  }

  /** All that is in front of a thing, however far. */
  function fronts(name: string): Set<string> {
    const seen = new Set((part(name)?.behind ?? []).map((it) => it.text));
    for (const front of seen) for (const it of part(front)?.behind ?? []) seen.add(it.text);
    return seen;
  }
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

function ofKind<K extends Thing["kind"]>(thing: Thing | undefined, kind: K): Extract<Thing, { kind: K }> | undefined {
  return thing?.kind === kind ? (thing as Extract<Thing, { kind: K }>) : undefined;
}
