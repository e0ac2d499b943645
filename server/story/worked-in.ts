// Work on a part that is work on what sits in it: bushes that are pressed into a lever which is away, and reamed there.
// Invariant: told by the words of the order alone, and only of a piece that the sheet says goes with that part.
import type { Job } from "../model/job.ts";
import { isAt, ordersOf, statusUnread } from "../model/orders.ts";
import { headOf, looksForCracksBy, wordsOf } from "../model/read-with.ts";
import type { Part, Thing } from "../model/things.ts";
import { allWords } from "../model/titles.ts";
import { type Where, where } from "../model/where.ts";
import type { Away } from "./away.ts";

/** Work that was given out after a day, by an order that stands above a line and has come back, on the part in which this one sits, and that names it: “Press in two bushes, ream”. */
export function sizedInLater(job: Job, name: string, place: string, day: string, line: Where): (Away & { readonly in: Part }) | undefined {
  const piece = job.things.get(name);
  if (piece?.kind !== "part") return undefined;
  const head = headOf(piece);
  const { entries } = job.own.sheet;
  for (const [other, orders] of ordersOf(job).work) {
    const host = job.things.get(other);
    if (host?.kind !== "part" || host === piece || head === undefined || !goTogether(piece, host)) continue;
    for (const { file, entry, detail, status, sentOn } of orders) {
      const since = sentOn ?? status?.date?.text;
      const position = entries.indexOf(entry);
      if (status?.status !== "received" || statusUnread(job, entry) || !isAt(detail, place) || since === undefined || day >= since) continue;
      if (position < 0 || position > entries.indexOf(line.entry)) continue;
      const text = detail.text?.value ?? "";
      if (!givesSize(text) || !wordsOf(text).includes(head)) continue;
      return {
        reference: entry.reference?.value ?? "",
        where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword),
        in: host,
        ...(status.date === undefined ? {} : { back: status.date.text }),
      };
    }
  }
  return undefined;
}

/** One is behind the other, or they are called by one word: `relay-bush` and `relay-lever`. */
function goTogether(piece: Part, host: Part): boolean {
  if ([...piece.behind, ...piece.heldBy].some(({ text }) => text === host.name) || host.behind.some(({ text }) => text === piece.name)) return true;
  return firstWord(piece) !== undefined && firstWord(piece) === firstWord(host);
}

function firstWord({ name }: Thing): string | undefined {
  const words = wordsOf(name);
  return words.length > 1 ? words[0] : undefined;
}

/** Work that gives a thing another size, by its words. What is only looked at, balanced or painted keeps the size that it was found with. */
export function givesSize(text: string): boolean {
  return sizes.test(text.replace(leavesSize, " "));
}

/** Work that mends no metal, each clause of it: a crack that is painted, balanced, washed or looked for is a crack, and what was left is left. No text is taken for work. */
export function mendsNothing(text: string): boolean {
  const clauses = text.split(/[,;:&+]|\.(?!\d)|\band\b/u).filter((it) => it.trim() !== "");
  return clauses.length > 0 && clauses.every((it) => leavesMetal.test(it) && (isLeft.test(it) || !mends.test(it.replace(notDone, " "))));
}

