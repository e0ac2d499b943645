// Work in slices: whoever runs it may do something else between two of them, or give it up.
// Invariant: what comes out does not depend on how the slices were run.

export type Slices<T> = Generator<undefined, T, undefined>;

/** So many of what is gone through a slice, where nothing else is said. */
export const someAtOnce = 100;

/**
 * Work that several may run, each from where the last has stopped: one that is given up half-way costs the next nothing of what was done. A fault of the program is told to each.
 */
export function carriedOn<T>(slices: Slices<T>): () => Slices<T> {
  let done: (() => T) | undefined;
  return function* () {
    while (done === undefined) {
      try {
        const step = slices.next();
        if (step.done === true) done = () => step.value;
      } catch (error) {
        // A generator that threw would call itself done.
        done = () => {
          throw error;
        };
      }
      if (done === undefined) yield;
    }
    return done();
  };
}

/** Each of a list made into something else, some a slice. */
export function* mapping<T, U>(list: Iterable<T>, make: (it: T) => U): Slices<U[]> {
  const out: U[] = [];
  for (const it of list) if (out.push(make(it)) % someAtOnce === 0) yield;
  return out;
}

/** A part of some work, in a slice of its own. */
export function* apart<T>(work: () => T): Slices<T> {
  yield;
  return work();
}

/** Whether something is still to be worked out so. */
export function isSlices(it: unknown): it is Slices<never> {
  return typeof it === "object" && it !== null && "next" in it && "return" in it;
}

/** What is worked out already, or in slices. */
export function* run<T>(it: T | Slices<T>): Slices<T> {
  return isSlices(it) ? yield* it : (it as T);
}

/** All of it in one go. */
export function runThrough<T>(slices: Slices<T>): T {
  for (;;) {
    const step = slices.next();
    if (step.done === true) return step.value;
  }
}
