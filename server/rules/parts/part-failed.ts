// Found cracked, broken, bent or otherwise failed, and not yet put right.
import { isOfTheNew } from "../../story/found-in-new.ts";
import { failureCured, lookWanted } from "../../story/put-right.ts";
import { cellsFound, isCriticalThing, foundAs } from "../cells-found.ts";
import { failed, reusedUnsafely } from "../failures.ts";
import { curedReport } from "../found.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "part-failed",
  group: "Parts",
  severity: "error on a critical thing, else warning; hint when cured",
  safety: true,
  title: "Found `cracked`, `broken`, `bent`, `stripped`, `sheared`, `seized` or `damaged`, not yet renewed or repaired",
  why: "What has failed once fails again at a lower load. It stays flagged until done work has it renewed, or repaired and, where it is critical, measured or seen good since.",
  wrong: `part arm "Steering arm"
  critical "steering"
finding arm
  is cracked
#    ^^^^^^^ error part-failed
  decision renew
`,
  right: `part arm "Steering arm"
  critical "steering"
finding arm
  is serviceable
`,
  scope: "job",
  *check(context) {
    const { story, report } = context;
    let n = 0;
    for (const found of story.findings) {
      if (found.thing.kind === "fluid") continue;
      for (const { condition, where } of found.conditions) {
        if (++n % someAtOnce === 0) yield;
        if (!failed.has(condition.kind) || reusedUnsafely(found, condition.kind)) continue;
        const cures = cellsFound(story, found).map((cell) =>
          cell.kind === "fluid" || isOfTheNew(story, cell, found) ? undefined : failureCured(story, cell, found),
        );
        const decided = found.decision?.detail.decision;
        const look = cellsFound(story, found).map((cell) => (cell.kind === "fluid" ? "any" : lookWanted(story, cell, found)));
        report(curedReport(context, where, isCriticalThing(found) ? "error" : "warning", `${foundAs(found, condition)}. ${nextFor(look, decided)}.`, cures));
      }
    }
  },
};

/** What is still to be done: by what was done in vain, else as it was decided. */
function nextFor(look: readonly string[], decided: string | undefined): string {
  if (look.includes("crack")) return "What was done since closes no crack. Renew it, mend it, or look for the crack again (dye, magnetic dust)";
  if (look.includes("shape")) return "What was done since straightens nothing. Renew it, straighten it, or see how true it is";
  if (decided === "repair") return "Repair it, then measure it or look at it again";
  if (decided === "make") return "Make and fit the new one";
  return decided === "discard" ? "It must not go back" : "Renew it, or have it repaired and look at it again";
}
