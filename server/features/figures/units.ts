// A quantity in another unit: `0.015 in in mm`, `148 F in C`, `5 degF difference in K`, `inches to mm`; without a unit asked for, in the other system.
// Invariant: nothing colder than absolute zero, and no mass or volume below nothing, is put in another unit.
import { type Exact, compare, figure, plainText, ratio, zero } from "../../quantities/exact.ts";
import { type Measured, asDifference, inUnit, otherSystem } from "../../quantities/quantity.ts";
import { type Unit, fromBase, toBase, unitOf } from "../../quantities/units.ts";
import { nearestFraction } from "../../trade/drill-sizes.ts";
import { type Answer, type Value, known, notKnown, shown, value, word } from "./answer.ts";
import { benchUnit } from "./bench-units.ts";
import { type Question, bare, short } from "./question.ts";
import { inUnitOf, readQuantity, readUnit } from "./words.ts";

const differenceWord = /\b(?:difference|interval|rise|warmer|cooler)\b/i;
const lead = /^(?:(?:convert|change|turn|what is|what are|what|how much is|how much are|is|are|of|a|an|put|please)\s+)+/i;

export function unitFigure(q: Question): Answer | undefined {
  const difference = differenceWord.test(q.left);
  const text = q.left.replace(differenceWord, " ").replace(lead, "").replace(/ +/g, " ").trim();
  const answer =
    fractionOfAnInch(text, difference) ??
    tonsAnswer(text) ??
    fractionAnswer(text) ??
    manyOf(text, difference) ??
    asked(text, difference) ??
    alone(text, difference);
  // These shapes take in the whole question.
  if (answer !== undefined) q.left = "";
  return answer;
}

/** `5/8 in mm`: a vulgar fraction with nothing else is one of an inch. */
function fractionOfAnInch(text: string, difference: boolean): Answer | undefined {
  const found = /^((?:\d+-)?\d+\/\d+) (?:in|to|into|as) (.+)$/i.exec(text);
  const to = found === null ? undefined : wholeUnit(found[2] as string);
  return found === null || to?.dimension !== "length" ? undefined : asked(`${found[1]} in in ${found[2]}`, difference);
}

const bareTons =
  /(?<!\b(?:long|short|us|american|imp|imperial|british|uk) )\btons?f?(?= ?(?:\/|per) ?(?:square inch|sq\.? ?in|in2|in\u00b2))|\bt\.?s\.?i\b\.?/i;

/** Tons to the square inch are long ones in Britain and short ones in America: both are given, the British first, for its steels are quoted so. */
function tonsAnswer(text: string): Answer | undefined {
  if (!bareTons.test(text)) return undefined;
  const as = (whose: string) => {
    const written = text.replace(bareTons, (it) => (/^t\.?s/i.test(it) ? `${whose} tons per square inch` : `${whose} ${it}`));
    return asked(written, false) ?? asked(`${written} in MPa`, false);
  };
  const [long, short] = [as("long"), as("short")];
  if (long?.known !== true || short?.known !== true) return undefined;
  const values = [...long.values, ...short.values.map((it) => ({ ...it, name: `${it.name} if US short tons` }))];
  return {
    ...long,
    line: `${long.line.replace(/\.$/, "")}, as British steels are quoted; in US short tons ${short.line.replace(/^.*= /, "")}`,
    values,
  };
}

/** The last connecting word counts: in `5 lb in in N.m` the first belongs to the unit. */
function asked(text: string, difference: boolean): Answer | undefined {
  for (const found of [...text.matchAll(/ (?:in|to|into|as|=|->)(?= \S)/gi)].reverse()) {
    const from = wholeQuantity(text.slice(0, found.index)) ?? oneOf(text.slice(0, found.index));
    const to = wholeUnit(text.slice(found.index + found[0].length + 1));
    if (from !== undefined && to !== undefined) return converted(from, to, difference);
  }
  return undefined;
}

