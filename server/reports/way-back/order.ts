// In which order all of it goes back: a graph of deeds with edges from the facts; what they leave open goes in the reverse of the order in which it came off.
// Invariant: never hangs. A fact outweighs what is only better so; of deeds that wait for each other in a circle, the one that came off last goes first.
import { type Slices, someAtOnce } from "../../../grammar/slices.ts";
import type { Hazard } from "../../model/things.ts";
import { type FastenerMoment, type PartMoment, type Story, mayStay } from "../../story/story.ts";
import { type Deed, soon } from "./deeds.ts";
import { type DeedsByThing, deedsByThing } from "./deeds-by-thing.ts";
import { type Graph, makeGraph } from "./graph.ts";
import type { ToLook } from "./looks.ts";
import { mirror } from "./mirror.ts";
import { factsOf } from "./order-facts.ts";
import { beforeItIsClosed, clampsOf, fingerTight, orderReadings } from "./order-readings.ts";
import type { ToRead } from "./readings.ts";
import type { Work } from "./work.ts";

// The mirror counts least: it gives way to what the facts say, and to where a reading can be taken.
export function* inOrderOfFitting(story: Story, work: readonly Work[], readings: readonly ToRead[], looks: readonly ToLook[]): Slices<Deed[]> {
  const by = deedsByThing(
    story,
    work.map((it) => (it.thing.kind === "hazard" ? asSoonAsMayBe(story, work, it, it.thing) : it)),
  );
  const graph = makeGraph<Deed>();
  yield;
  for (const it of readings) for (const clamp of clampsOf(by, it)) fingerTight(by, clamp);
  for (const list of by.lists.values()) {
    for (const it of list) graph.add(it);
    for (const [i, it] of list.entries()) graph.wait(it, list[i - 1]);
  }
  const onto = yield* factsOf(by, graph);
  const lower = letDown(by, graph);
  yield;
  const finals = orderReadings(by, graph, readings);
  orderLooks(by, graph, looks);
  yield;
  yield* beforeFrontsGoOn(by, graph);
  yield;
  beforeItIsClosed(by, graph, finals, lower);
  yield;
  hazardsLast(by, graph);
  yield;
  yield* mirror(by, graph, onto);
  yield;
  return graph.sorted();
}

/**
 * What was made safe just before the thing came off that it bars is live again when that is back, though the same came off later at another place.
 * What was made safe for more than that (a battery, before a gearbox came out) keeps its place.
 */
function asSoonAsMayBe(story: Story, work: readonly Work[], it: Work, hazard: Hazard): Work {
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

/** Let down when all is on and tight, where it is up and may not stay there. */
function letDown({ story, work, last }: DeedsByThing, graph: Graph<Deed>): Deed | undefined {
  const carried = story.support.at(-1)?.after;
  if (carried?.raised === undefined || mayStay(carried)) return undefined;
  const lower: Deed = { kind: "lower", since: carried.raised.moment.seq };
  graph.add(lower);
  for (const { thing } of work) {
    if (thing.kind === "part" || thing.kind === "fastener") graph.wait(lower, last(thing.name));
    if (thing.kind === "fluid") graph.rather(lower, last(thing.name));
  }
  return lower;
}

/** Looked at once more when it is mended, and before it goes in. */
function orderLooks({ doing, fitting }: DeedsByThing, graph: Graph<Deed>, looks: readonly ToLook[]): void {
  for (const look of looks) {
    const deed: Deed = { kind: "look", look, since: soon };
    graph.add(deed);
    graph.wait(deed, doing(look.thing.name, "repair"));
    graph.rather(fitting(look.thing.name), deed);
  }
}

/** A fastener is done up before what is in front of it closes it in. */
function* beforeFrontsGoOn({ work, relations, nearest, since, entry, last, fitting }: DeedsByThing, graph: Graph<Deed>): Slices<void> {
  let n = 0;
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
}

/** With nothing to say when it was made safe, a hazard comes back when all else is done. */
function hazardsLast({ work, since, first, last }: DeedsByThing, graph: Graph<Deed>): void {
  for (const { thing } of work)
    if (thing.kind === "hazard" && since(thing.name) < 0) for (const other of work) graph.rather(first(thing.name), last(other.thing.name));
}
