// Raised and never chocked.
import { hasAction } from "../../model/has.ts";
import type { Where } from "../../model/where.ts";
import { standsByItself } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "chocks-missing",
  group: "Energy and support",
  severity: "warning; error with somebody `under`",
  safety: true,
  title: "Raised and never chocked, or chocked only afterwards",
  why: "A machine on two wheels and a jack rolls off the jack. Chock the wheels that stay down and put the brake on before it goes up (UK HSE, motor vehicle repair).",
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
  note "___"
  support on 2 stands under "frame"
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "raise")) return;
    const { story } = context;
    let chocked = false;
    let planned: Where | undefined;
    let raise: (typeof story.support)[number] | undefined;
    let under = false;
    let late: Where | undefined;
    for (const it of story.support) {
      // What is only planned keeps nothing from rolling that is up already. A line that can't be read may have been that.
      if (it.verb === "chock") {
        if (it.phase === "planned" && raise?.phase === "done") planned ??= it.where;
        else {
          chocked = true;
          if (raise !== undefined) late ??= it.where;
        }
      } else if (it.before.unclear?.chock) chocked = true;
      // A crane lifts a thing off the floor, and a stand of its own or a bench holds all of it; nothing rolls.
      if (it.verb === "raise" && it.action.on?.text !== "crane" && !standsByItself(it.action.on?.text) && !chocked) raise ??= it;
      // Chocks that come when somebody has been underneath already came too late for them.
      if (it.verb === "under" && raise !== undefined && !chocked && planned === undefined) under = true;
    }
    if (raise === undefined || (chocked && !under && late === undefined)) return;
    const column = raise.action.at.from;
    report({
      where: raise.where,
      severity: under ? "error" : "warning",
      message:
        under && chocked
          ? "It is raised, and chocked only after somebody was underneath. Chock the wheels that stay down first."
          : chocked && late !== undefined
            ? `It is raised, and chocked only afterwards (line ${context.line(late)}). Chock the wheels that stay down first.`
            : `It is raised and nothing stops it rolling. Chock the wheels that stay down first, and write \`chock\`.${planned === undefined ? "" : ` It is planned at line ${context.line(planned)}, not done.`}`,
      related: planned === undefined ? [] : [{ where: planned, message: "Planned here, not done." }],
      fixes: [{ title: "Write `chock` above", edits: [{ where: { ...raise.where, at: { from: column, to: column } }, text: "chock\n  " }] }],
    });
  },
};
