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

/** What is known already, for who asks for it in slices. */
export function* known<T>(value: T): Slices<T> {
  yield* [];
  return value;
}

/** All of it in one go. */
export function runThrough<T>(slices: Slices<T>): T {
  for (;;) {
    const step = slices.next();
    if (step.done === true) return step.value;
  }
}
