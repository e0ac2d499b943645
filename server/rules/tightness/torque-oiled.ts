// A thread that was oiled, pulled to a figure that is given dry.
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "torque-oiled",
  group: "Tightness",
  severity: "warning",
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
    for (const cell of story.fasteners) {
      if (cell.thing.torque?.condition !== "dry" || cell.unsure || cell.thing.implied) continue;
      const at = cell.history.findLastIndex((it) => it.phase === "done" && it.verb === "tighten" && it.action?.to !== undefined);
      const tightened = cell.history[at];
      const oiled = tightened === undefined ? undefined : oiledBefore(cell, at);
      if (tightened === undefined || oiled === undefined || isUndoneSince(cell, at)) continue;
      report({
        where: tightened.where,
        severity: "warning",
        open: cell.thing.critical,
        message: `${called(cell.thing, cell.place)} was oiled at line ${line(oiled.where)}, and its torque is given dry. Clean the thread and tighten it again, or look up the figure for an oiled one.`,
        related: [{ where: oiled.where, message: "Oiled here." }],
      });
    }
  },
};

/** Oiled before it was run up the last time, and neither cleaned nor renewed between. Oil on what is tight, against rust, is on its thread only once it is undone. */
function oiledBefore(cell: FastenerCell, at: number): FastenerMoment | undefined {
  const before = cell.history.slice(0, at).filter((it) => it.phase === "done");
  const last = before.findLastIndex((it) => isOil(it) || isCleaned(it) || (it.verb === "fit" && it.isNew));
  const oiled = before[last];
  if (oiled === undefined || !isOil(oiled)) return undefined;
  const isOpened = before.slice(last).some((it) => it.verb === "undo" || it.verb === "slacken");
  return oiled.before.tight && !isOpened ? undefined : oiled;
}

function isOil({ action }: FastenerMoment): boolean {
  return action?.verb === "oil" || action?.verb === "grease";
}

function isCleaned({ verb, action }: FastenerMoment): boolean {
  return action?.verb === "clean" || (verb === "repair" && /\b(degreas|clean|wash|dried|spirit)/i.test(action?.text?.value ?? ""));
}

function isUndoneSince(cell: FastenerCell, at: number): boolean {
  return cell.history.slice(at + 1).some((it) => it.phase === "done" && it.verb === "undo");
}
