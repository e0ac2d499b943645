// How large a sheet may be to be read: one that is typed by hand, over years, is smaller by far.
import { mostLines, mostLinesLookedAt } from "../model/largest.ts";

/** In bytes. */
export const largestSheet = 5 * 1024 * 1024;

/** Why a sheet of so many bytes is not read, in words that follow its name; undefined where it is. */
export function whyTooLarge(bytes: number): string | undefined {
  if (bytes <= largestSheet) return undefined;
  return `has ${Math.ceil(bytes / 1024 / 1024)} MB; more than ${largestSheet / 1024 / 1024} MB is not read`;
}

/** The same of so many lines. */
export function whyTooLong(lines: number): string | undefined {
  return lines <= mostLines ? undefined : `has ${lines} lines; more than ${mostLines} are not read: split it, and let one sheet use the other`;
}

/** Whether how its lines are written can be looked at, though it may be too long to be worked with. */
export function canBeLookedAt(lines: number): boolean {
  return lines <= mostLinesLookedAt;
}

/** Ends as the reader of sheets counts them: CRLF, LF or CR. */
export function linesIn(text: string): number {
  let lines = 1;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) lines++;
  }
  return lines;
}
