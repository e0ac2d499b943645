// Short ways to write down a template: a part, a fastener, a limit, each with what most of them have.
import type { Chance } from "./chance.ts";
import type { Fastener, Fluid, Gauge, Limit, Part, Plant } from "./plant.ts";

export type Template = (c: Chance) => Plant;

export const part = (name: string, title: string, more: Partial<Part> = {}): Part => ({ name, title, each: false, n: 1, held: [], behind: [], ...more });

export const fastener = (name: string, title: string, thread: string, more: Partial<Fastener> = {}): Fastener => ({
  name,
  title,
  thread,
  each: false,
  n: 1,
  ...more,
});

export const fluid = (name: string, title: string, ml: number, more: Partial<Fluid> = {}): Fluid => ({ name, title, ml, each: false, in: [], ...more });

export const limit = (name: string, title: string, gauge: string, more: Partial<Limit> = {}): Limit => ({ name, title, gauge, each: false, ...more });

export interface Sizes {
  length: "mm" | "in";
  torque: "N.m" | "lbf.ft";
  /** Millimetres in the unit of the plant, to the places that the trade writes. */
  l: (mm: number) => number;
  range: (low: number, high: number) => [number, number];
  t: (low: number, high: number) => [number, number];
  gauges: Gauge[];
  wrench: [number, number];
}

export function sizes(c: Chance): Sizes {
  const length = c.one(["mm", "in"] as const);
  const torque = c.one(["N.m", "lbf.ft"] as const);
  const l = (mm: number): number => (length === "mm" ? Number(mm.toFixed(3)) : Number((mm / 25.4).toFixed(4)));
  const newtons = (it: number): number => (torque === "N.m" ? Math.round(it) : Math.round(it / 1.3558));
  return {
    length,
    torque,
    l,
    range: (low, high) => [l(low), l(high)],
    t: (low, high) => [newtons(low), newtons(high)],
    gauges: [
      { name: "dial", title: c.one(["Dial gauge on a stand", "Lever dial", "Clock gauge, magnetic foot"]), uncertainty: l(0.01) },
      { name: "mic", title: "Outside micrometer", uncertainty: l(0.002), range: [0, l(100)] },
      { name: "bore-gauge", title: "Bore gauge, set on a ring", uncertainty: l(0.003) },
      { name: "calliper", title: "Vernier calliper", uncertainty: l(0.05), range: [0, l(1000)] },
    ],
    wrench: [newtons(10), newtons(420)],
  };
}
