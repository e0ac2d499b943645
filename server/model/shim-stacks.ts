// The shims of a line, by thickness and count.
// Invariant: all of a line or nothing: a thickness that can't be read leaves the whole stack unknown.
import type { Detail, Entry, ShimCount } from "../../grammar/tree.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Unit } from "../quantities/units.ts";
import { wholeNumber } from "./declare.ts";
import type { Job } from "./job.ts";
import { type Shims, type ThingLine, linesOf } from "./things.ts";
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

type PackLine = ThingLine<Extract<Detail, { kind: "have" | "fitted" }>>;

/** What is in, or there is beside, from where it is written on. */
export interface Pack {
  /** Of one entry: the first says where. */
  readonly lines: readonly [PackLine, ...PackLine[]];
  /** All that its lines list; undefined where any of it can't be read. */
  readonly stack: ShimStack | undefined;
}

/** What is called fitted, as it was written: the lines of one entry together are what is in, and a later entry's replace them. The same of what there is beside. */
export function packsOf(shims: Shims, kind: "have" | "fitted" = "fitted"): readonly Pack[] {
  const packs: { lines: [PackLine, ...PackLine[]] }[] = [];
  for (const line of linesOf(shims, kind)) {
    const last = packs.at(-1);
    if (last?.lines[0].entry === line.entry) last.lines.push(line);
    else packs.push({ lines: [line] });
  }
  return packs.map(({ lines }) => ({ lines, stack: together(lines.map((it) => shimStackOf(it.detail.stacks))) }));
}

/** What was in as something was read: by what stands above that; what is written first was there from the start. */
export function packAt(job: Job, shims: Shims, entry: Entry): Pack | undefined {
  const { entries } = job.own.sheet;
  const at = entries.indexOf(entry as (typeof entries)[number]);
  const packs = packsOf(shims);
  return packs.findLast((it) => entries.indexOf(it.lines[0].entry as (typeof entries)[number]) < at) ?? packs[0];
}

function together(stacks: readonly (ShimStack | undefined)[]): ShimStack | undefined {
  const [first] = stacks;
  return first === undefined || stacks.includes(undefined) ? undefined : { ...first, shims: stacks.flatMap((it) => it?.shims ?? []) };
}

/** Whether two stacks are of the same shims, in whichever order. What can't be read is the same as nothing. */
export function isSameStack(a: ShimStack | undefined, b: ShimStack | undefined): boolean {
  const [one, other] = [a?.shims, b?.shims];
  if (one === undefined || other === undefined) return false;
  const ofIt = (list: typeof one, thickness: Exact) => list.reduce((sum, it) => (it.thickness.compare(thickness) === 0 ? sum + it.count : sum), 0);
  return [...one, ...other].every(({ thickness }) => ofIt(one, thickness) === ofIt(other, thickness));
}
