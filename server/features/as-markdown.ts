// Text of a sheet as Markdown that shows it as it is written: a sign is kept from being markup where it would be, and nowhere else, for many editors show the backslash.
// Invariant: rendered as CommonMark or GitHub's, the text comes out sign by sign as it went in; none of it becomes markup, a link or HTML.

/** A paragraph. Its lines stay lines of one paragraph. */
export function asMarkdownText(text: string): string {
  return text.split("\n").map(lineAsMarkdown).join("\n");
}

/** A fence longer than any run of its own sign in the text, so that the text can't end it. */
export function fenced(text: string, language = "jobsheet"): string {
  const longest = Math.max(2, ...[...text.matchAll(/`+/g)].map((it) => it[0].length));
  const fence = "`".repeat(longest + 1);
  return `${fence}${language}\n${text}\n${fence}`;
}

function lineAsMarkdown(line: string): string {
  return (
    line
      // Four blanks at the start of a line would make it code.
      .trimStart()
      // Signs that mean something wherever they are; an underscore within a word means nothing.
      .replace(/\\(?=[!-/:-@[-`{-~]|$)|[`*[\]~]|(?<![\p{L}\p{N}])_|_(?![\p{L}\p{N}])/gu, "\\$&")
      .replace(/<(?=[\p{L}/!?])/gu, "\\<")
      .replace(/&(?=#|[\p{L}\p{N}]+;)/gu, "\\&")
      // What some readers make a link of by itself.
      .replace(/:(?=\/\/)|(?<=\bwww)\.|@/gi, "\\$&")
      // At the start of a line: a heading, a quotation, a list, a rule, an underline, a numbered list.
      .replace(/^(?=[#>=|])|^(?=[-+](?:\s|$|[-+]))|^(?=-+\s*$)/, "\\")
      .replace(/^(\d{1,9})(?=[.)](?:\s|$))/, "$1\\")
  );
}
