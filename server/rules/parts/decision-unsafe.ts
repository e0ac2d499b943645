// A critical thing that failed, and is to be reused.
import type { ConditionKind } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import { ordersOf } from "../../model/orders.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import { unsaid } from "../../../grammar/blanks.ts";
import { type Where, where } from "../../model/where.ts";
import { wordsOf } from "../../model/read-with.ts";
import { allWords } from "../../model/titles.ts";
import { memo } from "../../model/memo.ts";
import { type Cure, failureCured, renewedAsFound, speaksOf } from "../../story/put-right.ts";
import type { Cell, FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "../../story/story.ts";
import { addsMetal, onlyCuts, putsIn } from "../../story/worked-in.ts";
import type { Verdict } from "../../story/verdict.ts";
import { cellsFound, isCriticalThing, placeFound } from "../cells-found.ts";
import { against, condemnedBy, isReasoned, neverReused } from "../failures.ts";
import { isForNow, speaksAgainst, tellsAFault } from "../doubt-words.ts";
import { faultIn } from "../fault-words.ts";
import { saysFailed } from "../metal-words.ts";
import { judgesNothing } from "../reason-words.ts";
import { shortened } from "../test-words.ts";
import { curedReport } from "../found.ts";
import { type JobContext, type JobRule, restate } from "../rule.ts";
import { agreeing, called, listed } from "../wording.ts";
import { limitWords, verdictValue } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "decision-unsafe",
  group: "Parts",
  severity: "error; warning that holds when it was repaired all the same, or nothing says why; hint when it was renewed",
  safety: true,
  title:
    "`reuse` of a critical thing cracked, broken, bent, stripped, sheared, undrilled or past wear, by its condition, by the words behind it or by the reason or a note under it; or worn, pitted, scored or corroded, and nothing says why it may be, or only how it came to be so",
  why: "Nobody's word makes a cracked steering arm sound. Renew it, or have it repaired by somebody who does such work and may, and look at it again. Where the old one was repaired, here or elsewhere, write so: a record that says `reuse` of what was cracked says the wrong thing to whoever reads it next.",
  wrong: `part arm "Steering arm"
  critical "steering"
finding arm
  is cracked
  decision reuse
#          ^^^^^ error decision-unsafe (fix)
`,
  right: `part arm "Steering arm"
  critical "steering"
finding arm
  is pitted
  because "Rust pits on the web alone, none at the eye; clean under dye"
  decision reuse
`,
  fixed: `part arm "Steering arm"
  critical "steering"
finding arm
  is cracked
  decision renew
  note "___"
`,
  scope: "job",
  *check(context) {
    const { story, report } = context;
    for (const [i, found] of story.findings.entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      const words = byItsWords(context, found);
      if (!isCriticalThing(found)) continue;
      if (found.decision?.detail.decision === "repair") {
        leavesBent(context, found);
        leavesUnbushed(context, found);
      }
      if (found.decision?.detail.decision !== "reuse") continue;
      const bad: string[] = found.conditions
        .filter(({ condition }) => neverReused.has(condition.kind))
        .map(({ condition }) => (condition.kind === "undrilled" ? "undrilled (no hole for its pin)" : condition.kind));
      const cells = cellsFound(story, found);
      const worn = cells.map((cell) => (cell.kind === "fluid" ? undefined : wornWhen(context, cell, found))).find((it) => it !== undefined);
      if (bad.length === 0 && worn === undefined) {
        if (words.length === 0) forNoReason(context, found);
        continue;
      }
      if (worn !== undefined) bad.push(`past its limit of wear (${verdictValue(worn)}, ${limitWords(worn)})`);
      const lost = "criticalWhat" in found.thing && found.thing.criticalWhat !== undefined ? ` If it lets go: ${found.thing.criticalWhat}.` : "";
      const cures = cells.map((cell) => (cell.kind === "fluid" ? undefined : failureCured(story, cell, found)));
      const at = found.decision.where;
      const mended = repairedSince(story, found, cells, cures);
      if (mended !== undefined) {
        report({
          where: at,
          severity: "warning",
          open: true,
          message: `${called(found.thing, placeFound(found))}, ${listed(bad)}, was to be reused, and was worked on (line ${context.line(mended)}). Write \`decision repair "how"\`, or a finding of it as it is now.`,
          related: [{ where: mended, message: "Back on here, worked on." }],
        });
        continue;
      }
      report({
        ...curedReport(
          context,
          at,
          "error",
          `${called(found.thing, placeFound(found))} ${agreeing(found.thing, "is")} ${listed(bad)} and is to be reused.${lost} Renew it, or have it repaired and checked.`,
          cures,
          [restate("Write `renew`", at, "renew")],
        ),
      });
    }
  },
};

