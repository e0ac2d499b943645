// The parts and fasteners that a job needs new: decided so, missing, disturbed, worn past use, or the match of one of these.
// Invariant: a question that is open keeps what it asks about out of the needs; a doubtful reading asks for nothing.
import { isSamePlace } from "../model/same-place.ts";
import { isConceded } from "../story/conceded.ts";
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { linesOf, type Fastener, type Part, type Thing } from "../model/things.ts";
import { midSentence } from "../model/titles.ts";
import { ratio } from "../quantities/exact.ts";
import { type Decided, countAt, decidedAt, findingsOf, isOpenQuestion } from "../story/decisions.ts";
import { itemAt, itemNamed } from "./items.ts";
import { type Needs, type PlacedNeed, type Reason, type Use, type Waiting, placed } from "./need.ts";
import { condemned, condemning } from "../story/past-wear.ts";
import { backFromWork, completeSince, isAnewSince, repairedSince } from "../story/put-right.ts";
import { isOfThoseToGo } from "../story/whose-figures.ts";
import { disturbances } from "./disturbed.ts";
import { askMates } from "./mates.ts";
import { type Slot, type Slots, outstanding, placesOfThing } from "./slots.ts";
import type { FastenerCell, PartCell, Story } from "../story/story.ts";
import type { Judged, Verdict } from "../story/verdict.ts";

/** `slots` may hold what lockings ask of the parts that lock. In slices, each a look at all pieces of the job. */
export function* needsOfPieces(story: Story, judged: Judged, slots: Slots, asked: ReadonlyMap<string, Waiting>): Slices<Needs> {
  const decided = new Map<Slot, Decided[]>();
  let n = 0;
  for (const [name, findings] of findingsOf(story)) {
    const thing = story.job.things.get(name);
    if (!isPiece(thing)) continue;
    for (const place of new Set([...placesOfThing(story, thing), ...findings.flatMap((found) => found.places)])) {
      if (++n % someAtOnce === 0) yield;
      const slot = slots.at(thing, place);
      const list = decidedAt(story, name, place, slot.total);
      decided.set(slot, list);
      for (const it of list)
        if (it.says === "new" && !foundAgain(story, slot, it))
          slot.asks.push({
            seq: it.found.seq,
            count: it.count,
            // What is said of all of them, where some were spoken of before, is of the rest.
            adds: countAt(it.found, place, slot.total).counted || it.count < slot.total,
            reasons: [reasonOf(it, place)],
          });
    }
  }
  yield;
  askForWorn(story, judged, slots, decided);
  yield;
  for (const { slot, ask } of disturbances(story, slots)) slot.asks.push(ask);
  for (const cell of [...story.parts, ...story.fasteners]) {
    const slot = slots.at(cell.thing, cell.place);
    let fittedMade = 0;
    for (const moment of cell.history) {
      if (moment.verb !== "fit" || !moment.isNew) continue;
      const made = Math.max(0, Math.min(moment.count, madeHere(decided.get(slot), moment.seq) - fittedMade));
      fittedMade += made;
      slot.fitted.push({ moment, count: moment.count, made });
    }
  }
  yield;
  const waits = (slot: Slot) => asked.has(slot.thing.name) || waitingCount(decided.get(slot)) >= slot.total;
  yield* askMates(story, slots, waits);
  yield;
  return yield* told(story, slots, decided, asked);
}

