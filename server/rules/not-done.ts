// What is told where a deed is to be told, and is a plan, put off, or left as it was: “to be swung on Saturday”, “trestles still under it”, “not needed”.
// Invariant: what was done in any other clause is no plan; where words may tell a deed, they do. The words are those of the bench, and common practice.

/** It lies ahead, in the words that the clause begins with, or in the whole of it. */
const planned = new RegExp(
  [
    // “To be swung”, “still to be done”, “needs to be run”, “must be braked”, “will be driven”.
    String.raw`^(?:(?:it|she|he|this|that|still|then|all|is|are|has|have|needs?|wants?|ought|had|remains?|yet) )*to be (?!sure|fair|honest|certain|safe|exact|expected|on|kept|watched|run in)\w+`,
    String.raw`^(?:it |she |this |that )?(?:still )?(?:will|shall|must|should|is due to|is to) (?:still )?be (?!fine|expected|said)\w+(?:ed|en|un|wn|ung|st|ne|ought|ade|ld|ept)\b`,
    // “I'll drive it”, “will swing it on Saturday”, “he shall run it up”.
    String.raw`^(?:(?:i|we|he|she|they|you) ?)?(?:will|shall|'ll) (?:just |then |still )?(?:swing|drive|ride|try|test|take|do|load|tow|run|give|have|finish|put|steam|fire|fly|sail|row|launch|lift|wind|brake|let|tie|untie|prop|chain|fix|get) (?:it|her|him|them|this|that|these|the|a|an|one|two|both|all|some|on|round|up|out|off|down|away|back)\b`,
    String.raw`^(?:(?:i|we|he|she|they) )?(?:am |are |is )?(?:going|hop(?:e|es|ing)|mean(?:s|ing)?|intend(?:s|ing)?|plan(?:s|ning)?|want(?:s|ing)?|about) to (?!the |a |an |and |my |our |his )\w+`,
    String.raw`^(?:it |she )?(?:still )?(?:needs|wants|requires) (?!no\b|nothing)(?:(?:a|an|another) )?(?:\w+ )?(?:\w+ing|test|trial|run|drive|try|look)\b`,
    String.raw`^(?:would|should|ought to|might|hopefully) (?:\w+ )?(?:be |do |go |stop |hold |run |swing |work |stand )?(?:all right|alright|ok(?:ay)?|fine|well)\b`,
    String.raw`^(?:(?:the|a|road|load|brake|swing|trial|proof|final) )*(?:test|trial|run|drive|ride)(?: run| drive)? (?:is |are )?(?:to (?:come|follow|do)|due|pending|booked|arranged|planned|outstanding|deferred|postponed|put off|later|tomorrow|next \w+|(?:on |this )?(?:mon|tues|wednes|thurs|fri|satur|sun)day)(?: \w+)?$`,
    `^(?:on |this |next )?(?:mon|tues|wednes|thurs|fri|satur|sun)day(?: (?:morning|afternoon|evening|night|week))?$`,
    String.raw`^(?:tomorrow|later|some (?:other )?day|another (?:day|time)|when (?:i|we|he|they) (?:can|get|have)\b.*|as soon as (?:i|we|he|they) (?:can|get|have)\b.*)$`,
  ].join("|"),
  "iu",
);

/** It was left out, and the whole clause says so. */
const leftOut =
  /^(?:(?:it |they |that |this )?(?:is |are |was |were )?(?:not (?:needed|necessary|required|wanted|called for|worth it|possible)|unnecessary|skipped|omitted|left out|waived|forgotten|dispensed with)(?: (?:this time|here|for this|today|by (?:me|us|him)))?|no (?:need(?: (?:to|for|of) \w+)?|time|chance)|(?:i |we )?(?:did ?n[o']t|have ?n[o']t|had no time to) (?:bother|trouble|have time|get round to it|try it|do it|test it)|(?:i |we )?forgot(?: (?:to|about) .*)?|(?:as|same as) (?:before|last (?:year|time|season|month|week))|see (?:last|the last) \w+)$/iu;

/** The same of the whole: nothing but where it stands. */
const standing =
  /^(?:planned|pending|outstanding|awaited|t\.?b\.?[dac]\.?|to (?:do|come|follow)|due(?! to)|booked|arranged|deferred|postponed|put off)(?: (?:for|on|till|until|to|with|when)\b.*)?$/iu;

/** Words of something that was done. */
const deed =
  /\b(?:ran|rode|drove|driven|swung|stopped|braked|steered|turned|spun|pulled|pushed|pumped|held|lifted|loaded|leaned|tried|tested|towed|rocked|shaken|flown|flew|sailed|launched|raised|lowered|wound|runs?|works?|holds?|stops?|steers?|drives?|(?<!be )done|out and back|there and back|lock to lock|(?:round|along|up|down|over|through|across|past) (?:the|a|an|our|and)\b)\b/iu;
