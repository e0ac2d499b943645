// Which limits must be measured, and which checks seen, before it can be released: what was or is to be moved, renewed or repaired, and what stands out.
// Invariant: a final reading counts only behind the last move; what waits in the sheet to be filled in is not asked for twice.
import { isSamePlace } from "../../model/same-place.ts";
import { isSafelyUnworn } from "../../rules/limits/limit-doubt.ts";
import { isConceded } from "../../story/conceded.ts";
import { lineText } from "../../../grammar/sheet-text.ts";
import { placesOf } from "../../model/job.ts";
import { relationsOf } from "../../model/relations.ts";
import { isReadTogether, isWorking, readWith } from "../../model/read-with.ts";
import type { Check, Limit, Thing } from "../../model/things.ts";
import type { Where } from "../../model/where.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story, Visit } from "../../story/story.ts";
import type { Verdict } from "../../story/verdict.ts";
import { judge } from "../../story/verdicts.ts";
import type { Line } from "../draw/line.ts";
import type { Act } from "./acts.ts";
import { inUse, isBlueing, isLeak, isOfRunning, isOfWheels, isPlay } from "./by-words.ts";
import { wasOff } from "./opening.ts";
import { namesIn } from "../../story/worked-out.ts";
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

export function readingsToTake(story: Story, work: readonly Work[], due: Due): ToRead[] {
  const { job } = story;
  const relations = relationsOf(job);
  const out: ToRead[] = [];
  const verdicts = judge(story).verdicts;
  const operands = operandsOut(story, work, verdicts);
  for (const thing of job.things.values()) take(thing, false);
  // Critical, never read at the end, and on the same shims as what is read: it is asked for as soon as that has been set again.
  const set = new Set(out.flatMap((it) => shimsOf(it.thing)));
  const taken = new Set(out.map((it) => it.thing.name));
  for (const thing of job.things.values())
    if ((thing.kind === "limit" || thing.kind === "check") && !taken.has(thing.name) && isUnreadOn(thing, set)) take(thing, true);
  return out;

  function take(thing: Thing, reshimmed: boolean): void {
    if ((thing.kind !== "limit" && thing.kind !== "check") || thing.implied) return;
    if (thing.kind === "limit" && thing.expression !== undefined && thing.setBy.length === 0) return;
    const places: string[] = [];
    const after = new Set<string>();
    let last = true;
    let where: Where = { file: thing.file, entry: thing.entry, row: 0, at: thing.at };
    let line: Line | undefined;
    for (const place of placesOf(job, thing)) {
      const asks = asked(thing, place, reshimmed);
      if (asks === undefined || waits(thing, place)) continue;
      places.push(place);
      for (const name of asks.after) after.add(name);
      where = asks.where ?? where;
      line = asks.at ?? line;
      last &&= asks.last;
    }
    if (places.length === 0) return;
    const readWhole = wholeAt(thing, places);
    const inIt = inAsItIsRead(thing);
    // What works and says with what it is read is of no piece on the bench.
    const isAtWork = thing.kind === "limit" && thing.with.length > 0 && isWorking(thing);
    const onBench = (isSize(thing) && !isTogether(thing) && !inUse(thing) && !isAtWork) || isBlueing(thing) || isSeenBare(thing, places);
    const before =
      onBench && (readWhole === undefined || isAnew(thing, places)) ? [...after].filter((name) => isEmpty(name, places) && !inIt.includes(name)) : [];
    const afterwards = [...after].filter((name) => !before.includes(name));
    // Of several things, one of which is on: it is read when the other is.
    // So is a bush in its bore, pressed in to be reamed, whatever it is pressed into is off for.
    const inPlace = isSize(thing) && thing.of.some(({ text }) => inIt.includes(text));
    const all = before.length > 0 && (inPlace ? afterwards.every((name) => inIt.includes(name)) : afterwards.length === 0 && thing.of.length === 1);
    const ahead =
      after.size === 0 && ((isSize(thing) && !isTogether(thing)) || isBlueing(thing)) && thing.of.length === 1
        ? fittedBy(thing, thing.of[0]?.text ?? "", places)
        : undefined;
    out.push({
      ...(ahead === undefined ? {} : { ahead }),
      thing,
      places,
      after: all ? afterwards : [...after],
      before: all ? before : [],
      readWhole,
      inIt,
      tried: triedAt(thing, places),
      last,
      clamped: !isTried(thing, places),
      where,
      ...(line === undefined ? {} : { at: line }),
    });
  }

  /** Mended or renewed before it goes in: the piece is another than was read in its place, and is measured as it is handed over. How true it runs shows when it is in. */
  function isAnew(thing: Limit | Check, places: readonly string[]): boolean {
    const isMade = (act: Act) => (act.verb === "repair" || act.isNew === true) && places.some((place) => at(act.places, place));
    return (
      thing.kind === "limit" &&
      !isOfRunning(thing) &&
      !isOfWheels(thing) &&
      thing.of.every(({ text }) => work.some((it) => it.thing.name === text && it.acts.some(isMade)))
    );
  }

  /** What of it would be read is what goes in next: nothing is on there. */
  function isEmpty(name: string, places: readonly string[]): boolean {
    const own = work.find((it) => it.thing.name === name);
    const cells = story.cells(name).filter((it) => (it.kind === "part" || it.kind === "fastener") && places.some((place) => isSamePlace(it.place, place)));
    return (
      (own?.acts.some((act) => act.verb === "fit") ?? false) &&
      cells.length > 0 &&
      cells.every((it) => (it.kind === "part" || it.kind === "fastener") && it.then.on === 0)
    );
  }

  /** When and where it was read or looked at, in the order of the sheet. */
  function takenOf(thing: Limit | Check): readonly { readonly seq: number; readonly place: string; readonly stage: string }[] {
    return thing.kind === "check" ? story.seen.filter((it) => it.check === thing) : story.readings.filter((it) => it.limit === thing);
  }

  /** The last time that it was read or looked at while nothing that it is of, or that sets it, was off. */
  function wholeAt(thing: Limit | Check, places: readonly string[]): number | undefined {
    const names = thing.of.length > 0 ? thing.of : thing.setBy;
    return takenOf(thing).findLast(
      ({ seq, place }) =>
        places.some((it) => isSamePlace(it, place)) &&
        names.every(({ text }) =>
          story.cells(text).every((cell) => (cell.kind !== "part" && cell.kind !== "fastener") || !isSamePlace(cell.place, place) || !wasOff(cell, seq)),
        ),
    )?.seq;
  }

  /** The planned step that fits it, where it is off today. */
  function fittedBy(thing: Limit | Check, name: string, places: readonly string[]): Visit | undefined {
    const cells = story
      .cells(name)
      .filter(
        (it): it is PartCell | FastenerCell =>
          (it.kind === "part" || (it.kind === "fastener" && isBlueing(thing))) && places.some((place) => isSamePlace(it.place, place)),
      );
    if (cells.length === 0 || cells.some((it) => it.now.on > 0)) return undefined;
    return cells
      .flatMap((cell) => (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "planned" && it.verb === "fit"))
      .find((it) => it.visit !== undefined)?.visit;
  }

  /** Looked at with all that it is of off, wherever it was: it is seen on the bench, and so before it goes in. */
  function isSeenBare(thing: Limit | Check, places: readonly string[]): boolean {
    if (thing.kind !== "check" || !isOfBarePieces(thing)) return false;
    const seen = takenOf(thing);
    const here = seen.filter(({ place }) => places.some((it) => isSamePlace(it, place)));
    const taken = here.length > 0 ? here : seen;
    return (
      taken.length > 0 &&
      taken.every(({ seq, place }) =>
        thing.of.every(({ text }) => story.cells(text).every((cell) => cell.kind === "part" && (!isSamePlace(cell.place, place) || wasOff(cell, seq)))),
      )
    );
  }

  /** Of pieces alone: nothing sets it, nothing is in them that could leak, and it isn't there only when they are together. */
  function isOfBarePieces(thing: Check): boolean {
    return (
      thing.of.length > 0 &&
      thing.setBy.length === 0 &&
      !isPlay(thing) &&
      !isLeak(thing) &&
      !inUse(thing) &&
      thing.of.every(({ text }) => (relations.fluidsIn.get(text) ?? []).length === 0)
    );
  }

  function triedAt(thing: Limit | Check, places: readonly string[]): number | undefined {
    const last = takenOf(thing).findLast(({ place }) => places.some((it) => isSamePlace(it, place)));
    return last?.stage === "trial" ? last.seq : undefined;
  }

  function isTried(thing: Limit | Check, places: readonly string[]): boolean {
    return waits(thing, places[0] ?? "", "trial");
  }

  function asked(thing: Limit | Check, place: string, reshimmed: boolean): { after: readonly string[]; last: boolean; where?: Where; at?: Line } | undefined {
    const own = (names: readonly { readonly text: string }[]) =>
      work.filter(
        (it) =>
          names.some(({ text }) => text === it.thing.name) && it.acts.some((act) => act.verb !== "support" && act.verb !== "lower" && at(act.places, place)),
      );
    const it = due.get(thing.name);
    if ((it !== undefined && [...it.places].some((other) => isSamePlace(other, place))) || reshimmed) {
      const setters = own(thing.setBy);
      const inIt = inAsItIsRead(thing);
      // What a part sets, and nobody says of what (toe-in by a rod end), is read when all is together, unless something would then be in the way.
      const loose =
        setters.length > 0 && thing.of.length === 0 && inIt.length === 0 && setters.every(({ thing: by }) => by.kind === "part" && by.behind.length === 0);
      const after = loose ? [] : [...setters, ...own(thing.of), ...own(inIt.map((text) => ({ text })))].map((one) => one.thing.name);
      // What is of nothing that is declared is read when the work is done, of whatever that was.
      const last = loose || (after.length === 0 && isOfNothing(thing));
      return { after, last, ...(it?.at === undefined ? {} : { at: it.at }) };
    }
    const standing = thing.kind === "limit" ? standsOut(thing, place) : seenBad(thing, place);
    if (standing === undefined) return undefined;
    // A part is read while it can be got at, and no later; a setting when all is together.
    const of = own([...thing.of, ...thing.setBy]).map((one) => one.thing.name);
    return { after: of, last: of.length === 0 && thing.of.length === 0, where: standing };
  }

  function shimsOf(thing: Limit | Check): string[] {
    return thing.setBy.filter((name) => job.things.get(name.text)?.kind === "shims").map((name) => name.text);
  }

  function isUnreadOn(thing: Limit | Check, shims: ReadonlySet<string>): boolean {
    if (!thing.critical || thing.implied || !shimsOf(thing).some((name) => shims.has(name))) return false;
    return !takenOf(thing).some((it) => it.stage === "final");
  }

  /** What is in and tight as it is read; of what shims alone set, and that says nothing of itself, what is said of another on the same shims. */
  function inAsItIsRead(thing: Limit | Check): readonly string[] {
    const inIt = readWith(job, thing).map(({ name }) => name);
    if (inIt.length > 0 || thing.of.length > 0 || thing.setBy.length === 0 || !thing.setBy.every((name) => job.things.get(name.text)?.kind === "shims"))
      return inIt;
    const shims = new Set(thing.setBy.map(({ text }) => text));
    const other = [...job.things.values()].find(
      (it): it is Limit | Check =>
        (it.kind === "limit" || it.kind === "check") && it.setBy.some(({ text }) => shims.has(text)) && (it.of.length > 0 || readWith(job, it).length > 0),
    );
    return other === undefined ? inIt : [...other.of.map(({ text }) => text), ...readWith(job, other).map(({ name }) => name)];
  }

  function isOfNothing(thing: Limit | Check): boolean {
    return thing.setBy.length === 0 && !thing.of.some((name) => job.things.get(name.text)?.implied === false);
  }

  /** The verdict that stands against it: the last one out or in doubt, and no final in since. */
  function standsOut(limit: Limit, place: string): Where | undefined {
    if (isConceded(story, limit.name, place)) return undefined;
    const own = verdicts.filter((it) => it.limit === limit && isSamePlace(it.place, place) && it.stage !== "trial");
    const isGood = (it: Verdict) => it.outcome === "in" || (it.outcome === "doubt" && isSafelyUnworn(it));
    const bad = own.findLast((it) => !isGood(it) && !(it.band === "new" && it.stage === "found"));
    if (bad !== undefined && !own.some((it) => it.seq > bad.seq && it.stage === "final" && isGood(it))) return bad.where;
    return operands.find((it) => it.name === limit.name && isSamePlace(it.place, place))?.where;
  }

  function seenBad(check: Check, place: string): Where | undefined {
    const last = story.seen.findLast((it) => it.check === check && isSamePlace(it.place, place));
    return last === undefined || last.good ? undefined : last.where;
  }

  /** Written already and waiting to be filled in: an empty `measure … final` of it, or a comment that holds its line. */
  function waits(thing: Limit | Check, place: string, stage = "final"): boolean {
    const { sheet } = job.own;
    if (thing.kind === "check") return sheet.lines.some((line) => commentOf(line)?.startsWith(seenLine(thing, place)) === true);
    return sheet.entries.some((entry, i) => {
      if (entry.kind !== "measure" || entry.limit?.text !== thing.name || entry.stage !== stage) return false;
      const first = sheet.starts[i] ?? 0;
      const comments = Array.from({ length: entry.rows }, (_, row) => commentOf(lineText(sheet, first + row))).filter((it) => it !== undefined);
      return comments.some((it) => it.startsWith(readingLine(place)));
    });
  }
}

