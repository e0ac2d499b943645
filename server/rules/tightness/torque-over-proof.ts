// A torque that asks for more than the bolt may carry, by the usual estimate.
import { wantedOf } from "../../model/torque.ts";
import { lineOf } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { overProof } from "../../trade/bolts.ts";
import { threadOf } from "../../trade/threads.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "torque-over-proof",
  group: "Tightness",
  severity: "information",
  safety: false,
  title: "With grade and K both given, the range asks for more than 90 % of proof load by T = K d F",
  why: "T = K d F is an estimate: K is a guess about friction and can be out by a third. It says only that the figure deserves a second look. The maker's figure rules.",
  wrong: `fastener cap-bolt "Cap bolt"
  thread 3/8-16 UNC grade 2
  torque 40 .. 45 lbf.ft dry K 0.20
#        ^^^^^^^^^^^^^^^ information torque-over-proof
`,
  right: `fastener cap-bolt "Cap bolt"
  thread 3/8-16 UNC grade 8
  torque 30 .. 35 lbf.ft dry K 0.20
`,
  scope: "job",
  check({ job, report }) {
    for (const thing of job.things.values()) {
      if (thing.kind !== "fastener" || thing.torque?.k === undefined) continue;
      const band = wantedOf(thing)?.last.band;
      const line = lineOf(thing, "torque");
      if (band?.high === undefined || band.unit.dimension !== "torque" || line === undefined) continue;
      for (const { thread, grade, class: boltClass } of thing.threads) {
        const known = thread.free ? undefined : threadOf(thread.designation, thread.leftHand !== undefined);
        if (known === undefined) continue;
        const answer = overProof(
          known,
          { ...(grade === undefined ? {} : { grade }), ...(boltClass === undefined ? {} : { class: boltClass }) },
          thing.torque.k,
          band.high,
        );
        if (answer === undefined || !answer.over) continue;
        report({
          where: where(line.file, line.entry, line.detail.row, (thing.torque.range ?? thing.torque.stages?.at(-1))?.at ?? line.detail.keyword),
          severity: "information",
          message: `${called(thing)}: by the usual estimate (T = K d F) the upper figure takes the bolt to ${answer.percent} % of its proof load. 90 % is usual. Look it up again.`,
        });
        break;
      }
    }
  },
};
