// Clearances and interferences by common practice: `journal clearance for 50 mm`, `shrink fit 1 in`, `hub float trucks`; and the colours of tempering.
// Invariant: to see whether a reading is in the usual country, never to judge a part; each answer says that it is no limit.
import { type Exact, figure, ratio } from "../../quantities/exact.ts";
import type { Measured } from "../../quantities/quantity.ts";
import { type Unit, unitOf } from "../../quantities/units.ts";
import { type DiameterRule, diameterRules, temperColours, temperSource, usualFigures } from "../../trade/common-practice.ts";
import { type Answer, type Value, asWritten, known, notKnown, shown, value } from "./answer.ts";
import { type Question, bare, take, takeAll } from "./question.ts";
import { above, takeQuantity } from "./words.ts";

const never = "Common practice, never a limit: no part is passed or scrapped by it. The maker's figure rules.";
const pressing = "Eye protection; press square, never hammer a hardened part; cool or warm rather than force.";

/** What may stand beside the words that a rule is found by. */
const beside =
  /\b(?:clearances?|bearings?|oil|running|all the time|plain|fit|shaft|pins?|bores?|gaps?|least|smallest|minimum|maximum|oversize|over ?size|over|allowance|interference|per inch(?: of (?:diameter|bore))?|of diameter|diameter|dia|cast[- ]iron|iron|turning|turns|constantly|constant|forced?|press(?:ed|ing)?|common practice|crankshaft|crank ?pin|journals?|skirt|pistons?|ends?|float|end play|play|hubs?|taper[- ]roller|rings?|wheel|bush(?:es|ing)?|cars?|lorr(?:y|ies)|trucks?|trailers?|normal|new|bronze|steel)\b/i;

export function practiceFigure(q: Question): Answer | undefined {
  const lower = q.left.toLowerCase();
  const rows = usualFigures.filter((it) => it.words.every((word) => word.test(lower)));
  if (rows.length > 0) {
    for (const row of rows) for (const word of row.words) if (!word.source.startsWith("^")) takeAll(q, new RegExp(word.source, "i"));
    takeAll(q, /\b(?:crown ?wheel(?: and pinion)?|pinion|heavy|light|axle|vehicles?)\b/i);
    takeAll(q, beside);
    return usualAnswer(rows);
  }
  const rule = diameterRules.find((it) => it.words.every((word) => word.test(lower)));
  if (rule === undefined) return undefined;
  const size = takeQuantity(q, "length");
  for (const word of rule.words) if (!word.source.startsWith("^")) takeAll(q, new RegExp(word.source, "i"));
  takeAll(q, beside);
  if (size !== undefined && !above(size)) return notKnown("A diameter is above nothing.", `${exampleOf(rule)} 1 in`);
  // Without a size the rule itself is the answer, where it was asked for so or nothing else was said.
  if (size === undefined && bare(q.left) !== "") return undefined;
  return ruleAnswer(rule, size);
}

function exampleOf(rule: DiameterRule): string {
  return /ring/.test(rule.of)
    ? "ring gap for"
    : /bush/.test(rule.of)
      ? "bush"
      : /journal/.test(rule.of)
        ? "journal clearance for"
        : /shrink/.test(rule.of)
          ? "shrink fit"
          : "press fit";
}

function usualAnswer(rows: typeof usualFigures): Answer {
  const values = rows.flatMap((it) =>
    it.least === it.most
      ? [value(it.of, figure(it.least), it.unit)]
      : [value(`${it.of}, least`, figure(it.least), it.unit), value(`${it.of}, most`, figure(it.most), it.unit)],
  );
  const said = rows.map(
    (it) => `${it.of}: ${it.least === it.most ? `about ${it.least}` : `${it.least} .. ${it.most}`} ${it.unit}${it.mark === "memory" ? " (from memory)" : ""}`,
  );
  return known(
    `Common practice, not a limit: ${said.join("; ")}.`,
    values,
    rows.map((it) => ({ source: it.source, mark: "estimate" as const })),
    [never],
  );
}

/** At a diameter in its own unit and in the other; without one, the rates alone. */
function ruleAnswer(rule: DiameterRule, size: Measured | undefined): Answer {
  const inch = unitOf("in") as Unit;
  const rates = rule.figures.map((it) => value(`${it.name}, rate`, it.rate, "in/in"));
  const memory = rule.mark === "memory" ? " (from memory)" : "";
  const note = rule.note === undefined ? "" : ` ${rule.note}`;
  const from = [{ source: `${rule.source}${memory}`, mark: "estimate" as const }];
  const cautions = /interference/.test(rule.of) ? [never, pressing] : [never];
  if (size === undefined)
    return known(
      `Common practice, not a limit: ${rule.of}: ${rule.figures.map((it) => it.said).join(", ")}${memory}. Say the diameter to have it worked out.${note}`,
      rates,
      from,
      cautions,
    );
  const inches = size.unit.name === "in" || size.unit.name === "thou";
  const mmOf = (it: DiameterRule["figures"][number]): Exact => size.value.mul(it.rate).add(it.plus.mul(inch.factor));
  const both = (name: string, mm: Exact): Value[] => {
    const out = [value(name, mm.div(inch.factor), "in", 6), value(name, mm, "mm", 6)];
    return inches ? out : out.reverse();
  };
  const text = (mm: Exact) =>
    inches ? `${shown(mm.div(inch.factor), 3)} in (${shown(mm, 3)} mm)` : `${shown(mm, 3)} mm (${shown(mm.div(inch.factor), 3)} in)`;
  const seen = rule.figures.filter((it, i) => rule.figures.findIndex((other) => other.rate.equals(it.rate) && other.plus.equals(it.plus)) === i);
  const said = seen.map((it, i) => `${i === 0 ? "about " : ""}${text(mmOf(it))}, ${it.said}`);
  return known(
    `Estimate, not a limit: ${rule.of} at ${asWritten(size)}: ${said.join("; ")}${memory}.${note}`,
    [...rule.figures.flatMap((it) => both(it.name, mmOf(it))), ...rates],
    from,
    cautions,
  );
}

/** `straw in degC`, `tempering colour blue`: where a colour shows. */
export function temperFigure(q: Question): Answer | undefined {
  if (take(q, /\b(?:temper(?:ing|ed)?(?: colours?| colors?)?|oxide colours?)\b/i) === undefined) return undefined;
  takeAll(q, /\b(?:colours?|colors?|springs?|tools?|temperature|steel|hot|spring|degC|degF|carbon|table|all)\b/i);
  const row = temperColours.find((it) => take(q, it.shape) !== undefined);
  const rows = row === undefined ? temperColours : [row];
  return known(
    `Tempering colours of clean carbon steel (from memory): ${rows.map((it) => `${it.colour} about ${it.degC} degC (${it.degF} degF)`).join(", ")}.`,
    rows.flatMap((it) => [value(it.colour, ratio(it.degC), "degC"), value(it.colour, ratio(it.degF), "degF")]),
    [temperSource],
    [
      "A guide by eye: light, alloy and time shift the colour. Steering, suspension and brake parts are not heated and tempered at home: the maker's instructions rule.",
    ],
  );
}
