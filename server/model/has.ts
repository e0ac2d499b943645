// What kinds of entries, lines, actions and conditions a job has at all, for rules that have nothing to say where there is none.
// Invariant: says yes where there may be one, in whatever file and whatever state; a no is sure.
import type { ActionDetail, Condition, Detail, Entry } from "../../grammar/tree.ts";
import type { Job } from "./job.ts";
import { memo } from "./memo.ts";

interface Kinds {
  readonly entries: Set<Entry["kind"]>;
  readonly lines: Set<Detail["kind"]>;
  readonly verbs: Set<ActionDetail["verb"]>;
  readonly conditions: Set<Condition["kind"]>;
}

const kindsIn = memo((job: Job): Kinds => {
  const kinds: Kinds = { entries: new Set(), lines: new Set(), verbs: new Set(), conditions: new Set() };
  for (const { sheet } of job.files) for (const entry of sheet.entries) add(kinds, entry);
  return kinds;
});

function add(kinds: Kinds, entry: Entry): void {
  kinds.entries.add(entry.kind);
  for (const detail of entry.details) {
    kinds.lines.add(detail.kind);
    if (detail.kind === "action") kinds.verbs.add(detail.verb);
    else if (detail.kind === "is") for (const { kind } of detail.conditions) kinds.conditions.add(kind);
  }
}

export function hasEntry(job: Job, kind: Entry["kind"]): boolean {
  return kindsIn(job).entries.has(kind);
}

export function hasLine(job: Job, kind: Detail["kind"]): boolean {
  return kindsIn(job).lines.has(kind);
}

export function hasAction(job: Job, ...verbs: readonly ActionDetail["verb"][]): boolean {
  return verbs.some((verb) => kindsIn(job).verbs.has(verb));
}

export function hasCondition(job: Job, ...kinds: readonly Condition["kind"][]): boolean {
  return kinds.some((kind) => kindsIn(job).conditions.has(kind));
}
