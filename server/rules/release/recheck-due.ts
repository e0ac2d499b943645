// A recheck whose distance or hours have passed.
import type { Quantity } from "../../../grammar/tree.ts";
import { hasEntry } from "../../model/has.ts";
import { measured, quantityText } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "recheck-due",
  group: "Release",
  severity: "warning",
  safety: false,
  title: "A recheck whose distance or hours have passed by the machine's `reading`",
  why: "New studs settle and a fresh bearing beds in: the recheck after the first miles finds the nut that has eased. Do it, and write `done` with the day and the reading.",
  wrong: `sheet "Hubs"
  machine "Moor van"
  reading 41800 km
fastener hub-nut "Hub nut"
release by "A. Moor" 2026-05-10 at 41260 km
  recheck hub-nut after 500 km
#         ^^^^^^^ warning recheck-due
`,
  right: `sheet "Hubs"
  machine "Moor van"
  reading 41800 km
fastener hub-nut "Hub nut"
release by "A. Moor" 2026-05-10 at 41260 km
  recheck hub-nut after 500 km done 2026-05-20 at 41790 km
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasEntry(job, "release")) return;
    const { story } = context;
    const release = story.release;
    const counter = job.sheet?.details.findLast((it) => it.kind === "counter");
    const now = counter?.kind === "counter" ? measured(counter.quantity) : undefined;
    const from = measured(release?.entry.counter);
    if (release === undefined || now === undefined || from === undefined || now.unit.dimension !== from.unit.dimension) return;
    // What reads ten times as much, to within a fiftieth, has lost a figure on one of the two lines.
    if (from.value.compare(0) > 0 && from.value.mul(10).sub(now.value).abs().mul(50).compare(now.value) <= 0) {
      report({
        where: release.where,
        severity: "warning",
        open: true,
        message: `It is released at ${quantityText(release.entry.counter as Quantity)}, and the machine reads ${counter?.kind === "counter" && counter.quantity !== undefined ? quantityText(counter.quantity) : ""}. One of the two has slipped.`,
      });
      return;
    }
    const named = new Set<string>();
    for (const detail of release.entry.details) if (detail.kind === "recheck" && detail.name !== undefined) named.add(detail.name.text);
    for (const detail of release.entry.details) {
      if (detail.kind !== "recheck" || detail.name === undefined || detail.after === undefined || detail.done !== undefined || detail.doneAt !== undefined)
        continue;
      const after = measured(detail.after);
      if (after === undefined || after.unit.dimension !== now.unit.dimension || now.value.sub(from.value).compare(after.value) < 0) continue;
      const at = counter?.kind === "counter" && counter.quantity !== undefined ? quantityText(counter.quantity) : "";
      report({
        where: where(job.path, release.entry, detail.row, detail.name.at),
        severity: "warning",
        message: `The recheck of \`${detail.name.text}\` was due after ${quantityText(detail.after)}, and the machine reads ${at}. Do it, and write \`done\` with the day and the reading.`,
      });
    }
    // What a declaration wants rechecked is asked for too, where it was tightened and the release does not name it.
    for (const cell of story.fasteners) {
      const wants = cell.thing.recheckAfter;
      const after = measured(wants);
      if (
        wants === undefined ||
        after === undefined ||
        named.has(cell.thing.name) ||
        after.unit.dimension !== now.unit.dimension ||
        now.value.sub(from.value).compare(after.value) < 0
      )
        continue;
      if (!cell.history.some((it) => it.phase === "done" && it.verb === "tighten")) continue;
      named.add(cell.thing.name);
      report({
        where: release.where,
        severity: "warning",
        message: `${called(cell.thing)} is to be rechecked after ${quantityText(wants)}, and that is past. Do it, and write \`recheck ${cell.thing.name} after ${quantityText(wants)} done\` with the day and the reading.`,
      });
    }
  },
};
