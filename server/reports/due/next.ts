// The next thing to do for a machine: what can hurt first, then what the road waits for, then the work.
// Invariant: one sentence and its line; chosen among what is due and what the plan says can be begun.
import { small } from "../../model/titles.ts";
import type { Line } from "../draw/line.ts";
import type { PlanReport } from "../plan/shapes.ts";
import type { JobDue } from "./job-due.ts";
import type { DueGroup, DueItem } from "./shapes.ts";

/** `items`: what is due of this machine. `jobs`: its sheets. */
export function nextOf(jobs: readonly JobDue[], items: readonly DueItem[], plan: PlanReport | undefined): Line & { readonly next: string } {
  const paths = new Set(jobs.map((it) => it.path));
  const grave = first(items, ["Hanging", "Released, and something is open", "Worked on after its release", "Recheck due"]);
  if (grave !== undefined) return { next: graveWords(grave), ...lineOf(grave) };
  const toSend = plan?.parcels.find((it) => it.mustGoToday && it.items.some((item) => paths.has(item.file)));
  const item = toSend?.items[0];
  if (toSend !== undefined && item !== undefined)
    return { next: `Send for ${small(item.name)}${toSend.items.length > 1 ? ` and ${toSend.items.length - 1} more` : ""} today.`, ...lineOf(item) };
  const steps = (plan?.steps ?? []).filter((it) => paths.has(it.file));
  const ready = steps.find((it) => it.state === "ready");
  if (ready !== undefined) return { next: `Do “${ready.title}”${ready.places.length === 0 ? "" : ` (${ready.places.join(", ")})`}.`, ...lineOf(ready) };
  const question = first(items, ["Waiting for an answer"]);
  if (question !== undefined) return { next: `Get an answer: ${question.text}`, ...lineOf(question) };
  const waiting = steps.find((it) => it.state === "waiting");
  const wait = waiting?.waitsFor[0];
  if (waiting !== undefined && wait !== undefined) return { next: `Wait: “${waiting.title}” waits for ${wait.text}.`, ...lineOf(wait) };
  const job = jobs.find((it) => !it.signed && it.open.length > 0);
  const open = job?.open[0];
  if (open !== undefined) return { next: open.message, ...lineOf(open) };
  const unsigned = jobs.find((it) => !it.signed && !it.nothingDone);
  if (unsigned !== undefined) return { next: "Nothing is open: look it over, and write its `release`.", ...unsigned.head };
  const coming = items.find((it) => it.group === "Coming up");
  if (coming !== undefined) return { next: coming.text, ...lineOf(coming) };
  const head = jobs[0]?.head ?? { file: "", line: 1 };
  return { next: jobs.every((it) => it.nothingDone) ? "Not begun." : "Nothing.", ...head };
}

function first(items: readonly DueItem[], groups: readonly DueGroup[]): DueItem | undefined {
  for (const group of groups) {
    const found = items.find((it) => it.group === group);
    if (found !== undefined) return found;
  }
  return undefined;
}

function graveWords(it: DueItem): string {
  if (it.group === "Hanging") return `${it.text} ${it.details[0] ?? ""}`.trim();
  return it.group === "Recheck due" ? it.text : (it.details[0] ?? it.text);
}

function lineOf({ file, line }: Line): Line {
  return { file, line };
}
