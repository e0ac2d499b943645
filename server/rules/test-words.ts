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
    if (undone.test(it)) {
      const isTried = clauses.some((other, at) => at !== i && runs.test(other) && !ahead.test(other));
      return !(isTried || pastUndone.test(rest) || /\bgood\b/i.test(text) || (clauses.length > 1 && underSome.test(it)));
    }
    return !(past.test(rest) || triedSince.test(rest) || asMeant.test(rest));
  });
}

const undone =
  /^((will|is|are|has|have|still) )?to be (done|tried|tested|run)\b|^will be (done|tried|tested|run)\b|^still to (do\b|be\b(?! (polish|paint|letter|lined|trimm|waxed)))|^not (yet(?! (above|over|beyond|up to|run in|at full|at speed|in top|bedded))|done|tried|tested)\b|^never tried\b|^untested\b|^(it )?(was|could) ?n[o']t (be )?(tried|tested|driven)( yet)?$|^not (pumped|driven|ridden|run|lifted|loaded|towed|steamed|braked|hauled|wound|sailed)( yet| at all| up)?$/i;
/** The whole text: nothing stands there. */
const nothing = /^\s*(none|nil|nothing|n\/a|no test|not driven( yet)?|-+|\.+|\?+)\.?\s*$/i;
/** How far, how long or how often it ran all the same: “not towed: driven ten miles”. */
const runs =
  /\b(\d+|an?|half|one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|thirty|forty|fifty|several|some) (an |of an )?(laps?|stops?|miles?|mi|km|hours?|minutes?|min|times|lifts?|trips?|turns?|runs?)\b|\b(all|both|every|each) (four |three |five )?(gears?|directions?|locks?|ways?)\b|\b(out|there) and back\b|\braised and held\b/i;
const ahead = /\b(to (be|do|go|the|come)|will|shall|when|once|until|no|not|never|without|next|away|from here|left)\b/i;
/** What it does so by its nature or its setting. */
const asMeant =
  /\bas (it|they|packing|glands?|\w+s) (must|should|do|does|ought)\b(?! not)|\bas (set|drawn|made|designed|meant|its fellow|the (maker|book|others?))\b|\bwhich is right\b|\bby design\b|\bat (its|the) set (torque|load)\b/i;
/** Tried, but for some weather or speed. */
const underSome = /\b(tried|tested|untested) (in (the )?(wet|rain|dark|snow)|at (speed|night)|(above|over|beyond) \d)/i;
const past =
  /\b((?<!now and )then|now(?! and then)|again|cured|gone|freed|put right|passed|back (in|after|within)|recover(s|ed)?|settle[sd]|(on|with|down) (the )?camber|thermostat opened)\b/i;
const pastUndone = new RegExp(`${past.source}|\\bfirst \\d+ \\w+ done\\b|\\bfirst \\d+ done\\b`, "i");
/** Something was changed, and it was run or tried after that. */
const triedSince =
  /\b(?<!to be )(changed|renewed|replaced|adjusted|backed off|bled)\b.*[,;].*\b(ran|run|dry|cool|tried|good|quiet|straight|holds?|lights|works|miles?|km)\b/i;
const wentBadly =
  /\b(failed|fails)\b(?! (to (find|fault|make|show|detect|see|hear|feel|provoke|leak|slip|fade|bind|break|knock)|safe)\b|.* as (it|they) should)|\b(did not|didn't|does not|doesn't) pass\b|\bpulls (hard |badly |a little |slightly )?(to )?(the )?(left|right|one side)\b(?! (up|away|through|hand|bank)\b| and (to )?(the )?(left|right) alike\b| of the drum\b)|\bstill (knocks|pulls(?! (up|straight|well|away))|leaks|drips|slips|binds|rubs|wanders|shakes|rattles|grinds|sticks(?! out)|clonks(?! in)|clunks|shimmies|judders|wobbles|creeps|jumps out)\b|\b(ran|runs|got|gets) (too |very )?hot\b(?! (water|oil|evenly|alike|enough)\b)|\bseized\b|\bbrakes? fades?\b/i;
/** It says that it did not, or when it last did. */
const answered = /\b(no|nothing|none|never|nor|neither|without|longer|passed|where|when|before|last|until|if|cannot)\b|\bnot\b(?! pass)|(?<!did|does)n't\b/i;

/** Of a look: that nobody has looked yet. What it looked like is for its own words. */
export function saysNotYet(text: string): boolean {
  return text.split(/[.,:;()–—]+/).some((it) => notYet.test(it.trim()));
}

const notYet =
  /^(still )?to be (looked at|seen(?! (from|through|by|under|with))|tried|tested|checked|measured)\b(?!.*\bagain\b)|^not (yet )?(looked at|seen|tried|tested|checked)( yet)?$|^(will|has) (still )?(to )?be (looked at|seen(?! (from|through|by|under|with))|tried|tested|checked)\b(?!.*\bagain\b)/i;
