// A bolted joint under load: how much of an outside pull the bolt feels, and what is left of the clamping.
// Invariant: an estimate; stiffnesses are somebody's figures, and the bolt's real preload is known to a quarter or so either way.
import { type Exact, isNegative } from "../quantities/exact.ts";

export const jointSource = "F = Fi + C\u00b7P, C = kb/(kb + km) (Shigley, bolted joints in tension, example 8-3)";

export interface JointAnswer {
  /** Share of the outside load that the bolt takes. */
  readonly share: Exact;
  /** In the unit of preload and load. */
  readonly inBolt: Exact;
  /** What still presses the parts together; below zero they part. */
  readonly clamping: Exact;
}

/** Preload and load in one unit, the stiffness of bolt and parts in another. Undefined where a stiffness is not above zero. */
export function jointUnder(preload: Exact, load: Exact, bolt: Exact, parts: Exact): JointAnswer | undefined {
  if (isNegative(bolt) || isNegative(parts) || bolt.n === 0n || parts.n === 0n) return undefined;
  const share = bolt.div(bolt.add(parts));
  const inBolt = preload.add(share.mul(load));
  return { share, inBolt, clamping: inBolt.sub(load) };
}