function* told(story: Story, slots: Slots, decided: ReadonlyMap<Slot, readonly Decided[]>, asked: ReadonlyMap<string, Waiting>): Slices<Needs> {
  const needed: PlacedNeed[] = [];
  const used: Use[] = [];
  const held = new Map<string, number>();
  const waiting = new Map<string, { question: string; count: number; places: string[]; where: Waiting["where"]; name: string }>();
  let n = 0;
  for (const slot of slots.all()) {
    if (++n % someAtOnce === 0) yield;
    const { name } = slot.thing;
    if (slot.asks.length === 0 && slot.fitted.length === 0 && !decided.has(slot)) continue;
    const item = itemAt(story.job, name, slot.place);
    for (const fit of slot.fitted)
      if (fit.moment.phase === "done" && fit.count > fit.made) used.push({ item, amount: { value: ratio(fit.count - fit.made) }, moment: fit.moment });
    for (const it of decided.get(slot) ?? []) {
      if (it.says !== "waiting" || it.question === undefined) continue;
      const key = `${name} ${it.question}`;
      const one = waiting.get(key) ?? { question: it.question, count: 0, places: [], where: it.found.decision?.where ?? it.found.where, name };
      one.count += it.count;
      if (slot.place !== "") one.places.push(slot.place);
      waiting.set(key, one);
    }
    const toMake = madeHere(decided.get(slot), Number.POSITIVE_INFINITY) - slot.fitted.reduce((sum, fit) => sum + fit.made, 0);
    const { count, free, reasons } = outstanding(slot, waitingCount(decided.get(slot)) + toMake);
    if (asked.has(name) && count > 0) held.set(name, (held.get(name) ?? 0) + count);
    if (free > 0 && !asked.has(name)) needed.push({ item, place: slot.place, amount: { value: ratio(free) }, reasons });
  }
  const list: Waiting[] = [...waiting.values()].map(({ name, question, count, places, where }) => ({
    item: itemNamed(story.job, name),
    question,
    amount: { value: ratio(count) },
    places,
    where,
  }));
  for (const [name, it] of asked) {
    if (waiting.has(`${name} ${it.question}`)) continue;
    const count = held.get(name);
    list.push(count === undefined ? it : { ...it, amount: { value: ratio(count) } });
  }
  return { needed, used, waiting: list };
}

function waitingCount(decided: readonly Decided[] | undefined): number {
  return (decided ?? []).reduce((sum, it) => (it.says === "waiting" ? sum + it.count : sum), 0);
}

/** How many were decided to be made by then: nobody sells them and no shelf held them. */
function madeHere(decided: readonly Decided[] | undefined, before: number): number {
  return (decided ?? []).reduce((sum, it) => (it.found.decision?.detail.decision === "make" && it.found.seq < before ? sum + it.count : sum), 0);
}

/** What an open question is about, by name. */
export function askedAbout(story: Story): Map<string, Waiting> {
  const asked = new Map<string, Waiting>();
  for (const question of story.job.things.values()) {
    if (question.kind !== "question" || !isOpenQuestion(story, question.name)) continue;
    for (const { file, entry, detail } of linesOf(question, "about")) {
      for (const name of detail.names) {
        const thing = story.job.things.get(name.text);
        if (thing !== undefined && (isPiece(thing) || thing.kind === "fluid" || thing.kind === "shims") && !asked.has(name.text)) {
          asked.set(name.text, {
            item: itemNamed(story.job, name.text),
            question: question.name,
            places: [],
            where: { file, entry, row: detail.row, at: name.at },
          });
        }
      }
    }
  }
  return asked;
}

/** Done work has answered what nobody decided: the missing one is back, the damaged one is mended. */
function foundAgain(story: Story, slot: Slot, it: Decided): boolean {
  if (it.inWords) return false;
  const cell = cellOf(story, slot);
  if (cell === undefined) return false;
  const kinds = it.found.conditions.map(({ condition }) => condition.kind);
  const back = completeSince(cell, it.found.seq);
  const mended = repairedSince(cell, it.found.seq);
  if (kinds.includes("missing") && (back === undefined || back.planned || renewedAt(cell, back.moment.seq))) return false;
  return !kinds.includes("damaged") || (mended !== undefined && !mended.planned);
}

/** Fitted new, the need is met by the new one, which is counted. */
function renewedAt(cell: PartCell | FastenerCell, seq: number): boolean {
  return (cell.history as readonly { seq: number; verb: string; isNew: boolean }[]).some((it) => it.seq === seq && it.verb === "fit" && it.isNew);
}

