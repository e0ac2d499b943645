// Locked with another kind than it declares, or with a thinner one.
import { isUnlikeLocking } from "../../supply/unlike-locking.ts";
import { type JobRule, restate } from "../rule.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { lockedAnew } from "../../story/put-right.ts";
import { curedReport } from "../found.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt, lockingText } from "../wording.ts";

export const rule: JobRule = {
  id: "locking-differs",
  group: "Locking",
  severity: "error",
  safety: false,
  title: "Locked with another kind than it declares, or with a thinner pin",
  why: "A castellated nut on a drilled bolt is made for its pin; a spring washer in its place is how it was found, not how it was meant. Where the change is right, change the declaration and say why there.",
  wrong: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut with new tab washer
#                       ^^^^^^^^^^ error locking-differs (fix)
  done
`,
  right: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut with new split pin 4 x 45 mm
  done
`,
  fixed: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut with new split pin 4 x 40 mm
  note "___"
  done
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    const lines = byLine<FastenerCell, FastenerMoment>(story.fasteners, (it, cell) => {
      const declared = cell.thing.locking?.locking;
      return it.verb === "lock" && it.with !== undefined && declared !== undefined && isUnlikeLocking(it.with, declared);
    });
    for (const { cell, moment: it, cells, moments, places } of lines) {
      const declared = cell.thing.locking?.locking;
      if (declared === undefined || it.with === undefined) continue;
      const meant = declared.kind === "nothing" ? "nothing" : `a ${lockingText(declared)}`;
      report({
        ...(cell.thing.critical ? { firm: true as const } : {}),
        ...curedReport(
          context,
          { ...it.where, at: it.with.at },
          "error",
          `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} locked with a ${lockingText(it.with)} but declared with ${meant}. Fit what is declared, or change it there and say why.`,
          cells.map((one, i) => lockedAnew(one, moments[i] as FastenerMoment)),
          declared.kind === "nothing" ? [] : [restate(`Write \`${lockingText(declared)}\``, { ...it.where, at: it.with.at }, lockingText(declared))],
        ),
      });
    }
  },
};
