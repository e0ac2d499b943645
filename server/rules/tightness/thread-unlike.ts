// What is offered has a thread that is not the fastener's own, or is of a weaker grade or class.
import { linesOf, type Fastener } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { lookAlike } from "../../trade/threads.ts";
import type { OfferEntry } from "../../../grammar/tree.ts";
import { threadText, unlikeThread, weakerThan } from "../../supply/offered-thread.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "thread-unlike",
  group: "Tightness",
  severity: "error",
  safety: true,
  title: "What is offered has a thread that is not the fastener's own, above all a look-alike, left hand for right, or of a weaker grade or class",
  why: "Some threads start by hand in a nut that is not theirs, and strip under load: 1/2 UNC and 1/2 BSW, M5 and 2 BA, M8 and 5/16. A left-hand thread keeps some wheel nuts on. Order the fastener's own.",
  wrong: `supplier alder "Alder Lane"
fastener stud-nut "Stud nut"
  thread 1/2-12 BSW
offer stud-nut from alder
  thread 1/2-13 UNC
#        ^^^^^^^^^^ error thread-unlike
  price 0.80 GBP
`,
  right: `supplier alder "Alder Lane"
fastener stud-nut "Stud nut"
  thread 1/2-12 BSW
offer stud-nut from alder
  thread 1/2-12 BSW
  price 0.80 GBP
`,
  scope: "job",
  check({ job, report }) {
    for (const file of job.files) {
      for (const entry of file.sheet.entries) {
        if (entry.kind !== "offer" || entry.item?.kind !== "name") continue;
        const thing = job.things.get(entry.item.name.text);
        if (thing?.kind === "fastener" && thing.threads.length > 0) check(file.path, entry, thing);
      }
    }

    function check(file: string, entry: OfferEntry, fastener: Fastener): void {
      for (const detail of entry.details) {
        if (detail.kind !== "thread" || detail.thread === undefined || detail.fault !== undefined) continue;
        const offered = detail.thread;
        const unlike = unlikeThread(fastener, offered);
        const line = linesOf(fastener, "thread")[0];
        if (unlike === undefined) {
          const weaker = weakerThan(fastener, detail);
          if (weaker === undefined) continue;
          report({
            where: where(file, entry, detail.row, weaker.theirs.at),
            severity: "error",
            message: `${called(fastener)} is ${weaker.by} ${weaker.own}; this one is ${weaker.by} ${weaker.theirs.text}, and weaker. Order its own.`,
            ...(line === undefined
              ? {}
              : { related: [{ where: where(line.file, line.entry, line.detail.row, line.detail.at), message: `Its own ${weaker.by}.` }] }),
          });
          continue;
        }
        const { own, theirs } = unlike;
        const alike = lookAlike(own.known, theirs);
        const hand = own.known.leftHand !== theirs.leftHand ? ` One is left hand, the other right.` : "";
        report({
          where: where(file, entry, detail.row, offered.at),
          severity: "error",
          message: `${called(fastener)} has the thread ${threadText(own.thread)}; this one is ${threadText(offered)}.${hand}${alike === undefined ? "" : ` ${alike.why.charAt(0).toUpperCase()}${alike.why.slice(1).replace(/\.?$/, ".")}`} Order its own.`,
          ...(line === undefined ? {} : { related: [{ where: where(line.file, line.entry, line.detail.row, line.detail.at), message: "Its own thread." }] }),
        });
      }
    }
  },
};
