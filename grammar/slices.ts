// Work in slices: whoever runs it may do something else between two of them, or give it up.
// Invariant: what comes out does not depend on how the slices were run.

export type Slices<T> = Generator<undefined, T, undefined>;

/** So many of what is gone through a slice, where nothing else is said. */
export const someAtOnce = 100;

/** All of it in one go. */
export function runThrough<T>(slices: Slices<T>): T {
  for (;;) {
    const step = slices.next();
    if (step.done === true) return step.value;
  }
}
