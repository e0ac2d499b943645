// So many of so many, where all of them should: “thirty-eight of forty”, “held nine times out of ten”, “three of the four nuts tight”.
// Invariant: plain counts alone, that stand where the text tells what did well. What is a size (“6 of 8 mm left”), the number of a thing (“tooth 3 of 40”), or is told of the others, too, is no fault.
import { numberNamed, numberPattern } from "../quantities/number-words.ts";

/** The words of `part` that tell of fewer than all; what is told further on may say what became of the others. */
export function tellsOfSome(part: string, after: readonly string[]): string | undefined {
  const found = someOf.exec(part);
  if (found === null) return undefined;
  const [some, whole] = [numberNamed(found[1] ?? ""), numberNamed(found[2] ?? "")];
  if (some === undefined || whole === undefined || some >= whole) return undefined;
  const rest = `${part.slice(found.index + found[0].length)}, ${after.join(", ")}`;
  return theOthers.test(rest) || theOthers.test(part.slice(0, found.index)) ? undefined : found[0];
}

const did = String.raw`held|holds?|stopped|stops|caught|catches|let go|lets go|worked|works?|fired?|fires|lit|lights?|bit|bites?|released|releases|started|starts|engaged|engages|tight|good|dry|passed|passes|marked|blued?|bears?|locked|latched|tripped|clean|sound`;
const size = String.raw`mm|cm|m|in|inch(?:es)?|thou|kg|t|tons?|tonnes?|cwt|lb|bar|psi|l|litres?|pints?|deg\w*|°|%|mph|km|miles?|"|-?thou|years?|months?|weeks?|days?`;
const thing = String.raw`(?:[a-z]+s|teeth)`;
/** Where it stands first, or behind a verb that says that it did well; behind it nothing, what there are so many of, and that these did well. */
const someOf = new RegExp(
  String.raw`(?:^|\b(?:${did}) )(?:only |just |but |about |at |on |in )?(${numberPattern})(?: ${thing})? (?:out )?of (?:the |its |our )?(${numberPattern})(?! ?(?:${size})(?!\w)|[.\d])(?: ${thing})?(?: (?:are |is |were |was )?(?:${did}|there|in|on|home|up|done|pinned|wired|torqued|checked|seen|tried|turned?|come|came)(?: \w+)?)?$`,
  "iu",
);
/** What became of the rest, or that it is of a choice of them. */
const theOthers =
  /\b(others?|rest|remaining|last( one)?|spares?|the (second|third|fourth|fifth|sixth|seventh|eighth|\w+th)|all|both|every|each|then|now|again|enough|allowed|asked|wanted|needed|random|sample|chosen|picked|first|before|was|were|renewed|changed|replaced|new)\b/iu;
