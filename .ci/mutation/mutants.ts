// The mutants of a run and what became of them: one file, for the run is made by one process and its tests by another.
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

export interface Mutant {
  readonly id: string;
  readonly at: string;
  readonly what: string;
  readonly was: string;
  readonly now: string;
  /** How many tests came there. */
  reached: number;
  /** Of the processor. */
  seconds: number;
  noticedBy?: string;
  /** Only reached while a module is loaded: what is worked out there once cannot be changed afterwards. */
  static?: true;
}

const path = fileURLToPath(new URL("../../.cache/mutants.json", import.meta.url));

export const readMutants = (): Mutant[] => JSON.parse(readFileSync(path, "utf8"));
export const writeMutants = (mutants: readonly Mutant[]): void => writeFileSync(path, JSON.stringify(mutants, undefined, 1));
