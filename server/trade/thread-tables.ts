// The screw threads that are known: sizes and counts of each family, row by row with its source.
// Invariant: data only. A size that stands in no row is not known, and nothing is judged by it.
import type { Mark } from "./source.ts";

/** Inch families by nominal size: threads per inch. */
export interface InchRow {
  /** As the trade writes it: `5/8`, `1-1/8`, `No.10`. */
  readonly size: string;
  readonly UNC?: number;
  readonly UNF?: number;
  readonly BSW?: number;
  readonly BSF?: number;
  readonly mark: Mark;
}

/** Numbered sizes and 1-1/8 to 1-1/2 in: tables after ASME B1.1 (Shigley's table 8-2, fastener makers). Whitworth outside 1/4 to 1 in: makers' tables after BS 84. */
export const inchSource = {
  UNC: "ASME B1.1",
  UNF: "ASME B1.1",
  BSW: "BS 84",
  BSF: "BS 84",
} as const;

export const inchRows: readonly InchRow[] = [
  { size: "1/4", UNC: 20, UNF: 28, BSW: 20, BSF: 26, mark: "table" },
  { size: "5/16", UNC: 18, UNF: 24, BSW: 18, BSF: 22, mark: "table" },
  { size: "3/8", UNC: 16, UNF: 24, BSW: 16, BSF: 20, mark: "table" },
  { size: "7/16", UNC: 14, UNF: 20, BSW: 14, BSF: 18, mark: "table" },
  { size: "1/2", UNC: 13, UNF: 20, BSW: 12, BSF: 16, mark: "table" },
  { size: "9/16", UNC: 12, UNF: 18, BSW: 12, BSF: 16, mark: "table" },
  { size: "5/8", UNC: 11, UNF: 18, BSW: 11, BSF: 14, mark: "table" },
  { size: "3/4", UNC: 10, UNF: 16, BSW: 10, BSF: 12, mark: "table" },
  { size: "7/8", UNC: 9, UNF: 14, BSW: 9, BSF: 11, mark: "table" },
  { size: "1", UNC: 8, UNF: 12, BSW: 8, BSF: 10, mark: "table" },
  { size: "1-1/8", UNC: 7, UNF: 12, BSW: 7, BSF: 9, mark: "table" },
  { size: "1-1/4", UNC: 7, UNF: 12, BSW: 7, BSF: 9, mark: "table" },
  { size: "1-3/8", UNC: 6, UNF: 12, BSW: 6, BSF: 8, mark: "table" },
  { size: "1-1/2", UNC: 6, UNF: 12, BSW: 6, BSF: 8, mark: "table" },
  { size: "1-5/8", BSW: 5, BSF: 8, mark: "memory" },
  { size: "1-3/4", UNC: 5, BSW: 5, BSF: 7, mark: "memory" },
  { size: "11/16", BSW: 11, BSF: 14, mark: "memory" },
  { size: "13/16", BSW: 10, BSF: 12, mark: "memory" },
  { size: "9/32", BSF: 26, mark: "memory" },
  { size: "1/16", BSW: 60, mark: "memory" },
  { size: "3/32", BSW: 48, mark: "memory" },
  { size: "5/32", BSW: 32, mark: "memory" },
  { size: "1/8", BSW: 40, mark: "table" },
  { size: "3/16", BSW: 24, BSF: 32, mark: "table" },
  { size: "7/32", BSW: 24, BSF: 28, mark: "table" },
  // Numbered sizes: the major diameter is 0.060 in + 0.013 in × the number.
  { size: "No.0", UNF: 80, mark: "table" },
  { size: "No.1", UNC: 64, UNF: 72, mark: "table" },
  { size: "No.2", UNC: 56, UNF: 64, mark: "table" },
  { size: "No.3", UNC: 48, UNF: 56, mark: "table" },
  { size: "No.4", UNC: 40, UNF: 48, mark: "table" },
  { size: "No.5", UNC: 40, UNF: 44, mark: "table" },
  { size: "No.6", UNC: 32, UNF: 40, mark: "table" },
  { size: "No.8", UNC: 32, UNF: 36, mark: "table" },
  { size: "No.10", UNC: 24, UNF: 32, mark: "table" },
  { size: "No.12", UNC: 24, UNF: 28, mark: "table" },
];

/** ISO metric: coarse pitch, then fine pitches, mm (ISO 261 and 262). `memory` lists the fine pitches that no table was seen for. */
export interface MetricRow {
  readonly major: string;
  readonly coarse: string;
  readonly fine: readonly string[];
  readonly fineFromMemory: readonly string[];
  readonly mark: Mark;
}

export const metricSource = "ISO 261 and ISO 262";

