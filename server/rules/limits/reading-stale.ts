// A final reading older than the last move of what sets it.
import { lastMove } from "../moved.ts";
import type { Moment } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { called, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "reading-stale",
  group: "Limits, readings, checks",
  severity: "error at release, else warning",
  safety: true,
  title: "A final reading older than the last move of what sets it",
  why: "A nut that goes on to its slot after it was measured has moved the float again. The reading that counts is the one after the last move, with the locking in.",
  wrong: `fastener hub-nut "Hub nut"
limit end-float "Hub end float"
  set 0.05 .. 0.12 mm by hub-nut
  source "Maker's handbook, page 64"
step set-it "Float set"
  tighten hub-nut
  done
measure end-float final
  0.08 mm
# ^^^^^^^ warning reading-stale
step set-again "Float set again"
  tighten hub-nut
  done
`,
  right: `fastener hub-nut "Hub nut"
limit end-float "Hub end float"
  set 0.05 .. 0.12 mm by hub-nut
  source "Maker's handbook, page 64"
step set-it "Float set"
  tighten hub-nut
  done
measure end-float final
  0.08 mm
`,
  scope: "job",
  check({ story, report, line }) {
    const said = new Set<string>();
    for (let i = story.readings.length - 1; i >= 0; i--) {
      const reading = story.readings[i] as (typeof story.readings)[number];
      if (reading.stage !== "final" || reading.limit.setBy.length === 0) continue;
      const key = `${reading.limit.name} ${reading.place}`;
      // Only the latest final of a place can be stale; the ones before it were read again.
      if (said.has(key)) continue;
      said.add(key);
      const moved = lastMove(story, reading.limit.setBy, reading.place);
      if (moved === undefined || (moved.moment.seq < reading.seq && !datedBefore(reading, moved.moment))) continue;
      report({
        where: reading.where,
        severity: story.release === undefined ? "warning" : "error",
        message: `${called(reading.limit, reading.place)} was read before ${midSentence(moved.cell.thing, moved.cell.place)} was moved or locked again (line ${line(moved.moment.where)}). Measure it once more.`,
        related: [{ where: moved.moment.where, message: "Moved or locked here, after the reading." }],
      });
    }
  },
};

/** By their days the reading is the older, wherever the lines stand. */
function datedBefore(reading: Moment, moved: Moment): boolean {
  return reading.day !== undefined && moved.day !== undefined && reading.day < moved.day;
}
