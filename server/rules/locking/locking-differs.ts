// Locked with another kind than it declares, or with a thinner one.
import type { Locking } from "../../../grammar/tree.ts";
import { measured, unitsOf } from "../../model/values.ts";
import { type JobRule, restate } from "../rule.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { calledAt, lockingText } from "../wording.ts";

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
  check({ story, report }) {
    const lines = byLine<FastenerCell, FastenerMoment>(story.fasteners, (it, cell) => {
      const declared = cell.thing.locking?.locking;
      if (it.verb !== "lock" || it.with === undefined || it.with.kind === "ambiguous" || declared === undefined || declared.kind === "ambiguous") return false;
      return it.with.kind !== declared.kind || (it.with.kind === "part" && it.with.part?.text !== declared.part?.text) || thinner(it.with, declared);
    });
    for (const { cell, moment: it, places } of lines) {
      const declared = cell.thing.locking?.locking;
      if (declared === undefined || it.with === undefined) continue;
      const meant = declared.kind === "nothing" ? "nothing" : `a ${lockingText(declared)}`;
      report({
        where: { ...it.where, at: it.with.at },
        severity: "error",
        ...(cell.thing.critical ? { firm: true as const } : {}),
        message: `${calledAt(cell.thing, places)} is locked with a ${lockingText(it.with)}, and its declaration says ${meant}. Fit what it declares, or change the declaration and say why.`,
        ...(declared.kind === "nothing"
          ? {}
          : { fixes: [restate(`Write \`${lockingText(declared)}\``, { ...it.where, at: it.with.at }, lockingText(declared))] }),
      });
    }
  },
};

/** A pin or a wire by more than a tenth thinner than the declared one shears for less; 3.2 mm for 1/8 in is the same pin. */
function thinner(used: Locking, declared: Locking): boolean {
  if (used.kind !== declared.kind || used.kind === "circlip" || used.kind === "tab washer") return false;
  const [a, b] = [diameter(used), diameter(declared)];
  return a?.unit.dimension === "length" && b?.unit.dimension === "length" && a.value.mul(10).compare(b.value.mul(9)) < 0;
}

function diameter(locking: Locking): ReturnType<typeof measured> {
  const [size] = locking.size;
  return size === undefined ? undefined : measured(size, unitsOf(locking.size)[0]);
}
