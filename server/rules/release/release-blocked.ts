// Anything still open when the machine is released.
import { where } from "../../model/where.ts";
import type { Related, ReleaseRule, Said, Severity } from "../rule.ts";
import { counted } from "../wording.ts";

export const rule: ReleaseRule = {
  id: "release-blocked",
  group: "Release",
  severity: "error",
  safety: true,
  title: "Anything is still open; each thing as related information",
  why: "The release is somebody's name under “this may go”. While one thing on the sheet says that it may not, it isn't released. This is a record and a reminder, not an inspection: local rules may ask for somebody licensed.",
  wrong: `part guard "Belt guard"
step strip "Guard off"
  remove guard
  done
release by "A. Moor" 2026-05-10
#^^^^^^ error release-blocked
`,
  right: `part guard "Belt guard"
step strip "Guard off and on"
  remove guard
  fit guard
  done
release by "A. Moor" 2026-05-10
`,
  scope: "release",
  check({ story, said, report }) {
    const release = story.release;
    if (release === undefined) return;
    const open: Related[] = [];
    for (const it of said) if (blocks(it)) open.push({ where: it.report.where, message: it.report.message });
    for (const visit of story.visits) {
      if (visit.phase !== "planned" || story.visits.some((it) => it.entry === visit.entry && it.phase === "done")) continue;
      open.push({ where: where(visit.file, visit.entry, 0, visit.entry.name?.at ?? visit.entry.keyword), message: `The step \`${visit.entry.name?.text ?? "without a name"}\` is planned, not done.` });
    }
    if (open.length === 0) return;
    report({
      where: release.where,
      severity: "error",
      message: `This is not released: ${counted(open.length, "thing is", "things are")} still open. The first: ${(open[0] as Related).message}`,
      related: open,
    });
  },
};

/** Warnings that leave something open, though on a sheet under way they only warn. */
const openWarnings: ReadonlySet<string> = new Set([
  "figure-slip",
  "found-loose",
  "limit-worn",
  "limit-doubt",
  "spread-over",
  "out-of-round",
  "tapered",
  "check-bad",
  "reading-stale",
  "part-undecided",
  "part-failed",
  "part-leaking",
  "fluid-wrong",
  "part-wrong",
  "part-missing",
  "set-split",
  "debris-unexplained",
  "run-dry",
  "question-open",
  "step-one-side",
]);

/** What is outside `new` after a renewal is out, though its rule only informs. */
export function blocks(it: Said): boolean {
  const severity: Severity = it.report.severity;
  if (it.rule === "release-blocked") return false;
  if (severity === "error") return true;
  if (severity === "warning") return openWarnings.has(it.rule);
  return it.report.open === true;
}
