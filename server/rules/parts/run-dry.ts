// Found dry or blocked, and nothing done about it.
import { isSamePlace } from "../../model/same-place.ts";
import { allWords } from "../../model/titles.ts";
import { cellsFound, isCriticalThing, calledFound, foundAs } from "../cells-found.ts";
import { backDry } from "../back-dry.ts";
import { curedReport } from "../found.ts";
import { headOf, isLooseRing } from "../../model/read-with.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Part } from "../../model/things.ts";
import { type Cure, isClearedOutside, isLubricated, refittedSince } from "../../story/put-right.ts";
import { halvesDry } from "../halves-dry.ts";
import type { JobRule } from "../rule.ts";
import { isElsewhere } from "../../story/cells.ts";
import { findingsOf } from "../../story/decisions.ts";
import type { FluidCell, Found, Moment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { agreeing, called, calledAt, listed, midSentence } from "../wording.ts";
import { bearing, livesByGrease, loose } from "./shared/by-grease.ts";
import { isLubricatedSince, nearTo, runsInOil } from "./shared/lubricated.ts";

export const rule: JobRule = {
  id: "run-dry",
  group: "Parts",
  severity: "warning; error on a critical part; hint when cured; warning where it was renewed and no grease is written",
  safety: false,
  title:
    "`dry` or `blocked`, and nothing done about it; a bearing that was washed, or its fellow greased, and that goes back with no grease; shells or brasses closed with no oil; new bushes, tapers and loose balls, and a washed sliding joint, of which none is told",
  why: "A bearing that ran dry is usually hurt, and a blocked oil way will starve the new one as it did the old. Clear it, oil it, and look at what ran in it. One that was washed, and a new one, have next to nothing on them.",
  wrong: `part bush "Trunnion bush"
  critical "steering"
finding bush
  is dry
#    ^^^ error run-dry
`,
  right: `part bush "Trunnion bush"
  critical "steering"
finding bush
  is serviceable
`,
  scope: "job",
  check(context) {
    const { story, report, job } = context;
    const { dry, told, fresh, next, halves, halvesNext, back, backNext } = story.release === undefined ? nothingDry : allDry(story);
    const isAsked = new Set(back.flatMap((it) => it.cells));
    for (const found of story.findings) {
      if (found.thing.kind !== "part") continue;
      for (const { condition, where } of found.conditions) {
        if (condition.kind !== "dry" && condition.kind !== "blocked") continue;
        const cells = cellsFound(story, found);
        if (condition.kind === "dry" && cells.length > 0 && cells.every((cell) => cell.kind === "part" && isAsked.has(cell))) continue;
        const cures = cells.map((cell) => (cell.kind === "part" ? cureOf(cell, found, condition.kind) : undefined));
        const what = condition.kind === "dry" ? "Oil or grease it, and look for what that did to it" : "Clear the passage before it goes back";
        const fresh = condition.kind === "dry" ? cures.find((cure) => cure !== undefined && !cure.planned && isNewAlone(cure.moment)) : undefined;
        if (fresh !== undefined && !cures.includes(undefined)) {
          report({
            where,
            severity: "warning",
            open: false,
            message: `${calledFound(found)} ${agreeing(found.thing, "was")} found dry, and nothing says that the new one was greased or oiled. A new bearing comes with little more than preservative on it.`,
            related: [{ where: fresh.moment.where, message: "Fitted new here." }],
          });
          continue;
        }
        report(curedReport(context, where, isCriticalThing(found) ? "error" : "warning", `${foundAs(found, condition)}. ${what}.`, cures));
      }
    }
    for (const { cell, moment, places, others, isWired } of halves)
      report({
        where: moment.where,
        severity: "warning",
        open: true,
        greases: [{ name: cell.thing.name, places }],
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "goes")} in here ${moment.isNew ? "new" : isWired ? "wiped for the wire" : "washed"}, and nothing says that oil went on, as on ${listed(others.map((it) => midSentence(it)).slice(0, 2))}. Oil it before it is closed, and write that.`,
      });
    for (const { cell, moment, places } of back)
      report({
        where: moment.where,
        severity: "warning",
        open: true,
        greases: [{ name: cell.thing.name, places: [...places, ...alsoOff(story, cell, places)] }, ...backNext],
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "goes")} in here, and nothing since it came off tells of oil or grease there. Oil or grease it, and write that.`,
      });
    for (const { cell, moment, greased, others } of [...dry, ...fresh]) {
      report({
        where: moment.where,
        severity: "warning",
        open: cell.thing.critical,
        greases: [
          { name: cell.thing.name, places: [cell.place, ...fellowsToGrease(story, cell)] },
          ...(told.has(cell) ? next.map((it) => ({ name: it.cell.thing.name, places: [it.cell.place] })) : []),
          ...(told.has(cell) ? halvesNext.map((it) => ({ name: it.cell.thing.name, places: it.places })) : []),
        ],
        message: others
          ? `A new ${midSentence(cell.thing, cell.place)} goes in here, and nothing says that it was greased or oiled, as ${listed(others)} ${others.length === 1 ? "was" : "were"}. Grease or oil it, and write that, or what it runs in.`
          : greased === undefined
            ? `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} washed here, goes back, and nothing says that it was greased or oiled since. Grease or oil it, and write that.`
            : `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "goes")} on here and nothing says that it was greased or oiled${greased.length === 0 ? "" : `, as at ${listed(greased)}`}. Grease or oil it, and write that.`,
      });
    }

    function cureOf(cell: PartCell, { seq, day }: Found, kind: string): Cure | undefined {
      const verbs = kind === "dry" ? ["oil", "grease", "repair"] : ["clean", "repair"];
      // What was dressed or bored is as dry as it was, unless that was done to its oil way or with oil.
      const serves = ({ action }: PartMoment) =>
        action !== undefined && verbs.includes(action.verb) && !(kind === "dry" && action.verb === "repair" && !oiling.test(action.text?.value ?? ""));
      const done = cell.history.find((it) => it.seq > seq && serves(it));
      if (done !== undefined) return { moment: done, planned: done.phase === "planned" };
      if (kind === "dry") {
        for (const fluid of relationsOf(job).fluidsIn.get(cell.thing.name) ?? []) {
          for (const it of story.cells(fluid.name) as readonly FluidCell[]) {
            if (isElsewhere(job, fluid, it.place, cell.place)) continue;
            const fill = it.history.find((moment) => moment.seq > seq && moment.verb === "fill");
            if (fill !== undefined) return { moment: fill, planned: fill.phase === "planned" };
          }
        }
      }
      const fresh = cell.history.find((it) => it.seq > seq && it.verb === "fit" && it.isNew);
      // Whoever had it outside cleared it, by the words of the work.
      if (fresh === undefined && kind === "blocked" && isClearedOutside(story, cell, day)) return refittedSince(cell, seq);
      return fresh === undefined ? undefined : { moment: fresh, planned: fresh.phase === "planned" };
    }

    /** A new one is in, and neither it nor anything else there was oiled or greased, nor any oil filled in, since. */
    function isNewAlone(moment: Moment): boolean {
      return "verb" in moment && moment.verb === "fit" && !isLubricatedSince(story, undefined, moment.seq - 1);
    }
  },
};