/** What pulls by its strands, its links or its cloth is not mended by solder, glue, tape or a knot (common practice). A new end or nipple is another matter. */
export function joinsNothing(thing: Thing, text: string): boolean {
  return pulls.test(allWords(thing).split(/[,;(]/u)[0] ?? "") && looseJoin.test(text) && !newEnd.test(text);
}

const pulls =
  /\b(cables?|ropes?|chains?|belts?|straps?|slings?|hoses?|tyres?|cords?|webbing)\b(?! (pins?|clips?|nuts?|bolts?|guards?|sheaves?|wheels?|drums?|stops?|brackets?|adjusters?|clamps?|shackles?|links?))/iu;
const looseJoin =
  /\b((soft[- ]?)?solder\w*|glu(e|ed)|taped?|tied|bound|whipp\w*|knot\w*|jubilee|stuck|stapled|stitched|twisted|cable ties?|wired (up|round|together)|wire round)\b/iu;
const newEnd = /\b(new|nipples?|swag\w*|ferrules?|end fittings?|re-?made|replac\w*|renew\w*|spliced|vulcani[sz]\w*)\b/iu;

/** “Remetal and bore”, “build up and turn”: metal is put on, or another piece in. What is ruled out is not. */
export function addsMetal(text: string): boolean {
  return addingMetal.test(text.replace(/\b(no|not|without|never|instead of|rather than|or)\b[^,;.]*/giu, " "));
}

const addingMetal =
  /\b(re-?metal\w*|re-?white-?metal\w*|re-?babbitt\w*|(new|fresh) (white[- ]?)?metal|poured|metal[- ]?spray\w*|spray(ed|ing)? (up |and )(to |re-?)?(size|ground|grind\w*|turn\w*|machin\w*)|weld\w* up|buil[dt] up|re-?lin(e|ed|ing)\b|re-?bush\w*|re-?sleev\w*|hard ?chrom\w*)\b/iu;

/**
 * Whether work is quite another than was decided on: a bush, a sleeve or new metal, and it was straightened or its keyway cut; straightened in the press, and it was ground. What
 * was decided in no such words, or done in words that may be it, is taken for the same.
 */
export function isOtherWork(decided: string, work: string): boolean {
  const plain = decided.replace(ruledOut, " ");
  if (puttingIn.test(plain) || addingMetal.test(plain)) return onlyElse(work) && !mayPutIn.test(work);
  return straightening.test(plain) && !cuts.test(plain) && onlyCuts(work);
}

/** “Bushed and reamed”, “sleeve it”: another piece was to go in. */
export function putsIn(decided: string): boolean {
  return /\b((re-?)?bush(ed|ing)?|(re-?)?sleeved?|bush(es)?|sleeve|liner)\b/iu.test(decided.replace(ruledOut, " "));
}

function onlyElse(work: string): boolean {
  const clauses = work.split(/[,;:&+]|\.(?!\d)|\band\b/u).filter((it) => it.trim() !== "");
  return clauses.length > 0 && clauses.every((it) => elsewhere.test(it) || mendsNothing(it) || onlyCuts(it)) && clauses.some((it) => elsewhere.test(it));
}

const ruledOut = /\b(no|not|without|never|instead of|rather than|or)\b[^,;.]*/giu;
const puttingIn =
  /\b((re-?)?bush(ed|ing)|(re-?)?bush (it|in|and|with|both|all|the)\b|(re-?)?sleeved?|(fit|press|shrink|drive)(ed)?( in)?( an?| new| the| two)* (bush|sleeve|liner)(es|s)?|re-?lin(e|ed|ing)|metal[- ]?spray\w*|(hard[- ]?)?chrom(e|ed|ing)|buil[dt] up|weld\w* up)\b/iu;
/** It may be that, by any of its words. */
const mayPutIn =
  /\b((re-?)?bush\w*|(re-?)?sleev\w*|lin(ers?|ed|ing)|metal\w*|spray\w*|weld\w*|braz\w*|chrom\w*|plat(e|ed|ing)|built|build|new|fresh|insert\w*|press(ed)? in|shrunk|decided|agreed|above|ordered|said)\b/iu;
const straightening = /\b(straighten\w*|(set|press|beat|bent|bend)(en)? (it )?(back |cold )?(straight|true)|straight (in|on) the press)\b/iu;
/** Something at another place of the piece, or to its shape. */
const elsewhere =
  /^\s*(the |its |both |all )?(straighten\w*|set (straight|true)|trued\b|key-?ways?\b|key-?seats?\b|threads?\b|re-?thread\w*|(oil[- ]?)(holes?|ways?|grooves?)\b|holes? (drilled|tapped|cleaned)|re-?tapped|re-?cut (the |its )?(key|thread)\w*)/iu;

/** Work that takes metal off a surface and does no more, each clause of it: no crack is closed by a scraper and no arm straightened by a file. A crack that is cut out is named. */
export function onlyCuts(text: string): boolean {
  const clauses = text.split(/[,;:&+]|\.(?!\d)|\band\b/u).filter((it) => it.trim() !== "");
  return clauses.length > 0 && clauses.every((it) => !cutsMore.test(it) && (cuts.test(it) || mendsNothing(it))) && !mendsNothing(text);
}

/** Verbs that take a little off a face. In all their forms and no further: a buffer is not buffed, nor is a sandwich plate sanded. */
const rubbing = [
  "scrap(es?|ed|ing)|((draw|cross)[- ]?)?fil(es?|ed|ing)|dress(es|ed|ing)?|ston(es?|ed|ing)|polish(es|ed|ing)?|ground|grind(s|ing)?|skim(s|med|ming)?",
  "ream(s|ed|ing|ered)?|hon(es?|ed|ing)|lap(ped|ping)|(sand|bead|grit|shot|vapou?r)[- ]?blast(s|ed|ing)?|sand(s|ed|ing|papered|papering)?",
  "linish(es|ed|ing)?|emer(y|ied)|burnish(es|ed|ing)?|buff(s|ed|ing)?|de-?burr(s|ed|ing)?",
].join("|");

/** Work of which each clause is known, and none gives more metal than there was: “burrs off with a stone”, “hook straightened”, “wire brushed, painted outside”. */
export function addsNothing(text: string): boolean {
  const clauses = text.split(/[,;:&+]|\.(?!\d)|\band\b/u).filter((it) => it.trim() !== "");
  return clauses.length > 0 && clauses.every((it) => smallWork.test(it)) && !mayPutIn.test(text) && !mayGrow.test(text);
}

const smallWork = new RegExp(
  String.raw`\b(${rubbing}|burrs?|(wire[- ]?)?brush(ed|ing)?|clean(ed|ing)?|wash(ed|ing)?|wip(e|ed|ing)|paint(ed|ing)?|de-?rust(ed|ing)?|straighten(ed|ing)?|trued|oil(ed)?|greas(e|ed))\b`,
  "iu",
);
/** A knurl, a peen and a press raise it, and what was closed or spread has another size. */
const mayGrow =
  /\b(knurl\w*|peen\w*|crimp\w*|swag\w*|upset\w*|expand\w*|spread\w*|stretch\w*|clos(e|ed|ing)|shrink\w*|heat\w*|forg(e|ed|ing)|set|adjust\w*|shim\w*|pack\w*|another|other|replac\w*|renew\w*|exchang\w*|swap\w*|turned (round|over|end)|re-?chrom\w*|re-?plat\w*)\b/iu;

/**
 * Work that puts metal, a bush or a lining on a face, cuts one, or cleans, and no more, each clause of it: the crack in what bears that runs on below it. Not where the
 * crack, or the thing, is said to be of what was put on: cracked white metal is gone with the old metal.
 */
export function leavesCrack(text: string, said: string): boolean {
  const clauses = text.split(/[,;:&+]|\.(?!\d)|\band\b/u).filter((it) => it.trim() !== "");
  if (clauses.length === 0 || closesCrack.test(text)) return false;
  // New metal takes the crack of the old with it; a cutter does not.
  if (isOfLining.test(said)) return clauses.every((it) => bored.test(it) || cuts.test(it) || mendsNothing(it));
  return clauses.every((it) => lines.test(it) || cuts.test(it) || mendsNothing(it)) && clauses.some((it) => lines.test(it));
}

const lines =
  /^\s*(all |both |each |it |then |line[- ]?|old metal out )*(re-?metal\w*|(re-?)?white-?metal\w*|re-?babbitt\w*|(new|fresh) (white[- ]?)?metal\b|metal (poured|run)\b|(re-?)?poured?\b|re-?lin(e|ed|ing)\b|(re-?)?bush(ed|ing)?\b|bor(e|ed|ing)\b|(hard[- ]?)?chrom(e|ed)\b)/iu;
const bored = /^\s*(all |both |each |it |then |line[- ]?)*(re-?)?bor(e[ds]?|ing)\b/iu;
const closesCrack =
  /\b(cracks?|cracked|fractur\w*|weld\w*|braz\w*|solder\w*|stitch\w*|sleev\w*|plat(e|es|ed|ing)|patch\w*|rivet\w*|strap\w*|banded|dowel\w*|new (?!(white|metal|bush))\w+|replac\w*|renew\w*|repair\w*|mend\w*|rebuil[dt]|built)\b/iu;
const isOfLining =
  /\b((white-?)?metal\w*|babbitt\w*|lin(ing|er|ed)s?|bush(es|ed|ing)?|brass(es)?|shells?|bearings?|shoes?|pads?|slippers?|steps?|chrom\w*)\b/iu;

const cuts = new RegExp(
  String.raw`^\s*(all |both |each |it |the |lightly |hand[- ]|by hand |edges? |faces? |surfaces? |corners? |tips? |joints? |tooth |teeth )*(re-?)?(${rubbing}|laps?|machin(es?|ed|ing)|turn(s|ed|ing)?|mill(s|ed|ing)?|chas(es?|ed|ing)|scotch\w*)\b`,
  "iu",
);
/** It may be more than that: the crack itself was cut out, or something was put in, on or straight. */
const cutsMore =
  /\b(cracks?|cracked|fractur\w*|out|away|past|beyond|below|stop\w*|blend\w*|vee?d?|weld\w*|braz\w*|solder\w*|stitch\w*|sleev\w*|bush\w*|plat(e|ed|ing)|patch\w*|rivet\w*|metal\w*|insert\w*|straight\w*|true|flat|square|parallel|new|built|build|repair\w*|mend\w*|renew\w*|replac\w*|press\w*|set)\b/iu;

/** Nobody did it: “could not do the chrome”, “refused, too thin”. */
const couldNot = String.raw`(they |he |she |it |we )?(could(n't| not)\b|can(not|'t)\b|would(n't| not)\b|unable\b|refused\b|declined\b|too (far gone|thin|deep|worn|bad)\b|beyond (repair|saving|us)\b|no work done\b)`;

const leavesMetal = new RegExp(
  String.raw`^\s*(re-?)?((paint|clean|wash(?!er)|degreas|blast|balanc|measur|gaug|look|label|weigh|inspect|photograph|dr(y|ied)|oil(?!way)|greas|test|examin|hardness)\w*\b|(${looksForCracksBy})\w*\b|(crack|flaw)s?[- ]?(test|detect|check|find)\w*\b|(pressure|proof|load|leak)[- ]?(test|tried)\w*\b|certif\w*\b|((return|sen|g(i|a)v|c(a|o)m|br(i|ou)|hand)\w* )?(back )?(as (it|they) (was|were|came|is|are)\b|un(touched|done|worked|ground|chromed|plated|machined|repaired|welded)\b)|returned (as|un)\w*\b|${couldNot}|check\w*\b(?! (valve|nut|plate))|(against|to) (the |its )?(template|drawing|gauge)\b|not\b|nothing\b|left (as|alone|so|it)\b|leave (as|alone|it)\b|to be\b|still to\b)`,
  "iu",
);

const isLeft = new RegExp(String.raw`^\s*(((not|nothing|left|leave|to be|still to)\b)|${couldNot})`, "iu");
const notDone = /\b(no|not|without|never|before|for|to|where|until|un\w+)\b( \w+){0,2}/giu;
/** Work on the metal in the same breath: “painted after welding”, “cleaned up with a stone”. */
const mends =
  /\bafter (?!paint|clean|wash|blast|balanc|measur)(\w+ )?\w+ing\b|\bup (with|in)\b|\bin the lathe\b|\bthen (\w+ ){0,2}(weld|braze|solder|straighten|grind|regrind|set|stitch|machine|repair|mend|renew|re-?metal|re-?bush|sleeve|build)\b|\bafter (the )?(weld|repair|braz)\w*\b|\b(welded|stitched|mended|repaired|brazed|soldered|ground|dressed|stoned|filed|scraped|machined|turned|milled|skimmed|reamed|honed|lapped|straightened|set true|sleeved|re-?bushed|bushed|re-?metalled|re-?cut|drilled|tapped|riveted|patched|spliced|rewound|renewed|replaced|fitted|built up|relined)\b/iu;

const leavesSize = new RegExp(
  [
    // What is ruled out: “no grinding”, “do not grind”, “polish nothing”.
    String.raw`\b(no|not|don't|without|never)( to)?( be)? (re-?)?(grind|ground|ream|bor(e|ed|ing)\b|hone|lap|skim|machin|mill|turn|polish|weld|press)\w*|\b\w+ nothing\b`,
    // Turned round, and what it runs on meanwhile.
    String.raw`\bturn(ed)? (it )?(over|round|around|end for end|upside)\b|\b(turned|ground) (mandrel|arbor|centres?|bar|coat)\b`,
    // What comes off, or closes a hole for oil.
    String.raw`\bpress(ed)? (off|out|apart)\b|\bpress (off |out )?(the |its )?\w+ (off|out)\b(?! and (in|on)\b)|\b\w*plugs? (are |were )?pressed in\b|\bpress in (the |new )?(\w+ )?plugs?\b`,
    // A bore that is looked into or washed.
    String.raw`\bbore ?scop\w*|\b(clean|wash|brush|blow|measure|check|gauge|inspect|mask)(ed)?( out)?( the| its)? bores?\b`,
  ].join("|"),
  "gi",
);

const sizes =
  /\b(grinds?|grinding|ground|regrind|reground|reams?|reamed|reaming|(re|line-?)?bor(es?|ed|ing)|hon(es?|ed|ing)|lap(ped|ping)?|skim(med|ming)?|turn(ed)?|machin(es?|ed|ing)|mill(ed)?|broach(ed)?|scrap(ed?|ing)|sleeved?|bush(ed)?|press(ed)?|shrunk (on|in)|shrink (on|in)|re-?metal(led|ling)?|metalled|weld(ed)?|built up|build up|sprayed|chromed?|plated|polish(ed|ing)?|re-?lin(es?|ed|ing)|re-?fac(es?|ed|ing)|re-?groov(es?|ed|ing)|re-?cut|re-?bond(ed|ing)?|planed)\b/i;
