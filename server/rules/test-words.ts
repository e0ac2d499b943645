// What the words of a test or of a look say of themselves: that it was not made, or that it went badly.
// Invariant: only the plainest words are taken; where a text may say that all is well, it does.
import { meant, onPurpose } from "./fault-lists.ts";
import { faultIn } from "./fault-words.ts";

/** The plainest words, a clause at a time: “to be done on Monday”, “six miles: still knocks”. What was put right and tried again further on in the text is past. */
export function isNoTest(text: string): boolean {
  if (nothing.test(text) || faultIn(text) !== undefined) return true;
  if (onPurpose.test(text)) return false;
  const clauses = clausesOf(text);
  return clauses.some((it, i) => {
    const bad = undone.exec(it);
    if (bad === null) return wentBadlyIn(clauses, i) !== undefined;
    const isTried = clauses.some((other, at) => at !== i && runs.test(other) && !ahead.test(other));
    return !(isTried || pastUndone.test(restOf(clauses, i, bad)) || /\bgood\b/i.test(text) || (clauses.length > 1 && underSome.test(it)));
  });
}

/** The part of such a text that says that it was tried, or looked at, and did what it should not. Undefined where none does. */
export function saysWhere(text: string): string | undefined {
  const clauses = clausesOf(text);
  return clauses.find((_, i) => wentBadlyIn(clauses, i) !== undefined) ?? faultIn(text);
}

/** The same of what a look showed, but for what stands in what it is to be: “hook lets go”, “will not start till it is set”, “gland weeps, a drop a minute”. */
export function saysItWentBadly(text: string, title: string): string | undefined {
  const asked = signsIn(title);
  const clauses = clausesOf(text);
  const bad = clauses.find((it, i) => {
    const sign = wentBadlyIn(clauses, i);
    return sign !== undefined && !asked.has(sign) && !isIn(title, it);
  });
  if (bad !== undefined) return bad;
  const told = faultIn(text);
  return told === undefined || isIn(title, told) || faultIn(title) !== undefined ? undefined : told;
}

function isIn(title: string, words: string): boolean {
  return title.toLowerCase().includes(words.toLowerCase());
}

/** As much of such words as a message has room for. */
export function shortened(words: string): string {
  return words.length <= 50 ? words : `${words.slice(0, 48).replace(/\s+\S*$/, "")} …`;
}

function signsIn(text: string): ReadonlySet<number> {
  const clauses = clausesOf(text);
  return new Set(clauses.flatMap((_, i) => wentBadlyIn(clauses, i) ?? []));
}

/** “No line in dye”, and “a line at the shoulder”; “none moves”, and “one moves”: what the title of a look denies is what its words tell. Nothing is, where they deny anything. */
export function saysWhatIsDenied(title: string, text: string): string | undefined {
  if (answered.test(text) || whenever.test(text)) return undefined;
  const faults = [...title.matchAll(deniedBy)].flatMap(([, first = "", second = ""]) => [first, second].filter((it) => faultWords.test(it)));
  const verbs = [...title.matchAll(/\bnone ([a-z]+)s\b/giu)].map(([, verb]) => verb as string);
  if (faults.length + verbs.length === 0) return undefined;
  const told = new RegExp(
    `^${begin}(${[...faults.map((it) => `${some} (\\w+ )?${it}(e?s)?`), ...verbs.map((it) => `(one|two|three|some|several|\\d+)( of (them|\\w+))? (still )?${it}s?`)].join("|")})\\b`,
    "iu",
  );
  const clauses = clausesOf(text);
  return clauses.find((it, i) => {
    const bad = told.exec(it);
    return bad !== null && !isPast(restOf(clauses, i, bad));
  });
}

const begin = "(but |and |still |there (is|was) |it has |shows? |heard |felt |found )*";
const some = String.raw`(an?|one|two|three|some|slight|faint|small|short|\d+)`;
const deniedBy = /\b(?:no|without|nor|free (?:of|from)|not an?)\s+(?:an?\s+|any\s+)?([a-z]+)(?:\s+([a-z]+))?/giu;
const faultWords =
  /^(lines?|cracks?|flaws?|knocks?|clicks?|clonks?|leaks?|drips?|weeps?|shake|wobble|notch(es)?|rattles?|rumble|scrapes?|chips?|nicks?|kinks?|lumps?|broken|tight|smell|smoke)$/i;

