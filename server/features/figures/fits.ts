// Limits and fits by ISO 286: `25 H7/g6`, `25 H7 mm`, `IT7 25 mm`. Sizes are millimetres unless another unit is said.
import { type Exact, figure, ratio } from "../../quantities/exact.ts";
import { itGrade, limitsOf, pairing, tolerance } from "../../trade/fits.ts";
import { type Answer, known, notKnown, shown, value, word } from "./answer.ts";
import { readQuantity } from "./words.ts";

const table = { source: "ISO 286-1 table 1", mark: "table" } as const;
const micro = (name: string, um: number) => value(name, ratio(um), "um");

export function fitFigure(query: string): Answer | undefined {
  const text = query.replace(/^(?:fits?|limits?|deviations?|tolerance|clearance)\b(?: of| for)? ?/i, "");
  const grade = /^IT ?(\d{1,2})\b(?: grade)?(?: at| of| for)? ?(.*)$/i.exec(text) ?? /^(?<size>[\d.]+(?: ?mm| ?in)?) IT ?(?<grade>\d{1,2})$/i.exec(text);
  if (grade !== null) return gradeAnswer(Number(grade.groups?.grade ?? grade[1]), grade.groups?.size ?? grade[2] ?? "");
  const found = /^(.+?) ?(?:mm|in)? ?(?<![A-Za-z])([A-Za-z]{1,2})(\d{1,2})(?: ?[/ ] ?([A-Za-z]{1,2})(\d{1,2}))?(?: (mm|in))?$/.exec(text);
  if (found === null) return undefined;
  const written = text.slice(0, text.indexOf(`${found[2]}${found[3]}`)).trim();
  const nominal = sizeOf(written, found[6]);
  if (nominal === undefined) return undefined;
  const [first, second] = [`${found[2]}${found[3]}`, found[4] === undefined ? undefined : `${found[4]}${found[5]}`];
  return second === undefined ? one(nominal, first) : pair(nominal, first, second);
}

/** Millimetres. */
function sizeOf(text: string, unitBehind: string | undefined): Exact | undefined {
  const read = readQuantity(unitBehind === undefined ? text : `${text} ${unitBehind}`);
  if (read === undefined || read.rest.trim() !== "" || read.strange !== undefined) return undefined;
  if (read.measured === undefined) return read.figure;
  return read.measured.unit.dimension === "length" ? read.measured.value : undefined;
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

function gradeAnswer(grade: number, text: string): Answer {
  const bare = text.trim();
  const nominal = bare === "" ? undefined : sizeOf(bare, undefined);
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