/** Worn, pitted, scored or eaten away, and to be reused: how far it has gone is for a reading inside its limit, or for words. */
function forNoReason({ job, story, judged, report }: JobContext, found: Found): void {
  const bad = found.conditions.filter(({ condition }) => byDegrees.has(condition.kind));
  if (found.decision === undefined || bad.length === 0 || (isReasoned(found) && !found.entry.details.every(tellsOnlyHow))) return;
  if (bad.some(({ condition }) => comforts.test(condition.text?.value ?? "")) || found.entry.details.some((it) => it.kind === "note")) return;
  if (isSaidAnew(story, found)) return;
  const cells = cellsFound(story, found);
  if (cells.every((cell) => cell.kind === "fluid" || failureCured(story, cell, found) !== undefined)) return;
  // No size tells of pits.
  const isRead =
    bad.every(({ condition }) => condition.kind === "worn") &&
    judged.verdicts.some(
      ({ limit, outcome, place }) =>
        outcome === "in" &&
        limit.of.some(({ text }) => text === found.thing.name) &&
        !limit.of.some(({ text }) => isPouredBeside(job, story, found, text)) &&
        (found.places.includes(place) || place === "" || found.places.includes("")),
    );
  if (isRead) return;
  report({
    where: found.decision.where,
    severity: "warning",
    open: true,
    message: `${called(found.thing, placeFound(found))} ${agreeing(found.thing, "is")} ${listed(bad.map(({ condition }) => condition.kind))} and is to be reused, and nothing says why it may be: how far it has gone, or what it was tried by. Write that as \`because "…"\`, or renew it.`,
  });
}

/** A reason that tells how it came to be so, or what a new one costs, and nothing of how it is. */
function tellsOnlyHow(line: Found["entry"]["details"][number]): boolean {
  return line.kind !== "because" || unsaid(line) || judgesNothing(line.text?.value ?? "") === true;
}

/** The other half of it has new metal, and it has not: the bore of the two was cut in that, and tells nothing of what is worn. */
function isPouredBeside(job: Job, story: Story, { thing }: Found, name: string): boolean {
  const mate = job.things.get(name);
  if (thing.kind !== "part" || mate?.kind !== "part" || mate === thing) return false;
  const areMatched = thing.matchedWith.some(({ text }) => text === name) || mate.matchedWith.some(({ text }) => text === thing.name);
  return areMatched && workOn(job, story.cells(name)).some(addsMetal) && !workOn(job, story.cells(thing.name)).some(addsMetal);
}

/** The words of what was done to these, here and outside. */
function workOn(job: Job, cells: readonly Cell[]): string[] {
  const [first] = cells;
  const here = cells.flatMap((cell) =>
    cell.kind === "part" || cell.kind === "fastener"
      ? (cell.history as readonly (PartMoment | FastenerMoment)[]).flatMap(({ verb, action }) => (verb === "repair" ? [action?.text?.value ?? ""] : []))
      : [],
  );
  return [...here, ...(ordersOf(job).work.get(first?.thing.name ?? "") ?? []).map(({ detail }) => detail.text?.value ?? "")];
}

/** Bent, and to be repaired by work that is for wear: new metal straightens no rod. */
function leavesBent({ job, story, report }: JobContext, found: Found): void {
  const text = found.decision?.detail.how?.value ?? "";
  if (found.decision === undefined || !forWear.test(text) || !found.conditions.some(({ condition }) => condition.kind === "bent")) return;
  const told = [
    text,
    ...found.entry.details.map((it) => (it.kind === "because" || it.kind === "note" ? (it.text?.value ?? "") : "")),
    ...workOn(job, story.cells(found.thing.name)),
  ];
  if (told.some((it) => straightens.test(it))) return;
  report({
    where: found.decision.where,
    severity: "warning",
    open: true,
    message: `${called(found.thing, placeFound(found))} ${agreeing(found.thing, "is")} bent, and “${shortened(text)}” does not straighten it. Write how it is straightened, or renew it.`,
  });
}

