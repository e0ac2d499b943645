// What nothing else orders goes on in the reverse of the order in which it came off, place by place.
// Invariant: it counts least, and gives way to whatever the graph holds already.
import type { Slices } from "../../../grammar/slices.ts";
import { grouped } from "../../model/grouped.ts";
import type { FastenerCell, PartCell } from "../../story/story.ts";
import { type Deed, offAt } from "./deeds.ts";
import type { DeedsByThing } from "./deeds-by-thing.ts";
import type { Graph } from "./graph.ts";
import type { Onto } from "./order-facts.ts";

/** Less than there is between two moments of a sheet. */
const aTurn = 1e-3;

/** At each place, what came off before another goes on after it; but what is half on already is finished first. */
export function* mirror(by: DeedsByThing, graph: Graph<Deed>, onto: Onto): Slices<void> {
  const pieces = by.work
    .flatMap(({ thing, begun }) => (!begun && (thing.kind === "part" || thing.kind === "fastener") ? by.story.cells(thing.name) : []))
    .filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
  const turn = new Map(pieces.map((it, i) => [it, i]));
  const byPlace = grouped(pieces, (it) => it.place);
  const everywhere = byPlace.get("") ?? [];
  for (const [place, here] of byPlace) {
    const cells = place === "" ? here : [...here, ...everywhere].sort((a, b) => (turn.get(a) ?? 0) - (turn.get(b) ?? 0));
    yield;
    const off = inTurn(by, onto, cells);
    yield;
    for (const [i, it] of off.entries()) graph.rather(it.deed, off[i - 1]?.deed);
  }
}

/** What came off last first. What was on for a trial and came off again goes on behind what has to be on before it, and leaves that where it was among the others. */
function inTurn({ entry }: DeedsByThing, onto: Onto, cells: readonly (PartCell | FastenerCell)[]): { readonly deed: Deed; readonly at: number }[] {
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
