// What a fastener says of itself: that it is run up and then let back, by its maker's words, or because it is an adjuster.
// Invariant: looks at words alone.
import type { Fastener } from "./things.ts";
import { lineOf } from "./things.ts";

/** `torque by feel "Tight while turning, then back one slot"`: as it is left, it was let back. Words that say that it is never to be are no such words. */
export function feltBack(fastener: Pick<Fastener, "torque">): boolean {
  const words = fastener.torque?.byFeel;
  return words !== undefined && back.test(words) && !never.test(words);
}

/**
 * An adjuster, by its title up to a comma or by its name: taken up until it rubs and let back a click or two. One that is locked, or pulled to a torque, has a line of
 * its own for that, and what only clamps an adjuster is none (“adjuster clamp bolt”).
 */
export function isAdjuster(fastener: Fastener): boolean {
  if (fastener.torque !== undefined || fastener.unread.has("torque") || fastener.unread.has("locked") || fastener.unread.has("retained")) return false;
  if (lineOf(fastener, "let-back") !== undefined || !locksItself(fastener)) return false;
  return adjuster.test((fastener.title ?? fastener.name.replaceAll("-", " ")).replace(/,.*/, ""));
}

/** Nothing is declared to lock it, or nothing by word: it stays where it is by its own clicks or its spring. */
export function locksItself(fastener: Pick<Fastener, "locking" | "unread">): boolean {
  const kind = fastener.locking?.locking.kind;
  return (kind === undefined || kind === "nothing") && !fastener.unread.has("locked") && !fastener.unread.has("retained");
}

const amount = String.raw`(?:an?|one|two|three|four|half|about|\d+(?:\/\d+| \d+\/\d+)?|¼|½|¾|1½|the)`;
const step = `(?:slots?|clicks?|flats?|turns?|notch(?:es)?|teeth|tooth|holes?|castellations?|deg(?:rees?)?|sixths?|eighths?|quarters?|twelfths?|thirds?|hair|touch|shade|cranny)`;
const eased = `(?:back(?:ed)?(?: (?:it|off|out|on))?|(?:let|turn(?:ed)?|come|bring|brought|screwed?) (?:it )?(?:back|off)|eased?(?: (?:it|off|back))?|slack(?:en(?:ed)?)?(?: (?:it|off|back))?|loosen(?:ed)?(?: it)?|off|undo|undone|unscrew(?:ed)?)`;
const back = new RegExp(
  String.raw`\b(?:${eased} (?:by |to )?(?:${amount} ){1,3}(?:(?:first|next|nearest|last|full|good|small|further) )*${step}|(?:slack(?:en(?:ed)?)?|ease[ds]?|back(?:ed)?|let|loosen(?:ed)?)(?: it)?(?: (?:off|back))? (?:un)?till? (?:it |the \w+ )?(?:\w+ ){0,3}(?:free|freely|spins?|turns?|clears?))\b`,
  "i",
);
const never = /\b(?:never|not|don't|without|nor?)\b[^.;,]{0,24}\b(?:back|eased?|slack\w*|loosen\w*|off|undo\w*)\b/i;
const adjuster = /\b(?:adjust(?:er|ing|ment)s?(?: (?:screw|nut|wheel|cam|sleeve|eccentric|square|wedge|cone|stud|bolt|snail)s?)?)$/i;
