// What is made of readings: mean, span, standard deviation; the verdict with doubt by ISO 14253-1; ovality, taper, cones.
// Invariant: exact up to a root that is cut only to be shown; no verdict is given where a figure could not be read.
import { type Exact, compare, ratio } from "../../quantities/exact.ts";
import { type Measured, asDifference } from "../../quantities/quantity.ts";
import { couldBeIn, verdict } from "../../quantities/range.ts";
import { conicity, greatest, least, mean, roundnessOfOval, span, standardDeviation } from "../../quantities/statistics.ts";
import { uncertaintyRatio } from "../../quantities/uncertainty.ts";
import { type Answer, type Value, asWritten, known, notKnown, shown, value, word } from "./answer.ts";
import { type Part, type Question, bare, partsOf, take } from "./question.ts";
import { bandIn, inUnitOf, listIn, quantityIn, readQuantity } from "./words.ts";

const askMean = "mean 1.1, 1.2, 1.3 mm";
const askDoubt = "doubt 0.138 mm U 0.012 mm max 0.15 mm";

export function measureFigure(q: Question): Answer | undefined {
  if (/^(?:mean|average|statistics|standard deviation|span|spread|ovality|readings)\b/i.test(q.left)) return meanAnswer(q);
  if (/^(?:doubt|verdict|judge|decision)\b/i.test(q.left)) return doubtAnswer(q);
  if (/^(?:conicity|roundness)\b/i.test(q.left) || /^(?:taper|cone)\b.*\bover\b/i.test(q.left)) return formAnswer(q);
  return undefined;
}

/** The most readings that are taken, counts multiplied out. */
const most = 20_000;

function meanAnswer(q: Question): Answer {
  const ovality = /^ovality/i.test(q.left);
  const several = /^(?:ovality|span|spread|standard deviation)/i.exec(q.left)?.[0].toLowerCase();
  take(q, /^(?:(?:mean|average|statistics|standard deviation|span|spread|ovality|readings|of|the|and|,)\b ?)+[,:\s]*/i);
  const listed = listIn(q);
  if (listed === undefined || listed.length === 0) return notKnown("Say the readings, with a unit at each or at the last.", askMean);
  const units = new Set(listed.map((it) => it.value?.unit.dimension));
  if (units.size > 1) return notKnown("The readings are not all of one kind, or one has no unit.", askMean);
  const unit = listed.at(-1)?.value?.unit;
  const count = listed.reduce((sum, it) => sum + (it.count ?? 1), 0);
  if (several !== undefined && count < 2) return notKnown(`One reading has no ${several}: it takes two at the least.`, `${several} 1.2500, 1.2485 in`);
  if (count > most) return notKnown(`More than ${most} readings are not taken.`, askMean);
  if (listed.some((it) => it.count === 0)) return notKnown("Say the readings, with a unit at each or at the last.", askMean);
  if (ovality && listed.some((it) => it.figure.s < 0n)) return notKnown("A diameter is above nothing.", "ovality 1.2500, 1.2485 in");
  const list = listed.flatMap((it) => new Array<Exact>(it.count ?? 1).fill(it.value === undefined ? it.figure : it.value.value));
  const factor = unit?.factor ?? ratio(1);
  const [low, high, middle, wide] = [least(list), greatest(list), mean(list), span(list)] as [Exact, Exact, Exact, Exact];
  const name = unit?.name ?? "";
  const own = (x: Exact) => x.sub(unit?.offset ?? 0).div(factor);
  const deviation = standardDeviation(
    list.map((it) => it.div(factor)),
    18,
  );
  const values: Value[] = [
    value("mean", own(middle), name),
    value("span", wide.div(factor), name),
    value("least", own(low), name),
    value("greatest", own(high), name),
    value("readings", ratio(count)),
  ];
  if (deviation !== undefined) values.push(deviationValue(deviation, name));
  if (ovality) values.push(value("out of round, if it has two lobes", roundnessOfOval(wide).div(factor), name));
  const text = (x: Exact) => `${shown(x, 8)}${name === "" ? "" : ` ${name}`}`;
  const s = deviation === undefined ? "" : `, standard deviation ${text(deviation)} (n \u2212 1)`;
  return known(
    `${count === 1 ? "1 reading" : `${count} readings`}: mean ${text(own(middle))}, span ${text(wide.div(factor))} (${text(own(low))} to ${text(own(high))})${s}.`,
    values,
    [{ source: "arithmetic on exact decimals; standard deviation of a sample (JCGM 100, 4.2.2)", mark: "computed" }],
  );
}

