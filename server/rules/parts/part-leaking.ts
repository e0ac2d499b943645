// Found leaking or contaminated, and nothing done about it.
import type { ConditionKind } from "../../../grammar/tree.ts";
import { type Cure, backFromWork, fitOrRepair, refittedSince, renewedAsFound, repairedSince } from "../../story/put-right.ts";
import type { FastenerCell, Found, PartCell, Story } from "../../story/story.ts";
import { cellsFound, calledFound } from "../cells-found.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "part-leaking",
  group: "Parts",
  severity: "warning; hint when put right",
  safety: false,
  title: "Found `leaking` or `contaminated`, and nothing done about it",
  why: "A leak empties a bearing of its oil or puts it on a brake. Find out where it comes from before it is closed up again.",
  wrong: `part seal "Half shaft seal"
finding seal
  is leaking
#    ^^^^^^^ warning part-leaking
  decision renew
`,
  right: `part seal "Half shaft seal"
finding seal
  is serviceable
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const found of story.findings) {
      if (found.thing.kind === "fluid") continue;
      for (const { condition, where } of found.conditions) {
        if (condition.kind !== "leaking" && condition.kind !== "contaminated") continue;
        const cures = cellsFound(story, found).map((cell) => {
          if (cell.kind === "fluid") return undefined;
          const cleaned =
            condition.kind === "contaminated"
              ? (cell.history as readonly { seq: number; phase: "done" | "planned"; action?: { verb: string } }[]).find(
                  (it) => it.seq > found.seq && it.action?.verb === "clean",
                )
              : undefined;
          return (
            mendedOrRefitted(story, cell, found, condition.kind) ??
            (cleaned === undefined ? undefined : { moment: cleaned as never, planned: cleaned.phase === "planned" })
          );
        });
        const text = condition.text === undefined ? "" : ` with ${condition.text.value}`;
        const what =
          condition.kind === "leaking" ? "Find out where it comes from and renew or repair it" : "Clean it or renew it, and find out where it came from";
        report(curedReport(context, where, "warning", `${calledFound(found)} was found ${condition.kind}${text}. ${what}.`, cures));
      }
    }
  },
};

/** Fitting the same again cleans nothing, and stops no leak of a seal, nor of what was to be renewed or repaired. */
function mendedOrRefitted(story: Story, cell: PartCell | FastenerCell, found: Found, kind: ConditionKind): Cure | undefined {
  const decided = found.decision?.detail.decision;
  const same =
    kind === "contaminated" ||
    (cell.kind === "part" && (cell.thing.renew || cell.thing.renewWith.length > 0)) ||
    (decided !== undefined && decided !== "reuse") ||
    (decided === undefined && cell.thing.critical);
  if (!same) return fitOrRepair(cell, found.seq);
  return renewedAsFound(cell, found) ?? repairedSince(cell, found.seq) ?? (backFromWork(story, cell, found.day) ? refittedSince(cell, found.seq) : undefined);
}
