// What drill goes before the tap: the size that is usual for a thread, and the one that leaves three quarters of its depth.
// Invariant: the drill for 75 % is worked out from the form of the thread; a drill of the table is one that public tables agree on, or says that it is from memory.
import { type Exact, compare, exact, figure, ratio } from "../quantities/exact.ts";
import { drillNamed } from "./drill-sizes.ts";
import type { Mark, Sourced } from "./source.ts";
import { formOf } from "./thread-forms.ts";
import type { Thread } from "./thread.ts";

export interface TappingDrill extends Sourced {
  readonly mm: Exact;
  /** As it is asked for in inches: `#7`, `F`, `27/64 in`. */
  readonly name?: string;
}

type Row = readonly [size: string, drill: string, mark?: Mark];

/** Drills by name (number, letter, sixty-fourths of an inch). American tables at about 75 %; larger than 1 in and the numbered sizes from memory. */
const unc: readonly Row[] = [
  ["No.1", "#53", "memory"],
  ["No.2", "#50", "memory"],
  ["No.3", "#47", "memory"],
  ["No.4", "#43", "memory"],
  ["No.5", "#38", "memory"],
  ["No.6", "#36", "memory"],
  ["No.8", "#29", "memory"],
  ["No.10", "#25", "memory"],
  ["No.12", "#16", "memory"],
  ["1/4", "#7"],
  ["5/16", "F"],
  ["3/8", "5/16", "memory"],
  ["7/16", "U"],
  ["1/2", "27/64", "memory"],
  ["9/16", "31/64"],
  ["5/8", "17/32"],
  ["3/4", "21/32"],
  ["7/8", "49/64", "memory"],
  ["1", "7/8"],
  ["1-1/8", "63/64", "memory"],
  ["1-1/4", "1-7/64", "memory"],
  ["1-3/8", "1-7/32", "memory"],
  ["1-1/2", "1-11/32", "memory"],
];
const unf: readonly Row[] = [
  ["No.0", "3/64", "memory"],
  ["No.1", "#53", "memory"],
  ["No.2", "#50", "memory"],
  ["No.3", "#45", "memory"],
  ["No.4", "#42", "memory"],
  ["No.5", "#37", "memory"],
  ["No.6", "#33", "memory"],
  ["No.8", "#29", "memory"],
  ["No.10", "#21", "memory"],
  ["No.12", "#14", "memory"],
  ["1/4", "#3"],
  ["5/16", "I"],
  ["3/8", "Q", "memory"],
  ["7/16", "25/64", "memory"],
  ["1/2", "29/64"],
  ["9/16", "33/64"],
  ["5/8", "37/64"],
  ["3/4", "11/16", "memory"],
  ["7/8", "13/16", "memory"],
  ["1", "59/64", "memory"],
  ["1-1/8", "1-3/64", "memory"],
  ["1-1/4", "1-11/64", "memory"],
  ["1-3/8", "1-19/64", "memory"],
  ["1-1/2", "1-27/64", "memory"],
];
/** Millimetres. */
const bsw: readonly Row[] = [
  ["1/8", "2.55"],
  ["3/16", "3.7"],
  ["1/4", "5.1"],
  ["5/16", "6.5"],
  ["3/8", "7.94"],
  ["7/16", "9.25"],
  ["1/2", "10.5", "memory"],
  ["9/16", "12.1", "memory"],
  ["5/8", "13.5"],
  ["3/4", "16.25", "memory"],
  ["7/8", "19.25"],
  ["1", "22", "memory"],
];
const bsf: readonly Row[] = [
  ["3/16", "4", "memory"],
  ["1/4", "5.4"],
  ["5/16", "6.9"],
  ["3/8", "8.3"],
  ["7/16", "9.8"],
  ["1/2", "11.1"],
];
const ba: readonly Row[] = [
  ["0 BA", "5.1"],
  ["1 BA", "4.5"],
  ["2 BA", "4"],
  ["3 BA", "3.4"],
  ["4 BA", "3"],
  ["5 BA", "2.65", "memory"],
  ["6 BA", "2.3"],
  ["7 BA", "2.05", "memory"],
  ["8 BA", "1.8"],
  ["9 BA", "1.55", "memory"],
  ["10 BA", "1.4"],
];
const metricCoarse: readonly Row[] = [
  ["M1.6", "1.25", "memory"],
  ["M2", "1.6", "memory"],
  ["M2.5", "2.05", "memory"],
  ["M3", "2.5", "memory"],
  ["M3.5", "2.9", "memory"],
  ["M4", "3.3", "memory"],
  ["M5", "4.2", "memory"],
  ["M6", "5", "memory"],
  ["M8", "6.8", "memory"],
  ["M10", "8.5", "memory"],
  ["M12", "10.2"],
  ["M16", "14"],
  ["M20", "17.5"],
  ["M24", "21"],
];
const pipe: readonly Row[] = [
  ["1/8", "8.8"],
  ["1/4", "11.8"],
  ["3/8", "15.25"],
  ["1/2", "19"],
  ["5/8", "21", "memory"],
  ["3/4", "24.5"],
  ["7/8", "28.25", "memory"],
  ["1", "30.75", "memory"],
  ["1-1/4", "39.5", "memory"],
  ["1-1/2", "45", "memory"],
];
const me: Readonly<Record<number, readonly Row[]>> = {
  40: [
    ["1/8", "2.6"],
    ["5/32", "3.3"],
    ["3/16", "4.1"],
    ["7/32", "5"],
  ],
  32: [
    ["9/32", "6.35"],
    ["5/16", "7.15"],
    ["3/8", "8.75"],
  ],
};

