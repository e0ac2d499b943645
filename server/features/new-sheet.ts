// A new job sheet: its head, and beside it a data sheet of what is to come apart, put together from starting assemblies.
// Invariant: nothing in it was not asked for or is not a blank: a start asks for every figure and answers none.
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Name } from "../../grammar/tree.ts";
import { kindDeclared } from "../model/declare.ts";

/** A starting assembly: a data sheet of parts, fasteners, limits, hazards and checks, with blanks for whatever a maker's book has to say. */
export interface Start {
  /** By which it is asked for: `live-axle`. */
  readonly name: string;
  readonly text: string;
}

export interface NewSheet {
  /** What is the matter, or what the job is about. */
  readonly matter: string;
  readonly machine: string;
  /** ISO 8601. */
  readonly today: string;
  readonly starts: readonly Start[];
}

/** Files by name, the job first. */
export interface WrittenSheet {
  readonly name: string;
  readonly text: string;
}

/** Whether a file may be called so: a name without a folder, that nothing reads as an option or hides. */
export function isFileName(name: string): boolean {
  return /^[\p{L}\p{N}][\p{L}\p{M}\p{N} ._-]*$/u.test(name);
}

/** `name` is that of the job's file, without its ending. What is left empty is a blank. */
export function newSheet(name: string, { matter, machine, today, starts }: NewSheet): WrittenSheet[] {
  const data = `${name}-data.jobsheet`;
  const lines = [
    `sheet ${quoted(matter)}`,
    `  machine ${quoted(machine)}`,
    '  by "___"',
    `  opened ${today}`,
    "",
    ...(starts.length === 0 ? ["# Next, what it is made of: part, fastener, limit, hazard."] : [`use "${data}"`]),
    "",
    `day ${today}`,
    "",
    "# Next, what you do (step), what you see (finding) and what you read (measure), as it comes.",
    "",
  ];
  const job = { name: `${name}.jobsheet`, text: lines.join("\n") };
  return starts.length === 0 ? [job] : [job, { name: data, text: together(starts) }];
}

/** What a start is for, as its first line says it. */
export function titleOf(start: Start): string {
  const said = /^# Starting assembly: (.*?)\.?\s*$/m.exec(start.text)?.[1] ?? start.name;
  return said.charAt(0).toUpperCase() + said.slice(1);
}

/** One data sheet of several starts: what two of them declare is declared once, by the first of them. */
export function together(starts: readonly Start[]): string {
  const [first, ...others] = starts;
  if (first === undefined) return "";
  const known = new Set(declaredIn(first.text).map((it) => it.key));
  let text = first.text;
  for (const { name, text: whole } of others) {
    const lines = whole.split("\n");
    const entries = declaredIn(whole);
    const kept: string[] = [];
    for (const [i, { key, from }] of entries.entries()) {
      if (known.has(key)) continue;
      known.add(key);
      kept.push(
        withoutHeading(lines.slice(from, entries[i + 1]?.from ?? lines.length))
          .join("\n")
          .trimEnd(),
      );
    }
    const title = titleOf({ name, text: whole });
    text = `${text.trimEnd()}\n\n# ------------------------------------------------------------------ ${title.charAt(0).toLowerCase()}${title.slice(1)}\n\n${kept.join("\n\n")}\n`;
  }
  return text;
}

interface Declared {
  /** What it declares: a kind and a name. */
  readonly key: string;
  /** Its first line. */
  readonly from: number;
}

function declaredIn(text: string): Declared[] {
  const sheet = readSheet(text);
  return sheet.entries.map((entry, i) => {
    const from = sheet.starts[i] ?? 0;
    // Things share their names; a kind of places may be called as a thing is.
    if (entry.kind === "places") return { key: `places ${entry.placeKind?.text}`, from };
    const name = (entry as { readonly name?: Name }).name?.text;
    return { key: kindDeclared(entry) === undefined || name === undefined ? `line ${from} of ${text}` : name, from };
  });
}

/** Comments at the end of an entry are headings of what follows it. */
function withoutHeading(lines: readonly string[]): string[] {
  const kept = [...lines];
  while (kept.length > 0 && (kept.at(-1)?.trim() === "" || kept.at(-1)?.startsWith("#") === true)) kept.pop();
  return kept;
}

/** A text as a sheet writes it; a blank where it says nothing. */
function quoted(text: string): string {
  const line = text.replace(/\s+/g, " ").trim();
  return line === "" ? '"___"' : `"${line.replace(/[\\"]/g, "\\$&")}"`;
}
