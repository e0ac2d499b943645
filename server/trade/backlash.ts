// Backlash of bevel gears: how it changes when a wheel is moved along its axis, and the table of what is usual.
// Invariant: an estimate, in floats, and said to be one. No figure here is a limit; the maker's figure rules.
import type { Mark } from "./source.ts";

/** Straight unless a spiral angle is given. */
export interface BevelPair {
  readonly teethOfPinion: number;
  readonly teethOfWheel: number;
  /** Pressure angle in degrees (normal, where the teeth are spiral). */
  readonly pressureAngle: number;
  /** Angle between the shafts in degrees; 90 where unsaid. */
  readonly shaftAngle?: number;
  /** Spiral angle in degrees. */
  readonly spiralAngle?: number;
}

export const backlashSource = "\u0394j = 2\u00b7\u0394a\u00b7tan \u03c6\u00b7sin \u03b4, derived from the geometry of the tooth flanks; an estimate";

/** Pitch angle of the wheel in degrees: tan δ = sin Σ / (cos Σ + z1/z2); at 90° the ratio of the teeth. */
export function pitchAngleOfWheel(pair: BevelPair): number {
  const shaft = radians(pair.shaftAngle ?? 90);
  return degrees(Math.atan2(Math.sin(shaft), Math.cos(shaft) + pair.teethOfPinion / pair.teethOfWheel));
}

/**
 * Change of circular backlash for one unit of axial move, of the wheel and of the pinion: 2·tan φ·sin δ (tan φ over cos β for spiral teeth).
 * `normal` is the same square to the tooth: 2·sin φ·sin δ. Undefined where the pair can't be: no teeth, angles out of reason.
 */
export function backlashPerMove(
  pair: BevelPair,
): { readonly wheel: number; readonly pinion: number; readonly normalWheel: number; readonly normalPinion: number } | undefined {
  const { teethOfPinion, teethOfWheel, pressureAngle, shaftAngle = 90, spiralAngle = 0 } = pair;
  const reasonable =
    teethOfPinion > 0 && teethOfWheel > 0 && pressureAngle > 0 && pressureAngle < 45 && shaftAngle > 0 && shaftAngle < 180 && Math.abs(spiralAngle) < 60;
  if (!reasonable) return undefined;
  const delta = radians(pitchAngleOfWheel(pair));
  const other = radians(shaftAngle) - delta;
  const circular = (2 * Math.tan(radians(pressureAngle))) / Math.cos(radians(spiralAngle));
  const normal = 2 * Math.sin(radians(pressureAngle));
  return {
    wheel: circular * Math.sin(delta),
    pinion: circular * Math.sin(other),
    normalWheel: normal * Math.sin(delta),
    normalPinion: normal * Math.sin(other),
  };
}

/** Backlash at the pitch circle from a dial read at another radius: in proportion to the radius. */
export function atPitchRadius(reading: number, readAt: number, pitchRadius: number): number | undefined {
  return readAt > 0 ? (reading * pitchRadius) / readAt : undefined;
}

/** Recommended normal backlash of bevel and hypoid gears by diametral pitch, inches: least and most, for quality 7 to 13 and 3 to 6. */
export const usualBacklash: readonly {
  readonly from: number;
  readonly to: number;
  readonly fine: readonly [least: string, most: string];
  readonly coarse: readonly [least: string, most: string];
  readonly source: string;
  readonly mark: Mark;
}[] = (
  [
    [1, 1.25, "0.020", "0.030", "0.045", "0.065"],
    [1.25, 1.5, "0.018", "0.026", "0.035", "0.055"],
    [1.5, 1.75, "0.016", "0.022", "0.025", "0.045"],
    [1.75, 2, "0.014", "0.018", "0.020", "0.040"],
    [2, 2.5, "0.012", "0.016", "0.020", "0.030"],
    [2.5, 3, "0.010", "0.013", "0.015", "0.025"],
    [3, 3.5, "0.008", "0.011", "0.012", "0.022"],
    [3.5, 4, "0.007", "0.009", "0.010", "0.020"],
    [4, 5, "0.006", "0.008", "0.008", "0.016"],
    [5, 6, "0.005", "0.007", "0.006", "0.013"],
    [6, 8, "0.004", "0.006", "0.005", "0.010"],
    [8, 10, "0.003", "0.005", "0.004", "0.008"],
    [10, 16, "0.002", "0.004", "0.003", "0.005"],
    [16, 20, "0.001", "0.003", "0.002", "0.004"],
  ] as const
).map(([from, to, fineLeast, fineMost, coarseLeast, coarseMost]) => ({
  from,
  to,
  fine: [fineLeast, fineMost] as const,
  coarse: [coarseLeast, coarseMost] as const,
  source: "AGMA table for bevel and hypoid gears, as quoted",
  mark: "table" as const,
}));

/** Rows of the table for a diametral pitch; two where it stands on the border of both. */
export function usualBacklashFor(diametralPitch: number): (typeof usualBacklash)[number][] {
  return usualBacklash.filter((row) => diametralPitch >= row.from && diametralPitch <= row.to);
}

function radians(angle: number): number {
  return (angle * Math.PI) / 180;
}

function degrees(angle: number): number {
  return (angle * 180) / Math.PI;
}
