// Which units may be meant where a figure has none.
// Invariant: one is offered where the sheet says it elsewhere; it is never put there by itself.
import type { Job } from "../../../model/job.ts";
import { dimensionOf } from "../../../model/values.ts";
import { counterUnits, unitOfLimit, usualUnits } from "./dimensions.ts";
import { figuresOf } from "./figures.ts";
import type { UnitIssue } from "./issues.ts";

/** The unit that is most likely meant: that of its limit, its neighbours, its fluid, its entry; else those in general use. */
export function unitsToOffer(job: Job, issue: UnitIssue): readonly string[] {
  const fits = (unit: string | undefined, dimension = dimensionOf(unit === undefined ? undefined : { text: unit, at: issue.quantity.at })) =>
    dimension !== undefined && (issue.wants.length === 0 || issue.wants.includes(dimension));
  const { entry } = issue;
  if (issue.counter !== undefined) return counterUnits;
  const name = entry.kind === "measure" ? entry.limit : entry.kind === "limit" ? entry.name : undefined;
  const limit = name === undefined ? undefined : job.things.get(name.text);
  const unit = limit?.kind === "limit" ? unitOfLimit(limit) : undefined;
  const neighbour = issue.list.find((it) => fits(it.unit?.text))?.unit?.text;
  if (neighbour !== undefined || (unit !== undefined && fits(unit)))
    return [...new Set([unit, neighbour])].filter((it) => it !== undefined && fits(it)) as string[];
  const fluid = fluidUnit(job, issue);
  if (fluid !== undefined && fits(fluid)) return [fluid];
  for (const group of figuresOf(entry).groups) {
    // Only what belongs to the same sort of figure: a thread's size says nothing of a torque.
    if (group.wants.length !== issue.wants.length || group.by === "item") continue;
    for (const it of group.list) if (it.unit !== undefined && fits(it.unit.text)) return [it.unit.text];
  }
  // Parts take days to come.
  if (entry.details.some((it) => it.row === issue.row && it.kind === "lead")) return ["d"];
  const [first, ...more] = (issue.wants.length === 0 ? (["length"] as const) : issue.wants).map((it) => usualUnits[it]);
  const usual = issue.wants.length > 1 ? [first?.[0], more[0]?.[0]].filter((it) => it !== undefined) : (first ?? []);
  // Fractions are inches.
  return issue.list.some((it) => it.figure.text.includes("/")) && usual.includes("in") ? ["in"] : usual;
}

/** The unit of a fluid's capacity, for what is drained, filled, stocked or ordered of it. */
function fluidUnit(job: Job, { entry, row }: UnitIssue): string | undefined {
  const detail = entry.details.find((it) => it.row === row);
  const item = entry.kind === "stock" || entry.kind === "need" || entry.kind === "offer" ? entry.item : detail?.kind === "item" ? detail.item : undefined;
  const name =
    detail?.kind === "action" ? detail.things[0]?.name.text : item?.kind === "name" ? item.name.text : entry.kind === "finding" ? entry.of?.text : undefined;
  const thing = name === undefined ? undefined : job.things.get(name);
  return thing?.kind === "fluid" ? thing.capacity?.unit?.text : undefined;
}
