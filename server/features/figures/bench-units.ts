// Units as they are said at the bench: `lb per square inch`, `foot pounds`, `F`, `imperial gallons`; and a few that no sheet needs.
// Invariant: a spelling that means two things is none here; each unit of its own has its source.
import { type Exact, figure, ratio } from "../../quantities/exact.ts";
import { type Dimension, type Unit, unitOf } from "../../quantities/units.ts";

/** Words that say whose measure it is. */
export const countries: Readonly<Record<string, string>> = {
  imperial: "imp",
  imp: "imp",
  uk: "imp",
  british: "imp",
  english: "imp",
  us: "us",
  "u.s.": "us",
  american: "us",
  long: "long",
  short: "short",
};

/** What is said, as a sheet spells it. The whole of it must match. */
const said: readonly (readonly [RegExp, string])[] = [
  [/^(?:deg(?:ree)?s?\.? ?)?(?:f|fahrenheit)$/i, "degF"],
  [/^(?:deg(?:ree)?s?\.? ?)?(?:c|celsius|centigrade)$/i, "degC"],
  [/^(?:deg(?:ree)?s? )?k(?:elvin)?s?$/, "K"],
  [/^(?:deg(?:ree)?s?) of arc$/i, "deg"],
  [/^(?:min(?:ute)?s? of arc|arc ?min(?:ute)?s?)$/i, "arcmin"],
  [/^(?:lbf?|lbs|pounds?)(?: ?\/ ?| per )(?:square inch|sq\.? ?in(?:ch|\.)?|in2|in\u00b2)$/i, "psi"],
  [/^p\.s\.i\.?$/i, "psi"],
  [/^(?:f(?:oo|ee)?t[ -](?:lbf?s?|pounds?|pounds?[ -]force)|(?:lbf?s?|pounds?)[ -]f(?:oo|ee)?t)$/i, "lbf.ft"],
  [/^(?:in(?:ch|ches|s)?[ -](?:lbf?s?|pounds?)|(?:lbf?s?|pounds?)[ -]in(?:ch|ches|s)?)$/i, "lbf.in"],
  [/^(?:newton[ -]?met(?:re|er)s?|N m|NM|Nms)$/, "N.m"],
  [/^(?:k\.?p\.?[ .-]?m|m[ .-]?k(?:p|gf))$/i, "kgf.m"],
  [/^(?:kgf?|kilo(?:gram(?:me)?)?s?)[ -](?:m|met(?:re|er)s?)$/i, "kgf.m"],
  [/^(?:kgf?|kilos?)(?: ?\/ ?| per )(?:sq\.? ?cm|square cm|square centimet(?:re|er)|cm2)$/i, "kgf/cm2"],
  [/^(?:newtons?|N) per (?:sq\.? ?mm|square mm|square millimet(?:re|er))$/i, "MPa"],
  [/^(?:cubic in(?:ch(?:es)?|s)?|cu\.? ?in(?:ch(?:es)?|s)?\.?|c\.?i\.?d?)$/i, "cu.in"],
  [/^(?:cubic (?:centimet(?:re|er)s?|cms?)|c\.c\.?|ccs|CC)$/i, "cc"],
  [/^(?:bhp|b\.h\.p\.?|horse ?power|h\.p\.?)$/i, "hp"],
  [/^(?:metric (?:hp|horse ?power)|PS)$/, "metric.hp"],
  [/^(?:thousandths?|thou(?:s|sandths?)?)(?: of an? inch)?$/i, "thou"],
  [/^(?:millimet(?:re|er)s?|mms|mm\.|MM)$/i, "mm"],
  [/^(?:in\.|inchs|inches)$/i, "in"],
  [/^(?:pounds?|lbs?)[ -](?:force|f)$/i, "lbf"],
  [/^(?:kilo)?newtons?$/i, "N"],
  [/^(?:mega ?pascals?)$/i, "MPa"],
  [/^(?:kilo ?pascals?)$/i, "kPa"],
  [/^(?:kilo ?watts?|KW|kw)$/, "kW"],
  [/^(?:miles per hour)$/i, "mph"],
  [/^(?:litre|liter|ltr)s?\.?$/i, "l"],
  [/^ML$/, "ml"],
  [/^KG$|^Kgs?$/, "kg"],
];

const pound = "long ton of 2240 lb, short ton of 2000 lb, lbf and inch exact (NIST SP 811 Appendix B)";

function own(name: string, dimension: Dimension, factor: Exact, source: string): Unit {
  return { name, dimension, factor, spelling: name, source };
}

const part = (spelling: string): Exact => (unitOf(spelling) as Unit).factor;

/** Units that no sheet needs. */
const others: readonly (readonly [RegExp, () => Unit])[] = [
  [
    /^(?:long|imp(?:erial)?|british|uk) ?tons?f?(?: ?\/ ?| per )(?:square inch|sq\.? ?in(?:ch)?|in2|in\u00b2)$/i,
    () => own("long tonf/in2", "pressure", part("psi").mul(2240), pound),
  ],
  [
    /^(?:short|us|american) ?tons?f?(?: ?\/ ?| per )(?:square inch|sq\.? ?in(?:ch)?|in2|in\u00b2)$/i,
    () => own("short tonf/in2", "pressure", part("psi").mul(2000), pound),
  ],
  [/^(?:turns?|revs?|revolutions?)$/i, () => own("turn", "angle", ratio(360), "definition")],
  [
    /^(?:ft|feet|foot)(?: ?\/ ?| per )(?:s|sec|second)$/i,
    () => own("ft/s", "speed", part("mph").mul(15).div(22), "foot and mile exact (NIST SP 811 Appendix B)"),
  ],
  [/^(?:flats?)$/i, () => own("flat", "angle", ratio(60), "a hexagon's flat, a sixth of a turn")],
  [/^(?:atm|atmospheres?)$/i, () => own("atm", "pressure", ratio(101325), "standard atmosphere (NIST SP 811 Appendix B)")],
  [/^(?:in\.? ?hg|inch(?:es)? of mercury)$/i, () => own("inHg", "pressure", figure("3386.389"), "conventional, NIST SP 811 Appendix B")],
  [/^(?:imp(?:erial)? )?gills?$/i, () => own("imp.gill", "volume", part("imp.pt").div(4), "imperial pint over four")],
];

/** The unit of these words; undefined where they are none, or mean two things. */
export function benchUnit(words: string): Unit | undefined {
  const plain = unitOf(words);
  if (plain !== undefined) return plain;
  const trimmed = words.trim();
  const spoken = said.find(([shape]) => shape.test(trimmed))?.[1];
  if (spoken !== undefined) return unitOf(spoken);
  const other = others.find(([shape]) => shape.test(trimmed))?.[1];
  if (other !== undefined) return other();
  const lower = trimmed
    .toLowerCase()
    .replace(/\bfluid (?:ounces?|oz)\b/, "floz")
    .replace(/\bfl\.? ?oz\b/, "floz");
  const [first = "", ...rest] = lower.split(" ");
  const country = countries[first];
  const tries = [
    // Capitals count in short ones: `M` is no metre and `nm` no torque.
    ...(trimmed.length > 2 ? [lower] : []),
    ...(rest.length > 0 ? [lower.replace(/ /g, ""), trimmed.replace(/ /g, ".")] : []),
    ...(country === undefined ? [] : [`${country}.${rest.join(".")}`, `${country}.${rest.join("")}`]),
  ];
  for (const it of tries) {
    const unit = unitOf(it);
    if (unit !== undefined) return unit;
  }
  return undefined;
}