/** The drill that public tables give for a thread. Undefined where none was seen. */
export function tableDrill(thread: Thread): TappingDrill | undefined {
  const row = rowsOf(thread).find(([size]) => size === thread.size);
  if (row !== undefined) {
    const [, drill, mark = "table"] = row;
    const named = thread.family === "UNC" || thread.family === "UNF" ? drillNamed(drill) : undefined;
    const mm = named?.inches.mul(figure("25.4")) ?? exact(drill);
    if (mm === undefined) return undefined;
    return { mm, ...(named === undefined ? {} : { name: named.name }), source: tappingSource[thread.family] ?? "tapping drill tables", mark };
  }
  // A fine metric thread takes its diameter less its pitch, as the coarse ones do, rounded.
  if (thread.family === "M") return { mm: thread.majorMm.sub(thread.pitchMm), source: "diameter less pitch, as ISO 2306 tables have it", mark: "computed" };
  return undefined;
}

function rowsOf(thread: Thread): readonly Row[] {
  switch (thread.family) {
    case "UNC":
      return unc;
    case "UNF":
      return unf;
    case "BSW":
      return bsw;
    case "BSF":
      return bsf;
    case "BA":
      return ba;
    case "G":
      return pipe;
    case "ME":
      return me[thread.tpi ?? 0] ?? [];
    case "M":
      return metricCoarse.filter(([, drill]) => compare(thread.majorMm.sub(thread.pitchMm).sub(figure(drill)).abs(), figure("0.08")) <= 0);
    default:
      return [];
  }
}

const tappingSource: Partial<Record<Thread["family"], string>> = {
  UNC: "American tap drill tables, about 75 % of thread",
  UNF: "American tap drill tables, about 75 % of thread",
  BSW: "British tapping tables (BS 1157 and after), 77 to 87 % of thread",
  BSF: "British tapping tables, about 75 % of thread",
  BA: "BA tapping tables, 70 to 80 % of thread",
  G: "BSP tap drill tables, which differ by a few tenths",
  ME: "model engineers' tables, which differ by a drill",
  M: "metric tap drill tables (diameter less pitch)",
};

/** The drill in mm that leaves this share of the thread's full depth: D less so much of twice the depth. */
export function drillForShare(thread: Thread, share: Exact): Exact {
  return thread.majorMm.sub(thread.pitchMm.mul(fullDepthTwice(thread)).mul(share));
}

/** What share of the full depth a drill leaves. */
export function shareLeft(thread: Thread, drillMm: Exact): Exact {
  return thread.majorMm.sub(drillMm).div(thread.pitchMm.mul(fullDepthTwice(thread)));
}

/** 60 degree threads are counted to 3/4 of the triangle on each side, D less 1.299038 p, as American tables do; the rest by their own depth. */
function fullDepthTwice(thread: Thread): Exact {
  const form = formOf(thread.family);
  return ["UNC", "UNF", "UNEF", "UNS", "M"].includes(thread.family) ? figure("1.299038") : form.coreOff;
}

export const usualDepth = ratio(3, 4);
