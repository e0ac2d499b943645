// Shells and brasses that were washed, or shut dry over wire, and are closed dry, on a sheet that says of others of their sort that they were oiled: what the sump is filled with reaches them only after the first turns.
// Invariant: nothing is asked where the sheet says it of none; any word of oil on what they lie in, or of the step that closes them, is taken for theirs.
import { allWords } from "../model/titles.ts";
import { headOf, wordsOf } from "../model/read-with.ts";
import type { Part } from "../model/things.ts";
import { sharesWords } from "../story/cells.ts";
import { isLubricated } from "../story/put-right.ts";
import type { PartCell, PartMoment, Story } from "../story/story.ts";
import { type OnLine, byLine } from "./by-line.ts";
import { isReadSquashed } from "./squashed.ts";

export interface HalvesDry extends OnLine<PartCell, PartMoment> {
  /** What else of their sort was oiled. */
  readonly others: readonly Part[];
  /** Not washed, and wiped dry all the same for the wire that it was shut over. */
  readonly isWired: boolean;
}

/** Critical plain halves that were washed and closed, and never oiled, where others were. `told` are said to be dry already; `asOiled` are taken to have been oiled. */
export function halvesDry(story: Story, told: ReadonlySet<PartCell>, asOiled: ReadonlySet<PartCell> = new Set()): readonly HalvesDry[] {
  const rolling = story.parts.filter(({ thing, unsure }) => !thing.implied && !unsure && isRollingBigEnd(thing));
  const halves = story.parts.filter(({ thing, unsure }) => !thing.implied && !unsure && isPlainHalf(thing));
  const isDone = (it: PartCell) => asOiled.has(it) || it.history.some(isOiled);
  const oiled = [...halves, ...story.parts.filter(({ thing }) => rolling.length > 0 && isInEngine(thing))].filter(isDone);
  const all = [...(halves.some(isDone) ? halves : []), ...(oiled.length > 0 ? rolling : [])];
  if (all.length === 0) return [];
  const dry = new Map<PartCell, PartMoment>();
  const wired = new Set<PartCell>();
  for (const cell of all) {
    if (!cell.thing.critical || told.has(cell) || isDone(cell)) continue;
    const fit = cell.history.findLast((it) => it.phase === "done" && it.verb === "fit" && it.after.on > 0);
    if (fit === undefined || cell.now.on === 0) continue;
    const off = cell.history.find((it) => it.phase === "done" && it.after.on < it.before.on)?.seq ?? -1;
    // Whoever writes no washing may write no oil either; what went back as it was has the oil on it that it ran in.
    // New rollers have been washed by whoever packed them; new shells are often closed with the oil of their journal, which nobody writes.
    const isNew = rolling.includes(cell) && fit.isNew;
    const isWashed = cell.history.some((it) => it.phase === "done" && it.seq > off && it.action?.verb === "clean");
    if (!isNew && !isWashed && !isWiredDry(story, cell, off)) continue;
    if (isReached(story, cell, off)) continue;
    dry.set(cell, fit);
    if (!isNew && !isWashed) wired.add(cell);
  }
  return byLine<PartCell, PartMoment>([...dry.keys()], (moment, cell) => dry.get(cell) === moment).map((it) => ({
    ...it,
    isWired: wired.has(it.cell),
    others: [...new Set(oiled.map(({ thing }) => thing))].filter((thing) => thing !== it.cell.thing || it.cells.length < story.cells(thing.name).length),
  }));
}

/** Oil went on what they lie in, or the words of the step that closes them tell of some. */
function isReached(story: Story, cell: PartCell, off: number): boolean {
  const near = new Set([...cell.thing.behind, ...cell.thing.matchedWith].map(({ text }) => text));
  const wet = story.parts.filter(({ thing }) => near.has(thing.name) || (journal.has(headOf(thing) ?? "") && !otherPin.test(allWords(thing))));
  return wet.some((it) => isHere(cell, it) && it.history.some((was) => was.seq > off && isOiled(was))) || isToldOf(story, cell, near, off);
}

/** By a line of its own, or so. */
export function isHalfOiled(story: Story, cell: PartCell): boolean {
  const off = cell.history.find((it) => it.phase === "done" && it.after.on < it.before.on)?.seq ?? -1;
  return cell.history.some(isOiled) || isReached(story, cell, off);
}

/** Over wire or strip a bearing is shut dry: whatever oil it ran in was wiped off, and it was opened once more to take the wire out. */
function isWiredDry(story: Story, { thing, place }: PartCell, off: number): boolean {
  return story.readings.some(
    (it) => it.seq > off && it.stage !== "found" && it.place === place && it.limit.of.some(({ text }) => text === thing.name) && isReadSquashed(it),
  );
}

