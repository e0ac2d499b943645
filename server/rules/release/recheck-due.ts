// A recheck whose distance, hours or days have passed; a counter that was turned back, or lost a figure, between the head of the sheet and the release.
import { hasEntry } from "../../model/has.ts";
import type { JobRule } from "../rule.ts";
import { tellRechecks } from "./shared/rechecks-told.ts";

export const rule: JobRule = {
  id: "recheck-due",
  group: "Release",
  severity:
    "warning; open at release where a counter has slipped, a recheck is further off than its fastener asks, or what an earlier release asked for of a critical thing had fallen due by then",
  safety: false,
  title:
    "A recheck whose distance, hours or days have passed; a release at less than the sheet's own `reading`, or at more than can have been run since; a recheck `done` before anything was run; a recheck further off than the fastener's own",
  why: "New studs settle and a fresh bearing beds in: the recheck after the first miles finds the nut that has eased. Do it, and write `done` with the day and the reading. A new release does not take back what an earlier one asked for: whoever signs while that is overdue does it first, or asks for it again.",
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
    if (hasEntry(context.job, "release")) tellRechecks(context);
  },
};