export const metricRows: readonly MetricRow[] = [
  { major: "1.6", coarse: "0.35", fine: [], fineFromMemory: ["0.2"], mark: "memory" },
  { major: "2", coarse: "0.4", fine: ["0.25"], fineFromMemory: [], mark: "table" },
  { major: "2.5", coarse: "0.45", fine: ["0.35"], fineFromMemory: [], mark: "table" },
  { major: "3", coarse: "0.5", fine: ["0.35"], fineFromMemory: [], mark: "table" },
  { major: "3.5", coarse: "0.6", fine: [], fineFromMemory: ["0.35"], mark: "memory" },
  { major: "4", coarse: "0.7", fine: ["0.5"], fineFromMemory: [], mark: "table" },
  { major: "5", coarse: "0.8", fine: ["0.5"], fineFromMemory: [], mark: "table" },
  { major: "6", coarse: "1", fine: ["0.75"], fineFromMemory: [], mark: "table" },
  { major: "7", coarse: "1", fine: ["0.75"], fineFromMemory: [], mark: "table" },
  { major: "8", coarse: "1.25", fine: ["1", "0.75"], fineFromMemory: [], mark: "table" },
  { major: "10", coarse: "1.5", fine: ["1.25", "1"], fineFromMemory: ["0.75"], mark: "table" },
  { major: "12", coarse: "1.75", fine: ["1.5", "1.25"], fineFromMemory: ["1"], mark: "table" },
  { major: "14", coarse: "2", fine: ["1.5"], fineFromMemory: ["1.25", "1"], mark: "table" },
  { major: "16", coarse: "2", fine: ["1.5"], fineFromMemory: ["1"], mark: "table" },
  { major: "18", coarse: "2.5", fine: ["2", "1.5"], fineFromMemory: ["1"], mark: "table" },
  { major: "20", coarse: "2.5", fine: ["2", "1.5"], fineFromMemory: ["1"], mark: "table" },
  { major: "22", coarse: "2.5", fine: ["2", "1.5"], fineFromMemory: ["1"], mark: "table" },
  { major: "24", coarse: "3", fine: ["2"], fineFromMemory: ["1.5", "1"], mark: "table" },
  { major: "27", coarse: "3", fine: ["2"], fineFromMemory: ["1.5"], mark: "table" },
  { major: "30", coarse: "3.5", fine: ["2"], fineFromMemory: ["1.5"], mark: "table" },
  { major: "33", coarse: "3.5", fine: ["2"], fineFromMemory: ["1.5"], mark: "table" },
  { major: "36", coarse: "4", fine: ["3"], fineFromMemory: ["2", "1.5"], mark: "table" },
  { major: "39", coarse: "4", fine: [], fineFromMemory: ["3", "2", "1.5"], mark: "memory" },
  { major: "42", coarse: "4.5", fine: [], fineFromMemory: ["4", "3", "2", "1.5"], mark: "memory" },
  { major: "45", coarse: "4.5", fine: [], fineFromMemory: ["4", "3", "2", "1.5"], mark: "memory" },
  { major: "48", coarse: "5", fine: [], fineFromMemory: ["4", "3", "2", "1.5"], mark: "memory" },
];

/** BS 93: pitch 0.9ⁿ and major diameter 6·p^1.2, each to two significant figures. */
export const baSource = "BS 93";

export const baRows: readonly (readonly [number: number, pitch: string, major: string])[] = [
  [0, "1.0", "6.0"],
  [1, "0.9", "5.3"],
  [2, "0.81", "4.7"],
  [3, "0.73", "4.1"],
  [4, "0.66", "3.6"],
  [5, "0.59", "3.2"],
  [6, "0.53", "2.8"],
  [7, "0.48", "2.5"],
  [8, "0.43", "2.2"],
  [9, "0.39", "1.9"],
  [10, "0.35", "1.7"],
  [11, "0.31", "1.5"],
  [12, "0.28", "1.3"],
  [13, "0.25", "1.2"],
  [14, "0.23", "1.0"],
  [15, "0.21", "0.90"],
  [16, "0.19", "0.79"],
];

export type OtherFamily = "UNEF" | "UNS" | "BSC" | "BSB" | "ME" | "G" | "R" | "NPT";

export interface OtherRow {
  readonly family: OtherFamily;
  readonly size: string;
  readonly tpi: number;
  /** Where the size does not say it: pipe threads are named by the bore. */
  readonly majorMm?: string;
  readonly mark: Mark;
}

/** Each family that old machines carry beside the common ones: where it is from. */
export const otherSource: Readonly<Record<OtherFamily, string>> = {
  UNEF: "ASME B1.1",
  UNS: "ASME B1.1",
  BSC: "BS 811 (cycle thread, CEI)",
  BSB: "British Standard Brass, Whitworth form at 26 threads an inch",
  ME: "model engineers' series, Whitworth form",
  G: "ISO 228-1",
  R: "ISO 7-1 (BS 21)",
  NPT: "ASME B1.20.1",
};

