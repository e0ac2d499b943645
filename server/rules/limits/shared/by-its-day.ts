// A reading or a look that is dated back, at the moment of its day: what is asked of it by its line is asked of that moment too.
// Invariant: done work only, with a day of its own; what was done on the same day may have come before it.
import { countAhead } from "../../../model/halving.ts";
import { memo } from "../../../model/memo.ts";
import type { Moment, Reading, Seen, Story } from "../../../story/story.ts";

/** The same before the first thing that was done above it on a later day. Undefined where nothing was, or where its day is that of its lines. */
export function atItsDay<It extends Reading | Seen>(story: Story, it: It): It | undefined {
  const { day } = it;
  // Under a `day` line it is that evening's, whatever a step says of its own.
  if (day === undefined || it.entry.date === undefined) return undefined;
  const all = datedWork(story);
  // Nothing above it is of a later day: the usual case.
  if ((all.latest[countAhead(all.moments, (was) => was.seq < it.seq) - 1] ?? "") <= day) return undefined;
  const first = all.moments.find((was) => was.seq < it.seq && (was.day ?? "") > day);
  // Before that moment, and behind the one before it: moments are numbered by whole numbers.
  return first === undefined ? undefined : { ...it, seq: first.seq - 0.5 };
}

interface DatedWork {
  /** In the order of the sheet. */
  readonly moments: readonly Moment[];
  /** Of each and all before it the latest day. */
  readonly latest: readonly string[];
}

const datedWork = memo((story: Story): DatedWork => {
  const moments = [...story.parts, ...story.fasteners, ...story.fluids, ...story.hazards]
    .flatMap((cell) => cell.history as readonly (Moment & { readonly verb: string })[])
    .filter((it) => it.phase === "done" && it.day !== undefined && it.verb !== "found")
    .sort((a, b) => a.seq - b.seq);
  let last = "";
  const latest = moments.map(({ day = "" }) => {
    if (day > last) last = day;
    return last;
  });
  return { moments, latest };
});