/** `5 mm in bananas`: a quantity that is asked for in what is no unit, or the other way about. The last to be asked. */
export function strangeUnitFigure(q: Question): Answer | undefined {
  const text = q.left.replace(lead, "");
  const found = /^(.+?) (?:in|to|into|as) (.+)$/i.exec(text);
  if (found === null) return undefined;
  // `.005 in mm` may be inches, or a figure without its unit.
  const bareFigure = /^[+-]?(?:\d+(?:\.\d+)?|\.\d+)$/.test(found[1] as string) && wholeUnit(found[2] as string) !== undefined;
  if (bareFigure)
    return notKnown(
      `${found[1]} of what, in ${found[2]}?`,
      ...(wholeUnit(found[2] as string)?.dimension === "length" ? [`${found[1]} in in ${found[2]}`] : []),
    );
  const [from, to] = [wholeQuantity(found[1] as string), wholeUnit(found[2] as string)];
  const other = { left: found[1] as string };
  const read = readQuantity(other);
  if (from !== undefined && to === undefined && /^[\p{L}.²³/ ]+$/u.test(found[2] as string))
    return notKnown(`\u201c${short(found[2] as string)}\u201d isn't a unit here.`, `${from.figure} ${from.unit.name}`);
  if (to !== undefined && from === undefined && read?.strange !== undefined)
    return notKnown(`\u201c${short(bare(other.left))}\u201d isn't a unit here.`, `1 ${to.name}`);
  return undefined;
}

/** `how many mm in an inch`, `how many thou is 0.4 mm`. */
function manyOf(text: string, difference: boolean): Answer | undefined {
  const found = /^how many (.+?) (?:in|is|are|make|makes|to|are there in) (?:an? |the )?(.+)$/i.exec(text);
  if (found === null) return undefined;
  const to = wholeUnit(found[1] as string);
  const from = wholeQuantity(found[2] as string) ?? oneOf(found[2] as string);
  return to === undefined || from === undefined ? undefined : converted(from, to, difference);
}

function alone(text: string, difference: boolean): Answer | undefined {
  const it = wholeQuantity(text);
  return it === undefined ? undefined : bothSystems(it, difference);
}

function wholeQuantity(text: string): Measured | undefined {
  const part = { left: text };
  const read = readQuantity(part);
  if (read === undefined) return undefined;
  if (part.left.trim() !== "") return read.measured === undefined ? undefined : inParts(read.measured, part.left);
  return read.measured;
}

/** `2 ft 6 in`, `1 stone 4 lb`: so many of a unit and fewer of a smaller one than make one of it, as so many of the smaller. */
function inParts(whole: Measured, rest: string): Measured | undefined {
  const part = { left: rest.replace(/^[\s;,]+(?:and )?/i, "") };
  const more = readQuantity(part)?.measured;
  if (more === undefined || part.left.trim() !== "" || !/^\d+$/.test(whole.figure) || !measuredInParts.has(`${whole.unit.name} ${more.unit.name}`))
    return undefined;
  if (more.value.s < 0n || compare(more.value, whole.unit.factor) >= 0) return undefined;
  const value = whole.value.add(more.value);
  return { value, unit: more.unit, figure: plainText(fromBase(value, more.unit)), places: more.places };
}

const measuredInParts: ReadonlySet<string> = new Set([
  "ft in",
  "yd ft",
  "yd in",
  "stone lb",
  "lb oz",
  "imp.cwt lb",
  "us.cwt lb",
  "imp.gal imp.pt",
  "us.gal us.pt",
]);

function wholeUnit(text: string): Unit | undefined {
  const to = readUnit(text.replace(/^(?:an? |the )/i, ""));
  return to === undefined || to.rest.trim() !== "" ? undefined : to.unit;
}

/** `inches to mm`: one of them. */
function oneOf(text: string): Measured | undefined {
  const unit = wholeUnit(text.replace(/^(?:one|an?|each) /i, ""));
  return unit === undefined ? undefined : inUnitOf({ figure: ratio(1), text: "1" }, unit);
}

/** `0.3906 inch as a fraction`, `1/64 inch as a decimal and in mm`. */
function fractionAnswer(text: string): Answer | undefined {
  const found =
    /^(.+?) (?:as an?|in|to an?|to the nearest|nearest) (fraction|(?:inches and )?fractions|decimal|64ths?|sixty-fourths?|32nds?|16ths?)(?: of an inch)?(?: (?:and )?(?:in|as) mm)?$/i.exec(
      text,
    );
  const it = found === null ? undefined : wholeQuantity(found[1] as string);
  if (found === null || it === undefined || it.unit.dimension !== "length") return undefined;
  const inches = it.value.div(figure("25.4"));
  const source = { source: "arithmetic; inch = 25.4 mm exactly (1959)", mark: "computed" as const };
  if (/decimal/i.test(found[2] as string))
    return known(
      `${it.figure} ${it.unit.name} = ${shown(inches, 8)} in = ${shown(it.value, 8)} mm.`,
      [value("decimal", inches, "in"), value("in mm", it.value, "mm")],
      [source],
    );
  const most = Number(/\d+/.exec(found[2] as string)?.[0] ?? "64");
  const near = nearestFraction(inches, most);
  if (near === undefined) return notKnown(`That is less than half of 1/${most} in.`, "0.3906 in as a fraction");
  const off = near.inches.sub(inches);
  return known(
    `${it.figure} ${it.unit.name} is nearest to ${near.name}${off.n === 0n ? ", exactly" : `, which is ${shown(off.abs(), 3)} in ${compare(off, zero) > 0 ? "more" : "less"}`} (in steps of 1/${most} in).`,
    [word("fraction", near.name.replace(/ in$/, "")), value("fraction", near.inches, "in"), value("error", off.neg(), "in")],
    [source],
  );
}

