// A range in its own unit with the other system's figures beside it: `0.004 .. 0.008 in (0.102 .. 0.203 mm)`.
// Invariant: display only; what is shown in the other system is never compared with anything.
import type { Range } from "../../grammar/tree.ts";
import { bandOf, quantitiesOf, rangeText } from "../model/values.ts";
import type { Exact } from "../quantities/exact.ts";
import { otherSystem, placesWritten, sameUnitText } from "../quantities/quantity.ts";
import type { Unit } from "../quantities/units.ts";

/** As written alone, where the range can't be read or its unit has no partner. */
export function rangeInBoth(range: Range): string {
  const band = bandOf(range);
  const written = rangeText(range);
  if (band === undefined) return written;
  // A fit's limits stand in no figure of the sheet; they go to the thousandth of a millimetre.
  const places = range.kind === "fit" ? 3 : Math.max(...quantitiesOf(range).map((it) => placesWritten(it.figure.text)));
  const ends = [band.low, band.high].filter((it) => it !== undefined);
  const lead = band.low === undefined ? "max " : band.high === undefined ? "min " : "";
  const others = joined(ends.map((end) => inOthers(end, band.unit, places)));
  const spelledOut =
    range.kind === "between" || range.kind === "max" || range.kind === "min"
      ? ""
      : ` = ${ends.map((end) => sameUnitText(end, band.unit, Math.max(places, 0)).split(" ")[0]).join(" .. ")} ${band.unit.spelling}`;
  return others.length === 0 ? `${written}${spelledOut}` : `${written}${spelledOut} (${others.map((it) => lead + it).join(", ")})`;
}

function inOthers(value: Exact, unit: Unit, places: number): string[] {
  return otherSystem({ value, unit, figure: "", places });
}

/** `0.102 mm`, `0.203 mm` become `0.102 .. 0.203 mm`, for each unit that the other system has. */
function joined(ends: readonly (readonly string[])[]): string[] {
  const [first = [], second] = ends;
  if (second === undefined) return [...first];
  return first.map((low, i) => `${low.slice(0, low.indexOf(" "))} .. ${second[i] ?? ""}`);
}
