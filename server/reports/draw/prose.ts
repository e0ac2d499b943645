// A text with the names in it set as names: what a message puts between backticks, to be written so in the sheet, is code on a page and in Markdown, and bare words in a drawing.
// Invariant: nothing of the text is lost but the backticks of a pair; one without its fellow stays as it is.
import { type Content, html } from "./html.ts";
import { text } from "./markdown-text.ts";
import { unbroken } from "./unbroken.ts";

/** Of what a line of a sheet is made: letters, figures, quotes, and no sign that is more than itself anywhere. */
const names = /`([\p{L}\p{N}_.,:/+\-\u2026\u00b1\u00b0"'\u201c\u201d ]+)`/gu;

/** For a page. What must not be broken is kept whole, short names too: `wheel-in` has a place to break that nobody wants. */
export function prose(words: string): Content[] {
  return pieces(words, unbroken, nameMarkup);
}

/** For a heading, a label or a drawing, where code would be too much. */
export function bareWords(words: string): string {
  return words.replace(names, "$1");
}

/** For Markdown. */
export function proseInMarkdown(words: string): string {
  let first = true;
  // Only the first piece begins a line; a letter in front of the others keeps their blanks and signs from being read as a beginning.
  const plainly = (piece: string) => (first ? text(piece) : text(`x${piece}`).slice(1));
  return pieces(
    words,
    (piece) => {
      const out = plainly(piece);
      first = false;
      return [out];
    },
    (name) => {
      first = false;
      return `\`${name}\``;
    },
  ).join("");
}

function nameMarkup(name: string): Content {
  return html`<code${name.length <= most && html` class="unbroken"`}>${name}</code>`;
}

/** Longer ones would reach out of a narrow column. */
const most = 16;

function pieces<T>(words: string, plainly: (text: string) => readonly T[], asName: (name: string) => T): T[] {
  const out: T[] = [];
  let from = 0;
  const put = (text: string) => {
    if (text !== "") out.push(...plainly(text));
  };
  for (const match of words.matchAll(names)) {
    put(words.slice(from, match.index));
    out.push(asName(match[1] as string));
    from = match.index + match[0].length;
  }
  put(words.slice(from));
  return out;
}
