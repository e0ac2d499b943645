// Reads the thread that a question speaks of, as it is written (`1/2-20 UNF`) or said (`3/8 Whitworth`, `1/2 x 20 cycle thread`), with grade, class and hand.
// Invariant: all of what was written counts. A pitch or a count behind a size is never left off to make the rest a thread.
import { dangerousThread, nearestThread, threadOf, threadReadings } from "../../trade/threads.ts";
import type { Thread } from "../../trade/thread.ts";
import { type Answer, notKnown } from "./answer.ts";
import { type Part, take } from "./question.ts";

export interface Bolt {
  readonly thread?: Thread;
  /** As written, where it is no thread of the tables. */
  readonly unknown?: string;
  readonly grade?: string;
  readonly class?: string;
}

const size = "(?:No\\.? ?\\d{1,2}|#\\d{1,2}|\\d+-\\d+/\\d+|\\d+/\\d+|\\d+)";
/** As the trade says a series, and as `threadOf` takes it. */
const seriesSaid: readonly (readonly [string, string])[] = [
  ["UNEF|unified extra[ -]fine", "UNEF"],
  ["UNC|unified (?:national )?coarse|NC|USS", "UNC"],
  ["UNF|unified (?:national )?fine|NF|SAE fine", "UNF"],
  ["UNS|unified special", "UNS"],
  ["BSW|(?:British Standard )?whit(?:worth)?\\.?|B\\.S\\.W\\.?|British Standard Whitworth", "BSW"],
  ["BSF|B\\.S\\.F\\.?|British Standard Fine|whit(?:worth)? fine", "BSF"],
  ["BSPT|BSP taper|taper BSP", "BSPT"],
  ["BSPP|BSP parallel|parallel BSP|BSP|B\\.S\\.P\\.?|British Standard Pipe", "BSP"],
  ["BSB|British Standard Brass|brass(?= thread|\\b)", "BSB"],
  ["BSC|CEI|C\\.E\\.I\\.?|British Standard Cycle|cycle", "CEI"],
  ["NPTF?|American taper pipe", "NPT"],
  ["ME|model engineer(?:s|ing)?'?", "ME"],
];
const series = seriesSaid.map(([shape]) => shape).join("|");
const inch = "(?: ?(?:in|inch|inches)\\.?(?= |-|$|,))?";
const count = "(?:(?: ?- ?| ?x ?|, ?| by | )(\\d{1,2}(?:\\.5)?)(?: ?(?:tpi|t\\.p\\.i\\.?|threads?(?: (?:per|to the|an) inch)?))?(?![\\d./]))";
const start = "(?<![\\p{L}\\p{N}./+-])";
const end = "(?![\\p{L}\\p{N}/])(?!\\.\\d)";
const tail = "(?: ?threads?| ?pipe)?";

/** Size, count and series in the orders that they are said in. */
const shapes: readonly (readonly [RegExp, "metric" | "ba" | "inch" | "led" | "counted" | "g" | "bare"])[] = [
  [new RegExp(`${start}M ?(\\d+(?:\\.\\d+)?)(?:(?: ?x ?| by )(\\d*\\.?\\d+)(?: ?mm)?)?(?: pitch)?${end}`, "iu"), "metric"],
  [new RegExp(`${start}(?:No\\.? ?|#)?(\\d{1,2}) ?B\\.?A\\b\\.?`, "iu"), "ba"],
  [new RegExp(`${start}(\\d{1,2}(?:\\.5)?) ?(?:tpi|t\\.p\\.i\\.?),? (${size})${inch},? ?(${series})${tail}${end}`, "iu"), "counted"],
  [
    new RegExp(`${start}(${size})${inch}${count}?,? ?(${series})${tail}(?:,?${count}(?<=tpi|t\\.p\\.i\\.?|inch|threads?|x ?\\d+|- ?\\d+))?${end}`, "iu"),
    "inch",
  ],
  [new RegExp(`${start}(${series})${tail} ?(${size})${inch}${count}?${end}`, "iu"), "led"],
  [new RegExp(`${start}(G|Rp|Rc|R) ?(\\d+-\\d+/\\d+|\\d+/\\d+|\\d+)${inch}${end}`, "u"), "g"],
  [new RegExp(`${start}(${size})${inch}(?: ?- ?| ?x ?)(\\d{1,2})(?: ?tpi)?${end}`, "iu"), "bare"],
];

