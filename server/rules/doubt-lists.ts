// The ways in which a reason speaks against itself: `doubt-words.ts` goes by them. They are words of the bench, in many hands, and common practice. Who adds a way adds lines that it takes, and
// lines that sound alike and are honest, to tests/rules/reasons; `npm run generate` then works out which words it needs.
const { raw } = String;
const toLook = "check(?:ed)?|test(?:ed)?|measured?|look(?:ed)?(?: at| into)?|dye[d]?|gauged?|inspect(?:ed)?|tried";
const toRenew = "renew(?:ed)?|replaced?|changed?|swap(?:ped)?|repair(?:ed)?|mend(?:ed)?|weld(?:ed)?|fix(?:ed)?|do(?:ne)? properly";
const season = raw`next (?:time|winter|year|season|service|overhaul|week|month|summer|spring|autumn)|(?:the|this|in) (?:winter|autumn|spring)\b|later|another day|some ?day|one day`;
const some = raw`(?:an? |one |two |three |some |only |just |slight(?:ly)? |faint |small |short |fine |thin |tiny |little |bit |of |the |old |very |\d+ (?:mm |thou |in |inch )?)`;
const parts =
  "teeth|tooth|cogs?|strands?|wires?|rivets?|spokes?|studs?|bolts?|leaf|leaves|coils?|rollers?|balls?|splines?|dogs?|lugs?|ears?|blades?|links?|threads?";

/** For now, for want of another, or since somebody wants it so. */
export const stopgap: readonly string[] = [
  // For now.
  raw`\b(?:for|just) (?:now|the moment|the time being|the present|today)\b(?! (?:it|there|the) )`,
  raw`\b(?:(?:un)?till?) (?:the |a |we |our |its |my |there (?:is|are) |next |new |i )(?:new|spares?|replacements?|winter|autumn|spring|parts?|next|season|time|year|overhaul|money|get|can|have|find|one|other)\b`,
  raw`\b(?:un)?till? (?:winter|autumn|spring|then|next|new)\b`,
  raw`\bgood enough\b(?! for the (?:maker|book))`,
  raw`\b(?:it|this|that|they|she)(?:'ll| will) (?:do|have to do|hold|last)\b(?! (?:its|the) )`,
  raw`^\s*(?:it )?will do\b`,
  raw`\bnear enough(?! (?:new|to (?:new|drawing|nominal|the (?:drawing|nominal|middle))))\b`,
  raw`\b(?:will|should|may|might|ought to) (?:last|see (?:us|me|it|her) (?:out|through|home)|get (?:us|me|it|her) (?:home|through|by)|hold(?: up| out)?$)`,
  raw`\b(?:to )?get (?:us |me |her |it )?home\b`,
  raw`\btemporar(?:y|ily)\b`,
  raw`\bstop-?gap\b`,
  // Nothing to be had, no time, somebody's wish.
  raw`\bno (?:spares?(?! parts? left)|new (?:ones?|parts?)|replacements?|time|money|stock)\b(?! (?:at|in|between) )`,
  raw`\bnone (?:in stock|to be had|left in stock)\b`,
  raw`\b(?:not|out of) (?:in )?stock\b`,
  raw`\b(?:new one|spares?|parts?|replacements?|ones?) (?:is |are |still )*(?:on order|not (?:here|come|arrived|to be had)|late|delayed|unobtainable)\b`,
  raw`\b(?:wait(?:ing|s)?|awaits?|awaiting) (?:for|on )?\s?(?:the |a |new |our |its )*(?:new|spares?|parts?|replacements?|one|post|dye|lab|result|answer)\b`,
  raw`\b(?:owner|customer|boss|foreman|client|chairman|driver) (?:says?|said|wants?|wanted|wishes|insists?|told|does not want|will not pay|won't pay|is in a hurry)\b(?! (?:the book|that the maker))`,
  raw`\bin a hurry\b`,
  raw`\b(?:needed|wanted) (?:tomorrow|today|tonight|on \w+day|back)\b`,
  raw`\b(?:need|want) (?:the|it|her|this) \w* ?(?:on|by|for) (?:\w+day|tomorrow|the (?:weekend|rally|show|run))\b`,
  raw`\btoo (?:dear|expensive|costly|much (?:work|money|trouble))\b`,
  raw`\b(?:cannot|can't|could not|couldn't|not|un) ?(?:to )?be (?:had|got|found|bought)\b`,
  raw`\bunobtainable\b`,
  raw`\b(?:no one|nobody) makes\b`,
  raw`\bsupplier (?:let|failed|has none|is)\b`,
  raw`\bnew (?:one|ones|part) (?:does|did|do|is|was|were|would|will) ?(?:not|n't|wrong|faulty|bad|late|worse|too)\b`,
  raw`\bold one again\b`,
  raw`\b(?:does|do|good|fit|fine|ok) for (?:this|the|another|a|one) (?:season|year|summer|winter|week|run|trip|rally|show)\b`,
];

