// A limit that is worked out from itself, at first or at any remove.
import { lineOf } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { namesIn } from "../../story/worked-out.ts";
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
    for (const thing of job.things.values()) {
      if (thing.kind !== "limit" || thing.expression === undefined || thing.file !== job.path) continue;
      const seen = new Set<string>();
      const open = [...namesIn(thing.expression)];
      while (open.length > 0 && !seen.has(thing.name)) {
        const name = open.pop() as string;
        if (seen.has(name)) continue;
        seen.add(name);
        const other = job.things.get(name);
        if (other?.kind === "limit" && other.expression !== undefined) open.push(...namesIn(other.expression));
      }
      const line = lineOf(thing, "equals");
      if (!seen.has(thing.name) || line === undefined) continue;
      report({
        where: where(line.file, line.entry, line.detail.row, line.detail.at),
        severity: "error",
        message: `\`${thing.name}\` is worked out from itself. Work it out from what is measured.`,
      });
    }
  },
};
