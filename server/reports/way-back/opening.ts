// The way in that must be opened first: what is on and has to be renewed comes off, and so does what was closed over a place where something is still off.
// Invariant: planned lines only, in an order that hands can follow: made safe, drained, its weight taken, undone, removed; what is in front before what is behind.
import { isSamePlace } from "../../model/same-place.ts";
import { type Slices, mapping, someAtOnce } from "../../../grammar/slices.ts";
import type { Name } from "../../../grammar/tree.ts";
import { placesOf } from "../../model/job.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Fastener, Hazard, Limit, Part } from "../../model/things.ts";
import type { Where } from "../../model/where.ts";
import { fastenerAsItStands, partAsItStands } from "../../story/cells.ts";
import { ofTheRest } from "../../story/around.ts";
import { discardedAt } from "../../story/decisions.ts";
import { isOpen, standsIn } from "../../story/standing.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { actText, filledAs, type Act } from "./acts.ts";
import { isGrease, restoredWords } from "./by-words.ts";
import { noted } from "./lines.ts";
import { type Wanted, discardedOn, isDiscarded, lastWhere, newWanted, untouched } from "./wanted.ts";
import { settingsOut } from "./settings-out.ts";
import { setDown, weightOf } from "./weights.ts";
import { grouped } from "../../model/grouped.ts";

export interface OpeningLine {
  /** Of a part that comes off: its name, and those that it is renewed with. */
  readonly off?: { readonly name: string; readonly with: readonly string[] };
  readonly text: string;
  readonly note?: string;
  readonly filled?: string;
  readonly where: Where;
}

export interface Opening {
  readonly lines: readonly OpeningLine[];
  /** What comes off, in that order; where nothing does, what is undone. */
  readonly things: readonly (Part | Fastener)[];
}

type Piece = PartCell | FastenerCell;

