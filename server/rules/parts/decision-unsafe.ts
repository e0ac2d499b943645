// A critical thing that failed, and is to be reused.
import { failureCured, speaksOf } from "../../story/put-right.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment } from "../../story/story.ts";
import type { Verdict } from "../../story/verdict.ts";
import { cellsFound, isCriticalThing, placeFound } from "../cells-found.ts";
import { against, condemnedBy, isReasoned, neverReused } from "../failures.ts";
import { curedReport } from "../found.ts";
import { type JobContext, type JobRule, restate } from "../rule.ts";
import { called, listed } from "../wording.ts";
import { limitWords, verdictValue } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "decision-unsafe",
  group: "Parts",
  severity: "error; hint when it was renewed or repaired all the same",
  safety: true,
  title: "`reuse` of a critical thing cracked, broken, bent, stripped, sheared, undrilled or past wear",
  why: "Nobody's word makes a cracked steering arm sound. Renew it, or have it repaired by somebody who does such work and may, and look at it again.",
  wrong: `part arm "Steering arm"
  critical "steering"
finding arm
  is cracked
  decision reuse
#          ^^^^^ error decision-unsafe (fix)
`,
  right: `part arm "Steering arm"
  critical "steering"
finding arm
  is pitted
  decision reuse
`,
  fixed: `part arm "Steering arm"
  critical "steering"
finding arm
  is cracked
  decision renew
  note "___"
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const found of story.findings) {
      if (found.decision?.detail.decision !== "reuse" || !isCriticalThing(found)) continue;
      const bad: string[] = found.conditions
        .filter(({ condition }) => neverReused.has(condition.kind))
        .map(({ condition }) => (condition.kind === "undrilled" ? "undrilled (no hole for its pin)" : condition.kind));
      const cells = cellsFound(story, found);
      const worn = cells.map((cell) => (cell.kind === "fluid" ? undefined : wornWhen(context, cell, found))).find((it) => it !== undefined);
      if (bad.length === 0 && worn === undefined) continue;
      if (worn !== undefined) bad.push(`past its limit of wear (${verdictValue(worn)}, ${limitWords(worn)})`);
      const lost = "criticalWhat" in found.thing && found.thing.criticalWhat !== undefined ? ` If it lets go: ${found.thing.criticalWhat}.` : "";
      const cures = cells.map((cell) => (cell.kind === "fluid" ? undefined : failureCured(story, cell, found)));
      const at = found.decision.where;
      report({
        ...curedReport(
          context,
          at,
          "error",
          `${called(found.thing, placeFound(found))} is ${listed(bad)} and is to be reused.${lost} Renew it, or have it repaired and checked.`,
          cures,
          [restate("Write `renew`", at, "renew")],
        ),
      });
    }
  },
};

/** What a reading says against those that the finding speaks of, before it or after it. */
function wornWhen(context: JobContext, cell: PartCell | FastenerCell, found: Found): Verdict | undefined {
  const moment = (cell.history as readonly (PartMoment | FastenerMoment)[]).find((it) => it.found === found);
  for (const lot of moment === undefined ? [] : [...moment.after.lots, ...moment.after.bench]) {
    if (!speaksOf(lot, found) || (isReasoned(found) && found.conditions.some(({ condition }) => condition.kind === "serviceable"))) continue;
    const { worn } = against(context, cell, lot, found.seq);
    if (worn !== undefined) return worn;
  }
  for (const lot of [...cell.now.lots, ...cell.now.bench]) {
    if (!speaksOf(lot, found)) continue;
    for (const note of lot.notes) {
      const out = note.kind === "read" && note.seq > found.seq ? condemnedBy(context.judged, note) : undefined;
      if (out !== undefined) return out;
    }
  }
  return undefined;
}
