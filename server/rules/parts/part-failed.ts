// Found cracked, broken, bent or otherwise failed, and not yet put right.
import { isOfTheNew } from "../../story/found-in-new.ts";
import { memo } from "../../model/memo.ts";
import { countOf } from "../../story/lots.ts";
import { failureCured, lookWanted, repairedAsFound } from "../../story/put-right.ts";
import type { FastenerCell, Found, PartCell, Story } from "../../story/story.ts";
import { isFound } from "../../story/whose-figures.ts";
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
        const cells = cellsFound(story, found).filter((cell) => cell.kind !== "fluid");
        const look = cells.map((cell) => lookWanted(story, cell, found));
        const isMended = cells.length > 0 && cells.every((cell) => repairedAsFound(cell, found)?.planned === false);
        const isNone = condition.kind === "cracked" && cells.some(({ place }) => (calledGood(story).get(`${found.thing.name} ${place}`) ?? -1) > found.seq);
        const next = `${isNone ? noCrack : nextFor(look, decided, isMended)}.${asNumber(cells, found)}`;
        report(curedReport(context, where, isCriticalThing(found) ? "error" : "warning", `${foundAs(found, condition)}. ${next}`, cures));
      }
    }
  },
};

/** Of each thing at each of its places the moment at which it was called serviceable last. */
const calledGood = memo(
  (story: Story): ReadonlyMap<string, number> =>
    new Map(story.findings.flatMap((it) => (isFound(it, "serviceable") ? it.places.map((place) => [`${it.thing.name} ${place}`, it.seq] as const) : []))),
);

const noCrack = 'Renew it, mend it, or write in the later finding by what it was seen to be none: because "Dyed, no crack"';

/** As many as the figure says were found so, and fewer new ones went in: whoever meant one by its number is told. */
function asNumber(cells: readonly (PartCell | FastenerCell)[], { thing, count }: Found): string {
  if (count === undefined || count < 2) return "";
  const fresh = cells.reduce((sum, { now }) => sum + countOf(now.lots.filter((lot) => lot.isNew)), 0);
  return fresh === 0 || fresh >= count ? "" : ` \`${thing.name} ${count}\` in a finding is ${count} of them, not the last.`;
}

/** What is still to be done: by what was done in vain, else as it was decided. */
function nextFor(look: readonly string[], decided: string | undefined, isMended: boolean): string {
  if (look.includes("crack")) return "What was done since closes no crack. Renew it, mend it, or look for the crack again (dye, magnetic dust)";
  if (isMended && look.includes("weld")) return "It was mended. Look for a crack beside that (dye, magnetic dust), and write what was seen";
  if (isMended && look.includes("set")) return "It was straightened. See how true it is now, and write that";
  if (look.includes("shape")) return "What was done since straightens nothing. Renew it, straighten it, or see how true it is";
  if (isMended) return "It was repaired: measure it, or look at it again, and write what it is like";
  if (decided === "repair") return "Repair it, then measure it or look at it again";
  if (decided === "make") return "Make and fit the new one";
  return decided === "discard" ? "It must not go back" : "Renew it, or have it repaired and look at it again";
}
