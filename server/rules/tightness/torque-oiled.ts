// A thread that was oiled, pulled to a figure that is given dry.
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { isLubricated } from "../../story/put-right.ts";
import { byLine } from "../by-line.ts";
import type { JobRule } from "../rule.ts";
import { calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "torque-oiled",
  group: "Tightness",
  severity: "warning; it holds on what is critical",
  safety: false,
  title: "Oiled or greased, and tightened to a figure that is given `dry`",
  why: "The same torque stretches a bolt more where its thread is oiled (by T = K d F, a quarter more and upwards): a figure that is given dry may then be past what the bolt bears. Clean and dry the thread, or look up the figure for an oiled one.",
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
    const dry = story.fasteners.filter(({ thing, unsure }) => thing.torque?.condition === "dry" && !unsure && !thing.implied);
    const left = new Map(dry.map((cell) => [cell, leftAt(cell)]));
    for (const { cell, moment, places } of byLine<FastenerCell, FastenerMoment>(
      dry,
      (_, one, index) => left.get(one) === index && oiledBefore(one, index) !== undefined,
    )) {
      const oiled = oiledBefore(cell, left.get(cell) ?? -1) as FastenerMoment;
      report({
        where: moment.where,
        severity: "warning",
        open: cell.thing.critical,
        message: `${calledAt(cell.thing, places)} was oiled at line ${line(oiled.where)}, and its torque is given dry. Clean the thread and tighten it again, or look up the figure for an oiled one.`,
        related: [{ where: oiled.where, message: "Oiled here." }],
      });
    }
  },
};

/** The last line that tightened it to a figure, where nothing undid it since. */
function leftAt({ history }: FastenerCell): number {
  const at = history.findLastIndex((it) => it.phase === "done" && it.verb === "tighten" && it.action?.to !== undefined);
  return history.slice(at + 1).some((it) => it.phase === "done" && it.verb === "undo") ? -1 : at;
}

/** Oiled before it was run up the last time, and neither cleaned nor renewed between. Oil on what is tight, against rust, is on its thread only once it is undone. */
function oiledBefore(cell: FastenerCell, at: number): FastenerMoment | undefined {
  const before = cell.history.slice(0, at).filter((it) => it.phase === "done");
  const last = before.findLastIndex((it) => isLubricated(it) || isCleaned(it) || (it.verb === "fit" && it.isNew));
  const oiled = before[last];
  if (oiled === undefined || !isLubricated(oiled)) return undefined;
  const isOpened = before.slice(last).some((it) => it.verb === "undo" || it.verb === "slacken");
  return oiled.before.tight && !isOpened ? undefined : oiled;
}

function isCleaned({ verb, action }: FastenerMoment): boolean {
  return action?.verb === "clean" || (verb === "repair" && /\b(degreas|clean|wash|dried|spirit)/i.test(action?.text?.value ?? ""));
}