/** The number of the sign by which it says so: two texts of one sign may say the same in other words. */
function wentBadlyIn(clauses: readonly string[], i: number): number | undefined {
  const it = clauses[i] as string;
  if (verdict.test(it) && !isPast(restOf(clauses, i, verdict.exec(it)))) return -2;
  // “Brake fade: none”.
  if (answered.test(it) || /^(none|nil)\b/i.test(clauses[i + 1] ?? "")) {
    const bad = refused.exec(it);
    return bad === null || isPast(restOf(clauses, i, bad)) ? undefined : -1;
  }
  if (/\bat (the )?first\b|\bfirst (try|trial|run|attempt|go)\b/i.test(it) && i < clauses.length - 1) return undefined;
  if (/\b(has|have|is|are) gone\b/i.test(it)) return undefined;
  if (heated.test(it) && clauses.slice(i + 1).some((other) => tightThen.test(other))) return undefined;
  for (const [n, sign] of [wentBadly, ...alsoBadly].entries()) {
    const bad = sign.exec(it);
    if (bad !== null && !whenever.test(it.slice(0, bad.index)) && !isPast(restOf(clauses, i, bad))) return n;
  }
  return undefined;
}

/** Run at its heat for so long, to see what leaks: “ran hot half an hour, dry”. Of what got hot by itself its part is named, or nothing of a leak. */
const heated =
  /^(it |she |(the )?engine )?(ran|run) hot (for )?(about |some )?((half )?an hour|half hour|\d+ ?(min|minutes|h|hours|miles|mi)|\w+ (minutes|hours|miles))$/i;
const tightThen = /^(all |stays? |stayed |bone |quite |still )*(dry|tight|no (leaks?|weeps?|drips?|seepage|loss|steam|bubbles))\b/i;

/** Put right further on, or as it is meant to be. */
function isPast(rest: string): boolean {
  return past.test(rest) || triedSince.test(rest) || asMeant.test(rest) || meant.test(rest);
}

