// What words say of the metal of a piece: that it is hurt at all, and that it has failed.
// Invariant: what is denied is not said; what may be of the paint, of a pattern in blue or of a locking is not of the metal.

/** Cracked, bent, worn into, rotten: no taking off and putting back mends that. */
export function speaksOfMetal(text: string): boolean {
  return ofMetal.test(text.replace(denied, " ").replace(notMetal, " "));
}

/** It says in words what `is cracked`, `broken`, `bent`, `sheared` and `stripped` say in one, or that heat has drawn its temper: the words, a clause at a time. */
export function saysFailed(text: string): string | undefined {
  for (const clause of text.replace(answered, " ").split(/[.,;()–—]+|\b(?:but|and)\b/u)) {
    if (harmless.test(clause)) continue;
    const said = failedSo.exec(clause.replace(denied, " ").replace(notMetal, " "));
    // One word of a sentence may mean anything: the clause is quoted, where there is room for it.
    if (said !== null) return clause.trim().length <= 50 ? clause.trim() : said[0];
  }
  return undefined;
}

/** “Cracks: none”, “blue: even”. */
const answered = /\b\w+ ?: ?(none|nil|no|even|all round)\b/giu;
const failedSo =
  /\b(cracks?|cracked|fractured?|bent|twisted|broken|snapped|sheared|stripped)\b(?![- ](free|test\w*|detect\w*|check\w*|through the paint))|\b(blue|blued|overheated|temper (is |was )?(drawn|lost|gone)|metal (is |has )?(gone|worn|down) (to|through to) the (shell|back|steel))\b/iu;
/** Of what goes with it, of its make, of how it was looked at, or of what is past: “edges broken”, “looked for cracks”, “blue: even all round”, “crack ground out”. */
const harmless =
  /\b(paint|enamel|varnish|lacquer|putty|plating|pins?|tabs?|nails?|wires?|strands?|legs?|plates?|washers?|boxes|seal|edges?|corners?|glaze|in by|broken in|bent to|made|marking|marks?|contact|even|pattern|spots? of blue|engineer'?s?|tested|test|look(ed|s)?( over| at)?|search(ed)?|checked|would|if|before|ground out|stopped|filed|stoned|dressed|straight(ened)?|welded|repaired|mended|was put|all right|(free|signs?) (of|from)|without|neither|nor|thought|taken for|like|suspected|none|nothing|old one|then)\b|\bblue (all round|over)|%/iu;

const denied = /\b(no|not|without|never|nor|neither)\b( \w+){0,2}/giu;
/** Swarf, paint, a pattern in blue, lines that were scored to tell by, and a locking, which is never used again. */
const notMetal =
  /\bchips? of (swarf|paint|dirt|wood|rust|metal|grit)\b|\b(paint|enamel|varnish|blue|contact|pattern)( (is|was|a little))? (chip\w*|scor\w*|broken|torn)|\bscor(ed|ing|e) (lines?|marks?)\b|\b((one |two |a )?legs? (of|on) (the|a|its|one) (split )?pins?|(split[- ]|cotter )pins?( legs?)?|pins? legs?|lock(ing)?[- ]?wires?|(lock )?tabs?)\b( \w+){0,2}/giu;
const ofMetal =
  /\b(crack(s|ed)?|broken(?! (split )?(pin|wire lock|tab))|bent|rounded|chip(s|ped)?|scor(e|es|ed|ing)|dent(s|ed)?|pit(s|ted|ting)|torn|fray(s|ed|ing)?|crazed|perished|chafed|rotten|sheared|stripped|nick(s|ed)?|goug(e|ed|es))\b/iu;
