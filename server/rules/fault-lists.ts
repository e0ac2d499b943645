// The words by which a fault is told, and those by which one is denied, over, allowed or meant so: `fault-words.ts` goes by them. They are words of the bench, in many hands, and common
// practice. Who adds a way adds lines that it takes, and lines that sound alike and mean well, to tests/rules/test-words.
const raw = String.raw;

/** Found where one of these words is, which stand between strokes; `others` need not be whole words. */
function anyOf(words: readonly string[], others: readonly string[] = []): RegExp {
  return new RegExp([...words.flatMap((row) => row.split(" / ")).map((it) => raw`\b(?:${it})\b`), ...others].join("|"), "i");
}

/** What says that there was none. */
export const denied = anyOf(
  [
    raw`no / not / none / nothing / never / neither / nor / without / nil / zero / hardly / barely / nowhere / nobody / cannot / unable / free (?:of|from)`,
    raw`fails? safe / fail(?:s|ed)? to (?:find|see|hear|make|provoke) / listened / looked / felt for / checked for / tried for / searched / (?:see|find|found|hear|feel|of|for) any / instead of / rather than`,
    raw`gone / less / tests? / tested(?! by hand)`,
  ],
  [raw`n't\b`],
);
/** What was before the work, or would be. */
export const past = anyOf([
  raw`used to / before / always / start(?:ed|s) / old / once was / former(?:ly)? / last (?:time|year|week|month) / previous(?:ly)? / worried / expected / where (?:it|they)`,
  raw`where there / if / until / afraid / with (?:any|each|the|a) \w+ (?:open|out|off|shut|up|down) / interlock / could have / would have / without / to (?:stop|cure|see|hear|provoke|make)`,
]);
export const longAgo = /\bbefore \w+ing\b|\b(before|previously|last (week|time|year|month))$/i;
export const atFirst = /\b(at|on) (the )?(first|start(ing)?|begin\w*)\b(?! (touch|gear|stop|try|go|load|bump))|\bwhen (new|fresh)\b/i;
export const clicking = /\b(click|tick|tap|clack|clunk|thump|clonk)/i;
/** What clicks as it should. */
export const clicks =
  /\b(pawl|ratchet|wrench|detent|latch|catch|relay|meter|switch|indicator|clock|governor|damsel|tappets?|injectors?|pump|hook|coupling|lever|circlip|clip)s?\b|\b(goes|went|drops?|dropped|comes|came|falls|fell) (in|home|over|into|out|(\w+ )?with a (click|clack|snap|clunk|clonk|thump))\b/i;
/** What fails because it was made to. */
export const onPurpose = /\b(on purpose|deliberately)\b/i;
/** So by its nature, its setting or what is allowed; brought about on purpose. */
export const meant = anyOf(
  [
    raw`allowed / permitted / limits? / within (?:the |its |what |an? )?(?:\w+ )?(?:limits?|allowed|figures?|book|tolerance|range|spec\w*) / normal(?:ly)?`,
    raw`usual(?:ly)? / by design / intended / supposed to / naturally / my (?:gloves?|hands?|sleeves?) / (?:new|fresh) (?:paint|grease|linings?) / chimney`,
    raw`funnel / exhaust / number plate / tailboard / radio / next door / wind / servo / turned out / traced to / came from`,
    raw`(?:was|were) (?:from|only|just|the|my) / in the (?:paint|tread) / exactly as / as (?:meant|made|per|designed|drawn|planned|asked|written|before the strip)`,
    raw`mark only / tolerance / book / maker'?s? / handbook / manual / as set / set (?:load|point|torque) / at its set / as ever / as always`,
    raw`always (?:has|had|did|does|will) / like (?:any|every|all) / meant to / well (?:inside|under|within|below) / we go by / which (?:is (?:what|how|right|as|usual|normal|correct)|keeps) / (?:that is|that's|is) (?:the design|how) / how (?:these|those|they|this) / interlock / relief valve / straight[- ]cut / spur gears / single cylinder / total loss / slack switch / dead ?man / two gears / (?:guard|gate|hatch|grid|door|lid|cover)(?:'s \w+)? (?:is |was )?(?:up|open|opens|opened|lifted|off) / when .* (?:is|was|are|were) (?:pulled(?! down)|pressed|lifted|opened|tripped|pushed|cut) / what you want / with this type / as new / than new / (?:as|than) its (?:fellow|sister|twin|mate|neighbour|opposite) / sheet (?:gives|says|asks) / (?:a|per|every|each) (?:second|minute|hour) / nature of / (?:is|are) to be expected / where (?:it|they) should / the way it should`,
    raw`like (?:it|they|a \w+) should / to (?:plan|order|spec\w*) / as \w+(?:ed|n) (?:to|by|for)`,
  ],
  [
    raw`\bas (?:it|they|you|\w+s|\w+s? \w+s|an? \w+|any \w+|every \w+|all (?:\w+ )?\w+) (?:must|should|do|does|ought|are|is|has|have|will|can)\b(?! not)`,
    raw`\bhow .* (?:is|are|should be)$`,
    // “Ten out of ten.”
    raw`\b(\w+) out of \1\b`,
  ],
);
/** Over, or put right: further on in the text. */
export const cured = anyOf(
  [
    raw`gone / went(?: away)? / vanished / disappeared / clear(?:ed|s)?(?: up| away)? / cured / stopped / ceased / ended / scraped (?:in|out) / lapped(?: in)?`,
    raw`filed / eased / freed / free (?:now|after|since) / fad(?:ed|es) away / died (?:away|down) / wore off / worn off / put right / sorted(?: out)? / fixed`,
    raw`mended`,
    raw`(?<!to be |to |needs |wants |cannot be )(?:re-?(?:set|packed|newed|placed|tightened|adjusted|torqued|bled|seated|shimmed|made|tested|tried|done)|adjusted|nipped(?: up)?|tightened|backed off|changed|wiped|bled|shimmed|straightened|cleaned(?: out)?|trimmed|greased|oiled)`,
    raw`(?:the )?(?:pawl|ratchet|catch|detent) (?:held|holds|caught|took it|stood)`,
    raw`settle[sd] / settling / repaired / insert / bedded / took up / taken up`,
    raw`(?:dry|quiet|none|nothing|clear|fine|good|sweet|cool|right|ok(?:ay)?|straight|smooth|silent|tight|clean|held|holds|steady) (?:now|since|after\w*|again|ever)`,
    raw`(?:since|after(?: that)?|now|thereafter|then|next \w+) (?:it )?(?:is |was |ran |runs |held |holds )?(?:dry|quiet|none|nothing|clear|fine|good|sweet|cool|right|ok(?:ay)?|straight|smooth|silent|held|holds|steady)`,
    raw`new (?:one|washer|bulb|seal|gasket) (?:in|on|fitted) / (?:is|was|does|did|has|have)(?:n't| not) (?:now|any ?more|since) / second (?:try|time|go)`,
    raw`thermostat / is no more / history / for good / has left us / (?:stays?|holds?) (?:in|on|put) (?:now|since) / now (?:an?|one|two|three|four|half|\d+) / slackened / (?:fitted|put) (?:it|one|new|another|back) / (?:trial|run|try|go) two / (?:is|was|found|:|,) sound / even(?:ly)? / flushed`,
  ],
  [
    // What a servo does to a pedal.
    raw`^ (?:with|while) (?:the |her |its )?(?:engine|servo|vacuum)(?: (?:is|was))? (?:on|running|up|there)\b.*\b(?:hard|heavy|firm|solid|high)\b`,
  ],
);

const intensity =
  "an?|only|the|some|fair|whisker|blue|black|burning|making|cracking|one|two|three|this|that|slight(?:ly)?|small|tiny|faint|light|loud|heavy|bad|nasty|soft|dull|deep|sharp|odd|strange|funny|distinct|definite|obvious|noticeable|audible|constant|regular|steady|rhythmic|occasional|intermittent|new|different|metallic|horrible|awful|terrible|big|huge|little|wee|bit|bits|lot|lots|touch|trace|traces|hint|trifle|of|still|quite|very|rather|too|much|more|many|few|excessive|considerable|worrying|ominous|rough|high|low|dry|wet|random|persistent|fresh|plain|clear|hefty|proper|real|certain|kind|sort";
