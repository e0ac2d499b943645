// Tightened and not locked, while the sheet goes on.
import { adjacentLock } from "../tightenings.ts";
import { lockedSince } from "../../walk/put-right.ts";
import { curedReport } from "../found.ts";
import { type JobRule, addLine } from "../rule.ts";
import { called, lockingText } from "../wording.ts";

export const rule: JobRule = {
  id: "locking-left-off",
  group: "Locking",
  severity: "error until it is locked, then hint",
  safety: true,
  title: "Tight, and the sheet goes on to another step, a pause, a release or its end, not locked",
  why: "The nut that is tight and not yet locked is the one that is forgotten at the end of the day. Lock it in the same step, or say `for now` and why.",
  wrong: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
#         ^^^^^^^ error locking-left-off (fix)
  done
`,
  right: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut new
  done
`,
  fixed: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut new
  done
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const cell of story.fasteners) {
      const locking = cell.thing.locking?.locking;
      if (cell.unsure || locking === undefined || locking.kind === "nothing" || locking.kind === "ambiguous") continue;
      for (let i = 0; i < cell.history.length; i++) {
        const it = cell.history[i] as (typeof cell.history)[number];
        if ((it.verb !== "tighten" && !(it.verb === "fit" && cell.thing.torque?.none)) || it.forNow || it.after.locked || adjacentLock(cell.history, i) !== "none") continue;
        const lock = addLine(`Add \`lock ${cell.thing.name} new\``, it.where, `lock ${cell.thing.name}${cell.place === "" ? "" : ` ${cell.place}`} new`);
        const message = `${called(cell.thing, cell.place)} is ${it.verb === "fit" ? "in" : "tight"} but not locked. Fit ${locking.kind === "staking" ? "new staking" : `a new ${lockingText(locking)}`}.`;
        const cure = lockedSince(cell, it.seq);
        // A step that is only planned is judged as a plan: a later planned step that locks it is the cure.
        const seen = it.phase === "planned" && cure !== undefined ? { ...cure, planned: false } : cure;
        report(curedReport(context, it.where, "error", message, [seen], [lock]));
      }
    }
  },
};
