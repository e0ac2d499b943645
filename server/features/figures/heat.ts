// Heat for an interference fit, and what heat does to white metal and bearings: `heat 45 mm cast-iron interference 0.040 mm clearance 0.045 mm`.
// Invariant: an estimate with its cautions; where it must not be done so, the answer begins with that.
import { type Exact, exact, figure, ratio } from "../../quantities/exact.ts";
import { asDifference } from "../../quantities/quantity.ts";
import { cautions } from "../../trade/cautions.ts";
import { type Expansion, type Material, expansions, heatFor, whiteMetals } from "../../trade/heat.ts";
import { type Answer, type Value, asWritten, known, notKnown, shown, value } from "./answer.ts";
import { type Part, type Question, bare, partsOf, take, takeAll } from "./question.ts";
import { above, quantityIn, takeQuantity } from "./words.ts";

const ask = ["heat 45 mm cast-iron interference 0.040 mm clearance 0.045 mm", "heat 1 in aluminium interference 0.001 in clearance 0.002 in from 70 degF"];
const heatCaution = cautions.find((it) => it.about === "heat")?.words ?? "";

/** As they are written on sheets, and as they are said. */
const materials: readonly (readonly [RegExp, Material])[] = [
  [/\b(?:white[- ]metal|babbitt)\b/i, "white-metal"],
  [/\b(?:cast|grey|gray)[- ]?(?:cast[- ])?iron\b/i, "cast-iron"],
  [/\bsteel\b/i, "steel"],
  [/\bbronze\b/i, "bronze"],
  [/\bbrass\b/i, "brass"],
  [/\balumini?um\b/i, "aluminium"],
];

export function heatFigure(q: Question): Answer | undefined {
  if (take(q, /^(?:white[- ]metal|babbitt)\b/i) !== undefined) return whiteMetal(q);
  if (/\b(?:expand|expansion|grows?|growth)\b/i.test(q.left) && /\d/.test(q.left)) {
    const grown = growthAnswer({ left: q.left, parts: [] }, q);
    if (grown !== undefined) return grown;
  }
  if (take(q, /^how much (?:does|do|will) (?=.*\bexpands?$)/i) !== undefined) q.left = `expansion of ${q.left.replace(/ expands?$/i, "")}`;
  if (take(q, /^(?:(?:linear |thermal )?expansion|coefficient of (?:linear |thermal )?expansion|alpha)\b/i) !== undefined) return expansionAnswer(q);
  if (/^(?:rolling )?bearings? heat$|^heat(?:ing)? (?:of )?(?:an? )?(?:rolling |ball |roller )?bearings?$/i.test(q.left)) {
    q.left = "";
    return bearingHeat();
  }
  if (
    !takeAll(q, /\b(?:how hot|what temperature|heat(?:ed|ing)?|warm(?:ed)?)(?: it| for)?\b/i) &&
    !/^shrink\b(?! fit| allowance).*\binterference\b/i.test(q.left)
  )
    return undefined;
  takeAll(q, /\bshrink(?:ing)?\b(?: on)?/i);
  return heatAnswer(q);
}

