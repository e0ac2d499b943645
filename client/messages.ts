// What the extension and the page of the reports say to each other.
// Invariant: plain data; each side takes what the other says as a stranger's word.

/** A report drawn anew. */
export interface ReportShown {
  readonly kind: "report";
  /** Its name among the reports: `order`. */
  readonly report: string;
  /** The sheet that it is of; another sheet is another page. */
  readonly sheet: string;
  /** A whole page. */
  readonly html: string;
  readonly reports: readonly { readonly name: string; readonly title: string }[];
  /** Of each file that rows lead to, the lines at which its entries start, from 1. */
  readonly entries: Readonly<Record<string, readonly number[]>>;
}

/** Where the cursor stands in the sheet; `follow` where the page should go to its row. */
export interface CursorAt {
  readonly kind: "cursor";
  readonly file: string;
  readonly line: number;
  readonly follow: boolean;
}

/** A photo by its path and mark, as a `data:` address. */
export interface PhotoBrought {
  readonly kind: "photo";
  readonly path: string;
  readonly mark: string;
  readonly src: string;
}

export type ToPage = ReportShown | CursorAt | PhotoBrought;

export type FromPage =
  | { readonly kind: "ready" }
  /** Turn to another report. */
  | { readonly kind: "turn"; readonly report: string }
  /** Go to a line. */
  | { readonly kind: "line"; readonly file: string; readonly line: number }
  | { readonly kind: "photo"; readonly path: string; readonly mark: string }
  | { readonly kind: "save" };