function reasonOf({ found }: Decided, place: string): Reason {
  const words = found.conditions.map(({ condition }) => condition.kind);
  const decision = found.decision?.detail.decision;
  const said = [
    words.length === 0 ? "" : `found ${words.join(" and ")}`,
    decision === "renew" ? "to be renewed" : decision === "exchange" ? "to be exchanged" : "",
  ];
  return { where: found.where, place, text: placed(place, said.filter((it) => it !== "").join(", ")) };
}

// ---------------------------------------------------------------- worn past use

function askForWorn(story: Story, judged: Judged, slots: Slots, decided: ReadonlyMap<Slot, readonly Decided[]>): void {
  for (const [name, places] of condemned(judged)) {
    const thing = story.job.things.get(name);
    if (!isPiece(thing)) continue;
    for (const slot of new Set([...places].flatMap((place) => slots.beside(thing, place)))) {
      const kept = (decided.get(slot) ?? []).reduce((sum, it) => (it.says === "otherwise" ? sum + it.count : sum), 0);
      const count = slot.total - kept;
      if (count <= 0) continue;
      for (const verdict of condemning(judged, name, slot.place)) {
        if (conceded(story, verdict, slot) || mendedSince(story, slot, verdict) || isOfFellow(story, judged, verdict, slot)) continue;
        if (verdict.place === slot.place && isOfThoseToGo(story, verdict.reading, slot.total, ({ decision }) => away.has(decision?.detail.decision ?? "")))
          continue;
        slot.asks.push({
          seq: verdict.seq,
          count,
          adds: false,
          reasons: [{ where: verdict.where, place: slot.place, text: placed(slot.place, wornText(verdict)) }],
        });
      }
    }
  }
}

/**
 * A fit is between two: where the other one is condemned by itself, by what was decided of it or by a size of its own, or was renewed or worked on since, this one is not asked for.
 * Where neither is, nothing tells which of them it was, and both are.
 */
function isOfFellow(story: Story, judged: Judged, verdict: Verdict, slot: Slot): boolean {
  const isByItself = (name: string): boolean =>
    condemning(judged, name, slot.place).some((it) => it.limit.of.length === 1) ||
    (findingsOf(story).get(name) ?? []).some(
      ({ decision, places }) => mending.has(decision?.detail.decision ?? "reuse") && places.some((it) => isSamePlace(it, slot.place)),
    );
  const isAnew = (name: string): boolean => isAnewSince(story, name, slot.place, verdict);
  const fellows = verdict.limit.of.flatMap(({ text }) => (text === slot.thing.name ? [] : [text]));
  return fellows.length > 0 && !isByItself(slot.thing.name) && !isAnew(slot.thing.name) && fellows.some((name) => isByItself(name) || isAnew(name));
}

/** Those that do not go back. */
const away: ReadonlySet<string> = new Set(["renew", "exchange", "make", "discard"]);
const mending: ReadonlySet<string> = new Set(["renew", "repair", "make", "exchange"]);

/** Accepted outside its limit, by somebody with a name. */
function conceded(story: Story, verdict: Verdict, slot: Slot): boolean {
  return isConceded(story, verdict.limit.name, slot.place) || isConceded(story, slot.thing.name, slot.place);
}

function mendedSince(story: Story, slot: Slot, verdict: Verdict): boolean {
  const cell = cellOf(story, slot);
  if (cell === undefined) return false;
  const repaired = repairedSince(cell, verdict.seq);
  return (repaired !== undefined && !repaired.planned) || backFromWork(story, cell, verdict.day);
}

function wornText(verdict: Verdict): string {
  const title = midSentence(verdict.limit);
  return verdict.band === "worn" ? `worn past ${verdict.against.text} (${title})` : `${verdict.band} of the ${title} past ${verdict.against.text}`;
}

function cellOf(story: Story, slot: Slot): PartCell | FastenerCell | undefined {
  const cell = story.cell(slot.thing.name, slot.place);
  return cell?.kind === "part" || cell?.kind === "fastener" ? cell : undefined;
}

function isPiece(thing: Thing | undefined): thing is Part | Fastener {
  return thing?.kind === "part" || thing?.kind === "fastener";
}