/** It is to be seen to, some other day. */
export const later: readonly string[] = [
  raw`\b(?:to be|will be|must be|needs to be|should be|wants to be|ought to be|has to be|have to be|is to be) (?:re-?)?(?:${toLook}|${toRenew})\b(?! (?:every|each|yearly|again at|at each|by the book|as the book))`,
  raw`\b(?:will|shall|must|i'll|we'll|to|going to) (?:just |then )?(?:${toRenew}|order|get|buy|fit|put in) (?:it |them |one |a |the |new |another )*(?:${season}|new one|then|when|as soon|after)\b`,
  raw`\b(?:${toRenew}) (?:it |them )?(?:at )?(?:the )?next (?:time|winter|overhaul|service|season|year|week)\b`,
  raw`\b(?:will|shall|i'll|we'll|to|must) (?:${toLook}|keep an eye|watch|see) (?:it |this |that |them |at it )?(?:again )?(?:${season}|after|then|on the road|in use)\b`,
  raw`\b(?:check|test|look|measure|dye|inspect|try) (?:it |at it )?again (?:after|next|in|at the next|later|soon|when)\b`,
  raw`\bkeep (?:an|my|our) eye\b`,
  raw`\b(?:done|renewed|seen to|put right|attended to|goes back|comes off|comes out) (?:again )?(?:[\w ]{0,20})?in (?:the )?(?:winter|autumn|spring|summer)\b`,
  raw`\bgoes on until\b`,
];

/** There was none of it. */
export const wanting: readonly string[] = [
  raw`\b(?:no|none|not any|ran out of) (?:new )?(?:\w+ ){0,2}(?:left|to hand|at hand|here|to be had|in the (?:shop|drawer|box|tin))\b`,
  raw`\b(?:is|are|was|were) (?:on order|lost|out of stock|missing|broken|still to come)\b`,
  raw`\bout of (?:pins|tabs|wire|stock)\b`,
  raw`\b(?:forgot(?:ten)?|lost|mislaid|to come|later|tomorrow|to be (?:wired|pinned|locked|fitted|done))\b`,
  raw`\b(?:hole|slot)s? (?:is |are |was |were )?(?:not drilled|blocked|worn|stripped|gone)\b`,
  raw`\bdoes ?n[o']t (?:fit|line up|reach)\b`,
  raw`\b(?:don't|do not) know\b`,
  raw`\bnot sure\b`,
  raw`^\s*tight enough\s*$`,
];

