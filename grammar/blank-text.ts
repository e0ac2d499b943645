// Which texts say nothing: left blank, or still the words that only tell what belongs there.
// Invariant: a text with words of its own is never blank, however short.

/** Words that a form, a reference or a fix puts where somebody is to write what was so. Compared whole, in small letters. */
const stillToFill: ReadonlySet<string> = new Set([
  "say why",
  "say how",
  "say where",
  "say what",
  "say who",
  "why",
  "how",
  "where",
  "what",
  "who",
  "why that is right",
  "what was done",
  "what came of it",
  "what is lost",
  "what was there instead",
  "what is there instead",
  "what was tried",
  "what was tried, and what it showed",
  "what was tried and what it showed",
  "to do",
  "todo",
  "tbd",
  "tbc",
  "to be done",
  "to be confirmed",
  "fill in",
]);

/** The text between the quotes. Nothing, underscores, dots, dashes and question marks, and crosses in a row, are no words. */
export function isBlankText(text: string): boolean {
  return /^[\s_.…?–—-]*$/.test(text) || /^\s*x{3,}\s*$/i.test(text) || stillToFill.has(text.trim().toLowerCase());
}
