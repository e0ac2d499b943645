// A quantity in another unit: `0.015 in in mm`, `70 degF in degC`, `5 degF difference in K`; without a unit asked for, in the other system.
import { type Measured, asDifference, inUnit, otherSystem } from "../../quantities/quantity.ts";
import { type Unit, fromBase, toBase, unitOf } from "../../quantities/units.ts";
import { type Answer, type Value, known, notKnown, shown, value } from "./answer.ts";
import { readQuantity, readUnit } from "./words.ts";

const differenceWord = /\b(?:difference|interval|rise|warmer|cooler)\b/i;

export function unitFigure(query: string): Answer | undefined {
  const difference = differenceWord.test(query);
  const text = query
    .replace(differenceWord, " ")
    .replace(/^\s*(?:convert|what is|how much is|of)\s+/i, "")
    .replace(/ +/g, " ")
    .trim();
  // The last connecting word counts: in `5 lb in in N.m` the first belongs to the unit.
  for (const found of [...text.matchAll(/ (?:in|to|into|as|=|->)(?= \S)/gi)].reverse()) {
    const from = wholeQuantity(text.slice(0, found.index));
    const to = readUnit(text.slice(found.index + found[0].length + 1));
    if (from === undefined || to === undefined || to.rest.trim() !== "") continue;
    const unit = unitOf(to.spelling);
    if (unit !== undefined) return converted(from, unit, difference);
  }
  const alone = wholeQuantity(text);
  return alone === undefined ? undefined : bothSystems(alone, difference);
}

function wholeQuantity(text: string): Measured | undefined {
  const read = readQuantity(text);
  return read === undefined || read.rest.trim() !== "" ? undefined : read.measured;
}

function converted(from: Measured, to: Unit, asked: boolean): Answer {
  if (from.unit.dimension !== to.dimension)
    return notKnown(
      `${from.unit.name} measures ${measures(from.unit)} and ${to.name} measures ${measures(to)}: one can't be put in the other.`,
      `${from.figure} ${from.unit.name}`,
    );
  const temperature = from.unit.dimension === "temperature";
  const difference = asked && temperature;
  const result = difference ? asDifference(from).div(to.factor) : inUnit(from, to);
  const values: Value[] = [value("result", result, to.name)];
  const exactly = values[0]?.rounded === undefined && from.unit.inexact === undefined && to.inexact === undefined;
  const text = `${values[0]?.value} ${to.name}`;
  const what = difference ? " as a difference" : "";
  const also = temperature && !difference && (from.unit.offset !== undefined || to.offset !== undefined) ? asDifferenceToo(from, to) : undefined;
  if (also !== undefined) values.push(also);
  const line = `${from.figure} ${from.unit.name}${what} = ${text}${exactly ? ", exactly" : ""}.${also === undefined ? "" : ` As a difference of temperatures it would be ${shown(asDifference(from).div(to.factor), 6)} ${to.name}.`}`;
  return known(line, values, sourcesOf(from.unit, to));
}

function asDifferenceToo(from: Measured, to: Unit): Value {
  return value("as a difference", asDifference(from).div(to.factor), to.name);
}

function bothSystems(it: Measured, asked: boolean): Answer | undefined {
  const others = otherSystem(it);
  if (others.length === 0) return known(`${it.figure} ${it.unit.name}`, [value("result", inUnit(it, it.unit), it.unit.name)], sourcesOf(it.unit));
  const units = others.map((text) => unitOf(text.slice(text.indexOf(" ") + 1))).filter((unit) => unit !== undefined);
  const [only] = units;
  if (units.length === 1 && only !== undefined) return converted(it, only, asked);
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