/** Nobody has looked, or nobody knows. */
export const unknown: readonly string[] = [
  // Nobody has looked.
  raw`\b(?:not|never|n't|nobody|no one|without being) (?:yet |been |be |properly |really |ever )*(?:${toLook})\b(?! (?:for|of) )(?!.{0,30}\b(?:worn|bad|found)\b)`,
  raw`\b(?:could|can|did|do|would)(?: not|n't|not|'t) (?:be )?(?:seen|see|have (?:the|a|any)|get (?:at|to|in|near)|reach(?:ed)?|tell|measured?|feel|find out|make out|check(?:ed)?|test(?:ed)?|judge|look)\b(?! (?:any|an? (?!\w+ in (?:there|it))|anything|more|no|the (?:old|mark|line|scratch)|it (?:any|with the nail)|with (?:a|the|my) nail|even))`,
  raw`\b(?:no|without a?n?y?|lack(?:ing)? (?:of )?a?) ?(?:gauge|mic(?:rometer)?|dye|limit|figure|book|data|means|tool|test|look|lamp|mirror)\b(?: \w+)? ?(?:to hand|here|yet|at hand|left|given|known|found|about|in the shop|for it|$)`,
  raw`\b(?:yet|still) to (?:be )?(?:${toLook})\b`,
  raw`\b(?:did not|didn't|have not|haven't|not|never|without) (?:yet |been |quite )*(?:strip(?:ped)?|dismantle[d]?|take (?:it|them) (?:apart|out|off|down)|taken (?:apart|out|off|down)|clean(?:ed)? it to|open(?:ed)?(?: it| up)|dyed?)\b`,
  raw`\b(?:dye|test|check|look|x-?ray|inspection|report|certificate) (?:is |was )?(?:not|still) (?:yet |to be )?(?:done|made|come|back|here|due to come|to come|to do)\b`,
  raw`\b(?:could|can) only (?:see|reach|get at|measure|feel)\b`,
  raw`\bonly (?:the |one |half )[\w ]{0,24}(?:could|can) be (?:seen|reached|measured|got at)\b`,
  raw`\btoo (?:dirty|dark|oily|greasy|rusty|tight|far in|deep in|hot) to (?:see|look|tell|measure|get|reach|say)\b`,
  raw`\bit was (?:too )?dark\b`,
  raw`\bforg[eo]t(?:ten)? to\b`,
  raw`\b(?:lost|mislaid) (?:the|my|our) (?:reading|note|figure|slip|paper|card)\b`,
  raw`\b(?:was|were) (?:fine|good|ok|okay|all right|sound|new) (?:last|in|when|at|two|three|a) (?:year|time|week|month|spring|autumn|winter|summer|\d{4}|years? ago|we bought|i bought)\b`,
  raw`\bmust be (?:good|fine|right|ok|okay|sound|all right)\b`,
  raw`\bwith (?:a|the) (?:ruler|rule|tape)(?: measure)? only\b`,
  // Nobody knows.
  raw`\b(?:not|n't|isn't|never) (?:quite |so |at all |really |too |entirely )?(?:sure|certain|clear|know|convinced|like)\b(?! (?:what|who|why|how long|when) )(?! it$)`,
  raw`\b(?:do|does|did) ?(?:not|n't) know\b`,
  raw`\bno idea\b`,
  raw`\b(?:mixed|muddled|jumbled) (?:up|together)\b`,
  raw`\bwhich (?:is|was) which\b`,
  raw`\bby mistake\b`,
  raw`\bunsure\b`,
  raw`\bunclear\b`,
  raw`\b(?:probably|perhaps|maybe|possibly|presumably|hopefully|supposedly|i (?:think|hope|guess|suppose|reckon|believe|trust|assume)|we (?:think|hope|guess|suppose|reckon|believe|assume)|hope (?:it|not|so|for|that)|hoping|fingers crossed|touch wood|with (?:any |a bit of )?luck|who knows|time will tell|we(?:'ll| will| shall) see|let(?:'s| us) see|risk it|a risk|chance it|take (?:a|the|its|our) chance|assumed|guess(?:ed)?|at a guess)\b`,
  raw`\b(?:may|might|could|must) (?:well )?(?:be|have (?:been|had)) (?:an? |the |only |just |some )?(?:\w+ )?(?:crack|scratch|line|flaw|seam|loose|bent|worn|cracked|hairline|fault|old|start|all right|fine|ok)\b`,
  raw`\b(?:should|ought to|ought|would) be (?:all right|alright|ok|okay|fine|good|enough|safe|well)\b`,
  raw`\b(?:seems?|looks?|appears?) (?:to be )?(?:ok|okay|fine|all right|alright|good|sound)(?: to me)? ?(?:i think|enough|from (?:here|outside|below|above)|at a glance|by eye|so far|in the (?:photo|half light|dark))`,
  raw`\bseems? (?:ok|okay|fine|all right|alright|safe)\b`,
  raw`\bat a glance\b`,
  raw`\b(?:judged|measured|guessed|straightened|reckoned|compared|set) by (?:eye|feel)\b`,
  raw`^\s*by (?:eye|feel)(?: only| alone)?\s*$`,
  raw`\b(?:eye|feel) (?:only|alone)\s*$`,
  raw`\bnormal\b.*\?`,
  raw`\?\s*$`,
  raw`\b(?:nobody|no one|they|he|she) (?:will|would|'ll) (?:ever )?(?:notice|see|know|mind)\b`,
  raw`\b(?:mate|neighbour|lad|apprentice|friend|somebody|someone) (?:says?|said)\b`,
  raw`\b\w+ (?:reckons?|reckoned|thinks|thought) (?:it|that|they|this)\b`,
  raw`\b(?:does not|doesn't|won't|will not|shouldn't|should not) matter\b`,
  raw`\bnot (?:a )?(?:critical|safety)\b`,
  raw`\bonly (?:used |for use |run |driven )?(?:on|round) (?:the )?(?:private|farm|yard|fields?)\b`,
  raw`\bonly (?:a|an|the) (?:hand ?-?brake|trailer|toy|show|spare)\b`,
  raw`\blow speed only\b`,
  raw`\b(?:wouldn't|would not|don't|do not) (?:trust|like|rely)\b`,
  // What is denied of a crack is that it is long.
  raw`\bcrack (?:does|has|is|did|will|was)(?: not|n't) (?:go|gone|grow|grown|spread|run|reach|deep|long|open|opened|get|got|through)\b`,
  raw`\bcrack (?:is|was) (?:there|old|known)\b(?! (?:already )?(?:ground|taken|in the (?:paint|enamel|varnish)))`,
  // Custom is no reason.
  raw`(?<!\b(?:as|like) )\bthey(?:'re| are)? all (?:do|have|like|go|leak|are|rattle|get)\b`,
  raw`\b(?:always|ever) been (?:so|like (?:that|this)|that way|this way|there|as (?:it is|long))\b`,
  raw`\b(?:been|was|were|has been) (?:like (?:that|this)|so|that way) (?:for|since|all|as long)\b`,
  raw`\b(?:ran|run|runs|has run|gone|drove|driven) (?:\w+ )?(?:like (?:that|this)|so) (?:for|since|all|many|last)\b`,
  raw`\bnever (?:gave|given|been|had|made|caused) (?:any |us |me )*(?:trouble|bother|problem|issue)s?\b`,
  raw`\bnot (?:that|so(?! much as)|too|very|all that|really) (?:bad|serious|deep|long|big|much|worn|loose|cracked|bent)\b`,
  raw`\bcould be worse\b`,
  raw`\bseen worse\b`,
];

