// What a reason says against itself: “only a fine line at the fillet”, “will do until the new one comes”, “could not see into the bore”. Somebody who writes so has not found the thing good.
// Invariant: what is denied, measured inside, of paint or stain, dressed out since or meant so is no such word; where a reason may be an honest one, it is. What may be left is common practice.
import { memoText, once } from "../model/memo.ts";
import { numberNamed, numberPattern } from "../quantities/number-words.ts";
import { excusedFaults, later, noAnswer, stopgap, unknown, wanting } from "./doubt-lists.ts";
import { type Ways, firstOf, waysOf } from "./ways.ts";
import { makeshift, ofAPiece } from "./work-lists.ts";

/** It says that it is for now, or for want of another. */
export const isForNow = memoText((text: string): string | undefined => {
  return firstSaid(text, forNow, honestly);
});

/** It names no reason for want of a locking, but that there was none to be had, or that it was forgotten. */
export const isForWantOfIt = memoText((text: string): string | undefined => {
  return isForNow(text) ?? firstSaid(text, forWant, honestly);
});

/** It is for now, or to be looked at some day, or it says that nobody knows: words that are no reason for anything. What is measured inside may well be renewed next year. */
export const putsOff = memoText((text: string): string | undefined => {
  return (
    (empty.test(text) ? text.trim() : undefined) ??
    isForNow(text) ??
    (inside.test(text) ? undefined : firstSaid(text, someDay, honestly)) ??
    firstSaid(text, nobodyKnows, honestly)
  );
});

/** The whole of it is that it is small, or fine: what is to be shown, and no word of why. */
const empty =
  /^\s*(?:(?:it|they|that|this)(?:'s| is|'re| are) |is |are |only |just |very |quite |rather |a bit |still |looks? |seems? |all )*(?:small|minor|slight|little|fine|ok(?:ay)?|good|alright|all right|not (?:too |so |very |that |all that )?(?:bad|much|deep|serious|important)|normal|usual|nothing(?: much| serious)?|no (?:matter|problem|worr(?:y|ies)|bother|harm)|whatever|(?:the )?same as (?:ever|always|usual)|as (?:usual|ever|always))\s*[.!]?\s*$/iu;

/** The same, or the fault that it is to excuse. */
export const speaksAgainst = memoText((text: string): string | undefined => putsOff(text) ?? tellsAFault(text));

/** A fault of the thing itself, with or without a word that excuses it. */
export const tellsAFault = memoText((text: string): string | undefined => {
  const excused = text.replace(ofAnother, " ");
  return (admitted.test(text) ? text.trim() : undefined) ?? (answered.test(text) ? undefined : firstSaid(excused, faults, harmless));
});

/** Behind a question: that nobody knows yet, has asked yet, or would swear to it. The first clause is the answer; what follows tells how it was come by. */
export const saysNoAnswer = memoText((text: string): string | undefined => {
  const first = text.split(/[;:()–—]+|\.(?!\d)|\bbut (?:then|now|since)\b|\b(?:till|until|before) (?:we|I|he|they)\b/u)[0] as string;
  if (answeredSince.test(text)) return undefined;
  const said = firstOf(noAnswers(), first);
  return said === null ? undefined : inItsClause(first, said);
});