/** In the words of a step that moved them, or what closes over them. */
function isToldOf(story: Story, cell: PartCell, near: ReadonlySet<string>, off: number): boolean {
  const steps = new Set(
    story.parts
      .filter((it) => it === cell || (near.has(it.thing.name) && isHere(cell, it)))
      .flatMap(({ history }) => history.filter((it) => it.phase === "done" && it.seq > off).map(({ visit }) => visit?.entry)),
  );
  return [...steps].some((entry) => entry !== undefined && tellsOfOil(entry));
}

/** In its title, its notes, and what stands behind its work. */
export function tellsOfOil({ title, details }: NonNullable<PartMoment["visit"]>["entry"]): boolean {
  const words = details.map((it) => ("text" in it && typeof it.text === "object" && it.text !== null && "value" in it.text ? it.text.value : ""));
  return ofOil.test([title?.value ?? "", ...words].join("\n").replace(ofNoOiling, " "));
}

function isHere({ place }: PartCell, other: PartCell): boolean {
  return place === "" || other.place === "" || sharesWords(place, other.place);
}

function isOiled(it: PartMoment): boolean {
  return it.phase === "done" && (isLubricated(it) || (it.verb === "repair" && ofOil.test(it.action?.text?.value ?? "")));
}

/** Oil that is washed off, let out or still to come, and what is only called by it: a seal, a pipe, the packing of a gland. */
export const ofNoOiling =
  /\b(?:(?:free|clear|clean|cleaned|rid|emptied|degreased) of|no|not|never|without|nor) (?:\w+ )?(?:oil(?:ed|ing)?|greas(?:e|ed|ing|y)|lubric\w*)\b|\bto be (?:oiled|greased|lubricated|packed)\b|\bdrain(?:ed|ing)? (?:the |its )?(?:\w+ )?oil\b|\b(?:oil|grease) (?:drained|drain|out|off|away|washed|wiped|let)\b|\b(?:oil|grease)(?: |-)?(?:seals?|retainers?|rings?|throwers?|flingers?|slingers?|pipes?|pumps?|filters?|strainers?|coolers?|ways?|holes?|grooves?|galler(?:y|ies)|feeds?|lines?|unions?|plugs?|pans?|sumps?|tanks?|gauges?|switch(?:es)?|levels?|caps?|cups?|box(?:es)?|baths?|trays?|catchers?|guards?|changes?|leaks?)\b|\b(?:gland|stuffing|rope|rod|piston|pump|old) packing\b|\bpacking (?:rings?|pieces?|glands?|box(?:es)?|cases?|plates?|strips?|blocks?|in|out|off|renewed)\b/giu;

const ofOil =
  /\b(oiled|oiling|lubric\w*|greased?|moly\w*|graphit\w*|assembly (paste|lube|compound)|(in|with|of|clean|fresh|new|warm) (engine )?oil|oil (on|over|to|from)|dripping)\b/iu;

/** Lined halves, in which a shaft turns on the oil that is pumped or thrown there. */
export function isPlainHalf(part: Part): boolean {
  const words = wordsOf(`${allWords(part).replaceAll("-", " ")} ${part.material?.replaceAll("-", " ") ?? ""}`);
  if (words.some((it) => notPlain.has(it))) return false;
  const isLined = headOf(part) === "brass" || headOf(part) === "shell" || (words.includes("half") && words.some((it) => it === "brass" || it === "shell"));
  return isLined && words.some((it) => turnsIn.has(it));
}

/** Rollers or needles on a crankpin, built in before there is any oil in the cases. */
function isRollingBigEnd(part: Part): boolean {
  const words = allWords(part).replaceAll("-", " ");
  return /\bbig ends?\b|\bcrank ?pins?\b/iu.test(words) && /\b(rollers?|needles?)\b/iu.test(words);
}

function isInEngine(part: Part): boolean {
  return /\b(bearings?|bush(es)?|pistons?|rings?|cams?|camshaft|tappets?|rollers?|needles?)\b/iu.test(allWords(part));
}

const notPlain: ReadonlySet<string> = new Set("ball roller needle headlamp lamp washer rubber nylon sealed body plate housing".split(" "));
const turnsIn: ReadonlySet<string> = new Set("bearing main rod end conrod crank crankshaft cam camshaft big journal shaft pin".split(" "));
const journal: ReadonlySet<string> = new Set("crankshaft crank crankpin journal camshaft shaft pin".split(" "));
/** A pin or a shaft at another joint than that of a lined half. */
const otherPin = /\b(gudgeons?|wrist|(small|little) ends?|king|swivel|shackle|brake|spring|dowel|cotter|split|clevis|rocker|propeller|half)\b/iu;
