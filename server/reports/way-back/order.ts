// In which order all of it goes back: a graph of deeds with edges from the facts; what they leave open goes in the reverse of the order in which it came off.
// Invariant: never hangs. A fact outweighs what is only better so; of deeds that wait for each other in a circle, the one that came off last goes first.
import { type Slices, someAtOnce } from "../../../grammar/slices.ts";
import { grouped, putInto } from "../../model/grouped.ts";
import type { Fastener, Fluid, Hazard, Part } from "../../model/things.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { mayStay } from "../../rules/energy/still-raised.ts";
import { isFiller, isGrease, isWheel, isWordOfFillers, wordsOf } from "./by-words.ts";
import { type Deed, offAt, soon } from "./deeds.ts";
import { deedsByThing } from "./deeds-by-thing.ts";
import { makeGraph } from "./graph.ts";
import type { ToLook } from "./looks.ts";
import { beforeItIsClosed, clampsOf, fingerTight, orderReadings } from "./order-readings.ts";
import type { ToRead } from "./readings.ts";
import type { Work } from "./work.ts";

/** Less than there is between two moments of a sheet. */
const aTurn = 1e-3;

// The mirror counts least: it gives way to what the facts say, and to where a reading can be taken.
export function* inOrderOfFitting(story: Story, work: readonly Work[], readings: readonly ToRead[], looks: readonly ToLook[]): Slices<Deed[]> {
  const { job } = story;
  const by = deedsByThing(
    story,
    work.map((it) => (it.thing.kind === "hazard" ? asSoonAsMayBe(it, it.thing) : it)),
  );
  const { relations, part, first, last, entry, since, fitting, fast, nearest, fronts } = by;
  const graph = makeGraph<Deed>();

  yield;
  for (const it of readings) clampsOf(by, it).forEach((clamp) => fingerTight(by, clamp));
  for (const list of by.lists.values()) {
    for (const it of list) graph.add(it);
    for (const [i, it] of list.entries()) graph.wait(it, list[i - 1]);
  }

  // ---- facts
  let n = 0;
  /** What must be on before it, by their names. */
  const onto = new Map<string, string[]>();
  for (const { thing } of work) {
    if (n++ % someAtOnce === 0) yield;
    if (thing.kind === "part") factsOfPart(thing);
    else if (thing.kind === "fastener") factsOfFastener(thing);
    else if (thing.kind === "fluid") factsOfFluid(thing);
    else if (thing.kind === "hazard") for (const { text } of [...thing.restoreAfter, ...thing.safeBefore]) graph.wait(first(thing.name), last(text));
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

  yield;
  const finals = orderReadings(by, graph, readings);
  for (const look of looks) {
    const deed: Deed = { kind: "look", look, since: soon };
    graph.add(deed);
    graph.wait(deed, by.doing(look.thing.name, "repair"));
    graph.rather(fitting(look.thing.name), deed);
  }
  yield;

  // ---- better so, where nothing speaks against it
  for (const { thing } of work) {
    if (n++ % someAtOnce === 0) yield;
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
  yield;
  beforeItIsClosed(by, graph, finals, lower);
  yield;
  // With nothing to say when it was made safe, a hazard comes back when all else is done.
  for (const { thing } of work)
    if (thing.kind === "hazard" && since(thing.name) < 0) for (const other of work) graph.rather(first(thing.name), last(other.thing.name));
  yield;
  yield* mirror();
  yield;
  return graph.sorted();

  /** What is in front of it and what holds it comes behind it. */
  function factsOfPart(thing: Part): void {
    for (const front of nearest(thing)) {
      graph.wait(entry(front), last(thing.name));
      putInto(onto, front, thing.name);
    }
    for (const { text } of thing.heldBy) {
      graph.wait(entry(text), fitting(thing.name));
      putInto(onto, text, thing.name);
    }
  }

  /** A part that locks it goes under the nut, on what the nut holds. */
  function factsOfFastener(thing: Fastener): void {
    const locking = thing.locking?.locking;
    if (locking?.kind !== "part" || locking.part === undefined) return;
    graph.wait(entry(thing.name), last(locking.part.text));
    for (const held of relations.holds.get(thing.name) ?? []) graph.rather(entry(locking.part.text), fitting(held.name));
  }

  function factsOfFluid(thing: Fluid): void {
    if (isGrease(thing)) {
      // Packed while it is open: before what closes it.
      for (const { text } of thing.in) {
        graph.wait(first(thing.name), fitting(text));
        for (const it of part(text)?.heldBy ?? []) graph.rather(entry(it.text), first(thing.name));
        for (const front of fronts(text)) graph.rather(fitting(front), first(thing.name));
      }
    } else for (const { text } of thing.in) for (const it of fast(text)) graph.wait(first(thing.name), it);
    // Bled is when what is in front of it is on: a piston with nothing before it comes out (common practice).
    if (thing.needsBleed)
      for (const { text } of thing.in)
        for (const front of fronts(text)) if (!isWheel(part(front))) for (const it of fast(front)) graph.rather(first(thing.name), it);
    // What was undone to let it out is shut before it is filled.
    for (const name of opened(thing.name)) if (!isFiller(job.things.get(name))) graph.rather(first(thing.name), last(name));
    // It goes in where its filler or its level plug was, and that is shut behind it.
    for (const name of fillersOf(thing)) graph.rather(entry(name), last(thing.name));
  }

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
  function* mirror(): Slices<void> {
    const pieces = work
      .flatMap(({ thing, begun }) => (!begun && (thing.kind === "part" || thing.kind === "fastener") ? story.cells(thing.name) : []))
      .filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    const turn = new Map(pieces.map((it, i) => [it, i]));
    const byPlace = grouped(pieces, (it) => it.place);
    const everywhere = byPlace.get("") ?? [];
    for (const [place, here] of byPlace) {
      const cells = place === "" ? here : [...here, ...everywhere].sort((a, b) => (turn.get(a) ?? 0) - (turn.get(b) ?? 0));
      yield;
      const off = inTurn(cells);
      yield;
      for (const [i, it] of off.entries()) graph.rather(it.deed, off[i - 1]?.deed);
    }
  }

  /** What came off last first. What was on for a trial and came off again goes on behind what has to be on before it, and leaves that where it was among the others. */
  function inTurn(cells: readonly (PartCell | FastenerCell)[]): { readonly deed: Deed; readonly at: number }[] {
    const offs = new Map<string, number>();
    for (const cell of cells) {
      const at = offAt(cell);
      if (at !== undefined) offs.set(cell.thing.name, Math.max(at, offs.get(cell.thing.name) ?? at));
    }
    const turns = new Map<string, number>();
    const turnOf = (name: string, own: number): number => {
      let turn = turns.get(name) ?? own;
      if (turns.has(name)) return turn;
      // What is behind itself by way of others counts as it came off.
      turns.set(name, own);
      for (const it of onto.get(name) ?? []) {
        const at = offs.get(it);
        if (at !== undefined) turn = Math.min(turn, turnOf(it, at) - aTurn);
      }
      turns.set(name, turn);
      return turn;
    };
    const deeds = [...offs].flatMap(([name, at]) => {
      const deed = entry(name);
      return deed === undefined ? [] : [{ deed, at: turnOf(name, at) }];
    });
    return deeds.sort((a, b) => b.at - a.at);
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
}
