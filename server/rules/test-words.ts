// What the words of a test or of a look say of themselves: that it was not made, or that it went badly.
// Invariant: only the plainest words are taken; where a text may say that all is well, it does.
import { once } from "../model/memo.ts";
import { numberNamed } from "../quantities/number-words.ts";
import { meant, meantThere, onPurpose } from "./fault-lists.ts";
import { deniedOutright, faultIn, firstRun, nextRun, wasThen } from "./fault-words.ts";
import { isAllAhead, saysNotTried } from "./not-done.ts";
import { alsoBadly, wentBadly } from "./test-lists.ts";
import { firstOf, waysIn, waysOf } from "./ways.ts";

/** The plainest words, a clause at a time: “to be done on Monday”, “six miles: still knocks”. What was put right and tried again further on in the text is past. */
export function isNoTest(text: string): boolean {
  if (nothing.test(text) || allBut.test(text) || faultIn(text) !== undefined) return true;
  if (onPurpose.test(text)) return false;
  if (saysNotTried(text) !== undefined) return true;
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
  return told === undefined || isIn(title, told) || faultIn(title) !== undefined || isAskedFor(title, told, text) ? undefined : told;
}

/** A wheel that is to lock is locked solid, what is to drop or come up by itself does it with a bang, and of five broken wires that are allowed there are three. */
function isAskedFor(title: string, told: string, text: string): boolean {
  if (/\block(s|ed)?\b/i.test(title) && solid.test(told)) return !/\b(not|off|again|stay\w*|never|one)\b|n't/i.test(text);
  if (home.test(title) && withABang.test(told)) return true;
  const [, most] = noMoreThan.exec(title) ?? [];
  const [, read] = /^(?:only |just )?(\w+)\b/.exec(told) ?? [];
  return (
    most !== undefined &&
    read !== undefined &&
    (numberNamed(read) ?? Number.NaN) <= (numberNamed(most) ?? Number.NaN) &&
    told.split(/\W+/).some((it) => it.length > 3 && isIn(title, it))
  );
}

const solid = /^((both|all|each|it|they|the|wheels?|near|off|left|right)( wheels?)? )*locked (up )?solid$/i;
const home = /\b(drops?|comes? (up|down|out|over|home)|shuts?|closes?|falls?|flies|springs?|snaps?|trips?|latch(es)?)\b/i;
const withABang = /\b(drop|com|came|clos|shut|fall|fell|fl(y|ew|ies)|spr[ia]ng|snap|trip|latch)\w*( \w+)? with an? (\w+ )?(bang|snap|clang)$/i;
const noMoreThan = /\b(?:no more than|at most|up to|not (?:over|above|more than)|max(?:imum)?) (\w+)\b/i;
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
  if (faults.some((it) => /^leaks?$/i.test(it))) faults.push("drip", "drop", "weep", "seep");
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
  if (wasThen.test(clauses[i - 1] ?? "") || deniedOutright.test(it)) return undefined;
  if (firstRun.test(clauses[i - 1] ?? "") && clauses.slice(i + 1).some((next) => nextRun.test(next))) return undefined;
  if (verdict.test(it) && !isPast(restOf(clauses, i, verdict.exec(it)))) return -2;
  // “Brake fade: none”.
  if (answered.test(it) || /^(none|nil)\b/i.test(clauses[i + 1] ?? "")) {
    const bad = refused.exec(it);
    return bad === null || isPast(restOf(clauses, i, bad)) ? undefined : -1;
  }
  if (/\bat (the )?first\b|\bfirst (try|trial|run|attempt|go)\b/i.test(it) && i < clauses.length - 1) return undefined;
  if (/\b(has|have|is|are) gone\b/i.test(it)) return undefined;
  if (atANotch.test(it) && heldFurther.test(clauses.slice(i + 1).join(", "))) return undefined;
  if (heated.test(it) && clauses.slice(i + 1).some((other) => tightThen.test(other))) return undefined;
  const isBad = (bad: RegExpExecArray | null) => bad !== null && !whenever.test(it.slice(0, bad.index)) && !isPast(restOf(clauses, i, bad));
  if (isBad(firstOf(plainly(), it))) return 0;
  for (const way of waysIn(ofParts(), it)) if (isBad(way.sign().exec(it))) return ofParts().indexOf(way) + 1;
  return undefined;
}

/** “Crept at five teeth, holds at six”: how far a brake is to be pulled. */
const atANotch = /\b(crept|creeps|rolled|rolls|slipped|slips) at (the )?\w+( (teeth|tooth|notch(es)?|clicks?))?$/i;
const heldFurther =
  /^(it |she )?(holds?|held|stood|stands|none|firm) at (the )?\w+|^at (the )?\w+( (teeth|tooth|notch(es)?|clicks?))?,? (it |she )?(holds?|held|stood|stands)\b/i;

const plainly = once(() => waysOf("wentBadly", wentBadly));
const ofParts = once(() => waysOf("alsoBadly", alsoBadly));

/** Run at its heat for so long, to see what leaks: “ran hot half an hour, dry”. Of what got hot by itself its part is named, or nothing of a leak. */
const heated =
  /^(it |she |(the )?engine )?(ran|run) hot (for )?(about |some )?((half )?an hour|half hour|\d+ ?(min|minutes|h|hours|miles|mi)|\w+ (minutes|hours|miles))$/i;
const tightThen = /^(all |stays? |stayed |bone |quite |still )*(dry|tight|no (leaks?|weeps?|drips?|seepage|loss|steam|bubbles))\b/i;

