// The form of each family of threads: the angle between its flanks, how deep it is cut, and the diameters that follow.
// Invariant: each depth is a share of the pitch with its source; diameters are worked out, never typed in.
import { type Exact, figure } from "../quantities/exact.ts";
import type { Sourced } from "./source.ts";
import type { Thread, ThreadFamily } from "./thread.ts";

export interface ThreadForm extends Sourced {
  readonly families: readonly ThreadFamily[];
  /** Included angle of the flanks, degrees. */
  readonly degrees: string;
  readonly of: string;
  /** Shares of the pitch: height of the sharp triangle, what comes off the major diameter for the effective and for the screw's core, and the radius where there is one. */
  readonly triangle: Exact;
  readonly effectiveOff: Exact;
  readonly coreOff: Exact;
  readonly depth: Exact;
  readonly radius?: Exact;
  /** What the depth is of, where that is not the whole thread. */
  readonly depthOf?: string;
}

const unified = {
  degrees: "60",
  triangle: figure("0.866025"),
  effectiveOff: figure("0.649519"),
  coreOff: figure("1.226869"),
  depth: figure("0.541266"),
  depthOf: "the basic form, 5/8 of the triangle",
};
const whitworth = {
  degrees: "55",
  triangle: figure("0.960491"),
  effectiveOff: figure("0.640327"),
  coreOff: figure("1.280654"),
  depth: figure("0.640327"),
  radius: figure("0.137329"),
};

/** BS 84, ISO 68-1, BS 93, BS 811: seen in public tables, and worked out from the angles: H = p/(2\u00b7tan(a/2)). */
const threadForms: readonly ThreadForm[] = [
  { ...unified, families: ["UNC", "UNF", "UNEF", "UNS"], of: "unified threads (UNC, UNF, UNEF, UNS)", source: "ASME B1.1", mark: "table" },
  { ...unified, families: ["M"], of: "ISO metric threads", source: "ISO 68-1", mark: "table" },
  { ...whitworth, families: ["BSW", "BSF", "BSB", "ME"], of: "Whitworth threads (BSW, BSF, BSB, ME)", source: "BS 84", mark: "table" },
  { ...whitworth, families: ["G", "R"], of: "British pipe threads (BSP)", source: "ISO 228-1, Whitworth form", mark: "table" },
  {
    families: ["BA"],
    degrees: "47.5",
    of: "BA threads",
    triangle: figure("1.136336"),
    effectiveOff: figure("0.6"),
    coreOff: figure("1.2"),
    depth: figure("0.6"),
    radius: figure("0.180835"),
    source: "BS 93",
    mark: "table",
  },
  {
    families: ["BSC"],
    degrees: "60",
    of: "cycle threads (BSC, CEI)",
    triangle: figure("0.866025"),
    effectiveOff: figure("0.5327"),
    coreOff: figure("1.0654"),
    depth: figure("0.5327"),
    source: "BS 811",
    mark: "table",
  },
  {
    families: ["NPT"],
    degrees: "60",
    of: "NPT threads",
    triangle: figure("0.866025"),
    effectiveOff: figure("0.8"),
    coreOff: figure("1.6"),
    depth: figure("0.8"),
    source: "ASME B1.20.1",
    mark: "memory",
  },
];

export function formOf(family: ThreadFamily): ThreadForm {
  return threadForms.find((it) => it.families.includes(family)) as ThreadForm;
}

export function flankAngleOf(family: ThreadFamily): number {
  return Number(formOf(family).degrees);
}

/** Effective (pitch) diameter and core (minor) diameter of the screw, basic, in mm. Of a taper thread at its gauge plane. */
export function diametersOf(thread: Thread): { readonly effectiveMm: Exact; readonly coreMm: Exact } {
  const form = formOf(thread.family);
  return { effectiveMm: thread.majorMm.sub(thread.pitchMm.mul(form.effectiveOff)), coreMm: thread.majorMm.sub(thread.pitchMm.mul(form.coreOff)) };
}

/** The effective and core diameter that a 20 TPI cycle thread has if it is of Whitworth form, as BS 811 notes is customary, in mm. */
export function asWhitworth(thread: Thread): { readonly effectiveMm: Exact; readonly coreMm: Exact } {
  return { effectiveMm: thread.majorMm.sub(thread.pitchMm.mul(whitworth.effectiveOff)), coreMm: thread.majorMm.sub(thread.pitchMm.mul(whitworth.coreOff)) };
}
