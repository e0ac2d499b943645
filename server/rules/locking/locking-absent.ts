// Found without its locking, or with no hole for it, and not yet put right.
import { agreeing } from "../wording.ts";
import { namesText } from "../../model/titles.ts";
import { lockedSince, madeFast, renewedAsFound } from "../../story/put-right.ts";
import { curedReport } from "../found.ts";
import type { Job } from "../../model/job.ts";
import type { FastenerCell, Found } from "../../story/story.ts";
import { type JobRule, type RuleFix, addLine, lastEntry, lineEnd } from "../rule.ts";
import { lockIsNew, lockWords } from "../lock-words.ts";
import { calledFound } from "../cells-found.ts";

export const rule: JobRule = {
  id: "locking-absent",
  group: "Locking",
  severity: "error until it is locked, then hint",
  safety: true,
  title: "Found `unlocked` or `undrilled`, and not yet locked",
  why: "Whoever put it together last left the locking off, or something in its place that does not hold. It stays flagged until done work has it tight and locked again.",
  wrong: `places side left, right
fastener hub-nut "Hub nut, castellated"
  each side
  locked by split pin 4 x 40 mm
finding hub-nut right
  is unlocked "a bent nail"
#    ^^^^^^^^ error locking-absent (fix)
step refit "Hub nut tightened"
  tighten hub-nut right
  done
`,
  fixed: `places side left, right
fastener hub-nut "Hub nut, castellated"
  each side
  locked by split pin 4 x 40 mm
finding hub-nut right
  is unlocked "a bent nail"
step refit "Hub nut tightened"
  tighten hub-nut right
  lock hub-nut right new
  note "___"
  done
`,
  right: `places side left, right
fastener hub-nut "Hub nut, castellated"
  each side
  locked by split pin 4 x 40 mm
finding hub-nut right
  is serviceable
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const found of story.findings) {
      for (const { condition, where } of found.conditions) {
        if (condition.kind !== "unlocked" && condition.kind !== "undrilled") continue;
        const cells = found.places.flatMap((place) => story.cell(found.thing.name, place) ?? []).filter((cell) => cell.kind === "fastener");
        const cures = cells.map((cell) => {
          const fast = cell.thing.torque?.none ? lockedSince(cell, found.seq) : madeFast(cell, found.seq);
          // A hole that is not there does not come of itself: the fastener is renewed or drilled first.
          if (
            condition.kind === "undrilled" &&
            fast !== undefined &&
            renewedAsFound(cell, found) === undefined &&
            !cell.history.some((it) => it.seq > found.seq && it.verb === "repair")
          )
            return undefined;
          return fast;
        });
        const thing = found.thing;
        const name = calledFound(found);
        const instead = condition.text === undefined ? "" : `: “${condition.text.value}”`;
        const put = thing.kind === "fastener" ? lockWords(context.job, thing) : "Lock it";
        const neverTight = thing.kind === "fastener" && thing.torque?.none === true;
        const message =
          condition.kind === "undrilled"
            ? `${name} has no hole for its pin. Renew it, or have it drilled, before it is locked.`
            : `${name} ${agreeing(found.thing, "was")} found unlocked${instead}. ${put}${neverTight ? "" : " once it is tight"}.`;
        report(curedReport(context, where, "error", message, cures, condition.kind === "undrilled" ? [] : lockFix(context.job, found, cells)));
      }
    }
  },
};

/**
 * A `lock` line behind the step's own line that tightens it since; where nothing does, a planned step at the end of the sheet,
 * which cures nothing until it is done.
 */
function lockFix(job: Job, found: Found, cells: readonly FastenerCell[]): RuleFix[] {
  if (found.thing.kind !== "fastener" || found.thing.locking === undefined) return [];
  const place = found.entry.places.length === 0 ? "" : ` ${namesText(found.entry.places)}`;
  const name = found.thing.name;
  const isNew = lockIsNew(job, found.thing) ? " new" : "";
  const tightened = cells.flatMap((cell) => cell.history.filter((it) => it.seq > found.seq && it.verb === "tighten")).at(-1);
  // It is locked behind that: what is missing is the tightening, and another line would mend nothing.
  const isLocked = (cell: FastenerCell) => tightened !== undefined && cell.history.some((it) => it.seq > tightened.seq && it.verb === "lock");
  if (cells.length > 0 && cells.every(isLocked)) return [];
  if (tightened !== undefined) return [addLine(`Add \`lock ${name}${place}${isNew}\``, tightened.where, `lock ${name}${place}${isNew}`)];
  const tight = found.thing.torque?.none ? "" : `  tighten ${name}${place}\n`;
  const text = `\n\nstep make-${name}${place.replace(" ", "-")}-fast "Tighten and lock what was found open"\n${tight}  lock ${name}${place}${isNew}`;
  return [
    {
      title: "Plan a step with its `lock` line at the end of the sheet",
      edits: [{ where: { file: job.path, entry: lastEntry, row: 0, at: { from: lineEnd, to: lineEnd } }, text }],
    },
  ];
}
