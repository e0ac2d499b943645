// What the words beside done work, received goods or a reading say against them: “one spline on from the dots”, “the thread pulled”, “oil ways still to be cleaned”, “taken with the wheels in the air”.
// Invariant: what was found before, was put right in the same breath, is denied, allowed or of another job is no such word; where a note may be an innocent one, it is. Common practice.
import { memoText, once } from "../model/memo.ts";

/** A list of ways; `even` are those that deny something themselves, `state` those that are past where they are told of what was. */
interface Ways {
  readonly ways: readonly string[];
  readonly even: readonly string[];
  readonly state: readonly string[];
}

/** The words beside work that was done (fitted, tightened, locked, filled, repaired) that say that it did not come right. Undefined where none do. */
export const saysNotRight = memoText((text: string): string | undefined => {
  return firstOf(text, ofWork());
});

/** The same beside what came: that it is another, damaged, or not as it was to be. */
export const saysNotAsOrdered = memoText((text: string): string | undefined => {
  return firstOf(text, ofGoods());
});

/** Beside a final reading: that it was taken otherwise than it is to be, or that what was read is not right. */
export const saysReadOtherwise = memoText((text: string): string | undefined => {
  return firstOf(text, ofReading());
});

interface Compiled {
  readonly plain: RegExp;
  readonly even: RegExp;
  readonly state: RegExp;
}

function firstOf(text: string, { plain, even, state }: Compiled): string | undefined {
  const clauses = text
    .split(/[,;:()–—]+|[.!?](?!\d)|\b(?:but|though|although|however|and yet|and then|then)\b/u)
    .map((it) => it.trim())
    .filter((it) => it !== "");
  for (const [i, clause] of clauses.entries()) {
    const rest = clauses.slice(i + 1).join(", ");
    if (excused.test(clause) || cured.test(rest)) continue;
    if (clauses[i + 1] !== undefined && allowed.test(clauses[i + 1] as string)) continue;
    const isDenied = denied.test(clause);
    const isPast = was.test(clause) && !still.test(clause);
    const said = even.exec(clause) ?? (isDenied ? null : (plain.exec(clause) ?? (isPast ? null : state.exec(clause))));
    if (said === null || curedAtOnce.test(clause.slice(said.index + said[0].length)) || before.test(clause.slice(0, said.index))) continue;
    return clause;
  }
  return undefined;
}

const denied = /\b(no|not|none|nothing|never|without|neither|nor|nowhere|hardly|instead of|rather than|less|any more)\b|n't\b/iu;
const was = /\b(was|were|had(?! to)|been|used to|found)\b/iu;
const still = /\b(still|now|yet|left|again)\b/iu;
/** What was before this work, or is of another. */
const before =
  /\b(old|previous|last|former|until|till|before|if|unless|so that|in case|lest|thought|or|where|why|when|otherwise|either|looks? for|looked for|tried for|felt for)\b/iu;
