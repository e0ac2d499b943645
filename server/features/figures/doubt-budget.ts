// Uncertainty at the bench: one part by its shape, parts together, U by k, the share of a normal distribution. `uncertainty 2.5, 0.3, 5.8, 0.7 mm`.
import { type Exact, compare, figure, ratio, rootTo } from "../../quantities/exact.ts";
import { deviationsFor, shareAbove } from "../../quantities/normal.ts";
import { combined, effectiveDegrees, expanded, resolutionSquared, squareOf, standardSquared } from "../../quantities/uncertainty.ts";
import { type Answer, type Value, known, notKnown, roughly, shown, value } from "./answer.ts";
import { type Part, type Question, partsOf, take } from "./question.ts";
import { type Listed, figureIn, listIn, readQuantity } from "./words.ts";

const gum = (where: string) => ({ source: `JCGM 100 (the GUM), ${where}`, mark: "computed" as const });

export function budgetFigure(q: Question): Answer | undefined {
  const shape = take(q, /^(?:(?:standard )?uncertainty (?:of )?(?:a )?)?(rectangular|triangular|arcsine|u-shaped)\b(?: distribution)?(?:,? half-?width)?/i);
  if (shape !== undefined) return shapeAnswer((shape[1] as string).toLowerCase(), q);
  if (take(q, /^(?:resolution|(?:uncertainty (?:of )?(?:a )?)?digital step|uncertainty (?:of )?(?:a )?resolution)\b/i) !== undefined) return stepAnswer(q);
  if (take(q, /^expand(?:ed)?\b(?: uncertainty)?/i) !== undefined) return expandAnswer(q);
  if (take(q, /^(?:combined uncertainty|uncertainty|combine|root of squares|rss)\b/i) !== undefined) return together(q);
  // `normal clearance` is another question.
  return take(q, /^normal(?: distribution\b|(?= k\b| [-+\d.]|$))/i) === undefined ? undefined : normalAnswer(q);
}

/** 12 places below the unit, which is more than any gauge. */
const rootOf = (squared: Exact): Exact => rootTo(squared, 12) ?? ratio(0);

function rootValue(name: string, squared: Exact, unit: string): Value {
  const root = rootOf(squared);
  return root.mul(root).equals(squared) ? value(name, root, unit) : { name, value: shown(root, 10), unit, rounded: true };
}

function shapeAnswer(name: string, q: Question): Answer {
  const read = readQuantity(q);
  if (read === undefined || read.figure.s < 0n) return notKnown("Say the half-width.", `${name} 15 um`);
  const shape = name === "u-shaped" ? "arcsine" : (name as "rectangular" | "triangular" | "arcsine");
  const unit = read.measured?.unit.name ?? "";
  const squared = standardSquared(read.figure, shape);
  const root = { rectangular: "3", triangular: "6", arcsine: "2" }[shape];
  return known(
    `Half-width ${read.text} ${unit}, ${name}: u = a/\u221a${root} = ${shown(rootOf(squared), 6)} ${unit}.`.replace(/ +/g, " "),
    [rootValue("standard uncertainty", squared, unit)],
    [gum("4.3.7 and 4.3.9")],
  );
}

function stepAnswer(q: Question): Answer {
  const read = readQuantity(q);
  if (read === undefined || read.figure.s < 0n) return notKnown("Say the step of the display.", "resolution 0.001 in");
  const unit = read.measured?.unit.name ?? "";
  const squared = resolutionSquared(read.figure);
  return known(
    `A digital step of ${read.text} ${unit}: u = step/\u221a12 = ${shown(rootOf(squared), 5)} ${unit}.`.replace(/ +/g, " "),
    [rootValue("standard uncertainty", squared, unit)],
    [gum("F.2.2.1")],
  );
}

function expandAnswer(q: Question): Answer {
  const parts = partsOf(q, { k: "k|by" });
  const u = readQuantity(parts.get(""));
  const k = factorIn(parts);
  if (u === undefined || k === undefined || u.figure.s < 0n) return notKnown("Say the standard uncertainty and k.", "expand 0.006 mm k 2");
  const unit = u.measured?.unit.name ?? "";
  return known(
    `U = k\u00b7u = ${shown(u.figure.mul(k), 6)} ${unit} with k = ${shown(k)}.`.replace(/ +/g, " "),
    [value("U", u.figure.mul(k), unit)],
    [gum("6.2.1")],
  );
}

