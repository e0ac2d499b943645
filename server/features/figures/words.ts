// Reads what a question says: tidies it, turns the trade's words for figures and units into those of a sheet, and reads quantities, lists and ranges.
// Invariant: never throws, whatever was typed; a unit that means two things is never given one of them; what is read is taken out of the question.
import { readSheet } from "../../../grammar/sheet-text.ts";
import { bandOf } from "../../model/values.ts";
import { type Exact, exact, isNegative } from "../../quantities/exact.ts";
import type { Measured } from "../../quantities/quantity.ts";
import type { Band } from "../../quantities/range.ts";
import { type Dimension, type Unit, ambiguousUnit, toBase } from "../../quantities/units.ts";
import { benchUnit, countries } from "./bench-units.ts";
import { type Part, cut } from "./question.ts";
import { figuresFromWords } from "./spoken-figures.ts";

/** Longer than this is no question; a list of a thousand readings is well below. */
export const longest = 60_000;

/** Single blanks, plain signs for their typographic twins, no quotes, no question mark at the end, figures for the words that say one. */
export function tidyQuery(query: string): string {
  const plain = query
    .slice(0, longest)
    .normalize("NFC")
    .replace(/[\u2010-\u2015\u2212]/g, "-")
    .replace(/\u00d7/g, "x")
    .replace(/(?<=\d)["\u201d\u2033]/g, " in ")
    .replace(/(?<=\p{L})['\u2019](?=s\b)/gu, "")
    .replace(/[\u2018\u2019\u201c\u201d"'`]/g, " ")
    .replace(/\u2026/g, " .. ")
    .replace(/[\p{Cc}\p{Cf}\s]+/gu, " ")
    .trim()
    .replace(/(?<![?! ])[?! ]{1,20}$/, "");
  return figuresFromWords(plain).replace(/(?<![\p{L}\d]|\d )\bminus (?=\.?\d)/giu, "-");
}

const figureShape = "[+-]?(?:\\d+-\\d+/\\d+|\\d+/\\d+|\\d+(?:\\.\\d+)?|\\.\\d+)";
// A unit's letters may be followed by its own dots, dashes, slashes and raised figures; the end of a sentence is none of it.
const unitShape = "[\\p{L}%\\u00b0\\u00b5](?:[\\p{L}\\u00b0\\u00b7\\u22c5\\u00b2\\u00b3./-]*[\\p{L}\\u00b2\\u00b323])?";
const lead = "^[\\s,;:=]*(?:(?:of|is|a|an|the|about)\\b[\\s,;:=]*)*";
const one = new RegExp(`${lead}(${figureShape})(?![\\d/])(?!\\.\\d)`, "iu");

export interface Read {
  readonly figure: Exact;
  readonly text: string;
  /** With its unit, where it has one. */
  readonly measured?: Measured;
  /** The word behind the figure, where it is no unit that means one thing. */
  readonly strange?: string;
  readonly rest: string;
}

/** The figure at the start of a text with the unit behind it, spelled as a sheet does or as people say it: `1 imperial gallon`. */
function readAt(text: string): Read | undefined {
  const found = one.exec(text);
  if (found === null) return undefined;
  const figureText = found[1] as string;
  const figure = exact(figureText);
  if (figure === undefined) return undefined;
  const behindFigure = text.slice(found[0].length).trimStart();
  const unit = readUnit(behindFigure);
  if (unit !== undefined) {
    const point = figureText.indexOf(".");
    const places = figureText.includes("/") ? -1 : point < 0 ? 0 : figureText.length - point - 1;
    return { figure, text: figureText, measured: { value: toBase(figure, unit.unit), unit: unit.unit, figure: figureText, places }, rest: unit.rest };
  }
  const strange = new RegExp(`^${unitShape}`, "u").exec(behindFigure)?.[0];
  return { figure, text: figureText, ...(strange === undefined ? {} : { strange }), rest: behindFigure };
}

/** Takes the figure that a stretch begins with, and its unit. */
export function readQuantity(part: Part | undefined): Read | undefined {
  const read = part === undefined ? undefined : readAt(part.left);
  if (part !== undefined && read !== undefined) part.left = read.rest;
  return read;
}

/** The unit at the start of a text: up to five words that together spell one, the longest first. */
export function readUnit(text: string): { readonly unit: Unit; readonly rest: string } | undefined {
  const words = /^(\S+)(?: (\S+))?(?: (\S+))?(?: (\S+))?(?: (\S+))?/.exec(text.slice(0, 80));
  if (words === null) return undefined;
  for (let count = 5; count > 0; count--) {
    const taken = words.slice(1, count + 1);
    if (taken.some((it) => it === undefined)) continue;
    const written = taken.join(" ");
    const stripped = written.replace(/[,;:)?]+$/, "").replace(/(?<=\p{L}{2})\.$/u, "");
    const unit = benchUnit(stripped);
    if (unit !== undefined) return { unit, rest: text.slice(stripped.length).replace(/^\.(?=\s|$)/, "") };
  }
  // `mm,0.10`: the unit ends where letters do.
  const glued = new RegExp(`^${unitShape}`, "u").exec(text)?.[0];
  const unit = glued === undefined || /^[\p{L}\p{N}]/u.test(text.slice(glued.length)) ? undefined : benchUnit(glued);
  return unit === undefined || glued === undefined ? undefined : { unit, rest: text.slice(glued.length) };
}

/** Takes the one quantity that a stretch begins with. */
export function quantityIn(part: Part | undefined): Measured | undefined {
  return readQuantity(part)?.measured;
}

/** Takes the plain figure that a stretch begins with: one with a unit is none. */
export function figureIn(part: Part | undefined): Exact | undefined {
  if (part === undefined) return undefined;
  const read = readAt(part.left);
  if (read === undefined || read.measured !== undefined) return undefined;
  part.left = read.rest;
  return read.figure;
}

const somewhere = new RegExp(`(?<![\\p{L}\\p{N}./+-])${figureShape}(?![\\d/])`, "gu");

/** Takes the first quantity of that dimension, wherever it stands. */
export function takeQuantity(part: Part, dimension: Dimension): Measured | undefined {
  for (const found of part.left.matchAll(somewhere)) {
    const read = readAt(part.left.slice(found.index));
    if (read?.measured?.unit.dimension !== dimension) continue;
    cut(part, found.index, part.left.length - read.rest.length);
    return read.measured;
  }
  return undefined;
}

/** Whether a quantity is more than nothing. */
export function above(it: Measured): boolean {
  return it.value.n !== 0n && !isNegative(it.value);
}

export interface Listed {
  readonly value: Measured | undefined;
  readonly figure: Exact;
  /** `x 4`: so many of it. */
  readonly count?: number;
  /** `nu 18` */
  readonly degrees?: Exact;
}

/** Takes a list with a unit at each figure or at the last alone: `1.1, 1.2 mm`, `0.05 mm x 4, 0.10 mm x 3`. Undefined where something in it can't be read. */
export function listIn(part: Part | undefined): Listed[] | undefined {
  const text = part?.left ?? "";
  if (text.trim() === "") return undefined;
  const out: (Read & { count?: number; degrees?: Exact })[] = [];
  let rest = text;
  while (rest.trim() !== "") {
    const read = readAt(rest);
    if (read === undefined) return undefined;
    const tail = /^\s*(?:x|\*)\s*(\d{1,6})(?![\d.])/i.exec(read.rest);
    rest = tail === null ? read.rest : read.rest.slice(tail[0].length);
    const nu = /^\s*(?:nu|df|degrees of freedom)\s*(\d+(?:\.\d+)?)/i.exec(rest);
    if (nu !== null) rest = rest.slice(nu[0].length);
    const length = out.push({
      ...read,
      ...(tail === null ? {} : { count: Number(tail[1]) }),
      ...(nu === null ? {} : { degrees: exact(nu[1] as string) ?? read.figure }),
    });
    if (length > 5000) return undefined;
    const next = rest.replace(/^[\s,;]*(?:and\b)?[\s,;]*/i, "");
    if (next === rest && rest !== "") return undefined;
    rest = next;
  }
  if (part !== undefined) part.left = "";
  const last = out.at(-1)?.measured;
  const alone = out.slice(0, -1).every((it) => it.measured === undefined);
  return out.map((it) => ({
    value: it.measured ?? (last !== undefined && alone ? inUnitOf(it, last.unit) : undefined),
    figure: it.figure,
    ...(it.count === undefined ? {} : { count: it.count }),
    ...(it.degrees === undefined ? {} : { degrees: it.degrees }),
  }));
}

/** A figure that takes the unit of another. */
export function inUnitOf(it: Pick<Read, "figure" | "text">, unit: Unit): Measured {
  return { value: toBase(it.figure, unit), unit, figure: it.text, places: it.text.includes("/") ? -1 : (it.text.split(".")[1]?.length ?? 0) };
}

/** A range as a sheet writes it, anywhere a sheet may: `0.10 .. 0.15 mm`, `max 0.15 mm`, `25 H7 mm`. Read by the reader of sheets itself. */
export function bandIn(part: Part | undefined): Band | undefined {
  const text = part?.left ?? "";
  if (part === undefined || text.trim() === "" || text.length > 200 || text.includes("#")) return undefined;
  const entry = readSheet(`limit asked\n  worn ${text.replace(/;/g, " ").trim()}\n`).entries[0];
  const detail = entry?.details[0];
  const band = detail?.kind === "worn" && detail.fault === undefined ? bandOf(detail.range) : undefined;
  if (band !== undefined) part.left = "";
  return band;
}

/** What a unit that means two things may be, where one stands in a text. */
export function ambiguousIn(text: string): { readonly spelling: string; readonly meanings: readonly string[] } | undefined {
  for (const found of text.matchAll(/(?<=[\d\s])[\p{L}][\p{L}.-]*/gu)) {
    const word = /^n\.?m\.?$/.test(found[0]) ? "nm" : found[0];
    if (word === "nm") return { spelling: found[0], meanings: ["N.m"] };
    const two = ambiguousUnit(word.toLowerCase()) ?? ambiguousUnit(word);
    if (two === undefined) continue;
    const before = text.slice(0, found.index).trimEnd().split(" ").pop()?.toLowerCase() ?? "";
    if (countries[before] === undefined) return { spelling: found[0], meanings: two.meanings };
  }
  return undefined;
}
