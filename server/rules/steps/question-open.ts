// A question without an answer.
import type { Question, Thing } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { ordersOf } from "../../model/orders.ts";
import { decidedAt, findingsOf } from "../../story/decisions.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { against, isAgainst } from "../failures.ts";
import { isPastItsOwn } from "../answer-figures.ts";
import { saysNoAnswer } from "../doubt-words.ts";
import type { JobRule } from "../rule.ts";
import { shortened } from "../test-words.ts";
import { agreeing, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "question-open",
  group: "Order of work",
  severity: "warning; error at release; warning where the answer's own words say that there is none, or say no of what went back all the same; both hold",
  safety: false,
  title: "A question with no `answer`, or one that says that nobody knows yet, and what went on while a finding of it waits for one",
  why: "What waits for it can neither be ordered nor fitted. Ask today: the answer often takes longer than the parts.",
  wrong: `question oversize "Are oversize pins to be had?"
#        ^^^^^^^^ warning question-open
`,
  right: `question oversize "Are oversize pins to be had?"
  answer "Yes, 0.25 mm over"
`,
  scope: "job",
  check({ job, story, judged, report }) {
    for (const thing of job.things.values()) {
      if (thing.kind !== "question" || thing.implied || thing.unread.has("answer") || thing.file !== job.path) continue;
      if (thing.answer !== undefined) {
        const isNo = saysNoAnswer(thing.answer) === undefined && isAgainstIt(story, thing);
        const said = isNo ? thing.answer : saysNoAnswer(thing.answer);
        const line = thing.entry.details.findLast((it) => it.kind === "answer");
        if (said !== undefined && line !== undefined)
          report({
            where: where(thing.file, thing.entry, line.row, line.text?.at ?? line.keyword),
            severity: "warning",
            open: true,
            message: isNo
              ? `“${shortened(said)}” speaks against ${thing.about.map((name) => `\`${name.text}\``).join(", ")}, which went on all the same. Write a finding of what is done about it, or the answer as it is meant.`
              : `“${shortened(said)}” is no answer yet. Leave it blank until somebody knows, then write what it is and who says so.`,
          });
        continue;
      }
      const about =
        thing.about.length === 0 ? "" : ` ${thing.about.map((name) => `\`${name.text}\``).join(", ")} wait${thing.about.length === 1 ? "s" : ""} for it.`;
      report({
        where: where(thing.file, thing.entry, 0, thing.at),
        severity: story.release === undefined ? "warning" : "error",
        message: `${asked(thing.title)} has no answer yet.${about}`,
        ...(thing.about.some((name) => isCriticalPiece(job.things.get(name.text))) ? { firm: true as const } : {}),
      });
    }
    // What a finding asked about went on, and nobody has answered.
    // What was asked of one goes with it to another place; what is condemned besides is said by the rule that condemns it.
    const askedOf = (it: PartMoment | FastenerMoment, at: PartCell | FastenerCell) => {
      const from = it.action !== undefined && "from" in it.action && it.action.from !== undefined ? story.cell(at.thing.name, it.action.from.text) : at;
      if (from?.kind !== "part" && from?.kind !== "fastener") return undefined;
      if (it.moved.some((lot) => isAgainst(against({ story, judged }, at, lot, it.seq)))) return undefined;
      return decidedAt(story, from.thing.name, from.place, from.total).find(
        ({ says, found, count }) => says === "waiting" && found.seq < it.seq && count === from.total,
      );
    };
    const waits = (it: PartMoment | FastenerMoment, cell: PartCell | FastenerCell) =>
      it.phase === "done" && !it.forNow && (it.verb === "fit" ? !it.isNew : it.verb === "tighten" && it.before.on === 0) && askedOf(it, cell) !== undefined;
    for (const { cell, moment, places } of byLine<PartCell | FastenerCell, PartMoment | FastenerMoment>([...story.parts, ...story.fasteners], waits as never)) {
      const asked = askedOf(moment, cell);
      if (asked === undefined || cell.unsure) continue;
      report({
        where: moment.where,
        severity: story.release === undefined ? "warning" : "error",
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "goes")} on while its question has no answer: \`${asked.question ?? ""}\`. Answer it and decide, or take it off.`,
        related: [{ where: asked.found.where, message: "Found here, and asked." }],
        ...(cell.thing.critical ? { firm: true as const } : {}),
      });
    }
  },
};

/**
 * Asked whether something critical is the right one, and answered no; the old one went back since, nothing of it was ordered, made, worked on or decided, and the answer does not say what was done.
 */
function isAgainstIt(story: Story, { title = "", answer = "", about, entry }: Question): boolean {
  const saysNo = isItRight.test(title) && !whetherBad.test(title) && plainNo.test(answer);
  // Its file is read late, and only for an answer with a figure.
  if (!(saysNo && !doneAboutIt.test(answer)) && !(/\d/u.test(answer) && isPastItsOwn(title, answer) && !dealtWith.test(answer))) return false;
  const { job } = story;
  const { entries } = job.own.sheet;
  return about.some(({ text }) => {
    if (!isCriticalPiece(job.things.get(text)) || ordersOf(job).items.has(text) || ordersOf(job).work.has(text)) return false;
    if (
      (findingsOf(story).get(text) ?? []).some(
        (it) => entries.indexOf(it.entry) > entries.indexOf(entry) || (it.decision !== undefined && it.decision.detail.decision !== "reuse"),
      )
    )
      return false;
    return story
      .cells(text)
      .some(
        (cell) =>
          (cell.kind === "part" || cell.kind === "fastener") &&
          !cell.unsure &&
          cell.now.on > 0 &&
          !(cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.verb === "repair" || (it.verb === "fit" && it.isNew)),
      );
  });
}

const isItRight =
  /^(is|are|was|were|does|do|did|will|can|has|have) .*\b(right (one|ones|sort|length|size|part|pattern|way)|correct|the (same|proper|original)|fits?|suits?|match(es)?|clears?|long enough|strong enough|thick enough|big enough|enough|straight|true|sound|safe|in line|lines? up|holds?|reach(es)?)\b/iu;
const whetherBad =
  /\b(cracked|worn|bent|loose|too|wrong|missing|need\w*|have to|must|should|order\w*|buy|bought|stock|to be had|obtain\w*|available|another|other|new|oversize|anybody|anyone|else|change\w*|different|old)\b/iu;
const plainNo = /^no\b(?! (need|cracks?|play|wear|fault|trouble|doubt|more|longer|longer|question|problem)\b)/iu;
const doneAboutIt =
  /\b(but|so|then|made|making|ground|filed|turned|shortened|lengthened|packed|shimmed|ordered|sent|changed|exchanged|renew\w*|new|instead|cut|bent|use[ds]?|using|went|goes|fit(ted|s)?|took|takes|taken|now|since|after|until|set|adjust\w*|eased|opened|another|other|allowed|within|harmless|does not matter|no matter|fine|right|good)\b/iu;

const dealtWith = /\b(ordered|ordering|sent|renew\w*|new one|another|instead|built up|sleeved|bushed|made|exchanged|swapped|allow(s|ed)?|passed)\b/iu;

function isCriticalPiece(thing: Thing | undefined): boolean {
  return thing !== undefined && "critical" in thing && thing.critical === true;
}

/** The question in its own words, for who reads it far from its line; a long one is cut, for a message is short. */
function asked(title: string | undefined): string {
  if (title === undefined) return "This question";
  const most = 70;
  return `\u201c${title.length <= most ? title : `${title.slice(0, title.lastIndexOf(" ", most)).trimEnd()}\u2026`}\u201d`;
}
