// What the words of a test or of a look say of themselves: that it was not made, or that it went badly.
// Invariant: only the plainest words are taken; where a text may say that all is well, it does.

/** The plainest words, a clause at a time: “to be done on Monday”, “six miles: still knocks”. What was put right and tried again further on in the text is past. */
export function isNoTest(text: string): boolean {
  if (nothing.test(text)) return true;
  const clauses = clausesOf(text);
  return clauses.some((it, i) => {
    const bad = undone.exec(it);
    if (bad === null) return wentBadlyIn(clauses, i);
    const isTried = clauses.some((other, at) => at !== i && runs.test(other) && !ahead.test(other));
    return !(isTried || pastUndone.test(restOf(clauses, i, bad)) || /\bgood\b/i.test(text) || (clauses.length > 1 && underSome.test(it)));
  });
}

/** The same of what it showed alone: it was tried, or looked at, and did what it should not. */
export function saysItWentBadly(text: string): boolean {
  const clauses = clausesOf(text);
  return clauses.some((_, i) => wentBadlyIn(clauses, i));
}

function wentBadlyIn(clauses: readonly string[], i: number): boolean {
  const it = clauses[i] as string;
  if (verdict.test(it) && !isPast(restOf(clauses, i, verdict.exec(it)))) return true;
  // “Brake fade: none”.
  if (answered.test(it) || /^(none|nil)\b/i.test(clauses[i + 1] ?? "")) return refused.test(it) && !isPast(restOf(clauses, i, refused.exec(it)));
  if (/\bat first\b/i.test(it) && i < clauses.length - 1) return false;
  if (heated.test(it) && clauses.slice(i + 1).some((other) => tightThen.test(other))) return false;
  return [wentBadly, ...alsoBadly].some((sign) => {
    const bad = sign.exec(it);
    return bad !== null && !whenever.test(it.slice(0, bad.index)) && !isPast(restOf(clauses, i, bad));
  });
}

/** Run at its heat for so long, to see what leaks: “ran hot half an hour, dry”. Of what got hot by itself its part is named, or nothing of a leak. */
const heated =
  /^(it |she |(the )?engine )?(ran|run) hot (for )?(about |some )?((half )?an hour|half hour|\d+ ?(min|minutes|h|hours|miles|mi)|\w+ (minutes|hours|miles))$/i;
const tightThen = /^(all |stays? |stayed |bone |quite |still )*(dry|tight|no (leaks?|weeps?|drips?|seepage|loss|steam|bubbles))\b/i;

/** Put right further on, or as it is meant to be. */
function isPast(rest: string): boolean {
  return past.test(rest) || triedSince.test(rest) || asMeant.test(rest);
}

function clausesOf(text: string): readonly string[] {
  return text.split(/[.,:;()–—]+/).map((it) => it.trim());
}

function restOf(clauses: readonly string[], i: number, bad: RegExpExecArray | null): string {
  return [(clauses[i] as string).slice(bad === null ? 0 : bad.index + bad[0].length), ...clauses.slice(i + 1)].join(", ");
}

/**
 * It was only looked at: each clause says so, or that all is well, and none that anything was moved, loaded or run. A text that says neither (“ok”, a name) is taken for a test.
 */
export function isOnlyALook(text: string): boolean {
  const clauses = clausesOf(text).filter((it) => it !== "");
  return clauses.some((it) => looked.test(it)) && clauses.every((it) => looked.test(it) || allWell.test(it)) && !tried.test(text);
}

const looked =
  /^(it |all |everything |all of it |they |the )?((\w+ )?\w+ )?(looks?|looked|appears?|seems?)\b( (to be|over|at|all right))?( (very|all|quite) )? ?(fine|good|ok(ay)?|right|well|sound|nice|tidy|healthy|straight|true|in order|as it should|over|at|it over|all round)?$|^(a )?(visual(ly)?|eye)( (check|look|inspection|inspected|checked))?( only)?( (fine|good|ok(ay)?|passed))?$|^(inspected|checked over|looked over|by eye|eyeballed|seen)( (all round|only|by eye|good|fine|ok(ay)?))?$/i;
const allWell =
  /^(all |everything )?(is )?(fine|good|ok(ay)?|well|tight|sound|in order|in place|there|tidy|no faults?|nothing (loose|wrong|amiss|seen|missing))( and (tight|good|fine|locked))?$/i;
