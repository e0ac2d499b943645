// What a fastener is to be tightened to: one range, or the last of several stages, and an angle further; and whether a figure that was written is that.
// Invariant: exact. A figure asked for alone is met by itself; written in another unit, by what rounds to it in the places that were written.
import type { LetBack, Quantity, Range } from "../../grammar/tree.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Measured } from "../quantities/quantity.ts";
import { type Band, inside } from "../quantities/range.ts";
import { memo } from "./memo.ts";
import { type Fastener, lineOf } from "./things.ts";
import { bandOf, figureValue, measured, measuredList, quantitiesOf, quantityText, rangeText, unitsOf } from "./values.ts";

type Torque = NonNullable<Fastener["torque"]>;

/** One range, or one figure alone. */
interface Bound {
  readonly band: Band;
  readonly alone: boolean;
}

export interface Wanted {
  /** The last stage, or the only one. */
  readonly last: Bound;
  /** Those before it, in turn; those whose figure can't be read are left out. */
  readonly before: readonly Bound[];
  readonly angle: Bound | undefined;
  /** As a sheet would write all of it behind `to`. */
  readonly text: string;
}

/** How a tightening stands to what is asked for; `unread` where its figure can't be compared. */
export type Tightness = "right" | "low" | "high" | "not-turned" | "turned-less" | "turned-more" | "unread";

/** Undefined where no figure is asked for, or where it can't be read. */
export function wantedOf({ torque }: Fastener): Wanted | undefined {
  return torque === undefined ? undefined : wantedMade(torque);
}

const wantedMade = memo((torque: Torque): Wanted | undefined => {
  const last = boundOf(torque.range ?? torque.stages?.at(-1), torque.range === undefined);
  if (last === undefined) return undefined;
  const angle = boundOf(torque.angle, true);
  if (torque.angle !== undefined && angle === undefined) return undefined;
  const before = (torque.range === undefined ? (torque.stages ?? []).slice(0, -1) : []).map((stage) => boundOf(withUnit(stage, torque.stages?.at(-1)), true));
  return { last, before: before.filter((it) => it !== undefined), angle, text: torqueText(torque) };
});

/** The unit may stand at the last stage only. */
function withUnit(stage: Range, last: Range | undefined): Range {
  if (stage.kind !== "bare" || stage.only.unit !== undefined || last === undefined) return stage;
  const unit = quantitiesOf(last).findLast((it) => it.unit !== undefined)?.unit;
  return unit === undefined ? stage : { ...stage, only: { ...stage.only, unit } };
}

/** The stages that a run of pulls left out, in turn; empty where it went through all of them. */
export function stagesSkipped({ before }: Wanted, pulls: readonly Measured[]): readonly string[] {
  const skipped: string[] = [];
  let at = 0;
  for (const stage of before) {
    const met = pulls.findIndex((it, i) => i >= at && sideOf(stage, it) !== "low" && sideOf(stage, it) !== "high");
    if (met < 0) skipped.push(stage.band.text);
    else at = met + 1;
  }
  return skipped;
}

/** Every figure behind `to`, in turn: one, or one a stage. */
export function pullsOf({ to, stages }: { readonly to?: Quantity; readonly stages?: readonly Quantity[] }): readonly Measured[] {
  return measuredList(stages ?? (to === undefined ? [] : [to])).filter((it) => it !== undefined);
}

/** As it stands in the sheet: `20, 40 lbf.ft + 90 deg`. Empty where no figure is given. */
export function torqueText({ range, stages, angle }: Torque): string {
  const all = range === undefined ? (stages ?? []).map(rangeText).join(", ") : rangeText(range);
  return angle === undefined ? all : `${all} + ${rangeText(angle)}`;
}

/** What a line says behind `to`, all of it. */
export function tightenedText({ to, stages, angle }: { readonly to?: Quantity; readonly stages?: readonly Quantity[]; readonly angle?: Quantity }): string {
  if (to === undefined) return "";
  const list = stages ?? [to];
  const units = unitsOf(list);
  const own = list.map((it, i) => quantityText(it, it.unit ?? (i === list.length - 1 ? units[i] : undefined))).join(", ");
  return angle === undefined ? own : `${own} + ${quantityText(angle)}`;
}

/** `turned`: how far on it was turned behind that torque, in all. */
export function tightnessOf(wanted: Wanted, to: Measured, turned: Measured | "unread" | undefined): Tightness {
  const side = sideOf(wanted.last, to);
  if (side !== "right") return side;
  if (wanted.angle === undefined) return turned === undefined ? "right" : "turned-more";
  if (turned === undefined) return "not-turned";
  const by = turned === "unread" ? "unread" : sideOf(wanted.angle, turned);
  return by === "low" ? "turned-less" : by === "high" ? "turned-more" : by;
}

/** How far it is to be let back behind its torque, as a sheet writes it: `1 flat`. */
export function backText(fastener: Fastener): string | undefined {
  const back = lineOf(fastener, "let-back")?.detail.back;
  if (back === undefined) return undefined;
  if (back.angle !== undefined) return quantityText(back.angle);
  const count = (back.flats ?? back.turns)?.text ?? "";
  return `${count} ${back.flats === undefined ? "turn" : "flat"}${count === "1" || count.includes("/") ? "" : "s"}`;
}

/** How far it is let back, in turns. */
export function turnsOf(back: LetBack | undefined): Exact | undefined {
  const { flats, turns, angle } = back ?? {};
  if (flats !== undefined) return figureValue(flats)?.div(6);
  if (turns !== undefined) return figureValue(turns);
  const it = measured(angle);
  return it?.unit.dimension === "angle" ? it.value.div(360) : undefined;
}

function boundOf(range: Range | undefined, mayStandAlone: boolean): Bound | undefined {
  if (range === undefined) return undefined;
  if (range.kind !== "bare") {
    const band = bandOf(range);
    return band === undefined ? undefined : { band, alone: false };
  }
  const one = mayStandAlone ? measured(range.only) : undefined;
  return one === undefined ? undefined : { band: { low: one.value, high: one.value, unit: one.unit, text: rangeText(range) }, alone: true };
}

function sideOf({ band, alone }: Bound, it: Measured): "right" | "low" | "high" | "unread" {
  if (it.unit.dimension !== band.unit.dimension) return "unread";
  if (inside(band, it.value)) return "right";
  if (alone && it.unit !== band.unit && it.places >= 0 && band.low !== undefined && it.value.sub(band.low).abs().compare(halfOfLast(it)) <= 0) return "right";
  return band.low !== undefined && it.value.compare(band.low) < 0 ? "low" : "high";
}

/** Half of one in the last place that is written, in the base unit. */
function halfOfLast({ unit, places }: Measured): Exact {
  return unit.factor.div(2 * 10 ** places);
}
