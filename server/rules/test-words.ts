// What the words of a test or of a look say of themselves: that it was not made, or that it went badly.
// Invariant: only the plainest words are taken; where a text may say that all is well, it does.

/** The plainest words, a clause at a time: “to be done on Monday”, “six miles: still knocks”. What was put right and tried again further on in the text is past. */
export function isNoTest(text: string): boolean {
  if (nothing.test(text)) return true;
  const clauses = text.split(/[.,:;()–—]+/).map((it) => it.trim());
  return clauses.some((it, i) => {
    // “Brake fade: none”.
    const isAnswered = answered.test(it) || /^(none|nil)\b/i.test(clauses[i + 1] ?? "");
    const bad = undone.exec(it) ?? (isAnswered ? null : wentBadly.exec(it));
    if (bad === null) return false;
    const rest = [it.slice(bad.index + bad[0].length), ...clauses.slice(i + 1)].join(", ");
    if (undone.test(it)) return !(pastUndone.test(rest) || /\bgood\b/i.test(text) || (clauses.length > 1 && underSome.test(it)));
    return !(past.test(rest) || triedSince.test(rest));
  });
}

const undone =
  /^((will|is|are|has|have|still) )?to be (done|tried|tested|run)\b|^will be (done|tried|tested|run)\b|^still to (do|be)\b|^not (yet|done|tried|tested)\b|^never tried\b|^untested\b|^(it )?(was|could) ?n[o']t (be )?(tried|tested|driven)( yet)?$|^not (pumped|driven|ridden|run|lifted|loaded|towed|steamed|braked|hauled|wound|sailed)( yet| at all| up)?$/i;
/** The whole text: nothing stands there. */
const nothing = /^\s*(none|nil|nothing|n\/a|no test|not driven( yet)?|-+|\.+|\?+)\.?\s*$/i;
/** Tried, but for some weather or speed. */
const underSome = /\b(tried|tested|untested) (in (the )?(wet|rain|dark|snow)|at (speed|night)|(above|over|beyond) \d)/i;
const past =
  /\b((?<!now and )then|now(?! and then)|again|cured|gone|put right|passed|back (in|after|within)|recover(s|ed)?|settle[sd]|(on|with|down) (the )?camber|thermostat opened)\b/i;
const pastUndone = new RegExp(`${past.source}|\\bfirst \\d+ \\w+ done\\b|\\bfirst \\d+ done\\b`, "i");
/** Something was changed, and it was run or tried after that. */
const triedSince =
  /\b(?<!to be )(changed|renewed|replaced|adjusted|backed off|bled)\b.*[,;].*\b(ran|run|dry|cool|tried|good|quiet|straight|holds?|lights|works|miles?|km)\b/i;
const wentBadly =
  /\b(failed|fails)\b(?! (to (find|fault|make|show|detect|see|hear|feel|provoke|leak|slip|fade|bind|break|knock)|safe)\b|.* as (it|they) should)|\b(did not|didn't|does not|doesn't) pass\b|\bpulls (hard |badly |a little |slightly )?(to )?(the )?(left|right|one side)\b(?! (up|away|through|hand)\b)|\bstill (knocks|pulls|leaks|drips|slips|binds|rubs|wanders|shakes|rattles|grinds|sticks|clonks|clunks|shimmies|judders|wobbles|creeps|jumps out)\b|\b(ran|runs|got|gets) (too |very )?hot\b(?! (evenly|alike|enough)\b)|\bseized\b|\bbrakes? fades?\b/i;
/** It says that it did not, or when it last did. */
const answered = /\b(no|nothing|none|never|nor|neither|without|longer|passed|where|when|before|last|until|if|cannot)\b|\bnot\b(?! pass)|(?<!did|does)n't\b/i;

/** Of a look: that nobody has looked yet. What it looked like is for its own words. */
export function saysNotYet(text: string): boolean {
  return text.split(/[.,:;()–—]+/).some((it) => notYet.test(it.trim()));
}

const notYet =
  /^(still )?to be (looked at|seen|tried|tested|checked|measured)\b|^not (yet )?(looked at|seen|tried|tested|checked)( yet)?$|^(will|has) (still )?(to )?be (looked at|seen|tried|tested|checked)\b/i;
