// Whether anything stands between a bad look and the good one behind it that could have made the difference.
// Invariant: what counts as something is read widely, but for a crack: that goes by mending, renewing, or another word on the very piece.
import { isSamePlace } from "../model/same-place.ts";
import type { Entry, WorkDetail } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { memo } from "../model/memo.ts";
import { type Ordered, isAt, ordersOf } from "../model/orders.ts";
import { headOf, isOfCracks, wordsOf } from "../model/read-with.ts";
import { findingsOf } from "../story/decisions.ts";
import { hasReason } from "../story/finding-words.ts";
import { seenOn } from "../story/looked-up.ts";
import type { Check } from "../model/things.ts";
import type { FastenerMoment, Found, Moment, PartMoment, Reading, Seen, Story } from "../story/story.ts";
import { mendsNothing } from "../story/worked-in.ts";
import { failed } from "./failures.ts";
import { speaksOfMetal } from "./metal-words.ts";

/** Something was done, or somebody looked twice and said what it was. */
export function isBroughtAbout(story: Story, bad: Seen, good: Seen): boolean {
  const { check } = bad;
  const explained = lastExplained(seenOn(story, check.name));
  const isExplained = (place: string) => (explained.get(place) ?? -1) > bad.seq;
  if (isExplained("") || (bad.place === "" ? [...explained.keys()].some(isExplained) : isExplained(bad.place))) return true;
  const pieces = check.of.filter((name) => story.job.things.get(name.text)?.implied === false);
  const here = (place: string) => isSamePlace(place, bad.place);
  for (const { text } of pieces) {
    if ((findingsOf(story).get(text) ?? []).some((it) => it.places.some(here) && isSaid(it, bad))) return true;
    if ((ordersOf(story.job).work.get(text) ?? []).some((it) => it.status?.status === "received" && isAt(it.detail, bad.place) && isForIt(it, bad)))
      return true;
  }
  if (pieces.length === 0 || !isOfMetal(bad)) return isWorkBetween(story, bad, good) && (check.setBy.length === 0 || isSetBetween(story, check, bad, good));
  const said = wordsOf(bad.entry.text?.value ?? "");
  const named =
    said.length === 0
      ? []
      : [...story.parts, ...story.fasteners].filter(({ thing }) => said.includes(headOf(thing) ?? "")).map(({ thing }) => ({ text: thing.name }));
  return [...pieces, ...named, ...softWith(story, bad)].some(({ text }) =>
    story
      .cells(text)
      .some(
        (cell) =>
          (cell.kind === "part" || cell.kind === "fastener") &&
          here(cell.place) &&
          (cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.phase === "done" && isMended(it) && isBehind(it, bad)),
      ),
  );
}

/** What tears, frays or perishes is seldom the piece that a check names but the seal, boot or cable with it, by whatever name the look calls that: “lip torn”. */
function softWith(story: Story, { check, entry }: Seen): { readonly text: string }[] {
  const isSoft = (name: string) => {
    const thing = story.job.things.get(name);
    return thing !== undefined && soft.has(headOf(thing) ?? "");
  };
  if (isOfCracks(check) || !ofSoft.test(entry.text?.value ?? "") || check.of.some(({ text }) => isSoft(text))) return [];
  return story.parts.filter(({ thing }) => isSoft(thing.name)).map(({ thing }) => ({ text: thing.name }));
}

const ofSoft = /\b(torn|nick(s|ed)?|fray(s|ed|ing)?|crazed|perished|chafed|linings?)\b/iu;
const soft: ReadonlySet<string> = new Set(
  "seal gasket joint boot gaiter bellow felt ring packing cable hose pipe belt strap diaphragm cup washer shoe pad lining band rope tyre tube cord sling".split(
    " ",
  ),
);

/** At each place, the number of the last look that said in words what it had been. */
const lastExplained = memo((seen: readonly Seen[]): ReadonlyMap<string, number> => {
  const last = new Map<string, number>();
  for (const it of seen) if (it.good && it.stage === "found" && it.entry.text !== undefined) last.set(it.place, it.seq);
  return last;
});

/** A crack that was seen when the piece was away already, or was back, is nothing that it was sent out for. */
function isForIt({ detail, sentOn, status }: Ordered<WorkDetail>, bad: Seen): boolean {
  if (!isOfMetal(bad)) return true;
  if (mendsNothing(detail.text?.value ?? "")) return false;
  const { day } = bad;
  if (day === undefined) return true;
  return !(sentOn !== undefined ? sentOn < day : status?.date !== undefined && status.date.text < day);
}

