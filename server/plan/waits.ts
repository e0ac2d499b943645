// What each planned step waits for: other planned steps, by `after` and by what the facts demand; answers; and what no step does.
// Invariant: facts only of the walk. The written order of two steps counts where both work on the same thing, and gives way to an `after` that says otherwise.
import { toMake } from "./to-make.ts";
import type { Name } from "../../grammar/tree.ts";
import { type Relations, relationsOf } from "../model/relations.ts";
import { agreeing, midSentence } from "../model/titles.ts";
import { type Where, where } from "../model/where.ts";
import { findingsOf } from "../story/decisions.ts";
import { type Planned, plannedOf } from "../story/planned.ts";
import { questionsAbout } from "../story/questions.ts";
import type {
  Cell,
  FastenerCell,
  FastenerMoment,
  FluidCell,
  FluidMoment,
  HazardCell,
  HazardMoment,
  Moment,
  PartCell,
  PartMoment,
  Story,
  Visit,
} from "../story/story.ts";
import { carried, lowered } from "./waits-carried.ts";
import { memo } from "../model/memo.ts";
import { putInto } from "../model/grouped.ts";

/** Another planned step must be done first. */
export interface StepWait {
  readonly visit: Visit;
  /** In words: “hub nut holds hub”. */
  readonly why: string;
  /** The line that demands it. */
  readonly where: Where;
  /** Said with `after`, not derived. */
  readonly written: boolean;
}

export interface VisitWaits {
  readonly visit: Visit;
  readonly steps: readonly StepWait[];
  /** Open questions about what it puts back, each once. */
  readonly questions: readonly { readonly name: string; readonly where: Where }[];
  /** What must be so first, and no step makes so. */
  readonly unmet: readonly { readonly text: string; readonly where: Where }[];
}

/** For each planned visit, in the order of the sheet. */
export const waitsOf: (story: Story) => readonly VisitWaits[] = memo(workOut);

interface Soft {
  readonly later: Visit;
  readonly first: Visit;
  readonly why: string;
  readonly where: Where;
}

interface FoundOut {
  readonly steps: Map<Visit, StepWait>;
  readonly questions: Map<string, Where>;
  readonly unmet: Map<string, Where>;
}

/** What is found out of each planned visit, as it is worked out. */
interface Working {
  readonly story: Story;
  readonly relations: Relations;
  readonly names: (cell: Cell) => string;
  readonly found: ReadonlyMap<Visit, FoundOut>;
  /** Orders that hang on the order of the sheet alone: added behind the rest, and only where they close no circle with it. */
  readonly soft: Soft[];
  /** Those that say that the sheet is written the wrong way round: added last. */
  readonly after: Soft[];
  /** Some step waits for one that is written behind it: then there may be circles. */
  forward: boolean;
}

function workOut(story: Story): readonly VisitWaits[] {
  const visits = story.visits.filter((it) => it.phase === "planned");
  const found = new Map<Visit, FoundOut>(visits.map((it) => [it, { steps: new Map(), questions: new Map(), unmet: new Map() }]));
  const working: Working = { story, relations: relationsOf(story.job), names: namer(), found, soft: [], after: [], forward: false };
  const { names } = working;
  for (const { cell, where, visits: fitting } of toMake(story)) for (const visit of fitting) found.get(visit)?.unmet.set(`${names(cell)}, to be made`, where);

  writtenOrder(story, visits, (...it) => wait(working, ...it));
  for (const cell of story.parts) ofPart(working, cell);
  for (const cell of story.fasteners) ofFastener(working, cell);
  for (const cell of story.fluids) ofFluid(working, cell);
  for (const cell of story.hazards) ofHazard(working, cell);
  for (const cell of [...story.parts, ...story.fasteners, ...story.fluids, ...story.hazards]) inOwnOrder(working, cell);
  carried(story, (...it) => rather(working, ...it));

  for (const { later, first, why, where: at } of [...working.soft, ...working.after])
    if (!working.forward || !reaches(working, first, later)) wait(working, later, first, why, at);
  for (const { visit } of lowered(story)) withoutImplied(working, visit);
  return visits.map((visit) => {
    const it = found.get(visit);
    return {
      visit,
      steps: [...(it?.steps.values() ?? [])].sort((a, b) => a.visit.number - b.visit.number),
      questions: [...(it?.questions ?? [])].map(([name, at]) => ({ name, where: at })),
      unmet: [...(it?.unmet ?? [])].map(([text, at]) => ({ text, where: at })),
    };
  });
}

