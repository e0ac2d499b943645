// Text from a sheet made safe to print: nothing in it moves a cursor, breaks a line or turns the reading direction round.
// Invariant: for every text the answer is one line without control characters.

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that must not get through.
const controls = /[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g;
/** They reorder what stands behind them on the line, so that a figure reads as another. */
const directions = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

export function plain(text: string): string {
  return text.replace(controls, " ").replace(directions, "");
}
