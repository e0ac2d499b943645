// The shims of a line, by thickness and count.
// Invariant: all of a line or nothing: a thickness that can't be read leaves the whole stack unknown.
import type { ShimCount } from "../../grammar/tree.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Unit } from "../quantities/units.ts";
import { wholeNumber } from "./declare.ts";
import { measured, unitsOf } from "./values.ts";

export interface ShimStack {
  /** Thicknesses in mm. */
  readonly shims: readonly { readonly thickness: Exact; readonly count: number }[];
  /** That of the first. */
  readonly unit: Unit;
}

/** What `have` or `fitted` lists; one of a thickness, where no count stands. Undefined where any of it can't be read. */
export function shimStackOf(stacks: readonly ShimCount[]): ShimStack | undefined {
  const units = unitsOf(stacks.map((it) => it.thickness));
  const shims: { thickness: Exact; count: number }[] = [];
  let unit: Unit | undefined;
  for (const [i, it] of stacks.entries()) {
    const thickness = measured(it.thickness, units[i]);
    const count = it.count === undefined ? 1 : wholeNumber(it.count.text);
    if (thickness === undefined || thickness.unit.dimension !== "length" || count === undefined) return undefined;
    unit ??= thickness.unit;
    shims.push({ thickness: thickness.value, count });
  }
  return unit === undefined ? undefined : { shims, unit };
}

/** Whether two lines list the same shims, in whichever order. What can't be read is the same as nothing. */
export function isSameStack(a: readonly ShimCount[], b: readonly ShimCount[]): boolean {
  const [one, other] = [shimStackOf(a)?.shims, shimStackOf(b)?.shims];
  if (one === undefined || other === undefined) return false;
  const ofIt = (list: typeof one, thickness: Exact) => list.reduce((sum, it) => (it.thickness.compare(thickness) === 0 ? sum + it.count : sum), 0);
  return [...one, ...other].every(({ thickness }) => ofIt(one, thickness) === ofIt(other, thickness));
}
