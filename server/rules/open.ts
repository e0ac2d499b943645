// What stands in the way of release: which of the things that rules say leave something open, and the steps that are only planned.
// Invariant: an error is always open; a warning is where it leaves a fault, a doubt or a decision behind.
import { where } from "../model/where.ts";
import type { Moment, Story } from "../story/story.ts";
import type { Related, Said } from "./rule.ts";

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
  const { severity } = it.report;
  if (it.rule === "release-blocked") return false;
  if (severity === "error") return true;
  if (severity === "warning") return openWarnings.has(it.rule);
  return it.report.open === true;
}

/** Each step, or side of a step, that is planned and not done. A side left of a step that was begun is said by its own rule. */
export function plannedSteps(story: Story): Related[] {
  const begun = new Set(story.visits.filter((it) => it.phase === "done").map((it) => it.entry));
  return story.visits
    .filter((visit) => visit.phase === "planned" && !begun.has(visit.entry))
    .map((visit) => ({
      where: where(visit.file, visit.entry, 0, visit.entry.name?.at ?? visit.entry.keyword),
      message: `The step \`${visit.entry.name?.text ?? "without a name"}\` is planned, not done.`,
    }));
}

const opens: ReadonlySet<string> = new Set(["undo", "slacken", "remove", "fit", "repair", "drain", "lost"]);

/**
 * Done work behind the last release, by its line or by its day, that opened something: that release does not speak of it. To
 * try a nut again is no such work.
 */
export function workSince(story: Story): Related[] {
  const { release } = story;
  if (release === undefined) return [];
  const said = new Set<object>();
  const out: Related[] = [];
  for (const cell of [...story.parts, ...story.fasteners, ...story.fluids]) {
    for (const it of cell.history as readonly (Moment & { readonly verb: string })[]) {
      if (it.phase !== "done" || it.visit === undefined || !opens.has(it.verb) || said.has(it.visit.entry)) continue;
      const later = it.day !== undefined && release.day !== undefined && it.day > release.day;
      if (it.seq < release.seq && !later) continue;
      said.add(it.visit.entry);
      out.push({
        where: it.where,
        message: `This was done ${later ? `on ${it.day ?? ""}, after the release of ${release.day ?? ""}` : "after the release"}. Write a new \`release\` behind it.`,
      });
    }
  }
  return out;
}
