// A thread that was oiled, pulled to a figure that is given dry; or cleaned, and pulled to one that is given oiled.
import { isSamePlace } from "../../model/same-place.ts";
import { allWords } from "../../model/titles.ts";
import type { FastenerCell, FastenerMoment, Moment, PartMoment } from "../../story/story.ts";
import { cleanedBefore, isCleaned, isKin, isOiledBetween, leftUnoiled, oiledBefore, threaded } from "../../story/oiled-threads.ts";
import { isLubricated } from "../../story/put-right.ts";
import { byLine } from "../by-line.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "torque-oiled",
  group: "Tightness",
  severity: "warning; it holds on what is critical",
  safety: false,
  title: "Oiled or greased, and tightened to a figure that is given `dry`; or cleaned and not oiled since, and the figure is given `oiled`",
  why: "The same torque stretches a bolt more where its thread is oiled (by T = K d F, a quarter more and upwards): a figure that is given dry may then be past what the bolt bears, and one that is given oiled leaves a dry bolt slacker than it looks. Clean and dry the thread, or oil it, as the figure asks.",
  wrong: `fastener bolt "Flange bolt"
  torque 55 .. 65 lbf.ft dry
  critical "drive"
step refit "Flange"
  undo bolt
  oil bolt
  tighten bolt to 60 lbf.ft
#         ^^^^ warning torque-oiled
  done
`,
  right: `fastener bolt "Flange bolt"
  torque 55 .. 65 lbf.ft dry
  critical "drive"
step refit "Flange"
  undo bolt
  clean bolt
  tighten bolt to 60 lbf.ft
  oil bolt
  done
`,
  scope: "job",
  check({ story, report, line }) {
    const told = story.fasteners.filter(({ thing, unsure }) => thing.torque?.condition !== undefined && !unsure && !thing.implied);
    const dry = told.filter(({ thing }) => thing.torque?.condition === "dry");
    const oiledThreads = [...story.parts, ...story.fasteners].filter(
      ({ thing, history }) => threaded.test(allWords(thing)) && (history as readonly (PartMoment | FastenerMoment)[]).some(isLubricated),
    );
    const left = new Map(dry.map((cell) => [cell, leftAt(cell)]));
    for (const { cell, moment, places } of byLine<FastenerCell, FastenerMoment>(
      dry,
      (it, one, index) => left.get(one) === index && (oiledBefore(one, index) ?? oiledOnIts(one, it)) !== undefined,
    )) {
      const oiled = (oiledBefore(cell, left.get(cell) ?? -1) ?? oiledOnIts(cell, moment)) as Moment;
      report({
        where: moment.where,
        severity: "warning",
        open: cell.thing.critical,
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "was")} oiled at line ${line(oiled.where)}, and its torque is given dry. Clean the thread and tighten it again, or look up the figure for an oiled one.`,
        related: [{ where: oiled.where, message: "Oiled here." }],
      });
    }
    /** Its bolt or stud had the oil, while it was off or slack, and neither was cleaned since. */
    function oiledOnIts(cell: FastenerCell, moment: FastenerMoment): Moment | undefined {
      for (const other of oiledThreads) {
        if (other === cell || !isSamePlace(other.place, cell.place) || !isKin(other.thing.name, cell.thing.name)) continue;
        const before = (other.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && it.seq < moment.seq);
        const oiled = before.findLast((it) => isLubricated(it) || isCleaned(it) || (it.verb === "fit" && it.isNew));
        if (oiled === undefined || !isLubricated(oiled)) continue;
        const own = cell.history.filter((it) => it.phase === "done" && it.seq < moment.seq);
        const then = own.findLast((it) => it.seq < oiled.seq)?.after ?? own[0]?.before;
        const isReached = then?.tight !== true || own.some((it) => it.seq > oiled.seq && (it.verb === "undo" || it.verb === "slacken"));
        if (isReached && !own.some((it) => it.seq > oiled.seq && isCleaned(it))) return oiled;
      }
      return undefined;
    }
    const wet = told.filter(({ thing }) => thing.torque?.condition === "oiled");
    const wetLeft = new Map(wet.map((cell) => [cell, leftAt(cell)]));
    /** The nut was cleaned, and its bolt or stud may have had the oil. */
    const isDry = (cell: FastenerCell, moment: FastenerMoment, cleaned: FastenerMoment | undefined) =>
      cleaned !== undefined && !isOiledBetween(story, cell, cleaned.seq, moment.seq);
    for (const { cell, moment, places } of byLine<FastenerCell, FastenerMoment>(
      wet,
      (it, one, index) => wetLeft.get(one) === index && isDry(one, it, cleanedBefore(one, index)),
    )) {
      const cleaned = cleanedBefore(cell, wetLeft.get(cell) ?? -1) as FastenerMoment;
      report({
        where: moment.where,
        severity: "warning",
        open: cell.thing.critical,
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "was")} cleaned at line ${line(cleaned.where)} and not oiled since, and its torque is given oiled. Undo it, oil the thread and tighten again; or write \`oil\` where it was.`,
        related: [{ where: cleaned.where, message: "Cleaned here." }],
      });
    }
    for (const { cell, moment, places } of byLine<FastenerCell, FastenerMoment>(
      wet,
      (_, one, index) => wetLeft.get(one) === index && leftUnoiled(story, one, index),
    ))
      report({
        where: moment.where,
        severity: "warning",
        open: true,
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} pulled up to a torque that is given oiled, and no line oils it, as others are. Undo, oil and tighten it again; or write \`oil\` where it was.`,
      });
  },
};

/** The last line that tightened it to a figure, where nothing undid it since. */
function leftAt({ history }: FastenerCell): number {
  const at = history.findLastIndex((it) => it.phase === "done" && it.verb === "tighten" && it.action?.to !== undefined);
  return history.slice(at + 1).some((it) => it.phase === "done" && it.verb === "undo") ? -1 : at;
}
