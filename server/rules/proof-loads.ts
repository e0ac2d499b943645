// Lifting gear: what in it was disturbed, what it may lift as the sheet says, and with what load it was tried.
// Invariant: no figure of its own. By how much a proof goes over what may be lifted is for the maker and the local rules.
import type { Detail, Quantity } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Fastener, Part } from "../model/things.ts";
import { measured, quantityText } from "../model/values.ts";
import { type Exact, exact } from "../quantities/exact.ts";
import { type Measured, quantity } from "../quantities/quantity.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../story/story.ts";

type TestLine = Extract<Detail, { kind: "test" }>;
type Rated = Part | Fastener;

/** What goes together: all of which the sheet says that the same is lost if it lets go. The weakest of it says what may be lifted. */
export interface LoadChain {
  /** What was disturbed of it, each thing once. */
  readonly touched: readonly Rated[];
  /** What the whole is tried with: what the machine may lift, else the weakest of it. Undefined where nothing in the sheet says what it may lift. */
  readonly rated?: Rating;
  /** The weakest of it that says so, where that is less than the machine: what a test of that piece alone is tried with. */
  readonly own?: Rating;
}

export interface Rating {
  /** In newtons: what hangs there pulls with its weight. */
  readonly force: Exact;
  readonly text: string;
  /** What the figure was written of; undefined: of the machine. */
  readonly of?: Rated;
}

/** The chains of lifting gear in which done work disturbed something critical, or something that says what it may lift. */
export function disturbedChains(job: Job, story: Story): LoadChain[] {
  const moved = [...story.parts, ...story.fasteners].filter(({ thing }) => thing.critical || thing.rated !== undefined).filter(wasMoved);
  if (moved.length === 0) return [];
  // Whatever it is called, a machine that says what it may carry is tried with that; the plate of what is loaded and towed says what it may weigh.
  const names = namesOfMachine(job);
  const carries =
    job.sheet?.details.some((it) => it.kind === "rated" && it.load !== undefined) === true &&
    (liftsOnWheels.test(names) || !onTheRoad.test(names.replace(/\bon (an?|the|its) [^,;\n]*/giu, "")));
  const lifts = isLifting(names) || carries;
  const ofMachine = machineRating(job, lifts);
  const rated = [...job.things.values()].filter((it): it is Rated => (it.kind === "part" || it.kind === "fastener") && it.rated !== undefined);
  const chains = new Map<string, { touched: Set<Rated>; weakest: Rating | undefined }>();
  for (const { thing } of moved) {
    // What holds a thing that says what it may carry is tried with that.
    const held = rated.filter((it) => it.kind === "part" && it.heldBy.some(({ text }) => text === thing.name));
    for (const of of thing.critical ? [thing, ...held] : held.length > 0 ? held : [thing]) {
      const people = carriesPeople.test(of.criticalWhat ?? "") && rated.some((it) => keyOf(it) === keyOf(of));
      if (!lifts && !people && !bearsLoad.test(of.criticalWhat ?? "")) continue;
      const chain = chains.get(keyOf(of)) ?? { touched: new Set(), weakest: undefined };
      chain.touched.add(thing);
      chains.set(keyOf(of), chain);
    }
  }
  for (const [key, chain] of chains) for (const it of rated) if (keyOf(it) === key) chain.weakest = weaker(chain.weakest, ratingOf(it));
  return [...chains.values()].map(({ touched, weakest }) => {
    // One of several that carry together, or one that was made for less, does not lower what the whole is tried with.
    const isLess = ofMachine !== undefined && weakest !== undefined && weakest.force.compare(ofMachine.force) < 0;
    const it = ofMachine ?? weakest;
    return { touched: [...touched], ...(it === undefined ? {} : { rated: it }), ...(isLess ? { own: weakest } : {}) };
  });
}

/** The one thing of the sheet that says what it may carry, where it bears a load in the air and something critical was disturbed: a load that is written was hung on that. */
export function onlyRating(job: Job, story: Story): Rating | undefined {
  const rated = [...job.things.values()].filter((it): it is Rated => (it.kind === "part" || it.kind === "fastener") && it.rated !== undefined);
  const [only] = rated;
  if (only === undefined || rated.length > 1 || !bearsLoad.test(only.criticalWhat ?? "") || job.sheet?.details.some((it) => it.kind === "rated") === true)
    return undefined;
  return [...story.parts, ...story.fasteners].some((cell) => cell.thing.critical && wasMoved(cell)) ? ratingOf(only) : undefined;
}

