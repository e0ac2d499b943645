// What the facts of the machine say of the order in which it goes back: what is behind what, what holds what, where a fluid goes in.
import { type Slices, someAtOnce } from "../../../grammar/slices.ts";
import { putInto } from "../../model/grouped.ts";
import type { Fastener, Fluid, Part } from "../../model/things.ts";
import type { FastenerMoment, PartMoment, Story } from "../../story/story.ts";
import { isFiller, isGrease, isWheel, isWordOfFillers, wordsOf } from "./by-words.ts";
import type { Deed } from "./deeds.ts";
import type { DeedsByThing } from "./deeds-by-thing.ts";
import type { Graph } from "./graph.ts";

/** What must be on before a thing goes on, by their names. */
export type Onto = ReadonlyMap<string, readonly string[]>;

/** Puts them into the graph. */
export function* factsOf(by: DeedsByThing, graph: Graph<Deed>): Slices<Onto> {
  const { work, first, last } = by;
  const onto = new Map<string, string[]>();
  let n = 0;
  for (const { thing } of work) {
    if (n++ % someAtOnce === 0) yield;
    if (thing.kind === "part") factsOfPart(by, graph, onto, thing);
    else if (thing.kind === "fastener") factsOfFastener(by, graph, thing);
    else if (thing.kind === "fluid") factsOfFluid(by, graph, thing);
    else if (thing.kind === "hazard") for (const { text } of [...thing.restoreAfter, ...thing.safeBefore]) graph.wait(first(thing.name), last(text));
  }
  return onto;
}

/** What is in front of it and what holds it comes behind it. */
function factsOfPart({ nearest, entry, last, fitting }: DeedsByThing, graph: Graph<Deed>, onto: Map<string, string[]>, thing: Part): void {
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
function factsOfFastener({ relations, entry, last, fitting }: DeedsByThing, graph: Graph<Deed>, thing: Fastener): void {
  const locking = thing.locking?.locking;
  if (locking?.kind !== "part" || locking.part === undefined) return;
  graph.wait(entry(thing.name), last(locking.part.text));
  for (const held of relations.holds.get(thing.name) ?? []) graph.rather(entry(locking.part.text), fitting(held.name));
}

function factsOfFluid(by: DeedsByThing, graph: Graph<Deed>, thing: Fluid): void {
  const { story, part, first, last, entry, fitting, fast, fronts } = by;
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
  for (const name of openedToDrain(story, thing.name)) if (!isFiller(story.job.things.get(name))) graph.rather(first(thing.name), last(name));
  // It goes in where its filler or its level plug was, and that is shut behind it.
  for (const name of fillersOf(by, thing)) graph.rather(entry(name), last(thing.name));
}

/** Fillers, level plugs and caps that were open with it: in the same step, or of the same name, or where no other fluid is filled. */
function fillersOf({ story, work }: DeedsByThing, fluid: Fluid): string[] {
  const { things } = story.job;
  const words = new Set(
    [fluid, ...fluid.in.map(({ text }) => things.get(text)).filter((it) => it !== undefined)].flatMap((it) => [...wordsOf(`${it.name} ${it.title ?? ""}`)]),
  );
  const alone = work.filter((it) => it.thing.kind === "fluid").length === 1;
  return work.flatMap(({ thing }) => {
    if (!isFiller(thing)) return [];
    const near =
      alone ||
      openedToDrain(story, fluid.name).has(thing.name) ||
      [...wordsOf(`${thing.name} ${thing.title ?? ""}`)].some((word) => words.has(word) && !isWordOfFillers(word));
    return near ? [thing.name] : [];
  });
}

/** What was undone or taken off in the same step, before it was drained. */
function openedToDrain(story: Story, fluid: string): Set<string> {
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
