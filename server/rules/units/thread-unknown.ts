// A thread that is not in the tables, or one that reads as quite another.
import type { ThreadDetail } from "../../../grammar/tree.ts";
import { where } from "../../model/where.ts";
import { dangerousThread, nearestThread, threadOf, threadReadings } from "../../trade/threads.ts";
import { type EntryRule, rewrite } from "../rule.ts";
import { figuresOf } from "./shared/figures.ts";

export const rule: EntryRule = {
  id: "thread-unknown",
  group: "Units and figures",
  severity: "information; error where it reads as quite another size",
  safety: false,
  title: "A thread that is not in the tables",
  why: "A thread that isn't known can't be compared with what is offered or fitted in its place, nor with its split pin. `10-32` is worse: read as it is written it is ten inches across, and the numbered size is meant. A thread that is nobody's standard goes in quotes, and nothing is said of it.",
  wrong: `fastener cover-screw "Timing cover screw"
  thread 10-32 UNF
#        ^^^^^^^^^ error thread-unknown (fix)
`,
  right: `fastener cover-screw "Timing cover screw"
  thread No.10-32 UNF

fastener gland-ring "Gland ring"
  thread "cut in the lathe, 19 to the inch"
`,
  fixed: `fastener cover-screw "Timing cover screw"
  thread No.10-32 UNF
`,
  scope: "entry",
  check({ file, entry, report }) {
    for (const detail of figuresOf(entry).threads) {
      const { thread } = detail;
      if (thread === undefined || thread.free || threadOf(thread.designation, thread.leftHand !== undefined) !== undefined) continue;
      const at = where(file, entry, detail.row, thread.at);
      const dangerous = dangerousThread(thread.designation);
      const near = dangerous?.meant ?? nearestThread(thread.designation);
      const ways = near === undefined ? threadReadings(thread.designation).slice(0, 4) : [near];
      const edit = { ...at, at: designationSpan(thread) };
      const fixes = ways.map((way) => rewrite(`Write ${way}`, edit, way));
      if (dangerous !== undefined) report({ where: at, severity: "error", message: dangerous.why, fixes });
      else
        report({
          where: at,
          severity: "information",
          message: `${thread.designation} is in no table here, so nothing is compared with it. ${ways.length === 0 ? "If it is nobody's standard, put it in quotes." : `Is ${ways.join(" or ")} meant?`}`,
          fixes,
        });
    }
  },
};

/** The designation without the `LH` behind it. */
function designationSpan(thread: NonNullable<ThreadDetail["thread"]>): { from: number; to: number } {
  const { at, leftHand } = thread;
  if (leftHand === undefined || leftHand.from >= at.to) return at;
  // One blank is left before LH.
  return { from: at.from, to: leftHand.from - 1 };
}
