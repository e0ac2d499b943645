// Whether two threads go together, and if not, whether one may be taken for the other and what comes of it.
// Invariant: they go together only where flank angle, diameter, pitch and hand are all equal.
import { type Exact, decimalText, trimmed } from "../quantities/exact.ts";
import type { Thread } from "./thread.ts";

/** Whether two threads go together and bear: flank angle, diameter, pitch, hand, and both or neither tapered. */
export function sameThread(a: Thread, b: Thread): boolean {
  return a.leftHand === b.leftHand && sameForm(a, b);
}

function sameForm(a: Thread, b: Thread): boolean {
  return a.flankAngle === b.flankAngle && a.majorMm.equals(b.majorMm) && a.pitchMm.equals(b.pitchMm) && tapered(a) === tapered(b);
}

function tapered(it: Thread): boolean {
  return it.family === "NPT" || it.family === "R";
}

export interface LookAlike {
  /** One sentence: what differs, and what comes of it. */
  readonly why: string;
  /** Diameter within 6 % and pitch within 10 %: one starts in the other, and may seem to fit. */
  readonly dangerous: boolean;
  readonly diameterApartMm: Exact;
  /** Of the larger pitch, in per cent. */
  readonly pitchApart: Exact;
  readonly anglesApart: number;
}

/**
 * Whether two threads that don't go together may be taken for one another: under 8 % in diameter and 18 % in pitch, or the same but for the hand.
 * Undefined where they are the same thread, or so unlike that nobody would. The bounds are engineering judgement.
 */
export function lookAlike(a: Thread, b: Thread): LookAlike | undefined {
  if (sameThread(a, b)) return undefined;
  const apart = {
    diameterApartMm: a.majorMm.sub(b.majorMm).abs(),
    pitchApart: percentApart(a.pitchMm, b.pitchMm),
    anglesApart: Math.abs(a.flankAngle - b.flankAngle),
  };
  const diameterApart = percentApart(a.majorMm, b.majorMm);
  if (diameterApart.compare(8) >= 0 || apart.pitchApart.compare(18) >= 0) return undefined;
  if (sameForm(a, b))
    return { ...apart, dangerous: true, why: `${named(a)} and ${named(b)} are alike but for the hand: one is done up by turning the other way.` };
  const dangerous = diameterApart.compare(6) < 0 && apart.pitchApart.compare(10) < 0;
  const hand = a.leftHand === b.leftHand ? "" : " They are of opposite hand as well.";
  return { ...apart, dangerous, why: `${named(a)} and ${named(b)}: ${whatComes(a, b, apart.pitchApart, apart.diameterApartMm)}${hand}` };
}

function named(it: Thread): string {
  return it.leftHand ? `${it.designation} LH` : it.designation;
}

function percentApart(a: Exact, b: Exact): Exact {
  const larger = a.compare(b) > 0 ? a : b;
  return a.sub(b).abs().div(larger).mul(100);
}

function whatComes(a: Thread, b: Thread, pitchApart: Exact, diameterApartMm: Exact): string {
  const sameDiameter = diameterApartMm.n === 0n;
  const samePitch = pitchApart.n === 0n;
  const flanks = a.flankAngle === b.flankAngle ? "" : ` The flanks are ${a.flankAngle}\u00b0 and ${b.flankAngle}\u00b0, and bear on a part only.`;
  if (tapered(a) !== tapered(b)) return `one is tapered and the other is not.${samePitch ? "" : ` The pitch differs by ${percent(pitchApart)} %.`}${flanks}`;
  if (sameDiameter && samePitch)
    return `same diameter and pitch, so they go together and look right, but the flanks are ${a.flankAngle}\u00b0 and ${b.flankAngle}\u00b0 and bear on a part only. Not for a loaded joint.`;
  if (sameDiameter) return `same diameter, but the pitch differs by ${percent(pitchApart)} %. It binds after a few turns, then strips.${flanks}`;
  const smaller = a.majorMm.compare(b.majorMm) < 0 ? a : b;
  const larger = smaller === a ? b : a;
  const near = pitchApart.compare(6) < 0 && diameterApartMm.compare(0.1) > 0;
  const comes = near
    ? `the ${smaller.designation} screw goes loosely into the ${larger.designation} nut, on a part of the thread's depth.`
    : "one starts in the other, then jams or strips.";
  return `the diameters differ by ${trimmed(decimalText(diameterApartMm, 3))} mm and the pitch by ${percent(pitchApart)} %. ${capital(comes)}${flanks}`;
}

function percent(x: Exact): string {
  return trimmed(decimalText(x, 1));
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
