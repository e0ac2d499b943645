// A word before a figure that is taken for a position of its writer's own, and is likely a slip for a word of the sheet.
// Invariant: a position of one's own is a good thing to write; what is a word of the trade for an end, or stands in a second measure, is never asked after.
import { type Slices, someAtOnce } from "../../../grammar/slices.ts";
import { putInto } from "../../model/grouped.ts";
import type { Limit } from "../../model/things.ts";
import type { Reading } from "../../story/story.ts";
import type { JobContext, JobRule } from "../rule.ts";
import { askAfter } from "./shared/positions-said.ts";

export const rule: JobRule = {
  id: "position-slip",
  group: "Writing",
  severity: "warning",
  safety: false,
  title: "A word before a figure that is likely a slip for another",
  why: "Where a limit names no positions, any word before a figure is taken for one: `lfet` is then an end of its own, and what was read at `left` is not read again there. A word that is nearly a place or a name of the sheet, or nearly what stands before the other readings of that limit, is asked after. A position of your own is left alone.",
  wrong: `places side left, right
limit play "Play of the arm"
  worn max 0.40 mm
  source "Handbook 12"
measure play found
  left 0.21 mm
measure play final
  lfet 0.21 mm
# ^^^^ warning position-slip (fix)
`,
  right: `places side left, right
limit play "Play of the arm"
  worn max 0.40 mm
  source "Handbook 12"
measure play found
  left 0.21 mm
measure play final
  left 0.21 mm
`,
  fixed: `places side left, right
limit play "Play of the arm"
  worn max 0.40 mm
  source "Handbook 12"
measure play found
  left 0.21 mm
measure play final
  left 0.21 mm
`,
  scope: "job",
  *check(context) {
    const free = new Map<Limit, Reading[]>();
    for (const [i, reading] of context.story.readings.entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      const { limit, position } = reading;
      if (position !== undefined && limit.positions.length === 0 && !limit.implied) putInto(free, limit, reading);
    }
    for (const [limit, readings] of free) yield* ofLimit(context, limit, readings);
  },
};

function* ofLimit(context: JobContext, limit: Limit, readings: readonly Reading[]): Slices<void> {
  const byWord = new Map<string, Reading[]>();
  for (const reading of readings) putInto(byWord, reading.position as string, reading);
  // A long list of stations is a table, and its names are made by a rule of their own.
  const words = byWord.size > mostWords ? [] : [...byWord.keys()];
  for (const [i, [word, at]] of [...byWord].entries()) {
    if (i % someAtOnce === someAtOnce - 1) yield;
    const [first, again] = at;
    if (first !== undefined) askAfter(context, limit, word, first, again === undefined, words.length === 0 ? [] : readings);
  }
}

const mostWords = 40;