const excused =
  /\b(when (I|we|it|they|he) (came|found|took|opened|got|was)|on the way (out|off)|last (time|man|year|owner)|by (somebody|someone|the last)|by the (old|last|former|previous) \w+|somebody|someone before|in the bin|scrap bin|old (one|ones|man|foreman)( |$)|other (job|car|lorry|van)|another job|not part of|as (the )?(book|maker|drawing|leaf|manual|handbook|sheet)|(book|maker|drawing|leaf|manual|handbook)('s)? (says|allows|asks|wants|shows|gives)|by design|on purpose|told the owner|owner'?s card|had been|used to|before\b.*\b(now|since)|at first|the first (time|one|two|try|go)|in error|by mistake at first|off the old|(lucky|luckily|better) )/iu;
const allowed =
  /\b(as (the )?(book|maker|drawing|leaf|manual|handbook|sheet)|(book|maker|drawing|leaf|manual|handbook)('s)? (says|allows|asks|wants|shows|gives)|by design|as (asked|drawn|designed|ordered|agreed|meant)|which is right|that is right|another job|not part of)\b/iu;
const cured =
  /\b(off again|out again|apart again|put right|repaired|(with|an) insert|now (pulls|holds)|put (it )?back (on |in )?(right|square|true|as)|is right|all right now|right now|true now|turned (it )?(round|over|about)|(took|taken|cut|pulled|drew) (it |them |that )?out|new (one|ones|\w+) (in|on|from|went|fitted|bought|came|is|was)|(took|used|fitted|put in|put on|got|fetched|made|tapped|with) (a |an |the )?(\w+ )?(new|another|other|second|spare|longer|shorter|right)\b|from (stock|the box|the drawer)|changed|replaced|renewed|noticed|stoned|dressed|filed|eased|cleaned|retapped|re-?cut|chased|welded|straight again|straightened|goes (home )?now|went (home|on|in) (then|now|square|sweetly|at once)|(home|free|square|right|good|tight|dry|sound|true|straight|true) (now|again|after)|now (it )?(is |sits |goes |drops |turns |runs |free|home|square|right|tight|true)|began again|started again|done again|undone and|redone|afresh|threw|comes? (on|off|in) (in|with|at) the (next|last)|made one|sent back|sent (it|them) back|back to (them|the)|put (it )?back|as marked|wiped off and|washed (off|out)|looked at|none (now|since|left))\b/iu;
const curedAtOnce =
  /\b(off again|put right|out again|and (dressed|stoned|filed|cleaned|changed|replaced|renewed|welded|tapped|ground)|on the old|in the old)\b/iu;

const { raw } = String;

function compiled(lists: readonly Ways[]): Compiled {
  const made = (pick: (it: Ways) => readonly string[]) => new RegExp(lists.flatMap(pick).join("|") || "(?!)", "iu");
  return { plain: made((it) => it.ways), even: made((it) => it.even), state: made((it) => it.state) };
}

const count = "(?:an?|one|two|three|four|half an?|a few|some|several|\\d+)";
const fastening =
  "(?:nut|bolt|stud|screw|pin|clip|washer|tab|plate|key|circlip|wire|cap|plug|cotter|union|shim|spacer|spring|gasket|seal|felt|roller|ball|shell|bush)s?";

/** What is plainly against it, whoever writes it of what. */
const plainly: Ways = {
  ways: [
    raw`\bcross(?:ed)?[- ]?thread(?:ed)?\b|\b(?:went|go|goes|started|ran) on crossed\b|\bcrossed (?:thread|for the)\b`,
    raw`\bthreads? (?:is |are |has |just )?(?:pulled(?! up)|stripped|gone|picked up|torn|spoil\w*|crossed|stretched|flattened|drawn)\b|\b(?:stripped|pulled|flattened|spoil(?:t|ed)|tore) (?:the|a|its|one|last|half the)(?: \w+)? (?:thread|hole)s?\b|\bstripped the\b`,
    raw`\b(?:snapped|sheared|broke|split) (?:a|the|one|two|an) (?:${fastening}|ear|lug|boss|tooth|edge|eye|casting)\b(?! (?:off )?(?:getting|coming|undoing))`,
    raw`\b(?:wrong|other) way (?:round|up|about)\b(?! (?:first|before|and)\b)|\bwrong (?:side|way|thread|end|hole|hook|grease|oil|fluid|size|ratio|one|part|hand)\b|\bback to front\b|\bupside down\b|\binside out\b|\btop for bottom\b|\bthe wrong (?:spring|hook|pin|seal|bolt)\b|\b(?:faces?|facing|pulls?|bend|points?) the (?:wrong|other) way\b`,
    raw`\b(?:cannot|can't|could not|couldn't) (?:true|straighten) (?:it|them)\b`,
  ],
  even: [
    raw`\b(?:marks?|dots?|numbers?|lines) (?:do|did|does|will|would)(?: not|n't) (?:meet|match|line up|agree|face)\b|\bnot of (?:one|a|the same) pair\b|\bnumbers? (?:of .* )?differ\b`,
  ],
  state: [],
};

const work: Ways = {
  ways: [
    // On other teeth than the mark.
    raw`\b${count} (?:splines?|tooth|teeth|notch(?:es)?|serrations?|dogs?) (?:out|off|late|early|apart|over|on from|away|too far|further|short|behind|ahead)\b`,
    raw`\b(?:swapped|changed) (?:over|round|about|side for side|near(?: and |\/)off|left(?: and |\/)right)\b(?=$| in | by )|\b(?:near|left)(?: \w+)? (?:is |sits |went |goes |put |one )*(?:on|to|at) the (?:off|right)\b|\b(?:off|right)(?: \w+)? (?:is |sits |went |goes |put |one )*(?:on|to|at) the (?:near|left)(?! of)\b`,
    // Damage at the work.
    raw`\bkept (?:on )?turning\b|\bspun (?:round|with|in)\b|\brounded off\b|\bstretched (?:when|at|on|a)\b|\bnecked\b|\bcreaked\b|\b(?:nut|bolt|stud)s? (?:just )?turns? (?:with|and)\b|\bturn with the nut\b`,
    raw`\b(?:seal|lip|gasket|boot|felt|paper|joint|tab|ear|bush|race|ring|cap|lug|boss|flange|washer)s? (?:has |just |then )?(?:tore|torn|split|cracked|broke|snapped|burst)\b(?! (?:the )?(?:pin|open))|\bbroke off\b|\bbent (?:it|them) (?:a bit |a little |slightly )?(?:getting|going|putting|driving|as|when)\b|\btwisted in (?:its|the)\b`,
    raw`\b(?:hose|pipe|wire|tube|line|cable)s? (?:is |has |are |got |\w+ )?(?:kinked|twisted|pinched|trapped|nipped)\b|\bkinked\b`,
    raw`\b(?:slipped|fell) (?:out of|off|on|onto|from) (?:the|its) (?:concrete|slings?|floor|bench|crane|hook|jack|hoist|stairs|stone|ground)\b|\bfell on (?:the|its)\b|\bdropped (?:(?:it|them|one|this) )?(?:on|onto) the (?:concrete|floor|stone|ground|bench)\b`,
    // What has no business there.
    raw`\b(?:got|ran|went|run|came|dripped|spilt|spilled|splashed) (?:some |a little )?(?:grease |oil |fluid |paint )?(?:on|over|onto|down) (?:the |a |one )?(?:\w+ )?(?:lining|shoe|pad|drum|disc|friction plate|clutch plate)s?\b|\b(?:oil|grease|fluid) (?:is |still )?on (?:the |a |one )?(?:\w+ )?(?:lining|shoe|pad|disc|cone|drum face|taper)s?\b`,
    raw`\b(?:swarf|rag|screw|nut|washer|clip|tool|bit|ball|split pin|roller)s? (?:\w+ )?(?:is |are |must be |went |fell |got )?(?:still )?(?:somewhere |left )?(?:in(?:side|to)?) (?:there|it|the (?:sump|bore|box|case|casing|housing|axle|hub|crankcase|gearbox|oil way))\b(?! (?:before|by design))|\bmust be (?:in|inside) the (?:sump|box|case|axle|hub|gearbox)\b|\bleft (?:over|on the bench|in the tray)\b(?! (?:from the old|because|for))|\b(?:belongs|comes from) somewhere\b`,
    // Another piece.
    raw`\btook whichever\b|\bwhichever came to hand\b|\bnear(?:ly)? enough$|\bout of (?:the|a|my) (?:mower|scrap|van|junk|other)\b|\bfrom (?:the|a) (?:scrap|wreck|mower)\b|\bfrom the old (?:set|box|lot|pair|one)\b|\bbent a nail\b|\bchewing gum\b|\ba nail (?:in|through|for)\b`,
    // A word that excuses.
    raw`\b(?:it |that |this |they )?(?:will|'ll) (?:have to )?do$|^(?:will|should) do\b|\bgood enough$|\bclose enough$|\b(?:used|in|on|them|it|tight|fitted|home) (?:all the same|anyway|regardless|nonetheless)$|\blooks (?:about|all) right$|\b(?:but|and) it goes$|\bfits (?:as well|anyhow|anyway)$|\bhope (?:it|for|they)\b|\bfingers crossed\b|\b(?:it|they|five|four|three) (?:will|should) hold(?: it)?$|\b(?:took|had|made) a guess\b|\bguessed\b|\bleft (?:it )?at that\b|(?<!\bas (?:I|we|he|they) )\bleft (?:it|them)(?: (?:so|there|as it is|as they are|in|as it was|loose|slack|like that))?$`,
    // What it does not do, or what was needed to make it.
    raw`\bhammered (?:in|home)\b|\bforced (?:it|them|on|in|home|with|over)\b|\b(?:bottomed|bottoms|coil[- ]bound) (?:before|out|in|first)\b|\bend of (?:its|the) thread\b|\bthreads? (?:is |are |too )?short\b|\bout of thread\b`,
    raw`\b(?:left|only|still|just) (?:it |them |one )?(?:hand|finger|spanner)[- ]?tight\b|\b(?:hand|finger)[- ]tight only\b|\bonly (?:by hand|(?:finger|hand)[- ]?tight)\b|\bstill only by hand\b`,
    raw`\b(?:(?:is|are|sits?|stands?) (?:still )?(?:\w+ ){0,3}(?:proud|short)(?: of|$)|stands? (?:a |an )?(?:feeler|\w+ mm|\d+(?:\.\d+)? ?(?:mm|thou|in|inch))(?: of [\d.]+)? (?:off|proud|short|out)|stops? (?:an? )?\w+ short|short of (?:home|where|the (?:shoulder|face|stop|mark|hole)))\b`,
    raw`\b(?:needs?|wants?) (?:another|one more|a thicker|a thinner|a longer|a new) \w+|\banother (?:shim|washer|turn) (?:is )?(?:wanted|needed)\b`,
    raw`\b\d+ turns? (?:in )?where (?:they|it|there) (?:were|was|had) \d+\b|\bwhere (?:they|it|there) (?:were|was|had) (?:\d+|\w+teen|ten|twelve) (?:turns|threads)\b`,
    // Not done.
    raw`\bforgot(?:ten)? (?:the|a|to|one|it)\b|\bskipped\b|\bran out of (?:fluid|oil|grease|time|wire|daylight|pins|thread|washers|shims)\b|\bhalf full\b|\bdid (?:one|the near|the off|the left|the right|only one) side(?: only)?$|\bonly (?:one|two|three|four|five|\d+) (?:of (?:the )?(?:two|three|four|five|six|eight|\d+)|done|would|came tight)\b|\b(?:one|two|three|some|the last)(?: of \w+)? (?:is |are )?(?:left|still) (?:to do|loose|slack|open|undone|out)\b`,
    raw`\bleft (?:the|a|one|its|that)(?: \w+){1,2} (?:out|off|undone|loose|slack|open|unlocked)\b(?! (?:for|till|until|so|to)\b)|\bleft (?:the|a|one) (?:${fastening}) off$|\b(?:${fastening}) left (?:out|off|dry|loose|undone|open)\b|\bleft dry\b`,
    raw`\b(?:to be|still to be) (?:done|locked|tightened|pinned|wired|torqued|bled|greased|cleaned|drilled|fitted|bent|filled)(?: later| tomorrow| yet)?$|\b(?:lock|tighten|pin|wire|torque|bleed|grease|fill|fit) (?:it|them|the rest) (?:later|tomorrow)\b|\bto do (?:later|tomorrow)\b|\bwill (?:fish|get|do|lock|pin|finish|tighten|torque|fill|bleed) (?:it|them|that|the rest) (?:out )?(?:later|tomorrow|with|when|next|on \w+day)\b`,
    raw`\b(?:adjuster|nut|bolt|plug|screw|union) (?:is )?(?:seized|stuck)\b|\bthrough to the (?:bronze|backing|steel)\b|\bbell[- ]mouthed\b|\b(?:hole|way)s? (?:is |are )?(?:covered|blocked|closed)\b|\bstarted dry\b|\bshow(?:ed|s) nothing for\b|\btoo hot to touch\b|\bdropped in cold by its own weight\b|\bstrained through\b`,
    raw`\b(?:makes|showed|shows|has) (?:a )?${count} crack\b|\ba crack in the\b|\bgot (?:an?|some) cracks?\b|\bgot most of it out\b|\bmost of it out\b`,
    raw`\b(?:for|off|from) the (?:other|later|earlier|next) (?:model|type|car|engine|one)\b|\bis for the [A-Z0-9]\w*|\banother (?:serial|number|length|ratio|pitch)\b|\b${count} (?:eighth|sixteenth|quarter|inch|mm|size|thou|bit)s? (?:too )?(?:shorter|longer|thicker|thinner|bigger|smaller|too (?:long|short|big|small|thick|thin))\b|\b(?:a bit|a little|too) (?:too )?(?:bigger|smaller|slack|big|small|long|short|thick|thin) (?:on|in)\b`,
  ],
  even: [
    raw`\b(?:went|gone|turned) soft (?:at|on|in|with)\b|\bturned on without\b|\bnot through(?: yet)?\b`,
    raw`\b(?:did|does|do)(?: not|n't) (?:seat|reach|fit|line up|enter|latch|swivel|settle|go home|tighten|sit)\b(?! (?:until|till|unless|at first|without|any))|\b(?<!\b(?:gauge|feeler|blade|rod|paper|no-go|water|needle)\b.*)(?:would|will)(?: not|n't) (?:go|come|pull|turn|bend|tighten|seat|swivel|sit|reach|fit|line up|enter|hold|lock|catch|latch|go home|settle)\b(?! (?:on$|any further|further|until|till|unless|with(?:out)?|by (?:hand|itself)|back by|wrong|far|down before|off|out|apart|away|again|by finger|at first|past the (?:mark|line|stop)|the wrong|the other|in the wrong|in any other|at all to|proud|hot|short|dry|loose|slack|over|up to|round (?:any|by)|two)\b)|(?<!\b(?:gauge|feeler|blade|rod|paper)\b.*)\bwon't (?:go|come|turn|seat|sit|fit|lock)\b(?! (?:any|without|by|off|out))`,
    raw`\bnever (?:got|came|went|reached|met) (?:to |quite )?(?:tight|home|the|to|down|up|its)\b|\bcould(?: not|n't) (?:get|find|reach|turn|bend|pull|fit|do|see) (?:it|them|the|that|one)\b(?! (?:wrong|off|out|apart|first|any|to (?:move|budge|slip|leak|turn by)|loose)\b)|\bhad no (?:other|more|wrench|torque|new|time|pin|wire|washer)\b|\bno (?:split pin|torque wrench|wrench|washer|tab|wire|room|new (?:pin|washer|one|tab|nut)s?) (?:to hand|here|left|about|for)\b|\bno (?:free )?(?:travel|play|movement|float) left\b`,
    raw`\bnot (?:yet )?(?:torqued|tightened|locked|pinned|wired|seated|bled|bent over|greased|oiled|all the way|quite (?:home|down|tight|square|seated|in|right)|fully \w+|right home|sure|reached|fully|full)\b(?! (?:here|as|on purpose|by|with|again|until|till|before|yet in)\b)|\b(?:figure|torque) not (?:reached|got)\b|\bnot (?:sit|fit|seat) in\b|\bdo(?:es)? not know where\b`,
  ],
  state: [
    raw`\b(?:binds|wobbles|fouls|sloppy|growls|grates)\b(?! (?:the|by design))|\b(?:joint|seal|union|flange|cover|plug|gasket|nipple|tap)s? (?:weeps?|leaks?|drips?)\b|\b(?:arm|wheel|hub|shaft|bush|lever|pin|box)s? (?:still )?rocks?\b|\b(?:stirs|rocks|turns|moves|shakes) on (?:its|the) (?:splines?|frame|shaft|taper|pin|key|seat)\b|\bstill (?:rocks|stirs|turns|loose|slack|moves|weeps|leaks|wobbles|knocks|there|stiff|notchy|proud)\b|\bloose on (?:the|its)\b|\bslack in the\b|\brubs (?:on|at|against)\b`,
    raw`\b(?:is|are|one|two|of them) (?:missing|cracked|bent|loose|torn|split|chipped|stripped)\b|^(?:${fastening}|one of the \w+) missing$|\bshims? left out\b|\bhas (?:air|water) in it\b|\bair (?:still )?(?:coming|in it|came)\b|\b(?:a|some) gap (?:under|at|behind|between)\b|\blast (?:eighth|quarter|bit|half|inch|sixteenth) (?:is )?missing\b|\b(?:the|is the) (?:thicker|thinner|longer|shorter) (?:one )?from\b`,
    raw`\b(?:notchy|gritty|rough|stiff|tight) (?:at|in) (?:one|a|two)\b|\b(?:cap|shell|piston|seal|ring|gasket|washer|bush)s? is (?:on )?(?:back to front|upside down)\b|\bnail\b`,
  ],
};

const goods: Ways = {
  ways: [
    raw`\b(?:cracks?|indications?|flaws?|pin ?holes?|porosity|undercut|laps?|inclusions?) (?:in|at|across|round|along|under|near|of|from|shows?|found)\b(?!.*\b(?:was|were|is) (?:welded|ground|stitched|repaired|mended|closed|cut|dressed))|\b(?:an?|some|one|two) (?:\w+ )?(?:crack|indication|flaw|line|mark|chip)s? (?:in|at|across|round|along|under|near|out of)\b(?!.*\b(?:was|were|is) (?:welded|ground|stitched|repaired|mended|closed|cut|dressed))(?! (?:the )?(?:paint|box|packet|tin|lid|varnish)\b)|\bdye (?:shows|showed) (?:a|an|some|one)\b|\bcracked in\b|^chips? out of\b|\bhas undercut\b|\bhas the old \w+ in\b|^(?:two|three|four|five|six|\d+) (?:were|was) (?:wanted|ordered|asked for)$|\bgrinding burns?\b|\bsounds? dead\b|\bporous\b`,
    raw`\b(?:still|yet) to be (?:\w+ed|ground|cut|done|bent|drilled|hardened|bored|honed)\b|\bto be (?:cleaned|drilled|ground|hardened|honed|plugged|tested|balanced|bored|finished|skimmed)(?: yet| here| still)?$|\bstill (?:needs?|wants?|bent|out|oval|tapered|\w+ thou out|has)\b`,
    raw`\bonly the \w+ (?:was|were|are|is) (?:ground|done|bored|welded|tested|relined|honed|skimmed)\b|\breturned as it came\b|\bas it came\b|\b(?:bored|ground|made) to the old size\b|\bforgot(?:ten)?\b|\bleft it(?: out| so| as it is)?$`,
    raw`\bfor the (?:later|earlier|six|four|older)\b|\bfor the other (?:model|type|car|engine|lorry|bike|one|side)\b|\bis for the (?:new|[A-Z]\w+ \d)\b|\b(?:wrong|another|different|other) (?:thread|number|length|ratio|size|pitch|grade|hand|serial|type)\b|\bis another$|\bbox says\b|\bstandard size\b|\b(?:not|less than) what was ordered\b|\bsecond hand\b|\bfrom a (?:wreck|scrapyard|breaker)\b|\bmarked not for\b|\bnot for (?:brakes?|steering|lifting|road)\b|\b(?:soft|cheap) stuff\b`,
    raw`\b(?:one|two|three|\d+) short\b|\bcame (?:one|two|\d+) short\b|\b(?:two|three|one|five|\d+) came,? (?:three|four|five|six|\d+) (?:were|was) (?:wanted|ordered)\b|\bless the \w+|\bhalf (?:of )?the \w+ (?:are|is)\b|\bof one (?:height|length|pair)\b.*\bnot\b`,
    raw`\bover the (?:greatest|limit|max\w*|wear|figure)\b|\b(?:under|below) the (?:least|limit|min\w*|figure|size|book)\b|\blower than\b|\btoo (?:thick|thin|long|short|big|small|large|tight|loose|soft|hard|deep)\b|\ba size too\b|\ban? (?:bit |little |eighth |sixteenth |quarter |foot |inch |shade )(?:of an inch )?(?:too )?(?:longer|shorter|thicker|thinner|bigger|smaller|short|long|thick|thin|wide|narrow|slack)\b|\bslack (?:on|in) (?:the|its)\b|\bloose in (?:its|the)\b|\b(?:thou|mm) (?:over|under) (?:on|at) the\b|\bthou (?:out|oval|tapered)\b|\bout of (?:round|true|date|square)\b`,
    raw`\b(?:fitted|used|took|put in|went in|in) (?:it |them )?(?:all the same|anyway|regardless)\b|,? used$|\bused it$|\bmade it (?:go|fit)\b|\b(?:it|they|that|he says it) will do$|^will do\b|\bbut it fits\b|\bfits all the same\b|\bfiled (?:it|them|the holes)\b|\bground down by hand\b|\bjust scrap\b|\breject(?:ed)?\b|\bscrap\b|\b(?:advises|advised|warned|warns) against\b|\bnot worth\b|\bturned it over$|\bno metal left\b`,
    raw`\b(?:leaks?|weeps?|drips?) (?:at|on|from|past)\b|\bfailed at\b|\bfailed\b(?=$| (?:the|on|in|at)\b)|\bmended with\b|\bcame loose\b|\bstraightened cold\b|\bedge (?:of .* )?is sharp\b|\bpoor finish\b|\bscratched across\b|\bswarf in\b|\bmetal left\b|\btin was open\b|\bfell off the\b|\bcorner gone\b|\bworn already\b|\bonly the first\b`,
  ],
  even: [
    raw`\bcame without (?:the |its |a |any )?(?:certificate|papers|test|balance|report)\b`,
    raw`\bnot (?:crack[- ]?tested|tested|balanced|skimmed|ground|cleaned|heat[- ]treated|hardened|honed|plugged|welded|reamed|relined|bored|washed|marked|yet \w+|put back|of one|what (?:was|we)|quite (?:true|straight|round|clean)|true|straight)\b(?! (?:as|here|by)\b)|\b(?:did|does|has|have)(?: not|n't) (?:test(?:ed)?|do|done|grind|ground|clean(?:ed)?|balance|harden|match|line up|fit|true)\b|\b(?:could|can)(?: not|n't|not) (?:do|true|straighten|grind|get|finish|find|balance|clean|weld|save|test)\b|\bnot (?:the )?(?:same|right|as (?:ordered|asked))\b|\bno (?:radius|heat treatment|test|name|certificate|papers|number)\b(?! (?:needed|asked|wanted))|\bweld is not\b`,
  ],
  state: [
    raw`\b(?:is|are|still|both|one|two|some|all|of them|edges?|teeth|rings?|faces?|lining|bore) (?:\w+ ){0,2}(?:bent|cracked|chipped|rusty|perished|scratched|damaged|broken|loose|tapered|oval|torn|short|soft|dented|split|left-hand|worn|pitted)\b(?! (?:box|tin|carton))|\b(?:two|one|some|three) (?:of them )?(?:bent|cracked|chipped|damaged|broken)\b|\brust in the\b|\bblocked\b|\bperished\b|\bthread is left\b`,
  ],
};

const reading: Ways = {
  ways: [
    raw`\b(?:held|clamped|gripped|ball|arm) in (?:the|a) (?:vice|grip|vise)\b|\bwheels? in the air\b|\bon the bench\b.*\bnot\b|\b(?:taken|read|measured) (?:cold|hot|by (?:eye|hand|feel)|with (?:a |the )?(?:ruler|rule|tape|slack|load|bolts? loose))\b|\bguess(?:ed)?\b|\bby eye\b|\babout\b.*\bguess\b`,
    raw`\b(?:copied|from memory|off the old card|as (?:last|before) time)\b|\b(?:dirty|not cleaned|paint (?:left|still) on)\b|\bclock (?:slipped|moved|stuck|sticks)\b|\bneedle (?:stuck|jumped)\b|\bgauge (?:sticks|stuck|dropped|fell)\b`,
  ],
  even: [
    raw`\b(?:could|can)(?: not|n't|not) (?:get|read|reach|hold|set|turn) (?:it|the|them)\b|\bnot (?:yet )?(?:read|measured|taken) (?:at|on|all|here|again|yet)\b|\bonly (?:at|on|in) one (?:place|side|end)\b|\bbolts? not (?:yet )?(?:tight|torqued|down)\b`,
  ],
  state: [raw`\b(?:notchy|gritty|rough|binds|sticks) (?:at|in|on) (?:one|a|the)\b|\bnotchy\b|\brocks\b`],
};

const ofWork = once(() => compiled([plainly, work]));
const ofGoods = once(() => compiled([plainly, goods]));
const ofReading = once(() => compiled([reading]));

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

const small: ReadonlySet<string> = new Set("the and with out off was for its side toward face end way not are has one end".split(" "));

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