const places =
  "left|right|near|nearside|near-side|off|offside|off-side|front|rear|back|top|bottom|upper|lower|inner|outer|drive|saw|fore|aft|port|starboard|side|hand|number|end|no";
const machine =
  "oil|grease|water|fuel|air|brake|brakes|bearing|bearings|gear|gears|gearbox|box|belt|chain|shaft|wheel|wheels|steering|hub|hubs|axle|diff|engine|motor|gland|seal|pedal|lever|drum|drums|fork|clutch|pump|prop|propeller|rudder|tiller|pawl|hook|rope|bell|blade|arbor|arbour|spindle|pinion|bevel|crank|crosshead|piston|car|cage|lift|winch|hoist|tyre|rim|bush|pin|king-?pin|joint|head|steam|exhaust|tailboard|clapper|cog|cogs|stone|cap|union|flange|plug|pipe|hose|valve|cylinder|governor|ride|trailer|tractor|van|lorry|boat|mill";
const lead = `(?:(?:there(?:'s| is| was| are| were)|here|then|and|has|have|had|got|gets?|with|shows?|showed|developed|develops|makes?|made|gives?|gave|heard?|hear|hears|felt|feels?|feel|noticed|notice|found|see|saw|seen|picked up|started|starts|I|we|it|she|he|you|can|could|seems?|${intensity}|${places}|${machine}|\\d+)\\s+)`;

const told = `(?:^|\\b(?:with|has|have|had|got|gives|gave|makes|made|making|hear|heard|feel|felt|shows|showed|notice|noticed|there's|there is|developed) )`;
const noise =
  "knock(?:ing|s)?|clonk(?:ing|s)?|clunk(?:ing|s)?|click(?:ing)?|tick(?:ing)?|tap(?:ping)?|rattl(?:e|es|ing)|rumbl(?:e|es|ing)|growl(?:ing)?|grumbl(?:e|ing)|whin(?:e|ing)|howl(?:ing)?|squeal(?:ing)?|squeak(?:ing|s)?|screech(?:ing)?|grind(?:ing)?|graunch(?:ing)?|crunch(?:ing)?|judder(?:ing)?|shudder(?:ing)?|shimmy|wobbl(?:e|es|ing)|vibrations?|vibrating|shak(?:e|ing)|drone|chatter(?:ing)?|hammering|thump(?:ing|s)?|bang(?:s|ing)?|clang|clack(?:ing)?|clatter(?:ing)?|noises?|(?:strange|funny|odd|bad|awful|metallic|horrible|nasty) sounds?|scrap(?:e|es|ing)|groan(?:s|ing)?|creak(?:s|ing)?|hunting|surging|misfire|snatch|jerks?|kick|weave|wander|tramp|flutter|lurch";
const slackness = "play|slack|rock|looseness|lost motion|backlash|side play|end play|free play|slop";
const leaks = "leak(?:s|age|ing)?|weep(?:s|ing|age)?|drips?|dripping|seep(?:s|age|ing)?|dribbles?|puddle|bubbles?(?! in the middle)";
const others =
  "(?:brake|clutch) drag|bind(?:ing)?|roughness|stiffness|tightness|harshness|tight (?:spots?|places?)|hard (?:spots?|places?)|stiff spots?|notch(?:es)?|catch|pull|slip|creep|smoke|smell|stink|sparks?(?! at all\\b)|haze|blow|crack|scor(?:e|es|ing)|air";
const toWhere =
  "at|in|on|under|above|over \\d+|over (?:(?:the |a |each )?(?:bumps?|kerbs?|drains?|humps?|manholes?|cobbles|grids?|rough\\w*))|below|from|when|while|if|through|during|between|every|each|once|twice|after|near|around|about|per|all|both|still|again|remains|remained|persists|there|present|coming|back|returns|returned|somewhere|going|turning|braking|and|as soon|you can|by the|off the|past|past the|to (?:the )?(?:left|right|port|starboard)|like|with the (?:clutch|brake|brakes|engine|gear|throttle|load|lever|pedal|prop|wheel|steering)";

const fastenings =
  "nuts?|bolts?|screws?|studs?|pins?|clips?|caps?|keys?|cotters?|washers?|wires?|circlips?|set-?screws?|grub ?screws?|wedges?|plugs?|couplings?|rivets?|unions?|shims?|locks?|tabs?|lock wires?";
const part = `(?:${machine}|steering|handle|column|action|change|gear-?change|linkage|swivel|rotation|movement|mechanism|motion|fit|stay|stem|stock|hand-?brake|foot-?brake|parking brake|returns?|throttle|crane|jib|turntable|table|slide|carriage|platform|guard|release|latch|ram|half-?shaft|tail-?wheel|wallower|rear end|front end|reverser|tailstock|calliper|caliper|piston|ball|drag link|track rod|king pins?|selector|trunnion|gudgeon)s?`;
const any = "(?:\\S+ ){0,5}";
const adverbs =
  "(?:an?|the|bit|little|touch|shade|still|very|rather|too|quite|slightly|somewhat|on|side|more|even|awfully|terribly|pretty|fairly|kind|sort|of|all|now|always|dead|so|just)";
const unwell =
  "stiff(?:er|ish)?|notchy|gritty|rough(?:er)?|lumpy|noisy|noisier|spongy|sloppy|slacker|vague|jerky|uneven|sticky|graunchy|grumbly|rumbly|clunky|wobbly|crooked|lop-?sided|wonky|scored|glazed|seized|jammed|cracked|bent|twisted|chafed|worn|out of (?:line|true|round|square|balance|track|mesh)|off-?cent(?:re|er)|lumpy|mushy|woolly|weak|feeble|dodgy|suspect|wrong|unbalanced|leaky|blowing|weeping|leaking|dripping|smoking|slipping|dragging|binding|rubbing|squealing|squeaking|knocking|rumbling|grinding|clonking|clunking|clicking|ticking|whining|howling|rattling|sticking|juddering|shuddering|wobbling|vibrating|groaning|creaking|screeching|fouling|touching|catching|chafing|walking|creeping|sagging|hunting|wandering|overheating|bypassing|fading|jumping|flickering|passing|shedding|sinking";

