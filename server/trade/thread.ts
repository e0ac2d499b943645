// A screw thread: what is known of one that stands in the tables.
import type { Exact } from "../quantities/exact.ts";
import type { Sourced } from "./source.ts";
import type { OtherFamily } from "./thread-tables.ts";

export type ThreadFamily = "UNC" | "UNF" | "BSW" | "BSF" | "BA" | "M" | OtherFamily;

export interface Thread extends Sourced {
  readonly family: ThreadFamily;
  /** In full, whatever was left out: `1/2-16 BSF`, `M10x1.5`, `No.10-32 UNF`, `2 BA`. */
  readonly designation: string;
  /** The size alone: `1/2`, `No.10`, `M10`, `2 BA`. */
  readonly size: string;
  readonly majorMm: Exact;
  readonly pitchMm: Exact;
  /** Threads per inch of an inch thread. */
  readonly tpi?: number;
  /** Included angle of the flanks in degrees. */
  readonly flankAngle: number;
  readonly leftHand: boolean;
  /** Tensile stress area where the family's standard gives a formula (UN and ISO metric). */
  readonly stressAreaMm2?: Exact;
}
