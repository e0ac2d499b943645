// A text on its way to being read as a sheet: in slices, so that no long text keeps the server from what comes in meanwhile.
// Invariant: whoever asks for the sheet gets all of it; what was read is kept once, and nothing of the way to it.
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Slices } from "../../grammar/slices.ts";

export interface Reading {
  /** What is not read yet is read in one go. */
  sheet(): SheetText;
  isRead(): boolean;
  /** A slice at least, and for as long as it is told to go on; whether all is read. */
  readOn(goesOn: () => boolean): boolean;
  /** What is left, for another reading that begins with what comes out of this one. */
  rest(): Slices<SheetText>;
}

export function readingOf(slices: Slices<SheetText>): Reading {
  let left: Slices<SheetText> | undefined = slices;
  let sheet: SheetText | undefined;
  /** Set by a fault of the program: a generator that threw would call itself done. */
  let failed: { readonly error: unknown } | undefined;

  function step(): void {
    if (failed !== undefined) throw failed.error;
    try {
      const it = left?.next();
      if (it?.done !== true) return;
      sheet = it.value;
      left = undefined;
    } catch (error) {
      failed = { error };
      throw error;
    }
  }

  return {
    sheet() {
      while (left !== undefined) step();
      return sheet as SheetText;
    },
    isRead: () => left === undefined,
    readOn(goesOn) {
      while (left !== undefined) {
        step();
        if (!goesOn()) break;
      }
      return left === undefined;
    },
    *rest() {
      while (left !== undefined) {
        step();
        yield;
      }
      return sheet as SheetText;
    },
  };
}
