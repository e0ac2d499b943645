// A thing that a job sheet declares and never speaks of again.
import type { Thing } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import type { JobRule } from "../rule.ts";
import { slippedAdditions } from "./shared/additions.ts";
import { isMentioned } from "./shared/mentions.ts";

export const rule: JobRule = {
  id: "unused",
  group: "Writing",
  severity: "hint",
  safety: false,
  title: "Declared and never mentioned",
  why: "What a job declares and never touches was forgotten, or belongs in the machine's own file, where the next job finds it. A file without a `sheet` is for others to use, and nothing in it is called unused.",
  wrong: `sheet "Water pump: a weep at the gland"

gauge feeler "Feeler gauges"
#     ^^^^^^ hint unused
  resolution 0.05 mm
`,
  right: `sheet "Water pump: a weep at the gland"

gauge feeler "Feeler gauges"
  resolution 0.05 mm

limit end-float "Shaft end float"
  worn max 0.30 mm
  source "Maker's handbook, page 9"

measure end-float found by feeler
  0.15 mm
`,
  scope: "job",
  *check({ job, report }) {
    if (job.sheet === undefined) return;
    let n = 0;
    for (const thing of job.things.values()) {
      if (++n % someAtOnce === 0) yield;
      if (
        thing.implied ||
        thing.file !== job.path ||
        speaksForItself(thing) ||
        job.unreadNames.has(thing.name) ||
        isMentioned(job, thing) ||
        slippedAdditions(job).has(thing)
      )
        continue;
      report({
        where: where(thing.file, thing.entry, 0, thing.at),
        severity: "hint",
        message: `Nothing in this job mentions \`${thing.name}\`. Use it, or take it out.`,
      });
    }
  },
};

/** Works without being named again: a step is done, a hazard guards what it names, a worked-out limit is judged, a fluid is lost with its part. */
function speaksForItself(thing: Thing): boolean {
  switch (thing.kind) {
    case "step":
    case "question":
      return true;
    case "hazard":
      return thing.safeBefore.length > 0 || thing.restoreAfter.length > 0;
    // What is critical is asked for at release.
    case "limit":
      return thing.expression !== undefined || thing.critical === true;
    case "check":
      return thing.critical === true;
    case "fluid":
      return thing.in.length > 0;
    default:
      return false;
  }
}
