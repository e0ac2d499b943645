// Lines with blanks as the snippets of editors: each blank is a stop of the cursor, in the order in which they are written.
// Invariant: what is typed over no stop comes out as the text was.

/** `stops`: how many there are already, for texts that are put in together. */
export function asSnippet(text: string, stops = 0): { readonly text: string; readonly stops: number } {
  let last = stops;
  const made = text.split(/(_{3,})/).map((part, i) => (i % 2 === 0 ? part.replace(/[\\$}]/g, "\\$&") : `\${${++last}:${part}}`));
  return { text: made.join(""), stops: last };
}
