// How long the server works at one thing before it lets go first what has come in meanwhile.
import type { Slices } from "../service.ts";

/** In milliseconds. */
export const turnOfMany = 4;

/** Run for some milliseconds at a time: what comes in meanwhile goes first. */
export async function inTurns<T>(slices: Slices<T>): Promise<T> {
  for (;;) {
    const until = now() + turnOfMany;
    do {
      const step = slices.next();
      if (step.done === true) return step.value;
    } while (now() < until);
    await new Promise((resolve) => setImmediate(resolve));
  }
}

/** Milliseconds of a clock that nobody sets. `performance` has the same, and loads a part of Node that nothing else here needs. */
export function now(): number {
  const [seconds, nanoseconds] = process.hrtime();
  return seconds * 1000 + nanoseconds / 1e6;
}
