// What is critical, has several places, and was looked at or measured at one of them alone, though another was open for the same.
// Invariant: speaks only where somebody looked at all; that nobody did is for the rules that ask for it.
import { placesOf } from "../model/job.ts";
import { isTriedTogether } from "../model/read-with.ts";
import type { Check, Fastener, Limit, Part } from "../model/things.ts";
import { sharesWords } from "../story/cells.ts";
import { readingsOn, seenOn } from "../story/looked-up.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../story/story.ts";
import type { Report } from "./rule.ts";
import { agreeing, called, listed } from "./wording.ts";

export function readAtOnePlace(story: Story, thing: Limit | Check): Report | undefined {
  return thing.kind === "check" ? seenAtSome(story, thing) : readAtSome(story, thing);
}

/** Looked at here for a reason, and not there, where something critical was open as well and nothing else asks for it. */
function seenAtSome(story: Story, check: Check): Report | undefined {
  const seen = seenOn(story, check.name).filter((it) => it.stage !== "trial");
  const [first] = seen;
  if (first === undefined || seen.some((it) => it.place === "")) return undefined;
  const unseen = unseenAt(story, check, new Set(seen.map((it) => it.place)));
  if (unseen.length === 0) return undefined;
  // What was looked at as it was found was looked for, and is looked for at the others; a last look may be at the new one alone. What is tried, a shake, a lock, is tried wherever it was let go.
  return {
    where: first.where,
    severity: "warning",
    open: unseen.some((place) => isOpenForIt(story, check, place) && (seen.some((it) => it.stage === "found") || isTriedAt(story, check, place))),
    message: `${called(check)} ${agreeing(check, "is")} critical, and was looked at here alone: not at ${listed(unseen)}, which was open too. Look there as well.`,
    reads: [{ name: check.name, places: unseen }],
  };
}

/** Where else it would be asked for, once it is tried at these. */
export function triedAlsoAt(story: Story, check: Check, places: ReadonlySet<string>): readonly string[] {
  if (places.size === 0 || places.has("")) return [];
  return unseenAt(story, check, places).filter((place) => isOpenForIt(story, check, place) && isTriedAt(story, check, place));
}

/** Its other places, bared for something critical, at which nothing of it was touched. */
function unseenAt(story: Story, check: Check, seen: ReadonlySet<string>): readonly string[] {
  return placesOf(story.job, check).filter(
    (place) =>
      place !== "" &&
      !seen.has(place) &&
      isBared(story, check, place) &&
      !isOpened(story, (thing, where) => where === place && check.of.some((name) => name.text === thing.name)) &&
      isOpened(story, (thing, where) => where === place && thing.critical),
  );
}

function isOpenForIt(story: Story, check: Check, place: string): boolean {
  return isOpened(story, (thing, where) => where === place && thing.critical && thing.criticalWhat === check.criticalWhat);
}

function isTriedAt(story: Story, check: Check, place: string): boolean {
  return isTriedTogether(check) && isUncovered(story, check, place);
}

/**
 * A setting read at the end where nothing that sets it was moved: somebody had a reason to read it, and that holds for the other side, where something critical for the
 * very same was open as well and nothing was read at all.
 */
function readAtSome(story: Story, limit: Limit): Report | undefined {
  const read = readingsOn(story, limit.name);
  const first = read.find((it) => it.stage === "final");
  if (first === undefined || limit.setBy.length === 0 || limit.of.length > 0 || read.some((it) => it.place === "")) return undefined;
  const places = placesOf(story.job, limit);
  const isMoved = (place: string) =>
    isOpened(story, (thing, at) => (at === place || at === "" || sharesWords(at, place)) && limit.setBy.some((name) => name.text === thing.name));
  if (places.some(isMoved)) return undefined;
  // What shims set lies within: where it was read more may have been apart for the same, and that is the reason: a final drive here, its wheel alone there.
  const isWithin = limit.setBy.every((name) => story.job.things.get(name.text)?.kind === "shims");
  const openFor = (place: string) =>
    [...story.parts, ...story.fasteners]
      .filter((it) => it.place === place && it.thing.critical && it.thing.criticalWhat === limit.criticalWhat && wasOpened(it))
      .map((it) => it.thing.name);
  const reasons = new Set(places.filter((place) => read.some((it) => it.place === place)).flatMap(openFor));
  const unread = places.filter(
    (place) =>
      place !== "" &&
      !read.some((it) => it.place === place) &&
      isOpened(story, (thing, at) => at === place && thing.critical && thing.criticalWhat === limit.criticalWhat) &&
      !(isWithin && [...reasons].some((name) => !openFor(place).includes(name))),
  );
  if (unread.length === 0) return undefined;
  const what = limit.criticalWhat === undefined ? "it" : `“${limit.criticalWhat}”`;
  return {
    where: first.where,
    severity: "warning",
    open: true,
    message: `${called(limit)} ${agreeing(limit, "is")} critical, and was measured here alone: not at ${listed(unread)}, where ${what} was open too. Measure it there as well.`,
    reads: [{ name: limit.name, places: unread }],
  };
}

/** What was before it, or holds it, was off there too; true where nothing says what that is. */
function isBared(story: Story, check: Check, place: string): boolean {
  return check.of.every(({ text }) => {
    const thing = story.job.things.get(text);
    const covers = thing?.kind === "part" ? [...thing.heldBy, ...thing.behind].map((name) => name.text) : [];
    return covers.length === 0 || isOpened(story, (it, where) => covers.includes(it.name) && (where === place || where === "" || sharesWords(where, place)));
  });
}

/** What is known to cover it or hold it was off there. */
function isUncovered(story: Story, check: Check, place: string): boolean {
  const covers = check.of.flatMap(({ text }) => {
    const thing = story.job.things.get(text);
    return thing?.kind === "part" ? [...thing.heldBy, ...thing.behind] : [];
  });
  return covers.length > 0 && isBared(story, check, place);
}

function isOpened(story: Story, is: (thing: Part | Fastener, place: string) => boolean): boolean {
  return [...story.parts, ...story.fasteners].some((cell) => is(cell.thing, cell.place) && wasOpened(cell));
}

export function wasOpened(cell: PartCell | FastenerCell): boolean {
  return (cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.phase === "done" && openings.has(it.verb));
}

export const openings: ReadonlySet<string> = new Set(["undo", "slacken", "remove", "fit", "repair"]);
