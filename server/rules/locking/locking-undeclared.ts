// A critical fastener whose locking nobody mentions.
import type { Locking } from "../../../grammar/tree.ts";
import { lineOf } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { type JobRule, addLine } from "../rule.ts";
import { isForWantOfIt } from "../doubt-words.ts";
import { shortened } from "../test-words.ts";
import { agreeing, called, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "locking-undeclared",
  group: "Locking",
  severity: "error",
  safety: true,
  title: "A critical fastener with no `locked by`",
  why: 'A nut that holds a wheel or a steering arm stays on because something keeps it from turning. If the sheet doesn\'t say what, nobody can see that it is missing. Where nothing is right, say so with the reason: `locked by nothing "why"`.',
  wrong: `fastener hub-nut "Hub nut, castellated"
#        ^^^^^^^ error locking-undeclared (fix)
  critical "a wheel"
`,
  right: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
  critical "a wheel"
`,
  fixed: `fastener hub-nut "Hub nut, castellated"
  locked by split pin ___
  critical "a wheel"
`,
  scope: "job",
  check({ job, report }) {
    for (const thing of job.things.values()) {
      if (thing.kind !== "fastener" || !thing.critical || thing.implied) continue;
      if (thing.locking !== undefined && !unsaid(thing.locking.locking)) {
        const { locking } = thing.locking;
        const line = lineOf(thing, "locked");
        const wanting = locking.kind === "nothing" ? isForWantOfIt(locking.why?.value ?? "") : undefined;
        if (wanting === undefined || line === undefined) continue;
        report({
          where: where(line.file, line.entry, line.detail.row, locking.why?.at ?? line.detail.keyword),
          severity: "error",
          message: `“${shortened(wanting)}” is no reason why ${midSentence(thing)} should stay on without a locking. Say what keeps ${agreeing(thing, "it")} from turning.`,
        });
        continue;
      }
      if (thing.unread.has("locked") || thing.unread.has("retained") || thing.unread.has("")) continue;
      const head = where(thing.file, thing.entry, 0, thing.at);
      // Where a job sheet made it critical, it speaks there: the used file alone was right.
      const made = lineOf(thing, "critical");
      const at = made !== undefined && made.file !== thing.file ? where(made.file, made.entry, made.detail.row, made.detail.keyword) : head;
      const lost = thing.criticalWhat === undefined ? "It is critical" : `If it lets go: ${thing.criticalWhat}`;
      report({
        where: at,
        severity: "error",
        message: `${called(thing)} ${agreeing(thing, "has")} no locking declared. ${lost}. Say what keeps it from turning, or \`locked by nothing "why"\`.`,
        fixes: [
          addLine("Add `locked by split pin`, and write its size", at, "locked by split pin ___"),
          addLine('Add `locked by nothing "…"`; write why that is right', at, 'locked by nothing "___"'),
        ],
      });
    }
  },
};

/** Nothing, and no word why that is right: that is silence, and silence is not safety. */
function unsaid(locking: Locking): boolean {
  return locking.kind === "nothing" && (locking.why?.value ?? "").trim() === "";
}
