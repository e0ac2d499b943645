// A critical fastener that friction alone holds, and nobody says who made it so.
import { lockingInfo } from "../../../grammar/words.ts";
import { lineOf } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "locking-by-friction",
  group: "Locking",
  severity: "warning",
  safety: false,
  title: "A critical fastener held by friction alone, without a source that made it so",
  why: "A spring washer or a lock nut can work loose under vibration. Many makers did choose it: then name the handbook page as `source`, and the warning goes.",
  wrong: `fastener arm-bolt "Steering arm bolt"
  locked by spring washer
#           ^^^^^^^^^^^^^ warning locking-by-friction
  critical "steering"
`,
  right: `fastener arm-bolt "Steering arm bolt"
  locked by spring washer
  critical "steering"
  source "Maker's workshop manual, page 31"
`,
  scope: "job",
  check({ job, report }) {
    for (const thing of job.things.values()) {
      if (thing.kind !== "fastener" || !thing.critical || thing.locking === undefined || thing.source !== undefined || thing.unread.has("source")) continue;
      if (!lockingInfo(thing.locking.locking.kind)?.friction) continue;
      const line = lineOf(thing, "locked");
      if (line === undefined) continue;
      report({
        where: where(line.file, line.entry, line.detail.row, thing.locking.locking.at),
        severity: "warning",
        message: `${called(thing)} ${agreeing(thing, "is")} critical and only friction locks it (${thing.locking.locking.words}). Give the maker's page as \`source\`, or fit a positive locking.`,
      });
    }
  },
};
