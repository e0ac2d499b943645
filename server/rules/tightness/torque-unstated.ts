// A critical clamping fastener for which nobody says how tight.
import { relationsOf } from "../../model/relations.ts";
import { type Fastener, lineOf } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { isGuess } from "../guesses.ts";
import { type JobRule, addLine } from "../rule.ts";
import { shortened } from "../test-words.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "torque-unstated",
  group: "Tightness",
  severity: "warning",
  safety: false,
  title: "A critical clamping fastener with no torque, or one that is a guess",
  why: 'Without a figure nobody can say afterwards that it was right. Look for the maker\'s; where none is to be had, `torque by feel "how"` or `torque none` (a clevis pin, a key) are honest answers. A nut that sets a clearance needs none.',
  wrong: `fastener arm-nut "Steering arm nut"
#        ^^^^^^^ warning torque-unstated (fix)
  locked by split pin 3.2 x 32 mm
  critical "steering"
`,
  right: `fastener arm-nut "Steering arm nut"
  torque 45 .. 55 N.m
  locked by split pin 3.2 x 32 mm
  critical "steering"
`,
  fixed: `fastener arm-nut "Steering arm nut"
  torque by feel "___"
  locked by split pin 3.2 x 32 mm
  critical "steering"
`,
  scope: "job",
  check({ job, report }) {
    const { adjusting } = relationsOf(job);
    for (const thing of job.things.values()) {
      if (thing.kind !== "fastener" || !thing.critical || thing.implied || adjusting.has(thing.name)) continue;
      if (thing.unread.has("torque") || thing.unread.has("")) continue;
      if (thing.torque !== undefined) {
        guessed(thing);
        continue;
      }
      const made = lineOf(thing, "critical");
      const at =
        made !== undefined && made.file !== thing.file
          ? where(made.file, made.entry, made.detail.row, made.detail.keyword)
          : where(thing.file, thing.entry, 0, thing.at);
      report({
        where: at,
        severity: "warning",
        message: `${called(thing)} ${agreeing(thing, "is")} critical and no torque is given. Look for the maker's figure; \`torque by feel "how"\`, \`torque none\` and a limit that it sets are answers too.`,
        fixes: [
          addLine('Add `torque by feel "…"`', at, 'torque by feel "___"'),
          addLine("Add `torque none` (never tight: a clevis pin, a key)", at, "torque none"),
        ],
      });
    }

    /** A figure that nobody gave is none. */
    function guessed(thing: Fastener): void {
      const line = lineOf(thing, "source");
      if (line === undefined || thing.source === undefined || thing.torque?.range === undefined || !isGuess(thing.source)) return;
      report({
        where: where(line.file, line.entry, line.detail.row, line.detail.keyword),
        severity: "warning",
        message: `${called(thing)} ${agreeing(thing, "is")} critical, and its torque is a guess: “${shortened(thing.source)}”. Look for the maker's figure, and name where it is from.`,
      });
    }
  },
};