function converted(from: Measured, to: Unit, askedSo: boolean): Answer {
  if (from.unit.dimension !== to.dimension)
    return notKnown(
      `${from.unit.name} measures ${measures(from.unit)} and ${to.name} measures ${measures(to)}: one can't be put in the other.`,
      ...(benchUnit(from.unit.name) === undefined ? [] : [`${from.figure} ${from.unit.name}`]),
    );
  const temperature = from.unit.dimension === "temperature";
  const difference = askedSo && temperature;
  const wrong = impossible(from, difference);
  if (wrong !== undefined) return wrong;
  const result = difference ? asDifference(from).div(to.factor) : inUnit(from, to);
  const values: Value[] = [value("result", result, to.name)];
  const exactly = values[0]?.rounded === undefined && from.unit.inexact === undefined && to.inexact === undefined;
  const text = toRead(result, to.name, exactly);
  const what = difference ? " as a difference" : "";
  const also = temperature && !difference && (from.unit.offset !== undefined || to.offset !== undefined) ? asDifferenceToo(from, to) : undefined;
  if (also !== undefined) values.push(also);
  const line = `${from.figure} ${from.unit.name}${what} = ${text}.${also === undefined ? "" : ` As a difference of temperatures it would be ${shown(asDifference(from).div(to.factor), 6)} ${to.name}.`}`;
  return known(line, values, sourcesOf(from.unit, to));
}

/** Six digits that count, and beside them the whole of a figure that is exact. */
function toRead(x: Exact, unit: string, exactly: boolean): string {
  const brief = `${shown(x, 6)} ${unit}`;
  if (!exactly) return brief;
  const full = `${plainText(x)} ${unit}`;
  return full.length <= brief.length + 3 ? `${full}, exactly` : `${brief} (exactly ${plainText(x)})`;
}

function impossible(it: Measured, difference: boolean): Answer | undefined {
  const below = compare(it.value, zero) < 0;
  if (it.unit.dimension === "temperature" && below && !difference)
    return notKnown(`${it.figure} ${it.unit.name} is colder than absolute zero, -273.15 degC.`, "-40 degF in degC");
  if ((it.unit.dimension === "mass" || it.unit.dimension === "volume") && below)
    return notKnown(`${it.figure} ${it.unit.name} is less than nothing.`, `${it.figure.replace("-", "")} ${it.unit.name}`);
  return undefined;
}

function asDifferenceToo(from: Measured, to: Unit): Value {
  return value("as a difference", asDifference(from).div(to.factor), to.name);
}

function bothSystems(it: Measured, askedSo: boolean): Answer | undefined {
  const wrong = impossible(it, askedSo);
  if (wrong !== undefined) return wrong;
  const others = otherSystem(it);
  if (others.length === 0) return known(`${it.figure} ${it.unit.name}`, [value("result", inUnit(it, it.unit), it.unit.name)], sourcesOf(it.unit));
  const units = others.map((text) => unitOf(text.slice(text.indexOf(" ") + 1))).filter((unit) => unit !== undefined);
  const [only] = units;
  if (units.length === 1 && only !== undefined) return converted(it, only, askedSo);
  const values = units.map((unit) => value("result", fromBase(toBase(inUnit(it, it.unit), it.unit), unit), unit.name));
  return known(`${it.figure} ${it.unit.name} = ${others.join(" = ")}.`, values, sourcesOf(it.unit, ...units));
}

function sourcesOf(...units: Unit[]): { source: string; mark: "computed" }[] {
  return [...new Set(units.map((it) => it.source))].map((source) => ({ source, mark: "computed" }));
}

/** `a length`, `an angle` */
function measures(unit: Unit): string {
  return /^[aeiou]/.test(unit.dimension) ? `an ${unit.dimension}` : `a ${unit.dimension}`;
}
