// How wide a text is in a drawing, where nothing can measure it: by the letters of DejaVu Sans Bold, the widest face that a `system-ui` is likely to be.
// Invariant: a text is never thought narrower than it is in the usual faces, so what is made to fit here fits on every machine.

/** The size of the letters in every drawing, in the drawing's own units. */
const size = 12;

/** How wide a drawing is: narrow enough that its letters can be read on a telephone. Figures that are longer than usual take from the axis, and never from the size of the letters. */
export const drawingWide = 372;

/** In the units of a drawing, for letters of 12. */
export function widthOf(text: string): number {
  let ems = 0;
  for (const letter of text) ems += emsOf(letter);
  return ems * size;
}

/** What fits into that width, with an ellipsis where something is left out; the whole is to be had elsewhere. */
export function cutTo(width: number, text: string): string {
  if (widthOf(text) <= width) return text;
  let out = "";
  for (const letter of text) {
    if (widthOf(`${out}${letter}\u2026`) > width) break;
    out += letter;
  }
  return `${out.trimEnd()}\u2026`;
}

/** Widths of DejaVu Sans Bold, rounded up: a figure 0.70, a sign of arithmetic 0.84, m 1.04, W 1.10; what is not of the Latin alphabet is as wide as it is high, a picture wider. */
function emsOf(letter: string): number {
  if (/[ .,:;'|!()[\]/ijlI-]/.test(letter)) return 0.47;
  if (/[W@%mM\u2026]/.test(letter)) return 1.1;
  if (/[wQOGDHNU+=<>\u00b1\u00d7\u2212\u2264\u2265~]/.test(letter)) return 0.93;
  if (/[\u0020-\u024f]/.test(letter)) return /\p{Lu}/u.test(letter) ? 0.8 : 0.72;
  return letter > "\uffff" ? 1.4 : 1.05;
}
