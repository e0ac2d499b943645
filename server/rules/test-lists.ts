// Ways in which a test is said to have gone badly: `test-words.ts` goes by them. They are words of the bench, and common practice; what is newer stands in `fault-lists.ts`.
const { raw } = String;

/** The plainest, of whatever they are said. */
export const wentBadly: readonly string[] = [
  raw`\b(crept|creeps)\b(?! (up|along|in|out|over|round|past|through|forward at)\b)`,
  raw`(?<!\b(let go|slipped|cast off|dropped|loosed) (the |our |her |all |both |its )?(warps?|lines?|ropes?|moorings?|painters?)( and|,)? (\w+ )?)\b(sank|sinks|sagged|drifted|drifts)\b(?!(?<=\bpedal \w+) (an?|half an|one) (finger|inch|little|touch|bit)\b.* and (stayed|stays|stopped|held|holds)\b)(?!.* to the (next|first) (tooth|notch|pin|hole) and (stood|stands|stayed|held|holds|stopped)\b)(?! (evenly|smoothly|gently|to (her|its|their|the) (marks?|stops?|seat|floor))\b)`,
  raw`(?<!\b(noise|knock|whine|smell|smoke|rattle|squeal|sound|light)s? )\b(faded|fades)\b`,
  raw`(?<!\b(the|any|for|all|of|its|small|oil|air|fuel|water|steam|gas|and|or) )\bleaks\b`,
  raw`\b(leaked|weeps|wept|oozes|oozed|seeps|seeped)\b(?! nowhere\b)`,
  raw`\bpulled (hard |badly |a little |slightly )?((to )?the (left|right)|to (left|right|one side))\b(?! (up|away|through|hand|bank)\b| (and|then|or) (to )?(the )?(left|right)\b| of the drum\b)`,
  raw`\b(knocks(?! (off|out|over|in)\b)|judders|shimmies|wobbles|wanders|weaves(?! (through|between|round|past)))\b`,
  raw`\bshakes its head\b`,
  raw`\bstill ((a (bit|little)|slightly|rather|very|quite) )?(notchy|slack|loose|rough|lumpy|spongy|uneven|sticky|crooked|lop-?sided)\b`,
  raw`\bjump(s|ed) out of\b`,
  raw`\b(ropes?|chains?|welds?|hoses?|seals?|threads?|glands?|joints?|cogs?|teeth|tooth|keys?|cotters?|wedges?|clips?|clamps?|grips?|studs?|bolts?|nuts?|springs?|linings?|rivets?|belts?|gaskets?|packing|cables?|straps?|wires?|tyres?|(?<!and )it) (let|lets) go\b(?! and (returned|came back|shut|closed|held|bit|bitten|gripped|took (hold|up)|caught|engaged)\b)`,
  raw`\bhooks? (let|lets) go\b(?! (afloat|together|cleanly|freely|easily|(each|every) time|(when|once|as soon as) (it was |they were )?(pulled|tripped|opened|told|asked)|(on|to|at|by) (the|a|each|every) (lever|lanyard|pull|tug|trip|knob|handle))\b)`,
  raw`^let go$`,
  raw`\blet go (under|after|(at )?(half|full)|at \d+ ?(kg|t|cwt|tons?|lb|psi|bar)\b)`,
  raw`\bpull(s|ed) (left|right) (under|on|when|with) (the )?brak\w*`,
  raw`\bgave way\b`,
  raw`\bcame (adrift|undone|loose)\b`,
  raw`\b(overheated(?! on the old)|boiled over|ran away|burst(?! (test|valve|disc|pressure|a tyre)))\b`,
  raw`\b(failed|fails)\b(?! (to (find|fault|make|show|detect|see|hear|feel|provoke|leak|slip|fade|bind|break|knock)|safe)\b|.* as (it|they) should)`,
  raw`\b(did not|didn't|does not|doesn't) pass\b`,
  raw`\bpulls (hard |badly |a little |slightly )?(to )?(the )?(left|right|one side)\b(?! (up|away|through|hand|bank)\b| and (to )?(the )?(left|right) alike\b| of the drum\b)`,
  raw`\bstill (an?|some|the|one|its) (\w+ )?(knock|clonk|click|clunk|leak|drip|weep|rattle|rumble|judder|wobble|squeal|shake|shimmy|wander|pull)\b`,
  raw`\bstill (knocks|growls|rumbles|ticks(?! over)|pulls(?! (up|straight|well|away))|leaks|drips|slips|binds|rubs|wanders|shakes|rattles|grinds|sticks(?! out)|clonks(?! in)|clicks(?! (in|into|home|over|past|as it|at (each|every) tooth)\b)|clunks|shimmies|judders|wobbles|creeps|jumps out|hisses|squeals|squeaks|rumbles|growls|howls|whines|vibrates|grabs|snatches|drags|grates|crunches|weaves|sways)\b`,
  raw`\b(ran|runs|got|gets) (too |very )?hot\b(?! (water|oil|evenly|alike|enough)\b)`,
  raw`\bseized\b(?! with\b| \w+ (story|ended|is|now|freed))`,
  raw`\bbrakes? fades?\b`,
];

