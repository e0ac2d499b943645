// The form of each family of threads: the angle between its flanks, and how deep the Whitworth form is cut.
// Invariant: data only, with its source at each row.
import { figure } from "../quantities/exact.ts";
import type { Sourced } from "./source.ts";
import type { ThreadFamily } from "./threads.ts";

/** Included angle of the flanks, degrees. */
export const flankAngles: readonly (Sourced & { readonly families: readonly ThreadFamily[]; readonly degrees: string; readonly of: string })[] = [
  { families: ["UNC", "UNF", "UNS"], degrees: "60", of: "unified threads (UNC, UNF)", source: "ASME B1.1", mark: "table" },
  { families: ["M"], degrees: "60", of: "ISO metric threads", source: "ISO 68-1", mark: "table" },
  { families: ["BSW", "BSF", "G"], degrees: "55", of: "Whitworth threads (BSW, BSF, BSP)", source: "BS 84", mark: "table" },
  { families: ["BA"], degrees: "47.5", of: "BA threads", source: "BS 93", mark: "table" },
  { families: ["NPT"], degrees: "60", of: "NPT threads", source: "ASME B1.20.1", mark: "memory" },
  { families: ["BSC"], degrees: "60", of: "cycle threads (BSC)", source: "BS 811", mark: "memory" },
];

/** Depth of the Whitworth form over its pitch: two thirds of the triangle, p/(3·tan 27.5°), to six figures. */
export const whitworthDepth = { perPitch: figure("0.640327"), source: "BS 84", mark: "table" } as const;
