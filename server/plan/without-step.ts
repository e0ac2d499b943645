// What no planned step settles: what is still off, slack or drained when all that is planned is done, and gauges that fall due before the step that uses them.
// Invariant: facts of the walk and its forecast; a place whose count can't be told is left out.
import type { Gauge, Limit } from "../model/things.ts";
import { type Where, where } from "../model/where.ts";
import { addMonths } from "../quantities/days.ts";
import { findingsOf } from "../story/decisions.ts";
import type { Cell, Story, Visit } from "../story/story.ts";

export interface WithoutStep {
  readonly off: number;
  readonly slack: number;
  readonly drained: number;
}

/** Counted by things and their places: four nuts at one place are one. */
export function withoutStep(story: Story): WithoutStep {
  const discarded = (name: string) =>
    findingsOf(story)
      .get(name)
      ?.some((found) => found.decision?.detail.decision === "discard") === true;
  let off = 0;
  let slack = 0;
  for (const cell of [...story.parts, ...story.fasteners]) {
    const state = atEnd(cell);
    if (state === undefined || cell.unsure || discarded(cell.thing.name)) continue;
    if (state.on < cell.total) off++;
    else if ("tight" in state && !state.tight && cell.thing.kind === "fastener" && !(cell.thing.torque?.none ?? false)) slack++;
  }
  const drained = story.fluids.filter((cell) => atEnd(cell)?.full === false).length;
  return { off, slack, drained };
}

/** Of what any line touched: as it is when all that is planned is done. */
function atEnd<C extends Cell>(cell: C): C["now"] | undefined {
  return (cell.history as readonly { readonly after: C["now"] }[]).at(-1)?.after;
}

/** A gauge that a planned step tightens with, or that a reading behind it waits for, and the last day on which its check holds. */
export interface GaugeUse {
  readonly gauge: Gauge;
  /** ISO 8601. */
  readonly due: string;
  readonly visit: Visit;
  /** What is to be read with it; undefined where the step itself takes it. */
  readonly limit?: Limit;
  readonly where: Where;
}

/** Each gauge and step once, in the order of the sheet. */
export function gaugesUsed(story: Story): GaugeUse[] {
  const out = new Map<string, GaugeUse & { readonly seq: number }>();
  for (const cell of story.fasteners) {
    for (const { phase, visit, gauge, action, seq, where: from } of cell.history) {
      if (phase !== "planned" || visit === undefined || gauge?.checked === undefined || gauge.everyMonths === undefined || action?.by === undefined) continue;
      const due = addMonths(gauge.checked, gauge.everyMonths);
      const key = `${gauge.name} ${visit.number}`;
      if (due !== undefined && !out.has(key)) out.set(key, { gauge, due, visit, where: { ...from, at: action.by.at }, seq });
    }
  }
  return [...[...out.values()].sort((a, b) => a.seq - b.seq), ...waitingReadings(story)];
}

/** A reading that has no figure yet and names its gauge is taken when the planned step above it is done; with none above, before the first. */
function waitingReadings(story: Story): GaugeUse[] {
  const { path, sheet } = story.job.own;
  const planned = story.visits.filter((it) => it.phase === "planned" && it.file === path);
  const places = new Map<unknown, number>(sheet.entries.map((entry, i) => [entry, i]));
  return sheet.entries.flatMap((entry, i): GaugeUse[] => {
    if (entry.kind !== "measure" || entry.fault !== undefined || entry.by === undefined || entry.details.some((it) => it.kind === "reading")) return [];
    const gauge = story.job.things.get(entry.by.text);
    const limit = story.job.things.get(entry.limit?.text ?? "");
    const visit = planned.findLast((it) => (places.get(it.entry) ?? 0) < i) ?? planned[0];
    if (gauge?.kind !== "gauge" || limit?.kind !== "limit" || visit === undefined || gauge.checked === undefined || gauge.everyMonths === undefined) return [];
    const due = addMonths(gauge.checked, gauge.everyMonths);
    return due === undefined ? [] : [{ gauge, due, visit, limit, where: where(path, entry, 0, entry.by.at) }];
  });
}
