// Found missing, and not yet there again.
import { wholeNumber } from "../../model/declare.ts";
import { ordersOf } from "../../model/orders.ts";
import { findingsOf } from "../../story/decisions.ts";
import { type Cure, changedOver, completeSince, countFound, renewedSince } from "../../story/put-right.ts";
import type { FastenerCell, Found, PartCell, Story } from "../../story/story.ts";
import { cellsFound, isCriticalThing, placeFound } from "../cells-found.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "part-missing",
  group: "Parts",
  severity: "error on a critical thing, else warning; hint when cured",
  safety: true,
  title: "Found `missing`, not yet renewed",
  why: "What is missing was either never fitted or has come off inside, and then it lies among gears or bearings. Find it or account for it before anything turns.",
  wrong: `part key "Half shaft key"
  critical "drive"
finding key
  is missing
#    ^^^^^^^ error part-missing
`,
  right: `part key "Half shaft key"
  critical "drive"
finding key
  is serviceable
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const found of story.findings) {
      // Of a fluid, another rule says that it is to be filled.
      if (found.thing.kind === "fluid") continue;
      for (const { condition, where } of found.conditions) {
        if (condition.kind !== "missing") continue;
        const cells = cellsFound(story, found);
        const cures = cells.map((cell) => (cell.kind === "fluid" ? undefined : cureOf(story, cell, found, wholeNumber(condition.count?.text))));
        const count = wholeNumber(condition.count?.text) ?? found.count;
        const many = count === undefined || count === 1 ? "" : ` (${count})`;
        const message = `${called(found.thing, placeFound(found))} ${agreeing(found.thing, "was")} found missing${many}. Look for it where it could fall in; fit a new one.`;
        report(curedReport(context, where, isCriticalThing(found) ? "error" : "warning", message, cures));
      }
    }
  },
};

const another: ReadonlySet<string> = new Set(["renew", "exchange", "make"]);

/**
 * All that should be there is on, and it is known from where: so many new ones went in, or somebody wrote that the old one was found. What is not critical, and not
 * to be a new one, may come from anywhere.
 */
function cureOf(story: Story, cell: PartCell | FastenerCell, found: Found, count: number | undefined): Cure | undefined {
  const complete = completeSince(cell, found.seq);
  if (complete === undefined) return complete;
  // A new one was ordered and came: then that is what goes in.
  const isBought = (ordersOf(story.job).items.get(cell.thing.name) ?? []).some(({ status }) => status?.status === "received");
  if (!isBought && !another.has(found.decision?.detail.decision ?? "") && (!cell.thing.critical || changedOver(cell, found.seq) !== undefined)) return complete;
  const turnedUp = (findingsOf(story).get(cell.thing.name) ?? []).some((it) => it.seq > found.seq && it.places.includes(cell.place));
  return turnedUp || cell.thing.implied ? complete : renewedSince(cell, found.seq, count ?? countFound(cell, found)) && complete;
}
