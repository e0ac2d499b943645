// A limit that lets be set, or made new, what it says is worn out.
import { bandOf, rangeText } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import { compare } from "../../quantities/exact.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "limit-contradicts",
  group: "Limits, readings, checks",
  severity: "warning that holds",
  safety: true,
  title: "A limit whose `set` or `new` reaches past its own `worn`",
  why: "What may be set to 0.050 in and is worn out past 0.010 in was written down wrong once: a point slipped, or the two lines are of different books. A reading between the two would pass by the one and fail by the other. Look both up.",
  wrong: `limit float "Hub end float"
  set 0.002 .. 0.050 in by hub-nut
#     ^^^^^^^^^^^^^^^^^ warning limit-contradicts
  worn max 0.010 in
  source "Book, page 44"
fastener hub-nut "Hub nut"
`,
  right: `limit float "Hub end float"
  set 0.002 .. 0.005 in by hub-nut
  worn max 0.010 in
  source "Book, page 44"
fastener hub-nut "Hub nut"
`,
  scope: "job",
  check({ job, report }) {
    for (const limit of job.things.values()) {
      if (limit.kind !== "limit" || limit.file !== job.path || limit.worn === undefined) continue;
      const worn = bandOf(limit.worn);
      for (const [word, range] of [
        ["set", limit.set],
        ["new", limit.new],
      ] as const) {
        const band = bandOf(range);
        if (range === undefined || band === undefined || worn === undefined || band.unit.dimension !== worn.unit.dimension) continue;
        const isPast =
          (band.high !== undefined && worn.high !== undefined && compare(band.high, worn.high) > 0) ||
          (band.low !== undefined && worn.low !== undefined && compare(band.low, worn.low) < 0);
        if (!isPast) continue;
        const row = limit.entry.details.find((it) => it.kind === word)?.row ?? 0;
        report({
          where: where(limit.file, limit.entry, row, range.at),
          severity: "warning",
          open: true,
          message: `${called(limit)} has ${word} ${rangeText(range)}, and worn ${rangeText(limit.worn)}: what is inside the one is outside the other. Look both up.`,
        });
      }
    }
  },
};
