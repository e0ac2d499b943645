// A fastener found loose, and not yet tight and locked.
import { agreeing } from "../wording.ts";
import { madeFast, seated } from "../../story/put-right.ts";

import type { Fastener } from "../../model/things.ts";
import { calledFound } from "../cells-found.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "found-loose",
  group: "Tightness",
  severity: "error on what is critical, else warning; hint when cured",
  safety: true,
  title: "Found `loose`, and not yet done up; or, of what nothing holds, back as it was",
  why: "A loose nut has been working: look at its thread, its seat and what it held before it is tightened again. It stays flagged until done work has it tight and locked.",
  wrong: `fastener hub-nut "Hub nut"
  critical "a wheel"
  locked by split pin 4 x 40 mm
finding hub-nut
  is loose
#    ^^^^^ error found-loose
`,
  right: `fastener hub-nut "Hub nut"
  critical "a wheel"
  locked by split pin 4 x 40 mm
finding hub-nut
  is serviceable
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const found of story.findings) {
      for (const { condition, where } of found.conditions) {
        if (condition.kind !== "loose") continue;
        const cells = found.places.flatMap((place) => story.cell(found.thing.name, place) ?? []);
        const cures = cells.map((cell) => {
          if (cell.kind === "fastener") return madeFast(cell, found.seq);
          return cell.kind === "part" ? seated(story, cell, found) : undefined;
        });
        const critical = "critical" in found.thing && found.thing.critical;
        const name = calledFound(found);
        const isByItself =
          found.thing.kind === "part" && !found.thing.implied && found.thing.heldBy.length === 0 && cells.some((_, i) => cures[i] === undefined);
        const what =
          found.thing.kind === "fastener"
            ? advice(found.thing)
            : `Find out why before it goes back${isByItself ? ": nothing that is done up holds it. Renew it, repair it, or look at it when it is in" : ""}`;
        report(curedReport(context, where, critical ? "error" : "warning", `${name} ${agreeing(found.thing, "was")} found loose. ${what}.`, cures));
      }
    }
  },
};

/** What would put it right, by what it declares: a pin is never tight, and what has no locking is not locked. */
function advice(fastener: Fastener): string {
  if (fastener.torque?.none) return "Look at it and its hole, then fit it and lock it";
  const locking = fastener.locking?.locking.kind;
  return `Look at its thread and seat, then tighten it${locking === undefined || locking === "nothing" ? "" : " and lock it"}`;
}