/** A bush or a sleeve was to go in, and all that was done is cutting: none went in, and nothing speaks of one. */
function leavesUnbushed({ job, story, report }: JobContext, found: Found): void {
  const text = found.decision?.detail.how?.value ?? "";
  if (found.decision === undefined || !putsIn(text)) return;
  const cells = story.cells(found.thing.name);
  const works = workOn(job, cells);
  if (works.length === 0 || !works.every(onlyCuts)) return;
  const isIn = (words: string) => /\b(bush\w*|sleev\w*|lin(er|ers|ed|ing)|insert\w*|press(ed)? in|as (decided|agreed|above))\b/iu.test(words);
  if (story.parts.some((cell) => isIn(allWords(cell.thing)) && cell.history.some((it) => it.verb === "fit"))) return;
  const told = job.own.sheet.entries.flatMap((entry) =>
    entry.kind === "step"
      ? [entry.title?.value ?? "", ...entry.details.map((it) => (it.kind === "note" || it.kind === "action" ? (it.text?.value ?? "") : ""))]
      : [],
  );
  if (told.some(isIn)) return;
  report({
    where: found.decision.where,
    severity: "warning",
    open: true,
    message: `${called(found.thing, placeFound(found))}: “${shortened(text)}” was decided, and only cutting is written since (“${shortened(works.at(-1) ?? "")}”). Write what went in, or what was decided instead.`,
  });
}

const forWear =
  /\b(re-?metal\w*|white-?metal\w*|re-?bush\w*|(re-?)?bor(ed|ing)|honed|lapped|reamed|scraped|polished|skimmed|re-?lined|re-?ground|plated|chromed|cleaned|painted)\b/iu;
const straightens = /\b(straight\w*|set|press\w*|tru(e|ed|ing)|pulled|bent|cold|hot|heat\w*|jig|new|made|aligned|machined|turned|ground true)\b/iu;

const none: readonly never[] = [];

const byDegrees: ReadonlySet<ConditionKind> = new Set(["worn", "pitted", "scored", "corroded"]);
/** Words behind such a condition that say why it is no harm, and not only how bad it is. */
const comforts =
  /\b(bright|sound|clean|light(ly)?|slight(ly)?|only|no|not|none|nothing|never|outside|surface|within|inside|under|good|bloom|polish\w*|bedded|smooth|even|faint|hardly|barely|old|dry|once)\b/iu;

/** To be reused, or said to be good, and words behind a condition say that it has failed. */
function byItsWords(context: JobContext, found: Found): ReturnType<typeof said> {
  const { story, report } = context;
  const decided = found.decision?.detail.decision;
  if (!isCriticalThing(found) || found.conditions.some(({ condition }) => neverReused.has(condition.kind))) return none;
  if (decided !== "reuse" && !(decided === undefined && found.conditions.some(({ condition }) => condition.kind === "serviceable"))) return none;
  const all = said(found);
  for (const { words, at } of all) {
    if (isSaidAnew(story, found)) continue;
    const cures = cellsFound(story, found).map((cell) => (cell.kind === "fluid" ? undefined : failureCured(story, cell, found)));
    const what = decided === "reuse" ? "is to be reused" : "is called good";
    const message = `${called(found.thing, placeFound(found))} ${what}, and the words here say “${shortened(words)}”. If so, write it as what it \`is\` and what is done about it; if not, in other words.`;
    report({ ...curedReport(context, at, "warning", message, cures), open: cures.length === 0 || cures.some((it) => it === undefined || it.planned) });
  }
  return all;
}

/**
 * What the words behind a condition, and the reason and the notes under it, say against it. A reason to reuse, and a note, tell how it came about as well, in words of what was and of what held
 * it: those are not asked.
 */
function said(found: Found): readonly { readonly words: string; readonly at: Where }[] {
  const isGood = found.conditions.some(({ condition }) => condition.kind === "serviceable");
  // In soft metal a line that no nail feels is a score, and no crack.
  const read = (text: string) => (isSoft(found.thing) ? text.replace(unfelt, " ") : text);
  const behind = found.conditions.map(({ condition, where: at }) => {
    const text = read(condition.text?.value ?? "");
    const words = ofItself.has(condition.kind) ? saysFailed(text) : undefined;
    return { words: words ?? (condition.kind === "serviceable" ? (speaksAgainst(text) ?? faultIn(text)) : undefined), at };
  });
  const under = found.entry.details.map((it) => {
    const text = (it.kind === "because" || it.kind === "note") && !unsaid(it) ? it.text : undefined;
    const isReason = it.kind === "because" && isGood;
    const words = text === undefined ? undefined : isReason ? speaksAgainst(read(text.value)) : againstReuse(read(text.value));
    return { words, at: where(found.file, found.entry, it.row, text?.at ?? it.keyword) };
  });
  return [...behind, ...under].flatMap(({ words, at }) => (words === undefined ? [] : [{ words, at }]));
}