/** Sizes of one count; where a size has two, the first is the one that is meant when no count is said, but in series that have no usual one (`ofAnyCount`). */
export const otherRows: readonly OtherRow[] = [
  ...same("UNEF", 32, "table", "No.12 1/4 5/16 3/8"),
  ...same("UNEF", 28, "table", "7/16 1/2"),
  ...same("UNEF", 24, "table", "9/16 5/8 11/16"),
  ...same("UNEF", 20, "table", "3/4 13/16 7/8 15/16 1"),
  ...same("UNEF", 18, "memory", "1-1/16 1-1/8 1-3/16 1-1/4 1-5/16 1-3/8 1-7/16 1-1/2"),
  ...same("UNS", 14, "table", "1"),
  ...same("UNS", 14, "memory", "1/2 9/16 5/8 3/4"),
  ...same("UNS", 18, "table", "7/8"),
  ...same("UNS", 18, "memory", "3/8 7/16 1/2 3/4 1"),
  ...same("UNS", 12, "memory", "1/2"),
  ...same("UNS", 10, "memory", "7/8 1"),
  ...same("UNS", 24, "memory", "1/4 7/16 1/2 3/4 7/8 1"),
  ...same("UNS", 27, "memory", "1/4 5/16 3/8 7/16 1/2 9/16 5/8 3/4 7/8 1"),
  ...same("UNS", 28, "memory", "No.10"),
  ...same("UNS", 36, "memory", "No.10 No.12 1/4 5/16 3/8"),
  ...same("UNS", 40, "memory", "No.10 No.12 1/4 5/16 3/8"),
  ...same("BSC", 26, "table", "7/32 1/4 9/32 5/16 3/8 7/16 1/2 9/16 5/8 3/4 1"),
  ...same("BSC", 26, "memory", "11/16 7/8"),
  ...same("BSC", 20, "table", "1/2 5/8"),
  ...same("BSC", 20, "memory", "7/16 9/16 11/16 3/4 7/8 1"),
  ...same("BSC", 32, "table", "5/32 3/16"),
  ...same("BSC", 40, "memory", "1/8"),
  ...same("BSB", 26, "table", "3/8 3/4 7/8"),
  ...same("BSB", 26, "memory", "1/8 3/16 1/4 5/16 7/16 1/2 9/16 5/8 1 1-1/8 1-1/4 1-1/2"),
  ...same("ME", 40, "table", "1/8 5/32 3/16 7/32 1/4 5/16 3/8"),
  ...same("ME", 40, "memory", "9/32 7/16 1/2"),
  ...same("ME", 32, "table", "9/32 5/16 3/8"),
  ...same("ME", 32, "memory", "3/16 7/32 1/4 7/16 1/2"),
  ...pipes("G"),
  ...pipes("R"),
  { family: "NPT", size: "1/16", tpi: 27, majorMm: "7.938", mark: "memory" },
  { family: "NPT", size: "1/8", tpi: 27, majorMm: "10.287", mark: "memory" },
  { family: "NPT", size: "1/4", tpi: 18, majorMm: "13.716", mark: "memory" },
  { family: "NPT", size: "3/8", tpi: 18, majorMm: "17.145", mark: "memory" },
  { family: "NPT", size: "1/2", tpi: 14, majorMm: "21.336", mark: "memory" },
  { family: "NPT", size: "3/4", tpi: 14, majorMm: "26.670", mark: "memory" },
];

function same(family: OtherFamily, tpi: number, mark: Mark, sizes: string): OtherRow[] {
  return sizes.split(" ").map((size) => ({ family, size, tpi, mark }));
}

/** ISO 228-1, and at the gauge plane ISO 7-1: over the crests, mm. */
function pipes(family: "G" | "R"): OtherRow[] {
  const rows = [
    ["1/16", 28, "7.723"],
    ["1/8", 28, "9.728"],
    ["1/4", 19, "13.157"],
    ["3/8", 19, "16.662"],
    ["1/2", 14, "20.955"],
    ["5/8", 14, "22.911"],
    ["3/4", 14, "26.441"],
    ["7/8", 14, "30.201"],
    ["1", 11, "33.249"],
    ["1-1/8", 11, "37.897"],
    ["1-1/4", 11, "41.910"],
    ["1-1/2", 11, "47.803"],
    ["1-3/4", 11, "53.746"],
    ["2", 11, "59.614"],
    ["2-1/4", 11, "65.710"],
    ["2-1/2", 11, "75.184"],
    ["2-3/4", 11, "81.534"],
    ["3", 11, "87.884"],
  ] as const;
  return rows
    .filter(([size]) => family === "G" || !["5/8", "7/8", "1-1/8", "1-3/4", "2-1/4", "2-3/4"].includes(size))
    .map(([size, tpi, majorMm]) => ({ family, size, tpi, majorMm, mark: "table" as const }));
}
