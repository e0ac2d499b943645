// Made live again while what must be back first is off or slack.
import type { FastenerCell, HazardMoment } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called, few, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "restored-open",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "Made live again while what must be back first is off or slack, or critical and not locked until a later step",
  why: "Spring load, pressure or mains on a joint that is not closed finds the open place at once. Close it, tighten it, lock it, then make it live.",
  wrong: `fastener cap-bolt "Cap bolt"
hazard spring-load "Spring under load"
  restore after cap-bolt
step strip "Cap off"
  safe spring-load "screwed down"
  undo cap-bolt
  restore spring-load
#         ^^^^^^^^^^^ error restored-open
  done
`,
  right: `fastener cap-bolt "Cap bolt"
hazard spring-load "Spring under load"
  restore after cap-bolt
step strip "Cap off and on"
  safe spring-load "screwed down"
  undo cap-bolt
  tighten cap-bolt
  restore spring-load
  done
`,
  scope: "job",
  check({ story, report }) {
    for (const cell of story.hazards) {
      for (const it of cell.history) {
        if (it.verb !== "restore") continue;
        // Within one step the order may be that of the pen; what stood so until another one was live on a nut that could turn.
        const bare = it.phase === "done" ? it.unlocked.filter((other) => lockedLater(other, it)) : [];
        if (bare.length > 0)
          report({
            where: it.where,
            severity: "error",
            message: `${called(cell.thing)} ${agreeing(cell.thing, "is")} made live while this is tight and not locked: ${few(bare.map((other) => midSentence(other.thing, other.place)))}. Lock it first.`,
          });
        if (it.open.length === 0) continue;
        const open = it.open.map((other) => `${midSentence(other.thing, other.place)}`);
        report({
          where: it.where,
          severity: "error",
          message: `${called(cell.thing)} ${agreeing(cell.thing, "is")} made live while this is off or slack: ${few(open)}. Finish it first.`,
        });
      }
    }
  },
};

/** Locked behind that, in another step or on another day. */
function lockedLater(cell: FastenerCell, { seq, visit, day }: HazardMoment): boolean {
  const lock = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "lock" && it.after.locked);
  return lock !== undefined && (lock.visit !== visit || lock.day !== day);
}