/** Rounded to 15 digits where the root goes on. */
function deviationValue(deviation: Exact, unit: string): Value {
  const short = value("standard deviation", deviation, unit);
  return short.value.replace(/^0\.0*|\./g, "").length <= 12 ? short : { name: "standard deviation", value: shown(deviation, 15), unit, rounded: true };
}

const verdictWords = {
  in: ["Conforms", "lies wholly inside the limit"],
  out: ["Does not conform", "lies wholly outside the limit"],
  doubt: ["Not proved, in doubt", "reaches over the end of the limit"],
  "in-plain": ["Inside, by plain comparison", "is inside the limit"],
  "out-plain": ["Outside, by plain comparison", "is outside the limit"],
} as const;

function doubtAnswer(q: Question): Answer {
  const parts = partsOf(q, {
    reading: "doubt|verdict|judge|decision|reading|y",
    u: "(?:with )?(?:U95|U|uncertainty|\u00b1|\\+/-)",
    band: "within|limits?|against|between",
  });
  const first = readQuantity(parts.get("reading"));
  const u = readQuantity(parts.get("u"));
  // Whatever figure and unit lead are the reading or U; the range stands behind whichever came last.
  const behind = [parts.get("band"), parts.get("u"), parts.get("reading")].find((it) => it !== undefined && bare(it.left) !== "");
  const limits = behind?.left
    .replace(/^[,\s]+/, "")
    .replace(/^(?:limits?|within|in|against|between|is)\b ?/i, "")
    .replace(/ and /i, " .. ");
  if (first === undefined) return notKnown("Say the reading, the uncertainty U (k = 2), and the limit.", askDoubt);
  const units = [first.measured, u?.measured].filter((it): it is Measured => it !== undefined);
  const bandPart: Part | undefined = limits === undefined ? undefined : { left: withUnit(limits, units[0]?.unit.spelling) };
  const band = bandIn(bandPart);
  if (behind !== undefined && bandPart !== undefined) behind.left = bandPart.left;
  if (band === undefined)
    return notKnown("The limit could not be read. Say it as a range with its unit.", askDoubt, "doubt 0.138 mm U 0.012 mm 0.1 .. 0.15 mm");
  const serve = (it: typeof first | undefined): Measured | undefined =>
    it?.measured ?? (it === undefined || it.strange !== undefined ? undefined : inUnitOf(it, band.unit));
  const [y, doubt] = [serve(first), serve(u)];
  if (
    y === undefined ||
    y.unit.dimension !== band.unit.dimension ||
    (doubt !== undefined && doubt.unit.dimension !== band.unit.dimension) ||
    (parts.has("u") && doubt === undefined)
  )
    return notKnown("The reading, U and the limit must be of one kind.", askDoubt);
  if (doubt !== undefined && compare(asDifference(doubt), ratio(0)) < 0) return notKnown("U is not below zero.", askDoubt);
  const width = doubt === undefined ? undefined : asDifference(doubt);
  const result = verdict(band, y.value, width);
  const values: Value[] = [
    word("verdict", { in: "conforms", out: "does not conform", doubt: "not proved", "in-plain": "inside", "out-plain": "outside" }[result]),
  ];
  let more = "";
  if (width !== undefined && band.low !== undefined && band.high !== undefined) {
    const times = uncertaintyRatio(band.high.sub(band.low), width);
    if (times !== undefined) {
      values.push(value("width over 2 U", times));
      more = couldBeIn(band, width)
        ? ` The band is ${shown(times, 3)} times 2 U wide.`
        : ` The band is less than 2 U wide (${shown(times, 3)}): no reading with this gauge could be proved in.`;
    }
  }
  const [says, lies] = verdictWords[result];
  const against = `${asWritten(y)}${doubt === undefined ? "" : ` \u00b1 ${asWritten(doubt)}`} ${lies}, ${band.text}`;
  return known(
    `${says}: ${against}.${more}`,
    values,
    [
      {
        source:
          doubt === undefined
            ? "plain comparison, no uncertainty was said"
            : "ISO 14253-1: in where y \u00b1 U lies wholly inside, out where wholly outside; exact decimals",
        mark: "computed",
      },
    ],
    doubt === undefined ? ["Without the gauge's uncertainty nothing is proved near the limit."] : [],
  );
}

