// Raised and never chocked.
import { hasAction } from "../../model/has.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "chocks-missing",
  group: "Energy and support",
  severity: "warning; error with somebody `under`",
  safety: true,
  title: "Raised and never chocked",
  why: "What stands on two wheels and a jack rolls off it. Chock the wheels that stay down and put the brake on before it goes up (UK HSE, motor vehicle repair).",
  wrong: `step up "Up"
  raise on jack
# ^^^^^ warning chocks-missing (fix)
  support on 2 stands under "frame"
  done
`,
  right: `step up "Up"
  chock
  raise on jack
  support on 2 stands under "frame"
  done
`,
  fixed: `step up "Up"
  chock
  raise on jack
  support on 2 stands under "frame"
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "raise")) return;
    const { story } = context;
    let chocked = false;
    let raise: (typeof story.support)[number] | undefined;
    let under = false;
    for (const it of story.support) {
      // A line that can't be read may have been that.
      if (it.verb === "chock" || it.before.unclear?.chock) chocked = true;
      // A crane lifts a thing off the floor; nothing of it rolls.
      if (it.verb === "raise" && it.action.on?.text !== "crane" && !chocked) raise ??= it;
      if (it.verb === "under" && raise !== undefined) under = true;
    }
    if (raise === undefined || chocked) return;
    const column = raise.action.at.from;
    report({
      where: raise.where,
      severity: under ? "error" : "warning",
      message: "It is raised and nothing keeps it from rolling. Chock the wheels that stay down first, and write `chock`.",
      fixes: [{ title: "Write `chock` above", edits: [{ where: { ...raise.where, at: { from: column, to: column } }, text: "chock\n  " }] }],
    });
  },
};
