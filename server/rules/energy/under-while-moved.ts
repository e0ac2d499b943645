// Raised, let down or given another support while somebody is underneath.
import { hasAction } from "../../model/has.ts";
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
      if ((it.verb !== "lower" && it.verb !== "raise") || under === undefined || it.before.unclear?.clear) continue;
      const column = it.action.at.from;
      report({
        where: it.where,
        severity: "error",
        message: `It is ${it.verb === "lower" ? "let down" : "raised"} while somebody is underneath. Everybody comes out first: write \`clear\`.`,
        related: [{ where: under.where, message: "Underneath from here on." }],
        fixes: [{ title: "Write `clear` above", edits: [{ where: { ...it.where, at: { from: column, to: column } }, text: "clear\n  " }] }],
      });
    }
  },
};
