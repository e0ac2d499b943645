// Found wrong, the wrong way round, or in another's place, and not yet put right.
import { agreeing } from "../wording.ts";
import type { ConditionKind } from "../../../grammar/tree.ts";
import { ordersOf } from "../../model/orders.ts";
import { onAt } from "../../story/in-place.ts";
import { backFromWork, changedOver, countFound, refittedSince, renewedAsFound, repairedAsFound, servesFor } from "../../story/put-right.ts";
import type { FastenerCell, Found, PartCell, Story } from "../../story/story.ts";
import { cellsFound, isCriticalThing, calledFound } from "../cells-found.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "part-wrong",
  group: "Parts",
  severity: "error on a critical part, else warning; hint when cured",
  safety: true,
  title: "Found `wrong`, `reversed` or `swapped`, not yet corrected",
  why: "A part that is not the one that was meant, or sits the wrong way round, works until it doesn't. It stays flagged until done work has the right one in, the right way.",
  wrong: `part thrust-race "Thrust race"
  critical "drive"
finding thrust-race
  is reversed
#    ^^^^^^^^ error part-wrong
`,
  right: `part thrust-race "Thrust race"
  critical "drive"
finding thrust-race
  is serviceable
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const found of story.findings) {
      if (found.thing.kind === "fluid") continue;
      for (const { condition, where } of found.conditions) {
        if (!wrongs.has(condition.kind)) continue;
        const cures = cellsFound(story, found).map((cell) => {
          if (cell.kind === "fluid") return undefined;
          const renewed =
            (isOfWhatCame(story, cell, found) ? undefined : renewedAsFound(cell, found)) ??
            repairedAsFound(cell, found) ??
            (backFromWork(story, cell, found.day, servesFor(found)) ? refittedSince(cell, found.seq) : undefined);
          // What is only the wrong way round is right when it has been off and on again. What is in another's place goes there, and the other comes here.
          if (condition.kind === "swapped" && cell.place !== "") return renewed ?? changedOver(cell, found.seq, countFound(cell, found));
          return condition.kind === "wrong" ? renewed : (renewed ?? refittedSince(cell, found.seq, countFound(cell, found)));
        });
        const name = calledFound(found);
        const text = condition.text === undefined ? "" : ` (${condition.text.value})`;
        const message =
          condition.kind === "wrong"
            ? `${name} ${agreeing(found.thing, "was")} found wrong${text}. Fit the right one.`
            : condition.kind === "reversed"
              ? `${name} ${agreeing(found.thing, "was")} found reversed: upside down or back to front. Fit it the right way round.`
              : `${name} ${agreeing(found.thing, "was")} found swapped with another. Fit each where it belongs.`;
        report(curedReport(context, where, isCriticalThing(found) ? "error" : "warning", message, cures));
      }
    }
  },
};

/**
 * It speaks of the new one that had come, while the place was empty, and nothing has come since: what is fitted new is that very one. Told by the days of the orders, and by the words or by a decision to
 * exchange it.
 */
function isOfWhatCame({ job }: Story, cell: PartCell | FastenerCell, found: Found): boolean {
  const { day, seq, decision, conditions } = found;
  if (day === undefined || onAt(cell, seq) > 0) return false;
  const isNew = decision?.detail.decision === "exchange" || conditions.some(({ condition }) => /\bnew\b/iu.test(condition.text?.value ?? ""));
  const came = (ordersOf(job).items.get(cell.thing.name) ?? []).flatMap(({ status }) =>
    status?.status === "received" && status.date !== undefined ? [status.date.text] : [],
  );
  return isNew && came.some((on) => on <= day) && !came.some((on) => on > day);
}

const wrongs: ReadonlySet<ConditionKind> = new Set(["wrong", "reversed", "swapped"]);
