// What the first keys would wait for: the engine makes quick what has run often, and the first twenty checks take up to twice as long as those behind them. So what a key
// asks for is gone through beforehand with a sheet that is open, while nobody types.
// Invariant: nothing comes of it but time. It lets go first whatever comes in, is given up with an edit, and ends for good once it has had its share.
import type { Slices } from "../service.ts";
import { now, turnOfMany } from "./turns.ts";

/** Milliseconds in all: some fifty checks of a sheet of 500 lines. */
const share = 800;

/** What is over at once is not gone through a thousand times. */
const leastOfATurn = 1;

/** Goes through it as often as is left of the share, the `n`th time from its beginning; each call takes what the last has left of it. */
export function rehearsal(): (begin: (n: number) => Slices<unknown>, goesOn: () => boolean) => Promise<void> {
  let left = share;
  let n = 0;
  let isRunning = false;

  /** For a turn; whether it is through. */
  function turn(slices: Slices<unknown>): boolean {
    const from = now();
    let isThrough = false;
    while (!isThrough && now() < from + turnOfMany) isThrough = slices.next().done === true;
    left -= Math.max(leastOfATurn, now() - from);
    return isThrough;
  }

  return async (begin, goesOn) => {
    if (isRunning || left <= 0) return;
    isRunning = true;
    try {
      for (let slices = begin(n++); left > 0; ) {
        if (turn(slices)) slices = begin(n++);
        // What has come in meanwhile is answered in the next turn of the platform, or in the one behind it.
        for (let i = 0; i < 2; i++) await new Promise((resolve) => setImmediate(resolve));
        if (!goesOn()) return;
      }
    } catch {
      // A fault of the program is told by the check itself, and need not be met again.
      left = 0;
    } finally {
      isRunning = false;
    }
  };
}