/** All that went back dry, each piece once, and what will be asked for when that is written. */
function allDry(story: Story) {
  const dry = [...washed(story), ...leftDry(story)];
  const told = new Set(dry.map((it) => it.cell));
  const fresh = newAndDry(story, told);
  // Once these are greased, the new ones of their sort are asked for: whoever writes the grease of one writes theirs with it.
  const next = dry.length === 0 ? [] : newAndDry(story, told, told).filter(({ cell }) => !fresh.some((it) => it.cell === cell));
  const known = new Set([...dry, ...fresh].map((it) => it.cell));
  const halves = halvesDry(story, known);
  const halvesNext = halves.length === 0 ? halvesDry(story, known, known) : [];
  const asked = new Set([...known, ...halves.flatMap((it) => it.cells)]);
  const back = backDry(story, asked);
  const backCells = new Set(back.flatMap((it) => it.cells));
  const both = new Set([...asked, ...backCells]);
  const backNext =
    back.length === 0
      ? []
      : [
          ...newAndDry(story, both, backCells).map((it) => ({ name: it.cell.thing.name, places: [it.cell.place] })),
          ...halvesDry(story, both, backCells).map((it) => ({ name: it.cell.thing.name, places: it.places })),
        ];
  return { dry, told, fresh, next, halves, halvesNext, back, backNext };
}

