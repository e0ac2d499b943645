// Bolt strength and torque: proof stress by grade or class, proof load, T = K·d·F, and the wrench with an extension.
// Invariant: what a torque does to a bolt is an estimate and says so; a grade that is not in the table, or does not reach the size, is undefined.
import { type Exact, compare, decimalText, exact, figure, ratio, trimmed } from "../quantities/exact.ts";
import { unitOf } from "../quantities/units.ts";
import type { Mark, Sourced } from "./source.ts";
import type { Thread } from "./thread.ts";

/** SAE J429, ksi, by nominal size in inches: “over … up to and including”, but 1/4 itself is in. */
export const j429: readonly {
  readonly grade: string;
  readonly over: string;
  readonly to: string;
  readonly proofKsi: number;
  readonly yieldKsi: number;
  readonly tensileKsi: number;
  readonly mark: Mark;
}[] = [
  { grade: "1", over: "0", to: "1-1/2", proofKsi: 33, yieldKsi: 36, tensileKsi: 60, mark: "table" },
  { grade: "2", over: "0", to: "3/4", proofKsi: 55, yieldKsi: 57, tensileKsi: 74, mark: "table" },
  { grade: "2", over: "3/4", to: "1-1/2", proofKsi: 33, yieldKsi: 36, tensileKsi: 60, mark: "table" },
  { grade: "5", over: "0", to: "1", proofKsi: 85, yieldKsi: 92, tensileKsi: 120, mark: "table" },
  { grade: "5", over: "1", to: "1-1/2", proofKsi: 74, yieldKsi: 81, tensileKsi: 105, mark: "table" },
  { grade: "8", over: "0", to: "1-1/2", proofKsi: 120, yieldKsi: 130, tensileKsi: 150, mark: "table" },
];

/** ISO 898-1:2013 table 3, MPa. `over` and `to` in mm where the class changes with the size. */
export const iso898: readonly {
  readonly class: string;
  readonly over: number;
  readonly to: number;
  readonly proofMPa: number;
  readonly tensileMPa: number;
  readonly mark: Mark;
}[] = [
  { class: "4.6", over: 0, to: 39, proofMPa: 225, tensileMPa: 400, mark: "table" },
  { class: "4.8", over: 0, to: 39, proofMPa: 310, tensileMPa: 420, mark: "table" },
  { class: "5.6", over: 0, to: 39, proofMPa: 280, tensileMPa: 500, mark: "table" },
  { class: "5.8", over: 0, to: 39, proofMPa: 380, tensileMPa: 520, mark: "table" },
  { class: "6.8", over: 0, to: 39, proofMPa: 440, tensileMPa: 600, mark: "table" },
  { class: "8.8", over: 0, to: 16, proofMPa: 580, tensileMPa: 800, mark: "table" },
  { class: "8.8", over: 16, to: 39, proofMPa: 600, tensileMPa: 830, mark: "table" },
  { class: "9.8", over: 0, to: 16, proofMPa: 650, tensileMPa: 900, mark: "table" },
  { class: "10.9", over: 0, to: 39, proofMPa: 830, tensileMPa: 1040, mark: "table" },
  { class: "12.9", over: 0, to: 39, proofMPa: 970, tensileMPa: 1220, mark: "table" },
];

/** Nut factor K by surface, Shigley table 8-15. A guess about friction: ten bolts of one lot at one torque differ by a sixth either way. */
export const nutFactors: readonly { readonly surface: string; readonly k: string; readonly source: string; readonly mark: Mark }[] = [
  { surface: "non-plated", k: "0.30", source: "Shigley table 8-15", mark: "table" },
  { surface: "zinc-plated", k: "0.20", source: "Shigley table 8-15", mark: "table" },
  { surface: "lubricated", k: "0.18", source: "Shigley table 8-15", mark: "table" },
  { surface: "cadmium-plated", k: "0.16", source: "Shigley table 8-15", mark: "table" },
  { surface: "anti-seize", k: "0.12", source: "Shigley table 8-15", mark: "table" },
];

export interface Strength extends Sourced {
  /** `SAE J429 grade 5` */
  readonly name: string;
  readonly proofMPa: Exact;
  readonly tensileMPa: Exact;
  /** As the standard gives it: `85 ksi`, `580 MPa`. */
  readonly proof: string;
}

