// What is left blank, `___`, taken out of a line that has been read: a field that holds a blank is absent, and the line says where its blanks are.
// Invariant: no name, figure, text or date of underscores is left in any node; what was written beside a blank stays, unless it says nothing without it.
import type { IToken } from "chevrotain";
import { isBlankText } from "./blank-text.ts";
import { type Draft, spanOf } from "./line-nodes.ts";
import type { Line, Span } from "./tree.ts";

/** Nodes inside a line that say something though one of their fields is left blank: a name without its count, a condition without its words. */
const standsWithout: Readonly<Record<string, readonly string[]>> = { count: ["name", "thickness"], text: ["word"], from: ["word"], amount: ["word", "item"] };
/** One unit at the end may serve all figures of these lists, so that they are left out together. */
const together = new Set(["figures", "stages"]);

/** Takes the blanks out of `node`, and notes where they stand. */
export function takeBlanks(node: Draft, blanks: readonly IToken[]): void {
  const spans = blanks.map(spanOf);
  for (const field of Object.keys(node)) {
    if (field === "at" || field === "keyword" || field === "fault" || field === "blanks") continue;
    const value = node[field];
    const kept = Array.isArray(value) ? listWithout(value, field, spans) : without(value, spans);
    if (kept === undefined) delete node[field];
    else node[field] = kept;
  }
  node.blanks = spans;
}

/** Whether a line says nothing that can be taken as done, measured, found or declared: it can't be read, or something in it is left blank. */
export function unsaid(line: Line): boolean {
  return line.fault !== undefined || line.blanks !== undefined;
}

function listWithout(list: readonly unknown[], field: string, blanks: readonly Span[]): unknown[] {
  const kept = list.map((it) => without(it, blanks)).filter((it) => it !== undefined);
  return together.has(field) && kept.length < list.length ? [] : kept;
}

/** A value without its blanks; undefined where nothing is left that says anything. A list inside a line's field is left out with any of its members. */
function without(value: unknown, blanks: readonly Span[]): unknown {
  if (Array.isArray(value)) return value.some((it) => without(it, blanks) === undefined) ? undefined : value.map((it) => without(it, blanks));
  if (typeof value === "string") return /_{3,}/.test(value) ? undefined : value;
  if (value === null || typeof value !== "object") return value;
  if (isSpan(value)) return blanks.some((it) => it.from === value.from && it.to === value.to) ? undefined : value;
  if ("at" in value && "value" in value) return isBlankText(String(value.value)) ? undefined : value;
  const made: Draft = {};
  for (const [key, it] of Object.entries(value)) {
    const kept = key === "at" ? it : without(it, blanks);
    if (kept !== undefined) made[key] = kept;
    else if (it !== undefined && !(standsWithout[key] ?? []).some((beside) => beside in value)) return undefined;
  }
  return made;
}

function isSpan(value: object): value is Span {
  return typeof (value as Partial<Span>).from === "number" && typeof (value as Partial<Span>).to === "number" && Object.keys(value).length === 2;
}