function wait(working: Working, later: Visit, first: Visit, why: string, at: Where, written = false): void {
  const list = working.found.get(later)?.steps;
  if (list === undefined || !working.found.has(first) || (later === first && !written)) return;
  if (first.number >= later.number) working.forward = true;
  if (!list.has(first)) list.set(first, { visit: first, why, where: at, written });
}

function rather({ soft }: Working, later: Visit, first: Visit, why: string, at: Where): void {
  if (later !== first) soft.push({ later, first, why, where: at });
}

// ---------------------------------------------------------------- by the facts

function ofPart(working: Working, cell: PartCell): void {
  for (const it of plannedOf<PartMoment>(cell)) {
    if (it.verb === "remove" && it.before.on > 0) ofRemoving(working, cell, it);
    if (it.verb === "fit") ofFitting(working, cell, it);
    if ((it.verb === "fit" || it.verb === "repair") && !it.forNow) ask(working, it, cell);
  }
}

function ofRemoving(working: Working, cell: PartCell, it: Planned<PartMoment>): void {
  const { story, names } = working;
  for (const by of beside(story, cell.thing.heldBy, cell.place, "fastener"))
    settled(
      working,
      it,
      by,
      undone,
      it.stillHeld.includes(by),
      `${names(by)} holds ${names(cell)}`,
      `${names(by)} ${agreeing(by.thing, "is")} still done up, and no step undoes it`,
    );
  for (const front of beside(story, cell.thing.behind, cell.place, "part"))
    settled(
      working,
      it,
      front,
      cameOff,
      it.stillBehind.includes(front),
      `${names(front)} ${agreeing(front.thing, "is")} in front of ${names(cell)}`,
      `${names(front)} ${agreeing(front.thing, "is")} still on, and no step removes it`,
    );
  safe(working, it, cell);
}

function ofFitting(working: Working, cell: PartCell, it: Planned<PartMoment>): void {
  const { story, relations, names } = working;
  for (const part of relations.behind.get(cell.thing.name) ?? [])
    for (const behind of beside(story, [part.name], cell.place, "part"))
      settled(
        working,
        it,
        behind,
        wentOn,
        it.overOff.includes(behind) && !discarded(story, part.name),
        `${names(behind)} ${agreeing(behind.thing, "goes")} on before ${names(cell)}, which is in front of it`,
        `${names(behind)} behind it is still off, and no step fits it`,
      );
}

function ofFastener(working: Working, cell: FastenerCell): void {
  const { story, relations, names } = working;
  for (const it of plannedOf<FastenerMoment>(cell)) {
    if (it.verb === "undo") safe(working, it, cell);
    if (it.verb !== "fit" && it.verb !== "tighten" && it.verb !== "lock") continue;
    for (const part of relations.holds.get(cell.thing.name) ?? []) {
      for (const held of beside(story, [part.name], cell.place, "part")) {
        const early = it.verb === "tighten" && it.before.on === 0 && it.holdsOff.includes(held) && !discarded(story, part.name);
        settled(
          working,
          it,
          held,
          wentOn,
          early,
          `${names(held)} ${agreeing(held.thing, "goes")} on before ${names(cell)} ${agreeing(cell.thing, "is")} done up`,
          `${names(held)} ${agreeing(held.thing, "is")} still off, and no step fits it`,
        );
        if (!it.forNow) ask(working, it, held);
      }
    }
    if (!it.forNow) ask(working, it, cell);
  }
}

