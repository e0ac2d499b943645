// A limit that is worked out from itself, at first or at any remove.
import { lineOf } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { namesIn } from "../../story/worked-out.ts";
import { inCircles } from "../sequence.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "limit-circle",
  group: "Limits, readings, checks",
  severity: "error",
  safety: false,
  title: "A limit that is worked out from itself, at first or at any remove",
  why: "What is worked out from itself can't be worked out, so it would never be judged. Work it out from what is measured.",
  wrong: `limit play "Play"
  = bore + 1 mm
# ^^^^^^^^^^^^^ error limit-circle
limit bore "Bore"
  = play + 1 mm
# ^^^^^^^^^^^^^ error limit-circle
`,
  right: `limit play "Play"
  = bore + 1 mm
limit bore "Bore"
`,
  scope: "job",
  check({ job, report }) {
    const from = new Map<string, readonly string[]>();
    for (const thing of job.things.values()) if (thing.kind === "limit" && thing.expression !== undefined) from.set(thing.name, [...namesIn(thing.expression)]);
    const circles = inCircles(from);
    for (const thing of job.things.values()) {
      if (thing.kind !== "limit" || !circles.has(thing.name) || thing.file !== job.path) continue;
      const line = lineOf(thing, "equals");
      if (line === undefined) continue;
      report({
        where: where(line.file, line.entry, line.detail.row, line.detail.at),
        severity: "error",
        message: `\`${thing.name}\` is worked out from itself. Work it out from what is measured.`,
      });
    }
  },
};
