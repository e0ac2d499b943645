// What is said of a position of a reading's own that is likely a slip: for a place, for another position, for a name.
// Invariant: a word of the trade for an end or a side is none.
import type { Job } from "../../../model/job.ts";
import { namesDeclared, nearOf } from "../../../model/meant.ts";
import { memo } from "../../../model/memo.ts";
import { nearestNames } from "../../../model/near.ts";
import type { Limit } from "../../../model/things.ts";
import { editDistance } from "../../../quantities/spelling.ts";
import type { Reading } from "../../../story/story.ts";
import { type JobContext, rewrite } from "../../rule.ts";
import { agreeing, called, listed, midSentence } from "../../wording.ts";

/** `readings`: those of the limit that have a position of their own; none where they are too many to be held to one another. */
export function askAfter({ job, report }: JobContext, limit: Limit, word: string, reading: Reading, isAlone: boolean, readings: readonly Reading[]): void {
  const written = reading.detail.words.find(({ text }) => text === word);
  if (job.kindsOfPlace.has(word) || job.unreadNames.has(word) || written === undefined) return;
  const at = { ...reading.where, at: written.at };
  const tell = (message: string, near: readonly string[] = []) =>
    report({ where: at, severity: "warning", message, fixes: near.map((it) => rewrite(`Write ${it}`, at, it)) });
  const thing = job.things.get(word);
  if (thing !== undefined && !thing.implied) {
    if (thing.kind === "gauge")
      tell(`\`${word}\` is a gauge, and stands where a position would. Write \`by ${word}\` behind \`measure ${limit.name} ${reading.stage}\`.`);
    if (thing.kind === "limit" && thing !== limit)
      tell(`\`${word}\` is a limit of its own, and stands where a position would. Its readings go below \`measure ${word}\`.`);
    return;
  }
  const others = isAlone ? readings.filter((it) => it !== reading && it.place === reading.place) : [];
  const near = ofTheTrade.test(word) ? [] : nearTo(job, word, reading, others);
  if (near.length > 0) {
    tell(
      `${called(limit)} ${agreeing(limit, "has")} no position \`${word}\`. ${near.map((it) => `\`${it}\``).join(" or ")} is meant, or it is one of its own.`,
      near,
    );
    return;
  }
  const left = leftOut(reading, others);
  if (left !== undefined)
    tell(
      `\`${word}\` stands in this reading alone. Before, ${midSentence(limit)} ${agreeing(limit, "was")} read at ${listed(left.before)}. Is \`${left.missing}\` meant?`,
      [left.missing],
    );
}

/** The places of the sheet and the positions of other measures that a word is likely a slip for; else the names of things. */
function nearTo(job: Job, word: string, reading: Reading, others: readonly Reading[]): readonly string[] {
  // Of two that stand once each the later is asked after.
  const isKnown = (it: Reading) => it.seq < reading.seq || others.some((one) => one !== it && one.position === it.position);
  const elsewhere = others.filter((it) => it.entry !== reading.entry && isKnown(it)).map((it) => it.position as string);
  const near = nearestNames(word, new Set([...job.kindsOfPlace.keys(), ...elsewhere]), mostOff(word)).filter((it) => isSlipFor(word, it));
  if (near.length > 0) return near;
  return nearOf(word, "piece", pieceNames(job)).filter((it) => isSlipForName(word, it));
}

const pieceNames = memo((job: Job) => namesDeclared(job.things, ["part", "fastener"]));

/** Of short words one letter, and of the shortest those in another order: `fl` and `fr` are two. */
function isSlipFor(word: string, meant: string): boolean {
  return Math.min(word.length, meant.length) >= 4 || isTurned(word, meant);
}

/** A name of many is nearer to an honest word than a place is: `seat` is none for `seal`, nor `ring` for `rings`. */
function isSlipForName(word: string, meant: string): boolean {
  if (editDistance(word.toLowerCase(), meant.toLowerCase(), 1) > 1) return false;
  return isTurned(word, meant) || (Math.min(word.length, meant.length) >= 6 && `${word}s` !== meant && `${meant}s` !== word);
}

function isTurned(word: string, meant: string): boolean {
  const sorted = (it: string) => [...it.toLowerCase()].sort().join("");
  return sorted(word) === sorted(meant);
}

function mostOff(word: string): number {
  return word.length >= 8 ? 2 : 1;
}

/**
 * Read at several positions in one measure and at as many in this, all but one the same: the one that was left out is likely meant. Of two measures alone that speak of no more than a
 * stage each: who goes on to read elsewhere reads more, or fewer.
 */
function leftOut(reading: Reading, others: readonly Reading[]): { readonly before: readonly string[]; readonly missing: string } | undefined {
  const now = others.filter((it) => it.entry === reading.entry).map((it) => it.position as string);
  const last = others.findLast((it) => it.entry !== reading.entry && it.seq < reading.seq);
  if (last === undefined || now.length === 0) return undefined;
  const before = [...new Set(others.filter((it) => it.entry === last.entry).map((it) => it.position as string))];
  const missing = before.filter((it) => !now.includes(it));
  const [one] = missing;
  return one !== undefined && missing.length === 1 && before.length === new Set(now).size + 1 ? { before, missing: one } : undefined;
}

/** Words for an end or a side, and honest ones that are a letter off one of these. */
const ofTheTrade =
  /^(?:top|bottom|front|rear|back|near|off|left|right|inner|outer|middle|mid|cent(?:re|er)|upper|lower|head|heel|toe|tail|fore|aft|north|south|east|west|port|drive[nr]?|free|male|female|gear|lift|light|tight|wear|bear|seat|seal|land|lobe|stem|bore|core|neck|deck|root|boss|rim|rib|lip|tip|key|web|flank|crown|major|minor|first|second|third|fourth|fifth|sixth|(?:in|out)(?:let|put|side|board)|inter|cold|hot|dry|wet|open|shut|long|short|high|low|before|after)$/;
