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
  { major: "2", coarse: "0.4", fine: ["0.25"], fineFromMemory: [], mark: "table" },
  { major: "2.5", coarse: "0.45", fine: ["0.35"], fineFromMemory: [], mark: "table" },
  { major: "3", coarse: "0.5", fine: ["0.35"], fineFromMemory: [], mark: "table" },
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
];

/** Known only so that they can be told from their look-alikes. */
export const otherRows: readonly {
  readonly family: "BSC" | "UNS" | "G" | "NPT";
  readonly size: string;
  readonly tpi: number;
  readonly majorMm: string;
  readonly flankAngle: number;
  readonly source: string;
  readonly mark: Mark;
}[] = [
  { family: "BSC", size: "1/4", tpi: 26, majorMm: "6.35", flankAngle: 60, source: "BS 811 (cycle thread)", mark: "memory" },
  { family: "UNS", size: "1", tpi: 14, majorMm: "25.4", flankAngle: 60, source: "ASME B1.1", mark: "table" },
  { family: "G", size: "1/4", tpi: 19, majorMm: "13.157", flankAngle: 55, source: "ISO 228-1", mark: "table" },
  { family: "G", size: "1/2", tpi: 14, majorMm: "20.955", flankAngle: 55, source: "ISO 228-1", mark: "table" },
  { family: "NPT", size: "1/4", tpi: 18, majorMm: "13.716", flankAngle: 60, source: "ASME B1.20.1", mark: "memory" },
  { family: "NPT", size: "1/2", tpi: 14, majorMm: "21.336", flankAngle: 60, source: "ASME B1.20.1", mark: "memory" },
];
