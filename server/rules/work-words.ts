// What the words beside done work, received goods or a reading say against them: “one spline on from the dots”, “the thread pulled”, “oil ways still to be cleaned”, “taken with the wheels in the air”.
// Invariant: what was found before, was put right in the same breath, is denied, allowed or of another job is no such word; where a note may be an innocent one, it is. Common practice.
import { memoText, once } from "../model/memo.ts";
import { faultIn } from "./fault-words.ts";
import * as lists from "./work-lists.ts";
import { type Ways, firstOf, waysOf } from "./ways.ts";
import { namingNothing } from "./wording.ts";

/** The words beside work that was done (fitted, tightened, locked, filled, repaired) that say that it did not come right. Undefined where none do. */
export const saysNotRight = memoText((text: string): string | undefined => {
  return firstAgainst(text, ofWork(), isOfAMachine) ?? otherThanTheBook(text);
});

/** The same of the words that say how it was done. They name things as they are to be (“tap on”, “light tap”), which a note would tell as a fault. */
export const saysDoneWrong = memoText((text: string): string | undefined => {
  return firstAgainst(text, ofWork());
});

/** The same beside what came: that it is another, damaged, or not as it was to be. */
export const saysNotAsOrdered = memoText((text: string): string | undefined => {
  return firstAgainst(text, ofGoods());
});

/** Beside a final reading: that it was taken otherwise than it is to be, or that what was read is not right. */
export const saysReadOtherwise = memoText((text: string): string | undefined => {
  return firstAgainst(text, ofReading());
});

/** `even`: in a text that denies as well; `state`: not where it is told of what was. */
interface Against {
  readonly plain: Ways;
  readonly even: Ways;
  readonly state: Ways;
}

/** `orIf`: what else is against it, of a clause and what follows it, where it is not told of what was. */
function firstAgainst(text: string, { plain, even, state }: Against, orIf?: (clause: string, rest: string) => boolean): string | undefined {
  const clauses = text
    .split(/[,;:()–—]+|[.!?](?!\d)|\b(?:but|though|although|however|and yet|and then|then)\b/u)
    .map((it) => it.trim())
    .filter((it) => it !== "");
  for (const [i, clause] of clauses.entries()) {
    const rest = clauses.slice(i + 1).join(", ");
    if (excused.test(clause) || putAside.test(clause) || asItShould.test(clause) || cured.test(rest) || noneThen.test(clauses[i + 1] ?? "")) continue;
    if (clauses.slice(i + 1, i + 3).some((it) => allowed.test(it)) || (oldOne.test(clauses[i - 1] ?? "") && noSubject.test(clause))) continue;
    const isDenied = denied.test(clause);
    const isPast = was.test(clause) && !still.test(clause);
    const said = firstOf(even, clause) ?? (isDenied ? null : (firstOf(plain, clause) ?? (isPast ? null : firstOf(state, clause))));
    if (said === null && !isPast && orIf?.(clause, rest) === true) return clause;
    if (said === null || before.test(clause.slice(0, said.index))) continue;
    const behind = clause.slice(said.index + said[0].length);
    if (curedAtOnce.test(behind) || asDrawn.test(behind) || (than.test(said[0]) && hasItsPlace.test(clauses[i + 1] ?? ""))) continue;
    return clause;
  }
  return undefined;
}

/** What a machine does that is not right is not right beside work either: “clutch slips”, “wheel pulls to the right”. Of a note less is sure than of a test: what follows may have put it right. */
function isOfAMachine(clause: string, rest: string): boolean {
  if (innocent.test(clause) || before.test(clause) || cameRight.test(rest)) return false;
  const told = faultIn(`${clause}, ${rest}`);
  return told !== undefined && clause.includes(told);
}

const innocent =
  /\b(soft jaws|bent (over|up|both|round|down|back|clear)|clicks?|clicked|legs|on purpose|normal|all do|home|so that|here|no harm|out|full|for this|first|finished|done|goes|fingers|price|boss|owner|customer|had to be)\b/iu;
const cameRight =
  /\b(until|till|taken|tried|again|now|seated|sorted|new|changed|trued|lifted|made|right|good|dry|fine|smooth|free|quiet|see|below|normal|(checked|tried|proved) (it )?against)\b/iu;

