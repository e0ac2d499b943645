// Fitted or tightened for now, and not undone or finished.
import type { FastenerMoment, PartMoment } from "../../walk/story.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

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
  reach: "names",
  check({ story, report }) {
    for (const cell of [...story.parts, ...story.fasteners]) {
      if (!cell.now.forNow) continue;
      const it = (cell.history as (PartMoment | FastenerMoment)[]).findLast((moment) => moment.forNow && moment.phase === "done");
      if (it === undefined) continue;
      const why = it.action?.forNow === undefined ? "" : ` (${it.action.forNow.value})`;
      report({
        where: { ...it.where, at: it.action?.forNowAt ?? it.where.at },
        severity: story.release === undefined ? "hint" : "error",
        message: `${called(cell.thing, cell.place)} is ${it.verb === "fit" ? "in" : "tightened"} for now${why}. Undo it or finish it before the machine is released.`,
      });
    }
  },
};
