// What a machine is made of, before anybody has touched it. A template (assemblies-*.ts) makes one of these; the mechanic works on it, the pen declares it.

export interface Part {
  name: string;
  title: string;
  /** At every place, or once in the machine. */
  each: boolean;
  n: number;
  held: string[];
  behind: string[];
  critical?: string;
  renewWith?: string;
  pairs?: boolean;
  /** It runs in its grease: whoever washes it oils it again before it goes back. */
  runs?: boolean;
  /** A shaft turns in it on a film of oil that nothing brings there before the first turns: it is oiled as it goes in. */
  wet?: boolean;
  /** It grips by friction: nobody oils it. */
  grips?: boolean;
  matched?: string;
  keeps?: boolean;
  fits?: string;
  mass?: number;
  material?: string;
}

export interface Fastener {
  name: string;
  title: string;
  each: boolean;
  n: number;
  thread: string;
  /** The one place at which its thread is left-handed. */
  leftHandAt?: string;
  /** What it is pulled to; none for an adjusting nut, "none" for what is fitted and never tight. */
  torque?: [number, number] | "none" | "feel";
  /** What it is pulled to first, below the torque. */
  stage?: number;
  angle?: number;
  letBack?: number;
  locking?: string;
  /** How many one piece of locking serves. */
  serves?: number;
  locksAgain?: boolean;
  /** A declared part that locks. */
  plate?: string;
  critical?: string;
  renew?: boolean;
  recheck?: boolean;
}

export interface Fluid {
  name: string;
  title: string;
  each: boolean;
  in: string[];
  holder?: string;
  ml: number;
  bleed?: boolean;
}

export interface Limit {
  name: string;
  title: string;
  each: boolean;
  /** All figures in the unit of the plant. */
  set?: [number, number];
  by?: string[];
  fresh?: [number, number];
  wornMax?: number;
  wornMin?: number;
  of?: string;
  positions?: string[];
  ovality?: number;
  taper?: number;
  spread?: number;
  formula?: string;
  critical?: boolean;
  /** A float: there is nothing of it in the hand. */
  together?: boolean;
  gauge: string;
}

export interface Check {
  name: string;
  title: string;
  each: boolean;
  of?: string;
  by?: string;
  critical?: string;
  good: string;
  bad: string;
}

export interface Hazard {
  name: string;
  title: string;
  before: string;
  how: string;
}

export interface Shims {
  name: string;
  title: string;
  limit: string;
  /** Thickness in the unit of the plant, how many there are, how many are in. */
  stack: [number, number, number][];
}

export interface Gauge {
  name: string;
  title: string;
  uncertainty: number;
  range?: [number, number];
  /** The day of its last check, where not the usual one. */
  checked?: string;
}

export interface Plant {
  key: string;
  machine: string;
  trouble: string;
  places?: { kind: string; names: string[] };
  stance: "jack" | "bench" | "fixed";
  length: "mm" | "in";
  torque: "N.m" | "lbf.ft";
  /** Outermost first: the order in which they come off. */
  parts: Part[];
  fasteners: Fastener[];
  fluids: Fluid[];
  limits: Limit[];
  checks: Check[];
  hazards: Hazard[];
  shims: Shims[];
  gauges: Gauge[];
  wrench: [number, number];
  wrenchChecked?: string;
  /** How far the wrench may be out, in per cent. */
  wrenchDoubt?: number;
  rated?: number;
}

export const everywhere = (plant: Plant): string[] => plant.places?.names ?? [];

export const placesOf = (plant: Plant, thing: { each: boolean }): string[] | undefined => (thing.each ? everywhere(plant) : undefined);

export function partOf(plant: Plant, name: string): Part | undefined {
  return plant.parts.find((it) => it.name === name);
}

export function fastenerOf(plant: Plant, name: string): Fastener | undefined {
  return plant.fasteners.find((it) => it.name === name);
}

export function limitOf(plant: Plant, name: string): Limit | undefined {
  return plant.limits.find((it) => it.name === name);
}

/** Lockings that one opening uses up. Common practice, as the user's reference has it. */
export function usedOnce(fastener: Fastener): boolean {
  if (fastener.locksAgain || fastener.locking === undefined) return false;
  if (/^(split pin|lock wire|safety wire|tab washer|lock plate|staking|peening|roll pin)/.test(fastener.locking)) return true;
  return fastener.critical !== undefined && /^(self-locking nut|nylon insert|thread lock)/.test(fastener.locking);
}

export const titleOf = (plant: Plant, name: string): string =>
  [...plant.parts, ...plant.fasteners, ...plant.fluids, ...plant.limits, ...plant.checks, ...plant.hazards, ...plant.gauges, ...plant.shims].find(
    (it) => it.name === name,
  )?.title ?? name;
