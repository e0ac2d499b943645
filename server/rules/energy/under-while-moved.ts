// Raised, let down or given another support while somebody is underneath.
import { hasAction } from "../../model/has.ts";
import type { Job } from "../../model/job.ts";
import { measured } from "../../model/values.ts";
import { byHand } from "../../model/carries.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "under-while-moved",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "Raised or let down while somebody is underneath",
  why: "It moves at the moment when it is lifted or let down, and that is when it slips. Everybody comes out first, and the sheet says so: `clear`.",
  wrong: `step up "Up and down"
  chock
  raise on jack
  support on 2 stands under "frame"
  under
  lower
# ^^^^^ error under-while-moved (fix)
  done
`,
  right: `step up "Up and down"
  chock
  raise on jack
  support on 2 stands under "frame"
  under
  clear
  lower
  done
`,
  fixed: `step up "Up and down"
  chock
  raise on jack
  support on 2 stands under "frame"
  under
  clear
  lower
  note "___"
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "under")) return;
    const { story } = context;
    for (const it of story.support) {
      const under = it.before.under;
      // A part that nobody holds by hand comes down over whoever is below, as the machine does.
      const setsDown = it.verb === "set-down" && it.before.supports.some(({ part, on }) => on === "crane" && part !== undefined && isTooHeavy(job, part));
      if ((it.verb !== "lower" && it.verb !== "raise" && !setsDown) || under === undefined || it.before.unclear?.clear) continue;
      const column = it.action.at.from;
      report({
        where: it.where,
        severity: "error",
        message: `It is ${it.verb === "raise" ? "raised" : "let down"} while somebody is underneath. Everybody comes out first: write \`clear\`.`,
        related: [{ where: under.where, message: "Underneath from here on." }],
        fixes: [{ title: "Write `clear` above", edits: [{ where: { ...it.where, at: { from: column, to: column } }, text: "clear\n  " }] }],
      });
    }
  },
};

/** By its `mass`: beyond what two people let down by hand. What says no mass may be a gearbox in a sling, guided from below. */
function isTooHeavy(job: Job, name: string): boolean {
  const thing = job.things.get(name);
  const mass = thing?.kind === "part" ? measured(thing.mass) : undefined;
  return mass?.unit.dimension === "mass" && mass.value.compare(byHand) >= 0;
}