/** A range without a unit takes that of the reading. */
function withUnit(limits: string, spelling: string | undefined): string {
  return /\p{L}[\p{L}.]*\s*$/u.test(limits) || spelling === undefined ? limits : `${limits} ${spelling}`;
}

/** `conicity 1.25 in to 1.247 in over 2 in`, `cone 1 in 8`, `roundness of ovality 0.0015 in`. */
function formAnswer(q: Question): Answer {
  if (take(q, /^roundness\b(?: of)?(?: an?)?(?: ovality)?(?: of)?/i) !== undefined) {
    const it = quantityIn(q);
    if (it === undefined || it.unit.dimension !== "length" || it.value.s < 0n) return notKnown("Say the ovality.", "roundness of ovality 0.0015 in");
    const result = roundnessOfOval(it.value).div(it.unit.factor);
    return known(
      `A journal with two lobes and an ovality of ${asWritten(it)} is out of round by ${shown(result)} ${it.unit.name} in radius.`,
      [value("out of round", result, it.unit.name)],
      [{ source: "ISO 12181, two lobes: half of the ovality", mark: "computed" }],
      ["Three lobes and five hide from a gauge with two points: turn the part between centres under a dial."],
    );
  }
  take(q, /^(?:cone|conicity|taper)\b/i);
  q.left = `from ${q.left.replace(/^(?:from|of)\b/i, "")}`;
  const parts = partsOf(q, { from: "from|of", to: "to|and", over: "over|length|in a length of" });
  const [a, b, l] = [readQuantity(parts.get("from")), readQuantity(parts.get("to")), readQuantity(parts.get("over"))];
  if (
    [a, b, l].some(
      (it) => it !== undefined && (it.figure.s < 0n || it.figure.n === 0n || (it.measured !== undefined && it.measured.unit.dimension !== "length")),
    )
  )
    return notKnown("Diameters and length are lengths above nothing.", "conicity 1.25 in to 1.247 in over 2 in");
  const unit = (l?.measured ?? b?.measured ?? a?.measured)?.unit;
  const base = (it: typeof a) => it?.measured?.value ?? (it === undefined ? undefined : unit === undefined ? it.figure : it.figure.mul(unit.factor));
  const [large, small, length] = [base(a), base(b), base(l)];
  const result = large === undefined || small === undefined || length === undefined ? undefined : conicity(large, small, length);
  if (result === undefined) return notKnown("Say the two diameters and the length between them.", "conicity 1.25 in to 1.247 in over 2 in", "taper 1 in 8");
  const oneIn = result.n === 0n ? undefined : result.abs().inverse();
  return known(
    `Taper ${shown(result)}${oneIn === undefined ? "" : `, 1 in ${shown(oneIn)}`}.`,
    [value("conicity", result), ...(oneIn === undefined ? [] : [value("one in", oneIn)])],
    [{ source: "ISO 1119: (D \u2212 d)/L", mark: "computed" }],
  );
}