function ofFluid(working: Working, cell: FluidCell): void {
  const { story, names } = working;
  for (const it of plannedOf<FluidMoment>(cell)) {
    if (it.verb === "fill") ask(working, it, cell);
    if (it.verb !== "drain") continue;
    for (const part of beside(story, cell.thing.in.map(textOf), cell.place, "part")) {
      const off = plannedOf<PartMoment>(part).find((other) => other.seq > it.seq && cameOff(other));
      if (off !== undefined)
        rather(
          working,
          off.visit,
          it.visit,
          `${names(cell)} ${agreeing(cell.thing, "is")} drained before ${names(part)} ${agreeing(part.thing, "comes")} off`,
          off.where,
        );
    }
  }
}

function ofHazard(working: Working, cell: HazardCell): void {
  const { story, names } = working;
  for (const it of plannedOf<HazardMoment>(cell)) {
    if (it.verb !== "restore") continue;
    for (const name of cell.thing.restoreAfter) {
      for (const back of story.cells(name.text)) {
        if (back.kind !== "part" && back.kind !== "fastener") continue;
        settled(
          working,
          it,
          back,
          closed,
          it.open.includes(back),
          `${names(back)} ${agreeing(back.thing, "is")} back before ${names(cell)} ${agreeing(cell.thing, "is")} live again`,
          `${names(back)} ${agreeing(back.thing, "is")} not back, and no step puts it back`,
        );
      }
    }
  }
}

/** What is planned for one thing is done in the order in which it is written. */
function inOwnOrder(working: Working, cell: Cell): void {
  const own = plannedOf<Moment>(cell);
  for (let i = 1; i < own.length; i++) {
    const [first, later] = [own[i - 1], own[i]] as [Planned<Moment>, Planned<Moment>];
    rather(working, later.visit, first.visit, `it works on ${working.names(cell)} first`, later.where);
  }
}

/** The step that brought it about before, or must after all; else, where it is wanting, nobody does. */
function settled(working: Working, it: Planned<Moment>, cell: Cell, does: (moment: never) => boolean, wanting: boolean, why: string, otherwise: string): void {
  const doing = plannedOf<Moment>(cell).filter((moment) => does(moment as never));
  const before = doing.findLast((moment) => moment.seq < it.seq);
  if (before !== undefined) {
    if (before.visit !== it.visit) wait(working, it.visit, before.visit, why, it.where);
    return;
  }
  if (!wanting) return;
  const later = doing.find((moment) => moment.seq > it.seq);
  if (later === undefined) working.found.get(it.visit)?.unmet.set(otherwise, it.where);
  else if (later.visit !== it.visit) working.after.push({ later: it.visit, first: later.visit, why, where: it.where });
}

function safe(working: Working, it: Planned<PartMoment | FastenerMoment>, cell: PartCell | FastenerCell): void {
  const { story, relations, names } = working;
  for (const hazard of relations.barredBy.get(cell.thing.name) ?? []) {
    for (const live of beside(story, [hazard.name], "", "hazard"))
      settled(
        working,
        it,
        live,
        madeSafe,
        it.liveHazards.includes(live),
        `${names(live)} ${agreeing(live.thing, "is")} made safe before ${names(cell)} ${agreeing(cell.thing, "comes")} off`,
        `${names(live)} ${agreeing(live.thing, "is")} live, and no step makes it safe`,
      );
  }
}

function ask({ story, found }: Working, it: Planned<Moment>, cell: PartCell | FastenerCell | FluidCell): void {
  const questions = found.get(it.visit)?.questions;
  for (const name of questionsAbout(story, cell)) if (questions !== undefined && !questions.has(name)) questions.set(name, it.where);
}

