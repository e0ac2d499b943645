// Reads a question as it was typed: tidies it, splits it at the words that name its parts, and reads quantities, lists and ranges in each.
// Invariant: never throws, whatever was typed; a unit that means two things is never given one of them.
import { readSheet } from "../../../grammar/sheet-text.ts";
import { bandOf } from "../../model/values.ts";
import { type Exact, exact } from "../../quantities/exact.ts";
import { type Measured, quantity } from "../../quantities/quantity.ts";
import type { Band } from "../../quantities/range.ts";
import { ambiguousUnit, unitOf } from "../../quantities/units.ts";

/** Longer than this is no question; a list of a thousand readings is well below. */
export const longest = 60_000;

/** Single blanks, plain signs for their typographic twins, no quotes, no question mark at the end. */
export function tidyQuery(query: string): string {
  return query
    .slice(0, longest)
    .normalize("NFC")
    .replace(/[\u2010-\u2015\u2212]/g, "-")
    .replace(/\u00d7/g, "x")
    .replace(/[\u2018\u2019\u201c\u201d"'`]/g, " ")
    .replace(/\u2026/g, " .. ")
    .replace(/[\p{Cc}\p{Cf}\s]+/gu, " ")
    .trim()
    .replace(/(?<![?! ])[?! ]{1,20}$/, "");
}

/** The parts of a question by the word that leads each; what stands before the first has the name "". */
export type Parts = ReadonlyMap<string, string>;

/**
 * Splits at words: `{ on: "on|length", at: "at|angle" }` gives what stands behind each. A word that comes twice joins its parts with a comma.
 * The words are matched whole and without regard to capitals.
 */
export function partsOf(text: string, leads: Readonly<Record<string, string>>): Parts {
  const out = new Map<string, string>();
  const names = Object.keys(leads);
  const every = new RegExp(`(?<![\\p{L}\\p{N}.-])(?:${names.map((name) => `(${leads[name]})`).join("|")})(?![\\p{L}\\p{N}-])`, "giu");
  let at = 0;
  let lead = "";
  const put = (to: number) => {
    const part = text.slice(at, to).trim();
    const before = out.get(lead);
    out.set(lead, before === undefined || before === "" ? part : part === "" ? before : `${before}, ${part}`);
  };
  for (const found of text.matchAll(every)) {
    put(found.index);
    lead = names[found.slice(1).findIndex((it) => it !== undefined)] ?? "";
    at = found.index + found[0].length;
  }
  put(text.length);
  return out;
}

const figureShape = "[+-]?(?:\\d+-\\d+/\\d+|\\d+/\\d+|\\d+(?:\\.\\d+)?|\\.\\d+)";
// A unit's letters may be followed by its own dots, dashes, slashes and raised figures; the end of a sentence is none of it.
const unitShape = "[\\p{L}%\\u00b0\\u00b5](?:[\\p{L}\\u00b0\\u00b7\\u22c5\\u00b2\\u00b3./-]*[\\p{L}\\u00b2\\u00b323])?";
const one = new RegExp(`^[\\s,:=]*(${figureShape})(?![\\d/])\\s?(${unitShape})?`, "u");

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
export function readQuantity(text: string): Read | undefined {
  const found = one.exec(text);
  if (found === null) return undefined;
  const figureText = found[1] as string;
  const figure = exact(figureText);
  if (figure === undefined) return undefined;
  const behindFigure = text.slice((found.index ?? 0) + text.indexOf(figureText) + figureText.length).trimStart();
  const unit = readUnit(behindFigure);
  if (unit !== undefined) {
    const measured = quantity(figureText, unit.spelling);
    if (measured !== undefined) return { figure, text: figureText, measured, rest: unit.rest };
  }
  const strange = found[2];
  return { figure, text: figureText, ...(strange === undefined ? {} : { strange }), rest: behindFigure };
}

/** The unit at the start of a text: up to three words that together spell one, the longest first. */
export function readUnit(text: string): { readonly spelling: string; readonly rest: string } | undefined {
  const words = /^(\S+)(?: (\S+))?(?: (\S+))?/.exec(text.slice(0, 80));
  if (words === null) return undefined;
  for (let count = 3; count > 0; count--) {
    const taken = words.slice(1, count + 1);
    if (taken.some((it) => it === undefined)) continue;
    const written = taken.join(" ");
    const bare = written.replace(/[,;:)]+$/, "");
    const spelling = unitSaid(bare);
    if (spelling !== undefined) return { spelling, rest: text.slice(bare.length) };
  }
  // `mm,0.10`: the unit ends where letters do.
  const glued = new RegExp(`^${unitShape}`, "u").exec(text)?.[0];
  const spelling = glued === undefined ? undefined : unitSaid(glued);
  return spelling === undefined || glued === undefined ? undefined : { spelling, rest: text.slice(glued.length) };
}

const countries: Readonly<Record<string, string>> = {
  imperial: "imp",
  imp: "imp",
  uk: "imp",
  british: "imp",
  us: "us",
  american: "us",
  long: "long",
  short: "short",
};

/** `imperial gallon`, `US fluid ounce`, `arc minute`, `lbf ft` as a sheet spells them. */
function unitSaid(words: string): string | undefined {
  if (unitOf(words) !== undefined) return words;
  const plain = words
    .toLowerCase()
    .replace(/\bfluid ounces?\b/, "floz")
    .replace(/\bfl\.? ?oz\b/, "floz")
    .replace(/^cubic inch(es)?$/, "cu.in")
    .replace(/^arc ?minutes?$/, "arcmin")
    .replace(/^metric hp$/, "metric.hp")
    .trim();
  const [first = "", ...others] = plain.split(" ");
  const country = countries[first];
  const tries = [
    // Capitals count in short ones: `M` is no metre and `nm` no torque.
    ...(words.length > 2 ? [plain] : []),
    ...(others.length > 0 ? [plain.replace(/ /g, ""), words.replace(/ /g, ".")] : []),
    ...(country === undefined ? [] : [`${country}.${others.join(".")}`, `${country}.${others.join("")}`]),
  ];
  return tries.find((it) => unitOf(it) !== undefined);
}

/** The one quantity that a text begins with. */
export function quantityIn(text: string | undefined): Measured | undefined {
  return text === undefined ? undefined : readQuantity(text)?.measured;
}

/** The one plain figure that a text begins with. */
export function figureIn(text: string | undefined): Exact | undefined {
  return text === undefined ? undefined : readQuantity(text)?.figure;
}

export interface Listed {
  readonly value: Measured | undefined;
  readonly figure: Exact;
  /** `x 4`: so many of it. */
  readonly count?: number;
  /** `nu 18` */
  readonly degrees?: Exact;
}

/** A list with a unit at each figure or at the last alone: `1.1, 1.2 mm`, `0.05 mm x 4, 0.10 mm x 3`. Undefined where something in it can't be read. */
export function listIn(text: string | undefined): Listed[] | undefined {
  if (text === undefined || text.trim() === "") return undefined;
  const out: (Read & { count?: number; degrees?: Exact })[] = [];
  let rest = text;
  while (rest.trim() !== "") {
    const read = readQuantity(rest);
    if (read === undefined) return undefined;
    const tail = /^\s*(?:x|\*)\s*(\d{1,6})(?![\d.])/i.exec(read.rest);
    rest = tail === null ? read.rest : read.rest.slice(tail[0].length);
    const nu = /^\s*(?:nu|df|degrees of freedom)\s*(\d+(?:\.\d+)?)/i.exec(rest);
    if (nu !== null) rest = rest.slice(nu[0].length);
    if (
      out.push({ ...read, ...(tail === null ? {} : { count: Number(tail[1]) }), ...(nu === null ? {} : { degrees: exact(nu[1] as string) ?? read.figure }) }) >
      5000
    )
      return undefined;
    const next = rest.replace(/^[\s,;]*(?:and\b)?[\s,;]*/i, "");
    if (next === rest && rest !== "") return undefined;
    rest = next;
  }
  const last = out.at(-1)?.measured;
  const alone = out.slice(0, -1).every((it) => it.measured === undefined);
  return out.map((it) => ({
    value: it.measured ?? (last !== undefined && alone ? quantity(it.text, last.unit.spelling) : undefined),
    figure: it.figure,
    ...(it.count === undefined ? {} : { count: it.count }),
    ...(it.degrees === undefined ? {} : { degrees: it.degrees }),
  }));
}

/** A range as a sheet writes it, anywhere a sheet may: `0.10 .. 0.15 mm`, `max 0.15 mm`, `25 H7 mm`. Read by the reader of sheets itself. */
export function bandIn(text: string | undefined): Band | undefined {
  if (text === undefined || text.trim() === "" || text.length > 200 || text.includes("#")) return undefined;
  const entry = readSheet(`limit asked\n  worn ${text.trim()}\n`).entries[0];
  const detail = entry?.details[0];
  return detail?.kind === "worn" && detail.fault === undefined ? bandOf(detail.range) : undefined;
}

/** What a unit that means two things may be, where one stands in a text. */
export function ambiguousIn(text: string): { readonly spelling: string; readonly meanings: readonly string[] } | undefined {
  for (const found of text.matchAll(/(?<=[\d\s])[\p{L}][\p{L}.-]*/gu)) {
    const two = ambiguousUnit(found[0].toLowerCase()) ?? ambiguousUnit(found[0]);
    if (two === undefined) continue;
    const before = text.slice(0, found.index).trimEnd().split(" ").pop()?.toLowerCase() ?? "";
    if (countries[before] === undefined) return two;
  }
  return undefined;
}
