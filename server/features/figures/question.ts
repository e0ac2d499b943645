// A question while it is being read: what has been understood is taken out of it, and what is left over at the end is named, never dropped.
// Invariant: an answer is given only where nothing but small words is left, and nothing was said twice.
import { type Answer, notKnown } from "./answer.ts";

/** A stretch of the question; `left` is what has not been understood of it yet. */
export interface Part {
  left: string;
}

export interface Question extends Part {
  /** Stretches that were split off, each behind its word. */
  readonly parts: Part[];
  /** A word that was said twice, each time with something behind it. */
  twice?: string;
}

export function questionOf(text: string): Question {
  return { left: text, parts: [] };
}

/** Stands where something was taken out, so that what stood on either side is never read as one. */
const gap = " ; ";

/** Takes the first match out. Undefined where there is none. */
export function take(part: Part, shape: RegExp): RegExpExecArray | undefined {
  const found = shape.exec(part.left);
  if (found === null) return undefined;
  cut(part, found.index, found.index + found[0].length);
  return found;
}

/** Whether it was there to be taken out; taken as often as it stands there. */
export function takeAll(part: Part, shape: RegExp): boolean {
  let any = false;
  for (let i = 0; i < 40 && take(part, shape) !== undefined; i++) any = true;
  return any;
}

export function cut(part: Part, from: number, to: number): void {
  const before = part.left.slice(0, from);
  part.left = `${before}${before.trim() === "" ? "" : gap}${part.left.slice(to)}`.trim();
}

/** The stretches of a question by the word that leads each; what stands before the first has the name "". */
export type Parts = ReadonlyMap<string, Part>;

/**
 * Splits a question at words: `{ on: "on|length", at: "at|angle" }` gives what stands behind each. The words are matched whole and without regard to capitals.
 * A word that comes twice with something behind it each time is a fault of the question.
 */
export function partsOf(question: Question, leads: Readonly<Record<string, string>>): Parts {
  const out = new Map<string, Part>();
  const text = question.left;
  const names = Object.keys(leads);
  const every = new RegExp(`(?<![\\p{L}\\p{N}.-])(?:${names.map((name) => `(${leads[name]})`).join("|")})(?![\\p{L}\\p{N}-])`, "giu");
  let at = 0;
  let lead = "";
  let word = "";
  const put = (to: number) => {
    const left = text.slice(at, to).trim();
    const before = out.get(lead);
    if (before === undefined) {
      const part = { left };
      out.set(lead, part);
      question.parts.push(part);
    } else if (bare(before.left) === "") before.left = left;
    else if (bare(left) !== "") question.twice ??= word;
  };
  for (const found of text.matchAll(every)) {
    put(found.index);
    lead = names[found.slice(1).findIndex((it) => it !== undefined)] ?? "";
    word = found[0];
    at = found.index + found[0].length;
  }
  put(text.length);
  question.left = "";
  return out;
}

/** Words that say nothing of their own. `not`, `without`, `per`, `left` and signs are none of them. */
const small = new Set(
  (
    "a an the of for to in on at by with and is are was be it its it's my me i we you your do does did will would should can could shall must need needs use used using " +
    "what what's whats how much many big large long thick which please tell give get got find know want say there this that these those when if so about into onto as from " +
    "fit fits size sizes sized usual usually normal normally proper properly right correct good best rule thumb take takes go goes going have has take put make makes work out up " +
    "old british english standard imperial figure figures value answer question roughly approximately around some any one's ones thing or hello hi thanks"
  ).split(" "),
);

/** What is left of a stretch once its small words and commas are gone. */
export function bare(text: string): string {
  return text
    .replace(/[,;:?!()\u00b7]|\.(?=\s|$)/g, " ")
    .split(/\s+/)
    .filter((it) => it !== "" && !small.has(it.toLowerCase()))
    .join(" ");
}

/** What was not understood of a whole question. */
function leftOver(question: Question): string {
  return [question.left, ...question.parts.map((it) => it.left)]
    .map(bare)
    .filter((it) => it !== "")
    .join(" … ");
}

/** The answer as it may be given: none where something was said twice or not understood. */
export function whole(question: Question, answer: Answer, ask: readonly string[]): Answer {
  if (!answer.known) return answer;
  if (question.twice !== undefined) return notKnown(`\u201c${question.twice}\u201d is said twice. Say it once.`, ...ask);
  const left = leftOver(question);
  if (left === "") return answer;
  return notKnown(`\u201c${short(left)}\u201d was not understood, so nothing is answered. Leave it out, or say it another way.`, ...ask);
}

export function short(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}\u2026` : text;
}
