// Which limits must be measured, and which checks seen, before it can be released: what was or is to be moved, renewed or repaired, and what stands out.
// Invariant: a final reading counts only behind the last move; what waits in the sheet to be filled in is not asked for twice.
import { placesOf } from "../../model/job.ts";
import { isReadTogether, isWorking, readWith } from "../../model/read-with.ts";
import { isSamePlace } from "../../model/same-place.ts";
import type { Check, Limit, Thing } from "../../model/things.ts";
import type { Where } from "../../model/where.ts";
import { isReadInPlace } from "../../story/in-place.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story, Visit } from "../../story/story.ts";
import type { Line } from "../draw/line.ts";
import { type Act, isAt } from "./acts.ts";
import { inUse, isBlueing, isOfRunning, isOfWheels, isPlay } from "./by-words.ts";
import { isSeenBare, takenOf, triedAt, wholeAt } from "./readings-taken.ts";
import { type StandsOut, standingOut } from "./standing-out.ts";
import { waitsInSheet } from "./waits-in-sheet.ts";
import type { Work } from "./work.ts";

export interface ToRead {
  readonly thing: Limit | Check;
  readonly places: readonly string[];
  /** Names of the work after which it is read; empty: what moved it is done or planned already. */
  readonly after: readonly string[];
  /** Names of the work before which it is read: a size, while its piece lies on the bench and its place is empty. */
  readonly before: readonly string[];
  /** Names of what is in and tight as it is read. */
  readonly inIt: readonly string[];
  /** When it was read with all that it is about in its place: it is read again when what came off after that is back. Undefined: never. */
  readonly readWhole: number | undefined;
  /** When it was last tried, where no final was taken since: with some on for now, some still off. */
  readonly tried: number | undefined;
  /** Nothing says where it can be taken: read when all is together. */
  readonly last: boolean;
  /** Not tried in the sheet since what sets it was moved: it is tried before that is done up. */
  readonly clamped: boolean;
  /** A size, of what only this planned step fits: it is measured before that. */
  readonly ahead?: Visit;
  readonly where: Where;
  /** The line that asks for it, where one does. */
  readonly at?: Line;
}

/** What the release would ask for with all of the work done, by the names of limits and checks. */
export type Due = ReadonlyMap<string, { readonly places: ReadonlySet<string>; readonly at: Line | undefined }>;

/** What is asked of every limit and check. */
interface Asking {
  readonly story: Story;
  readonly work: readonly Work[];
  readonly due: Due;
  readonly standsOut: StandsOut;
}

export function readingsToTake(story: Story, work: readonly Work[], due: Due): ToRead[] {
  const asking: Asking = { story, work, due, standsOut: standingOut(story, work) };
  const things = [...story.job.things.values()].filter((it): it is Limit | Check => (it.kind === "limit" || it.kind === "check") && !isNeverRead(it));
  const asked = things.flatMap((it) => toRead(asking, it, false) ?? []);
  // Critical, never read at the end, and on the same shims as what is read: it is asked for as soon as that has been set again.
  const shims = new Set(asked.flatMap((it) => shimsOf(story, it.thing)));
  const taken = new Set(asked.map((it) => it.thing.name));
  const reshimmed = things.filter((it) => !taken.has(it.name) && isUnreadOn(story, it, shims));
  return [...asked, ...reshimmed.flatMap((it) => toRead(asking, it, true) ?? [])];
}

/** Nobody declared it, or it is worked out of others and nothing sets it. */
function isNeverRead(thing: Limit | Check): boolean {
  return thing.implied || (thing.kind === "limit" && thing.expression !== undefined && thing.setBy.length === 0);
}