/** Each with the part of the machine that it is said of, where the word alone may say that all is well. */
export const alsoBadly: readonly string[] = [
  raw`\b(goes|veers?|veered|dives?|dived|slews?|slewed) (hard |sharp )?(off )?(to the )?(left|right) (into|at|on|under|when) (the|a|its|each|brak)\w*(?! (lock|stops?|church|corner|junction|lane|gate)\b)|\bwent (left|right) (into|in) the (verge|ditch|hedge|kerb|gutter)\b`,
  raw`\b(holds?|held)\b[^;]* with (an?|the|two) (brick|stone|chock|block|scotch|wedge|boot|log)\b`,
  raw`\b(knock|rattle|clonk|judder|shake|wobble|leak|drip|rumble|shimmy) (is |was )?(now |much |a (bit|little|lot) |rather )*(quieter|less|better|fainter|softer|slower|smaller)\b`,
  raw`\ba mind of (its|his|her) own\b|\b(wants|takes|needs) two hands\b`,
  raw`\b(well|good|free|loose|tight|straight|easily) enough if\b|\bif (you|one) (gives?|helps?|nudges?|pushe?s?|shoves?|coax|taps?) (it|her|him|them)\b`,
  raw`\b(bites?|stops?|holds?|grips?) (only )?(with|when) the (pedal|lever) (is )?(about |nearly |almost |right )?(on|at|to|against) the (floor|boards?|footrest|bar|grip)\b`,
  // Not each time.
  raw`\b(stopped|held|bit|gripped|locked|latched|tripped|caught|engaged|worked|let go|started) (only )?(once|twice) (in|out of|of) (two|three|four|five|six|ten|\d+)\b(?! (years?|months?|weeks?|days?|hours?|minutes?|seconds?|miles|yards|rounds|turns))`,
  // It did not stop where it was to.
  raw`\b(ran|runs|run|rolled|slid|went) past the (mark|line|peg|chalk|stop|stopping place|buffers?)\b`,
  // It was not done.
  raw`\b(stops?|test|trial|run|braking|hill|load(ed)?( \w+)?|grade|slope)\b.*\b(left|put off|kept|saved|to wait|waits) (for|till|until|to) (the |his |her |our )?(first|next|another|a|running|summer|spring|opening|new|dry|weather|monday|tuesday|wednesday|thursday|friday|saturday|sunday)\b`,
  raw`\bran on (past|through|over|into) (the|its|his|her|our|a|an) (?!winter|summer|night|autumn|spring|year|hour|evening|afternoon)`,
  // It let the load go, by a little or all of it.
  raw`\blets? (it|her|him|them|the (load|weight|hook|rope|chain|drum)) (slip|drop|fall|run (back|away))\b(?!.*\b(caught|stopped)\b)`,
  raw`\bclutch (slips|slipped) (in|on|under|at) (top|first|second|third|fourth|full|load|the (hill|bank|slope|start))\b|\b(brakes?|bands?|belts?|ropes?|pawls?|ratchets?|grips?|cones?|dogs?|it|held|then|and) slip(s|ped)\b(?! (in|out|at (its|the) (set|rated)|into|on (by|with|over|to|without|easily)|over|home|there|easily|freely|sweetly|clear|each|every|through|past|its|the|up|off)\b)(?!.*\band (held|gripped|took up)\b)`,
  raw`\b(load|weight|hook|jib|boom|ram|platform|cage|bucket) (dropped|fell|slipped|came down) (back\b|(an?|half an|one|two|three|a few|\d+(\.\d+)?) ?(inch(es)?|in|mm|cm|turns?|tooth|teeth|notch(es)?)\b)(?!.*\b(caught|held|stopped)\b)`,
  raw`\bcame down by (itself|themselves)\b|\b(it|she|hook|drum|load|winch|van|lorry|car|trailer|tractor|wagon|cart|truck|engine|machine) (ran|rolled) back (on|under|at|from|down|a|an|half|one|two|\d+)\b`,
  raw`\b(jumped|missed|skipped|jumps|misses|skips) (a|an|one|two|three|some|several|every|\d+) ?(\w+ )?(tooth|teeth|cogs?|notch(es)?)\b|\bjump(ed|s) (off\b|the (sheave|groove|rail|track|pulley|guide)\b)`,
  raw`^(ran|rolled) (back|away) (on|down|at|from) (the|a|its) (\w+ )?(hill|ramp|slope|bank|incline|grade|stop)\b(?!.*\b(held|stopped|caught|on purpose)\b)`,
  // Brakes and steering.
  raw`\b(wandered|weaved|wobbled|shimmied|juddered|swayed)\b(?! (round|through|home|along|about|into|off|out|over to|past|between)\b)`,
  raw`\b(slack|loose|leaking|knocking|noisy|spongy|rattling|rubbing|binding|dragging|slipping|weeping|dripping) again\b(?! (taken|removed|cured))`,
  raw`\bbrakes? (grab(s|bed)?(?! the)|snatch(es|ed)?(?! on)|drag(s|ged)|binds?|stuck|sticks?|(locks?|locked|jammed) on$)(?![a-z])`,
  raw`\bpedal (slowly )?(went|goes|sank|sinks|fell|falls) (slowly )?(to the (floor|boards?)|soft|spongy)\b|\b(spongy|soft) pedal\b|\bpedal (is |was |still |feels )?(spongy|soft)\b|\bpedal (is |was )?(still |too |very |rather |a (bit|little) )?(long|low)$|\b(had|have|has) to pump (it|them|the (brakes?|pedal))\b|\b(pedal|brakes?) (\w+ )*(needs?|needed|wants?|wanted|takes|took) (pumping|(two|three|four|several|a few|\d+) (pumps|pushes|strokes))\b`,
  // What goes on or out of gear and was not asked to.
  raw`\bbrakes? (came|come|comes|went|go|goes|stayed|stay|stays) on (by|of) (itself|themselves|its own|their own)\b(?! (when|as|if|once|on the) )|(?<!slip )\bclutch (drags|dragged|judders|juddered|grabs|grabbed|snatches|snatched|chatters|chattered)\b|\b(gears?|reverse|bottom|first|second|third|fourth|top|high|low) (grates?|grated|crunch(es|ed)?)\b`,
  raw`(?<!\b(he|she|i|we|lad|boy|driver|passenger|dog) )\bjump(ed|s) out (on|under|with) (the )?(over-?run|load|drive|throttle|hills?|trailing|pull)\b|\b(slip(s|ped)|pop(s|ped)|drop(s|ped)|falls|fell|jump(s|ed)|kick(s|ed)|came) out of (gear|mesh|drive|reverse|bottom|low|high|first|second|third|fourth|top|four-?wheel drive)\b(?! (easily|freely|sweetly|cleanly|silently|without|as|when (asked|told|wanted)))`,
  raw`\b(steering|wheels?|hubs?|shaft|lever|handle|it) (binds?|sticks|stuck|jams|jammed)\b(?! (fast )?(at|on|against) (its|the|each|either) stops?)`,
  raw`\bonly (one|two|three|the (left|right|front|rear)) (\w+ )?(works?|worked|brakes|bites?|grips?)\b`,
  raw`\b(grips|holds|bites|brakes|catches|locks) (on |at )?(only )?(the )?one (side|end|wheel|corner)( only)?\b(?! (and|then|at a time|each|after|by|alone as)\b)`,
  // What is heard, felt and seen.
  raw`(?<!as )\bbadly\b|\btoo (hot|stiff|tight|loose|slack|weak|noisy)\b`,
  raw`^(?!knocked in the )(dragging|binding|rubbing|leaking|knock(ed|ing)|slipping|grinding|rumbl(es|ed|ing)|juddering|wobbling|rubs)\b( noise)?( (on|at|from|in|under|to|against|when)\b.*)?$`,
  raw`^(a |an |some |slight |bad |loud |heavy )*(knock|rumble|rattle|grinding|judder|vibration|wobble|shake|smoke)( noise)? (from|at|in|on|under) (the|its|one|both|full|half|left|right|load|speed|idle|\d)`,
  raw`(?<!\b(for|any|of|no|each|every) (\w+ )?)\bleak (at|from|in|on) (the|its|one|both|left|right)\b(?!.*\b(nipped|stopped|cured|fixed|tightened|dry|mended)\b)`,
  raw`\b(play|knock|noise|leak|wobble|vibration|shake|rattle|rumble|judder|pull) (is |was )?still (there|present|the same)\b`,
  raw`\b(tyres?|wheels?|it|chain|cable|hose|pipe|shoes?|guard|drum) rubs\b(?! (out|off)\b)`,
  raw`\b(bearings?|brass(es)?|brakes?|bands?|drums?|linings?|blocks?|clutch|belts?|tail|nose|hubs?|shoes?) (smoked|smokes|was smoking)\b`,
  raw`\b(started|restarted|moved|crept|ran (on|off|away)) (again )?by (itself|themselves)\b|\b(rope|belt|chain) (still )?climbs\b(?! (up|the (hill|bank|slope))\b)|\b(screams|squeals|growls|howls|shrieks) (again|still|when|under|at)\b`,
  // What came away or broke.
  raw`\blost (an?|one|two|its|the) (\w+ )?(bolt|nut|pin|wheel|screw|stud|key|cotter|clip|washer|load)s?\b|\blost (all )?(pressure|drive|grip)\b`,
  raw`\b(nuts?|bolts?|pins?|wheels?|keys?|chains?|belts?|screws?|studs?|clips?|springs?|rope|caps?) (had |has )?(work(ed|s)|came|fell|flew|shook|backed) (itself )?(loose|off|out)\b(?! (one|a|half|two) (flat|slot|notch|turn)| (with|by|for|when|and back|easily|clean(ly)?|of|again)\b)`,
  raw`\b(?<!shear )(?<!weak )(shaft|eye|hook|pin|bolt|stud|link|chain|rope|weld|casting|arm|lever|axle|spoke|spring|bracket|hub|wheel|frame|drum|tooth|teeth)s? (has |have |had )?(snapped|broke|cracked|sheared|parted|bent|twisted|buckled|collapsed)\b(?! (in|over|up the|down the|on purpose|as|to)\b)`,
  raw`\b(unwound|undid|unscrewed|unhooked|slackened|loosened|shook|shaken|worked) itself\b(?! (in|free of|clean|clear)\b)`,
  raw`^(it |all of it )?(snapped|broke|sheared|parted|collapsed|buckled)$`,
  raw`^nearly (went|hit|lost|ran|fell|came off|over)\b`,
];
