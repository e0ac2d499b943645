// Words to write an assembly with: entries in the order in which they happen to it.
import { type Act, type Declared, type Entry, type Finding, fresh, type Measure, type Order, type Reading, type Seen, type Step } from "./things.ts";
import type { Random } from "./random.ts";

export interface Assembly {
  name: string;
  /** It is got at from under a raised vehicle. */
  road: boolean;
  places: Record<string, string[]>;
  things: Declared[];
  entries: Entry[];
  test: string;
}

export type Builder = (random: Random) => Assembly;

/** Days of the phases of a job: access, as found, strip, bench, parts asked for, bench work, build, set, down; parts come on the ninth. */
export const dayOf = [0, 0, 1, 2, 3, 10, 11, 12, 13];

const written = (phase: number) => ({ id: fresh(), of: "", phase, day: dayOf[phase] as number });

export const step = (name: string, title: string, phase: number, acts: Act[], it: Partial<Step> = {}): Step => ({
  ...written(phase),
  is: "step",
  name,
  title,
  acts,
  done: true,
  ...it,
});

/** `measure("drum-bore", "found", 3, "in", 3, { left: [9.01], right: [9.02] }, "caliper")`. */
export function measure(
  limit: string,
  when: Measure["when"],
  phase: number,
  unit: string,
  dec: number,
  figures: Record<string, number[]>,
  gauge?: string,
): Measure {
  const readings: Reading[] = Object.entries(figures).map(([place, list]) => ({ ...(place !== "" && { place }), figures: list, unit, dec }));
  return { ...written(phase), is: "measure", limit, when, readings, ...(gauge !== undefined && { gauge }) };
}

export const seen = (check: string, when: Seen["when"], phase: number, good = true): Seen => ({ ...written(phase), is: "seen", check, when, good });

export const finding = (name: string, phase: number, conditions: string[], it: Partial<Finding> = {}): Finding => ({
  ...written(phase),
  is: "finding",
  name,
  conditions,
  ...it,
});

/** Asked for on the day of the parts, and received on the ninth. */
export function bought(reference: string, items: Record<string, number>): Order[] {
  const list = Object.entries(items).map(([name, n]) => ({ name, n }));
  return [
    { ...written(4), is: "order", reference, status: "placed", items: list, works: [] },
    { ...written(4), day: 9, is: "order", reference, status: "received", items: [], works: [], moves: true },
  ];
}

export const sentOut = (reference: string, name: string, place: string | undefined, what: string): Order[] => [
  { ...written(4), is: "order", reference, status: "sent", items: [], works: [{ name, what, ...(place !== undefined && { place }) }] },
  { ...written(4), day: 9, is: "order", reference, status: "received", items: [], works: [], moves: true },
];

export const assembly = (name: string, road: boolean, places: Record<string, string[]>, things: Declared[], entries: Entry[], test: string): Assembly => ({
  name,
  road,
  places,
  things,
  entries: entries.map((it) => ({ ...it, of: name })),
  test,
});