/** `own`: the planned step that holds what was opened already, whose lines are no place to lead to. */
export function* openingOf(story: Story, own: string): Slices<Opening> {
  let n = 0;
  const { job } = story;
  const relations = relationsOf(job);
  // In the order in which they are written, by name and act; and the keys of each name.
  const lines = new Map<string, { name: string; act: Act; where: Where; own: Set<string> }>();
  const keys = new Map<string, Set<string>>();
  const removed = new Set<Part>();
  const undone = new Set<Fastener>();
  const opened = new Map<Piece, number>();
  const safe = new Set<string>();
  const cells = new Map<string, readonly Piece[]>();
  const wanted = newWanted(story);
  const others = untouched(story);
  yield;
  const known = grouped<string, Piece>([...story.parts, ...story.fasteners, ...others.parts, ...others.fasteners], (cell) => cell.thing.name);
  const blanks = story.job.own.sheet.lines.map((it) => it.trim()).filter((it) => it.startsWith("fit ___  # "));

  for (const cell of [...story.parts, ...others.parts]) {
    if (n++ % someAtOnce === 0) yield;
    if (cell.unsure) continue;
    const extra = cell.then.on - cell.total;
    if (extra > 0) open(cell, extra, "more than there should be: find where it belongs");
    const away = discardedOn(story, cell);
    if (away > 0) open(cell, away, "decided to be discarded");
    if (isDiscarded(story, cell)) continue;
    const short = Math.max(0, cell.total - cell.then.on - discardedAt(story, cell));
    const over = Math.min(newHere(wanted, cell) - short, cell.then.on);
    if (over > 0 && away === 0) open(cell, over);
    if (short > 0 && !waitsInBlank(cell.thing.name)) for (const front of closedOver(cell)) open(front, front.then.on);
  }
  for (const cell of [...story.fasteners, ...others.fasteners]) {
    if (n++ % someAtOnce === 0) yield;
    if (cell.unsure) continue;
    const away = discardedOn(story, cell);
    if (away > 0) undo(cell, away, "decided to be discarded");
    if (isDiscarded(story, cell)) continue;
    const short = Math.max(0, cell.total - cell.then.on - discardedAt(story, cell));
    const stands = standsIn(cell);
    const over = Math.min(newHere(wanted, cell) - short, cell.then.on);
    if (stands) undo(cell, cell.then.on, "one of them is in for now: put the right one in its place");
    else if (over > 0 && away === 0) undo(cell, over);
    if ((stands || over > 0 || isOpen(cell) || cell.then.forNow) && !waitsInBlank(cell.thing.name))
      for (const front of shutIn(cell)) open(front, front.then.on);
  }
  yield;
  for (const { limit, place, text } of settingsOut(story)) {
    for (const cell of settersOf(limit, place)) {
      for (const front of coveredBy(cell)) open(front, front.then.on);
      makeSafe(cell);
      put(cell.thing.name, { verb: "slacken", places: [], note: text }, cell.place, lastWhere(cell, own));
      if (cell.kind === "fastener") undone.add(cell.thing);
    }
  }
  yield;
  return {
    lines: yield* mapping(weightsFirst([...lines.values()]), ({ name, act: alone, where, own }) => {
      const act = { ...alone, places: placesSaid(name, own) };
      return { text: actText(name, act), ...(act.note === undefined ? {} : { note: act.note }), ...filledAs(name, act), ...offOf(name, act), where };
    }),
    things: removed.size > 0 ? [...removed] : [...undone],
  };

  /** The fasteners that it is set by there, where all of them stand tight. */
  function settersOf(limit: Limit, place: string): FastenerCell[] {
    const setters = limit.setBy.some(({ text }) => job.things.get(text)?.kind !== "fastener") ? [] : beside(limit.setBy, place, "fastener");
    return setters.every((it) => !opened.has(it) && it.then.on >= it.total && it.then.tight && !it.then.forNow) ? setters : [];
  }

  /** In front of all that it holds, and on: what is in front of some of that only leaves it within reach. */
  function coveredBy(cell: FastenerCell): PartCell[] {
    const [first, ...more] = (relations.holds.get(cell.thing.name) ?? []).map((part) => new Set(beside(part.behind, cell.place, "part")));
    return [...(first ?? [])].filter((it) => it.then.on > 0 && !it.thing.implied && more.every((others) => others.has(it)));
  }

  /** One line undoes at several places what is let go with the last of them: its weight is taken before the first. */
  function weightsFirst<L extends { readonly name: string; readonly act: Act }>(all: readonly L[]): readonly L[] {
    const undoings = new Map<string, number>();
    for (const [i, it] of all.entries()) if (it.act.verb === "undo" && !undoings.has(it.name)) undoings.set(it.name, i);
    const turns = all.map((it, i) => {
      const part = it.act.verb === "support" ? job.things.get(it.name) : undefined;
      const first = part?.kind === "part" ? Math.min(...part.heldBy.map(({ text }) => undoings.get(text) ?? i)) : i;
      return { it, at: first < i ? first - 0.5 : i };
    });
    return turns.sort((a, b) => a.at - b.at).map(({ it }) => it);
  }

  function offOf(name: string, act: Act): Pick<OpeningLine, "off"> {
    const thing = job.things.get(name);
    return act.verb === "remove" && thing?.kind === "part" ? { off: { name, with: thing.renewWith.map((it) => it.text) } } : {};
  }

  function open(cell: PartCell, count: number, note?: string): void {
    if (opened.has(cell) || cell.then.on === 0) return;
    opened.set(cell, count);
    for (const front of beside(cell.thing.behind, cell.place, "part")) if (front.then.on > 0 && !front.thing.implied) open(front, front.then.on);
    makeSafe(cell);
    for (const fluid of relations.fluidsIn.get(cell.thing.name) ?? [])
      for (const it of story.cells(fluid.name))
        if (it.kind === "fluid" && it.then.full && !isGrease(fluid) && isSamePlace(it.place, cell.place))
          put(fluid.name, { verb: "drain", places: [] }, it.place, lastWhere(cell, own));
    const holding = beside(cell.thing.heldBy, cell.place, "fastener").filter((it) => it.then.on > 0);
    const weight = takeWeight(cell);
    if (cell.thing.keepsPlace && !cell.then.marked) put(cell.thing.name, { verb: "mark", places: [], rest: '"___"' }, cell.place, lastWhere(cell, own));
    for (const it of holding) undo(it, it.then.on - Math.min(it.then.on - 1, ofTheRest(it, cell, cell.then.on - count)));
    put(
      cell.thing.name,
      { verb: "remove", places: [], ...(count < cell.then.on ? { count } : {}), ...noted(note === undefined ? [] : [note]) },
      cell.place,
      lastWhere(cell, own),
    );
    if (weight !== undefined) put(cell.thing.name, setDown, "", lastWhere(cell, own));
    removed.add(cell.thing);
  }

  /** Before it is let go; what hangs already, hangs. */
  function takeWeight(cell: PartCell): Act | undefined {
    const weight = weightOf(cell.thing);
    if (weight !== undefined && !story.support.at(-1)?.after.supports.some((it) => it.part === cell.thing.name))
      put(cell.thing.name, weight, "", lastWhere(cell, own));
    return weight;
  }

  function undo(cell: FastenerCell, count: number, note?: string): void {
    if ((opened.get(cell) ?? 0) >= count || cell.then.on === 0) return;
    undone.add(cell.thing);
    opened.set(cell, count);
    makeSafe(cell);
    for (const held of relations.holds.get(cell.thing.name) ?? [])
      for (const it of beside([{ text: held.name, at: held.at }], cell.place, "part")) if (it.then.on > 0 && isLetGo(it)) takeWeight(it);
    // The same nut may have to come undone for its own sake, and for that of the part which it holds.
    const had = [...(keys.get(cell.thing.name) ?? [])].find((key) => {
      const it = lines.get(key);
      return it?.act.verb === "undo" && it.own.has(cell.place) && it.own.size === 1;
    });
    if (had !== undefined) {
      lines.delete(had);
      keys.get(cell.thing.name)?.delete(had);
    }
    put(
      cell.thing.name,
      { verb: "undo", places: [], ...(count < cell.then.on ? { count } : {}), ...(note === undefined ? {} : { note }) },
      cell.place,
      lastWhere(cell, own),
    );
  }

  /** All that holds it is off, or comes off here. */
  function isLetGo(cell: PartCell): boolean {
    const holding = beside(cell.thing.heldBy, cell.place, "fastener");
    return holding.length > 0 && holding.every((it) => it.then.on === 0 || (opened.get(it) ?? 0) >= it.then.on);
  }

  function makeSafe(cell: Piece): void {
    for (const hazard of relations.barredBy.get(cell.thing.name) ?? []) {
      const live = story.cells(hazard.name).some((it) => it.kind === "hazard" && it.then && !it.unsure);
      if (!live || safe.has(hazard.name)) continue;
      safe.add(hazard.name);
      put(hazard.name, { verb: "safe", places: [], rest: '"___"', ...cautionOf(hazard) }, "", lastWhere(cell, own));
    }
  }

  /** What is alike at several places is one line, where the first of them stands. */
  function put(name: string, act: Act, place: string, where: Where): void {
    const key = JSON.stringify([name, act]);
    lines.set(key, { name, act, where, own: (lines.get(key)?.own ?? new Set()).add(place) });
    keys.set(name, (keys.get(name) ?? new Set()).add(key));
  }

  /** None where they are all of its places. */
  function placesSaid(name: string, own: ReadonlySet<string>): string[] {
    const pieces = cellsOf(name);
    const all = pieces.length > 0 ? pieces : story.cells(name);
    return all.every((it) => own.has(it.place)) ? [] : [...own].filter((it) => it !== "");
  }

  /** A blank that stands in the sheet holds its place. */
  function waitsInBlank(name: string): boolean {
    return blanks.some((it) => /^[ :]|^$/.test(it.slice("fit ___  # ".length).startsWith(name) ? it.slice("fit ___  # ".length + name.length) : "?"));
  }

  /** In front of it and on (what is only planned closes nothing yet), and not so when it came off: built up again since, or never taken off for what was found missing behind it. */
  function closedOver(cell: PartCell): PartCell[] {
    const off = cell.history.findLast((it) => it.verb === "remove" && it.after.on < it.before.on);
    return beside(cell.thing.behind, cell.place, "part").filter(
      (front) =>
        front.now.on > 0 &&
        front.then.on > 0 &&
        !front.thing.implied &&
        (off === undefined || front.history.some((it) => it.seq > off.seq && it.verb === "fit" && it.after.on > it.before.on) || wasOff(front, off.seq)),
    );
  }

  /** On now in front of what it holds, and off when this was last undone: then it was within reach. */
  function shutIn(cell: FastenerCell): PartCell[] {
    const off = cell.history.findLast((it) => it.verb === "undo" || it.verb === "slacken");
    if (off === undefined) return [];
    return (relations.holds.get(cell.thing.name) ?? [])
      .flatMap((part) => beside(part.behind, cell.place, "part"))
      .filter((front) => front.now.on > 0 && front.then.on > 0 && !front.thing.implied && wasOff(front, off.seq));
  }

  /** Those of the same place; all of them, where its places are of another kind. */
  function beside<K extends "part" | "fastener">(names: readonly Name[], place: string, kind: K): (K extends "part" ? PartCell : FastenerCell)[] {
    return names.flatMap((name) => {
      const all = cellsOf(name.text).filter((it): it is K extends "part" ? PartCell : FastenerCell => it.kind === kind);
      const here = all.filter((it) => isSamePlace(it.place, place));
      return (here.length > 0 ? here : all).filter((it) => !it.unsure);
    });
  }

  /** At each of its places, touched or not; the same objects whenever it is asked. */
  function cellsOf(name: string): readonly Piece[] {
    let list = cells.get(name);
    if (list === undefined) {
      const touched = known.get(name) ?? [];
      const thing = job.things.get(name);
      list = touched;
      if (thing?.kind === "part" || thing?.kind === "fastener") {
        const left = placesOf(job, thing).filter((place) => !touched.some((it) => it.place === place) && (place !== "" || touched.length === 0));
        list = [...touched, ...left.map((place) => (thing.kind === "part" ? partAsItStands(thing, place) : fastenerAsItStands(thing, place)))];
      }
      cells.set(name, list);
    }
    return list;
  }
}

/** The hazard's own caution, where the line stands that makes it safe. */
function cautionOf(hazard: Hazard): { note?: string } {
  return hazard.caution === undefined ? {} : { note: hazard.caution };
}

/** The same where it is live again: what that asks for first, for what was said of making it safe is no way of undoing that. */
export function restoreNote(hazard: Hazard): { note: string } {
  const own = hazard.caution === undefined ? "" : `. Its caution: ${hazard.caution}`;
  return { note: `${restoredWords(hazard)}${own}` };
}

function newHere(wanted: Wanted, cell: Piece): number {
  return Math.min(wanted.count(cell) + wanted.toMake(cell), cell.total);
}

/** None of it was on at that time. */
export function wasOff(cell: PartCell | FastenerCell, seq: number): boolean {
  const then = (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast((it) => it.seq <= seq);
  return then !== undefined && then.after.on === 0;
}
