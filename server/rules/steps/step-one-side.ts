// Done at one place and not at the other, while the way back has begun.
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";
import { listed } from "../wording.ts";

export const rule: JobRule = {
  id: "step-one-side",
  group: "Order of work",
  severity: "warning once the way back begins; error at release",
  safety: false,
  title: "Done at one place and not the other",
  why: "The side that was done first looks like both. Do the other, or write why only one was meant (`at left`).",
  wrong: `places side left, right
fastener cap-bolt "Cap bolt"
  each side
step grease-it "Bearings greased"
  each side
  done left
#      ^^^^ warning step-one-side
step refit "Caps on"
  fit cap-bolt left
  done
`,
  right: `places side left, right
fastener cap-bolt "Cap bolt"
  each side
step grease-it "Bearings greased"
  each side
  done left
  done right
step refit "Caps on"
  fit cap-bolt left
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    // Only a step that says at which places it is done can be done by halves.
    if (!job.own.sheet.entries.some((entry) => entry.kind === "step" && entry.details.some((it) => it.kind === "done" && it.places.length > 0))) return;
    const { story } = context;
    const begun = new Set(story.visits.filter((it) => it.phase === "done").map((it) => it.entry));
    const halves = story.visits.filter((it) => it.phase === "planned" && begun.has(it.entry));
    if (halves.length === 0) return;
    const back = [...story.parts, ...story.fasteners].some((cell) =>
      (cell.history as readonly { verb: string; phase: string }[]).some((it) => it.verb === "fit" && it.phase === "done"),
    );
    if (!back && story.release === undefined) return;
    for (const visit of halves) {
      const done = visit.entry.details.find((it) => it.kind === "done" && it.places.length > 0);
      if (done?.kind !== "done") continue;
      const first = done.places[0];
      report({
        where: where(visit.file, visit.entry, done.row, first?.at ?? done.keyword),
        severity: story.release === undefined ? "warning" : "error",
        message: `This step is done at ${listed(done.places.map((place) => place.text))} and not at ${listed(visit.places ?? [])}. Do the other, or write \`at\` with the place that was meant.`,
      });
    }
  },
};