function heatAnswer(q: Question): Answer {
  const text = q.left;
  const named = materials.filter(([name]) => name.test(text)).map(([, it]) => it);
  // White metal beside another metal is its lining: what is heated is the other.
  const body = named.find((it) => it !== "white-metal");
  const lined = /\b(?:lined|lining)\b/i.test(text) || (body !== undefined && named.includes("white-metal"));
  for (const [name] of materials) take(q, name);
  const rolling = takeAll(q, /\b(?:rolling[- ]|ball[- ]|roller[- ])?bearings?\b/i);
  const hardened = takeAll(q, /\bhardened\b/i);
  takeAll(q, /\b(?:lined|lining|hub|ring|bush|part|outer|sleeve|collar|gear|wheel|diameter|dia|bore)\b/i);
  const parts = partsOf(q, {
    interference: "interference|tight by|delta",
    clearance: "clearance|room",
    from: "from|ambient|at",
    alpha: "alpha|expansion",
  });
  // A length with nothing before it is the diameter.
  const loose = takeQuantity(parts.get("") as Part, "length");
  const [interference, clearance, from] = [quantityIn(parts.get("interference")), quantityIn(parts.get("clearance")), quantityIn(parts.get("from"))];
  const material = body ?? named[0];
  const alpha = parts.has("alpha") ? alphaIn(parts.get("alpha") as Part) : undefined;
  if (parts.has("alpha") && alpha === undefined) return notKnown("Say the expansion as 10.8e-6/K or 12.8e-6/degF.", ask[0] as string);
  const by = alpha ?? material;
  if (
    loose === undefined ||
    (parts.has("clearance") && clearance === undefined) ||
    (parts.has("from") && from === undefined) ||
    interference?.unit.dimension !== "length" ||
    by === undefined ||
    (clearance !== undefined && clearance.unit.dimension !== "length") ||
    (from !== undefined && from.unit.dimension !== "temperature")
  )
    return notKnown("Say the diameter, the material of the part that is heated, the interference, and the clearance wanted to slide it on.", ...ask);
  if (!above(interference) || !above(loose) || clearance?.value.s === -1n)
    return notKnown("The diameter, the interference and the clearance are above zero.", ...ask);
  if (from !== undefined && from.value.s < 0n) return notKnown("Nothing is colder than absolute zero, -273.15 degC.", ...ask);
  const ambient = from === undefined ? undefined : from.value.sub(figure("273.15"));
  const answer = heatFor({
    interference: interference.value,
    clearance: clearance?.value ?? ratio(0),
    diameter: loose.value,
    material: by,
    ...(ambient === undefined ? {} : { ambient }),
    whiteMetalLining: lined,
    rollingBearing: rolling,
    hardened,
  });
  if (answer === undefined) return notKnown("The diameter, the expansion, and interference with clearance must be above zero.", ...ask);
  const [least, most] = answer.riseBetween;
  const inF = answer.temperature.mul(9).div(5).add(32);
  const values: Value[] = [
    value("rise", answer.rise, "K", 8),
    value("rise", answer.rise.mul(9).div(5), "degF", 8),
    value("temperature", answer.temperature, "degC", 8),
    value("temperature", inF, "degF", 8),
    value("rise at the least", least, "K", 8),
    value("rise at the most", most, "K", 8),
  ];
  const range = least.equals(most) ? "" : ` (${shown(least, 3)} to ${shown(most, 3)} by the table)`;
  const start = from === undefined ? "20 degC (taken)" : `${from.figure} ${from.unit.name}`;
  const line = `${answer.refused ? "Do not heat it so: see the caution. " : ""}Estimate: ${shown(answer.rise, 4)} K warmer than the inner part${range}, ${shown(answer.temperature, 4)} degC (${shown(inF, 4)} degF) from ${start}${clearance === undefined ? "; no clearance to slide it on was said, and some is needed" : ""}.`;
  return known(line, values, [{ source: answer.source, mark: "estimate" }], answer.cautions);
}

/** 1e-6 per K: `12.8e-6/degF`, `10.8e-6 per K`, `0.0000108/K`, `10.8`. */
function alphaIn(part: Part): Exact | undefined {
  const found = take(part, /^[\s=:]*(\d+(?:\.\d+)?|\.\d+)(?: ?(?:e|x ?10\^?) ?-?([0-9]+))? ?(?:\/|per)? ?(degF|\u00b0F|F|degC|\u00b0C|C|K)?(?![\p{L}\d])/iu);
  if (found === undefined) return undefined;
  const plain = exact(found[1] as string);
  if (plain === undefined) return undefined;
  const power = found[2] === undefined ? undefined : Number(found[2]);
  if (power !== undefined && power > 12) return undefined;
  const perK = power === undefined ? (plain.compare(figure("0.01")) < 0 ? plain.mul(1000000) : plain) : plain.mul(1000000).div(10 ** power);
  return /F/i.test(found[3] ?? "") ? perK.mul(9).div(5) : perK;
}

