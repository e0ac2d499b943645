// Screw threads as the trade writes them, and what each is: diameter, pitch, flank angle, hand.
// Invariant: a thread that is not in the tables is undefined, and nothing is judged by it. No nearest size is ever taken for the one that was written.
import { type Exact, exact, figure, plainText } from "../quantities/exact.ts";
import { editDistance } from "../quantities/spelling.ts";
export { type LookAlike, lookAlike, sameThread } from "./look-alikes.ts";
import type { Thread, ThreadFamily } from "./thread.ts";
import { flankAngleOf } from "./thread-forms.ts";
import { type OtherRow, baRows, baSource, inchRows, inchSource, metricRows, metricSource, otherRows, otherSource } from "./thread-tables.ts";

/** The thread of a designation; undefined where it is not in the tables, or its count is not that of the series. */
export function threadOf(designation: string, leftHand = false): Thread | undefined {
  const key = tidy(designation);
  if (key === undefined) return undefined;
  const hand = leftHand ? "L" : "R";
  const known = remembered.get(hand + key);
  if (known !== undefined) return known;
  const thread = read(key, leftHand);
  // Only spellings that are threads are kept, and not without end.
  if (thread !== undefined && remembered.size < 2000) remembered.set(hand + key, thread);
  return thread;
}

const remembered = new Map<string, Thread>();

