// What somebody writes who tried a machine and met a fault: “a light knock at tick-over”, “left hub hot”, “needs another shim”, “found a nut loose after”.
// It goes by part of the text, and by the plain shapes in which a fault is told: there is something to be heard, something does what it should not, something is as it should not be.
// Invariant: what is denied (“no knock”), over (“stiff at first, free after a mile”), allowed (“2 mm, limit 5”) or meant so (“as it should”) is no fault. Where a text may say that all is
// well, it does. Which words tell of a fault is common practice.
import { once } from "../model/memo.ts";
import { atFirst, clicking, clicks, cured, denied, faults, faultsDenying, longAgo, meant, meantThere, onPurpose, past } from "./fault-lists.ts";
import { tellsOfSome } from "./some-of-all.ts";
import { waysIn, waysOf } from "./ways.ts";
import { ofAPiece } from "./work-lists.ts";

/** The part of the text that tells of a fault. Undefined where none does. */
export function faultIn(text: string): string | undefined {
  if (onPurpose.test(text)) return undefined;
  const parts = partsOf(text);
  return parts.find((part, i) => {
    const after = parts.slice(i + 1);
    if (firstRun.test(parts[i - 1] ?? "") && after.some((it) => nextRun.test(it))) return false;
    return (!wasThen.test(parts[i - 1] ?? "") && (tellsOfAFault(part, after) || tellsOfSome(part, after))) || isOverItsLimit(part, parts[i + 1] ?? "");
  });
}

/** “Before, it would not hold at all.” */
export const wasThen = /^(before(?: (?:this|that|the (?:job|work|overhaul)))?|formerly|earlier|(?:as|when) (?:it|she|they) came(?: in)?)$/i;

/** “First run: chain slack; link out; second run: no thump.” */
export const firstRun = /^(on )?(the )?first (run|trial|try|outing|trip|time out|go)$/i;
export const nextRun = /\b(second|next|third) (run|trial|try|outing|trip|time|go)\b/i;

/** Nobody says so much in one breath: what is longer is looked at in pieces, so that a text that was made to be slow is not. */
const longest = /.{1,240}(?:\s|$)|.{240}/gsu;

/** Split where one statement ends and another begins; a decimal point ends none. */
function partsOf(text: string): readonly string[] {
  return text
    .split(
      /[,;:!?()–—]+|\.(?!\d)|\s-\s|\s(?=then\b)|\b(?:but|though|although|however|except(?: that| for)?|apart from|besides|shame(?: about)?|while|whereas|yet(?! to)|just the|only the)\b|\band (?=(?:an?|some|the|it|she|there|still|right|left|that|now|I|we|then)\b)/iu,
    )
    .flatMap((it) => it.match(longest) ?? [])
    .map((it) => it.trim())
    .filter((it) => it !== "");
}

/** “No wire broken”: of no such thing. */
export const deniedOutright =
  /^(and )?(no|not (a|one)( single)?|never an?) ([\w-]+ ){1,3}(broken|broke|parted|moved|slipped|crept|leaked|cracked|loose|bent|sheared|stripped|burst|frayed|jumped|adrift)( (on|in|at|by) (the|it) ?\w*)?$/i;

function tellsOfAFault(part: string, after: readonly string[]): boolean {
  if (deniedOutright.test(part)) return false;
  const rest = after.join(", ");
  const isDenied = denied.test(part) || deniedNext.test(after[0] ?? "");
  const isPast = longAgo.test(part) || atFirst.test(part) || (rest !== "" && ofTheFirst.test(part));
  if (isPast || meant.test(part) || meantThere.test(part) || after.slice(0, 3).some((it) => meant.test(it) || (inOneBreath.test(it) && meantThere.test(it)))) {
    return false;
  }
  const ways = isDenied ? waysIn(evenDenied(), part) : [...waysIn(plainly(), part), ...waysIn(evenDenied(), part)];
  return ways.some(({ sign }) => {
    const found = sign().exec(part);
    if (found === null || past.test(part.slice(0, found.index)) || (clicking.test(found[0]) && clicks.test(part))) return false;
    return !cured.test(`${part.slice(found.index + found[0].length)}, ${rest}`);
  });
}

/** Too short to tell of a thing of its own: “a drop a minute”, “the tailboard”. */
const inOneBreath = /^\S+( \S+){0,3} ?$/;

/** “Brake fade: none.” */
const deniedNext = /^((none|nil|zero)\b|(no|nothing|never|neither)( (seen|heard|felt|found|at all|any ?more|now|of it))?$)/i;
const ofTheFirst = /\bfirst (few|two|three|time|blue|blu(?:e)?ing|stop|mile|minute|hour|try|trial|run|attempt|go|outing)/i;

const plainly = once(() => [...waysOf("faults", faults), ...waysOf("ofAPiece", ofAPiece)]);
const evenDenied = once(() => waysOf("faultsDenying", faultsDenying));

/** “End float 22 thou, limit is 12”: of what is the worse the more there is of it, by the words themselves. */
function isOverItsLimit(part: string, next: string): boolean {
  const [, read] =
    /\b(?:run-?out|(?:end |side )?float|(?:end |side |free )?play|wobble|slack|clearance|temp(?:erature)?|rock|lift|eccentricity)\b\D*(\d+(?:\.\d+)?)/iu.exec(
      part,
    ) ?? [];
  const limit = /\b(?:limit|allowed|permitted|allows|max(?:imum)?|book|wants|no more than)\b\D*(\d+(?:\.\d+)?)(?![\d.]| ?(?:to|-|\.\.|or more))/iu;
  const [, most] = (read === undefined ? undefined : (limit.exec(part.slice(part.indexOf(read) + read.length)) ?? limit.exec(next))) ?? [];
  return read !== undefined && most !== undefined && Number(read) > Number(most);
}