/** What runs on its journal in white metal, bronze or brass: the thing itself, and not what it is called by. A pin of a bush is of steel. */
function isSoft(thing: Found["thing"]): boolean {
  const [called = ""] = (thing.title ?? thing.name).split(/[,;(]| (?:of|in|for|on|with) /u);
  const head = wordsOf(called).at(-1) ?? "";
  return linings.has(head) || (lined.has(head) && ofSoftMetal.test(allWords(thing)));
}

const linings: ReadonlySet<string> = new Set("brass shell bush slipper".split(" "));
const lined: ReadonlySet<string> = new Set("bearing half liner pad block shoe cap box crosshead".split(" "));
const ofSoftMetal = /\b(white[- ]?metal\w*|babbitt\w*|bronze|gun-?metal|brass|(big|little|small) ends?)\b/iu;
const unfelt =
  /\b(?:(?:one|a|two|some|only|a few|single|very) )*(?:faint|fine|light|slight|thin|shallow) lines?,? (?:(?:that |which )?(?:(?:a|the|your|my) )?(?:finger ?)?nails? (?:doesn't|does not|don't|won't|will not|can't|cannot) (?:catch|feel|find)|(?:that |which )?no (?:finger ?)?nails? (?:catch|feel|find)(?:es|s)?)\b/giu;

function againstReuse(text: string): string | undefined {
  // What lies greased until its pins come is not made to do.
  const isLaidBy = laidBy.test(text);
  const forNow = isLaidBy ? undefined : isForNow(text);
  const words = isLaidBy ? tellsAFault(text) : speaksAgainst(text);
  return forNow ?? (words === undefined || ofTheCause.test(words) ? undefined : words);
}

const laidBy =
  /\b(hung|stored|shel(f|ved)|boxed|wrapped|bagged|laid (by|up|aside)|put (by|away|aside)|out of the way|in the (box|tin|bag|drawer|cupboard))\b/iu;

const ofTheCause =
  /\b(had|was|were|been|found|came|old|last|somebody|someone|plates?|tabs?|wires?|washers?|split|clips?|locks?|locking|seal|felt|gasket|packing|felts|leather|grease|oil|dry|loose|slack|unlocked|rust|paint|worn(?! (to|through|thin|half))|pitted|scored|scratch\w*|marks?|ago|pins? (sheared|broke|broken|gone|missing|snapped))\b/iu;

/** Words behind these are of the thing itself; behind the others of what was there instead, or on it. */
const ofItself: ReadonlySet<ConditionKind> = new Set(["serviceable", "worn", "pitted", "scored", "corroded"]);

/** Put right by work on the old one, and nobody has decided since: where that was done. */
function repairedSince(story: Story, found: Found, cells: ReturnType<typeof cellsFound>, cures: readonly (Cure | undefined)[]): Where | undefined {
  if (cures.length === 0 || cures.some((it) => it === undefined || it.planned)) return undefined;
  if (isSaidAnew(story, found)) return undefined;
  const at = cells.findIndex((cell, i) => cell.kind !== "fluid" && renewedAsFound(cell, found)?.moment !== cures[i]?.moment);
  return cures[at]?.moment.where;
}

/** A later finding of it has a decision, a reason, or says that it is good. */
function isSaidAnew(story: Story, found: Found): boolean {
  const last = lastSaid(story).get(found.thing.name);
  return found.places.some((place) => (last?.get(place) ?? -1) > found.seq);
}

/** By thing and place, the last finding that says how it is to be taken. */
const lastSaid = memo((story: Story): ReadonlyMap<string, ReadonlyMap<string, number>> => {
  const out = new Map<string, Map<string, number>>();
  for (const it of story.findings) {
    if (it.decision === undefined && !isReasoned(it) && !it.conditions.some(({ condition }) => condition.kind === "serviceable")) continue;
    const ofThing = out.get(it.thing.name) ?? new Map<string, number>();
    out.set(it.thing.name, ofThing);
    for (const place of it.places) ofThing.set(place, Math.max(ofThing.get(place) ?? -1, it.seq));
  }
  return out;
});

/** What a reading says against those that the finding speaks of, before it or after it. */
function wornWhen(context: JobContext, cell: PartCell | FastenerCell, found: Found): Verdict | undefined {
  const moment = (cell.history as readonly (PartMoment | FastenerMoment)[]).find((it) => it.found === found);
  for (const lot of moment === undefined ? [] : [...moment.after.lots, ...moment.after.bench]) {
    if (!speaksOf(lot, found) || (isReasoned(found) && found.conditions.some(({ condition }) => condition.kind === "serviceable"))) continue;
    const { worn } = against(context, cell, lot, found.seq);
    if (worn !== undefined) return worn;
  }
  for (const lot of [...cell.now.lots, ...cell.now.bench]) {
    if (!speaksOf(lot, found)) continue;
    for (const note of lot.notes) {
      const out = note.kind === "read" && note.seq > found.seq ? condemnedBy(context.judged, note) : undefined;
      if (out !== undefined) return out;
    }
  }
  return undefined;
}