const nothingDry: ReturnType<typeof allDry> = { dry: [], told: new Set(), fresh: [], next: [], halves: [], halvesNext: [], back: [], backNext: [] };

interface Dry {
  readonly cell: PartCell;
  readonly moment: PartMoment;
  /** Where the same part was greased. */
  readonly greased?: readonly string[];
  /** What else was greased or oiled, as it is called. */
  readonly others?: readonly string[];
}

/** Critical bearings that were washed, went back, and nothing at that place was oiled or greased since, nor any fluid filled in. */
function washed(story: Story): Dry[] {
  const out: Dry[] = [];
  for (const cell of story.parts) {
    if (!cell.thing.critical || cell.thing.implied || !livesByGrease(cell.thing)) continue;
    const moment = cell.history.findLast((it) => it.phase === "done" && it.action?.verb === "clean");
    if (moment !== undefined && moment.after.on > 0 && isWashedOff(cell, moment) && !cell.history.some((it) => it.seq > moment.seq && isGreased(it))) {
      out.push({ cell, moment });
      continue;
    }
    if (moment === undefined || moment.after.on > 0) {
      const fresh = freshBalls(story, cell);
      if (fresh !== undefined) out.push({ cell, moment: fresh, greased: none });
      continue;
    }
    const back = cell.history.find((it) => it.phase === "done" && it.seq > moment.seq && it.verb === "fit" && it.after.on > 0);
    if (back === undefined || back.isNew) continue;
    if (
      isWashedOff(cell, moment)
        ? cell.history.some((it) => it.seq > moment.seq && isGreased(it))
        : isLubricatedSince(story, cell.place, moment.seq, cell.thing, true)
    )
      continue;
    out.push({ cell, moment });
  }
  return out;
}

/** Oiled or greased, and washed behind that in the same step, or on that day with nothing moved between: whoever did that takes the oil of the box for too little, and has washed it out again. */
function isWashedOff({ history }: PartCell, washed: PartMoment): boolean {
  if (washed.visit === undefined) return false;
  return history.some(
    (it) =>
      it.seq < washed.seq &&
      isGreased(it) &&
      (it.visit?.entry === washed.visit?.entry ||
        (it.day === washed.day && !history.some((was) => was.seq > it.seq && was.seq < washed.seq && was.after.on !== was.before.on))),
  );
}

/** Loose balls come as they were ground: new ones that went in where what they run in was washed, and nothing was greased or oiled, nor any fluid filled in, since the old ones came out. */
function freshBalls(story: Story, cell: PartCell): PartMoment | undefined {
  if (!isLooseRing(cell.thing, balls)) return undefined;
  const fit = cell.history.findLast((it) => it.phase === "done" && it.verb === "fit");
  const off = cell.history.find((it) => it.phase === "done" && it.after.on < it.before.on);
  if (fit === undefined || !fit.isNew || off === undefined || isLubricatedSince(story, cell.place, off.seq, cell.thing)) return undefined;
  const isWashed = story.parts.some(
    (it) =>
      it !== cell &&
      isSamePlace(it.place, cell.place) &&
      livesByGrease(it.thing) &&
      it.history.some((was) => was.seq > off.seq && was.action?.verb === "clean"),
  );
  return isWashed ? fit : undefined;
}

/** Grease or oil was filled in at this place, and not at all of them, after it was off: “fill hub-grease front 30 ml”. */
function isFilledAt(story: Story, cell: PartCell): boolean {
  const off = cell.history.find((it) => it.phase === "done" && it.after.on < it.before.on)?.seq ?? -1;
  const near = nearTo(story, cell.thing);
  const fluids = story.fluids.filter((it) => it.place !== "" && it.place === cell.place && (near === undefined || liesIn(story, it, near)));
  return fluids.some((it) =>
    it.history.some(
      (was) => was.seq > off && was.phase === "done" && was.verb === "fill" && was.action?.places.some(({ text }) => text === cell.place) === true,
    ),
  );
}

