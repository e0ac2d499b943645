// The words that every drawing of what is due shares.
import { type DueGroup, type DueItem, type DueReport, dueGroups } from "./shapes.ts";

/** What is shown under each head, gravest first. */
export function byGroup(report: DueReport): { readonly group: DueGroup; readonly rows: readonly DueItem[] }[] {
  return dueGroups.map((group) => ({ group, rows: report.items.filter((it) => it.group === group) })).filter((it) => it.rows.length > 0);
}

/** The groups that are for today, whatever day they fell due. */
export function isNow(it: Pick<DueItem, "group">): boolean {
  return it.group !== "Coming up" && it.group !== "Under way, nothing apart";
}

export function dueHeadline(report: DueReport): string {
  const now = byGroup(report).filter(isNow);
  if (now.length === 0) return "Nothing is due.";
  return `${now.map(({ group, rows }) => `${group}:\u00a0${rows.length}`).join(". ")}.`;
}

export function ofMachine(it: DueItem, report: DueReport): string {
  return it.machine === null || report.machines.length < 2 ? "" : it.machine;
}

/** How the counter is known, said on every drawing. */
export function countedFrom(report: DueReport): string {
  return `As of ${report.day}. A recheck falls due by the greatest counter on any sheet of its machine; a machine that has run since may be further on.`;
}