const tried =
  /\d|\b(an?|half|one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty) (miles?|km|hours?|minutes?|stops?|laps?|turns?|lifts?|times)\b|\b(ran|run|rode|drove|driven|drive|stopped|stops|braked|braking|steered|turned|turns|spun|pulled|pushed|pumped|held|holds|lifted|loaded|leaned|tried|tested|pace|load|lock to lock|towed|rocked|shaken)\b/i;

const undone =
  /^((will|is|are|has|have|still) )?to be (done|tried|tested|run)\b|^will be (done|tried|tested|run)\b|^still to (do\b|be\b(?! (polish|paint|letter|lined|trimm|waxed)))|^not (yet(?! (above|over|beyond|up to|run in|at full|at speed|in top|bedded))|done|tried|tested)\b|^never tried\b|^untested\b|^(it )?(was|could) ?n[o']t (be )?(tried|tested|driven)( yet)?$|^not (pumped|driven|ridden|run|lifted|loaded|towed|steamed|braked|hauled|wound|sailed|flown|launched|started|swung|rung|hoisted|lowered|slewed|rowed|winched|worked|used)( yet| at all| up)?$/i;
/** The whole text: nothing stands there. */
const nothing = /^\s*(on |at )?(the )?(next|coming) [\w ]+$|^\s*(none|nil|nothing|n\/a|no test|not driven( yet)?|-+|\.+|\?+)\.?\s*$/i;
/** How far, how long or how often it ran all the same: “not towed: driven ten miles”. */
const runs =
  /\b(\d+|an?|half|one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|thirty|forty|fifty|several|some) (an |of an )?(laps?|stops?|miles?|mi|km|hours?|minutes?|min|times|lifts?|trips?|turns?|runs?)\b|\b(all|both|every|each) (four |three |five )?(gears?|directions?|locks?|ways?)\b|\b(out|there) and back\b|\braised and held\b/i;
const ahead = /\b(to (be|do|go|the|come)|will|shall|when|once|until|no|not|never|without|next|away|from here|left)\b/i;
/** What it does so by its nature or its setting. */
const asMeant =
  /\bwithin (the |its |what )?(\w+ )?(limits?|allowed|allows|book|figure|tolerance)\b|\b(is|are|as) allowed\b|\bas (it|they|packing|glands?|\w+s) (must|should|do|does|ought)\b(?! not)|\bas (set|drawn|made|designed|meant|its fellow|the (maker|book|others?))\b|\bwhich is right\b|\bby design\b|\bat (its|the) set (torque|load)\b/i;
/** Tried, but for some weather or speed. */
const underSome = /\b(tried|tested|untested) (in (the )?(wet|rain|dark|snow)|at (speed|night)|(above|over|beyond) \d)/i;
const past =
  /\b((?<!now and )then|now(?! and then)|again|cured|gone|freed|put right|passed|back (in|after|within)|recover(s|ed)?|settle[sd]|(on|with|down) (the )?camber|thermostat opened)\b/i;
const pastUndone = new RegExp(`${past.source}|\\bfirst \\d+ \\w+ done\\b|\\bfirst \\d+ done\\b`, "i");
/** Something was changed, and it was run or tried after that. */
const triedSince =
  /\b(?<!to be )(changed|renewed|replaced|adjusted|backed off|bled|nipped up|tightened|reset|repacked|eased|cleaned)\b.*[,;].*\b(ran|run|dry|cool|tried|good|quiet|straight|holds?|lights|works|miles?|km)\b/i;
/** What it should have done and did not: a `not` that is no comfort. */
const refused =
  /\b((did|does|do|would|will|could)( not|n't)|refused to|refuses to) (pass|hold(?! up)|stop(?! (once|running|for|to|short|all))|start|bite|grip|return|release|come back|pull up|let off|(dis)?engage|work|trim|latch|idle|climb|reverse|select|(self-?)?cent(re|er)|seat)\b/i;
const wentBadly =
  /\b(crept|creeps)\b(?! (up|along|in|out|over|round|past|through|forward at)\b)|\b(sank|sinks|sagged|drifted|drifts)\b(?! (evenly|smoothly|gently|to (her|its|their|the) (marks?|stops?|seat|floor))\b)|(?<!\b(noise|knock|whine|smell|smoke|rattle|squeal|sound|light)s? )\b(faded|fades)\b|(?<!\b(the|any|for|all|of|its|small|oil|air|fuel|water|steam|gas|and|or) )\bleaks\b|\b(leaked|weeps|wept|oozes|oozed|seeps|seeped)\b|\bpulled (hard |badly |a little |slightly )?((to )?the (left|right)|to (left|right|one side))\b(?! (up|away|through|hand|bank)\b| (and|then|or) (to )?(the )?(left|right)\b| of the drum\b)|\b(knocks(?! (off|out|over|in)\b)|judders|shimmies|wobbles|wanders|weaves(?! (through|between|round|past)))\b|\bshakes its head\b|\bstill ((a (bit|little)|slightly|rather|very|quite) )?(notchy|slack|loose|rough|lumpy|spongy|uneven|sticky|crooked|lop-?sided)\b|\bjump(s|ed) out of\b|\b(ropes?|chains?|welds?|hoses?|seals?|threads?|glands?|joints?|clips?|clamps?|grips?|studs?|bolts?|nuts?|springs?|linings?|rivets?|belts?|gaskets?|packing|cables?|straps?|wires?|tyres?|it) (let|lets) go\b(?! and (returned|came back|shut|closed|held)\b)|\bhooks? (let|lets) go\b(?! (afloat|together|cleanly|freely|easily|(each|every) time|(when|once|as soon as) (it was |they were )?(pulled|tripped|opened|told|asked)|(on|to|at|by) (the|a|each|every) (lever|lanyard|pull|tug|trip|knob|handle))\b)|^let go$|\blet go (under|after|(at )?(half|full)|at \d+ ?(kg|t|cwt|tons?|lb|psi|bar)\b)|\bpull(s|ed) (left|right) (under|on|when|with) (the )?brak\w*|\bgave way\b|\bcame (adrift|undone|loose)\b|\b(overheated|boiled over|ran away|burst)\b|\b(failed|fails)\b(?! (to (find|fault|make|show|detect|see|hear|feel|provoke|leak|slip|fade|bind|break|knock)|safe)\b|.* as (it|they) should)|\b(did not|didn't|does not|doesn't) pass\b|\bpulls (hard |badly |a little |slightly )?(to )?(the )?(left|right|one side)\b(?! (up|away|through|hand|bank)\b| and (to )?(the )?(left|right) alike\b| of the drum\b)|\bstill (an?|some|the|one|its) (\w+ )?(knock|clonk|click|clunk|leak|drip|weep|rattle|rumble|judder|wobble|squeal|shake|shimmy|wander|pull)\b|\bstill (knocks|ticks(?! over)|pulls(?! (up|straight|well|away))|leaks|drips|slips|binds|rubs|wanders|shakes|rattles|grinds|sticks(?! out)|clonks(?! in)|clicks(?! (in|into|home|over|past|as it|at (each|every) tooth)\b)|clunks|shimmies|judders|wobbles|creeps|jumps out)\b|\b(ran|runs|got|gets) (too |very )?hot\b(?! (water|oil|evenly|alike|enough)\b)|\bseized\b|\bbrakes? fades?\b/i;
/** The whole clause: it went badly, in so many words. */
const verdict =
  /^(it |all |that |she )?(is |was )?(still )?(not (right|good|ok(ay)?|well|safe|true)|no good|bad|poor|useless|hopeless|fail|as bad as (ever|before)|no (brakes?|drive|reverse)( (on|to) the (left|right|front|rear|near side|off side))?)$/i;
/** Each with the part of the machine that it is said of, where the word alone may say that all is well. */
const alsoBadly: readonly RegExp[] = [
  // It let the load go, by a little or all of it.
  /\blets? (it|her|him|them|the (load|weight|hook|rope|chain|drum)) (slip|drop|fall|run (back|away))\b/i,
  /\bclutch (slips|slipped) (in|on|under|at) (top|first|second|third|fourth|full|load|the (hill|bank|slope|start))\b|\b(brakes?|bands?|belts?|ropes?|pawls?|ratchets?|grips?|cones?|dogs?|it|held|then|and) slip(s|ped)\b(?! (in|out|at (its|the) (set|rated)|into|on (by|with|over|to|without|easily)|over|home|easily|freely|sweetly|clear|each|every|through|past|its|the|up|off)\b)(?!.*\band (held|gripped|took up)\b)/i,
  /\b(load|weight|hook|jib|boom|ram|platform|cage|bucket) (dropped|fell|slipped|came down) (back\b|(an?|half an|one|two|three|a few|\d+(\.\d+)?) ?(inch(es)?|in|mm|cm|turns?|tooth|teeth|notch(es)?)\b)(?!.*\b(caught|held|stopped)\b)/i,
  /\bcame down by (itself|themselves)\b|\b(it|she|hook|drum|load|winch|van|lorry|car|trailer|tractor|wagon|cart|truck|engine|machine) (ran|rolled) back (on|under|at|from|down|a|an|half|one|two|\d+)\b/i,
  /\b(jumped|missed|skipped|jumps|misses|skips) (a|an|one|two|three|some|several|every|\d+) ?(\w+ )?(tooth|teeth|cogs?|notch(es)?)\b|\bjump(ed|s) (off\b|the (sheave|groove|rail|track|pulley|guide)\b)/i,
  // Brakes and steering.
  /\bbrakes? (grab(s|bed)?|snatch(es|ed)?|drag(s|ged)|binds?|stuck|sticks?|(locks?|locked|jammed) on$)(?![a-z])/i,
  /\bpedal (slowly )?(went|goes|sank|sinks|fell|falls) (slowly )?(to the (floor|boards?)|soft|spongy)\b|\b(spongy|soft) pedal\b|\bpedal (is |was |still |feels )?(spongy|soft)\b/i,
  /\b(steering|wheels?|hubs?|shaft|lever|handle|it) (binds?|sticks|stuck|jams|jammed)\b(?! (fast )?(at|on|against) (its|the|each|either) stops?)/i,
  /\bonly (one|two|three|the (left|right|front|rear)) (\w+ )?(works?|worked|brakes|bites?|grips?)\b/i,
  // What is heard, felt and seen.
  /\bbadly\b|\btoo (hot|stiff|tight|loose|slack|weak|noisy)\b/i,
  /^(dragging|binding|rubbing|leaking|knock(ed|ing)|slipping|grinding|rumbl(es|ed|ing)|juddering|wobbling|rubs)\b( noise)?( (on|at|from|in|under|to|against|when)\b.*)?$/i,
  /^(a |an |some |slight |bad |loud |heavy )*(knock|rumble|rattle|grinding|judder|vibration|wobble|shake|smoke)( noise)? (from|at|in|on|under) (the|its|one|both|full|half|left|right|load|speed|idle|\d)/i,
  /(?<!\b(for|any|of|no|each|every) (\w+ )?)\bleak (at|from|in|on) (the|its|one|both|left|right)\b(?!.*\b(nipped|stopped|cured|fixed|tightened|dry|mended)\b)/i,
  /\b(play|knock|noise|leak|wobble|vibration|shake|rattle|rumble|judder|pull) (is |was )?still (there|present|the same)\b/i,
  /\b(tyres?|wheels?|it|chain|cable|hose|pipe|shoes?|guard|drum) rubs\b(?! (out|off)\b)/i,
  // What came away or broke.
  /\blost (an?|one|two|its|the) (\w+ )?(bolt|nut|pin|wheel|screw|stud|key|cotter|clip|washer|load)s?\b|\blost (all )?(pressure|drive|grip)\b/i,
  /\b(nuts?|bolts?|pins?|wheels?|keys?|chains?|belts?|screws?|studs?|clips?|springs?|rope|caps?) (had |has )?(work(ed|s)|came|fell|flew|shook|backed) (itself )?(loose|off|out)\b(?! (with|by|for|when|and back|easily|clean(ly)?|of|again)\b)/i,
  /\b(shaft|eye|hook|pin|bolt|stud|link|chain|rope|weld|casting|arm|lever|axle|spoke|spring|bracket|hub|wheel|frame|drum|tooth|teeth)s? (has |have |had )?(snapped|broke|cracked|sheared|parted|bent|twisted|buckled|collapsed)\b(?! (in|over|up the|down the|on purpose|as|to)\b)/i,
  /^(it |all of it )?(snapped|broke|sheared|parted|collapsed|buckled)$/i,
  /^nearly (went|hit|lost|ran|fell|came off|over)\b/i,
];
/** It says that it did not, or when it last did. */
const answered = /\b(no|nothing|none|never|nor|neither|without|longer|passed|before|last|until|cannot)\b|\bnot\b(?! pass)|(?<!did|does)n't\b/i;

/** It says where or when it did, which is past, or what it would do. */
const whenever = /\b(where|when|if|the old)\b/i;

/** Of a look: that nobody has looked yet. What it looked like is for its own words. */
export function saysNotYet(text: string): boolean {
  return text.split(/[.,:;()–—]+/).some((it) => notYet.test(it.trim()));
}

const notYet =
  /^(still )?to be (looked at|seen(?! (from|through|by|under|with))|tried|tested|checked|measured)\b(?!.*\b(again|every|each|yearly|monthly)\b)|^not (yet )?(looked at|seen|tried|tested|checked)( yet)?$|^(will|has) (still )?(to )?be (looked at|seen(?! (from|through|by|under|with))|tried|tested|checked)\b(?!.*\b(again|every|each|yearly|monthly)\b)/i;