/** Takes the thread out of a stretch. Undefined where it speaks of none. */
export function takeThread(part: Part): { readonly thread?: Thread; readonly unknown?: string } | undefined {
  const leftHand = take(part, /(?<![\p{L}])(?:LH|left[ -]hand(?:ed)?)(?![\p{L}])/iu) !== undefined;
  for (const [shape, kind] of shapes) {
    const found = take(part, shape);
    if (found === undefined) continue;
    const written = writtenAs(kind, found.slice(1));
    const thread = written === undefined ? undefined : threadOf(written, leftHand);
    return thread === undefined ? { unknown: (written ?? found[0]).trim() } : { thread };
  }
  return undefined;
}

/** As `threadOf` takes it; undefined where a count is said twice. */
function writtenAs(kind: string, [a, b, c, d]: readonly (string | undefined)[]): string | undefined {
  switch (kind) {
    case "metric":
      return b === undefined ? `M${a}` : `M${a}x${b}`;
    case "ba":
      return `${a} BA`;
    case "inch":
      if (b !== undefined && d !== undefined && b !== d) return undefined;
      return `${numbered(a, b ?? d, seriesOf(c))}${(b ?? d) === undefined ? "" : `-${b ?? d}`} ${seriesOf(c)}`;
    case "led":
      return `${b}${c === undefined ? "" : `-${c}`} ${seriesOf(a)}`;
    case "counted":
      return `${b}-${a} ${seriesOf(c)}`;
    case "g":
      return a === "G" || a === "Rp" ? `G ${b}` : `R ${b}`;
    default:
      return `${a}-${b}`;
  }
}

/** `10-32 UNF` is No. 10: so small a screw is named by its number, and no bolt of so many inches has so many threads to the inch. */
function numbered(size: string | undefined, count: string | undefined, of: string): string | undefined {
  return of.startsWith("UN") && /^\d{1,2}$/.test(size ?? "") && Number(size) <= 12 && Number(count) >= 24 ? `No.${size}` : size;
}

function seriesOf(said: string | undefined): string {
  return seriesSaid.find(([shape]) => new RegExp(`^(?:${shape})$`, "i").test((said ?? "").trim()))?.[1] ?? (said ?? "").toUpperCase();
}

/** Takes thread, grade or class, and hand. */
export function takeBolt(part: Part): Bolt {
  take(part, /\b(?:SAE )?J429\b/i);
  take(part, /\bISO 898(?:-1)?\b/i);
  const grade = take(part, /\b(?:SAE )?(?:grade|gr\.?) ?(?!(?:4\.6|4\.8|5\.6|5\.8|6\.8|8\.8|9\.8)(?!\d))(\d(?:\.\d)?)(?![\d.])/i)?.[1];
  const boltClass =
    take(part, /\b(?:property )?(?:class|grade|gr\.?) ?(\d{1,2}\.\d)\b/i)?.[1] ??
    take(part, /(?<!\d[.x/ ]*)(?<![\d.,-])(?:4\.6|4\.8|5\.6|5\.8|6\.8|8\.8|9\.8|10\.9|12\.9)(?![\d.]| ?(?:mm|in|kN|N|lb|K)\b)/i)?.[0] ??
    take(part, /(?<=M ?\d[\dx. ]* )(?:4\.6|4\.8|5\.6|5\.8|6\.8|8\.8|9\.8|10\.9|12\.9)(?![\d.]| ?mm)/i)?.[0];
  const thread = takeThread(part);
  return { ...thread, ...(grade === undefined ? {} : { grade }), ...(boltClass === undefined ? {} : { class: boltClass }) };
}

/** A designation that the tables do not know, with what may be meant, each asked for in the words of `lead`. */
export function unknownThread(written: string, lead = ""): Answer {
  const asked = (threads: readonly string[]) => threads.map((it) => `${lead}${it}`);
  const readings = threadReadings(written);
  if (readings.length > 1) return notKnown(`${written} is a thread of more than one series. Say which.`, ...asked(readings));
  const dangerous = dangerousThread(written);
  if (dangerous !== undefined) return notKnown(dangerous.why, ...asked([dangerous.meant]));
  const near = readings[0] ?? nearestThread(written);
  return notKnown(
    `${written} is not in the tables of threads here, so nothing is judged by it.`,
    ...(near === undefined ? (lead === "" ? ["1/2-20 UNF", "M10", "2 BA"] : []) : asked([near])),
  );
}