function liesIn(story: Story, { thing }: FluidCell, names: ReadonlySet<string>): boolean {
  return [...relationsOf(story.job).fluidsIn].some(([name, fluids]) => names.has(name) && fluids.includes(thing));
}

/** Metal that turns or slides on metal by what is put between: a brass, a bush, a spindle, a slide block. */
function slides(part: Part): boolean {
  return plain.test(headOf(part) ?? "") && !dryOnes.test(allWords(part));
}

const plain = /^(brass(es)?|bush(es)?|spindles?|slippers?|blocks?|trunnions?|pins?|journals?|shells?|pivots?|slides?)$/i;
const dryOnes = /\b(rubber|nylon|plastic|bonded|sealed|brake|dowel|taper|split|roll|shear|locking|wood(en)?|engine block|pulley block|vee block|lignum)\b/i;

/** A bearing greased or oiled at some of its places, and at another it went on with none; unless there something else was greased in its stead. */
function leftDry(story: Story): Dry[] {
  const out: Dry[] = [];
  const byName = new Map<string, PartCell[]>();
  for (const cell of story.parts) if (cell.place !== "" && !cell.thing.implied) byName.set(cell.thing.name, [...(byName.get(cell.thing.name) ?? []), cell]);
  const greasedAt = new Map([...byName].map(([name, cells]) => [name, cells.filter((cell) => cell.history.some(isGreased)).map((cell) => cell.place)]));
  for (const [name, cells] of byName) {
    const at = greasedAt.get(name) ?? [];
    if (at.length === 0 || at.length === cells.length || !cells.some(({ thing }) => livesByGrease(thing) || (thing.critical && slides(thing)))) continue;
    const dry = placesDry(story, name);
    const isAsked = (cell: PartCell) => dry === undefined || dry.has(cell.place) || hasLostIts(cell);
    // Each of those was found dry, washed or new, and this one was not: it has the grease that it had.
    const isOfTheirOwn = cells.every((cell) => !at.includes(cell.place) || isAsked(cell));
    for (const cell of cells) {
      if (at.includes(cell.place)) continue;
      if (isOfTheirOwn && !isAsked(cell)) continue;
      const moment = cell.history.findLast((it) => it.phase === "done" && it.verb === "fit" && it.after.on > it.before.on);
      const near = slides(cell.thing) ? (nearTo(story, cell.thing) ?? none) : undefined;
      const isNear = (other: string) => near === undefined || [...near].includes(other);
      const instead = [...greasedAt].some(
        ([other, there]) => other !== name && isNear(other) && there.includes(cell.place) && !there.some((place) => at.includes(place)),
      );
      if (moment !== undefined && !instead && !isFilledAt(story, cell) && !isOtherHalfOiled(story, cell)) out.push({ cell, moment, greased: at });
    }
  }
  return out;
}

/** The journal between two shells or brasses has the oil of either: the other one was oiled there since this was washed or came off. */
function isOtherHalfOiled(story: Story, { thing, place, history }: PartCell): boolean {
  const head = headOf(thing);
  const since = history.findLast((it) => it.phase === "done" && (it.action?.verb === "clean" || it.after.on < it.before.on))?.seq ?? -1;
  return (
    halves.test(head ?? "") &&
    story.parts.some(
      (it) => it.thing !== thing && isSamePlace(it.place, place) && headOf(it.thing) === head && it.history.some((was) => was.seq > since && isGreased(was)),
    )
  );
}

const halves = /^(shell|brass)$/iu;

/**
 * New critical bearings that went in with nothing on them, on a sheet that says of another of their sort, new or washed, that it was greased or oiled. One that runs in the oil of its box, is sealed, or of
 * which the words of its step say so, is not asked for; nor is any, where the sheet says it of none.
 */
