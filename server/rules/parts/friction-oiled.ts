// Oil or grease on what brakes or drives by friction.
import { allWords } from "../../model/titles.ts";
import type { Entry } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import { isCritical, relationsOf } from "../../model/relations.ts";
import type { Part } from "../../model/things.ts";
import type { Found, Moment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { type Cure, backFromWork, isLubricated } from "../../story/put-right.ts";
import { calledFound, cellsFound } from "../cells-found.ts";
import { byLine } from "../by-line.ts";
import { curedReport } from "../found.ts";
import type { JobContext, JobRule } from "../rule.ts";
import { agreeing, calledAt, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "friction-oiled",
  group: "Parts",
  severity: "warning that holds on a critical part, else warning; hint when it was cleaned or renewed since",
  safety: false,
  title:
    "Oil or grease on a brake drum, a disc, a band, a block, a lining, a brake shoe (where no note says on which part of it), a dry clutch plate or a driving belt, or told of it in the words of a finding, a reading or a look, and not cleaned off since; oil on the rubber of a hydraulic brake",
  why: "A film that can't be seen takes most of the grip, and heat draws it into a lining for good. Clean it off with what leaves nothing behind, or write which part was greased: the pivot, the hub, the back of the shoe.",
  wrong: `part drum "Brake drum"
step refit "Drum back"
  remove drum
  oil drum
#     ^^^^ warning friction-oiled
  fit drum
  done
`,
  right: `part drum "Brake drum"
step refit "Drum back"
  remove drum
  clean drum
  fit drum
  done
`,
  scope: "job",
  check(context) {
    for (const { cell, cells, moment, moments, places } of byLine<PartCell, PartMoment>(
      context.story.parts,
      (it, { thing, unsure }) =>
        !unsure && it.phase === "done" && isLubricated(it) && (isFriction(thing, it.action?.verb === "oil") || (isLined(context.job, thing) && !saysWhere(it))),
    )) {
      const report = curedReport(
        context,
        moment.where,
        "warning",
        `${calledAt(cell.thing, places)} works by friction, and is ${moment.action?.verb === "oil" ? "oiled" : "greased"} here. Clean it, or write what it was that had it.`,
        cells.map((one, i) => cleanedSince(context.story, one, moments[i] as PartMoment)),
      );
      context.report({ ...report, ...(report.severity === "warning" ? { open: cell.thing.critical } : {}) });
    }
    for (const found of context.story.findings) {
      if (found.thing.kind !== "part" || !(isFriction(found.thing, true) || isLined(context.job, found.thing))) continue;
      const said = saysOily(found);
      const cells = said === undefined ? [] : cellsFound(context.story, found).filter((cell): cell is PartCell => cell.kind === "part" && !cell.unsure);
      if (said === undefined || cells.length === 0) continue;
      const report = curedReport(
        context,
        found.where,
        "warning",
        `${calledFound(found)} works by friction, and is said to be “${said}” here. Clean it, and write that; or write which part of it had that.`,
        cells.map((cell) => cleanedSince(context.story, cell, found)),
      );
      context.report({ ...report, ...(report.severity === "warning" ? { open: found.thing.critical } : {}) });
    }
    besideReadings(context);
    rubbersOiled(context);
  },
};

/** Mineral oil swells the rubbers of a hydraulic brake: what goes on them is its fluid, or the grease that is made for them (common practice). */
function rubbersOiled(context: JobContext): void {
  const { job, story, report } = context;
  const isHydraulic = story.fluids.some(({ thing }) => brakeFluid.test(`${allWords(thing)} ${thing.grade ?? ""}`));
  if (!isHydraulic) return;
  for (const { cell, cells, moment, moments, places } of byLine<PartCell, PartMoment>(
    story.parts,
    (it, { thing, unsure }) => !unsure && it.phase === "done" && it.action?.verb === "oil" && isRubberOfBrakes(thing) && !wetsIt(it),
  )) {
    const found = curedReport(
      context,
      moment.where,
      "warning",
      `Oil swells the rubbers of a brake, and ${midSentence(cell.thing, listed(places))} ${agreeing(cell.thing, "is")} oiled here. Renew it, wet with brake fluid; if it had that, write \`note "brake fluid"\`.`,
      cells.map((one, i) => anotherSince(one, moments[i] as PartMoment)),
    );
    report({ ...found, ...(found.severity === "warning" ? { open: isCritical(job, cell.thing) } : {}) });
  }
}

/** Another one is in than the one that was oiled. */
function anotherSince(cell: PartCell, oiled: PartMoment): Cure | undefined {
  const fit = cell.history.find((it) => it.seq > oiled.seq && it.phase === "done" && it.verb === "fit" && it.isNew && !isOfNewOne(cell, oiled, it));
  return fit === undefined ? undefined : { moment: fit, planned: false };
}

function isRubberOfBrakes(part: Part): boolean {
  const words = `${allWords(part)} ${part.material ?? ""}`;
  return rubbers.test(words) && ofBrakes.test(`${words} ${part.criticalWhat ?? ""}`) && !dryRubbers.test(words);
}

/** The words of its step say with what. */
function wetsIt({ where, action }: PartMoment): boolean {
  const notes = where.entry.details.flatMap((it) => (it.kind === "note" ? (it.text?.value ?? []) : []));
  return [action?.text?.value ?? "", ...notes].some((it) => rubberSafe.test(it));
}

const brakeFluid = /\bbrake[- ]?(and clutch )?fluid\b|\bdot ?[345]\b|\bhydraulic\b/iu;
const rubbers = /\b(cups?|rubbers?|seals?|piston rings?)\b/iu;
const ofBrakes = /\b(brak\w*|wheel cylinders?|master cylinders?|slave cylinders?|calipers?)\b/iu;
const dryRubbers = /\b(hub|oil|grease|bearing|axle|half-?shaft|dust|spring)[- ](seals?|cups?)\b|\bleather\b/iu;
const rubberSafe = /\b(brake fluid|fluid|rubber grease|red grease|castor|assembly (paste|fluid|grease|lubricant))\b/iu;

/** Told beside a reading, or a look, of it. */
function besideReadings(context: JobContext): void {
  const { job, story } = context;
  const isTold = new Set<Entry>();
  for (const it of [...story.readings, ...story.seen]) {
    if (isTold.has(it.entry)) continue;
    isTold.add(it.entry);
    // Few of them say a word of oil: only then it is asked of what they are.
    const said = oilIn([...notesOf(it.entry), ...("check" in it ? [it.entry.text?.value ?? ""] : [])]);
    if (said === undefined) continue;
    const parts = ("limit" in it ? it.limit : it.check).of.flatMap(({ text }) => story.cells(text)).filter((cell): cell is PartCell => cell.kind === "part");
    const cells = parts.filter(({ thing, unsure }) => !unsure && (isFriction(thing, true) || isLined(job, thing)));
    const [first] = cells;
    if (first === undefined) continue;
    const report = curedReport(
      context,
      it.where,
      "warning",
      `“${said}” is said here of what works by friction: ${midSentence(first.thing)}. Clean it, and write that; or write which part of it had that.`,
      cells.map((cell) => cleanedSince(story, cell, it)),
    );
    context.report({ ...report, ...(report.severity === "warning" ? { open: first.thing.critical } : {}) });
  }
}

function notesOf(entry: Entry): readonly string[] {
  return entry.details.flatMap((it) => (it.kind === "because" || it.kind === "note" ? (it.text?.value ?? []) : []));
}

/** Cleaned, renewed, or back from work that takes a film of oil off, since it was oiled or found so. */
function cleanedSince(story: Story, cell: PartCell, from: Moment): Cure | undefined {
  const since = cell.history.find(
    (it) =>
      it.seq > from.seq &&
      it.phase === "done" &&
      (it.action?.verb === "clean" ||
        (it.verb === "fit" &&
          ((it.isNew && !("before" in from && isOfNewOne(cell, from as PartMoment, it))) || backFromWork(story, cell, from.day, isCleaning))) ||
        (it.verb === "repair" && isCleaning(it.action?.text?.value ?? ""))),
  );
  return since === undefined ? undefined : { moment: since, planned: false };
}

/** Greased while the old one was off, and then a new one fitted: whoever writes that greased the new one, unless something was found of the old one between. */
function isOfNewOne(cell: PartCell, greased: PartMoment, fit: PartMoment): boolean {
  return greased.before.on === 0 && !cell.history.some((it) => it.verb === "found" && it.seq > greased.seq && it.seq < fit.seq);
}

/** By its name or its title, where that ends in it: a lever, a key or a cover of a brake is oiled. What runs in oil, or is of white metal, leather or cork, wants it. */
function isFriction(part: Part, isOiled: boolean): boolean {
  const names = [part.name.replaceAll("-", " "), part.title?.split(/[,;(]/)[0] ?? ""];
  if ((names.some((it) => friction.test(it)) || dryClutch.test(part.title ?? "")) && !greased.test(allWords(part))) return true;
  // A drum with the hub in it has grease in that, and oil nowhere.
  return isOiled && hubDrum.test(part.title ?? part.name.replaceAll("-", " ")) && /\bbrak/i.test(part.criticalWhat ?? "");
}

/** A brake shoe, or the plate with its shoes, that bears a lining by its own words or those of a limit. */
function isLined(job: Job, part: Part): boolean {
  const words = `${part.name.replaceAll("-", " ")} ${part.title ?? ""}`;
  if (!shoes.test(words) || ofShoes.test(words)) return false;
  return brakeShoe.test(words) || lined.test(words) || (relationsOf(job).measuredBy.get(part.name) ?? none).some((it) => lined.test(allWords(it)));
}

/** Heel, toe and back of a shoe slide on metal and are greased: a note of the step says so. */
function saysWhere({ where }: PartMoment): boolean {
  return where.entry.details.some((it) => it.kind === "note" && it.text !== undefined && greasedPart.test(it.text.value));
}

/** Its own words say that there is oil on it, and not that it was taken off; what is decided of it settles that itself. */
function saysOily({ entry, conditions, decision }: Found): string | undefined {
  if (decision !== undefined && decision.detail.decision !== "reuse") return undefined;
  return oilIn([...conditions.flatMap(({ condition }) => condition.text?.value ?? []), ...notesOf(entry)]);
}

/** The words for oil on it, and none of its having been taken off. */
function oilIn(texts: readonly string[]): string | undefined {
  if (texts.some((it) => isCleaning(it) || wiped.test(it))) return undefined;
  for (const text of texts) {
    const oily = oilOnIt.exec(text.replace(noOil, " "))?.[0];
    if (oily !== undefined) return oily;
  }
  return undefined;
}

const oilOnIt =
  /\b(oily|(smears?|spots?|drops?|traces?|films?|splash(es)?|drips?|dabs?) of (\w+ )?(oil|grease|fluid)|greasy|oil-?soaked|(soaked|wet|smeared|covered) (with|in) (\w+ )?(oil|grease)|(oil|grease) (is |was )?(all )?(on|over) (it|them|the (face|lining|drum|disc|shoe|band|rubbing|working|inside)\w*|both|one))\b/iu;
const noOil = /\b(no|not|never|neither|without|free (of|from)|nothing|isn't|wasn't|hardly|outside|back|hub)\b[^.;,]*/giu;
const wiped = /\b(wiped|dried|burnt off|brake cleaner|thinners?|paraffin|petrol|acetone|meths|dry now)\b/iu;

const none: readonly never[] = [];
const hubDrum = /^((left|right|front|rear|near|off|inner|outer) )*hub[- ](and[- ])?(brake[- ])?drums?$/i;
const shoes = /\b(shoes?|jaws?|pads?)\b/i;
const brakeShoe = /\bbrake[- ]shoes?\b/i;
const lined = /\b(lined|linings?)\b/i;
/** What belongs to a shoe, and is none. */
const ofShoes =
  /\bshoes?[- ]((pivot|anchor|adjuster|return|pull[- ]?off|steady|hold[- ]?down|retaining|web|lever|cam)s?|(\w+ )?(pin|post|spring|clip|bolt|nut|washer|lever|cam|bush|roller|expander)s?)\b/i;
const greasedPart =
  /\b(pivots?|anchors?|heels?|toes?|tips?|ends?|backs?|behind|webs?|edges?|pins?|rub(s|bing)?|rests?|steady|stead(y|ies)|slots?|seats?|platforms?|plates?|cams?|abutments?|pads|lands?|contact|where (it|they|the (shoes?|web|pins?|cams?)))\b/i;

const friction =
  /\b(brake[- ]?(drum|disc|rotor|band|block)s?|(drum|disc|block)s? of the brake|linings?|((driving|drive|flat|fan|vee|v)[- ])belts?|belt[- ](rim|pulley)s?|friction[- ](wheel|roller|lining)s?|(dry|single|driven)[- ]?(plate )?clutch[- ](plate|disc)s?)(?= (left|right|front|rear|upper|lower|inner|outer|near|off|assembly|hal(f|ves)|pair|set|of|for|on|at|in|and|with)\b| ?\d| *$)/i;
/** As a store writes it. */
const dryClutch = /^clutch[- ](plate|disc)s?\b[^;]*\b(dry|lined)\b/i;
const greased =
  /\b(hubs?|bearings?|bolts?|nuts?|pins?|rivets?|shoes?|pads?|springs?|wet|oil|gear ?box|epicyclic|white[- ]?metal|babbitt|bronze|leather|cork|cylinder|bore|tank|door|seat|box|floor|roof|cab)\b/i;

/** Work that takes a film of oil off with it, sent out or done here. */
function isCleaning(work: string): boolean {
  return takesOff.test(work);
}

const takesOff = /\b(degreas|clean|wash|spirit|solvent|blast|skim|turn|machin|grind|ground|relin)/i;
