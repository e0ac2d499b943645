// Running pieces that went back with no oil or grease told of any of them: brasses, shells and bushes that are new or were washed or worked, bearings that are always open, a sliding joint that was washed.
// Invariant: done work only, of critical things; nothing is asked where a fluid lies near, or where any word of oil stands since it came off. What may come packed, and what went back as it was, is left alone.
import { allWords } from "../model/titles.ts";
import { headOf, isLooseRing } from "../model/read-with.ts";
import type { Part } from "../model/things.ts";
import { findingsOf } from "../story/decisions.ts";
import { isLubricated } from "../story/put-right.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story, Visit } from "../story/story.ts";
import { type OnLine, byLine } from "./by-line.ts";
import { isHalfOiled, isPlainHalf, ofNoOiling, tellsOfOil } from "./halves-dry.ts";
import { bearing, bush, livesByGrease, loose } from "./parts/shared/by-grease.ts";
import { isLubricatedSince, nearTo, runsInOil } from "./parts/shared/lubricated.ts";

type StepEntry = Visit["entry"];

/** Each line by which such pieces went in. `told` are said to be dry already. */
export function backDry(story: Story, told: ReadonlySet<PartCell>): readonly OnLine<PartCell, PartMoment>[] {
  const isWritten = told.size > 0 || [...story.parts, ...story.fasteners].some(isOiledByLine);
  const first = piecesDry(story, told, isWritten);
  // Once these are written, the bushes are asked for.
  const dry = first.size === 0 || isWritten ? first : piecesDry(story, told, true);
  return byLine<PartCell, PartMoment>([...dry.keys()], (moment, cell) => dry.get(cell) === moment);
}

function isOiledByLine({ history }: PartCell | FastenerCell): boolean {
  return (history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.phase === "done" && isLubricated(it));
}

function piecesDry(story: Story, told: ReadonlySet<PartCell>, isOilWritten: boolean): ReadonlyMap<PartCell, PartMoment> {
  const dry = new Map<PartCell, PartMoment>();
  const halves = story.parts.filter(({ thing, unsure }) => !thing.implied && !unsure && isPlainHalf(thing));
  const isOfOiledHalves = halves.some((cell) => isHalfOiled(story, cell));
  for (const cell of story.parts) {
    const { thing } = cell;
    if (!thing.critical || thing.implied || cell.unsure || cell.now.on === 0 || told.has(cell)) continue;
    const isHalf = halves.includes(cell);
    if (isHalf ? isOfOiledHalves : !mayBeDry(thing, isOilWritten)) continue;
    const fit = cell.history.findLast((it) => it.phase === "done" && it.verb === "fit" && it.after.on > it.before.on);
    const off = cell.history.find((it) => it.phase === "done" && it.after.on < it.before.on);
    if (fit === undefined || off === undefined || isFoundDry(story, cell, fit)) continue;
    if (!hasLostItsOil(cell, fit, off.seq)) continue;
    if (!isHalf && (isLubricatedSince(story, cell.place, off.seq, thing, true) || runsInOil(story, cell))) continue;
    if (!isTold(story, cell, off)) dry.set(cell, fit);
  }
  return dry;
}

/** And the same one went back: its finding asks for the oil. */
function isFoundDry(story: Story, { thing, place }: PartCell, fit: PartMoment): boolean {
  const found = (findingsOf(story).get(thing.name) ?? []).filter((it) => it.places.includes(place));
  return !fit.isNew && found.some(({ conditions }) => conditions.some(({ condition }) => condition.kind === "dry"));
}

/**
 * A brass, a sliding joint, and of what rolls only what never comes packed: tapers and cones in two halves, loose balls and needles. A bush, that may have come soaked, where the sheet writes the oil of other
 * things.
 */
function mayBeDry(part: Part, isOilWritten: boolean): boolean {
  const words = allWords(part);
  if (comesPacked.test(words) || hasNipple.test(words) || noBearing.test(words)) return false;
  if (slidesOn.test(words)) return true;
  if (!livesByGrease(part)) return false;
  return bearing.test(words) || isLooseRing(part, loose)
    ? alwaysOpen.test(words) || isLooseRing(part, loose)
    : headOf(part) === "brass" || (isOilWritten && bush.test(words));
}

const comesPacked = /\b(joints?|cross(es)?|universal|cardan|shielded|greased|packed|lubricated|cartridge|unit|zz|2?rs\w*|tracta)\b/iu;
/** A cone that shuts, grips or centres. */
const noBearing = /\b(valves?|clutch\w*|synchro\w*|brakes?|friction|jets?|nose|chucks?|mandrels?)\b/iu;
/** Filled by the gun when all is together, which few write. */
const hasNipple = /\b(king ?pins?|swivels?|shackles?|spring (eyes?|pins?)|track rods?|nipples?)\b/iu;
const alwaysOpen = /\b(taper\w*|cones?|(ball|head|steering) races?|cups?)\b/iu;
const slidesOn = /\b(sliding|slip|splined) (sleeves?|yokes?|forks?|joints?)\b/iu;

/** New, washed, or bored, reamed or scraped since it came off: what went back as it was has the oil on it that it ran in. */
function hasLostItsOil({ history }: PartCell, fit: PartMoment, off: number): boolean {
  return fit.isNew || history.some((it) => it.phase === "done" && it.seq > off && (it.action?.verb === "clean" || it.action?.verb === "repair"));
}

/** In the words of a step since it came off: of one that moved it or what it lies in, or of all that was oiled. */
function isTold(story: Story, cell: PartCell, off: PartMoment): boolean {
  const near = nearTo(story, cell.thing, true);
  const since = story.visits.filter(
    ({ phase, number, entry }) => phase === "done" && number >= (off.visit?.number ?? 0) && (tellsOfOil(entry) || isTitled(entry)),
  );
  return since.some(({ entry }) => near === undefined || isTitled(entry) || ofAll.test(wordsOf(entry)) || movesAny(entry, near));
}

function isTitled({ title }: StepEntry): boolean {
  return inTitle.test((title?.value ?? "").replace(ofNoOiling, " "));
}

function movesAny({ details }: StepEntry, near: ReadonlySet<string>): boolean {
  return details.some((it) => it.kind === "action" && it.things.some(({ name }) => near.has(name.text)));
}

function wordsOf({ details }: StepEntry): string {
  return details.map((it) => (it.kind === "note" ? (it.text?.value ?? "") : "")).join("\n");
}

const inTitle = /\b(pack(ed|ing)?|oil(ed|ing)?|greas(ed?|ing)|lubric\w*)\b/iu;
const ofAll = /\b(all|every\w*|each|both|nipples?|gun|round|throughout|the lot)\b/iu;
