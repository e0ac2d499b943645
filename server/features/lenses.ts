// Lines above entries that say how it stands with them: what a planned step waits for, what is got from a supplier, how much is open before a release.
// Invariant: where the lenses are follows from the text alone; what one says is worked out when it comes into view.
import type { Slices } from "../../grammar/slices.ts";
import type { Entry } from "../../grammar/tree.ts";
import type { SheetText } from "../../grammar/sheet-text.ts";
import { memo } from "../model/memo.ts";
import { usualHours } from "../plan/calendar.ts";
import { type Plan, planningAll } from "../plan/plan.ts";
import { addDays } from "../quantities/days.ts";
import { decimalText } from "../quantities/exact.ts";
import { currencyDigits } from "../quantities/money.ts";
import type { Diagnostic } from "../rules/check.ts";
import { counted } from "../rules/wording.ts";
import type { Story } from "../story/story.ts";
import { billsOf } from "../supply/bills.ts";
import { supplyOfOne, supplying } from "../supply/supply.ts";

export interface Lens {
  /** From 0. */
  readonly line: number;
  readonly what: "step" | "done" | "supplier" | "release";
  /** Of the step or supplier: an editor moves a lens with its line and keeps what it was told of it, until it asks again. */
  readonly name?: string;
}

export interface LensAsked {
  readonly story: Story | undefined;
  readonly list: readonly Diagnostic[];
  /** ISO 8601. */
  readonly today: string;
}

/** A step that is not done has two: what it waits for, and a way to write that it is done. */
export function lensesIn(sheet: SheetText): Lens[] {
  const out: Lens[] = [];
  sheet.entries.forEach((entry, i) => {
    const line = sheet.starts[i] as number;
    if (entry.kind === "step" && entry.fault === undefined && !entry.details.some((it) => it.kind === "done"))
      for (const what of ["step", "done"] as const) out.push({ line, what, ...(entry.name === undefined ? {} : { name: entry.name.text }) });
    if (entry.kind === "supplier" && entry.name !== undefined) out.push({ line, what: "supplier", name: entry.name.text });
    if (entry.kind === "release") out.push({ line, what: "release" });
  });
  return out;
}

/** What the lens over this line says; empty where nothing is known of it yet. */
export function* tellingLens(sheet: SheetText, { line, what, name }: Lens, asked: LensAsked): Slices<string> {
  if (what === "done") return "Mark done today";
  const entry = sheet.entries[startOf(sheet, line, what, name)];
  if (entry === undefined) return "";
  // Before a check was made nothing is known of what is open.
  if (asked.story === undefined) return "";
  if (what === "release") return releaseText(sheet.starts[sheet.entries.indexOf(entry)] ?? line, asked.list);
  yield* supplying(asked.story);
  return what === "step" ? yield* stepText(asked.story, entry, asked.today) : supplierText(asked.story, entry);
}

/** The entry, as an index, that a lens is over: the one at its line if that is still it, else the only one of its name. */
function startOf(sheet: SheetText, line: number, what: Lens["what"], name: string | undefined): number {
  const kind = what === "done" ? "step" : what;
  const isIt = (it: Entry | undefined) =>
    it?.kind === kind && (name === undefined || (it as { readonly name?: { readonly text: string } }).name?.text === name);
  const here = sheet.starts.indexOf(line);
  if (here >= 0 && isIt(sheet.entries[here])) return here;
  const all = sheet.entries.flatMap((it, i) => (isIt(it) ? [i] : []));
  return all.length === 1 ? (all[0] as number) : -1;
}

/** The line at which the step of this name begins, whatever was written above it since the lens was drawn; undefined where there is none, or more than one. */
export function lineOfStep(sheet: SheetText, line: number, name: string): number | undefined {
  return sheet.starts[startOf(sheet, line, "done", name)];
}

function releaseText(line: number, list: readonly Diagnostic[]): string {
  const blocked = list.find((it) => it.rule === "release-blocked" && it.line === line);
  if (blocked === undefined) return "nothing is open on this sheet";
  return counted(blocked.related.length, "thing is open", "things are open");
}

/** Ready, or the first things that it waits for with their day. */
function* stepText(story: Story, entry: Entry, today: string): Slices<string> {
  const plan = yield* planned(story)(today);
  const step = plan.steps.find((it) => it.visit.entry === entry && it.state !== "done");
  if (step === undefined) return "";
  if (step.state === "ready") return "ready";
  const words = [
    ...(step.waits?.steps ?? []).map((it) => it.visit.entry.name?.text ?? "a step"),
    ...step.parcels.map(({ parcel }) => {
      const day = parcel.days === undefined ? undefined : addDays(today, parcel.days);
      const late = parcel.overdue > 0 ? `, ${counted(parcel.overdue, "day")} overdue` : day === undefined ? "" : `, ${dayText(day)}`;
      return `${parcel.item.title}${late}`;
    }),
    ...(step.waits?.questions ?? []).map((it) => `an answer: ${it.name}`),
    ...(step.waits?.unmet ?? []).map((it) => it.text),
  ];
  const shown = [...new Set(words)];
  return `waits for ${shown.slice(0, 3).join("; ")}${shown.length > 3 ? ` and ${shown.length - 3} more` : ""}`;
}

/** The plan of one job, for one day: another day is another plan. */
const planned = memo((story: Story) => {
  let made: { readonly today: string; readonly plan: Plan } | undefined;
  return function* (today: string): Slices<Plan> {
    if (made?.today === today) return made.plan;
    const plan = yield* planningAll([story], supplyOfOne(story), { from: today, hoursADay: usualHours });
    made = { today, plan };
    return plan;
  };
});

function supplierText(story: Story, entry: Entry): string {
  const name = entry.kind === "supplier" ? entry.name?.text : undefined;
  const purchases = supplyOfOne(story)
    .rows.flatMap((it) => it.purchases)
    .filter((it) => it.offer.supplier?.name === name);
  if (purchases.length === 0) return "nothing to get here";
  const bills = billsOf(purchases);
  const sums = bills.map((it) => `${decimalText(it.total, currencyDigits(it.currency) ?? 2)} ${it.currency}`);
  return [counted(purchases.length, "thing"), ...sums].join(", ");
}

const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** `2026-10-12` as `12 Oct`. */
function dayText(day: string): string {
  return `${Number(day.slice(8, 10))} ${months[Number(day.slice(5, 7)) - 1] ?? day.slice(5, 7)}`;
}