/** “Looked over for blow holes: none.” */
const noneThen = /^(none|nil|nothing)( (found|seen|left|now|at all|anywhere|of (it|them)))?$/iu;
/** “Old chain beside the new one: three quarters of an inch longer”: of the old one. */
const oldOne = /^(the |its )?old (?!\w+ (back|on|in|again|went|goes)\b)\w+\b(?!.*\b(back|refitted|again|went on|fitted)\b)/iu;
const noSubject =
  /^((it|that) (is|was|has|had) )?(an?|half|one|two|three|four|five|six|seven|eight|nine|ten|\d+)\b[^,]*\b(longer|shorter|thinner|thicker|wider|smaller|bigger|slacker)\b/iu;

/** “One screw is longer than the others, it goes by the dowel.” */
const than = /\bthan\b/iu;
const hasItsPlace = /^(and )?(it|that|this|they|that one|this one) (goes?|belongs?|is for|are for|sits?) (?!(with|out|in by)\b)\w/iu;
const asDrawn = /^ (as|by|to) ((in|on|by|at) )?(the |its )?(book|maker'?s?|drawing|picture|photo(graph)?|sketch|leaf(let)?|manual|handbook|sheet)\b/iu;

const denied = /\b(no|not|none|nothing|never|without|neither|nor|nowhere|hardly|instead of|rather than|less|any more)\b|n't\b/iu;
const was = /\b(was|were|had(?! to)|been|used to|found)\b/iu;
const still = /\b(still|now|yet|left|again)\b/iu;
/** What was before this work, or is of another. */
const before =
  /\b(old|previous|last(?! (bolt|nut|stud|screw|pin|tab|clip|one|two|three|bit|turn|thread|half|quarter)s?\b|\s*$)|former|until|till|before|if|unless|so that|in case|lest|thought|or|where|why|when|otherwise|either|looks? for|looked for|tried for|felt for)\b/iu;
const excused =
  /\b(nearly forgot|meant to be|(somebody|someone|he|they) had(?! *$)|had it|in (19|18)\d\d|for years|when (I|we|it|they|he|she) (came|found|took|opened|got|was)|on the way (out|off)|last (time|man|year|owner)|by (somebody|someone|the last)|by the (old|last|former|previous) \w+|somebody|someone before|in the bin|scrap bin|(?<!straightened )old (one|ones|man|foreman)( |$)|other (job|car|lorry|van)|another job|not part of|as (the )?(book|maker|drawing|leaf|manual|handbook|sheet)|(book|maker|drawing|leaf|manual|handbook)('s)? (says|allows|asks|wants|shows|gives)|by design|on purpose|told the owner|owner'?s card|had been|used to|before\b.*\b(now|since)|at first|when first|\w+ first$|(the )?first (time|one|two(?! threads)|try|go)|^(the )?first cut\b|in error|by mistake at first|thumb ?nail|run (over|down|up|through)? ?dry with|off the old|(lucky|luckily|better) )/iu;
/** What was bad lies where nobody drives it: “the bent ones are on the wall for the lads to see”. */
const putAside =
  /^(the |that |his )*(old |bent |cut-off )*(nails?|hair ?pins?|panel pins?|string|twine|bale wire|welding rod) (is|are|was|were|went|lies?|hangs?) (now |kept )?(in|on) (the|my) (tin|bin|wall|scrap|drawer|jar|bench|bucket|fire)\b|^(the |all |both |these |my )*((\d+|one|two|three|four|five|six|eight) )?(old |bent |worn |broken |cracked |pitted |scored |stretched |spoilt |bad )+(ones?|bits?|pieces?|\w+s)? ?(are|is|were|was|went|lies?|hangs?|(are |is |been |were )?(kept|hung|thrown|put))\b.*\b(wall|bin|skip|scrap|drawer|shelf|jar|tin|bench|bucket|(for|as) (the |a )?(lads|boys|apprentices|club|museum|show|pattern|warning|keepsake|paperweights?)|to (show|look at)|to see)\b/iu;
/** What went wrong lies in the bin, nothing was asked for it, a ring sits fast where it belongs, and stands come out from under. */
const asItShould =
  /^(an? |one |the |outer )*(box|carton|packet|crate|parcel|wrapper|bag)(es|s)? (was |is |had been |a bit |badly )*(dented|torn|crushed|wet|split|open(ed)?|damaged|bent|knocked)$|^stands? (come |came |are |taken )?(out|away)( first)?$|\b(was|were|and|got) (thrown|chucked) (away|out)\b|\bthrew (it|them|that|those) (away|out)\b|^(at |and )?no (extra )?charge( made| for (it|that))?$|\b(rings?|races?|bush(es)?|sleeves?|liners?|inserts?) (won't|will not|wouldn't|would not|doesn't|does not|can't|cannot) (be )?(turn(ed)?|moved?|creep|spin|shift(ed)?) (on|in) (the|its|their)\b|\bstands? out (last|first|from under)\b/iu;
const allowed =
  /^(only |just )?(the )?(paint|painting|polish|varnish|lettering|sign ?writing|photographs?|paperwork|the bill|sweeping up|tidying up)( and (paint|polish|varnish|lettering))?$|\b(that|it) (was|is) (only |just )?(the |my |old )*(paint|lamp|bench|floor|crane|funnel|dust|boots?|jack)$|\b(was|were) (only )?(miscounted|spares?( to begin with| anyway)?$)|\b(as (the )?(book|maker|drawing|leaf|manual|handbook|sheet|(figure|torque|limit|check|label) (asks|says|is|wants|gives))|(book|maker|drawing|leaf|leaflet|manual|handbook|sheet|list|card|catalogue|letter)('s)? ((no\.? ?)?\d+ )?(says|allows|asks|wants|shows|gives|has)|by design|as (asked|drawn|designed|ordered|agreed|meant|found)|as (in|on|at|by) (the )?(photo(graph)?|picture|sketch|drawing|card|list|leaflet|catalogue|other (side|end|one)|fellow)|(that|it) is the (felt|seal|packing|grease|leather|paint)|wants that|meant to be|bottom of the limit|which is (right|how|what|where|as|the same)|that is right|(this |that |it )?(is )?(just )?as it should( be)?|all (is )?well|nothing (is )?wrong|so (it is )?meant|level with the|(both|all|each|still|well) (in|inside|within) (the |its |their )?(\w+'s )?(figures?|limits?|tolerance)|nips (it|the)|need not|none (is |was )?(asked|wanted|needed|due)|with (a|its|the) (test )?certificate|another job|not part of)\b/iu;
const cured =
  /^(all |both )?(scraped|wiped|brushed|blown|washed|picked|peeled) (it |that |them )?(off|out|away)(,|$)|\b(backed|eased|let|slackened|took|nipped|adjusted|reset)\b.*\b(ran|runs|spins|turns|rolls) (sweet|free|quiet|true|smooth)(ly)?\b|^(none|no more|nothing)$|^(all|both) (\w+ )?(counted|there|accounted for|back)\b|^none (is |was )?missing\b|\b(off again|out again|apart again|(did|pulled|tried) (it|them|that one) (all )?again|tied (back )?on( again)?$|finished (it |them |the rest )?(to-?day|this morning|here|on \w+day|since)|(second|next|third) (one|wire|pin|tab|washer|ring|go|try) (is |was )?(drawn|went|bent|held|fine|good|whole|right|through|sat|up|home)|put right|repaired|found (it|them|again|under|behind)|borrowed (\w+'s|the garage's|another)|new set|made (a new|another)|picked (it|them) up|cut to (length|fit|size)|(longer|shorter|thicker|thinner|right|second|other) (one|ones|\w+) (from|in|on|fitted)|(fetched|got|rang) .*\bmore\b|(more|second|another|rest) (came|from)|degreased|solvent|spirit|(another|a fresh|a new) (length|piece|bit)|(with|an) insert|now (pulls|holds)|put (it )?back (on |in )?(right|square|true|as)|locked back in|is right|all right now|right now|true now|turned (it )?(round|over|about)|(took|taken|cut|pulled|drew) (it |them |that )?out|new (one|ones|\w+) (in|on|under|behind|from|went|fitted|bought|came|is|was)|another (one )?(is |was )?(on|in|fitted|up|in its place)|this is the (second|new|good|right)|put on the (dot|mark)|(taken|turned|went|gone) on to the next|back(ed)? to the slot|slid on|drawn off|warmed again|dyed (here|clear|clean)|straight within|crack[- ]tested|sleeved|x-?rayed|finished (the |it |them )?(next|in|later|with|from)|see (the )?(next )?step|(measured|read) now|no mark|lies free|at the figure|(shells|pistons|rings|bush(es)?|liners?) (are|is) for that|(took|used|fitted|put in|put on|got|fetched|made|tapped|with) (a |an |the )?(\w+ )?(new|another|other|second|spare|longer|shorter|right)\b|from (stock|the box|the drawer)|changed|replaced|renewed|noticed|stoned|dressed|filed|eased|cleaned|retapped|re-?cut|chased|welded|straight again|straightened|goes (home )?now|went (home|on|in) (then|now|square|sweetly|at once)|(home|free|square|right|good|tight|dry|sound|true|straight|true) (now|again|after)|now (it )?(is |sits |goes |drops |turns |runs |free|home|square|right|tight|true)|beg[au]n again|started again|scrapped, new|(fished|hooked|picked) (it |them )?out|cut (off |down )?with the (side )?cutters|snipped|done again|undone and|redone|afresh|threw|comes? (on|off|in) (in|with|at) the (next|last)|made one|sent back|sent (it|them) back|back to (them|the)|put (it )?back|as marked|checked by|wiped off and|sorted|no harm|(another|second|fresh)( \w+)? (was |is |has been )?(put|pushed|driven|tapped|bent|screwed|gone|went) in|so (a|another) (second|fresh)( new)? (one|pin|tab|washer|wire|clip|nut|bolt|plate|seal|gasket)|(turned|taken|pulled|went) on to \d[\d.]*( \S+)? (and|until|till) (it|they|the (slots?|holes?)) (did|lined up|met|came)|right way (up|round)|cut (another|a new|one)|binned|swapped|(it has|has|is) one now|put it in|turned it|correct|cleaned off|free (on|when|with)|washed (off|out)|looked at|none (now|since|left))\b/iu;
const curedAtOnce =
  /\b((came|comes|went) off with (a|one|the) (rag|wipe|brush|thumb|cloth)|off again|put right|out again|(un)?till|(wiped|washed|cleaned|polished) off|for years|cleaned|so that (the|it)|next time|and (dressed|reamed|stoned|filed|cleaned|changed|replaced|renewed|welded|tapped|ground)|on the old|in the old)\b/iu;

const always = once(() => ({
  plain: [...waysOf("plainly", lists.plainly), ...waysOf("ofAPiece", lists.ofAPiece)],
  even: waysOf("plainlyDenying", lists.plainlyDenying),
}));
const ofWork = once(() => ({
  plain: [...always().plain, ...waysOf("workWrong", lists.workWrong), ...waysOf("makeshift", lists.makeshift), ...waysOf("heldBack", lists.heldBack)],
  even: [
    ...always().even,
    ...waysOf("workWrongDenying", lists.workWrongDenying),
    ...waysOf("makeshiftDenying", lists.makeshiftDenying),
    ...waysOf("heldBackDenying", lists.heldBackDenying),
  ],
  state: waysOf("workStillWrong", lists.workStillWrong),
}));
const ofGoods = once(() => ({
  plain: [...always().plain, ...waysOf("goodsWrong", lists.goodsWrong)],
  even: [...always().even, ...waysOf("goodsWrongDenying", lists.goodsWrongDenying)],
  state: waysOf("goodsStillWrong", lists.goodsStillWrong),
}));
const ofReading = once(() => ({
  plain: [...waysOf("readWrong", lists.readWrong), ...waysOf("ofAPiece", lists.ofAPiece)],
  even: [...waysOf("readWrongDenying", lists.readWrongDenying), ...waysOf("makeshiftDenying", lists.makeshiftDenying)],
  state: waysOf("readStillWrong", lists.readStillWrong),
}));

/** “Long lining trailing, the leaflet shows it leading”: what the book says is the opposite of what was done. Where another book, or a reason, is named it is not asked. */
function otherThanTheBook(text: string): string | undefined {
  const [said, of = ""] = theBook.exec(text) ?? [];
  if (said === undefined || explained.test(text)) return undefined;
  if (otherwise.test(of)) return said;
  const done = text.replace(said, " ");
  const isTurned = ([one, other]: readonly [RegExp, RegExp]) => one.test(of) && !other.test(of) && other.test(done) && !one.test(done);
  return turned.some(([one, other]) => isTurned([one, other]) || isTurned([other, one])) ? said : undefined;
}

const theBook = /\b(?:(?:hand)?book|drawing|leaflet|manual|sheet|picture) (?:says|said|shows?|has|wants|asks(?: for)?|gives|draws) ([^,;:.()]*)/iu;
const otherwise = /^(it |them )?(the )?(opposite|otherwise|contrary|reverse|other way|different)/iu;
const explained = /\b(but|for|since|because|as|later|earlier|letter|other|agreed|unless|until|first|then|now|again|turned|wrong)\b/iu;
const turned: readonly (readonly [RegExp, RegExp])[] = [
  [/\bleading\b/iu, /\btrailing\b/iu],
  [/\bin(wards?|side)\b/iu, /\bout(wards?|side)\b/iu],
  [/\bup(wards?|permost)?\b/iu, /\bdown(wards?)?\b/iu],
  [/\bdry\b/iu, /\b(oil|greas)ed\b/iu],
];

/** Beside a new piece: that it was the old one that went on. */
export const saysTheOldOne = memoText((text: string): string | undefined => {
  return text
    .split(/[,;:.()–—]+/u)
    .find((it) => !denied.test(it) && theOld().test(it))
    ?.trim();
});

const theOld = once(
  () =>
    /\b(put|went|fitted|used|pushed|hung) (on |in )?(the |an? )?old (\w+ )?(back|again|in|on)\b(?! the (bench|box|bin|tin|drawer))|\bold (one|ones|set|pair) (back|again|went back|goes back)\b|\b(is|are) the old (one|ones|set|pair)\b|\bfrom the old (set|pair|lot|one)\b|\bsecond hand\b/iu,
);

/** “Lip to the oil”, and “lip outward”; “seal out”, and “with the seal in”: the words put what was declared the other way about. */
export function saysTheOtherWay(declared: string, text: string): string | undefined {
  const nouns = new Set(wordsIn(declared));
  const clauses = text.split(/[,;:.()–—]+/u).map((it) => it.trim());
  return clauses.find((clause, i) => {
    if (denied.test(clause) || excused.test(clause) || cured.test(clauses.slice(i + 1).join(", ")) || !wordsIn(clause).some((it) => nouns.has(it)))
      return false;
    return opposites.some(
      ([one, other]) =>
        (one.test(declared) && !other.test(declared) && other.test(clause) && !one.test(clause)) ||
        (other.test(declared) && !one.test(declared) && one.test(clause) && !other.test(clause)),
    );
  });
}

function wordsIn(text: string): readonly string[] {
  return (text.toLowerCase().match(/[a-z]{3,}/gu) ?? []).map((it) => it.replace(/s$/u, "")).filter((it) => !small.has(it));
}

/** What says of no part how it lies. */
const small: ReadonlySet<string> = new Set([...namingNothing, ..."was toward face are has".split(" ")]);

const opposites: readonly (readonly [RegExp, RegExp])[] = [
  [/\b(to(wards?)? the (oil|inside|fluid|box)|inwards?|faces? in)\b/iu, /\b(outwards?|to(wards?)? the (outside|air|dirt|road|weather)|faces? out)\b/iu],
  [/\bto(wards?)? the (\w*shaft|crank|journal)\b/iu, /\bto(wards?)? the (block|case|crankcase|housing|cap|casting)\b/iu],
  [/\b(upwards?|up|to(wards?)? the top)\b/iu, /\b(downwards?|down|to(wards?)? the bottom)\b/iu],
  [/\b(to(wards?)? the (front|engine|radiator)|forwards?)\b/iu, /\b(to(wards?)? the (rear|back|tail|gearbox)|backwards?|rearwards?)\b/iu],
  [
    /\b(seal|ring|spring|shaft|link|seal|wheel|drum|plug)s? (is |was |still )?(out|off)\b/iu,
    /\b(seal|ring|spring|shaft|link|seal|wheel|drum|plug)s? (is |was |still )?(in|on)\b(?! the)/iu,
  ],
];
