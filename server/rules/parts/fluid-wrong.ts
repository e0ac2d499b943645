// A fluid found milky, contaminated, low, missing or wrong, and nothing done about it.
import type { ConditionKind } from "../../../grammar/tree.ts";
import { refilledSince } from "../../story/put-right.ts";
import { cellsFound, placeFound } from "../cells-found.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "fluid-wrong",
  group: "Parts",
  severity: "warning; hint when cured",
  safety: false,
  title: "A fluid found `milky`, `contaminated`, `low`, `missing` or `wrong`, and nothing done about it",
  why: "Milky oil has water in it, low oil went somewhere, and the wrong oil eats seals or bronze. Change it and find out why.",
  wrong: `fluid oil "Axle oil"
finding oil
  is milky
#    ^^^^^ warning fluid-wrong
`,
  right: `fluid oil "Axle oil"
finding oil
  is clean
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const found of story.findings) {
      if (found.thing.kind !== "fluid") continue;
      for (const { condition, where } of found.conditions) {
        if (!asks.has(condition.kind)) continue;
        const isShort = condition.kind === "low" || condition.kind === "missing";
        const cures = cellsFound(story, found).map((cell) => {
          if (cell.kind !== "fluid") return undefined;
          const topped = isShort ? cell.history.find((it) => it.seq > found.seq && it.verb === "fill" && it.after.full) : undefined;
          return refilledSince(cell, found.seq, isShort) ?? (topped === undefined ? undefined : { moment: topped, planned: topped.phase === "planned" });
        });
        const text = condition.text === undefined ? "" : ` (${condition.text.value})`;
        const what = isShort ? "Find out where it went, and fill it up" : "Drain it, find out why, and fill it with the right one";
        report(
          curedReport(
            context,
            where,
            "warning",
            `${called(found.thing, placeFound(found))} ${agreeing(found.thing, "was")} found ${condition.kind}${text}. ${what}.`,
            cures,
          ),
        );
      }
    }
  },
};

const asks: ReadonlySet<ConditionKind> = new Set(["milky", "contaminated", "low", "missing", "wrong"]);