/** How often, how far or how long: of a plan that is told first, or of a deed. */
const howMuch =
  /\d|\b(?:an?|half|one|two|three|four|five|six|ten|twelve|twenty|thirty) (?:miles?|km|hours?|minutes?|stops?|laps?|turns?|lifts?|times|swings?)\b/iu;

const clausesOf = (text: string): readonly string[] => text.split(/[,:;()–—]+|\.(?!\d)|\b(?:but|and then)\b/u).map((it) => it.trim());

/** Of a test: the words by which it is a plan, or was left out. Undefined where any other clause tells of something that was tried. */
export function saysNotTried(text: string): string | undefined {
  const clauses = clausesOf(text);
  return clauses.find((it, i) => {
    const isPlan = isAhead(it) && (i === 0 || standing.test(it) || ofTrial.test(it));
    if (!isPlan && !(i === 0 && leftOut.test(it))) return false;
    const isOfAll = i === 0 || standing.test(it);
    return !clauses.some((other, at) => at !== i && (deed.test(other) || (!isOfAll && howMuch.test(other))) && !isAhead(other));
  });
}

/** Behind something else only a trial is the plan of one: what is to be greased or changed some day is upkeep. */
const ofTrial =
  /\b(?:swung?|drive|driven|ride|ridden|tried|try|test(?:ed)?|run|braked?|load(?:ed)?|tow(?:ed)?|steam(?:ed)?|fl(?:y|own)|sail(?:ed)?|launch(?:ed)?|lift(?:ed)?|proved|trial)\b(?!-)/iu;

/** Of a look: nothing in it is told but what is still to come. */
export function isAllAhead(text: string): boolean {
  const clauses = clausesOf(text).filter((it) => it !== "");
  return clauses.length > 0 && clauses.every(isAhead);
}

function isAhead(clause: string): boolean {
  return planned.test(clause) || standing.test(clause);
}

/** What a hazard was held by is there still, or a part of it. */
const stillThere =
  /\b(?:ropes?|chains?|slings?|straps?|clamps?|wedges?|blocks?|ties?|locks?|tags?|props?|trestles?|stands?|jacks?|hooks?|tackles?|cords?|wires?|bars?|bolts?|chocks?|plugs?|caps?|bungs?|valves?|fuses?|switch(?:es)?|isolators?|compressors?|screws?|timbers?|baulks?|it|they|one|some|half)(?: \w+)?(?: (?:is|are|was|were))? (?:still (?:\w+ )?(?:on|in|under|there|tied|off|out|shut|fast|down|up)|(?:stays?|stayed|left|remains?) (?:on|in|under|there|tied|off|out|shut|as|till|until|for|where))\b(?! (?:the (?:shelf|bench|shed|rack|wall|drawer|box|store)|tight))|^still (?:tied|off|out|shut|blocked|chained|clamped|held|under|screwed|isolated|disconnected|propped|hung|hanging|locked off|to (?:do|be))\b|^(?:half|partly|nearly|almost|mostly)(?: (?:done|off|out|back|away|undone|restored|there))?$|^not (?:yet|quite|all|done|restored|back|connected|taken (?:off|out|away))\b/iu;
/** “Chain to be put on”, “scotches to follow”: by what it was to be held. A lock that is to be taken off holds it till then. */
const yetToCome =
  /^(?!.*\b(?:padlocks?|locks?|tags?|notices?|boards?|props?|trestles?|wedges?|scotch(?:es)?|clamps?|ropes?|straps?) (?:is |are )?to be (?:taken|removed|opened|pulled)\b)(?:(?:and|the|a|an|its|his|my|both|all) )*(?:[\w-]+ ){1,3}(?:is |are |still |yet )*(?:to be (?:put|fitted|locked|shut|closed|chained|turned|tied|drained|disconnected|isolated|done|set|hung|pulled|blocked|scotched|chocked|wedged|propped|taken|removed|opened)(?: (?:on|in|off|up|out|down|under|away|over|back))?|to (?:follow|come))(?: (?:later|tomorrow|next|on \w+|first thing|before \w+|after \w+|when \w+).*)?$/iu;
const sinceThen = /\b(?:now|then|since|afterwards|later (?:taken|removed)|all (?:out|off|away|back))\b/iu;

/** Of a hazard that was made safe, or live again: the words by which it was not, or not all of it. */
export function saysNotMade(text: string, isLive: boolean): string | undefined {
  const clauses = clausesOf(text);
  return clauses.find((it, i) => {
    const isLeft = isLive ? stillThere.test(it) : /^not (?:yet|done|made safe)\b/iu.test(it);
    return (isLeft || isAhead(it) || yetToCome.test(it) || leftOut.test(it)) && !clauses.slice(i + 1).some((other) => sinceThen.test(other) && !isAhead(other));
  });
}
