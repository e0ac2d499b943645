// Whether a piece that was read twice is the same and untouched: nothing was done to it here or outside, and no other can have come into its place.
// Invariant: what is left unsaid counts as done: a piece that was ordered and put in nowhere else may lie here.
import { momentsOf, piecesAt } from "../story/cells.ts";
import { ordersOf, isAt } from "../model/orders.ts";
import type { Job } from "../model/job.ts";
import { wholeNumber } from "../model/declare.ts";
import { isSamePlace } from "../model/same-place.ts";
import { readingsOn } from "../story/looked-up.ts";
import { findingsOf } from "../story/decisions.ts";
import { reasonsUnder } from "../story/finding-words.ts";
import type { Limit } from "../model/things.ts";
import { wordsOf } from "../model/read-with.ts";
import { relationsOf } from "../model/relations.ts";
import { allWords } from "../model/titles.ts";
import type { FastenerCell, Found, PartCell, Reading, Story } from "../story/story.ts";

/**
 * Nothing was done to what it is of at this place, and no other was ordered, made or put in here: neither what was read nor what lies beside it is another piece. What was washed off changes a figure
 * only where it was washed off between the two, and never so that there is more metal behind it (`isMore`).
 */
export function isLeftAlone(job: Job, story: Story, limit: Limit, found: Reading, until: { readonly seq: number }, isMore = false): boolean {
  const { place, seq } = found;
  if (isExcused(story, found)) return false;
  return limit.of.every(({ text }) => {
    const thing = job.things.get(text);
    if ((thing?.kind !== "part" && thing?.kind !== "fastener") || thing.implied || mayBeAnother(story, text, place)) return false;
    if ((ordersOf(job).work.get(text) ?? []).some(({ detail }) => isAt(detail, place) && !isWorkElsewhere(job, limit, text, detail.text?.value ?? "")))
      return false;
    const findings = (findingsOf(story).get(text) ?? []).filter((it) => it.places.some((at) => isSamePlace(at, place)));
    const isDecided = ({ decision }: Found) =>
      decision !== undefined &&
      decision.detail.decision !== "reuse" &&
      !(decision.detail.decision === "repair" && isWorkElsewhere(job, limit, text, decision.detail.how?.value ?? ""));
    if (findings.some((it) => isDecided(it) || reasonsUnder(it).some((text) => ofTheFigure.test(text)))) return false;
    return piecesAt(story, text, place).every(
      (cell) =>
        !cell.unsure &&
        momentsOf(cell).every(
          (it) =>
            it.verb !== "repair" &&
            !(it.verb === "fit" && (it.isNew || it.from !== undefined)) &&
            !(!isMore && it.seq > seq && it.seq < until.seq && it.action?.verb === "clean"),
        ),
    );
  });
}

/**
 * Work on a piece of which several sizes are read, whose words name another of those and nothing that is not known: of an axle whose journal was skimmed the flange is as thick as before. One word
 * that may mean this one, or anything else, and it is taken for this one.
 */
export function isWorkElsewhere(job: Job, limit: Limit, name: string, text: string): boolean {
  const namesOf = (it: Limit) => wordsOf(allWords(it)).map(plain);
  const own = new Set(namesOf(limit));
  const thing = job.things.get(name);
  const common = new Set([...own, ...(thing === undefined ? [] : wordsOf(allWords(thing)).map(plain))]);
  const others = new Set(
    (relationsOf(job).measuredBy.get(name) ?? [])
      .filter((it): it is Limit => it.kind === "limit" && it !== limit && it.expression === undefined)
      .flatMap(namesOf)
      .filter((it) => !common.has(it) && !ofNothing.test(it)),
  );
  const said = wordsOf(text.replace(atTheShop, " ")).map(plain);
  const isNamed = said.some((it) => others.has(it));
  return isNamed && said.every((it) => others.has(it) || cutting.test(it) || ofNothing.test(it));
}

const plain = (word: string) => word.toLowerCase().replace(/(?<=...)e?s$/u, "");
const atTheShop = /\b(at|by) the [\w ]+$|\bcrack[- ]?(test|detect)\w*( (after|before))?|\b(0?\.\d+|\d+(\.\d+)?) ?(in|mm|thou)?\b/giu;
const cutting =
  /^(re-?)?(skim\w*|grind\w*|ground|turn\w*|polish\w*|roll\w*|lap\w*|hon(e|ed|ing)|linish\w*|ream\w*|stone\w*|dress\w*|true|cut|machin\w*|size|undersize|under|over)$/iu;
const ofNothing =
  /^(the|an?|it|its|and|to|of|at|on|in|for|by|with|first|second|both|one|two|near|off|left|right|front|rear|inner|outer|upper|lower|main|clean|light\w*|diameter|bore|thickness|width|length|size|out|true|after|then|in)$/iu;

/** A reason that speaks of how it was read, or of work; that a journal is bright says nothing of its figure. */
const ofTheFigure =
  /\d|\b(re-?read|mis-?read|read|reads|reading|measur\w*|mic'?d|micrometers?|gaug\w*|callipers?|calipers?|figures?|sizes?|thou|slip|wrong|again|twice|zero\w*|anvil|bored|ground|turned|skimm\w*|honed|lapped|reamed|scraped|polished|sprayed|plated|built up|bushed|sleeved|lined|relined|remetal\w*|new|other|another|swap\w*|(taken|took) (first )?(over|across|at|beside|on the)|over the (groove|ridge|burr|lip|step))\b/iu;

/** A word under the first reading may take it back; one under a second reading of the same says that this one is right. */
function isExcused(story: Story, { entry, limit, place, position, seq }: Reading): boolean {
  if (!entry.details.some((it) => it.kind === "because" || it.kind === "note")) return false;
  return !readingsOn(story, limit.name).some((it) => it.stage === "found" && it.place === place && it.position === position && it.seq < seq);
}

/** One was ordered, and it is not at another place that it was put in, by a line that calls it new. A sheet that says so there would say so here. */
function mayBeAnother(story: Story, name: string, place: string): boolean {
  const items = ordersOf(story.job).items.get(name) ?? [];
  if (items.length === 0) return false;
  const ordered = items.reduce((sum, { detail }) => sum + (wholeNumber(detail.amount?.figure.text) ?? 1), 0);
  const elsewhere = story
    .cells(name)
    .filter((cell): cell is PartCell | FastenerCell => (cell.kind === "part" || cell.kind === "fastener") && !isSamePlace(cell.place, place))
    .flatMap((cell) => momentsOf(cell).filter((it) => it.phase === "done" && it.verb === "fit" && it.isNew));
  const fitted = elsewhere.reduce((sum, it) => sum + it.count, 0);
  if (fitted === 0) return true;
  // Both in one line of work, the one called new and the other not.
  const here = piecesAt(story, name, place).flatMap((cell) => momentsOf(cell).filter((it) => it.phase === "done" && it.verb === "fit"));
  return ordered > fitted && !here.some((it) => elsewhere.some((other) => other.where.entry === it.where.entry));
}
