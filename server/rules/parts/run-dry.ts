// Found dry or blocked, and nothing done about it.
import { cellsFound, isCriticalThing, calledFound } from "../cells-found.ts";
import { curedReport } from "../found.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Cure } from "../../story/put-right.ts";
import type { JobRule } from "../rule.ts";
import type { FluidCell, PartCell } from "../../story/story.ts";

export const rule: JobRule = {
  id: "run-dry",
  group: "Parts",
  severity: "warning; error on a critical part; hint when cured",
  safety: false,
  title: "`dry` or `blocked`, and nothing done about it",
  why: "A bearing that ran dry is usually hurt, and a blocked oil way will starve the new one as it did the old. Clear it, oil it, and look at what ran in it.",
  wrong: `part bush "Trunnion bush"
  critical "steering"
finding bush
  is dry
#    ^^^ error run-dry
`,
  right: `part bush "Trunnion bush"
  critical "steering"
finding bush
  is serviceable
`,
  scope: "job",
  check(context) {
    const { story, report, job } = context;
    for (const found of story.findings) {
      if (found.thing.kind !== "part") continue;
      for (const { condition, where } of found.conditions) {
        if (condition.kind !== "dry" && condition.kind !== "blocked") continue;
        const cures = cellsFound(story, found).map((cell) => (cell.kind === "part" ? cureOf(cell, found.seq, condition.kind) : undefined));
        const what = condition.kind === "dry" ? "Oil or grease it, and look for what that did to it" : "Clear the oil way before it goes back";
        report(curedReport(context, where, isCriticalThing(found) ? "error" : "warning", `${calledFound(found)} was found ${condition.kind}. ${what}.`, cures));
      }
    }

    function cureOf(cell: PartCell, seq: number, kind: string): Cure | undefined {
      const verbs = kind === "dry" ? ["oil", "grease", "repair"] : ["clean", "repair"];
      for (const it of cell.history) {
        if (it.seq > seq && ((it.action !== undefined && verbs.includes(it.action.verb)) || (it.verb === "fit" && it.isNew)))
          return { moment: it, planned: it.phase === "planned" };
      }
      if (kind !== "dry") return undefined;
      for (const fluid of relationsOf(job).fluidsIn.get(cell.thing.name) ?? []) {
        for (const it of story.cells(fluid.name) as readonly FluidCell[]) {
          const fill = it.history.find((moment) => moment.seq > seq && moment.verb === "fill");
          if (fill !== undefined) return { moment: fill, planned: fill.phase === "planned" };
        }
      }
      return undefined;
    }
  },
};
