// A figure in a note beside a reading that lies past what the thing may wear: “far one is 0.960 where the rod bears”. Whoever judged the reading did not see it.
// Invariant: of another size, of another day, of what is allowed or of a tool is no such figure; where it may be, it is. The words are those of the bench, and common practice.
import { exact } from "../quantities/exact.ts";
import { type Measured, placesWritten } from "../quantities/quantity.ts";
import { type Band, inside } from "../quantities/range.ts";
import { toBase, unitOf } from "../quantities/units.ts";

/**
 * The clause that tells it. `read` is a figure of the reading that the note stands under: one in the note without a unit is taken to be in its, where it has as many places (but one) or more.
 * What is more than twice as much or less than half of what was read is of something else.
 */
export function figurePast(text: string, read: Measured, worn: Band): string | undefined {
  if (ofElse.test(text)) return undefined;
  return text.split(/[;:()–—]+|,(?!\d)|\.(?!\d)/u).find((clause) => {
    for (const [, figure = "", spelling] of clause.matchAll(figures)) {
      const own = spelling === undefined ? undefined : unitOf(spelling);
      if (own === undefined && (placesWritten(figure) < 2 || placesWritten(figure) < read.places - 1)) continue;
      const unit = own ?? read.unit;
      const value = exact(figure);
      if (value === undefined || unit.dimension !== read.unit.dimension) continue;
      const told = toBase(value, unit);
      const isAlike = told.compare(read.value.mul(2)) <= 0 && told.mul(2).compare(read.value) >= 0;
      if (isAlike && !inside(worn, told)) return true;
    }
    return false;
  });
}

const figures = /(?<![\w./-])(\d*\.\d+|\d+(?= ?(?:thou|mm)\b))(?: ?([a-zµ]+)\b)?(?![\w/-])/giu;

/** Of what is allowed, was, is to be, or is a tool's; in another direction; or denied. */
const ofElse =
  /\b(limits?|worn|wear|max(imum)?|min(imum)?|scrap\w*|book|drawing|maker\w*|handbook|manual|new|nominal|should|shall|would|allow\w*|was|were|had|before|old|first|last|then|yesterday|shims?|feelers?|gauges?|blades?|undersize|oversize|under|over|standard|setting|zero\w*|not|no|never|without|except|other|others|spare|deep|wide|long|high|apart|thick|across|from|cut|grind|ground|bored?|reamed?|turned|to be|aim\w*|instead|misread|slip|wrong\w*)\b|n't\b/iu;