/** Whether a test speaks of this chain: it names something of it. */
export function isOf(job: Job, test: TestLine, chain: LoadChain): boolean {
  const thing = test.of === undefined ? undefined : job.things.get(test.of.text);
  if (thing?.kind !== "part" && thing?.kind !== "fastener") return false;
  return thing === chain.rated?.of || thing === chain.own?.of || chain.touched.some((it) => it === thing || keyOf(it) === keyOf(thing));
}

/** The load of a test, in newtons, as far as it can be told: of its `load`, else of the one figure in its text. */
export function loadOf(test: TestLine, rating: Rating | undefined): Exact | undefined {
  if (test.load !== undefined) return forceOf(test.load);
  const text = test.text?.value ?? "";
  const share = /(\d+(?:\.\d+)?)\s*(?:%|per cent)/iu.exec(text);
  if (share !== null) return rating === undefined ? undefined : rating.force.mul(share[1] as string).div(100);
  // A sum is not worked out from words.
  if (/\b(and|plus)\b|\+/iu.test(text)) return undefined;
  const figures = [...text.matchAll(weighed)];
  return figures.length === 1 ? forceIn(figures[0]) : undefined;
}

/** Names a load above nothing, in figures: the word “proof” alone does not say how much hung there. */
export function namesLoad(test: TestLine): boolean {
  return test.load !== undefined ? /[1-9]/.test(test.load.figure.text) : proof.test(test.text?.value ?? "");
}

function keyOf(thing: Rated): string {
  return thing.criticalWhat ?? `\n${thing.name}`;
}

function wasMoved(cell: PartCell | FastenerCell): boolean {
  return (cell.history as readonly (PartMoment | FastenerMoment)[]).some(
    (it) => it.phase === "done" && it.verb !== "found" && it.verb !== "mark" && it.verb !== "other",
  );
}

function namesOfMachine(job: Job): string {
  const machine = job.sheet?.details.find((it) => it.kind === "machine");
  return `${machine?.kind === "machine" ? (machine.text?.value ?? "") : ""}\n${job.sheet?.title?.value ?? ""}`;
}

/** As the sheet says; else as the name of a machine that lifts does: “Chain hoist, 500 kg”. */
function machineRating(job: Job, lifts: boolean): Rating | undefined {
  const line = job.sheet?.details.findLast((it) => it.kind === "rated");
  if (line?.kind === "rated" && line.load !== undefined) return ratingFrom(line.load);
  if (!lifts) return undefined;
  const named = new RegExp(`${lifting.source}[^\\d\\n]{0,12}?${weighed.source}(?=\\s*($|[,;.)\\n]))`, "iu").exec(namesOfMachine(job));
  const figure = named === null ? undefined : [...named[0].matchAll(weighed)].at(-1);
  const force = forceIn(figure);
  return force === undefined || figure === undefined ? undefined : { force, text: figure[0].trim() };
}

function ratingOf(thing: Rated): Rating | undefined {
  const rating = thing.rated === undefined ? undefined : ratingFrom(thing.rated);
  return rating === undefined ? undefined : { ...rating, of: thing };
}

function ratingFrom(load: Quantity): Rating | undefined {
  const force = forceOf(load);
  return force === undefined ? undefined : { force, text: quantityText(load) };
}

function weaker(a: Rating | undefined, b: Rating | undefined): Rating | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  return b.force.compare(a.force) < 0 ? b : a;
}

/** In newtons: a force, or what a mass weighs; undefined of anything else. */
export function forceOf(load: Quantity): Exact | undefined {
  return weightOf(measured(load));
}

/** Masses are in grams. */
function weightOf(it: Measured | undefined): Exact | undefined {
  if (it?.unit.dimension === "force") return it.value;
  return it?.unit.dimension === "mass" ? it.value.mul(gravity).div(1000) : undefined;
}

