// What shims make, read before and after other shims went in: by their thickness and their declared effect the reading comes to something else.
// Invariant: only where the sheet says how the reading follows the shims, what was in each time, and nothing else that is written down changed between the two readings.
import type { Entry } from "../../grammar/tree.ts";
import { isCritical } from "../model/relations.ts";
import { packAt } from "../model/shim-stacks.ts";
import { type Shims, lineOf } from "../model/things.ts";
import { figureValue } from "../model/values.ts";
import { type Exact, exact } from "../quantities/exact.ts";
import { ofNoGauge, uncertaintyOf } from "../story/bands.ts";
import { readingsOn } from "../story/looked-up.ts";
import type { FastenerMoment, PartMoment, Reading, Story } from "../story/story.ts";
import { mean } from "../story/worked-out.ts";
import type { JobContext } from "./rule.ts";

export interface ShimsAgainst {
  readonly before: Reading;
  readonly after: Reading;
  /** What it should have come to. */
  readonly expected: Exact;
}

/** Of each critical limit that one pack of shims sets, its last final and the reading before it. */
export function shimsAgainst({ job, story }: JobContext): ShimsAgainst[] {
  const out: ShimsAgainst[] = [];
  for (const limit of job.things.values()) {
    if (limit.kind !== "limit" || limit.setBy.length !== 1 || limit.placeKind !== undefined || limit.positions.length > 0 || !isCritical(job, limit)) continue;
    const shims = job.things.get(limit.setBy[0]?.text ?? "");
    if (shims?.kind !== "shims" || shims.placeKind !== undefined || shims.unread.size > 0) continue;
    const effect = lineOf(shims, "effect")?.detail.figure;
    const factor = effect === undefined ? undefined : figureValue(effect);
    const readings = readingsOn(story, limit.name);
    const after = readings.at(-1);
    const before = readings.findLast((it) => after !== undefined && it.entry !== after.entry);
    if (factor === undefined || after?.stage !== "final" || before === undefined) continue;
    const [was, is] = [stackAt(story, shims, before.entry), stackAt(story, shims, after.entry)];
    if (was === undefined || is === undefined || isOther(story, before, after)) continue;
    const more = is.sub(was).mul(factor);
    const expected = mean(before.spots.map((it) => it.value)).add(more);
    const off = mean(after.spots.map((it) => it.value))
      .sub(expected)
      .abs();
    const doubt = [before, after].reduce((sum, it) => sum.add(uncertaintyOf(it.gauge, expected) ?? ofNoGauge), exact("0") as Exact);
    if (more.compare(0) !== 0 && off.compare(doubt) > 0 && off.mul(2).compare(more.abs()) >= 0) out.push({ before, after, expected });
  }
  return out;
}

/** The thickness of all that were in as that was read. */
function stackAt({ job }: Story, shims: Shims, entry: Entry): Exact | undefined {
  return packAt(job, shims, entry)?.stack?.shims.reduce((sum, { thickness, count }) => sum.add(thickness.mul(count)), exact("0") as Exact);
}

/** Another piece went in or was worked on between them, or a word under either says what it was. */
function isOther(story: Story, before: Reading, after: Reading): boolean {
  if ([before, after].some(({ entry }) => entry.details.some((it) => it.kind === "because" || it.kind === "note"))) return true;
  return [...story.parts, ...story.fasteners].some(
    (cell) =>
      cell.unsure ||
      (cell.history as readonly (PartMoment | FastenerMoment)[]).some(
        (it) =>
          it.phase === "done" && it.seq > before.seq && it.seq < after.seq && (it.verb === "repair" || (it.verb === "fit" && it.isNew && cell.kind === "part")),
      ),
  );
}
