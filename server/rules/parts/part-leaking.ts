// Found leaking or contaminated, and nothing done about it.
import { fitOrRepair } from "../../walk/put-right.ts";
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
  reach: "names",
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
          return fitOrRepair(cell, found.seq) ?? (cleaned === undefined ? undefined : { moment: cleaned as never, planned: cleaned.phase === "planned" });
        });
        const text = condition.text === undefined ? "" : ` with ${condition.text.value}`;
        const what =
          condition.kind === "leaking" ? "Find out where it comes from and renew or repair it" : "Clean it or renew it, and find out where it came from";
        report(curedReport(context, where, "warning", `${calledFound(found)} was found ${condition.kind}${text}. ${what}.`, cures));
      }
    }
  },
};