/** A figure with its unit, as people write it in a text. What means two things is taken at the less. */
function forceIn(found: RegExpMatchArray | undefined): Exact | undefined {
  const [, figure = "", word = ""] = found ?? [];
  const unit = spellings.get(word.toLowerCase()) ?? word.toLowerCase();
  return weightOf(quantity(figure, unit === "kn" ? "kN" : unit));
}

/** Standard gravity, m/s², exact (3rd CGPM, 1901). */
const gravity = exact("9.80665") as Exact;

const spellings: ReadonlyMap<string, string> = new Map([
  ["te", "t"],
  ["tonne", "t"],
  ["tonnes", "t"],
  ["ton", "us.ton"],
  ["tons", "us.ton"],
  ["cwt", "us.cwt"],
  ["lbs", "lb"],
]);

const weighed = /(\d+(?:\.\d+)?(?:-\d+\/\d+|\/\d+)?)[ \u00a0-]?(kg|kgf|kn|tonnes|tonne|tons|ton|te|t|cwt|lbs|lbf|lb)(?!\p{L})/giu;

/** By what it is called; a maker's name that happens to be such a word is none: “Hobday & Crane engine”. */
function isLifting(names: string): boolean {
  return [...names.matchAll(new RegExp(lifting.source, "giu"))].some((found) => {
    const word = found[0].replace(/^[^\p{L}]+/u, "");
    const after = names.slice(found.index + found[0].length).split(/[,;\n]/)[0] as string;
    const before = names.slice(0, found.index).split("\n").at(-1) as string;
    const isName = /^\p{Lu}/u.test(word) && before !== "";
    return !(isName && /(&|\band)\s*$/iu.test(before)) && !(/^\p{Lu}/u.test(word) && otherMachine.test(after));
  });
}

/** What a machine is, where the word that lifts stands before it as a name. */
const otherMachine =
  /(^|[^\p{L}])(engines?|tractor|lathe|mill|roller|lorry|truck|van|car|motorcycle|pump|press|drill|thresher|plough|bus|boat|locomotive|saloon|tourer)($|[^\p{L}])/iu;

/** Machines that lift, by the words that people use for them. */
const lifting =
  /(?:^|[^\p{L}])(?:hoists?|cranes?|(?:chain|pulley|hook|sheave) blocks?|davits?|derricks?|gantry|gin pole|shear ?legs|lifting (?:gear|tackle|platform|table)|slipway winch|log grab|(?:vehicle|two-post|four-post|scissor|tail|goods|stair|passenger|platform) ?lifts?|stairlifts?|chair ?lifts?|turntable ladder|access platform|cherry picker)(?:$|[^\p{L}])/iu;
/** What is loaded and driven or towed; what stands on a lorry’s chassis is none. */
const onTheRoad =
  /(^|[^\p{L}])(trailers?|caravans?|campers?|wagons?|waggons?|carts?|drays?|lorry|lorries|trucks?|vans?|cars?|bus|buses|coach(es)?|tractors?)($|[^\p{L}])/iu;
/** What is driven to where it lifts: its plate says what it may lift. */
const liftsOnWheels =
  /(^|[^\p{L}])((crane|recovery|breakdown|wrecker|tow|bucket|ladder|platform|fork[- ]?lift) (lorry|truck|van|vehicle|tractor|wagon)|lorry loader|sky ?lift)($|[^\p{L}])/iu;
/** What a critical thing carries, where it is a load in the air. */
const bearsLoad =
  /^\s*(the |a |its )?(suspended |lifted |hung )?load\s*$|load (falls|drops|comes down|in the air)|drop(s|ping)? (the|its) load|(^|[^\p{L}])(lifting|hoisting)($|[^\p{L}])/iu;
/** People who sit or stand in it: of what says what it may carry, a swing, a chair. */
const carriesPeople = /(^|[^\p{L}])(riders?|passengers?)($|[^\p{L}])/iu;
const proof = /[1-9][\d.,/]*\s*(%|per cent|kg|kgf|t|te|tons?|tonnes?|cwt|lb|lbs|lbf|kn|n)(?!\p{L})|half a ton/iu;