/** A crack has rules of its own; and `serviceable` behind the look is another word, of what looked like a crack with its reason. */
function isSaid(found: Found, bad: Seen): boolean {
  return found.conditions.some(
    ({ condition }) =>
      (isOfCracks(bad.check) ? condition.kind === "cracked" : failed.has(condition.kind)) ||
      (condition.kind === "serviceable" && isBehind(found, bad) && (hasReason(found) || condition.text !== undefined || !isOfCracks(bad.check))),
  );
}

/** Another piece is in, or this one was worked on: stoned, dressed. Cleaning, oil and heat close no crack. */
function isMended(it: PartMoment | FastenerMoment): boolean {
  return (it.verb === "repair" && !mendsNothing(it.action?.text?.value ?? "")) || (it.verb === "fit" && (it.isNew || it.from !== undefined));
}

/** What it looks for, or what was seen, is of the metal: no taking off and putting back mends that. */
function isOfMetal({ check, entry }: Seen): boolean {
  return isOfCracks(check) || speaksOfMetal(entry.text?.value ?? "");
}

function isBehind(it: Moment, bad: Moment): boolean {
  return it.seq > bad.seq || (it.day !== undefined && bad.day !== undefined && it.day > bad.day);
}

/**
 * What a look or a reading is set by was moved or counted anew between the two, a critical part renewed, something mended, or a step tells in words of what was changed. Whatever else was off and on again
 * leaves a contact pattern where it was.
 */
export function isSetBetween(story: Story, { setBy, of }: Pick<Check, "setBy" | "of">, bad: Seen | Reading, good: Seen | Reading): boolean {
  const isBetween = (it: Moment) => it.phase === "done" && isBehind(it, bad) && it.seq < good.seq;
  const names = new Set([...setBy, ...of].map((it) => it.text));
  for (const cell of [...story.parts, ...story.fasteners]) {
    const isOne = names.has(cell.thing.name);
    if (isOne && cell.unsure) return true;
    for (const it of cell.history as readonly (PartMoment | FastenerMoment)[]) {
      if (!isBetween(it) || it.verb === "found") continue;
      if (
        isOne
          ? it.verb !== "lock" && it.verb !== "mark"
          : it.verb === "repair" || (it.verb === "fit" && it.isNew && cell.kind === "part" && cell.thing.critical)
      )
        return true;
    }
  }
  if (story.fluids.some((cell) => cell.unsure || cell.history.some((it) => isBetween(it) && (it.verb === "bleed" || it.verb === "fill")))) return true;
  const at = orderOf(story.job);
  const [from, to] = [at.get(bad.entry) ?? 0, at.get(good.entry) ?? 0];
  const heads = setBy.flatMap(({ text }) => {
    const thing = story.job.things.get(text);
    return [text.split("-").at(-1) ?? text, ...(thing === undefined ? [] : [headOf(thing) ?? ""])].filter((it) => it.length > 3);
  });
  return story.job.own.sheet.entries.slice(from, to + 1).some((it) => {
    if (it.kind === "shims") return names.has(it.name?.text ?? "");
    if (it.kind === "order") return it.details.some((line) => line.kind === "work");
    if (it.kind !== "step") return false;
    const texts = [it.title?.value, ...it.details.map((line) => (line.kind === "note" ? line.text?.value : undefined))];
    return texts.some((text) => text !== undefined && (changes.test(text) || heads.some((head) => text.toLowerCase().includes(head.replace(/s$/, "")))));
  });
}

const changes =
  /\b(shim\w*|adjust\w*|re-?set|moved|more|less|another|deeper|closer|nearer|further|thou|tenths?|hundredths?|turn(ed|s)?|notch(es)?|clicks?|flats?|packed|stoned|dressed|lapped|wiped|washed|bled|eased|swapped|changed|first (was|look))\b|\d/iu;

/** A step was done between the two, by the lines or by the days; of the day of the bad look, the lines say which came first. */
function isWorkBetween(story: Story, bad: Seen, good: Seen): boolean {
  const at = orderOf(story.job);
  const from = at.get(bad.entry) ?? 0;
  const to = at.get(good.entry) ?? 0;
  return story.visits.some(({ phase, entry, day }) => {
    if (phase !== "done") return false;
    const here = at.get(entry) ?? 0;
    return (here > from && here < to) || (day !== undefined && bad.day !== undefined && good.day !== undefined && day > bad.day && day <= good.day);
  });
}

const orderOf = memo((job: Job) => new Map<Entry, number>(job.own.sheet.entries.map((entry, i) => [entry, i])));