/** The ways in which a fault is told. */
export const faults: readonly string[] = [
  // “A light knock at tick-over”, “there is some play in the left hub”, “oil weep at the seal”.
  raw`${told}${lead}{0,8}(?:${noise})(?: noises?)?(?=$| (?:${toWhere})\b)(?! on the (?:mark|nose|line)\b)(?! on the (?:housing|end|head|case|ring|rim|cap|drift|outer|inner|door|bearing)\b)`,
  raw`${told}${lead}{0,8}(?:${slackness})(?=$| (?:at|in|on|still|remains|there|left|now|between)\b)(?!.*\d)`,
  raw`${told}${lead}{0,8}(?:${leaks})(?=$| (?:at|in(?! \w+ (?:second|minute|hour))|on|from|under|below|round|around|past|near|still|somewhere|after|overnight|when|by)\b)`,
  raw`${told}${lead}{0,8}(?:${others})(?=$| (?:at|in|on|when|while|above|still|somewhere|coming|round|around|every|once|each|after|from (?:the )?(?:left|right|near|off|front|rear|back|drums?|hubs?|brakes?|wheels?|bearings?|gland|belt|clutch|box|axle|under|behind|dash|wiring|motor|switch|lining|shoes?)|to (?:the )?(?:left|right|port|starboard|one side))\b)`,
  raw`\b(?:began|begins|begun|start(?:ed|s)?) to (?:howl|knock|leak|weep|drip|slip|bind|drag|rub|squeal|whine|rumble|smoke|wobble|shake|overheat|get (?:hot|warm|stiff)|roll|creep|seize|slide|walk|grind|vibrate|run hot)\b`,
  raw`\b(?:began|started|starts|begins|begun) (?:clunking|clonking|knocking|leaking|weeping|dripping|slipping|binding|dragging|rubbing|squealing|howling|whining|rumbling|smoking|wobbling|shaking|overheating|sinking|grinding|vibrating|coming down|running back|seizing)\b`,
  // “Wheel wobbles at forty”, “brake squeals”, “the rudder jerked”.
  raw`(?:^|\b(?:it|she|he|${part}|${places}|drive|second|third|first|top|reverse)\s+(?:still |always |also |badly |sometimes |even |just )?)(?:knocks|clonks|clunks|rattles|rumbles|growls|grumbles|whines|howls|squeals|squeaks|screeches|judders|shudders|shimmies|wobbles|vibrates|shakes|weeps|seeps|smokes|snatches|grabs|jams|overheats|stalls|misfires|hunts|surges|groans|creaks|thumps|pulses|wanders|leaks|blows|fouls|sags|binds|drags|rolls back|runs back|sinks|creeps|flickers|sticks|rattled|juddered|shuddered|shimmied|wobbled|vibrated|squealed|smoked|snatched|stalled|misfired|hunted|fouled|whined|rumbled|weeped|howled|screeched)(?=$| (?:at|in|on (?!(?:by|with)\b)|under|when|above|over \d|from|badly|slightly|an? (?:bit|little)|still|again|once|twice|after|and|to(?:wards)? the|all the|the (?:guard|arch|frame|wing|fork|mudguard|case)|open|shut|half|past|between|every|each|quite|like)\b)(?! at (?:its|the) set)(?! over at)`,
  raw`\b(?:brakes?|steering|it|she|car|van|lorry|trailer|bike|tractor|machine|wheel)? ?\bpulls? (?:(?:when|under|on) (?:the )?brak\w+|an? (?:bit|little)\b(?! more)|slightly|badly|(?:hard )?(?:to )?(?:the )?(?:left|right|near|off)(?: side)?$)`,
  raw`\btouch(?:es|ed|ing) the (?:guard|arch|frame|wing|fork|mudguard|case|housing|spokes?|tyre|drum)\b`,
  raw`\bclicks once\b`,
  raw`\bonly at (?:the )?(?:second|third) (?:try|go)\b`,
  raw`\btail wags\b`,
  raw`\bsteam (?:from|at) (?:the |its )?(?:gland|joint|seal|flange|union)\b`,
  raw`^${any}(?:squeals|judders|shudders|shimmies|wobbles|clunks|clonks|rattles|rumbles|growls|whines|screams|crunches|overheats|weeps|seeps|smokes|snatches|jams|misfires|stalls|creaks|groans|fouls|whips|sags|sways|chatters|screeches|vibrates|rubs|freewheels|slid back|walks out|sinks back|jumps|leaks)(?=$| (?:${toWhere}|badly|slightly|an? (?:bit|little)|like|onto|out|over \w+|more|less)\b)(?! (?:at (?:its|the) set|out\b))`,
  raw`^${any}(?<!\b(?:after|by|of|for|from|before|when) )(?:dripping|smoking|rattling|knocking|weeping|leaking|bulging|slipping|dragging|binding|rubbing|rumbling|squealing|crunching|pouring|chafing|flickering|blowing|clonking|clunking|fouling|juddering|shuddering|wobbling|sinking|creeping|overheating|squeaking|grinding|whining|howling|sagging|sticking|jumping)(?=$| (?:${toWhere}|onto|faster|badly|a (?:bit|little)|near|where|over \w+)\b)(?! (?:strip|block|plate)s?\b)`,
  raw`^${any}(?:is |are |was |were |has |been |gone |got )*(?:jerky|scored|cracked|glazed|chafed|frayed|notchy|gritty|spongy|graunchy|chewed|plugged|torn|loose|adrift|missing)(?=$| (?:at|on|in|by|already|when|near|after|again|over|as ever|all|to one|under)\b)(?<!\b(?:stay|come|came|work|worked|go|went|is|be) loose on)`,
  raw`(?<!\b(?:never|not|nothing|nowhere|I|he|she|we|they|and) )\bstuck\b(?! (?:before|to|my|a|an|in the mud|with|at it|the))`,
  raw`\bgot (?:so|too|very|quite) (?:hot|warm|stiff)\b`,
  raw`\beverything got\b`,
  raw`\b(?:one|two|it|they|which|spring|rope|chain|bolt|link) broke\b(?! where)(?<!weak link broke)`,
  raw`\b(?:comes?|came) undone\b`,
  raw`\bfalls? out\b`,
  raw`(?<=\w )fell off\b`,
  raw`\bcomes off (?:the|its)\b(?! (?:stop|jack|hook when))`,
  raw`\bkeeps? (?:on )?(?:climbing|coming|jumping|slipping|sticking|falling|dropping|creeping|leaking|stalling|tripping|blowing|popping|going out|working loose|turning|pulling|binding)\b`,
  raw`\b(?:hangs up|hung up|jump(?:s|ed) out|jumping out|drops? out of (?:gear|mesh|dog)|dropped out of (?:gear|mesh|dog)|pop(?:s|ped) (?:out|open|off)|kick(?:s|ed) out of|came out of (?:gear|mesh)|out of mesh|rid(?:es|ing) over the|climb(?:s|ed|ing) off|walked (?:out|off|an?|along)|work(?:ed|ing) (?:loose|out)|slackened off|unscrewed|came (?:adrift|undone|apart)|(?:wheel|nut|bolt|pin|belt|chain|rope|cap|hose|pipe|guard|cover|arm|key|spring|lining|tyre|block)s? (?:came|fell|flew) (?:off|out|loose)(?! (?:for|when|easily|clean|with|by hand))|tucked in|snaked?|broke away|birdcaged|(?:drum|rope|reel) overran|over-?shoots?|overshot|(?<=\w )seized(?: up)?(?! (?:with|by))|seizes(?: up)?|locked solid(?! (?:at|on|with) (?:the )?(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|first|second|third|fourth|fifth|sixth|\d|1[0-2]|half|full)(?:$|,| (?:clicks?|notch(?:es)?|teeth|tooth|pull)\b))|picked up on|nipped up solid|boiled|runs away|stuck (?:open|shut|on|again|halfway|half-way|fast|down))\b(?! (?:clean(?:ly)?|easily|when (?:asked|pulled)|by hand|again by|together))`,
  // “Left hub hot”, “too hot to hold”.
  raw`\b(?:hub|drum|bearing|gearbox|box|axle|wheel|brake|case|casing|housing|gland|big end|main|axlebox|diff|cap|motor|bush|disc|journal)s? (?:is |was |were |are |got |gets |get |went |goes |ran |runs |run |running |became |become |felt |feels |comes |coming )?(?:${adverbs} ){0,6}(?:hot(?!ter)|warm quick\w*)(?=$| (?:on|after|to|by|at|in|coming|within|when|enough|and)\b)`,
  raw`\b(?:too|very|really|red|boiling|scalding|uncomfortably|burning|piping) hot\b`,
  raw`\btoo warm\b`,
  raw`\bhot (?:to|for) (?:the )?(?:touch|hold|hand)\b`,
  raw`\b(?:hotter|warmer) than (?:the (?:other|left|right)|I)\b`,
  raw`\brunning (?:warm|hot)\b`,
  raw`\bhot spot\b`,
  raw`\bblued? on one side\b`,
  // “Stiff on full lock”, “steering is vague”, “gearbox noisy in second”.
  raw`^(?:${adverbs} ){0,6}(?:${unwell}|loose|slack)(?=$| (?:on|at|in|when|for|both|under|around|from|as|still|now|again|over|all|to (?:turn|steer|move|push|pull|select|port|starboard|the (?:left|right)|one side|left|right))\b)(?! on the bench)`,
  raw`\b${part} (?:is|was|are|were|be|feels?|felt|seems?|went|goes|gone|still|got|gets?|became|become|turns|turned|runs|ran|${adverbs})?(?: ?${adverbs}){0,6}\s*(?:${unwell})(?=$| (?:on|at|in|when|for|both|under|around|from|as|still|now|again|to|with|badly|and|of|one|by|its|his|her|the|between|endways|after|past|where|over|off)\b)`,
  raw`\b${part} (?:(?:is|was|are|were|feels?|felt|seems?|still|went|goes|got|gets|stays|has gone|a bit|too|very|rather) )+(?:${adverbs} ){0,6}(?:loose|slack|soft|heavy|tight|low|long|on)(?=$| (?:on|at|in|when|both|under|again|to (?:turn|steer|move)|after|over|by|now)\b)(?! (?:in|on|at) (?:the|its) (?:stops?|seat|shaft|taper))`,
  raw`\b(?:steers?|steered|turns?|turned|runs?|ran|handles?|feels?|felt|works?|moves?) (?:${adverbs} ){0,6}(?:heavy|heavily|stiff(?:ly)?|rough(?:ly)?|hot(?! and cold)|uneven(?:ly)?|eccentric|out of true|noisy|noisily|lumpy|loose|vague|notchy|odd|wrong|tight|jerky|jerkily|warm(?!ing)|sluggish(?:ly)?)(?=$| (?:on|at|in|when|to|all|above|once|again|still|with|by|more)\b)`,
  raw`\b(?:long|soft|spongy|low|sinking) pedal\b`,
  raw`\bpedal (?:\w+ )?(?:long|low|soft|spongy|down (?:slowly|to))\b`,
  raw`\bpedal (?:\w+ )?(?:sinks|sank|drops|dropped|went (?:soft|long|down)|goes (?:soft|long|down)|creeps)\b(?!.*\band (?:stayed|stays|held|holds|stopped)\b)`,
  raw`\b(?:need(?:s|ed)?|takes?|took|had) (?:\w+ ){0,2}(?:two|three|several|a few|\d) (?:pumps|pushes|strokes|goes)\b`,
  raw`\blever (?:comes|came) (?:right )?(?:back )?to the bar\b`,
  raw`\bnoisy\b`,
  raw`\bnoisier\b`,
  raw`\bslightly out\b`,
  raw`\bsloppy\b`,
  raw`^(?:${adverbs} ){0,6}heavy (?:on|at|to) (?:\w+ )*(?:lock|turn|steer|park|left|right)\b`,
  raw`\btight (?:at|on|in|for|once|every) (?:\w+ ){0,2}(?:spot|place|lock|turn|half|quarter|third|centre|tooth|revolution|rev)\b`,
  raw`\bstiff (?:one way|to (?:port|starboard|the left|the right))\b`,
  raw`\bcan (?:still )?(?:rock|feel|hear|move|waggle|lift|shake|turn|see)(?: the| it| her)? (?:${lead}){0,8}(?:${part}|movement|it|play|knock|wobble|catch|notch|click|light|daylight)\b(?! (?:with|by|freely))`,
  raw`\b(?:wheel|shaft|hub|arm|lever|bush|pin|bearing|spindle|fork|blade)s? (?:rocks|can be rocked|moves about|wanders|lifts)\b`,
  raw`\b(?:only|just) (?:on|at) (?:one|the (?:left|right|heel|toe|tip|edge|front|rear))\b`,
  raw`\b(?:one|left|right|front|rear) (?:side|rail|end|wheel) only\b`,
  raw`\bonly (?:on )?(?:half|a third|a quarter|one side|one end)\b`,
  raw`\ball (?:at|on) the (?:heel|toe|tip)\b`,
  raw`\bhard on the (?:heel|toe|edge)\b`,
  raw`\boff the edge\b`,
  raw`\bone time in\b`,
  raw`\b(?:once|twice) in (?:three|four|five|ten|six|two)\b(?! (?:minutes|hours|days))`,
  raw`\btimes in ten\b`,
  // One side, one wheel.
  raw`\bonly (?:on )?(?:one|two|three|the )?\s?(?:left|right|front|rear|near|off|one|two|three)? ?(?:wheel|side|brake|cylinder|hook|chain|end|shoe)?s? ?(?:work|works|worked|bites?|grips?|brakes|pulls|locks|touch\w*|lit|wheel)\b`,
  raw`\b(?:brakes? work|works|working|touching|bites?) only (?:on|at)\b`,
  raw`\bruns? on (?:one|two|three) cylinders?\b`,
  raw`\b(?:left|right|front|rear|one|nearside|offside)\b.*\blocks? first\b`,
  raw`\b(?:unbalanced|balance out|out of balance)\b`,
  // What was found after it.
  raw`\b(?:lost|shed|threw) (?:an?|one|two|its|the|some) (?:\w+ )?(?:nut|bolt|screw|stud|pin|clip|cap|key|wheel|washer|ball|load)s?\b`,
  raw`\b(?:found|with|had|lost|shed|threw|left|missing|dropped) (?:an?|one|two|three|four|some|both|its|the|\d+)? ?(?:${lead}){0,8}(?:lock )?(?:${fastenings}|tabs?|balls?|tooth|teeth|spring)(?: (?:loose|slack|missing|gone|undone|finger-tight|lying|on the (?:floor|bench|road)|in the tray|left over|somewhere|after\w*)\b)`,
  raw`\b(?:${fastenings}|wheel|wheels|locking|joint|ball)s? (?:was |were |is |are |had |have |has |been |found |came |come |gone |gone back |worked |a (?:bit|little|touch|turn|flat) |still |quite |now )*(?:loose|slack|missing|adrift|undone|backed off(?! (?:one|a|half|\w+) (?:flat|slot|notch|turn|castellation|to))|turned (?:a|half|back)|moved (?:when|on|a|half)|sheared|snapped|stripped|broken|finger[- ]tight(?! (?:plus|and|then))|moved$|not (?:fitted|in|locked|tight)|left out|forgotten|lost|cracked|split(?! ?-?pin)\w*)\b`,
  raw`\b(?:bolt|stud|screw|shaft|arm|axle|lever|rod)s? (?:is |was |has )?bent\b(?! (?:over|up|back|to))`,
  raw`\b(?:needed|took|wanted|gave) (?:another|a further|an extra) (?:\w+ )?(?:turn|flat|quarter|half|nip)\b`,
  raw`\b(?:nuts?|bolts?) (?:all )?(?:took|wanted|needed) (?:up )?(?:a|another|half|quarter)\b`,
  raw`\bleft (?:the|a|an|one|its) (?:\w+ )?(?:pin|clip|washer|nut|bolt|wire|guard|shim)s? (?:out|off|undone|for now)\b`,
  raw`\b(?:spare|odd|extra) (?:\w+ )?(?:washer|nut|bolt|shim|part|spring|pin)s? left\b(?!.*because)`,
  raw`\b(?:washer|nut|bolt|shim|part|spring|pin)s? (?:left over(?! because)|left on the bench|on the bench after\w*|in the tray)\b`,
  raw`\bforgot(?:ten)? (?:to|the|a|one)\b`,
  raw`\b(?:stripped|pulled) (?:its|the|a|one) threads?\b`,
  raw`\bstripped (?:one|it|a)\b`,
  raw`\bspun in (?:its|the)\b`,
  raw`\bcrack(?:s|ed)? (?:showing|shows?|at|in|from|across|along|by|under|near|visible)\b`,
  raw`\bcracked? (?:link|tooth|weld|lug|eye|arm|spoke|drum)\b`,
  raw`\b(?:one|a|two) (?:\w+ )?(?:cracked|split|broken|bent|chipped)\b`,
  raw`\b(?:line|mark) (?:by|at|along|near|in) (?:the|a) (?:fillet|keyway|root|weld|radius|thread|hole|shoulder)\b`,
  raw`\bcogs? split\b`,
  raw`\bsplit already\b`,
  raw`\bchewing (?:its|the)\b`,
  // What is where it should not be.
  raw`\b(?:flakes?|swarf|shavings|filings|glitter|metal|bronze|brass|chips|bits|debris|particles|specks|splinters|fragments|sparkle|white metal|steel|iron|brass dust|fluff)\b(?: \w+){0,3} (?:in|on) (?:the |her |its )?(?:\w+ )?(?:oil|strainer|filter|sump|plug|magnet|pan|drain|tray|gauze|grease|gearbox|box|fluid|rag|screen)\b`,
  raw`\bmetal in it\b`,
  raw`\b(?:water|coolant) in the (?:\w+ ){0,2}(?:oil|sump|box|gearbox|axle|cylinder)\b`,
  raw`\bmilky\b`,
  raw`\b(?:oil|grease|fluid|petrol|fuel|water|dot \d)\b(?: \w+){0,2} (?:on|over|down|past|out|between|inside|running|coming|come|all over|round)\b(?: \w+){0,2} (?:the )?(?:\w+ )?(?:linings?|shoes?|drums?|discs?|pads|tyres?|wheels?|brakes?|seals?|gland|ring|gasket|floor|joint|halfs|halves|legs?|breather)\b`,
  raw`\b(?:brass|metal|white metal|bronze|iron) (?:dust|flake|paste|showing)\b`,
  raw`\bfine stuff and\b`,
  raw`\bbilge (?:had|full|wet|has)\b`,
  raw`\bfull of (?:glitter|metal|swarf|brass|bronze|bits|flakes|water|filings|sludge)\b`,
  raw`\bwater in the (?:hub|bearing|brake|drum|box|axle)s?\b`,
  raw`\blike gold paint\b`,
  // Pressure, level, figures in words.
  raw`\b(?:pressure|vacuum|charge|needle)\b(?: (?!no|blown|not)\w+){0,2} (?:low|down(?! (?:to|from))|gone|zero|nil|flickers|flickering|fluctuat\w+|unsteady|sagging|leaking)\b`,
  raw`\b(?:pressure|vacuum)\b.*\b(?:fell|falls|falling|drops|dropped|dropping|drop|went|goes|slowly|sinks|sinking|dies|died) ?(?:off|away|down|right|slow\w*|overnight)?(?=$| (?:to (?:nothing|zero|nil|almost|next)|when|as soon|hot|at|below|under|slow\w*|overnight)\b)`,
  raw`\b(?:gauge|fluid|level|pressure|it) (?:dropped|fell|drops|falls) (?:from .* (?:in|with)|(?:a|half|quarter|\w+) (?:\w+ )?(?:inch|pint|litre|bar|psi))\b`,
  raw`\blost (?:\d+|a|half|some|most|all|about|its|two|three)\b.*\b(?:oil|pressure|fluid|coolant|water|air|bar|psi|lb|prime|drive|vacuum|pint|litre)\b`,
  raw`\b(?:oil|charge|charging|warning|abs|pressure|temperature|temp|ignition|red|brake fluid|low level) (?:lamp|light) (?:\w+ )?(?:came on|comes on|stays on|stayed on|is on|was on|on(?=$)|flicker\w*|glow\w*|flashing)\b(?! (?:with|and went|and goes|as it|at first))`,
  raw`\bsmel(?:l|ls|t|led|ling) (?:of (?:burn|hot|clutch|brake|lining|fuel|petrol|gas)|hot|burn)`,
  raw`\bstill (?:climbing|rising|falling|dropping|growing)\b`,
  raw`\bcrunch(?:es|ed|ing)? (?:into|in)\b`,
  raw`\b(?:does|do|did) (?:grab|bind|drag|knock|leak|slip|stick|judder|catch|rub|creep|pull|fade|weep|rattle|squeal|foul|jump)\b`,
  raw`\b(?:egg[- ]shaped|frayed|discolou?red|pitting|worn through|whipping|seeping|hung up)\b`,
  raw`\bsomething (?:gritty|rough|hard|stiff|went|goes)\b`,
  raw`\bpass(?:ing|es) (?:oil|water|steam|air)\b`,
  raw`\b(?:clack|valve|cock|regulator) passing\b`,
  raw`\b(?:noise|sound) (?:has )?(?:changed|getting)\b`,
  raw`(?<!\b(?:door|gate|hatch|lid|latch|pawl|hook) )\bcatches (?:on|once|a|when)\b(?! (?:the pawl|each|every|first))`,
  raw`\bto be re-?(?:tested|tried|done)\b`,
  raw`\bhairline\b`,
  raw`\bbroken wires?\b`,
  raw`\bstrands? gone\b`,
  raw`\bcrack (?:has |is )?(?:grown|growing|opened|opening|longer)\b`,
  raw`\bstripped$`,
  raw`\bcame loose\b`,
  raw`\bundid itself\b`,
  raw`\bunaccounted\b`,
  raw`\boil everywhere\b`,
  raw`\bwrong way (?:round|up)\b`,
  raw`\b(?:doubled|trebled|opens? up) (?:since|as)\b`,
  raw`\bpedal to the (?:floor|boards?)\b`,
  raw`\bslid off\b`,
  raw`\bsounds? like a bag\b`,
  raw`\bflat[- ]spotted\b`,
  raw`\bstretched (?:link|bolt|past)\b`,
  raw`\bthreads? short\b`,
  raw`\bi guessed\b`,
  raw`\bbest I could do\b`,
  // Load.
  raw`\b(?:sank|sinks|sunk|dropped(?! in)|drops(?! in)|crept|creeps|came down|slipped|slips|fell|rolled back|ran back|sagged|lowered itself)\b(?: \w+){0,2} (?:an?|half|one|two|three|four|\d+(?:\.\d+)?|some|several) ?(?:an? )?(?:inch(?:es)?|mm|cm|foot|feet|ft|turns?|tooth|teeth|notch(?:es)?|hand|bit|little|thou)\b(?! (?:and (?:was )?(?:held|stayed|stopped|gripped|took|caught|stopped)|as))`,
  raw`\b(?:came|coming|comes|went) down (?:on its|by it|of it|on the|again)`,
  raw`\bcrept (?:down|off|back|out)\b`,
  raw`\b(?:moved|went down|slewed|turned|let go|opened|released) (?:by|of) (?:it|them)sel(?:f|ves)\b`,
  raw`\b(?<!release )(?:hook|chain|rope|beam|eye|jib|arm|frame|shackle|ring|spring|link|lug|bracket) (?:\w+ )?(?:opened (?:up|out|by|\d|a )|stretched(?! \d.*(?:per cent|%))|grew|bent|bowed|spread|twisted|gave|deformed|buckled)\b(?! (?:back|within|by hand))`,
  raw`\bpermanent set(?=$| (?:of|after|in|\d))`,
  raw`\bset of \d`,
  raw`\btook a set\b`,
  raw`\bslipped (?:twice|once|again|under|at(?! (?:its|\d))|on (?:the (?:hill|bank|ramp|slope)|load)|in (?:first|second|third|top|reverse|forward))\b(?! in a lump)`,
  raw`(?<!\bthe )\bslips? (?:in|under|at|on) (?:load|full|the hill|forward|reverse|third|top|drive)\b`,
  raw`\b(?:nuts?|bolts?|screws?|studs?|pins?) (?:\w+ )?(?:still )?(?:turns?|moves?|can (?:still )?be (?:moved|turned|undone|pulled)) (?:out )?(?:by hand|with (?:a |my |the |two |one )?fingers?)\b`,
  raw`(?<!nipped )\b(?:only )?(?:hand|finger)[- ]tight\b(?! (?:plus|and|then))`,
  raw`\b(?:one|two|three|four|some|several|\d+) (?:\w+ )?(?:broken|cracked|split|bent|chipped|chewed|torn|frayed)\b`,
  raw`\bbent a nail\b`,
  raw`\btemporary\b`,
  raw`\btaped (?:it|up)\b`,
  raw`\bused the old (?:\w+ )?(?:pins?|washers?|plates?|tabs?|nuts?|locks?|wire)\b`,
  // What is still to be done.
  raw`\b(?:needs?|needed|wants?|requires?|could do with|ought to|should) (?:to be |be |a bit more |a bit of |some |a little |more |another |a |an |further |to |doing |have )*(?:re-?\w+ing|(?:bleed|adjust|look|shim|tighten|sort|do|fix|balanc|fettl|set|replac|renew|chang|strip|straighten|align|track|eas|pack|grind|fil|fill|tun|trimm|turn|torqu|align|cent(?:r|er)|scrap|lin)ing|fettling|another (?:go|look|shim|turn|adjust\w*|bleed|strip|try|shim)|adjust(?:ed|ment)?|attention|looking at|work|new (?:one|seal|bush|bearing|pads|linings?|shim|gasket)|shim|redone|doing again|sorting|renewal|bedding|bled|looked at(?! (?:again|every|each))|re\w+ed|come (?:apart|off|out|down)|two pumps|(?:thump|kick|tap|bump|second|holding|help|hammer|persuad\w+|watching))\b`,
  raw`\b(?:will|shall|must|have to|has to|going to|'ll|I'll|might|may) (?:still |just |now |then |need to |have to |try to |be |to |also )*(?:adjust(?:ed)?|sort(?:ed)?|fix(?:ed)?|chang\w+|renew(?:ed)?|replac\w+|mend(?:ed)?|bleed|bled|shim|repair(?:ed)?|finish|tighten(?:ed)?|order|strip(?:ped)?|re-?do|redone|come (?:apart|out|off|down)|take (?:it |her )?(?:down|apart|out|off)|look (?:again|into|at (?:it|that))|do (?:it|that|the rest|them)|try (?:it )?(?:later|tomorrow|again|next))\b`,
  // What a look showed that was to show it good.
  raw`\b(?:goes|went|gets|got|comes|turns) (?:very |rather |a (?:bit|little) )?(?:stiff|tight|rough|lumpy)(?=$| (?:with|when|as|at|on|for|in|near|past|if|over half|once)\b)(?! (?:as it (?:must|should)|on the (?:taper|cone|stop)|at the stop))`,
  raw`\bstiffens?(?: up)?(?: a (?:bit|little)| slightly)? (?:near|at|on|in|towards|past|when|over)\b`,
  raw`\btight (?:spot|place) (?:an?|one|half|mid\w*|near|left|right|past|just|about)\b`,
  raw`^(?:only |just |still |now )?(?:an?|a few|few|some|one|two|three|four|several|\d+) (?:\w+ )?drops? (?:at|under|from|on the (?:card|floor|paper|tray|ground|bench|rag)|below|by the|an? (?:hour|minute|night|day)|every|each|underneath|overnight)\b`,
  raw`\b(?:damp|wet) (?:at|round|around|under|below|near|about) the (?:\w+ ){0,2}(?:seal|joint|lip|union|gland|plug|flange|cover|cap|nut|gasket|bottom|edge|face|drain)\b`,
  raw`\bdamp (?:ring|patch|spot|line|mark)\b(?! (?:was|is|came) )`,
  raw`\bhiss(?:es|ing)? (?:at|from|by|round) (?:the|a|one)\b`,
  raw`\b(?:oil|fluid|water|grease) on the (?:\w+ ){1,2}(?:again|afterwards)\b`,
  raw`\b(?:needed|needs|wants|wanted|took|takes) (?:a|the|some|two|both|more than) (?:\w+ ){0,5}?(?:bar|pipe|hammer|mallet|kick|shove|persua\w+|feet)\b(?! to (?:lift|hold|steady|carry|release))`,
  raw`\b(?:turns|moves|stirs|creeps|gives) (?:a (?:bit|little) )?under the bar\b`,
  raw`\b(?:works|shuts|closes|holds|starts|locks|bites|returns|engages|lets go|latches|comes (?:back|off|free))(?: only)?(?: if| when| after) (?:it|you|one|the \w+) ?(?:is |are )?(?:slam\w*|push\w*|tap\w*|kick\w*|help\w*|held|hold|lift\w*|jiggl\w*|wiggl\w*|hit|shov\w*)\b`,
  raw`\b(?:must|has to|had to|have to|needs to) be (?:\w+ )?(?:pulled|pushed|held|brought|helped|levered|tapped|hit|kicked|slammed|forced) (?:back|in(?!\w)|out of|off|home|free|shut|over)\b`,
  raw`\b(?:mostly|mainly|hard|heavy|heavily|strong) (?:at|on|to|towards?) the (?:heel|toe|tip|edge|root|top|bottom)\b`,
  raw`^(?:it |they |that |all )?(?:will|should|may) (?:soon |all )?(?:run|pull|wear|work) (?:itself |themselves )?(?:in|flat|off)\b`,
  raw`\b(?:will|should) (?:wear|run) (?:in|flat)$`,
  raw`\b(?:dyed|looked at|tried|tested|seen|checked|felt|blue|contact|grey|bears?|touch\w*|marks?) (?:it )?(?:at|on|over|by|from|along) (?:the|one) \w+(?: \w+| of the \w+)? only\b`,
  raw`\bonly (?:over|on|at|along|round) (?:half|a third|a quarter|one|part)\b`,
  raw`\b(?:blue|contact|grey|bears|touches|marks) (?:only )?on (?:one|two|three|half|some|\d+) of (?:the |its )?(?:four|five|six|eight|ten|twelve|\d+|\w+s)\b`,
  raw`\b(?:light|daylight) at one (?:corner|end|edge|side)\b`,
  raw`\bthe new (?:one |ones |pair )?(?:will|should) be (?:the same|no (?:worse|different))\b`,
  raw`\bdye (?:drew|bled|drawn|came|comes|draws) (?:out )?(?:at|in|along|from|by|near)\b`,
  raw`\bonly the (?:near|off|left|right|front|rear|one) (?:\w+ )?(?:got|gets|is|was) (?:warm|hot|cold)\b`,
  raw`^(?:the |one |both )?(?:pad|lining|shoe|bore|pin|journal|cone)s? (?:is |are )?tapered\b`,
  raw`\b(?:an?|one|two|three|half an?) (?:tooth|teeth|splines?|notch|notches|serrations?) (?:out|off|late|early|apart|over|on from|away|too far)\b(?! the (?:new|old)\b)`,
  raw`\b(?:comes?|stops?|falls?|stands?|sits?) (?:\w+ ){0,3}short of (?:the |its )?(?:\w+ )?(?:mark|line|face|stop|slot|hole|end|seat|shoulder|home|nut)\b`,
  raw`\b(?:more|less) than (?:it|they) (?:ought|should)\b`,
  raw`\balways stops? (?:with|at) the same\b`,
  raw`\b(?:stops? always|always stops?) (?:at|in|on) (?:one|the same)\b`,
  raw`\b(?:one|a|two) (?:places?|spots?) (?:is |are )?(?:an? (?:bit|little|shade|touch) )?(?:heavier|stiffer|tighter|harder)\b`,
  raw`\b(?:one|two|some|a few) (?:is |are |sounds? )?(?:dull|dead)$`,
  raw`\b(?:meets|touches|hits|reaches) the (?:hose|pipe|spring|wing|tyre|frame|arm|box|axle) (?:before|at|on|first)\b`,
  raw`\b(?:box|tyre|arm|wheel|frame|lever)s? (?:touches|meets|hits) (?:an? |the )?(?:\w+ )?before the (?:stop|lock)s?\b`,
  raw`\b(?:and|then|with) a (?:hair|line) (?:at|in|along|from|round) the\b`,
  raw`^(?:\w+ )?(?:a|has a) (?:(?:short|fine|faint|thin|dark) )?(?:hair|line) (?:at|in|round|along|from) the (?:\w+ )?(?:root|fillet|saddle|eye|neck|weld|radius|thread|shoulder|hole|keyway)\b`,
  raw`^(?:a (?:bit|little)|rather|still|too) springy$`,
  raw`\b(?:only )?(?:two|both|three|four|five|seven|eleven|fifteen)(?: \w+)? of (?:the )?(?:(?<=two of |two of the )three|(?<=three of |three of the )four|(?<=four of |four of the )five|(?<=five of |five of the )six|(?<=seven of |seven of the )eight|(?<=eleven of |eleven of the )twelve|(?<=fifteen \w+ of |fifteen of )sixteen)$`,
  raw`\balong the (?:tips?|toes?|edges?)\b`,
  raw`\bstill a (?:\w+ )?(?:witness|step|gap|lip|shine|trace|line)\b`,
  raw`\bstill in (?:its|their) (?:old )?(?:paint|grease)\b`,
  raw`\bshine in (?:it|the oil)\b`,
  raw`\bone (?:thread|hole|stud|cap|pin|side|end|flank|face) (?:is |was )?(?:left|missed)$`,
  raw`\b(?:lifts?|opens?|shuts?|closes?|trips?|fires?|bites?) (?:rather |a (?:bit|little) |too )?(?:late|early)\b`,
  raw`\bnear enough$`,
  raw`\b(?:hose|pipe|wire|loom|cable)s? (?:lies|lie|rests?|bears?|chafes?) (?:on|against) the (?:pipe|frame|exhaust|shaft|tyre|arm|bracket|edge|wheel|manifold|chassis|spring|drum)\b`,
  raw`\bhangs? on (?:a (?:bit|little|touch)|slightly|too)\b`,
  raw`\bstirs? (?:a (?:bit|little|touch)|slightly|at the|on the|in (?:the|its)|when|under)\b`,
  raw`\b(?:bush|race|sleeve|insert|outer|ring)s? (?:turns|spins|moves|stirs) in (?:the|its) (?:eye|housing|bore|hole|seat|boss|arm|hub)\b`,
  // Brakes and steering, as drivers say it.
  raw`\b(?:to|on|at|in|up to) (?:the|its) (?:very )?last (?:notch|tooth|click|hole)\b`,
  raw`\b(?:hard|firm|solid|bites|there|comes up) (?:only )?(?:after|on|at|with) the (?:second|third)\b`,
  raw`\b(?:second|third) (?:pedal|push|stroke|pump|press) (?:is |was |comes |a (?:bit|little) |much )?(?:higher|harder|firmer|better)\b`,
  raw`\b(?:wheel|bar|column|it)s? (?:shakes|wobbles|shimmies|knocks|rattles) (?:until|till|unless)\b`,
  raw`\bstraight (?:only )?(?:if|when|as long as|while) (?:you |I |it is |it's |one )?(?:holds?|held|kept|keep|steer\w*)\b`,
  raw`\b(?:wants|takes|took) both (?:hands|arms)\b`,
  raw`\b(?:${noise}) (?:is|was|has become|got|gets) (?:\w+ )?(?:fainter|softer|duller|deeper|less than before)\b`,
  raw`\bnipped up (?:once )?(?:at|after) (?:\w+ ){1,2}(?:miles?|km|minutes|hours?)\b`,
  raw`\bstopped (?:coming|flowing|returning|charging|pumping|turning|lifting) (?:back|at|after|in|when|round)\b`,
  raw`\bgurgles\b`,
  raw`\bwants to (?:go|pull|wander|run|climb|drift) (?:to )?(?:the )?(?:left|right|port|starboard|one side|verge|kerb|off)\b`,
  raw`\b(?:wanders|pulls|knocks|weaves|wobbles|shakes|leaks|rubs|drags|binds) (?:just )?as (?:before|ever|it did|bad)\b`,
  raw`\b(?:${noise}) (?:is |was |can be )?still (?:heard|felt|audible|to be (?:heard|felt))\b`,
  raw`\btwice (?:the|its|as) (?:length|distance|way|far|long)\b`,
  raw`\b(?:near|off|left|right|nearside|offside) (?:front |rear )?(?:drum|disc|brake) (?:stays|stayed|remains|remained) (?:stone |quite |dead )?cold\b`,
  raw`\bpulls? up (?:an? (?:bit|little) |slightly |rather )?(?:to|towards) (?:the )?(?:left|right|one side|near side|off side|kerb)\b`,
];

