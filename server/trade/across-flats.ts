// Spanners: across the flats of the usual hexagon of a thread. A Whitworth nut has two, by its age, and both are always given.
// Invariant: a size that is in no table is undefined; BA is worked out, and says so.
import { type Exact, figure } from "../quantities/exact.ts";
import type { Mark, Sourced } from "./source.ts";
import type { Thread } from "./thread.ts";

export interface AcrossFlats extends Sourced {
  /** Which hexagon: the words of the answer. */
  readonly of: string;
  /** The value's name. */
  readonly name: string;
  readonly mm: Exact;
  /** As a spanner of that system is marked. */
  readonly marked?: string;
}

/** Whitworth's old hexagon, which the spanner is marked for (1/4 W), inches. */
const oldHexagon: Readonly<Record<string, string>> = {
  "1/8": "0.338",
  "3/16": "0.445",
  "1/4": "0.525",
  "5/16": "0.600",
  "3/8": "0.710",
  "7/16": "0.820",
  "1/2": "0.920",
  "9/16": "1.010",
  "5/8": "1.100",
  "11/16": "1.200",
  "3/4": "1.300",
  "7/8": "1.480",
  "1": "1.670",
  "1-1/8": "1.860",
  "1-1/4": "2.050",
  "1-3/8": "2.220",
  "1-1/2": "2.410",
};

/** BS 1083: BSF always, BSW since the last war, inches. */
const laterHexagon: Readonly<Record<string, string>> = {
  "3/16": "0.338",
  "1/4": "0.445",
  "5/16": "0.525",
  "3/8": "0.600",
  "7/16": "0.710",
  "1/2": "0.820",
  "9/16": "0.920",
  "5/8": "1.010",
  "11/16": "1.100",
  "3/4": "1.200",
  "7/8": "1.300",
  "1": "1.480",
  "1-1/8": "1.670",
  "1-1/4": "1.860",
  "1-3/8": "2.050",
  "1-1/2": "2.220",
};
const fromMemory = new Set(["1/8", "3/16", "11/16", "1-1/8", "1-1/4", "1-3/8", "1-1/2"]);

/** ASME B18.2.1 heads; nuts of two sizes are larger (from memory). */
const unifiedHead: Readonly<Record<string, string>> = {
  "1/4": "7/16",
  "5/16": "1/2",
  "3/8": "9/16",
  "7/16": "5/8",
  "1/2": "3/4",
  "9/16": "13/16",
  "5/8": "15/16",
  "3/4": "1-1/8",
  "7/8": "1-5/16",
  "1": "1-1/2",
  "1-1/8": "1-11/16",
  "1-1/4": "1-7/8",
  "1-3/8": "2-1/16",
  "1-1/2": "2-1/4",
};
const unifiedNut: Readonly<Record<string, string>> = { "7/16": "11/16", "9/16": "7/8" };

/** ISO 4014 and 4032, mm; the older DIN size where it differs. */
const metric: Readonly<Record<string, readonly [now: string, old?: string]>> = {
  "M1.6": ["3.2"],
  M2: ["4"],
  "M2.5": ["5"],
  M3: ["5.5"],
  "M3.5": ["6"],
  M4: ["7"],
  M5: ["8"],
  M6: ["10"],
  M7: ["11"],
  M8: ["13"],
  M10: ["16", "17"],
  M12: ["18", "19"],
  M14: ["21", "22"],
  M16: ["24"],
  M18: ["27"],
  M20: ["30"],
  M22: ["34", "32"],
  M24: ["36"],
  M27: ["41"],
  M30: ["46"],
  M33: ["50"],
  M36: ["55"],
  M39: ["60"],
  M42: ["65"],
};
const metricSeen = new Set(["M8", "M10", "M12", "M20"]);

const inch = figure("25.4");
const inches = (text: string) => figure(text).mul(inch);

/** Every hexagon that is usual on a thread; none where the tables have none. */
export function acrossFlats(thread: Thread): readonly AcrossFlats[] {
  const { family, size } = thread;
  const mark: Mark = fromMemory.has(size) ? "memory" : "table";
  switch (family) {
    case "BSW":
      return [
        ...row(
          oldHexagon[size],
          { of: "the old large hexagon", name: "old hexagon", source: "Whitworth hexagons before BS 1083, as tables of spanners have them", mark },
          `${size} W`,
        ),
        ...row(laterHexagon[size], { of: "the BS 1083 hexagon, a step smaller", name: "BS 1083 hexagon", source: "BS 1083", mark }, `${size} BS`),
      ];
    case "BSF":
      return row(laterHexagon[size], { of: "the BS 1083 hexagon", name: "across flats", source: "BS 1083", mark }, `${size} BS`);
    case "UNC":
    case "UNF":
    case "UNEF": {
      const head = unifiedHead[size];
      const nut = unifiedNut[size];
      const headMark: Mark = /^1-/.test(size) || family === "UNEF" ? "memory" : "table";
      return [
        ...row(head, { of: "the bolt's head", name: "across flats", source: "ASME B18.2.1", mark: headMark }, `${head} AF`),
        ...row(nut, { of: "the nut, commonly", name: "nut across flats", source: "ASME B18.2.2", mark: "memory" }, `${nut} AF`),
      ];
    }
    case "M": {
      const [now, old] = metric[size] ?? [];
      const seen: Mark = metricSeen.has(size) ? "table" : "memory";
      return [
        ...(now === undefined
          ? []
          : [{ of: "ISO hexagon", name: "across flats", mm: figure(now), marked: `${now} mm`, source: "ISO 4014 and ISO 4032", mark: seen }]),
        ...(old === undefined
          ? []
          : [{ of: "the older DIN hexagon", name: "older across flats", mm: figure(old), marked: `${old} mm`, source: "DIN 931 and 934", mark: seen }]),
      ];
    }
    case "BA":
      return [
        {
          of: "the full-size hexagon",
          name: "across flats",
          mm: thread.majorMm.mul(figure("1.75")),
          marked: size,
          source: "1.75 times the diameter (BS 57, as quoted)",
          mark: "computed",
        },
      ];
    default:
      return [];
  }
}

function row(size: string | undefined, it: Omit<AcrossFlats, "mm">, marked: string): AcrossFlats[] {
  return size === undefined ? [] : [{ ...it, mm: inches(size), marked }];
}

/** Every hexagon of the tables, with the sizes that have it: which nuts a spanner fits. */
export function hexagonsOf(threads: readonly Thread[]): readonly (AcrossFlats & { readonly thread: Thread })[] {
  return threads.flatMap((thread) => acrossFlats(thread).map((it) => ({ ...it, thread })));
}
