// The way in as it is written line by line: each piece that comes off, behind what is in front of it, what makes it safe, drains it, takes its weight and lets it go.
import { relationsOf } from "../../model/relations.ts";
import { isSamePlace } from "../../model/same-place.ts";
import type { Fastener, Hazard, Part } from "../../model/things.ts";
import type { Where } from "../../model/where.ts";
import { ofTheRest } from "../../story/around.ts";
import type { FastenerCell, PartCell, Story } from "../../story/story.ts";
import type { Act } from "./acts.ts";
import { isGrease } from "./by-words.ts";
import { noted } from "./lines.ts";
import type { Piece, Pieces } from "./pieces-beside.ts";
import { lastWhere } from "./wanted.ts";
import { setDown, weightOf } from "./weights.ts";

/** One line: what is alike at several places. */
export interface WayInLine {
  readonly name: string;
  readonly act: Act;
  readonly where: Where;
  readonly places: Set<string>;
}

export interface WayIn {
  readonly story: Story;
  /** The planned step that holds what was opened already, whose lines are no place to lead to. */
  readonly own: string;
  readonly pieces: Pieces;
  /** In the order in which they are written, by name and act. */
  readonly lines: Map<string, WayInLine>;
  /** The keys of each name in `lines`. */
  readonly keys: Map<string, Set<string>>;
  /** How many come off of each piece, or are undone. */
  readonly opened: Map<Piece, number>;
  readonly removed: Set<Part>;
  readonly undone: Set<Fastener>;
  /** The hazards that are made safe. */
  readonly safe: Set<string>;
}

export function newWayIn(story: Story, own: string, pieces: Pieces): WayIn {
  return { story, own, pieces, lines: new Map(), keys: new Map(), opened: new Map(), removed: new Set(), undone: new Set(), safe: new Set() };
}

/** Takes so many off. */
export function open(way: WayIn, cell: PartCell, count: number, note?: string): void {
  const { story, pieces, opened } = way;
  const { thing, place } = cell;
  if (opened.has(cell) || cell.then.on === 0) return;
  opened.set(cell, count);
  openAll(
    way,
    pieces.beside(thing.behind, place, "part").filter((front) => front.then.on > 0 && !front.thing.implied),
  );
  makeSafe(way, cell);
  for (const fluid of relationsOf(story.job).fluidsIn.get(thing.name) ?? [])
    for (const it of story.cells(fluid.name))
      if (it.kind === "fluid" && it.then.full && !isGrease(fluid) && isSamePlace(it.place, place))
        put(way, fluid.name, { verb: "drain", places: [] }, it.place, lastWhere(cell, way.own));
  const holding = pieces.beside(thing.heldBy, place, "fastener").filter((it) => it.then.on > 0);
  const weight = takeWeight(way, cell);
  if (thing.keepsPlace && !cell.then.marked) put(way, thing.name, { verb: "mark", places: [], rest: '"___"' }, place, lastWhere(cell, way.own));
  for (const it of holding) undo(way, it, it.then.on - Math.min(it.then.on - 1, ofTheRest(it, cell, cell.then.on - count)));
  const some = count < cell.then.on ? { count } : {};
  put(way, thing.name, { verb: "remove", places: [], ...some, ...noted(note === undefined ? [] : [note]) }, place, lastWhere(cell, way.own));
  if (weight !== undefined) put(way, thing.name, setDown, "", lastWhere(cell, way.own));
  way.removed.add(thing);
}

export function openAll(way: WayIn, cells: readonly PartCell[]): void {
  for (const cell of cells) open(way, cell, cell.then.on);
}

/** Before it is let go; what hangs already, hangs. */
function takeWeight(way: WayIn, cell: PartCell): Act | undefined {
  const weight = weightOf(cell.thing);
  if (weight !== undefined && !way.story.support.at(-1)?.after.supports.some((it) => it.part === cell.thing.name))
    put(way, cell.thing.name, weight, "", lastWhere(cell, way.own));
  return weight;
}

/** Undoes so many of a fastener: they come off with what they hold. */
export function undo(way: WayIn, cell: FastenerCell, count: number, note?: string): void {
  const { opened, pieces, lines, keys } = way;
  const { thing, place } = cell;
  if ((opened.get(cell) ?? 0) >= count || cell.then.on === 0) return;
  way.undone.add(thing);
  opened.set(cell, count);
  makeSafe(way, cell);
  for (const held of relationsOf(way.story.job).holds.get(thing.name) ?? [])
    for (const it of pieces.beside([{ text: held.name, at: held.at }], place, "part")) if (it.then.on > 0 && isLetGo(way, it)) takeWeight(way, it);
  // The same nut may have to come undone for its own sake, and for that of the part which it holds.
  const had = [...(keys.get(thing.name) ?? [])].find((key) => {
    const it = lines.get(key);
    return it?.act.verb === "undo" && it.places.has(place) && it.places.size === 1;
  });
  if (had !== undefined) {
    lines.delete(had);
    keys.get(thing.name)?.delete(had);
  }
  const some = count < cell.then.on ? { count } : {};
  put(way, thing.name, { verb: "undo", places: [], ...some, ...(note === undefined ? {} : { note }) }, place, lastWhere(cell, way.own));
}

/** Lets it go for a setting, and leaves it where it is. */
export function slacken(way: WayIn, cell: FastenerCell, note: string): void {
  makeSafe(way, cell);
  put(way, cell.thing.name, { verb: "slacken", places: [], note }, cell.place, lastWhere(cell, way.own));
  way.undone.add(cell.thing);
}

/** All that holds it is off, or comes off here. */
function isLetGo({ pieces, opened }: WayIn, cell: PartCell): boolean {
  const holding = pieces.beside(cell.thing.heldBy, cell.place, "fastener");
  return holding.length > 0 && holding.every((it) => it.then.on === 0 || (opened.get(it) ?? 0) >= it.then.on);
}

function makeSafe(way: WayIn, cell: Piece): void {
  const { story, safe } = way;
  for (const hazard of relationsOf(story.job).barredBy.get(cell.thing.name) ?? []) {
    const live = story.cells(hazard.name).some((it) => it.kind === "hazard" && it.then && !it.unsure);
    if (!live || safe.has(hazard.name)) continue;
    safe.add(hazard.name);
    put(way, hazard.name, { verb: "safe", places: [], rest: '"___"', ...cautionOf(hazard) }, "", lastWhere(cell, way.own));
  }
}

/** The hazard's own caution, where the line stands that makes it safe. */
function cautionOf(hazard: Hazard): { note?: string } {
  return hazard.caution === undefined ? {} : { note: hazard.caution };
}

/** What is alike at several places is one line, where the first of them stands. */
function put({ lines, keys }: WayIn, name: string, act: Act, place: string, where: Where): void {
  const key = JSON.stringify([name, act]);
  lines.set(key, { name, act, where, places: (lines.get(key)?.places ?? new Set()).add(place) });
  keys.set(name, (keys.get(name) ?? new Set()).add(key));
}
