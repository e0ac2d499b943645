// What the stands bear on comes off.
import { hasAction } from "../../model/has.ts";
import type { JobRule } from "../rule.ts";
import type { PartCell, PartMoment, Support } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "support-removed",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "What the stands bear on comes off",
  why: "Stands under an axle hold the machine only while the axle is on it. Move them to the frame before the axle goes.",
  wrong: `part axle "Rear axle"
step strip "Axle out"
  chock
  raise on jack
  support on 2 stands under axle
  remove axle
#        ^^^^ error support-removed
  done
`,
  right: `part axle "Rear axle"
step strip "Axle out"
  chock
  raise on jack
  support on 2 stands under "frame, before the springs"
  remove axle
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "support")) return;
    const { story } = context;
    const titles = new Map<string, string | undefined>();
    for (const thing of job.things.values()) {
      if (thing.kind !== "part" || thing.implied) continue;
      const title = plainly(thing.title ?? thing.name);
      titles.set(title, titles.has(title) ? undefined : thing.name);
    }
    /** The one part that such words are the title of. */
    const named = (words: string | undefined) => (words === undefined ? undefined : titles.get(plainly(words)));
    const bearing = (it: PartMoment, { thing }: PartCell) =>
      it.support.unclear?.hold
        ? undefined
        : it.support.supports.find((by) => {
            const under = by.underPart ?? named(by.underText);
            return under === thing.name && !takenOver(it, by, under);
          });
    for (const { cell, moment, places } of byLine<PartCell, PartMoment>(story.parts, (it, of) => it.verb === "remove" && bearing(it, of) !== undefined)) {
      const bears = bearing(moment, cell) as Support;
      report({
        where: moment.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "comes")} off while the stands bear on it. Support the machine somewhere else first.`,
        related: [{ where: bears.moment.where, message: "Supported here." }],
      });
    }
  },
};

/**
 * The step in which it comes off has set the machine on something else before: it bears there now. Stands that were set
 * up together, one pair at each end, each bear on their own.
 */
function takenOver(it: PartMoment, by: Support, under: string): boolean {
  return it.support.supports.some(
    (other) => other.part === undefined && other.on !== "crane" && other.underPart !== under && other.moment.visit === it.visit && by.moment.visit !== it.visit,
  );
}

/** “The front axle beam, either side of the pivot” is the front axle beam. */
function plainly(words: string): string {
  return (words.split(/[,;(]/)[0] as string).trim().toLowerCase().replace(/^the /, "");
}