function toRead(asking: Asking, thing: Limit | Check, reshimmed: boolean): ToRead | undefined {
  const { story } = asking;
  const asked = askedAt(asking, thing, reshimmed);
  const { places, after } = asked;
  if (places.length === 0) return undefined;
  const readWhole = wholeAt(story, thing, places);
  const inIt = inAsItIsRead(story, thing);
  const before = isOnBench(story, thing, places) && (readWhole === undefined || isAnew(asking, thing, places)) ? goingInNext(asking, asked, inIt) : [];
  const afterwards = after.filter((name) => !before.includes(name));
  // Of several things, one of which is on: it is read when the other is.
  // So is a bush in its bore, pressed in to be reamed, whatever it is pressed into is off for.
  const inPlace = isSize(thing) && thing.of.some(({ text }) => inIt.includes(text));
  const all = before.length > 0 && (inPlace ? afterwards.every((name) => inIt.includes(name)) : afterwards.length === 0 && thing.of.length === 1);
  const ahead = after.length === 0 ? plannedBefore(story, thing, places) : undefined;
  return {
    ...(ahead === undefined ? {} : { ahead }),
    thing,
    places,
    after: all ? afterwards : after,
    before: all ? before : [],
    readWhole,
    inIt,
    tried: triedAt(story, thing, places),
    last: asked.last,
    clamped: !waitsInSheet(story, thing, places[0] ?? "", "trial"),
    where: asked.where,
    ...(asked.at === undefined ? {} : { at: asked.at }),
  };
}

// ------------------------------------------------------------- where it is asked for, and after what

interface Asked {
  readonly places: readonly string[];
  readonly after: readonly string[];
  readonly last: boolean;
  readonly where: Where;
  readonly at: Line | undefined;
}

/** At all of its places together. */
function askedAt(asking: Asking, thing: Limit | Check, reshimmed: boolean): Asked {
  const places: string[] = [];
  const after = new Set<string>();
  let last = true;
  let where: Where = { file: thing.file, entry: thing.entry, row: 0, at: thing.at };
  let at: Line | undefined;
  for (const place of placesOf(asking.story.job, thing)) {
    const asks = askedAtPlace(asking, thing, place, reshimmed);
    if (asks === undefined || waitsInSheet(asking.story, thing, place)) continue;
    places.push(place);
    for (const name of asks.after) after.add(name);
    where = asks.where ?? where;
    at = asks.at ?? at;
    last &&= asks.last;
  }
  return { places, after: [...after], last, where, at };
}

type AskedAtPlace = Pick<Asked, "after" | "last"> & { readonly where?: Where; readonly at?: Line };

function askedAtPlace(asking: Asking, thing: Limit | Check, place: string, reshimmed: boolean): AskedAtPlace | undefined {
  const due = asking.due.get(thing.name);
  if ((due !== undefined && [...due.places].some((other) => isSamePlace(other, place))) || reshimmed)
    return { ...whenMoved(asking, thing, place), ...(due?.at === undefined ? {} : { at: due.at }) };
  const where = asking.standsOut(thing, place);
  if (where === undefined) return undefined;
  // A part is read while it can be got at, and no later; a setting when all is together.
  const after = workOn(asking, [...thing.of, ...thing.setBy], place).map((one) => one.thing.name);
  return { after, last: after.length === 0 && thing.of.length === 0, where };
}

/** What it is of or what sets it was moved: behind the work on that. */
function whenMoved(asking: Asking, thing: Limit | Check, place: string): Pick<Asked, "after" | "last"> {
  const setters = workOn(asking, thing.setBy, place);
  const inIt = inAsItIsRead(asking.story, thing).map((text) => ({ text }));
  // What a part sets, and nobody says of what (toe-in by a rod end), is read when all is together, unless something would then be in the way.
  const loose =
    setters.length > 0 && thing.of.length === 0 && inIt.length === 0 && setters.every(({ thing: by }) => by.kind === "part" && by.behind.length === 0);
  const work = loose ? [] : [...setters, ...workOn(asking, thing.of, place), ...workOn(asking, inIt, place)];
  // What is of nothing that is declared is read when the work is done, of whatever that was.
  return { after: work.map((it) => it.thing.name), last: loose || (work.length === 0 && isOfNothing(asking.story, thing)) };
}

/** What is still to be done there to any of these. */
function workOn({ work }: Asking, names: readonly { readonly text: string }[], place: string): Work[] {
  return work.filter(
    (it) => names.some(({ text }) => text === it.thing.name) && it.acts.some((act) => act.verb !== "support" && act.verb !== "lower" && isAt(act, place)),
  );
}

function isOfNothing({ job }: Story, thing: Limit | Check): boolean {
  return thing.setBy.length === 0 && !thing.of.some((name) => job.things.get(name.text)?.implied === false);
}