/** `100 mm steel bar expand from 20 degC to 100 degC`, `expansion of 4 in aluminium by 80 degC`: length, metal, and how much warmer. Undefined where one is lacking. */
function growthAnswer(trial: Question, q: Question): Answer | undefined {
  const byHowMuch = /\b(?:by|rise|warmer|hotter|difference)\b/i.test(trial.left);
  const named = materials.find(([name]) => name.test(trial.left));
  const size = takeQuantity(trial, "length");
  const [first, second] = [takeQuantity(trial, "temperature"), takeQuantity(trial, "temperature")];
  if (named === undefined || size === undefined || first === undefined) return undefined;
  take(trial, named[0]);
  takeAll(
    trial,
    /\b(?:(?:linear |thermal )?expansion|expands?|grows?|growth|bars?|shafts?|pistons?|rods?|hotter|warmer|rise|heated|bore|diameter|bush|change)\b/i,
  );
  q.left = trial.left;
  if (!above(size) || first.value.s < 0n || (second !== undefined && second.value.s < 0n))
    return notKnown("A length is above nothing, and nothing is colder than absolute zero.", "expansion of 100 mm steel from 20 degC to 100 degC");
  // One temperature alone may be where it ends or by how much: it is not guessed.
  if (second === undefined && !byHowMuch)
    return notKnown(
      "Say from what temperature to what, or by how much.",
      "expansion of 100 mm steel from 20 degC to 100 degC",
      "expansion of 100 mm steel by 80 degC",
    );
  const rise = second === undefined ? asDifference(first) : second.value.sub(first.value);
  const it = expansions[named[1]];
  const grow = (alpha: Exact) => size.value.mul(alpha).mul(rise).div(1000000);
  const text = (mm: Exact) => `${shown(mm, 3)} mm (${shown(mm.div(figure("25.4")), 3)} in)`;
  return known(
    `Estimate: ${asWritten(size)} of ${named[1]} changes by ${text(grow(it.usual))} for ${shown(rise, 5)} K, ${shown(grow(it.least), 3)} to ${shown(grow(it.most), 3)} mm by the tables.`,
    [value("growth", grow(it.usual), "mm", 6), value("growth", grow(it.usual).div(figure("25.4")), "in", 6), value("rise", rise, "K", 8)],
    [{ source: `\u03b1\u00b7L\u00b7\u0394T; \u03b1 ${shown(it.usual)}e-6 per K, ${it.source}`, mark: "estimate" }],
    ["An estimate: alloys differ. Heat evenly, measure the heat, wear gloves and eye protection."],
  );
}

function expansionAnswer(q: Question): Answer {
  const named = materials.find(([name]) => name.test(q.left));
  const material = named?.[1];
  const all = Object.entries(expansions) as [Material, Expansion][];
  const rows = material === undefined ? all : all.filter(([name]) => name === material);
  if (named !== undefined) take(q, named[0]);
  else if (bare(q.left) !== "") return notKnown("The expansion of that is not in the table here.", ...all.map(([name]) => `expansion of ${name}`));
  const values = rows.flatMap(([name, it]) => [
    value(name, it.usual, "1e-6/K"),
    value(`${name} at the least`, it.least, "1e-6/K"),
    value(`${name} at the most`, it.most, "1e-6/K"),
  ]);
  const said = rows.map(([name, it]) => `${name} ${shown(it.usual)} (${shown(it.least)} to ${shown(it.most)}; ${it.of})`);
  return known(
    `Linear expansion, 1e-6 per K: ${said.join(", ")}.`,
    values,
    rows.map(([, it]) => it),
  );
}

function whiteMetal(q: Question): Answer {
  takeAll(q, /\b(?:melt(?:s|ing)?(?: point| temperature)?|yields?|pour(?:ing|ed)?(?: temperature)?|temperature)\b/i);
  const grade = take(q, /(?:\bgrade |\bno\.? ?)?(?<![\d.-])(\d{1,2})(?![\d.])\b/i)?.[1];
  const rows = grade === undefined ? whiteMetals : whiteMetals.filter((it) => it.grade === grade);
  if (rows.length === 0)
    return notKnown(`White metal of grade ${grade} is not in the table here.`, ...whiteMetals.map((it) => `white metal grade ${it.grade}`));
  const f = (c: number) => ratio(c).mul(9).div(5).add(32);
  const values = rows.flatMap((it) => [
    value("melting begins", ratio(it.solidus), "degC"),
    value("melting begins", f(it.solidus), "degF"),
    value("melting ends", ratio(it.liquidus), "degC"),
    value("melting ends", f(it.liquidus), "degF"),
    ...(it.pour === undefined ? [] : [value("poured at", ratio(it.pour), "degC"), value("poured at", f(it.pour), "degF")]),
    ...(it.grade === "2" ? [value("yield at 20 degC", ratio(6100), "psi"), value("yield at 100 degC", ratio(3000), "psi")] : []),
  ]);
  const said = rows.map(
    (it) =>
      `grade ${it.grade} (${it.made}): melting begins at ${it.solidus} and ends at ${it.liquidus} degC${it.pour === undefined ? "" : `, poured at about ${it.pour} degC`}${it.mark === "memory" ? " (from memory)" : ""}${it.grade === "2" ? "; yields at 6100 psi at 20 degC, 3000 psi at 100 degC" : ""}`,
  );
  return known(`White metal, ${said.join("; ")}.`, values, rows, [heatCaution]);
}

function bearingHeat(): Answer {
  return known(
    "Rolling bearings are not heated above about 120 degC (248 degF); makers say from 110 to 125 degC.",
    [value("at the most", ratio(120), "degC"), value("at the most", ratio(248), "degF")],
    [{ source: "common practice of bearing makers", mark: "table" }],
    ["Heat a rolling bearing in oil, on a plate or by induction, never with a flame. The maker's figure rules."],
  );
}
