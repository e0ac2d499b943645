// When what sets a limit was last moved before a time.
// Invariant: done work only.
import type { Name } from "../../../grammar/tree.ts";
import type { Moment, Story } from "../../story/story.ts";

const moves: ReadonlySet<string> = new Set(["undo", "slacken", "fit", "tighten", "lock", "remove"]);

export function lastMoveBefore(story: Story, names: readonly Name[], place: string, seq: number): Moment | undefined {
  let last: Moment | undefined;
  for (const name of names) {
    for (const cell of story.cells(name.text)) {
      if ((cell.kind !== "fastener" && cell.kind !== "part") || (cell.place !== place && cell.place !== "" && place !== "")) continue;
      for (const it of cell.history as readonly (Moment & { verb: string })[]) {
        if (it.seq < seq && it.phase === "done" && moves.has(it.verb) && (last === undefined || it.seq > last.seq)) last = it;
      }
    }
  }
  return last;
}
