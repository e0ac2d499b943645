// A thread that was oiled, pulled to a figure that is given dry; or cleaned, and pulled to one that is given oiled.
import { isSamePlace } from "../../model/same-place.ts";
import { allWords } from "../../model/titles.ts";
import type { FastenerCell, FastenerMoment, Moment, PartMoment } from "../../story/story.ts";
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
    const oil = [...story.parts, ...story.fasteners].flatMap(({ thing, history }) =>
      history.filter((it) => it.phase === "done" && isLubricated(it)).map(({ seq }) => ({ name: thing.name, seq })),
    );
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
    const isDry = ({ thing }: FastenerCell, moment: FastenerMoment, cleaned: FastenerMoment | undefined) =>
      cleaned !== undefined && !oil.some(({ name, seq }) => seq > cleaned.seq && seq < moment.seq && isKin(thing.name, name));
    for (const { cell, moment, places } of byLine<FastenerCell, FastenerMoment>(
      wet,
      (it, one, index) => wetLeft.get(one) === index && isDry(one, it, cleanedBefore(one, index)),
    )) {
      const cleaned = cleanedBefore(cell, wetLeft.get(cell) ?? -1) as FastenerMoment;
      report({
        where: moment.where,
        severity: "warning",
        open: cell.thing.critical,
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "was")} cleaned at line ${line(cleaned.where)} and not oiled since, and its torque is given oiled. Undo it, oil the thread and tighten it again; or write \`oil\` where it was oiled.`,
        related: [{ where: cleaned.where, message: "Cleaned here." }],
      });
    }
  },
};

/** The last line that tightened it to a figure, where nothing undid it since. */
function leftAt({ history }: FastenerCell): number {
  const at = history.findLastIndex((it) => it.phase === "done" && it.verb === "tighten" && it.action?.to !== undefined);
  return history.slice(at + 1).some((it) => it.phase === "done" && it.verb === "undo") ? -1 : at;
}

/** Oiled before it was run up the last time, and neither cleaned nor renewed between. */
function oiledBefore(cell: FastenerCell, at: number): FastenerMoment | undefined {
  const last = lastOnThread(cell, at);
  return last !== undefined && isLubricated(last) ? last : undefined;
}

/** Cleaned before it was run up the last time, and neither oiled nor renewed between: a new one may come oiled. */
function cleanedBefore(cell: FastenerCell, at: number): FastenerMoment | undefined {
  const last = lastOnThread(cell, at);
  return last !== undefined && isCleaned(last) ? last : undefined;
}

/** What was done last to its thread. Oil on what is tight, against rust, or a wipe of it, reaches its thread only once it is undone; oil also where it is pulled further. */
function lastOnThread(cell: FastenerCell, at: number): FastenerMoment | undefined {
  const before = cell.history.slice(0, at).filter((it) => it.phase === "done");
  const last = before.findLastIndex((it) => isLubricated(it) || isCleaned(it) || (it.verb === "fit" && it.isNew));
  const it = before[last];
  if (it === undefined) return undefined;
  const isOpened = before.slice(last).some((other) => other.verb === "undo" || other.verb === "slacken");
  return it.before.tight && !isOpened && !(isLubricated(it) && isPulledFurther(before.slice(0, last), cell.history[at])) ? undefined : it;
}

/** Nipped up or at its first stage as it was oiled, and turned on to its figure then. */
function isPulledFurther(before: readonly FastenerMoment[], then: FastenerMoment | undefined): boolean {
  const pulled = before.findLast((it) => it.verb === "tighten");
  if (pulled === undefined || then?.to === undefined) return false;
  return pulled.to === undefined || (pulled.to.unit.dimension === then.to.unit.dimension && pulled.to.value.compare(then.to.value) < 0);
}

/** What a nut goes on. A hub that is greased is no thread of its nut. */
const threaded = /\b(stud|bolt|(set|cap)?screw)s?\b/i;

/** A nut and its stud: `head-stud` and `head-stud-nut`. */
function isKin(name: string, other: string): boolean {
  return name.startsWith(other) || other.startsWith(name);
}

function isCleaned({ verb, action }: FastenerMoment | PartMoment): boolean {
  return action?.verb === "clean" || (verb === "repair" && /\b(degreas|clean|wash|dried|spirit)/i.test(action?.text?.value ?? ""));
}