/** The strength of a grade (inch, SAE J429) or class (metric, ISO 898-1) in the size of a thread. */
export function strengthOf(thread: Thread, by: { readonly grade?: string; readonly class?: string }): Strength | undefined {
  if (by.grade !== undefined && (thread.family === "UNC" || thread.family === "UNF")) {
    const inches = thread.majorMm.div(figure("25.4"));
    if (compare(inches, ratio(1, 4)) < 0) return undefined;
    const row = j429.find((it) => it.grade === by.grade && compare(inches, figure(it.over)) > 0 && compare(inches, figure(it.to)) <= 0);
    if (row === undefined) return undefined;
    return {
      name: `SAE J429 grade ${row.grade}`,
      proofMPa: fromKsi(row.proofKsi),
      tensileMPa: fromKsi(row.tensileKsi),
      proof: `${row.proofKsi} ksi`,
      source: "SAE J429",
      mark: row.mark,
    };
  }
  if (by.class !== undefined && thread.family === "M") {
    const row = iso898.find((it) => it.class === by.class && compare(thread.majorMm, ratio(it.over)) > 0 && compare(thread.majorMm, ratio(it.to)) <= 0);
    if (row === undefined) return undefined;
    const { proofMPa, tensileMPa, mark } = row;
    return {
      name: `ISO 898-1 class ${row.class}`,
      proofMPa: ratio(proofMPa),
      tensileMPa: ratio(tensileMPa),
      proof: `${proofMPa} MPa`,
      source: "ISO 898-1:2013 table 3",
      mark,
    };
  }
  return undefined;
}

/** Proof load in N: proof stress × stress area. Undefined where the thread's standard has no stress area. */
export function proofLoad(thread: Thread, strength: Strength): Exact | undefined {
  return thread.stressAreaMm2 === undefined ? undefined : strength.proofMPa.mul(thread.stressAreaMm2);
}

/** Share of proof load that a joint is usually tightened to (Shigley eq. 8-31): 0.75 where it will be undone again, 0.90 where it stays. */
export const usualShare = { reused: figure("0.75"), permanent: figure("0.90") } as const;

/** T = K·d·F in N.m, d in mm, F in N (Shigley eq. 8-27). An estimate. */
export function torqueFor(k: Exact, diameterMm: Exact, force: Exact): Exact {
  return k.mul(diameterMm).mul(force).div(1000);
}

/** The force in N that a torque in N.m gives by the same formula. Undefined where K or d is nothing. */
export function forceFor(k: Exact, diameterMm: Exact, torque: Exact): Exact | undefined {
  const arm = k.mul(diameterMm);
  return arm.n === 0n ? undefined : torque.mul(1000).div(arm);
}

export interface ProofAnswer extends Sourced {
  /** The torque asks for more than 90 % of proof load. */
  readonly over: boolean;
  /** Per cent of proof load, as text; a decimal where a whole figure would read as the 90 % itself. */
  readonly percent: string;
  readonly strength: Strength;
}

/**
 * What share of proof load a torque (N.m) asks for by T = K·d·F. Always an estimate.
 * Undefined without grade or class in the tables, without a stress area, or with a K that can't be read or is not above 0.
 */
export function overProof(thread: Thread, by: { readonly grade?: string; readonly class?: string }, kText: string, torque: Exact): ProofAnswer | undefined {
  const k = exact(kText);
  const strength = strengthOf(thread, by);
  const load = strength === undefined ? undefined : proofLoad(thread, strength);
  if (k === undefined || compare(k, ratio(0)) <= 0 || strength === undefined || load === undefined) return undefined;
  const force = forceFor(k, thread.majorMm, torque);
  if (force === undefined) return undefined;
  const percent = force.div(load).mul(100);
  const whole = decimalText(percent, 0);
  return {
    over: compare(percent, ratio(90)) > 0,
    percent: whole === "90" ? trimmed(decimalText(percent, 2)) : whole,
    strength,
    source: `T = K\u00b7d\u00b7F (Shigley eq. 8-27); ${strength.source}`,
    mark: "computed",
  };
}

/**
 * What a torque wrench must be set to where an extension stands off its square drive: T·L/(L + E·cos θ). L is from hand to drive, E from drive to nut,
 * in any one unit; θ is 0 in line away from the hand, 90 square to it (where nothing is to be corrected), 180 back over the handle.
 * Undefined where the extension reaches back to the hand.
 */
export function wrenchSetting(torque: Exact, length: Exact, extension: Exact, degrees: number): Exact | undefined {
  const arm = length.add(extension.mul(cosine(degrees)));
  return compare(arm, ratio(0)) <= 0 || compare(length, ratio(0)) <= 0 ? undefined : torque.mul(length).div(arm);
}

/** To 15 decimals; exactly 1, 0 and −1 at the right angles. */
function cosine(degrees: number): Exact {
  if (degrees % 180 !== 0 && degrees % 90 === 0) return ratio(0);
  return exact(Math.cos((degrees * Math.PI) / 180).toFixed(15)) ?? ratio(1);
}

function fromKsi(ksi: number): Exact {
  const factor = unitOf("ksi")?.factor ?? ratio(1);
  return factor.mul(ksi).div(1000000);
}
