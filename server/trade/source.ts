// How sure a figure of the trade is, and where it comes from: carried by every row, so that it can be shown wherever the figure is.

/**
 * `table`: seen in a public table or page that quotes the source; `computed`: from the formula, compared with a table;
 * `data`: seen in a public data file; `memory`: written from memory, to be checked against the source before anything rests on it.
 */
export type Mark = "table" | "computed" | "data" | "memory";

export interface Sourced {
  readonly source: string;
  readonly mark: Mark;
}

/** “BS 84, from memory”: the source, and what is said beside it. */
export function sourceText(it: Sourced): string {
  return `${it.source}${markText[it.mark]}`;
}

const markText: Readonly<Record<Mark, string>> = { table: "", computed: ", computed", data: ", from a public data file", memory: ", from memory" };