function newAndDry(story: Story, told: ReadonlySet<PartCell>, asGreased: ReadonlySet<PartCell> = new Set()): Dry[] {
  const out: Dry[] = [];
  const all = story.parts.filter((it) => asGreased.has(it) || (!it.thing.implied && livesByGrease(it.thing) && hasLostIts(it) && it.history.some(isGreased)));
  if (all.length === 0) return out;
  for (const cell of story.parts) {
    if (told.has(cell) || !cell.thing.critical || cell.thing.implied || cell.unsure || !livesByGrease(cell.thing)) continue;
    const greased = all.filter(({ thing }) => rolls(thing) === rolls(cell.thing));
    if (greased.length === 0 || comesPacked.test(allWords(cell.thing)) || all.some(({ thing }) => thing === cell.thing)) continue;
    const moment = cell.history.findLast((it) => it.phase === "done" && it.verb === "fit");
    if (moment === undefined || !moment.isNew || (moment.visit !== undefined && oilIn.test(wordsOfStep(moment.visit.entry, cell.thing.name)))) continue;
    const off = cell.history.find((it) => it.phase === "done" && it.after.on < it.before.on);
    if (isLubricatedSince(story, cell.place, off?.seq ?? -1, cell.thing, true) || runsInOil(story, cell)) continue;
    out.push({ cell, moment, others: [...new Set(greased.map(({ thing }) => midSentence(thing)))].slice(0, 2) });
  }
  return out;
}

/** On balls or rollers, and no plain bush or brass. */
function rolls(part: Part): boolean {
  return bearing.test(allWords(part)) || isLooseRing(part, loose);
}

/** A joint of needles in their cups comes packed. */
const comesPacked = /\b(joints?|cross(es)?|universal|cardan|shielded|greased|packed|lubricated|zz|2?rs\w*)\b/i;

const oilIn = /\b(oil\w*|greas\w*|pack(ed|ing)?|lubric\w*|tallow)\b/iu;

/** The words of a step: its title, its notes, and what stands behind work on the thing itself. */
function wordsOfStep({ title, details }: NonNullable<PartMoment["visit"]>["entry"], name: string): string {
  return [
    title?.value,
    ...details
      .filter((it) => it.kind !== "action" || it.things.some((thing) => thing.name.text === name))
      .map((it) => ("text" in it && typeof it.text === "object" && it.text !== null && "value" in it.text ? it.text.value : undefined)),
  ].join("\n");
}

/** Others of it that have lost their grease too: once this is greased, they are asked for. */
function fellowsToGrease(story: Story, { thing, place }: PartCell): readonly string[] {
  return story.parts.filter((it) => it.thing === thing && it.place !== place && hasLostIts(it) && !it.history.some(isGreased)).map((it) => it.place);
}

/** Others of it that were off and have had nothing: wiped for a wire that is still to be squashed, they will be asked for too. */
function alsoOff(story: Story, { thing }: PartCell, places: readonly string[]): readonly string[] {
  const others = story.parts.filter((it) => it.thing === thing && !places.includes(it.place));
  return others
    .filter(({ history }) => history.some((it) => it.phase === "done" && it.after.on < it.before.on) && !history.some(isGreased))
    .map((it) => it.place);
}

/** Where it was found dry; undefined where that is said of no place, and so of all. */
function placesDry(story: Story, name: string): ReadonlySet<string> | undefined {
  const places = new Set<string>();
  for (const found of findingsOf(story).get(name) ?? []) {
    if (!found.conditions.some(({ condition }) => condition.kind === "dry")) continue;
    for (const place of found.places) places.add(place);
  }
  return places.has("") ? undefined : places;
}

/** The grease that was on it is gone. */
function hasLostIts(cell: PartCell): boolean {
  return cell.history.some((it) => it.phase === "done" && (it.action?.verb === "clean" || (it.verb === "fit" && it.isNew)));
}

const oiling = /(^|[^\p{L}])(re)?(greas|oil|lubric|pack|soak|graphit|tallow|nippl)/iu;

/** A roller is a bearing by its word, however many there are. */
const balls: ReadonlySet<string> = new Set(["ball"]);
const none: readonly string[] = [];

function isGreased(it: PartMoment): boolean {
  return it.phase === "done" && isLubricated(it);
}