/** What is in and tight as it is read; of what shims alone set, and that says nothing of itself, what is said of another on the same shims. */
function inAsItIsRead(story: Story, thing: Limit | Check): readonly string[] {
  const { job } = story;
  const inIt = readWith(job, thing).map(({ name }) => name);
  if (inIt.length > 0 || thing.of.length > 0 || thing.setBy.length === 0 || shimsOf(story, thing).length < thing.setBy.length) return inIt;
  const shims = new Set(thing.setBy.map(({ text }) => text));
  const isSaid = (it: Thing): it is Limit | Check =>
    (it.kind === "limit" || it.kind === "check") && it.setBy.some(({ text }) => shims.has(text)) && (it.of.length > 0 || readWith(job, it).length > 0);
  const other = [...job.things.values()].find(isSaid);
  return other === undefined ? inIt : [...other.of.map(({ text }) => text), ...readWith(job, other).map(({ name }) => name)];
}

function shimsOf({ job }: Story, thing: Limit | Check): string[] {
  return thing.setBy.filter((name) => job.things.get(name.text)?.kind === "shims").map((name) => name.text);
}

function isUnreadOn(story: Story, thing: Limit | Check, shims: ReadonlySet<string>): boolean {
  return thing.critical && shimsOf(story, thing).some((name) => shims.has(name)) && !takenOf(story, thing).some((it) => it.stage === "final");
}

// ------------------------------------------------------------- what is read before its piece goes in

/** Read or seen of a piece in the hand. */
function isOnBench(story: Story, thing: Limit | Check, places: readonly string[]): boolean {
  if (places.some((place) => isReadInPlace(story, thing, place))) return false;
  // What works and says with what it is read is of no piece on the bench.
  const isAtWork = thing.kind === "limit" && thing.with.length > 0 && isWorking(thing);
  return (isSize(thing) && !isTogether(thing) && !inUse(thing) && !isAtWork) || isBlueing(thing) || isSeenBare(story, thing, places);
}

/** There is none of it until the pieces are together, and none in the hand. */
function isTogether(thing: Limit | Check): boolean {
  return isPlay(thing) || (thing.kind === "limit" && isReadTogether(thing));
}

/** What hangs on one piece wherever that lies, and is not set. */
function isSize(thing: Limit | Check): boolean {
  return thing.kind === "limit" && thing.set === undefined && thing.setBy.length === 0;
}

/** Mended or renewed before it goes in: the piece is another than was read in its place, and is measured as it is handed over. How true it runs shows when it is in. */
function isAnew({ work }: Asking, thing: Limit | Check, places: readonly string[]): boolean {
  const isMade = (act: Act) => (act.verb === "repair" || act.isNew === true) && places.some((place) => isAt(act, place));
  return (
    thing.kind === "limit" &&
    !isOfRunning(thing) &&
    !isOfWheels(thing) &&
    thing.of.every(({ text }) => work.some((it) => it.thing.name === text && it.acts.some(isMade)))
  );
}

/** Those of what it is read after that go in next where nothing is on: it is read before that. */
function goingInNext({ story, work }: Asking, { after, places }: Asked, inIt: readonly string[]): string[] {
  const isEmpty = (name: string) => {
    const cells = cellsAt(story, name, places);
    return cells.length > 0 && cells.every((it) => it.then.on === 0);
  };
  const isFitted = (name: string) => work.find((it) => it.thing.name === name)?.acts.some((act) => act.verb === "fit") === true;
  return after.filter((name) => !inIt.includes(name) && isFitted(name) && isEmpty(name));
}

/** The planned step that fits the one piece that it is of, where that is off today and it is read in the hand. */
function plannedBefore(story: Story, thing: Limit | Check, places: readonly string[]): Visit | undefined {
  const [only, ...more] = thing.of;
  if (places.some((place) => isReadInPlace(story, thing, place))) return undefined;
  if (only === undefined || more.length > 0 || !((isSize(thing) && !isTogether(thing)) || isBlueing(thing))) return undefined;
  const cells = cellsAt(story, only.text, places).filter((it) => it.kind === "part" || isBlueing(thing));
  if (cells.some((it) => it.now.on > 0)) return undefined;
  return cells
    .flatMap((cell) => (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "planned" && it.verb === "fit"))
    .find((it) => it.visit !== undefined)?.visit;
}

function cellsAt(story: Story, name: string, places: readonly string[]): (PartCell | FastenerCell)[] {
  return story
    .cells(name)
    .filter((it): it is PartCell | FastenerCell => (it.kind === "part" || it.kind === "fastener") && places.some((place) => isSamePlace(it.place, place)));
}
