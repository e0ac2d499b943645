// A critical part repaired after a crack or a bend, or put right outside, and never looked at again.
import { relationsOf } from "../../model/relations.ts";
import { type Look, shows } from "../../story/put-right.ts";
import { backUnseen, mendedUnseen, pouredUnsized } from "../mended.ts";
import type { JobRule } from "../rule.ts";
import { sizedUnread } from "../sized-unread.ts";
import { unbalanced } from "../unbalanced.ts";
import { agreeing, called } from "../wording.ts";

const notSeen: Readonly<Partial<Record<Look, string>>> = {
  weld: "nothing since looks for a crack beside the mend. Look for one (`seen … final good`), or write a finding of it",
  set: "nothing since shows how true it is. Measure that or look (`seen … final good`), or write a finding of it",
};

export const rule: JobRule = {
  id: "repair-unchecked",
  group: "Parts",
  severity:
    "error at release; warning for what was put right outside and was neither cracked nor bent, and for white metal of which no size is written, that holds where it is critical; what was bored, ground or built up outside, or built up or knurled here, holds until it is measured or found, and so does a weight of balance that was cut or built up until it is balanced or weighed",
  safety: true,
  title: "A critical part repaired after a crack or a bend, welded or straightened, or put right outside, and never measured or seen good since",
  why: "A weld can crack beside itself, and a straightened arm can hide one. Somebody looks at it again (dye, a straight edge, the maker's check) and writes what was seen before it goes on the road.",
  wrong: `part arm "Drop arm"
  critical "steering"
finding arm
  is bent
  decision repair "straightened cold"
step mend "Arm straightened"
  repair arm "straightened cold"
#        ^^^ error repair-unchecked
  done
release by "A. Moor" 2026-05-10
  test "Steered lock to lock"
`,
  right: `part arm "Drop arm"
  critical "steering"
check arm-sound "no crack under dye, straight on the plate"
  of arm
finding arm
  is bent
  decision repair "straightened cold"
step mend "Arm straightened"
  repair arm "straightened cold"
  done
seen arm-sound final good
release by "A. Moor" 2026-05-10
  test "Steered lock to lock"
`,
  scope: "job",
  check({ story, report }) {
    if (story.release === undefined) return;
    const { measuredBy } = relationsOf(story.job);
    for (const { found, cell, look, repair } of mendedUnseen(story)) {
      const unseen = `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} repaired, and ${notSeen[look] ?? "not measured or seen since. Measure it or look at it (`seen … final good`)"}`;
      const readings = (measuredBy.get(cell.thing.name) ?? []).filter((it) => it.kind === "check" || it.expression === undefined);
      const reads = readings.map((it) => ({ name: it.name, places: [cell.place] }));
      report({
        where: repair.where,
        severity: "error",
        message: `${unseen} before release.`,
        reads,
        ...(!readings.some((it) => shows(it, look)) ? { looks: [{ name: cell.thing.name, places: [cell.place] }] } : {}),
        ...(found === undefined ? {} : { related: [{ where: found.where, message: "Found here." }] }),
      });
    }
    for (const { found, cell, fit } of backUnseen(story))
      report({
        where: fit.where,
        // Whoever did the work answers for it: worth a look, and no reason to hold the machine.
        severity: "warning",
        message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} worked on outside, and nobody wrote what it looks like since. Look at it, and write a finding.`,
        looks: [{ name: cell.thing.name, places: [cell.place] }],
        related: [{ where: found.where, message: "Found here." }],
      });
    for (const { cell, at, isOurs } of sizedUnread(story))
      report({
        where: at,
        severity: "warning",
        open: true,
        message: `${called(cell.thing, cell.place)} ${isOurs ? `${agreeing(cell.thing, "was")} given` : "came back with"} another size, and nobody wrote what it measures. Measure it by a limit \`of ${cell.thing.name}\`, or write a finding of it with its size.`,
        looks: [{ name: cell.thing.name, places: [cell.place] }],
      });
    for (const { cell, repair } of unbalanced(story))
      report({
        where: repair.where,
        severity: "warning",
        open: true,
        message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} of another weight since this, and nobody wrote that it was balanced. Balance it, or weigh it against its fellow, and write so.`,
        looks: [{ name: cell.thing.name, places: [cell.place] }],
      });
    for (const { cell, at } of pouredUnsized(story))
      report({
        where: at,
        severity: "warning",
        open: cell.thing.critical,
        message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} poured anew, and no size of it is written. Measure it by a limit \`of ${cell.thing.name}\`, or write a finding with its size.`,
      });
  },
};
