// Limits and fits by ISO 286: `25 H7/g6`, `25 H7 mm`, `IT7 25 mm`. Sizes are millimetres unless another unit is said.
import { type Exact, exact, figure, ratio } from "../../quantities/exact.ts";
import { itGrade, limitsOf, pairing, tolerance } from "../../trade/fits.ts";
import { type Answer, known, notKnown, shown, value, word } from "./answer.ts";
import { type Question, take, takeAll } from "./question.ts";
import { above, takeQuantity } from "./words.ts";

const table = { source: "ISO 286-1 table 1", mark: "table" } as const;
const micro = (name: string, um: number) => value(name, ratio(um), "um");

export function fitFigure(q: Question): Answer | undefined {
  // `25 H7 mm` as a sheet writes it: the unit is that of the size.
  q.left = q.left.replace(/(?<![\d.])(\d+(?:\.\d+)?|\d+\/\d+) ((?:[A-Z]{1,2}\d{1,2})(?: ?[/ ] ?[A-Z]{1,2}\d{1,2})?) (mm|in)(?![\p{L}\d])/iu, "$1 $3 $2");
  const grade = take(q, /(?<![\p{L}])(?<!\d\.)IT ?(\d{1,2})(?![\p{L}\d.])(?: grade)?/iu);
  const pairCode = grade === undefined ? take(q, /(?<![\p{L}/])([A-Z]{1,2})(\d{1,2}) ?[/ -] ?([A-Z]{1,2})(\d{1,2})(?![\p{L}\d./])/iu) : undefined;
  const code = grade === undefined && pairCode === undefined ? take(q, /(?<![\p{L}/])([A-Z]{1,2})(\d{1,2})(?![\p{L}\d./])/iu) : undefined;
  if (grade === undefined && pairCode === undefined && code === undefined) return undefined;
  const nominal = sizeIn(q);
  takeAll(
    q,
    /\b(?:interference(?: fit)?|press|push|drive|running|sliding|shrink|fits?|limits?(?: and fits)?|deviations?|tolerances?|tolerance grade|clearances?|shaft|hole|bore|bush|diameter|dia|nominal)\b/i,
  );
  if (grade !== undefined) return gradeAnswer(Number(grade[1]), nominal);
  if (nominal === undefined) {
    // A letter and a figure may be anything; a pair is a fit without its size.
    return pairCode === undefined ? undefined : notKnown("Say the size as well.", "25 H7/g6");
  }
  if (pairCode !== undefined) return pair(nominal, `${pairCode[1]}${pairCode[2]}`, `${pairCode[3]}${pairCode[4]}`);
  return one(nominal, `${code?.[1]}${code?.[2]}`);
}

/** Millimetres; a bare figure is in millimetres. Undefined without a size above nothing. */
function sizeIn(q: Question): Exact | undefined {
  const length = takeQuantity(q, "length");
  if (length !== undefined) return above(length) ? length.value : undefined;
  const plain = take(q, /(?<![\p{L}\d./+-])(?:\d+(?:\.\d+)?|\d+\/\d+)(?![\p{L}\d./])/u);
  const size = plain === undefined ? undefined : exact(plain[0]);
  return size === undefined || size.n === 0n ? undefined : size;
}

const outside = "The table here has H for holes, f g h k m n p s for shafts, IT5 to IT11, over 0 up to 120 mm.";

function one(nominal: Exact, code: string): Answer {
  const it = tolerance(nominal, code);
  if (it === undefined) return notKnown(`${shown(nominal, 8)} mm ${code} is not in the table. ${outside}`, "25 H7 mm", "25 H7/g6");
  const { low, high, text } = limitsOf(it);
  const values = [value("least", low, "mm"), value("largest", high, "mm"), micro("lower deviation", it.lower), micro("upper deviation", it.upper)];
  return known(
    `${shown(nominal, 8)} ${code}: ${text} (${signed(it.lower)} .. ${signed(it.upper)} \u00b5m), ${it.hole ? "a hole" : "a shaft"}; ${inches(low)} .. ${inches(high)} in.`,
    values,
    [it],
  );
}

function pair(nominal: Exact, first: string, second: string): Answer {
  const [hole, shaft] = /^[A-Z]/.test(first) ? [first, second] : [second, first];
  const it = pairing(nominal, hole, shaft);
  if (it === undefined) return notKnown(`${shown(nominal, 8)} mm ${first}/${second} is not in the table. ${outside}`, "25 H7/g6", "50 H7/p6");
  const [h, s] = [limitsOf(it.hole), limitsOf(it.shaft)];
  const values = [
    value("hole least", h.low, "mm"),
    value("hole largest", h.high, "mm"),
    value("shaft least", s.low, "mm"),
    value("shaft largest", s.high, "mm"),
    micro("hole lower deviation", it.hole.lower),
    micro("hole upper deviation", it.hole.upper),
    micro("shaft lower deviation", it.shaft.lower),
    micro("shaft upper deviation", it.shaft.upper),
    micro("clearance least", it.least),
    micro("clearance most", it.most),
    word("kind", it.kind),
  ];
  const room =
    it.kind === "clearance"
      ? `clearance ${it.least} .. ${it.most} \u00b5m`
      : it.kind === "interference"
        ? `interference ${-it.most} .. ${-it.least} \u00b5m`
        : `from ${-it.least} \u00b5m interference to ${it.most} \u00b5m clearance`;
  return known(`${shown(nominal, 8)} ${hole}/${shaft}: hole ${h.text}, shaft ${s.text}; ${room} (${it.kind} fit).`, values, [it.hole, it.shaft]);
}

function gradeAnswer(grade: number, nominal: Exact | undefined): Answer {
  const um = nominal === undefined ? undefined : itGrade(nominal, grade);
  if (nominal === undefined) return notKnown("Say the size as well.", `IT${grade} 25 mm`);
  if (um === undefined) return notKnown(`IT${grade} at ${shown(nominal, 8)} mm is not in the table. ${outside}`, "IT7 25 mm");
  return known(
    `IT${grade} at ${shown(nominal, 8)} mm is ${um} \u00b5m, by the table (ranges are over \u2026 up to and including).`,
    [micro("tolerance", um)],
    [table],
  );
}

function signed(um: number): string {
  return um > 0 ? `+${um}` : String(um).replace("-", "\u2212");
}

function inches(mm: Exact): string {
  return mm.div(figure("25.4")).valueOf().toFixed(5);
}
