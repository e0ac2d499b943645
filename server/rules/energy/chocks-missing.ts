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
    // A line that can't be read may have chocked it.
    if (story.support.some((it) => it.after.unread?.includes("chock"))) return;
    let chocked = false;
    let raise: (typeof story.support)[number] | undefined;
    let under = false;
    for (const it of story.support) {
      // Chocks that are only planned keep nothing from rolling that stands on the jack already.
      if (it.verb === "chock" && (it.phase === "done" || raise?.phase !== "done")) chocked = true;
      // A crane lifts a thing off the floor; nothing of it rolls.
      if (it.verb === "raise" && it.action.on?.text !== "crane" && !chocked) raise ??= it;
      // Whoever went underneath before the chocks were set was there without them.
      if (it.verb === "under" && raise !== undefined && !chocked) under = true;
    }
    if (raise === undefined || (chocked && !under)) return;
    const column = raise.action.at.from;
    report({
      where: raise.where,
      severity: under ? "error" : "warning",
      message: chocked
        ? "Somebody goes underneath before the wheels are chocked. Chock those that stay down before it is raised."
        : "It is raised and nothing keeps it from rolling. Chock the wheels that stay down first, and write `chock`.",
      fixes: [{ title: "Write `chock` above", edits: [{ where: { ...raise.where, at: { from: column, to: column } }, text: "chock\n  " }] }],
    });
  },
};
