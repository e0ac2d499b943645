// Fitted or tightened for now, and not undone or finished.
import type { FastenerCell, FastenerMoment, PartCell, PartMoment } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "still-for-now",
  group: "Parts",
  severity: "hint; error at release",
  safety: true,
  title: "Fitted or tightened `for now`, and not undone or finished",
  why: "A trial assembly is right while it is one. Left in, it is an old seal, a dry thread or a nut nipped up by hand that nobody remembers.",
  wrong: `fastener cap-bolt "Cap bolt"
step trial "Trial"
  tighten cap-bolt for now "to blue the bearing"
#                  ^^^^^^^ hint still-for-now
  done
`,
  right: `fastener cap-bolt "Cap bolt"
step trial "Trial"
  tighten cap-bolt for now "to blue the bearing"
  done
step apart "Apart again"
  undo cap-bolt
  done
`,
  scope: "job",
  check({ story, report }) {
    const last = (cell: PartCell | FastenerCell) =>
      (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast((moment) => moment.forNow && moment.phase === "done");
    const lines = byLine<PartCell | FastenerCell, PartMoment | FastenerMoment>(
      [...story.parts, ...story.fasteners],
      (moment, cell) => cell.now.forNow && moment === last(cell),
    );
    for (const { cell, moment, places, action } of lines) {
      const why = action.forNow === undefined ? "" : ` (${action.forNow.value})`;
      report({
        where: { ...moment.where, at: action.forNowAt ?? moment.where.at },
        severity: story.release === undefined ? "hint" : "error",
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} ${moment.verb === "fit" ? "in" : "tightened"} for now${why}. Undo it or finish it before the machine is released.`,
      });
    }
  },
};