/** Parts each as they add to the result, with its degrees of freedom where it has some: `25 nu 18, 9.7 nu 25.6`. */
function together(q: Question): Answer {
  const parts = partsOf(q, { k: "k" });
  const listed = listIn(parts.get(""));
  const k = factorIn(parts);
  const ask = ["uncertainty 2.5, 0.3, 5.8, 0.7 mm", "rectangular 0.002 mm", "resolution 0.001 in"];
  if (listed === undefined || k === undefined || listed.length > 200 || listed.some((it) => it.figure.s < 0n))
    return notKnown("Say the parts of the uncertainty, each as it adds to the result.", ...ask);
  const dimensions = new Set(listed.map((it) => it.value?.unit.dimension));
  if (dimensions.size > 1) return notKnown("The parts are not all of one kind, or one has no unit.", ...ask);
  const unit = listed.at(-1)?.value?.unit;
  const own = (it: Listed): Exact =>
    it.value === undefined || unit === undefined ? it.figure : it.value.value.sub(it.value.unit.offset ?? 0).div(unit.factor);
  const squared = combined(listed.flatMap((it) => new Array(Math.min(it.count ?? 1, 1000)).fill({ slope: ratio(1), uncertainty: own(it) })));
  const whole = expanded(squared, k);
  const name = unit?.name ?? "";
  const values = [rootValue("u", squared.squared, name), rootValue("U", whole.squared, name)];
  let degreesText = "";
  if (listed.some((it) => it.degrees !== undefined)) {
    const degrees = listed.some((it) => it.degrees !== undefined && compare(it.degrees, ratio(0)) <= 0)
      ? undefined
      : effectiveDegrees(listed.map((it) => ({ squared: squareOf(own(it)), ...(it.degrees === undefined ? {} : { degrees: it.degrees.valueOf() }) })));
    if (degrees !== undefined) {
      values.push({ name: "effective degrees of freedom", value: shown(degrees, 6), unit: "", rounded: true });
      degreesText = `, ${shown(degrees, 4)} effective degrees of freedom`;
    }
  }
  return known(
    `u = ${shown(rootOf(squared.squared), 5)} ${name}, U = ${shown(rootOf(whole.squared), 5)} ${name} with k = ${shown(k)}${degreesText}.`
      .replace(/ +([,.])/g, "$1")
      .replace(/ +/g, " "),
    values,
    [gum("5.1.2, 6.2.1 and G.4.1; parts independent")],
  );
}

/** k, 2 where it is unsaid; undefined where it is no figure above zero. */
function factorIn(parts: ReadonlyMap<string, Part>): Exact | undefined {
  if (!parts.has("k")) return ratio(2);
  const k = figureIn(parts.get("k"));
  return k === undefined || compare(k, ratio(0)) <= 0 ? undefined : k;
}

function normalAnswer(q: Question): Answer {
  take(q, /^[ :]*k\b[ =]*/i);
  const read = readQuantity(q);
  if (read === undefined) return notKnown("Say how many standard deviations, or what share in %.", "normal k 2", "normal 95 %");
  const source = { source: "normal distribution (Abramowitz and Stegun 26.2)", mark: "computed" as const };
  if (read.measured !== undefined && read.measured.unit.name !== "%")
    return notKnown("Say how many standard deviations, or what share in %.", "normal k 2", "normal 95 %");
  if (read.measured !== undefined) {
    const k = deviationsFor(read.figure.div(100).valueOf());
    if (k === undefined) return notKnown("A share lies between 0 and 100 %.", "normal 95 %");
    const iso = read.figure.equals(figure("95")) ? " It is the factor that ISO 14253-1:2017 is remembered to take as usual (from memory)." : "";
    return known(
      `${read.text} % of a normal distribution lies below ${k.toFixed(6)} standard deviations (one side).${iso}`,
      [roughly7("standard deviations", k)],
      iso === "" ? [source] : [source, { source: "ISO 14253-1:2017", mark: "memory" }],
    );
  }
  const k = read.figure.valueOf();
  const above = shareAbove(k);
  return known(
    `Beyond ${read.text} standard deviations on one side lies ${above.toPrecision(6)} of a normal distribution. That is the most that is wrongly passed at a limit kept clear by U = ${read.text} u.`,
    [roughly("share above", above), roughly("share below", 1 - above)],
    [source],
  );
}

/** Seven digits: the sixth decimal is the one that is quoted. */
function roughly7(name: string, x: number): Value {
  return { name, value: x.toFixed(8), unit: "", rounded: true };
}
