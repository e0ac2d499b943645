// How long the server works at one thing before it lets go first what has come in meanwhile.
// Invariant: what is worked out over several turns is of one moment's texts, or is given up.
import type { Slices } from "../service.ts";

/** In milliseconds. */
export const turnOfMany = 4;

/** What is asked between two turns. */
export interface Between {
  /** Throws what is to be answered where nobody wants it any more, or where it can't be had any more. */
  goOn(): void;
  /** Whether others go first. */
  waits(): boolean;
}

const alone: Between = { goOn() {}, waits: () => false };

/** Run for some milliseconds at a time: what comes in meanwhile goes first. */
export async function inTurns<T>(slices: Slices<T>, { goOn, waits }: Between = alone): Promise<T> {
  for (;;) {
    const until = now() + turnOfMany;
    if (!waits()) {
      do {
        const step = slices.next();
        if (step.done === true) return step.value;
      } while (now() < until);
    }
    await new Promise((resolve) => setImmediate(resolve));
    goOn();
  }
}

/** What comes out of slices, in another shape. */
export function* shaped<T, U>(slices: Slices<T>, shape: (it: T) => U): Slices<U> {
  return shape(yield* slices);
}

/** Milliseconds of a clock that nobody sets. `performance` has the same, and loads a part of Node that nothing else here needs. */
export function now(): number {
  const [seconds, nanoseconds] = process.hrtime();
  return seconds * 1000 + nanoseconds / 1e6;
}