/** Single spaces, `x` for ×, capitals, `No.` for `#` and `No`. Undefined for what is far too long. */
function tidy(designation: string): string | undefined {
  if (designation.length > 60) return undefined;
  return designation
    .trim()
    .toUpperCase()
    .replace(/[\u00d7\u2715]/g, "X")
    .replace(/\s+/g, " ")
    .replace(/^(?:NO\.?|#) ?(?=\d)/, "NO.")
    .replace(/ ?X ?/g, "X")
    .replace(/(\d) ?- ?(?=\d)/g, "$1-");
}

/** `WHITWORTH` and the like are the names that the trade has for the same series. */
const series: Readonly<Record<string, ThreadFamily>> = {
  UNC: "UNC",
  UNF: "UNF",
  UNEF: "UNEF",
  UNS: "UNS",
  BSW: "BSW",
  WHIT: "BSW",
  WHITWORTH: "BSW",
  BSF: "BSF",
  BSC: "BSC",
  CEI: "BSC",
  CYCLE: "BSC",
  BSB: "BSB",
  BRASS: "BSB",
  ME: "ME",
  R: "R",
  BSPT: "R",
  G: "G",
  BSP: "G",
  BSPP: "G",
  NPT: "NPT",
};

function read(key: string, leftHand: boolean): Thread | undefined {
  const metric = /^M(\d+(?:\.\d+)?)(?:X(\d*\.?\d+))?$/.exec(key);
  if (metric !== null) return metricThread(metric[1] as string, metric[2], leftHand);
  const ba = /^(?:NO\.)?(\d{1,2}) ?BA$/.exec(key);
  if (ba !== null) return baThread(Number(ba[1]), leftHand);
  const inch = /^(NO\.\d{1,2}|\d+-\d+\/\d+|\d+\/\d+|\d+)(?:-(\d+))? ?([A-Z]+)$/.exec(key);
  if (inch !== null) return inchThread(inch[1] as string, inch[2], series[inch[3] as string], leftHand);
  const pipe = /^(G|R|BSP|BSPP|BSPT|NPT) ?(\d+-\d+\/\d+|\d+\/\d+|\d+)(?:-(\d+))?$/.exec(key);
  if (pipe !== null) return inchThread(pipe[2] as string, pipe[3], series[pipe[1] as string], leftHand);
  return undefined;
}

const inch = figure("25.4");

function inchThread(size: string, count: string | undefined, family: ThreadFamily | undefined, leftHand: boolean): Thread | undefined {
  if (family === undefined) return undefined;
  const written = size.replace("NO.", "No.");
  const [other, ...more] = otherRows.filter((row) => row.family === family && row.size === written && (count === undefined || row.tpi === Number(count)));
  if (more.length > 0 && ofAnyCount.has(family)) return undefined;
  if (other !== undefined) return otherThread(other, leftHand);
  if (family !== "UNC" && family !== "UNF" && family !== "BSW" && family !== "BSF") return undefined;
  const row = inchRows.find((it) => it.size === written);
  const tpi = row?.[family];
  if (row === undefined || tpi === undefined || (count !== undefined && Number(count) !== tpi)) return undefined;
  const inches = majorInches(written);
  if (inches === undefined) return undefined;
  const unified = family.startsWith("UN");
  return {
    family,
    designation: `${written}-${tpi} ${family}`,
    size: written,
    majorMm: inches.mul(inch),
    pitchMm: inch.div(tpi),
    tpi,
    flankAngle: flankAngleOf(family),
    leftHand,
    ...(unified ? { stressAreaMm2: unifiedStressArea(inches, tpi).mul(inch).mul(inch) } : {}),
    source: inchSource[family],
    mark: row.mark,
  };
}

/** Series in which no count is the usual one: a size alone says nothing of the pitch. */
const ofAnyCount: ReadonlySet<ThreadFamily> = new Set(["UNS", "ME"]);

function otherThread(row: OtherRow, leftHand: boolean): Thread | undefined {
  const { family, size, tpi } = row;
  const inches = row.majorMm === undefined ? majorInches(size) : figure(row.majorMm).div(inch);
  if (inches === undefined) return undefined;
  const unified = family === "UNEF" || family === "UNS";
  return {
    family,
    designation: designationOf(row),
    size,
    majorMm: inches.mul(inch),
    pitchMm: inch.div(tpi),
    tpi,
    flankAngle: flankAngleOf(family),
    leftHand,
    ...(unified ? { stressAreaMm2: unifiedStressArea(inches, tpi).mul(inch).mul(inch) } : {}),
    source: otherSource[family],
    mark: row.mark,
  };
}

/** Pipe threads go by their size alone; the rest say their count. */
function designationOf({ family, size, tpi }: OtherRow): string {
  return family === "G" || family === "R" ? `${family} ${size}` : family === "NPT" ? `${size} NPT` : `${size}-${tpi} ${family}`;
}

function majorInches(size: string): Exact | undefined {
  if (!size.startsWith("No.")) return exact(size);
  return figure("0.060").add(figure("0.013").mul(Number(size.slice(3))));
}

function metricThread(major: string, pitch: string | undefined, leftHand: boolean): Thread | undefined {
  const written = plainOf(major);
  const row = metricRows.find((it) => it.major === written);
  if (row === undefined) return undefined;
  const wanted = pitch === undefined ? row.coarse : plainOf(pitch);
  if (wanted === undefined) return undefined;
  const fromMemory = row.fineFromMemory.includes(wanted);
  if (wanted !== row.coarse && !fromMemory && !row.fine.includes(wanted)) return undefined;
  const majorMm = figure(row.major);
  const pitchMm = figure(wanted);
  return {
    family: "M",
    designation: `M${row.major}x${wanted}`,
    size: `M${row.major}`,
    majorMm,
    pitchMm,
    flankAngle: flankAngleOf("M"),
    leftHand,
    stressAreaMm2: metricStressArea(majorMm, pitchMm),
    source: metricSource,
    mark: fromMemory ? "memory" : row.mark,
  };
}

/** `1.0` and `.75` as the table has them. */
function plainOf(text: string): string | undefined {
  const value = exact(text);
  return value === undefined ? undefined : plainText(value);
}

function baThread(number: number, leftHand: boolean): Thread | undefined {
  const row = baRows.find(([it]) => it === number);
  if (row === undefined) return undefined;
  return {
    family: "BA",
    designation: `${number} BA`,
    size: `${number} BA`,
    majorMm: figure(row[2]),
    pitchMm: figure(row[1]),
    flankAngle: flankAngleOf("BA"),
    leftHand,
    source: baSource,
    mark: "table",
  };
}

/** Tensile stress area in in² of a unified thread, ASME B1.1: 0.7854·(D − 0.9743/n)², D in inches, n threads per inch. */
function unifiedStressArea(inches: Exact, tpi: number): Exact {
  const mean = inches.sub(figure("0.9743").div(tpi));
  return mean.mul(mean).mul(figure("0.7854"));
}

/** π to 40 digits. */
const pi = figure("3.141592653589793238462643383279502884197");

/** Nominal stress area in mm² of a metric thread, ISO 898-1: π/4·(d − 0.9382·P)², the mean of d2 and d3. */
function metricStressArea(majorMm: Exact, pitchMm: Exact): Exact {
  const mean = majorMm.sub(figure("0.9382").mul(pitchMm));
  return mean.mul(mean).mul(pi).div(4);
}

/** Every thread that a designation without its series, or with a count that its series has not got, may mean: `5/8-18` → 5/8-18 UNF. */
export function threadReadings(designation: string): string[] {
  const key = tidy(designation);
  if (key === undefined || pipeSize(key) !== undefined) return [];
  const found = /^(NO\.\d{1,2}|\d+-\d+\/\d+|\d+\/\d+|\d+)(?:-(\d+))?(?: ?([A-Z]+))?$/.exec(key);
  if (found === null) return [];
  const size = (found[1] as string).replace("NO.", "No.");
  const count = found[2] === undefined ? undefined : Number(found[2]);
  const all = allThreads().filter(
    (it) => it.startsWith(`${size}-`) && !it.slice(size.length + 1).includes("/") && (count === undefined || it.startsWith(`${size}-${count} `)),
  );
  const series = count === undefined ? found[3] : undefined;
  const ofIt = series === undefined ? [] : all.filter((it) => it.endsWith(` ${series}`));
  if (ofIt.length > 0) return ofIt;
  // A size without its series is read as one of the four that bolts come in; the rest only where none of those has that count.
  const common = all.filter((it) => /(?:UNC|UNF|BSW|BSF)$/.test(it));
  return common.length > 0 ? common : all;
}

/** The designation that was most likely meant, for a fix. Undefined where none is near, or where two are as near. */
export function nearestThread(designation: string): string | undefined {
  const dangerous = dangerousThread(designation);
  if (dangerous !== undefined) return dangerous.meant;
  const key = tidy(designation);
  if (key === undefined || key === "") return undefined;
  const pipe = pipeSize(key);
  if (pipe !== undefined) return threadOf(`${/T$/.test(key) ? "R" : "G"} ${pipe}`)?.designation;
  // Nearly every count has some special thread: that is read into a designation only where it was written.
  const readings = threadReadings(designation).filter((it) => !uncommon.test(it));
  // The count is what was read off the bolt: where it belongs to one series alone, the series was mistaken.
  if (readings.length === 1) return readings[0];
  // A count that no series has at this size: the series as it is.
  const counted = /^(NO\.\d{1,2}|\d+-\d+\/\d+|\d+\/\d+|\d+)-\d+ ?([A-Z]+)$/.exec(key);
  const own = counted === null || readings.length > 0 ? undefined : threadOf(`${counted[1]} ${counted[2]}`);
  if (own !== undefined) return own.designation;
  // A metric thread with a hyphen before its pitch.
  const hyphened = /^(M\d+(?:\.\d+)?)-(\d*\.?\d+)$/.exec(key);
  if (hyphened !== null) return threadOf(`${hyphened[1]}x${hyphened[2]}`)?.designation;
  let best: string | undefined;
  let least = 3;
  let tied = false;
  for (const other of allThreads()) {
    if (uncommon.test(other)) continue;
    const distance = editDistance(key.replace(/ /g, ""), other.toUpperCase().replace(/ /g, ""), 2);
    if (distance < least) {
      best = other;
      least = distance;
      tied = false;
    } else if (distance === least) tied = true;
  }
  return tied ? undefined : best;
}

/** Series that no slip is taken for. */
const uncommon = / (?:UNS|ME|BSB)$|^R /;

/** The size of a British pipe thread. It is named by its bore: no bolt's thread of that figure is anything like it. ISO 228 writes G. */
function pipeSize(key: string): string | undefined {
  return /^(?:G ?|R[PC]? ?)?(\d+(?:-\d+\/\d+|\/\d+)?)(?:-\d+)? ?BSP[PT]?$/.exec(key)?.[1];
}

let every: readonly string[] | undefined;

/** Every designation in the tables, in full. */
export function allThreads(): readonly string[] {
  every ??= [
    ...inchRows.flatMap((row) =>
      (["UNC", "UNF", "BSW", "BSF"] as const).flatMap((family) => (row[family] === undefined ? [] : [`${row.size}-${row[family]} ${family}`])),
    ),
    ...metricRows.flatMap((row) => [row.coarse, ...row.fine, ...row.fineFromMemory].map((pitch) => `M${row.major}x${pitch}`)),
    ...baRows.map(([number]) => `${number} BA`),
    ...otherRows.map(designationOf),
  ];
  return every;
}

/**
 * A designation that reads as something quite different from what was meant: `10-32` is ten inches with 32 threads, where No.10-32 is 4.8 mm.
 * Undefined where the designation reads as one thing.
 */
export function dangerousThread(designation: string): { readonly meant: string; readonly why: string } | undefined {
  const found = /^(\d{1,2})-(\d+)(?: ?(UNC|UNF))?$/.exec(tidy(designation) ?? "");
  if (found === null || threadOf(designation) !== undefined) return undefined;
  const row = inchRows.find((it) => it.size === `No.${Number(found[1])}`);
  if (row === undefined) return undefined;
  const family = (["UNC", "UNF"] as const).find((it) => row[it] === Number(found[2]) && (found[3] === undefined || found[3] === it));
  if (family === undefined) return undefined;
  const major = majorInches(row.size) as Exact;
  const inches = Number(found[1]) === 1 ? "1 inch" : `${Number(found[1])} inches`;
  return {
    meant: `${row.size}-${found[2]} ${family}`,
    why: `${designation} reads as ${inches} across. The numbered size, ${plainText(major)} in, is written ${row.size}-${found[2]} ${family}.`,
  };
}