/** Asked again, measured, looked since: “not sure at first, measured it: 20”. */
const answeredSince =
  /\b(at first|ours|(maker|book|drawing|club|card)('s)? (says?|said|has|have|gives?|allows?)|(measured|asked|tried|dyed|counted|stripped) (it|them|him|her|both)|then (asked|measured|found|looked|he|she|they|it)|since (then )?(asked|measured|found)|now (known|measured|found|we know)|rang back|wrote back|came back|turned out|it is \d|: ?\d)/iu;

function firstSaid(text: string, ways: () => Ways, unless: RegExp): string | undefined {
  const clauses = text.split(/[,;:()–—]+|\.(?!\d)|\bbut\b/u);
  for (const [i, clause] of clauses.entries()) {
    if (unless.test(clause)) continue;
    const said = firstOf(ways(), clause);
    if (said === null) continue;
    const after = [clause.slice(said.index + said[0].length), ...clauses.slice(i + 1)].join(", ");
    if (ways === faults && (mended.test(after) || isExplained(clause, said[0], after))) continue;
    return inItsClause(clause, said);
  }
  return undefined;
}

/** With the words that it stands in, for half a sentence makes another sense, or none; of a long one from where it begins. */
function inItsClause(clause: string, { index }: RegExpExecArray): string {
  const whole = clause.trim();
  return whole.length <= longest ? whole : clause.slice(clause.slice(0, index).search(/\S*$/u)).trim();
}

const longest = 50;

/** What is no crack: it is not more than is allowed, it was made fast, or it is of the forging and only looks like one. */
function isExplained(clause: string, said: string, after: string): boolean {
  if (oldMend.test(said)) return triedSince.test(`${clause}, ${after}`);
  if (looksLike.test(clause) && /^[^,]*, *(are|is|was|were) (the|only|just|no|not|an?)\b/iu.test(`x${after.slice(after.indexOf(","))}`)) return true;
  if (feared.test(clause) && wasOnly.test(after) && !unsure.test(after)) return true;
  return !ofCracks.test(said) && (madeFast.test(after) || asDrawn.test(after) || isWithinAllowed(`${clause}, ${after}`, said));
}

/** An old repair is as good as what was made of it since: “old weld from 1950, dyed, sound”. */
const oldMend = /\bold\b|\b(brazed|welded|soldered|stitched|strapped)\b/iu;
const triedSince = /\b(dyed?|ink|x-?ray(ed)?|ultrasonic|crack[- ]?(test|detect)\w*|proof|tested|drawing|drawn|maker'?s?|tight|no (line|crack)s?)\b/iu;
const looksLike = /\blooks? like\b/iu;
/** “Feared a crack in the corner; dye twice, and it is a tool mark”: what was feared, and what it is, said outright to the end of the clause. */
const feared = /^\W*(?:(?:i|we|he|it|they|at first) )*(?:looked|seemed|feared|thought|suspected)\b/iu;
const wasOnly =
  /(?:, *|\b)(?:and |but )?(?:it|that|they|these) (?:is|are|was|were|proved(?: to be)?|turned out(?: to be)?) (?:only |just )?(?:(?:an?|the|old|a (?!an? |the |old )\w+) ){0,4}(?:paint|tool[- ]?marks?|file marks?|scratch(?:es)?|scrib(?:er|ed) (?:lines?|marks?)|dirt|grease|varnish|enamel|a hair|casting (?:mark|seam|line)|rust stain|pencil|chalk)(?: line| mark)? *(?:,|$)/iu;
const unsure = /\b(perhaps|maybe|probably|likely|think|hope|suppose|guess|might|or|unless|still|not|under|beneath)\b/iu;
const ofCracks = /crack|line|fractur|flaw|indication|hair/iu;
const madeFast =
  /\b(wedged|(re-?)?pinned|re-?riveted|re-?bonded|drilled out|no (movement|shake|play|rock) (now|left|since|any more)|(tight|fast|firm|sound) (again|now|since))\b/iu;

const asDrawn = /\bas (the )?(drawing|drawn|made|maker|book|sheet)\b/iu;

const number = String.raw`(\d+\.\d+|${numberPattern})`;
const read = new RegExp(String.raw`\b${number}\b`, "iu");
const most = new RegExp(
  String.raw`\b(?:book|maker|card|leaflet|sheet|manual|handbook|limit|max(?:imum)?|allow(?:s|ed)|permit(?:s|ted)|scrap(?:ped)? (?:at|over))(?:'s letter)?(?: (?:is|allows|says|gives|has|at|of|up to|no more than))*:? ${number}(?: ?(?:to|\.\.) ?${number})?\b|\b${number} (?:are |is )?(?:allowed|permitted)\b`,
  "iu",
);

/** “Three broken wires in a lay, the book allows five”, “41 lb, book 40 to 48”: the first figure of it is no more than what the words themselves allow. */
function isWithinAllowed(text: string, said: string): boolean {
  const at = text.indexOf(said);
  const limit = most.exec(text.slice(at + said.length));
  if (limit === null) return false;
  const first = read.exec(text.slice(at, at + said.length + limit.index));
  const [low, high, only] = [limit[1], limit[2], limit[3]].map((it) => (it === undefined ? undefined : numberNamed(it)));
  if (first === null) return false;
  const figure = numberNamed(first[1] as string) ?? Number.NaN;
  if (high !== undefined && low !== undefined) return figure >= low && figure <= high;
  return figure <= (low ?? only ?? -1);
}

const forNow = once(() => waysOf("stopgap", stopgap));
const forWant = once(() => waysOf("wanting", wanting));
const noAnswers = once(() => waysOf("noAnswer", noAnswer));
const someDay = once(() => waysOf("later", later));
const nobodyKnows = once(() => waysOf("unknown", unknown));
const faults = once(() => [...waysOf("excusedFaults", excusedFaults), ...waysOf("ofAPiece", ofAPiece), ...waysOf("makeshift", makeshift)]);

const inside =
  /\b(inside|within|well (under|over|above|below)|half (of )?(the|its|what)|(limit|allowed|allows|minimum|maximum|min|max|book|new|worn)\b[^.;]*\d|\d[^.;]* left)\b/iu;

/** What is only bad behind the whole of it. */
const admitted =
  /^\s*(?:a (?:bit|little) |slightly |badly |very |rather |it is |they are |only )*(?:worn|pitted|notchy|rough|gritty|scored|corroded|rusted|perished|chafed|cracked|bent|loose|leaky|leaking|weeping|flaked|thin|glazed)(?: \w+){0,3} (?:but|yet|though|and still|and yet)(?: still| it| they| she)* (?:runs?|usable|works?|holds?|drives?|goes|serviceable|bites?|grips?|seals?|pulls? up|will|strong enough)\b/iu;

/** “Could not see any”, “no crack to be seen”, “not yet due”; what somebody of an office said; so by design. */
const honestly =
  /\b(could|can|did|does|do) ?(not|n't) (see|feel|find|hear|measure|get) (any|anything|one|a (crack|line|mark|step|flaw|rock|trace)|more|no|the .*(any|under|with|through))\b|\b(by design|as (made|drawn|designed)|(maker|book|manual|handbook|drawing|inspector|surveyor|standard)('?s)? (says?|said|allows?|asks?|gives?|passed))\b|\bnot (yet )?(due|needed|wanted)\b/iu;

/** Of what covers it, of how it was looked at, of what was dressed out or measured, or of something that was there instead. */
const harmless =
  /\b((?<!\b(?:under|below|beneath|through) (?:the |its |old )*)paint(ed)?|varnish|enamel|glue lines?|chipped and (trimmed|pared|planed|fitted)|lacquer|plating|chrome|putty|primer|casting|cast|mould|moulding|parting line|timing|cleaning|washing|forging|lathe|seam of|scriber|pencil|tool|rust(?! (?:has|have|had|ate|went|got) )|stain|dirt|(?<!\bwith )oil|hair lay|thought|taken for|took (it |that |this |them )?for|mist(ook|aken)|looked like|what looked|no|not(?! (very|yet|quite|through|that))|none|nothing|never|without|nor|neither|free (of|from)|cracks? (test|detect|check)\w*|looked? for|search\w*|checked for|by design|as (made|drawn|designed)|allow(s|ed)?|permits?|permitted|inside|within|well (under|over|above|below)|old (one|pin|nut|bolt|bush)|un-?worn|rubbed down( with| and|$)|glued (tight|and (stitched|pinned|pegged|screwed|clamped))|it was|was only|were only|(dressed|stoned|ground|filed|polished|lapped|blended|machined|skimmed|turned|cut|scraped|bored|reamed|honed) (out|off|away|clean|smooth|flat|true|back|past)|(welded|repaired|renewed|mended|straightened) (by|at)|(?<!\b(?:threads?|tip|end|edge|corner|bottom|head|lip|land|nose|chamfer|fillet) (?:is|are|has|have) )(?<!\b(?:half|nearly|mostly|almost|largely|partly) )gone(?! (?:an? bit |a little |very |rather )?(?:weak|soft|slack|thin|brittle|sloppy|loose|oval|rough|baggy|through)\b)|before|hardly|barely)\b/iu;

/** Put right, further on. */
const mended =
  /\b(renewed|replaced|swapped|new (one|ones|\w+)( (is |are )?(in|on|fitted))|fitted (it|one|new)|put right|re-?(lined|metalled|bushed|faced|sleeved|riveted|wound)|straightened to|built up|hard-?faced|re-?tipped|re-?faced|within \d|ground out|dressed|stoned|skimmed|x-?rayed|dye shows n\w+|welded (by|at)|(ink|dye|magnets?|lamp) shows? (nothing|none|no line)|(dyed|inked|x-rayed)[:,]? nothing)\b/iu;

/** Another thing's fault, told as the cause. */
const ofAnother =
  /\b(the|its|old|left|right|other|lock|hub|king) ?(nuts?|pins?|keys?|tabs?|washers?|covers?|caps?|seals?|lips?|bolts?|paint|plating|cups?|boots?|gaiters?|guards?)('s)? (was|were|had|had been|has|is|are|itself)( \w+){0,3}/giu;
const answered = /\b(cracks?|lines?|play|rock|leaks?|flaws?)\s*[:=]\s*(none|nil|no|0)\b/iu;
