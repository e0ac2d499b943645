// Locked with another kind than it declares.
import { type JobRule, rewrite } from "../rule.ts";
import { called, lockingText } from "../wording.ts";

export const rule: JobRule = {
  id: "locking-differs",
  group: "Locking",
  severity: "error",
  safety: false,
  title: "Locked with another kind than it declares",
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
  done
`,
  scope: "job",
  check({ story, report }) {
    const said = new Set<object>();
    for (const cell of story.fasteners) {
      const declared = cell.thing.locking?.locking;
      if (declared === undefined || declared.kind === "ambiguous") continue;
      for (const it of cell.history) {
        if (it.verb !== "lock" || it.with === undefined || it.with.kind === "ambiguous" || it.action === undefined || said.has(it.action)) continue;
        const same = it.with.kind === declared.kind && (it.with.kind !== "part" || it.with.part?.text === declared.part?.text);
        if (same) continue;
        said.add(it.action);
        const meant = declared.kind === "nothing" ? "nothing" : `a ${lockingText(declared)}`;
        report({
          where: { ...it.where, at: it.with.at },
          severity: "error",
          message: `${called(cell.thing, cell.place)} is locked with a ${lockingText(it.with)}, and its declaration says ${meant}. Fit what it declares, or change the declaration and say why.`,
          ...(declared.kind === "nothing" ? {} : { fixes: [rewrite(`Write \`${lockingText(declared)}\``, { ...it.where, at: it.with.at }, lockingText(declared))] }),
        });
      }
    }
  },
};
