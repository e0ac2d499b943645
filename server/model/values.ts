// From what is written to what it is worth: quantities with the unit that serves them, ranges as bands, dates.
// Invariant: exact. What can't be read (no unit, an unknown one, a decimal comma) is undefined, and the rules of units say why.
import type { Name, Quantity, Range } from "../../grammar/tree.ts";
import { type Exact, exact } from "../quantities/exact.ts";
import { type Measured, asDifference, quantity } from "../quantities/quantity.ts";
import type { Band } from "../quantities/range.ts";
import { type Dimension, ambiguousUnit, unitOf } from "../quantities/units.ts";
import { fitBand } from "../trade/fits.ts";
import { memo } from "./memo.ts";

/**
 * The unit that serves each quantity of a list: its own, or the one at the end where no other has one.
 * A mix leaves those without a unit undefined.
 */
export function unitsOf(list: readonly Quantity[]): (Name | undefined)[] {
  const last = list[list.length - 1]?.unit;
  const alone = list.every((it, i) => it.unit === undefined || i === list.length - 1);
  return list.map((it) => it.unit ?? (alone ? last : undefined));
}

const remembered = new WeakMap<Quantity, Measured | null>();

/** What a quantity is worth in the base unit of its dimension. */
export function measured(it: Quantity | undefined, unit: Name | undefined = it?.unit): Measured | undefined {
  if (it === undefined) return undefined;
  let value = remembered.get(it);
  if (value === undefined) {
    value = it.figure.comma || unit === undefined ? null : (quantity(it.figure.text, unit.text) ?? null);
    remembered.set(it, value);
  }
  return value ?? undefined;
}

/** The quantities of a list, in order; what can't be read is left undefined. */
export function measuredList(list: readonly Quantity[]): (Measured | undefined)[] {
  const units = unitsOf(list);
  return list.map((it, i) => measured(it, units[i]));
}

/** The band that a range allows. Undefined where it can't be read, is bare, or has its ends the wrong way round. */
export function bandOf(range: Range | undefined): Band | undefined {
  return range === undefined ? undefined : bandMade(range);
}

const bandMade = memo(makeBand);

/** Every quantity of a range, as written, in order. */
export function quantitiesOf(range: Range): Quantity[] {
  switch (range.kind) {
    case "between":
      return [range.low, range.high];
    case "max":
    case "min":
      return [range.end];
    case "deviations":
      return [range.nominal, range.first, range.second];
    case "plus-minus":
      return [range.nominal, range.tolerance];
    case "fit":
      return [range.nominal];
    case "bare":
      return [range.only];
  }
}

function makeBand(range: Range): Band | undefined {
  const [a, b, c] = measuredList(quantitiesOf(range));
  if (a === undefined) return undefined;
  const unit = a.unit;
  const text = rangeText(range);
  switch (range.kind) {
    case "between":
      if (b === undefined || b.unit.dimension !== unit.dimension || a.value.compare(b.value) > 0) return undefined;
      return { low: a.value, high: b.value, unit: b.unit, text };
    case "max":
      return { high: a.value, unit, text };
    case "min":
      return { low: a.value, unit, text };
    case "deviations": {
      if (b === undefined || c === undefined || b.unit.dimension !== unit.dimension || c.unit.dimension !== unit.dimension) return undefined;
      const first = a.value.add(asDifference(b));
      const second = a.value.add(asDifference(c));
      return first.compare(second) < 0 ? undefined : { low: second, high: first, unit, text };
    }
    case "plus-minus": {
      if (b === undefined || b.unit.dimension !== unit.dimension || asDifference(b).compare(0) < 0) return undefined;
      return { low: a.value.sub(asDifference(b)), high: a.value.add(asDifference(b)), unit, text };
    }
    case "fit":
      return unit.dimension === "length" ? fitBand(a, range.fit.text) : undefined;
    case "bare":
      return undefined;
  }
}

/** A range as a sheet would say it: `45 .. 55 lbf.ft`, `max 0.010 in`. */
export function rangeText(range: Range): string {
  const list = quantitiesOf(range);
  const unit = list[list.length - 1]?.unit?.text ?? list[0]?.unit?.text;
  const tail = unit === undefined ? "" : ` ${unit}`;
  const own = (it: Quantity, i: number) => (i < list.length - 1 && it.unit !== undefined ? `${it.figure.text} ${it.unit.text}` : it.figure.text);
  const [a, b, c] = list.map(own);
  switch (range.kind) {
    case "between":
      return `${a} .. ${b}${tail}`;
    case "max":
    case "min":
      return `${range.kind} ${a}${tail}`;
    case "deviations":
      return `${a} ${b} ${c}${tail}`;
    case "plus-minus":
      return `${a} +/- ${b}${tail}`;
    case "fit":
      return `${a} ${range.fit.text}${tail}`;
    case "bare":
      return `${a}${tail}`;
  }
}

/** A quantity as a sheet would say it. */
export function quantityText(it: Quantity, unit: Name | undefined = it.unit): string {
  return unit === undefined ? it.figure.text : `${it.figure.text} ${unit.text}`;
}

/** A plain figure without a unit, exact. */
export function figureValue(it: PlainFigure | undefined): Exact | undefined {
  return it === undefined || it.comma ? undefined : figureMade(it);
}

type PlainFigure = { readonly text: string; readonly comma?: true };

const figureMade = memo((it: PlainFigure) => exact(it.text));

/** The dimension that a written unit has, where it has one and means one thing. */
export function dimensionOf(unit: Name | undefined): Dimension | undefined {
  if (unit === undefined || ambiguousUnit(unit.text) !== undefined) return undefined;
  return unitOf(unit.text)?.dimension;
}

/** The dimension in which a limit is measured, by the first of its ranges that says so. */
export function dimensionOfRange(range: Range | undefined): Dimension | undefined {
  if (range === undefined) return undefined;
  const list = quantitiesOf(range);
  for (let i = list.length - 1; i >= 0; i--) {
    const dimension = dimensionOf(list[i]?.unit);
    if (dimension !== undefined) return dimension;
  }
  return undefined;
}
