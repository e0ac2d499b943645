// A concession for what may not be excused.
import { cellsFound } from "../cells-found.ts";
import { neverExcused } from "../failures.ts";
import { completeSince, failureCured, madeFast, renewedAsFound, seated } from "../../story/put-right.ts";
import type { JobRule } from "../rule.ts";
import { namesText } from "../../model/titles.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "concession-unsafe",
  group: "Release",
  severity: "error",
  safety: true,
  title: "A concession for a critical thing that is cracked, broken, bent, stripped, sheared, undrilled, missing, loose or unlocked",
  why: "A concession lets somebody with a name accept a figure a little outside its limit. It can't make a cracked arm whole or a missing pin be there.",
  wrong: `part arm "Steering arm"
  critical "steering"
finding arm
  is cracked
  decision renew
concession arm "small crack, will watch it" by "A. Moor"
#          ^^^ error concession-unsafe
`,
  right: `part arm "Steering arm"
  critical "steering"
finding arm
  is pitted
  decision reuse
concession arm "pitting on the outside only" by "A. Moor"
`,
  scope: "job",
  check({ story, report }) {
    for (const concession of story.concessions) {
      const { thing } = concession;
      if (!("critical" in thing) || !thing.critical) continue;
      for (const found of story.findings) {
        if (found.thing !== thing || !found.places.some((place) => concession.entry.places.length === 0 || concession.places.includes(place))) continue;
        const bad = found.conditions.find(({ condition }) => neverExcused.has(condition.kind));
        if (bad === undefined) continue;
        const cured = cellsFound(story, found).every((cell) => {
          if (cell.kind === "fluid") return false;
          const fast = cell.kind === "fastener" ? madeFast(cell, found.seq) : bad.condition.kind === "loose" ? seated(story, cell, found) : undefined;
          const cure =
            bad.condition.kind === "loose" || bad.condition.kind === "unlocked"
              ? (fast ?? renewedAsFound(cell, found))
              : bad.condition.kind === "missing"
                ? completeSince(cell, found.seq)
                : failureCured(story, cell, found);
          return cure !== undefined && !cure.planned;
        });
        if (cured) continue;
        report({
          where: concession.where,
          severity: "error",
          message: `${called(thing, namesText(concession.entry.places))} ${agreeing(thing, "is")} critical and ${bad.condition.kind}; a concession can't excuse that. Renew or repair it.`,
          related: [{ where: bad.where, message: "Found here." }],
        });
        break;
      }
    }
  },
};
