// Outside work that has come back, and what it asks to be measured or seen before the piece is trusted.
// Invariant: told by orders, findings and the words of the order; what was read since is for the rule that asks.
import type { WorkDetail } from "../../grammar/tree.ts";
import { wholeNumber } from "../model/declare.ts";
import { type Job, placesOf } from "../model/job.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { headOf, wordsOf } from "../model/read-with.ts";
import type { Check, Limit, Thing } from "../model/things.ts";
import { type Where, where } from "../model/where.ts";
import { isForTheShelf, readWhileAway } from "../story/away.ts";
import { findingsOf } from "../story/decisions.ts";
import { readingsOn, verdictsOn } from "../story/looked-up.ts";
import type { Story } from "../story/story.ts";
import type { Judged } from "../story/verdict.ts";

import { givesSize } from "../story/worked-in.ts";

export interface WorkToRead {
  readonly detail: WorkDetail;
  readonly where: Where;
  /** The day on which it came back. */
  readonly since: string;
}

/** Work on what a limit or a check is of, after which this place of it is read again. */
export function* workToRead(story: Story, judged: Judged, thing: Limit | Check, place: string): Generator<WorkToRead> {
  // What was found past its limit stays flagged there until it is measured again.
  if (verdictsOn(judged, thing.name).some((it) => it.stage !== "trial" && it.outcome === "out" && it.band !== "new" && it.place === place)) return;
  // That it was read while it was away is said at that reading.
  if (readWhileAway(story).some(({ of }) => ("limit" in of ? of.limit : of.check).name === thing.name && of.place === place)) return;
  for (const name of thing.of) {
    for (const { file, entry, detail, status, sentOn } of ordersOf(story.job).work.get(name.text) ?? []) {
      const since = status?.date?.text;
      if (status?.status !== "received" || since === undefined || !isAt(detail, place)) continue;
      const cell = story.cell(name.text, place);
      if ((cell?.kind === "part" || cell?.kind === "fastener") && isForTheShelf(cell, { back: since, ...(sentOn === undefined ? {} : { sentOn }) })) continue;
      const mended =
        givesSize(ofThis(thing, detail.text?.value ?? "")) ||
        (findingsOf(story).get(name.text) ?? []).some(
          ({ decision, places }) =>
            (decision?.detail.decision === "repair" || decision?.detail.decision === "make") && (place === "" || places.includes("") || places.includes(place)),
        );
      const begun = readingsOn(story, thing.name).some((it) => it.stage === "final" && it.place === place && onOrAfter(it.day, since));
      if (begun || (mended && (isWhole(story, name.text, detail, place) || isOfAll(story, thing, name.text, detail, place, since))))
        yield { detail, where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword), since };
    }
  }
}

/** The words of the work without those of its clauses that say themselves that it was another end of the part: “turn the flange true”, where a pin is measured. */
function ofThis(thing: Limit | Check, text: string): string {
  if (thing.kind === "check") return text;
  const own = new Set(wordsOf(`${thing.name} ${thing.title ?? ""}`));
  return text
    .split(/[,;&+]|\band\b/u)
    .filter((clause) => {
      const [end] = elsewhere.exec(clause) ?? [];
      return end === undefined || measured.test(clause) || wordsOf(end).some((word) => own.has(word)) || wordsOf(clause).includes(headOf(thing) ?? "");
    })
    .join(", ");
}

const elsewhere = /\b(nose|flanges?|keyways?|key slot|spigot|dowel holes?|radii|radius|fillets?|oil ?ways?|oil holes?|threads?|little ends?)\b/iu;
const measured = /\b(pins?|journals?|mains?|bearings?|bores?|seats?|under ?(size)?|over ?size|sizes?|all|whole)\b/iu;

/** What was worked on is all that the limit has at this place: it has one place alone, the order names it, or the piece of this place was sent with the others. */
function isWhole(story: Story, name: string, detail: WorkDetail, place: string): boolean {
  if (place === "" || (detail.places.length > 0 && isAt(detail, place))) return true;
  const cell = story.cell(name, place);
  if (cell?.kind !== "part" || !cell.history.some((it) => it.phase === "done" && it.after.on < it.before.on)) return false;
  // So many as there are: all of them.
  const all = placesOf(story.job, cell.thing).length * (cell.thing.perPlace ?? 1);
  return detail.count === undefined || (detail.places.length === 0 && wholeNumber(detail.count.text) === all);
}

/**
 * One thing with the limit at several places, worked on at none that anybody names: whoever ground it had all of it. Asked where the order names what is measured, where
 * it was read again at another place, or where nothing else of the thing is a size that grinding could have changed; and of places that were read as found.
 */
function isOfAll(story: Story, thing: Limit | Check, part: string, detail: WorkDetail, place: string, since: string): boolean {
  if (thing.kind !== "limit" || detail.places.length > 0) return false;
  const said = [
    detail.text?.value ?? "",
    ...(findingsOf(story).get(part) ?? []).flatMap(({ decision, conditions }) => [
      decision?.detail.how?.value ?? "",
      ...conditions.map(({ condition }) => condition.text?.value ?? ""),
    ]),
  ];
  // “Grind all journals” says it itself, wherever the worst of them was found.
  if (!allOfThem.test(detail.text?.value ?? "") && said.some((text) => namesPlace(text, placesOf(story.job, thing)) || ofOne.test(text))) return false;
  const read = readingsOn(story, thing.name);
  if (!read.some((it) => it.stage === "found" && it.place === place)) return false;
  return (
    namesIt(thing, wordsOf(detail.text?.value ?? "")) ||
    (givesSize(ofThis(thing, detail.text?.value ?? "")) && isOnlySizeOf(story.job, thing, part)) ||
    read.some((it) => it.stage === "final" && it.place !== place && it.day !== undefined && it.day >= since)
  );
}

/** By what is measured, or whose size it is: “grind the journals”, of a driving journal diameter. */
function namesIt(thing: Limit, said: readonly string[]): boolean {
  const own = wordsOf(thing.title ?? thing.name);
  return said.includes(headOf(thing) ?? "") || own.some((word) => said.includes(word) && (measured.test(word) || measured.test(`${word}s`)));
}

/** A diameter, a bore, a thickness that is read of this part, and the only one. */
function isOnlySizeOf(job: Job, thing: Limit, part: string): boolean {
  const isSize = (it: Thing) =>
    it.kind === "limit" && it.expression === undefined && it.spread === undefined && it.setBy.length === 0 && it.of.some(({ text }) => text === part);
  return isSize(thing) && [...job.things.values()].every((it) => it === thing || !isSize(it));
}

/** “Spray the worn seat”, “one journal”, “the second pin”: of one of several. */
const ofOne =
  /\b(one|the (worn|scored|bad|bent|damaged|pitted|loose) \p{L}+(?<!s)|(first|second|third|fourth|last|\d(st|nd|rd|th)|front|rear|middle|centre|left|right) (crank ?|main )?(pin|journal|bore|cylinder|seat|throw|bearing|bush))\b/iu;

const allOfThem = /\b(all|both|each|every)\b(?! (over|round|through))/iu;

/** By its name, or by a number. */
function namesPlace(text: string, places: readonly string[]): boolean {
  const words: readonly string[] = text.toLowerCase().match(/[\p{L}\d]+/gu) ?? [];
  return /\b(no\.? ?\d|number)\b/i.test(text) || places.some((place) => place.split("-").some((word) => words.includes(word.toLowerCase())));
}

/** What has no day is taken to be late enough. */
export function onOrAfter(day: string | undefined, from: string): boolean {
  return day === undefined || day >= from;
}