/** Those that deny something themselves (“would not hold”). */
export const faultsDenying: readonly string[] = [
  // “The knock is back”, “noise still there”, “it began to leak”.
  raw`\b(?:${noise}|${slackness}|${leaks}|${others}|pulling|trouble|fault|problem)(?: noise)? (?:is|was|are|has|had|came|comes) (?:still )?(?:there|present|back|worse|the same|much the same|returned|come back|getting|no better|as bad)\b`,
  raw`\b(?:knock|noise|leak|play|rattle|rumble|wobble|vibration|shimmy|pull|drag|whine|clonk|clunk|tick|fault|problem) (?:is |was |has )?(?:still )?(?:not|n't) (?:gone|cured|fixed|away|better)\b`,
  raw`\b(?:knock|noise|leak|rattle|rumble|wobble|shimmy)\b.*\bI (?:had|have)(?:n't| not)\b`,
  raw`\b(?:can't|cannot|couldn't|could not|can not) (?:keep|hold|bear|leave) (?:a |your |my |the )?hand\b`,
  raw`(?<!\b(?:lost|lose|loses|losing|with) )\bno (?:brakes?|drive|reverse|clutch|damping|pressure|charge|compression|oil pressure|response|feel)\b(?! (?:fade|noise|drag|pull|loss|slip|judder|knock))(?=$| (?:on|at|in|to|from|left|when|after|at all|going|backwards|forwards)\b)`,
  raw`\bnothing (?:at|on|from) the (?:left|right|front|rear)\b`,
  raw`\b(?:fell|falls|dropped|drops|went|goes|faded|fades|died|sank|down) (?:off |away |down )?to (?:nothing|nil|zero|almost nothing|next to nothing)\b`,
  raw`\b(?:does|do|did) nothing\b`,
  raw`\bhas no effect\b`,
  raw`\bhardly (?:turns?|moves?|slows?|stops?|holds?|any (?:brake|grip|pressure))\b`,
  raw`\bwill hardly\b`,
  raw`\bnothing much\b`,
  // It does not do what it should.
  raw`(?<!feeler )\b(?:did|does|do|would|will|could|can|is|wo|ca|was)(?:n't|n’t| not|not| never)(?: (?:always|quite|even|fully|really|properly|get (?:it )?to|work|seem to|\w+ly))* (?:pass (?:the|its|a|inspection|test)|hold(?! up)|stop(?! (?:once|running|for|to|short|all|(?:always )?(?:in|at) one|twice))|start(?! (?:backward|in gear))|bite|grip|return|come (?:back|fully|home)|pull up|disengage|engage|work|trim|latch|idle|reverse|select|(?:self-?)?cent(?:re|er)|seat|drop in|trip|shut|close|clear|charge|go (?:in|into|home)|stay (?:in|on|up|down|shut|put|locked)|mesh|line up|fit|reach|swivel|nip up|catch|bleed|reseat|steer|go back|lock(?! (?:before|first|solid|up|on))|drop back|unlock|fully|spin free|home)\b(?! (?:till|until|without|unless|with|in gear|under load|into two|over))`,
  raw`\b(?:refused|refuses) to (?!go with|move with|start with|slip|leak|jump|come (?:off|out|loose)|fade|pull|wander|creep|budge|shift|break|let go)\b(?!.*\b(?:with|till|until|unless|while)\b)`,
  raw`\b(?:refused|rejected|condemned) (?:it|her|us|the)\b`,
  raw`\bunable to (?:get|stop|hold|select|release|turn|engage|start|lift)\b`,
  raw`\bnever (?:reseated|tripped|came (?:back|off|up)|locked|engaged|got (?:over|above|up|to|past)|released|returned|reached|stopped|held|bit|went (?:in|home))\b`,
  raw`(?<!never )\bfail(?:s|ed)? (?:to (?!find|fault|make|show|detect|see|hear|feel|provoke|leak|slip|fade|bind|break|knock)|the \w+ test|on (?:the )?\w+|at \d|by \w+)`,
  raw`\binoperative\b`,
  raw`\bout of action\b`,
  raw`\b(?:lamp|light|gauge|brake|side) (?:is |was |went )?dead$`,
  raw`\bno (?:better|improvement|different|good|further forward)\b(?! than (?:new|it should))`,
  raw`\bas bad as\b`,
  raw`\b(?:much|just) the same (?:as before)?(?: I)?`,
  raw`\bsame (?:as before I|knock|fault|trouble|old)\b`,
  raw`\bworse (?:than before|now|in|under|when|than it)\b`,
  raw`^worse$`,
  raw`\bback to square one\b`,
  raw`\bcould be (?:better|worse)\b`,
  raw`\bnot (?:quite |entirely |fully |really |yet |as |so |too )*(?:right|cured|gone|fixed|solved|happy|satisf\w+|good|well|true|central|square|free|tight enough|smooth|balanced|certain|sure|convinced|perfect|ideal|safe|ready|what it should)\b(?! over)`,
  raw`\bsomething (?:rubbing|grinding|knocking|loose|wrong|catching|touching|scraping|amiss|is|not)\b`,
  raw`\b(?:getting|gets|got) (?:louder|worse|hotter|stiffer|slacker)\b`,
  raw`\bnot (?:fully |properly |quite |yet |been )?(?:seated|fitted|locked|home|square|torqued|pinned|wired|(?<!^not )bent|in (?:safety|line|place)|central|lined up|connected|tightened|bled)\b`,
  raw`\bsame (?:\w+ )as (?:before|ever|it was)\b`,
  raw`\bgone back to how\b`,
  raw`\bcan(?:'t|not) find (?:the|a|one)\b`,
  raw`\bcould be the\b`,
  raw`\b(?:should|ought to) be (?:\d|one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|under|less|more|half)\b`,
  raw`\btwice as (?:far|long|much)\b`,
  raw`\b(?:mm|in|inch|thou) out of\b`,
  raw`\bmore than (?:it did|I like|before)\b`,
  raw`\bfaster than I like\b`,
  raw`\b(?:not convinced|(?:she|it)'ll be right|keep an eye|best I can do|time will tell|have seen better|not sure|unsure|doubtful|hopefully|I hope|touch wood|fingers crossed|I (?:guess|reckon|assume)|assum(?:e|ed|ing) (?:it|fine|good)|probably|(?:wouldn't|would not) trust|I (?:wouldn't|would not) (?:take|drive|go|lift|let|want)|don't like|do not like|don't trust|shouldn't matter|should be (?:ok(?:ay)?|fine|all right|good|alright|enough)|it'll do|it will do|will do(?= for|$)|good enough for (?:now|today|moving|getting)|near enough (?:for|to use|I)|(?:can|could|will) live with|take its chance|risk it|get (?:me|us|it) home|close enough|just about|nearly right|almost right|more or less|so-so|sort of works|call(?:ed)? it (?:good|done|a day)|who knows|we'll see|I suppose|seems? (?:ok|okay|fine|all right|right)(?=$)|hoping|will do till|will see how|see how it (?:wears|goes|holds)|running it for now|took it as read|for now$|maybe|might be|may be)\b`,
  raw`\bran out of (?:time|daylight|light|fuel|petrol|day|oil)\b`,
  raw`\b(?:didn't|did not|never|haven't|have not|hasn't|not|no time to|no chance to|yet to|couldn't|could not) (?:get round to|got round to|have time|get to|yet |been |had a chance to|manage to )?(?:try|tried|test|tested|check|checked|load|loaded|run(?! (?:away|out|hot|back|on|over|low))|driven|drive|finish|finished|trying|testing|do|done|been (?:tried|tested|run|driven|loaded))\b(?! (?:hard|without|by|to death|it without|above|over|beyond|in (?:the )?(?:wet|rain|dark|snow)|at (?:speed|night)))`,
  raw`\bcut short\b`,
  raw`\bgave up\b`,
  raw`\bgiven up\b`,
  raw`\babandon\w*\b`,
  raw`\bbroke down\b`,
  raw`\bhad to (?:stop(?! (?:at|for) (?:the )?(?:lights?|gates?|cattle|traffic|crossing))|turn back|be (?:towed|pushed|helped)|push|walk|limp|nurse|shut|drop the|hit|pump|give|abandon|be)\b`,
  raw`\bcame (?:back|home) on the (?:hook|rope|trailer|truck|lorry)\b`,
  raw`\b(?:shut|switched) (?:it |her )?(?:down|off) (?:at|after|before)\b`,
  raw`\bstopped the (?:test|run)\b`,
  raw`\bstopped (?:the trial|after .* because)\b`,
  raw`\bbroken off\b`,
  raw`\bstill to (?:come|do)\b`,
  raw`\b(?:locking|wiring|torquing|bleeding|pinning) to do\b`,
  raw`\bskipped\b`,
  raw`\bhalf (?:of )?the test\b`,
  raw`\bonly (?:tried|tested|run|ran|driven) (?:it )?(?:by|un|on|for|in|with|at)\w*\b`,
  raw`\bby hand only\b`,
  raw`\b(?:engine|motor|load|brake|brakes) not (?:run|tried|tested|connected|fitted)\b`,
  raw`\b(?:the )?(?:rest|others?|other half|other side) (?:to be done )?(?:tomorrow|next|later|on \w+day)\b`,
  raw`\bno road test\b`,
  raw`\bto be (?:tested|tried|done|finished|adjusted|sorted|fixed|changed|renewed|replaced|tightened|bled|looked at(?! (?:again|every|each|after|in \w+ months))|investigated|found)\b`,
  raw`\bno (?:weights?|load|time|fuel|water|steam|test|driver|road) (?:to hand|available|to (?:check|try|test)|left|done)\b`,
  raw`\b(?:could|can)(?:n't|not| not) (?:see|reach|look|get (?:at|to|round|behind|under|near|the (?:magnet|lamp|mirror|probe|dye|light)))\b(?! (?:any|an?|anything|one|more|no|it move|it any|it (?:to )?slip|move|a line|the (?:old|mark|scratch))\b)`,
  raw`\b(?:could|can) only (?:see|reach|get at|feel|look at)\b`,
  raw`\b(?:dye|blue) (?:was |is |had |ran )(?:all )?(?:used up|out|finished|gone|empty)\b`,
  raw`\bnot (?:looked at|seen|tried|dyed|checked|felt) (?:at|on|behind|under|inside|round) the\b`,
  raw`\bit was (?:too |very |getting )?dark\b`,
  raw`(?<!\b(?:no|nothing|none|any|never|more)\b.*)\b(?:could|can)(?:n't|not| not) be (?:seen|reached|looked at|dyed|tried|tested|got at)\b(?! (?:to|from|any|till|until|without|unless|at (?:speed|night|full)|above|over|beyond|in (?:the )?(?:wet|rain|dark|snow))\b)`,
  raw`\bno (?:dye|blue|magnet|lamp|glass|developer) (?:left|to hand|here|about)\b`,
  raw`\bnot (?:looked at|seen|tried|dyed) again\b`,
  raw`\bnothing (?:came|comes) (?:back|through|out at)\b(?! the (?:developer|white|whiting|chalk|paper)\b)`,
  raw`\bnothing at the \w+ end\b`,
  raw`\b(?:is|are) (?:still )?to (?:follow|come)$`,
  raw`\bfound (?:an?|one|two|the) (?:\w+ )?(?:pin|nut|bolt|clip|washer|key|screw|stud)s? (?:gone|missing|out|sheared)\b`,
  raw`\b(?:strand|wire|tooth|leaf|roller|ball|rivet|spoke|coil)s? (?:is |are )?(?:gone|missing|chipped|broken)\b`,
  raw`^(?:the )?(?:(?:road|final|water|load|brake|hill|sea|running) )?(?:test|trial|run|drive|outing|try|rest)s? (?:is |are |still |yet )*to (?:follow|come)\b`,
];
