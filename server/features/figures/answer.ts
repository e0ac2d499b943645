// What an answer at the bench is made of: one line to read, the values behind it, where they come from and how sure they are.
// Invariant: every value is a decimal that is exactly its figure, or says that it was rounded; what is not known is said to be so, with what could be asked.
import { type Exact, placesOf, plainText, significantText, trimmed } from "../../quantities/exact.ts";
import type { Measured } from "../../quantities/quantity.ts";
import { type Unit, fromBase } from "../../quantities/units.ts";
import { type Mark, sourceText } from "../../trade/source.ts";

export type Confidence = "published table" | "computed" | "from memory" | "estimate";

export interface Value {
  readonly name: string;
  /** A decimal; or a word, where the answer is one (a verdict, the kind of a fit). */
  readonly value: string;
  /** As a sheet writes it; empty for a plain number or a word. */
  readonly unit: string;
  /** The decimal goes on, and was cut to its last digit here. */
  readonly rounded?: true;
}

export interface Known {
  readonly known: true;
  /** One line, to be read. */
  readonly line: string;
  readonly values: readonly Value[];
  /** Where the figures come from, with what is from memory said. */
  readonly source: string;
  /** That of the weakest figure in the answer. */
  readonly confidence: Confidence;
  readonly cautions: readonly string[];
}

export interface NotKnown {
  readonly known: false;
  readonly line: string;
  /** Questions that have an answer, as they would be asked. */
  readonly ask: readonly string[];
}

export type Answer = Known | NotKnown;

export function notKnown(line: string, ...ask: string[]): NotKnown {
  return { known: false, line, ask };
}

interface From {
  readonly source: string;
  readonly mark: Mark | "estimate";
}

/** An answer that rests on these sources; it is as sure as the weakest of them. */
export function known(line: string, values: readonly Value[], from: readonly From[], cautions: readonly string[] = []): Known {
  const confidence = from.map((it) => confidenceOf[it.mark]).reduce((a, b) => (rank.indexOf(a) >= rank.indexOf(b) ? a : b), rank[0] as Confidence);
  // Where all was worked out the confidence says so once.
  const all = from.every((it) => it.mark === "computed");
  const said = from.map((it) => {
    if (it.mark === "estimate") return it.source.endsWith("estimate") ? it.source : `${it.source}, an estimate`;
    return all ? it.source : sourceText({ source: it.source, mark: it.mark });
  });
  return { known: true, line, values, source: [...new Set(said)].join("; "), confidence, cautions };
}

/** Two answers in one, as sure as the weaker. */
export function together(a: Known, b: Known): Known {
  const confidence = rank.indexOf(a.confidence) >= rank.indexOf(b.confidence) ? a.confidence : b.confidence;
  const cautions = [...new Set([...a.cautions, ...b.cautions])];
  return { known: true, line: `${a.line} ${b.line}`, values: [...a.values, ...b.values], source: `${a.source}; ${b.source}`, confidence, cautions };
}

/** The surest first. */
const rank: readonly Confidence[] = ["published table", "computed", "from memory", "estimate"];

const confidenceOf: Readonly<Record<Mark | "estimate", Confidence>> = {
  table: "published table",
  data: "published table",
  computed: "computed",
  memory: "from memory",
  estimate: "estimate",
};

/** A value with its unit's spelling. Where no decimal is exactly it, 15 digits of it. */
export function value(name: string, x: Exact, unit = "", digits = 15): Value {
  const places = placesOf(x);
  if (places !== undefined && places <= 25) return { name, value: plainText(x), unit };
  return { name, value: significantText(x, digits), unit, rounded: true };
}

/** A base value in a unit. */
export function valueIn(name: string, base: Exact, unit: Unit): Value {
  return value(name, fromBase(base, unit), unit.name);
}

/** A value that was worked out in floats: six digits of it, and said to be rounded. */
export function roughly(name: string, x: number, unit = ""): Value {
  return { name, value: plainFloat(x), unit, rounded: true };
}

export function word(name: string, text: string): Value {
  return { name, value: text, unit: "" };
}

/** Six digits that count, without an exponent. */
export function plainFloat(x: number): string {
  if (!Number.isFinite(x)) return "";
  const fixed = x.toPrecision(6);
  return trimmed(fixed.includes("e") ? x.toFixed(12) : fixed);
}

/** To be read: five digits that count. */
export function shown(x: Exact, digits = 5): string {
  return significantText(x, digits);
}

/** A quantity as it was written. */
export function asWritten(it: Measured): string {
  return `${it.figure} ${it.unit.spelling}`;
}
