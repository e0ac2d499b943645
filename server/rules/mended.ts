// Critical parts that were mended after a crack or a bend, or put right outside, and that nobody has looked at since.
// Invariant: one answer for the rule that says it and for the one that keeps quiet about the same line.
import { wordsOf } from "../model/read-with.ts";
import { relationsOf } from "../model/relations.ts";
import { isForTheShelf } from "../story/away.ts";
import { findingsOf } from "../story/decisions.ts";
import { saidUnder, wordsBehind } from "../story/finding-words.ts";
import type { FastenerCell, FastenerMoment, Found, Moment, PartCell, PartMoment, Story } from "../story/story.ts";
import { type Where, where } from "../model/where.ts";
import { type Look, backFromWork, lookWanted, lookedAtSince, renewedAsFound, repairedAsFound, tellsOfTheLook, workBack } from "../story/put-right.ts";
import { cellsFound } from "./cells-found.ts";

export interface Mended {
  /** What it was mended after; undefined where nobody wrote of a crack or a bend. */
  readonly found: Found | undefined;
  readonly cell: PartCell | FastenerCell;
  /** What has to show that it was mended well. */
  readonly look: Look;
  readonly repair: Moment;
}

/** Critical, put right outside, back, and nothing written of it since: no look, no figure, not a word. Nothing that is measured or seen is of it. */
export interface BackUnseen {
  readonly cell: PartCell | FastenerCell;
  readonly found: Found;
  readonly fit: PartMoment | FastenerMoment;
}

export function backUnseen(story: Story): BackUnseen[] {
  const out: BackUnseen[] = [];
  const { measuredBy, sets } = relationsOf(story.job);
  const said = new Set<PartCell | FastenerCell>();
  for (const found of story.findings) {
    // After a crack or a bend, and past a limit, other rules ask for the look.
    if (found.decision?.detail.decision !== "repair" || found.conditions.some(({ condition }) => condition.kind === "cracked" || condition.kind === "bent"))
      continue;
    for (const cell of cellsFound(story, found)) {
      if (cell.kind === "fluid" || !cell.thing.critical || cell.thing.implied || said.has(cell)) continue;
      const { name } = cell.thing;
      if (measuredBy.has(name) || sets.has(name) || !backFromWork(story, cell, found.day)) continue;
      const history = cell.history as readonly (PartMoment | FastenerMoment)[];
      const fit = history.findLast((it) => it.phase === "done" && it.seq > found.seq && it.verb === "fit");
      if (fit === undefined || history.some((it) => it.seq > found.seq && (it.verb === "repair" || (it.verb === "fit" && it.isNew)))) continue;
      if ((findingsOf(story).get(name) ?? []).some((it) => it.seq > found.seq && it.places.includes(cell.place))) continue;
      said.add(cell);
      out.push({ cell, found, fit });
    }
  }
  return out;
}

/** White metal that was poured anew has whatever size it was bored to: none is written, and nothing that is measured is of it. */
export interface PouredUnsized {
  readonly cell: PartCell | FastenerCell;
  readonly at: Where;
}

export function pouredUnsized(story: Story): PouredUnsized[] {
  const out: PouredUnsized[] = [];
  const { measuredBy } = relationsOf(story.job);
  for (const cell of story.parts) {
    const { name } = cell.thing;
    if (cell.thing.implied || cell.unsure || (measuredBy.get(name) ?? []).some((it) => it.kind === "limit")) continue;
    const here = cell.history.findLast((it) => it.phase === "done" && it.verb === "repair" && poured.test(it.action?.text?.value ?? ""));
    const back = workBack(story, cell, undefined, (work) => poured.test(work));
    const at = here?.where ?? (back === undefined ? undefined : where(back.file, back.entry, back.detail.row, back.detail.part?.at ?? back.detail.keyword));
    if (at === undefined || (here !== undefined && cell.history.some((it) => it.seq > here.seq && it.phase === "done" && it.verb === "fit" && it.isNew)))
      continue;
    const findings = (findingsOf(story).get(name) ?? []).filter((it) => it.places.includes(cell.place));
    const said = [
      here?.action?.text?.value,
      back?.detail.text?.value,
      ...(here?.where.entry.details ?? []).map((it) => (it.kind === "note" ? it.text?.value : undefined)),
      ...findings.flatMap((it) => [...wordsBehind(it), ...saidUnder(it)]),
    ];
    if (said.some((it) => it !== undefined && /\d/.test(it))) continue;
    // A clearance that goes by one of its names is of it, whether that limit says so or not.
    const words = new Set(wordsOf(`${name} ${cell.thing.title ?? ""}`));
    const isRead = story.readings.some((it) => it.stage === "final" && wordsOf(`${it.limit.name} ${it.limit.title ?? ""}`).some((word) => words.has(word)));
    if (!isRead) out.push({ cell, at });
  }
  return out;
}

const poured = /\b(poured|pour|re-?metal(led)?|white-?metalled)\b/iu;