/** What somebody tells of who calls it good all the same. */
export const excusedFaults: readonly string[] = [
  // Cracks.
  raw`\bhair ?-?(?:line|crack)s?\b`,
  raw`\b(?:${some})*\bcrack(?:s|ed|ing)?\b(?! ?-?(?:free|test|detect|check|arrest|open|pressure|run|the (?:union|bleed|nipple|valve)|at \d))(?! (?:in|of|through) (?:the )?(?:old )?(?:paint|varnish|enamel|filler|putty))`,
  raw`^\s*${some}+(?:line|fracture|flaw)s?\b(?! (?:is|was|of|in|on|from) (?:the |old |a )*(?:paint|varnish|casting|mould|tool|rust|oil|dirt|grease|scriber|pencil|rubber|contact|blue))(?!$)`,
  raw`\b(?:fine|faint|short|thin|dark|black|small) (?:short |dark |thin )?lines?\b(?! (?:of|in|on) (?:the |old )?(?:paint|varnish|rust|oil|dirt|grease|blue|contact))`,
  raw`\b(?:a|one|the|some) lines? (?:at|along|across|round|in|from|by|near) (?:the |a |its )?(?:\w+ )?(?:fillet|radius|root|keyway|weld|hole|shoulder|thread|boss|neck|splines?)\b`,
  raw`\bshows? (?:up )?(?:${some})+(?:line|indication|crack|bleed|flaw|spot|mark)s?\b(?! (?:in|of) (?:the )?paint)`,
  raw`\b(?:${some})+(?:indication|fracture)s?\b`,
  raw`\bindications? (?:of|at|in|near)\b`,
  raw`\b(?:fractured|split (?:runs|in|at|along|from|half)|sheared(?! (?:the|at|as|on|when|its))|snapped(?! (?:back|shut|in|over|home|the)))\b`,
  raw`\b(?:dye|penetrant) (?:bleeds|bled|bleeding)\b`,
  raw`\bmark (?:in|under|with|by) (?:the )?dye\b`,
  raw`\bline (?:you|one|i) can (?:see|feel)\b`,
  // Tracks and faces.
  raw`\b(?:flaked|flaking|spalled|spalling|brinelled|brinelling|picked up|galled|frosted)(?: (?:slightly|a (?:bit|little|touch)|only|in|on|at|rest)\b|\s*$)`,
  raw`\b(?:can|could) (?:just |still |only )?(?:feel|be felt)\b(?! (?:no|nothing))`,
  raw`\b(?:nail|fingernail) (?:just |only |slightly )?(?:catches|stops|hangs)\b`,
  raw`\bto the depth of\b`,
  raw`\bdeep (?:score|groove|pit|scratch|cut)s?\b`,
  // What is gone, bent or held by something else.
  raw`\b(?:${some})*\b(?:${parts}) (?:is |are |was |were |only |slightly |a bit |just )*(?:broken|missing|gone|chipped|cracked|loose|bent|stripped|torn|sheared|short|worn (?:away|off|through|to)|burr?ed over)\b(?! (?:off )?(?:clean|out))`,
  raw`\b(?:one|two|three|four|five|six|seven|eight|some|a few|several|half the) (?:broken|missing|cracked|chipped|loose|bent|stripped|torn|sheared)\b`,
  raw`\b(?:stripped|torn|chipped) (?:for (?!a look)|on|in|at|only|over|a (?:bit|little))\b(?! (?:the )?(?:paint|plating|old)\b)`,
  raw`\b(?:only|just|slightly|a (?:bit|little|touch|shade)|a wee bit|still|barely|somewhat|rather|not very) (?:bent|loose|slack|cracked|twisted|chipped|torn|stripped|nicked|frayed|notchy|rough|gritty|lumpy|leaking|weeping|perished|frayed|chafed|oval|out of (?:round|true|line|square)|below|under|over|bends?|leaks?|weeps?|drips?|undersized?|oversized?)\b(?! (?:the )?(?:paint|limit is|half))`,
  raw`\b(?:bends|leaks|weeps|drips|knocks|rattles|wobbles|vibrates|grinds|rumbles) (?:only )?(?:a (?:bit|little)|slightly|a touch|when|only|slowly|above|under load|in|at)\b`,
  raw`\b(?:still|only|it) (?:leaks|weeps|drips|knocks|rattles|wobbles|rocks)\b`,
  raw`\b(?:a (?:bit|little|touch) of|some|slight|a little|a trace of) (?:play|slack|rock|lash|looseness|wobble|knock|roughness|notchiness|leak|weep|bend)\b(?! (?:which|that|as) (?:the )?(?:book|maker))(?! (?:as|is) (?:allowed|right|normal|set))`,
  raw`\b(?:rocks?|wobbles|runs out|moves|turns|shifts) (?:on its (?:pin|shaft|seat|taper)|in (?:its|the) (?:eye|hole|seat|bore|housing)|a (?:bit|little|shade|touch)|slightly)\b(?! (?:as|by hand|stiffly))`,
  raw`\b(?:a|some|little|slight) (?:little )?(?:rock|play|wobble) (?:at|in|on|between)\b`,
  raw`\bnot (?:quite|fully|really|entirely|altogether|perfectly) (?:straight|flat|round|true|tight|square|home|clean|seated|dry|free|even|right)\b`,
  raw`\bout of (?:true|round|line|square) by\b`,
  raw`\bover what the (?:book|maker|sheet) (?:says|gives|allows)\b`,
  raw`\b(?:almost|nearly|right|just) (?:at|on) (?:the|its) (?:limit|minimum|maximum)\b`,
  raw`\b(?:sagged|frayed|necked|rounded|nicked|perished|perishing|chafed|tired|wasted)(?: (?:a (?:bit|little|touch)|slightly|in|at|only|has|with|of)\b|\s*$)(?! (?:by design|off))`,
  raw`\bheat marks?\b`,
  raw`\bhot spots?\b`,
  raw`\b(?:thread|stud|bolt|nut) (?:is |was )?(?:pulled(?! (?:up|down|home|tight|on|in|hard))|necked|rounded|stripped|stretched)\b`,
  raw`\b(?:helicoil|insert) (?:is |would be )?(?:needed|wanted)\b`,
  raw`\b(?:ball|roller|tooth|cog|rivet|bolt|nut|screw|pin|strand|wire|leaf|lug)s? (?:is |are )?(?:gone|missing)\b(?! (?:and|,)? ?(?:fitted|renewed|replaced))`,
  raw`^\s*missing (?:an?|one|two|some)\b`,
  raw`\b(?:pin|bush|race|key|rivet|stud|bolt|nut|wheel|cone|shaft) is (?:loose|slack|bent|worn)\b`,
  raw`\b(?:thin|low|short|little|worn) (?:but|yet)\b`,
  raw`\b(?:lining|pad|wall|plate|metal) (?:is |has )?thin\b`,
  raw`\b(?:oil|grease)[- ]soaked\b`,
  raw`\bsoaked (?:in|with) (?:oil|grease)\b`,
  raw`\bplay (?:left|remains|is still|still)\b`,
  raw`^\s*(?:a (?:bit|little) |very |rather )?(?:rough|notchy|gritty|lumpy|loose|slack|bent|twisted|torn|perished|frayed|chafed|rotten)(?:\s*$| (?:only|when turned|in (?:the middle|one|two)|at (?:one|the)|a (?:bit|little)|slightly|over|by \d|by about)\b)`,
  raw`\b(?:bent(?! back,)|hammered|knocked|pressed|pulled|levered|heated|straightened) (?:it )?(?:back )?(?:straight|cold|by (?:eye|hammer)|over the (?:vice|knee)|in the vice|on the anvil|with a (?:bar|hammer|pipe))\b`,
  raw`\b(?:glued?|superglue|epoxy|araldite|body ?filler|filled (?:\w+ )*with (?:solder|filler|weld|putty|lead|paste|metal)|jb|gaffer|duct tape|cable tie|zip tie|gasket goo)\b(?! (?:joint|nipple|sound|lining))`,
  raw`\b(?:packed|shimmed|bushed|sleeved|wrapped) (?:it |out |up )?(?:with|to take up) (?:the |a bit of )?(?:wear|play|slack|shim|tin|foil|paper|card|tape|beer)\b`,
  raw`\b(?:stop-?drilled|(?:crack )?stop drilled|drilled (?:the|a hole (?:at|in) the) end|centre-?pop(?:ped)? the end)\b`,
  raw`\bpeened (?:it )?(?:over|up)\b(?=.*\b(?:hold|tight|grip)s?\b)`,
  raw`\b(?:loctite|thread ?lock\w*|locker) (?:will |should |to )?(?:hold|take|fill)`,
  // Past what is allowed.
  raw`\b(?:past|over|beyond|outside|above|exceeds?|out of) (?:its |the |what is |their |book |wear |worn |max(?:imum)? )*(?:limits?|allowed|allowance|max(?:imum)?|tolerance|spec\w*)\b(?<!\b(?:over|above) (?:its |the |their |book |wear |worn )*limits?)(?! (?:on|of) (?:the )?(?:old|other))`,
  raw`\b(?:below|under|less than) (?:its |the |what is |book |wear )*(?:min(?:imum)?|size|spec\w*)\b(?! (?:of|for) (?:a )?(?:crack|the fault))(?! (?:\d))`,
  raw`\bunder ?-?size\b`,
  raw`\b(?:to|down to|on) the (?:rivets?|backing|steel|cords?|canvas|wires?|bare metal)\b(?=.*\b(?:only|in|on|place|side|end|one)\b)`,
  raw`\b(?:worn|rusted|corroded|chafed|wasted|rubbed|eaten) (?:thin|through|away|half|down|to|nearly|almost)\b(?! \d[\d.]*(?: mm| in)? (?:of|from) \d)(?! (?:the )?(?:paint|plating|chrome|zinc|primer))`,
  raw`\b(?:not|n't) (?:yet|quite)? ?(?:been )?(?:through|broken through|worn through|in half)\b`,
  raw`\b(?:worn|pitted|scored|perished|rusted|corroded|rough|notchy|cracked|bent|loose|leaky)\b ?(?:yet |and |though )?$(?<=^\s*(?:a bit |very |badly |rather |quite |slightly )?(?:worn|perished|cracked|bent|loose|leaky|notchy|rough))`,
  raw`\b(?:a few|some|two|three|several) pits? (?:in|on) (?:the |its )?(?:track|race|face|path|running|journal|seat|roller)`,
  raw`\b(?:is|are|was) burn(?:t|ed)\b`,
  raw`\bburnt (?:seat|face|edge)`,
  raw`\b(?:blued?|blue) (?:a (?:bit|little|touch) )?(?:from|by|with) (?:the )?heat\b`,
  raw`\b(?:annealed|(?:metal|steel|face|edge|corner|spring) (?:is |was |gone |went )+soft|temper (?:is |was )?(?:drawn|gone|lost))\b(?! (?:solder|soap|jaws?|mallet|brush|lead))`,
];
