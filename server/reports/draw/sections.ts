// What a report has to say, as data: its sections with their lists, tables and pictures, each said once. Three drawers make text, Markdown and a page of it.
// Invariant: texts are as they stand in the sheet; a drawer makes them safe for where they go.
import type { Slices } from "../../../grammar/slices.ts";
import type { Caution } from "../../trade/cautions.ts";
import type { Heading } from "./heading.ts";
import type { Content } from "./html.ts";
import type { Line } from "./line.ts";

export interface Document {
  /** “Readings”, “The way back”. */
  readonly name: string;
  readonly heading: Heading;
  /** What it comes to, in a sentence. */
  readonly headline?: string;
  /** What else must be read before anything, a sentence each. */
  readonly about?: readonly string[];
  readonly parts: Parts;
  /** Said at the foot, a sentence or two each. */
  readonly foot: readonly string[];
}

/** `false` and `undefined` leave no trace, so that a part may be written behind its condition. */
export type Parts = readonly (Part | false | undefined)[];

export type Part = Section | Words | List | Table | Picture | Cautions;

export interface Section {
  readonly kind: "section";
  readonly title: string;
  readonly parts: Parts;
  /** The sheet that its rows are of, where it is another than that of the whole: a line of it is told without its name. */
  readonly own?: string;
  /** The line that the heading leads to. */
  readonly at?: Line;
  /** How many rows there are below, where that is worth a figure. */
  readonly count?: number;
  /**
   * On a page: `advice` is no heading but what is to be done with all that is below; `card` stays whole in print; the sections in `columns` stand side by side;
   * `cautions` has a frame; `beside` has its table or list beside its picture where there is room, `named` its list beside its title.
   */
  readonly look?: "card" | "columns" | "group" | "advice" | "cautions" | "beside" | "named";
}

export interface Words {
  readonly kind: "words";
  readonly text: string;
  readonly at?: Line;
  /** `facts` are the small print of a heading, `note` is how to read what follows, `strong` is what to do, `sign` is room for a signature. */
  readonly style: "facts" | "note" | "strong" | "sign" | "plain";
  /** A name in the sheet, in front of the text on a page. */
  readonly code?: string;
}

export interface List {
  readonly kind: "list";
  readonly rows: readonly Row[];
  /** `tick`: each is to be done, with a box for a pencil. `small`: remarks. `open`: what is open, ruled, its line at the edge. */
  readonly look?: "tick" | "small" | "open";
  /** As text the place stands in front, as a terminal makes a link of it. */
  readonly placeFirst?: true;
}

export interface Row {
  readonly text: string;
  readonly at?: Line;
  /** Small behind the text: the name of a rule. */
  readonly code?: string;
  /** The other lines that it is of. */
  readonly also?: readonly Line[];
  /** As of a row of a table; its text where this is left out. */
  readonly key?: string;
  /** What a page shows in the place of the text: with room for what a hand writes. */
  readonly page?: Content;
  readonly strong?: true;
  /** Something to be seen to. */
  readonly note?: true;
  /** What belongs to it, set in below. */
  readonly below?: readonly Row[];
}

export interface Table {
  readonly kind: "table";
  /** What it is a table of, for who can't see it. */
  readonly label: string;
  /** Class names of the page's style. */
  readonly look: string;
  readonly columns: readonly Column[];
  readonly groups: readonly Group[];
  /** Whose it is, in its head as printed: a table that goes on over a page has no title there. */
  readonly whose?: string;
  /** What its rows come to, below them. */
  readonly sums?: Sums;
  /** The lines are told of what is below each row, which is no row by itself: there is no column of them. */
  readonly linesBelow?: true;
  /** A row that goes under another head is still the same row. */
  readonly sameAnywhere?: true;
  /** Markdown has a table where cells are to be compared down the column; sentences otherwise. */
  readonly inMarkdown: "table" | "sentences";
  /** As text the place stands in front, as a terminal makes a link of it. */
  readonly placeFirst?: true;
}

/** Figures that stand below those of one column, each after its title. */
export interface Sums {
  /** Which column they stand in, from 0. */
  readonly column: number;
  readonly rows: readonly {
    readonly title: string;
    readonly figure: string;
    readonly key: string;
    readonly notes?: readonly string[];
    readonly strong?: true;
  }[];
}

/** Rows under a head; without a title where there are no heads. */
export interface Group {
  readonly title?: string;
  /** Said with the title; where it is left out a page says how many rows there are. */
  readonly note?: string;
  readonly rows: readonly TableRow[];
}

export interface Column {
  readonly title: string;
  /** `figure`: set by its point. `amount`: what is to be got, to the right. `item`: what the row is of. `sign`, `code`, `whole`, `late`: as the page's style has them. `box`: to be ticked. */
  readonly look?: "figure" | "amount" | "item" | "sign" | "code" | "whole" | "late" | "box";
}

export interface TableRow {
  /** Left out where it is of no line by itself. */
  readonly at?: Line;
  /** By which a page knows the row again under its heads, whatever else it says then; its cells where this is left out. */
  readonly key?: string;
  /** The whole row in a sentence, where there is no room for columns. */
  readonly sentence: string;
  /** One a column. */
  readonly cells: readonly Cell[];
  /** What stands below the cells, over the width of the table. */
  readonly verdict?: { readonly sign: string; readonly words: string };
  /** What belongs to it, a line each. */
  readonly below?: readonly Row[];
}

/** `lines` stand one below the other and break nowhere else; `code` is small, below them, `note` something to be seen to. */
export type Cell = string | { readonly text?: string; readonly lines?: readonly string[]; readonly code?: string | undefined; readonly note?: string };

/** What a page only can show; `instead` where there is no page. */
export interface Picture {
  readonly kind: "picture";
  /** Asked for by a page alone: a photo is read for it. */
  readonly page: () => Content | Slices<Content>;
  readonly instead?: Part;
}

export interface Cautions {
  readonly kind: "cautions";
  readonly list: readonly Caution[];
}

/** A list under a heading, each row with its line where it has one; nothing where there are no rows. */
export function listOf<T extends Partial<Line>>(title: string, rows: readonly T[], words: (it: T) => string): Section | false {
  return (
    rows.length > 0 && { kind: "section", title, parts: [{ kind: "list", rows: rows.map((it) => ({ text: words(it), ...(isLine(it) ? { at: it } : {}) })) }] }
  );
}

function isLine(it: Partial<Line>): it is Line {
  return it.file !== undefined && it.line !== undefined;
}

/** Those parts of which something is to be drawn. */
export function drawn(parts: Parts): Part[] {
  return parts.filter(
    (it): it is Part => it !== undefined && it !== false && !(it.kind === "list" && it.rows.length === 0) && !(it.kind === "cautions" && it.list.length === 0),
  );
}