/** There is none of it until the pieces are together, and none in the hand. */
function isTogether(thing: Limit | Check): boolean {
  return isPlay(thing) || (thing.kind === "limit" && isReadTogether(thing));
}

/** What hangs on one piece wherever that lies, and is not set. */
function isSize(thing: Limit | Check): boolean {
  return thing.kind === "limit" && thing.set === undefined && thing.setBy.length === 0;
}

/** Operands of a worked-out limit that stands out: those must be read again whose piece is new or repaired; where that is none of them, all. */
function operandsOut(story: Story, work: readonly Work[], verdicts: readonly Verdict[]): { name: string; place: string; where: Where }[] {
  /** New or mended there, by what is written here or by the sheet since. */
  const isChanged = (name: string, place: string, since: number) =>
    work.some(
      (it) => it.thing.name === name && it.acts.some((act) => at(act.places, place) && (act.verb === "repair" || (act.verb === "fit" && act.isNew === true))),
    ) ||
    story
      .cells(name)
      .some(
        (cell) =>
          cell.kind === "part" &&
          isSamePlace(cell.place, place) &&
          cell.history.some((it) => it.seq > since && (it.verb === "repair" || (it.verb === "fit" && it.isNew))),
      );
  return verdicts.flatMap((bad) => {
    const { expression } = bad.limit;
    if (!bad.workedOut || expression === undefined || bad.outcome === "in" || (bad.band === "new" && bad.stage === "found")) return [];
    if (verdicts.some((it) => it.limit === bad.limit && it.place === bad.place && it.seq > bad.seq && it.stage === "final" && it.outcome === "in")) return [];
    const names = [...namesIn(expression)];
    const changed = names.filter((name) => {
      const limit = story.job.things.get(name);
      return limit?.kind === "limit" && limit.of.some((of) => isChanged(of.text, bad.place, bad.seq));
    });
    return (changed.length > 0 ? changed : names).map((name) => ({ name, place: bad.place, where: bad.where }));
  });
}

/** How a line that waits for a figure begins, behind the sign of a comment. */
export function readingLine(place: string): string {
  return place === "" ? "\u2026" : `${place} \u2026`;
}

export function seenLine(check: Check, place: string): string {
  return `seen ${check.name} final good|bad "\u2026"${place === "" ? "" : ` ${place}`} by "\u2026"`;
}

function commentOf(line: string): string | undefined {
  return /^\s*#\s*(.*)$/.exec(line)?.[1];
}

function at(places: readonly string[], place: string): boolean {
  return places.length === 0 || place === "" || places.includes(place) || places.includes("");
}
