// Whether a `source` is one: words that name nobody and no book, and what seems so to somebody, are none.
// Invariant: where a book, a page, a letter or a maker is named it is a source, whatever else stands beside it.

export function isGuess(source: string): boolean {
  return nothing.test(source) || opinion.test(source) || (estimate.test(source) && !denied.test(source) && !named.test(source.replace(notToBeHad, "")));
}

const nothing =
  /^\W*((a|my|own|our|only a|just a|rough|best|educated|pure) )*(guess(ed|work)?|estimated?|hunch|rumou?r|unknown|not known|nobody knows|don'?t know|no idea|none|somewhere|\?+|-+)\W*$/iu;
/** What seems so to somebody: no page, no letter, no measured machine. */
const opinion =
  /^\W*(it |that |this |which )?(seems?|seemed|looks|feels?|felt|sounds?|should (be|do)|ought to|must be)\b|\b(i|we) (think|reckon|suppose|guess|fancy|feel|believe)\b|\b(good|near|close|safe|wide|big) enough\b|\b(what|how|as) (i|we|he|she|they|everybody|everyone|dad|father|grandad|grandfather)( have| has| had|'ve|'d)? (always|usually|generally|mostly|ever)\b|^\W*(always (did|done|been)|the usual|usual(ly)?|habit|experience|feel)\b\W*(so|it|that|one|amount)?\W*$/iu;
const estimate =
  /\b(guess(ed|es|work|timated?)?|estimat(ed?|es|ion)|hunch|rumou?r|rule of thumb|ball ?park|made up|off the top of (my|his|her|the) head|from memory|by eye)\b/iu;
/** “Half the book's for the next size, no guess” */
const denied =
  /\b(no|not|never|nor|without|instead of|rather than|in place of)( (a|an|any|my|by|from|made))* (guess|estimat|hunch|rumou?r|rule of thumb|ball ?park|made up|memory|by eye|eye)/iu;
const named =
  /\b(pages?|pp?\.? ?\d|sect(ion)?|chapter|(hand|note|log|data)?books?|manual|letter|drawing|sheet|table|leaf|leaflet|card|catalogue|standard|norm|bulletin|circular|plate|telephone|maker'?s?|works|engineer|inspector|surveyor|licen[cs]ed|ISO|DIN|BS \d)\b/iu;
/** A book that is named as what there is not. */
const notToBeHad =
  /\b(no|without( a| the| any)?|not in (the|any|a)|lost (the|my|our)|can(not|'?t) find (the|a|any)|have(n't| not) got (the|a))( (?!and\b)\w+)? (\w*book|manual|drawing|page|leaf|maker'?s?)\b|\b(\w*book|manual|drawing|page|leaf) (is |was |being )?(lost|missing|gone|burnt|not to be had)\b/giu;