export function mendedUnseen(story: Story): Mended[] {
  const mended: Mended[] = [];
  for (const found of story.findings) {
    if (!found.conditions.some(({ condition }) => condition.kind === "cracked" || condition.kind === "bent")) continue;
    for (const cell of cellsFound(story, found)) {
      if (cell.kind === "fluid" || !cell.thing.critical) continue;
      const renewed = renewedAsFound(cell, found);
      const repaired = repairedAsFound(cell, found);
      if (repaired === undefined || repaired.planned || (renewed !== undefined && !renewed.planned)) continue;
      // What was only cut is not mended, and another rule says so.
      const look = lookWanted(story, cell, found);
      if (look !== "crack" && look !== "shape" && !lookedAtSince(story, cell, repaired.moment.seq, { look }))
        mended.push({ found, cell, look, repair: repaired.moment });
    }
  }
  return [...mended, ...mendedUntold(story)];
}

/** Welded or set straight, here or outside, and no finding says of what: whoever did it saw a crack or a bend. */
function mendedUntold(story: Story): Mended[] {
  const mended: Mended[] = [];
  for (const cell of story.parts) {
    if (!cell.thing.critical || cell.thing.implied || cell.unsure) continue;
    const outside = backUntold(story, cell);
    if (outside !== undefined) mended.push(outside);
    const repair = cell.history.findLast((it) => it.phase === "done" && it.verb === "repair" && lookAfter(it.action?.text?.value ?? "") !== undefined);
    const look = lookAfter(repair?.action?.text?.value ?? "");
    if (repair === undefined || look === undefined || cell.history.some((it) => it.seq > repair.seq && it.phase === "done" && it.verb === "fit" && it.isNew))
      continue;
    const failed = (findingsOf(story).get(cell.thing.name) ?? []).some(
      (it) => it.places.includes(cell.place) && it.conditions.some(({ condition }) => failures.has(condition.kind)),
    );
    if (!failed && !lookedAtSince(story, cell, repair.seq, { look })) mended.push({ found: undefined, cell, look, repair });
  }
  return mended;
}

/** By the words of an order, and nothing was looked at, found or said of it on the day on which it came or later. */
function backUntold(story: Story, cell: PartCell): Mended | undefined {
  const lookFor = (work: string) => lookAfter(work.replace(testsForCracks, " "));
  const back = workBack(story, cell, undefined, (work) => lookFor(work) !== undefined);
  const since = back?.status?.date?.text;
  const look = lookFor(back?.detail.text?.value ?? "");
  if (back === undefined || since === undefined || look === undefined) return undefined;
  if (isForTheShelf(cell, { back: since, ...(back.sentOn === undefined ? {} : { sentOn: back.sentOn }) })) return undefined;
  if (cell.history.some((it) => it.phase === "done" && it.verb === "fit" && it.isNew)) return undefined;
  const findings = (findingsOf(story).get(cell.thing.name) ?? []).filter((it) => it.places.includes(cell.place));
  // After a crack or a bend that somebody wrote of, the finding asks for the look; any finding since is one.
  if (findings.some((it) => it.conditions.some(({ condition }) => failures.has(condition.kind)) || (it.day !== undefined && it.day >= since))) return undefined;
  if (lookedAtSince(story, cell, -1, { look, from: since })) return undefined;
  const at = where(back.file, back.entry, back.detail.row, back.detail.part?.at ?? back.detail.keyword);
  return { found: undefined, cell, look, repair: { seq: -1, phase: "done", day: since, where: at, visit: undefined } };
}

/** Sent to be looked at. */
const testsForCracks =
  /\bcrack(s|ed)?[- ]?(test|detect|check|find|inspect)\w*\b|\b(test|look|dye|check|examine|inspect)\w* (it |them )?for (any )?cracks?\b/giu;

const failures: ReadonlySet<string> = new Set(["cracked", "bent", "broken"]);

/** What has to be seen after such work; undefined where it is other work, or says how it came out. What was built up was worn, and is measured. */
function lookAfter(work: string): Look | undefined {
  if (tellsOfTheLook.test(work)) return undefined;
  if (/(?<!\b(no|not a|without a|without) )\bcrack(s|ed)?\b/iu.test(work)) return "weld";
  if (/\b(weld|braz|stitch)(s|ed|ing|e|es)?\b(?! up)/iu.test(work) && !/\b(buil[dt]|metal|fill(ed|s|ing)?|key-?ways?|threads?|holes?)\b/iu.test(work))
    return "weld";
  return setStraight.test(work) && !/\d/u.test(work) ? "any" : undefined;
}

/** “Straightened”, “pulled straight with a bar”, “bent a little to clear the spring”. */
const setStraight =
  /\bstraighten(s|ed|ing)?\b|\b(pulled|sprung|set|bent|knocked|pressed|hammered|jacked|levered|eased|drawn|brought|hit) (\w+ ){0,2}straight\b|\bbent (it |them )?((a )?(bit|little|touch|hair) )?(to (clear|suit|fit|line|meet|miss)|back)\b/iu;