/** Letting the machine down waits for nearly everything: what another of these waits for in turn need not be told. */
function withoutImplied({ found, forward }: Working, visit: Visit): void {
  const steps = found.get(visit)?.steps;
  if (steps === undefined || forward) return;
  const implied = new Set([...steps.keys()].flatMap((first) => [...(found.get(first)?.steps.keys() ?? [])]));
  for (const it of implied) for (const next of found.get(it)?.steps.keys() ?? []) implied.add(next);
  for (const [first, { written }] of [...steps]) if (!written && implied.has(first)) steps.delete(first);
}

/** Does a step wait for another, at first or at any remove? */
function reaches({ found }: Working, from: Visit, to: Visit): boolean {
  const seen = new Set([from]);
  for (const visit of seen) {
    if (visit === to) return true;
    for (const next of found.get(visit)?.steps.keys() ?? []) seen.add(next);
  }
  return false;
}

// ---------------------------------------------------------------- what is written

function writtenOrder(story: Story, visits: readonly Visit[], wait: (later: Visit, first: Visit, why: string, at: Where, written: boolean) => void): void {
  const byName = new Map<string, Visit[]>();
  for (const visit of visits) {
    const name = visit.entry.name?.text;
    if (name === undefined) continue;
    putInto(byName, name, visit);
  }
  for (const visit of visits) {
    for (const detail of visit.entry.details) {
      if (detail.kind !== "after" || detail.fault !== undefined) continue;
      for (const step of detail.steps) {
        for (const first of byName.get(step.text) ?? []) {
          if (elsewhere(story, visit, first)) continue;
          wait(visit, first, "it says so", where(visit.file, visit.entry, detail.row, step.at), true);
        }
      }
    }
  }
}

/** Work at one side need not wait for the same work at the other. */
function elsewhere(story: Story, a: Visit, b: Visit): boolean {
  if (a.places === undefined || b.places === undefined || a.places.some((place) => b.places?.includes(place))) return false;
  const kinds = (visit: Visit) => new Set((visit.places ?? []).flatMap((place) => story.job.kindsOfPlace.get(place) ?? []));
  const other = kinds(b);
  return [...kinds(a)].some((kind) => other.has(kind));
}

// ---------------------------------------------------------------- moments and cells

function undone(it: FastenerMoment): boolean {
  return it.verb === "undo";
}

function cameOff(it: PartMoment): boolean {
  return it.verb === "remove";
}

function wentOn(it: PartMoment): boolean {
  return it.verb === "fit";
}

function madeSafe(it: HazardMoment): boolean {
  return it.verb === "safe";
}

function closed(it: PartMoment | FastenerMoment): boolean {
  return it.verb === "fit" || it.verb === "tighten" || it.verb === "lock";
}

type CellOf<K extends Cell["kind"]> = Extract<Cell, { kind: K }>;

/** Those cells of things that stand where another does: the same place, or all where the places are of another kind. */
function beside<K extends Cell["kind"]>(story: Story, things: readonly (string | Name)[], place: string, kind: K): CellOf<K>[] {
  return things.flatMap((it) => {
    const cells = story.cells(typeof it === "string" ? it : it.text).filter((cell): cell is CellOf<K> => cell.kind === kind && !cell.unsure);
    const same = cells.filter((cell) => cell.place === place);
    return same.length > 0 ? same : cells;
  });
}

function textOf(name: Name): string {
  return name.text;
}

function discarded(story: Story, name: string): boolean {
  return (
    findingsOf(story)
      .get(name)
      ?.some((found) => found.decision?.detail.decision === "discard") === true
  );
}

function namer(): (cell: FastenerCell | PartCell | FluidCell | HazardCell) => string {
  const known = new Map<Cell, string>();
  return (cell) => {
    let name = known.get(cell);
    if (name === undefined) {
      name = midSentence(cell.thing, cell.place);
      known.set(cell, name);
    }
    return name;
  };
}