function clausesOf(text: string): readonly string[] {
  return text.split(/[,:;()–—]+|\.(?!\d)/).map((it) => it.trim());
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
  /^((will|is|are|has|have|still) )?to be (done|tried|tested|run)\b|^will be (done|tried|tested|run)\b|^still to (do\b|be\b(?! (polish|paint|letter|lined|trimm|waxed)))|^not (yet(?! (above|over|beyond|up to|run in|at full|at speed|in top|bedded))|done|tried|tested)\b|^never tried\b|^untested\b|^(it |she |he )?((has|have|had) ?)?(not|n't) (yet )?been (out|driven|ridden|run|tried|on the road|under (load|way|steam))\b( yet)?$|^(it )?(was|could) ?n[o']t (be )?(tried|tested|driven)( yet)?$|^not (pumped|driven|ridden|ground|sawn|threshed|run|lifted|loaded|towed|steamed|braked|hauled|wound|sailed|flown|launched|started|swung|rung|hoisted|lowered|slewed|rowed|winched|worked|used)( yet| at all| up)?$/i;
/** The whole text: nothing stands there. */
const nothing =
  /^\s*(when|once|as soon as) (the |there is |we |it )?[\w ]+ (comes?|falls?|is (here|back|ready|there)|returns?|allows?|permits?)\.?\s*$|^\s*(on |at )?(the )?(next|coming) [\w ]+$|^\s*(none|nil|nothing|n\/a|no test|not driven( yet)?|-+|\.+|\?+)\.?\s*$/i;
/** How far, how long or how often it ran all the same: “not towed: driven ten miles”. */
const runs =
  /\b(\d+|an?|half|one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|thirty|forty|fifty|several|some) (an |of an )?(laps?|stops?|miles?|mi|km|hours?|minutes?|min|times|lifts?|trips?|turns?|runs?)\b|\b(all|both|every|each) (four |three |five )?(gears?|directions?|locks?|ways?)\b|\b(out|there) and back\b|\braised and held\b/i;
const ahead = /\b(to (be|do|go|the|come)|will|shall|when|once|until|no|not|never|without|next|away|from here|left)\b/i;
/** What it does so by its nature or its setting. */
const asMeant =
  /^ (with|while) (the |her |its )?(engine|servo|vacuum)( (is|was))? (on|running|up|there)\b.*\b(hard|heavy|firm|solid|high|plank)\b|\bwithin (the |its |what )?(\w+ )?(limits?|allowed|allows|book|figure|tolerance)\b|\b(is|are|as) allowed\b|\bas (it|they|packing|glands?|\w+s) (must|should|do|does|ought)\b(?! not)|\bas (set|drawn|made|designed|meant|its fellow|the (maker|book|others?))\b|\bwhich is right\b|\bby design\b|\bat (its|the) set (torque|load)\b/i;
/** Tried, but for some weather or speed. */
const underSome = /\b(tried|tested|untested) (in (the )?(wet|rain|dark|snow)|at (speed|night)|(above|over|beyond) \d)/i;
const past =
  /\b((?<!now and )then|now(?! and then)|again|cured|gone|freed|put right|passed|back (in|after|within)|recover(s|ed)?|settle[sd]|(on|with|down) (the )?camber|thermostat opened)\b/i;
const pastUndone = new RegExp(`${past.source}|\\bfirst \\d+ \\w+ done\\b|\\bfirst \\d+ done\\b`, "i");
/** Something was changed, and it was run or tried after that. */
const triedSince =
  /\b(?<!to be )(changed|renewed|replaced|adjusted|backed off|bled|nipped( (up|the \w+))?|tightened|reset|repacked|eased|cleaned)\b.*[,;].*\b(ran|run|dry|cool|tried|good|quiet|straight|steady|re-?tested|held|holds?|lights|works|miles?|km)\b/i;
/** What it should have done and did not: a `not` that is no comfort. */
const refused =
  /(?<!\b(water|oil|steam|pressure) )\b((did|does|do|would|will|could)( not|n't)|refused to|refuses to) (pass|hold(?! up)|stop(?! (once|running|for|to|short|all|(always )?(in|at) one|twice))|start(?! (until|till|with|unless|while|in gear|backward))|bite|grip|return|release|come back|pull up|let off|(dis)?engage|work|trim|latch|idle|climb (the|a|up)|reverse|select|(self-?)?cent(re|er)|seat|clear$|stay (in|on|put|up|shut|closed|engaged|locked|latched|true|straight)|go into|charge|prime|steer)\b/i;
const wentBadly =
  /\b(crept|creeps)\b(?! (up|along|in|out|over|round|past|through|forward at)\b)|\b(sank|sinks|sagged|drifted|drifts)\b(?!(?<=\bpedal \w+) (an?|half an|one) (finger|inch|little|touch|bit)\b.* and (stayed|stays|stopped|held|holds)\b)(?! (evenly|smoothly|gently|to (her|its|their|the) (marks?|stops?|seat|floor))\b)|(?<!\b(noise|knock|whine|smell|smoke|rattle|squeal|sound|light)s? )\b(faded|fades)\b|(?<!\b(the|any|for|all|of|its|small|oil|air|fuel|water|steam|gas|and|or) )\bleaks\b|\b(leaked|weeps|wept|oozes|oozed|seeps|seeped)\b|\bpulled (hard |badly |a little |slightly )?((to )?the (left|right)|to (left|right|one side))\b(?! (up|away|through|hand|bank)\b| (and|then|or) (to )?(the )?(left|right)\b| of the drum\b)|\b(knocks(?! (off|out|over|in)\b)|judders|shimmies|wobbles|wanders|weaves(?! (through|between|round|past)))\b|\bshakes its head\b|\bstill ((a (bit|little)|slightly|rather|very|quite) )?(notchy|slack|loose|rough|lumpy|spongy|uneven|sticky|crooked|lop-?sided)\b|\bjump(s|ed) out of\b|\b(ropes?|chains?|welds?|hoses?|seals?|threads?|glands?|joints?|cogs?|teeth|tooth|keys?|cotters?|wedges?|clips?|clamps?|grips?|studs?|bolts?|nuts?|springs?|linings?|rivets?|belts?|gaskets?|packing|cables?|straps?|wires?|tyres?|(?<!and )it) (let|lets) go\b(?! and (returned|came back|shut|closed|held)\b)|\bhooks? (let|lets) go\b(?! (afloat|together|cleanly|freely|easily|(each|every) time|(when|once|as soon as) (it was |they were )?(pulled|tripped|opened|told|asked)|(on|to|at|by) (the|a|each|every) (lever|lanyard|pull|tug|trip|knob|handle))\b)|^let go$|\blet go (under|after|(at )?(half|full)|at \d+ ?(kg|t|cwt|tons?|lb|psi|bar)\b)|\bpull(s|ed) (left|right) (under|on|when|with) (the )?brak\w*|\bgave way\b|\bcame (adrift|undone|loose)\b|\b(overheated(?! on the old)|boiled over|ran away|burst(?! (test|valve|disc|pressure|a tyre)))\b|\b(failed|fails)\b(?! (to (find|fault|make|show|detect|see|hear|feel|provoke|leak|slip|fade|bind|break|knock)|safe)\b|.* as (it|they) should)|\b(did not|didn't|does not|doesn't) pass\b|\bpulls (hard |badly |a little |slightly )?(to )?(the )?(left|right|one side)\b(?! (up|away|through|hand|bank)\b| and (to )?(the )?(left|right) alike\b| of the drum\b)|\bstill (an?|some|the|one|its) (\w+ )?(knock|clonk|click|clunk|leak|drip|weep|rattle|rumble|judder|wobble|squeal|shake|shimmy|wander|pull)\b|\bstill (knocks|growls|rumbles|ticks(?! over)|pulls(?! (up|straight|well|away))|leaks|drips|slips|binds|rubs|wanders|shakes|rattles|grinds|sticks(?! out)|clonks(?! in)|clicks(?! (in|into|home|over|past|as it|at (each|every) tooth)\b)|clunks|shimmies|judders|wobbles|creeps|jumps out|hisses|squeals|squeaks|rumbles|growls|howls|whines|vibrates|grabs|snatches|drags|grates|crunches|weaves|sways)\b|\b(ran|runs|got|gets) (too |very )?hot\b(?! (water|oil|evenly|alike|enough)\b)|\bseized\b(?! with\b| \w+ (story|ended|is|now|freed))|\bbrakes? fades?\b/i;
/** The whole clause: it went badly, in so many words. */
const verdict =
  /^(it |all |that |she )?(is |was )?(still )?(not (right|good|ok(ay)?|well|safe|true)|no good|bad|poor|useless|hopeless|fail|as bad as (ever|before)|no (brakes?|drive|reverse)( (on|to) the (left|right|front|rear|near side|off side))?)$/i;
/** Each with the part of the machine that it is said of, where the word alone may say that all is well. */
const alsoBadly: readonly RegExp[] = [
  // Not each time.
  /\b(stopped|held|bit|gripped|locked|latched|tripped|caught|engaged|worked|let go|started) (only )?(once|twice) (in|out of|of) (two|three|four|five|six|ten|\d+)\b(?! (years?|months?|weeks?|days?|hours?|minutes?|seconds?|miles|yards|rounds|turns))/i,
  // It did not stop where it was to.
  /\bran on (past|through|over|into) (the|its|his|her|our|a|an) (?!winter|summer|night|autumn|spring|year|hour|evening|afternoon)/i,
  // It let the load go, by a little or all of it.
  /\blets? (it|her|him|them|the (load|weight|hook|rope|chain|drum)) (slip|drop|fall|run (back|away))\b(?!.*\b(caught|stopped)\b)/i,
  /\bclutch (slips|slipped) (in|on|under|at) (top|first|second|third|fourth|full|load|the (hill|bank|slope|start))\b|\b(brakes?|bands?|belts?|ropes?|pawls?|ratchets?|grips?|cones?|dogs?|it|held|then|and) slip(s|ped)\b(?! (in|out|at (its|the) (set|rated)|into|on (by|with|over|to|without|easily)|over|home|there|easily|freely|sweetly|clear|each|every|through|past|its|the|up|off)\b)(?!.*\band (held|gripped|took up)\b)/i,
  /\b(load|weight|hook|jib|boom|ram|platform|cage|bucket) (dropped|fell|slipped|came down) (back\b|(an?|half an|one|two|three|a few|\d+(\.\d+)?) ?(inch(es)?|in|mm|cm|turns?|tooth|teeth|notch(es)?)\b)(?!.*\b(caught|held|stopped)\b)/i,
  /\bcame down by (itself|themselves)\b|\b(it|she|hook|drum|load|winch|van|lorry|car|trailer|tractor|wagon|cart|truck|engine|machine) (ran|rolled) back (on|under|at|from|down|a|an|half|one|two|\d+)\b/i,
  /\b(jumped|missed|skipped|jumps|misses|skips) (a|an|one|two|three|some|several|every|\d+) ?(\w+ )?(tooth|teeth|cogs?|notch(es)?)\b|\bjump(ed|s) (off\b|the (sheave|groove|rail|track|pulley|guide)\b)/i,
  /^(ran|rolled) (back|away) (on|down|at|from) (the|a|its) (\w+ )?(hill|ramp|slope|bank|incline|grade|stop)\b(?!.*\b(held|stopped|caught|on purpose)\b)/i,
  // Brakes and steering.
  /\b(wandered|weaved|wobbled|shimmied|juddered|swayed)\b(?! (round|through|home|along|about|into|off|out|over to|past|between)\b)/i,
  /\b(slack|loose|leaking|knocking|noisy|spongy|rattling|rubbing|binding|dragging|slipping|weeping|dripping) again\b(?! (taken|removed|cured))/i,
  /\bbrakes? (grab(s|bed)?(?! the)|snatch(es|ed)?(?! on)|drag(s|ged)|binds?|stuck|sticks?|(locks?|locked|jammed) on$)(?![a-z])/i,
  /\bpedal (slowly )?(went|goes|sank|sinks|fell|falls) (slowly )?(to the (floor|boards?)|soft|spongy)\b|\b(spongy|soft) pedal\b|\bpedal (is |was |still |feels )?(spongy|soft)\b|\bpedal (is |was )?(still |too |very |rather |a (bit|little) )?(long|low)$|\b(had|have|has) to pump (it|them|the (brakes?|pedal))\b|\b(pedal|brakes?) (\w+ )*(needs?|needed|wants?|wanted|takes|took) (pumping|(two|three|four|several|a few|\d+) (pumps|pushes|strokes))\b/i,
  // What goes on or out of gear and was not asked to.
  /\bbrakes? (came|come|comes|went|go|goes|stayed|stay|stays) on (by|of) (itself|themselves|its own|their own)\b(?! (when|as|if|once|on the) )|(?<!slip )\bclutch (drags|dragged|judders|juddered|grabs|grabbed|snatches|snatched|chatters|chattered)\b|\b(gears?|reverse|bottom|first|second|third|fourth|top|high|low) (grates?|grated|crunch(es|ed)?)\b/i,
  /(?<!\b(he|she|i|we|lad|boy|driver|passenger|dog) )\bjump(ed|s) out (on|under|with) (the )?(over-?run|load|drive|throttle|hills?|trailing|pull)\b|\b(slip(s|ped)|pop(s|ped)|drop(s|ped)|falls|fell|jump(s|ed)|kick(s|ed)|came) out of (gear|mesh|drive|reverse|bottom|low|high|first|second|third|fourth|top|four-?wheel drive)\b(?! (easily|freely|sweetly|cleanly|silently|without|as|when (asked|told|wanted)))/i,
  /\b(steering|wheels?|hubs?|shaft|lever|handle|it) (binds?|sticks|stuck|jams|jammed)\b(?! (fast )?(at|on|against) (its|the|each|either) stops?)/i,
  /\bonly (one|two|three|the (left|right|front|rear)) (\w+ )?(works?|worked|brakes|bites?|grips?)\b/i,
  // What is heard, felt and seen.
  /(?<!as )\bbadly\b|\btoo (hot|stiff|tight|loose|slack|weak|noisy)\b/i,
  /^(?!knocked in the )(dragging|binding|rubbing|leaking|knock(ed|ing)|slipping|grinding|rumbl(es|ed|ing)|juddering|wobbling|rubs)\b( noise)?( (on|at|from|in|under|to|against|when)\b.*)?$/i,
  /^(a |an |some |slight |bad |loud |heavy )*(knock|rumble|rattle|grinding|judder|vibration|wobble|shake|smoke)( noise)? (from|at|in|on|under) (the|its|one|both|full|half|left|right|load|speed|idle|\d)/i,
  /(?<!\b(for|any|of|no|each|every) (\w+ )?)\bleak (at|from|in|on) (the|its|one|both|left|right)\b(?!.*\b(nipped|stopped|cured|fixed|tightened|dry|mended)\b)/i,
  /\b(play|knock|noise|leak|wobble|vibration|shake|rattle|rumble|judder|pull) (is |was )?still (there|present|the same)\b/i,
  /\b(tyres?|wheels?|it|chain|cable|hose|pipe|shoes?|guard|drum) rubs\b(?! (out|off)\b)/i,
  /\b(bearings?|brass(es)?|brakes?|bands?|drums?|linings?|blocks?|clutch|belts?|tail|nose|hubs?|shoes?) (smoked|smokes|was smoking)\b/i,
  /\b(started|restarted|moved|crept|ran (on|off|away)) (again )?by (itself|themselves)\b|\b(rope|belt|chain) (still )?climbs\b(?! (up|the (hill|bank|slope))\b)|\b(screams|squeals|growls|howls|shrieks) (again|still|when|under|at)\b/i,
  // What came away or broke.
  /\blost (an?|one|two|its|the) (\w+ )?(bolt|nut|pin|wheel|screw|stud|key|cotter|clip|washer|load)s?\b|\blost (all )?(pressure|drive|grip)\b/i,
  /\b(nuts?|bolts?|pins?|wheels?|keys?|chains?|belts?|screws?|studs?|clips?|springs?|rope|caps?) (had |has )?(work(ed|s)|came|fell|flew|shook|backed) (itself )?(loose|off|out)\b(?! (one|a|half|two) (flat|slot|notch|turn)| (with|by|for|when|and back|easily|clean(ly)?|of|again)\b)/i,
  /\b(?<!shear )(?<!weak )(shaft|eye|hook|pin|bolt|stud|link|chain|rope|weld|casting|arm|lever|axle|spoke|spring|bracket|hub|wheel|frame|drum|tooth|teeth)s? (has |have |had )?(snapped|broke|cracked|sheared|parted|bent|twisted|buckled|collapsed)\b(?! (in|over|up the|down the|on purpose|as|to)\b)/i,
  /\b(unwound|undid|unscrewed|unhooked|slackened|loosened|shook|shaken|worked) itself\b(?! (in|free of|clean|clear)\b)/i,
  /^(it |all of it )?(snapped|broke|sheared|parted|collapsed|buckled)$/i,
  /^nearly (went|hit|lost|ran|fell|came off|over)\b/i,
];
/** It says that it did not, or when it last did. */
const answered = /\b(no|nothing|none|nil|zero|never|nor|neither|without|longer|passed|before|last|until|cannot)\b|\bnot\b(?! pass)|(?<!did|does)n't\b/i;

/** It says where or when it did, which is past, or what it would do. */
const whenever = /\b(where|when|if|with (any|each) \w+ (open|off|out)|the old|on the old|used to|(tried|attempted) to)\b|^old\b/i;

/** Of a look: that nobody has looked yet. What it looked like is for its own words. */
export function saysNotYet(text: string): boolean {
  return text.split(/[.,:;()–—]+/).some((it) => notYet.test(it.trim()));
}

const notYet =
  /^(still )?to be (looked at|seen(?! (from|through|by|under|with))|tried|tested|checked|measured)\b(?!.*\b(again|every|each|yearly|monthly)\b)|^not (yet )?(looked at|seen|tried|tested|checked)( yet)?$|^(will|has) (still )?(to )?be (looked at|seen(?! (from|through|by|under|with))|tried|tested|checked)\b(?!.*\b(again|every|each|yearly|monthly)\b)/i;
