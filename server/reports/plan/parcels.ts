// The parcels of a plan as they are shown: what comes together is told together, with the day on which it comes and by when it must go out.
// Invariant: days are of the calendar; none is told where the sheet says nothing to reckon it from.
import { compare, plainText, zero } from "../../quantities/exact.ts";
import { figureOf } from "../../supply/items.ts";
import { isStillToGo } from "../../plan/parcels.ts";
import type { Plan, PlannedParcel } from "../../plan/plan.ts";
import type { Story } from "../../story/story.ts";
import type { Days, LineOf } from "./days.ts";
import type { ParcelItem, ParcelShown } from "./shapes.ts";
import { stepTitle } from "./steps.ts";
import { putInto } from "../../model/grouped.ts";

/** In the order in which they come; those without a day last. */
export function parcelsShown(plan: Plan, at: LineOf, days: Days, titleOf: (story: Story) => string): ParcelShown[] {
  const groups = new Map<string, PlannedParcel[]>();
  for (const it of plan.parcels) {
    const { parcel, times } = it;
    const home = parcel.status === "to order" ? "" : `${parcel.where.file} ${parcel.reference ?? ""}`;
    const key = JSON.stringify([
      parcel.kind,
      parcel.status,
      home,
      parcel.supplier?.key ?? "",
      parcel.days ?? -1,
      times?.finish.toFraction() ?? "",
      parcel.questions,
      parcel.visits.length > 0,
    ]);
    putInto(groups, key, it);
  }
  const shown = [...groups.values()].map((list) => parcelShown(list, plan, at, days, titleOf));
  return shown.sort((a, b) => (a.arrivesIn ?? Number.MAX_SAFE_INTEGER) - (b.arrivesIn ?? Number.MAX_SAFE_INTEGER));
}

function parcelShown(list: readonly PlannedParcel[], plan: Plan, at: LineOf, days: Days, titleOf: (story: Story) => string): ParcelShown {
  const { parcel, times } = list[0] as PlannedParcel;
  // What has no day can't be late, and nobody knows whether it may go later.
  const slacks = list.flatMap((it) => (it.parcel.days === undefined || it.parcel.overdue > 0 ? [] : (it.times?.slack ?? [])));
  const least = slacks.length === 0 ? undefined : slacks.reduce((a, b) => (compare(b, a) < 0 ? b : a));
  const slack = least === undefined ? null : Number(least.n);
  const toGo = isStillToGo(parcel);
  const leaves = Number((times?.start ?? zero).n);
  const arrivesIn = parcel.days === undefined ? null : times === undefined ? parcel.days : Number(times.finish.n);
  return {
    kind: parcel.kind,
    status: parcel.status,
    order: parcel.reference ?? null,
    supplier: parcel.supplier?.title ?? null,
    items: list.map((it) => itemShown(it, plan, at, titleOf)),
    leaves: toGo ? days.day(leaves) : (parcel.since ?? null),
    arrives: arrivesIn === null ? null : days.day(arrivesIn),
    arrivesIn,
    overdue: parcel.overdue,
    slack,
    goesOutBy: toGo && slack !== null ? days.day(leaves + slack) : null,
    mustGoToday: toGo && leaves === 0 && slack === 0 && parcel.after.length === 0 && parcel.questions.length === 0,
    critical: slack === 0,
    questions: parcel.questions,
  };
}

function itemShown({ parcel }: PlannedParcel, plan: Plan, at: LineOf, titleOf: (story: Story) => string): ParcelItem {
  const steps = plan.steps.filter((it) => parcel.visits.includes(it.visit));
  return {
    item: parcel.item.written,
    name: parcel.item.title,
    quantity: parcel.amount === undefined ? null : plainText(figureOf(parcel.amount)),
    unit: parcel.amount?.unit?.spelling ?? null,
    steps: [...new Set(steps.map(stepTitle))],
    jobs: [...new Set(steps.map((it) => titleOf(it.story)))],
    ...at(parcel.where),
  };
}