/** Put right further on, or as it is meant to be. */
function isPast(rest: string): boolean {
  return past.test(rest) || triedSince.test(rest) || asMeant.test(rest) || meant.test(rest) || meantThere.test(rest);
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
  // Who looked says nothing of what was tried.
  const clauses = clausesOf(text).filter((it) => it !== "" && !aName.test(it));
  const isLook = (it: string) => looked.test(it) || lookedOver.test(it);
  return clauses.some(isLook) && clauses.every((it) => isLook(it) || allWell.test(it)) && !tried.test(text);
}

/** “Looked it all over on the drive”, “had a good look round from the ladder”. */
const lookedOver =
  /^((i|we) )?((have |has )?(had|took) a (\w+ )?look|looked|gone|went)( it| her| them| everything| all)*( all)? (over|round|through|at (it|them|everything|all of it|(both|all|the|each|every)( \w+){1,2}))( (on|in|from|by|under|with) ((the|a|my|our|both|all|each) )?\w+( \w+)?)?$/i;

const looked =
  /^(it |all |everything |all of it |they |the )?((\w+ )?\w+ )?(looks?|looked|appears?|seems?)\b( (to be|over|at|all right))?( (very|all|quite) )? ?(fine|good|ok(ay)?|right|well|sound|nice|tidy|healthy|straight|true|in order|as it should|over|at|it over|all round)?$|^(a )?(visual(ly)?|eye)( (check|look|inspection|inspected|checked))?( only)?( (fine|good|ok(ay)?|passed))?$|^((every|each|all( the)?) )?([\w-]+ ){1,3}(seen|looked at|checked|inspected|gone over|counted) (by|with|again|over)( (by|a|the|his|her|my|our|another|second|third|pair|set|of|eyes|man|person|hand|lamp|torch|glass|inspector|foreman|owner|fitter|neighbour))*$|^(inspected|checked over|looked over|by eye|eyeballed|seen)( (all round|only|by eye|good|fine|ok(ay)?))?$/i;
const aName = /^(by )?([A-Z][\w.'-]*\s?){1,3}$/;
const allWell =
  /^(all |everything )?(is )?(fine|good|ok(ay)?|well|tight|sound|in order|in place|there|tidy|no faults?|nothing (loose|wrong|amiss|seen|missing))( and (tight|good|fine|locked))?$/i;
const tried =
  /\d|\b(an?|half|one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty) (miles?|km|hours?|minutes?|stops?|laps?|turns?|lifts?|times)\b|\b(ran|run|rode|drove|driven|(?<!\b(?:on|in) the )drive|stopped|stops|braked|braking|steered|turned|turns|spun|pulled|pushed|pumped|held|holds|lifted|loaded|leaned|tried|tested|pace|load|lock to lock|towed|rocked|shaken)\b/i;

/** “Every split pin seen, but the left one.” */
const allBut =
  /\b(every|each|all)( the)? (\w+ ){1,4}(seen|tried|checked|looked at|tested|tight|dry|pinned|locked|gone over)\b[^.,;:]*\b(but|bar|except|save|apart from)( for)? (the|one|two|that|those)\b(?! (\w+ )?(rain|wind|noise|weather|dark|spare)\b| (\w+ ){1,3}(was|were|is|are)\b)(?!.*\b(since|now|then|after|later|done|new)\b)/i;

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
  /^ (tool ?(box|bag|roll)|lunch ?box|flask|glove ?box|ash ?tray|crockery|bottles|milk churns?|bucket)\b|^ (with|while) (the |her |its )?(engine|servo|vacuum)( (is|was))? (on|running|up|there)\b.*\b(hard|heavy|firm|solid|high|plank)\b|\bwithin (the |its |what )?(\w+ )?(limits?|allowed|allows|book|figure|tolerance)\b|\b(is|are|as) allowed\b|\bas (it|they|packing|glands?|\w+s) (must|should|do|does|ought)\b(?! not)|\bas (set|drawn|made|designed|meant|its fellow|the (maker|book|others?))\b|\bwhich is right\b|\bby design\b|\bat (its|the) set (torque|load)\b/i;
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
/** The whole clause: it went badly, in so many words. */
const verdict =
  /^(it |all |that |she )?(is |was )?(still )?(not (right|good|ok(ay)?|well|safe|true)|no good|bad|poor|useless|hopeless|fail|as bad as (ever|before)|no (brakes?|drive|reverse)( (on|to) the (left|right|front|rear|near side|off side))?)$/i;
/** It says that it did not, or when it last did. */
const answered = /\b(no|nothing|none|nil|zero|never|nor|neither|without|longer|passed|before|last|until|cannot)\b|\bnot\b(?! pass)|(?<!did|does)n't\b/i;

/** It says where or when it did, which is past, or what it would do. */
const whenever = /\b(where|when|if|with (any|each) \w+ (open|off|out)|the old|on the old|used to|(tried|attempted) to)\b|^old\b/i;

/** Of a look: that nobody has looked yet. What it looked like is for its own words. */
export function saysNotYet(text: string): boolean {
  return text.split(/[.,:;()–—]+/).some((it) => notYet.test(it.trim())) || isAllAhead(text);
}

const notYet =
  /^(still )?to be (looked at|seen(?! (from|through|by|under|with))|tried|tested|checked|measured)\b(?!.*\b(again|every|each|yearly|monthly)\b)|^not (yet )?(looked at|seen|tried|tested|checked)( yet)?$|^(will|has) (still )?(to )?be (looked at|seen(?! (from|through|by|under|with))|tried|tested|checked)\b(?!.*\b(again|every|each|yearly|monthly)\b)/i;
