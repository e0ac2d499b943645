// What renaming a name writes: in every sheet of the workspace that knows the name from the same declaration.
// Invariant: pure; says where a text goes and writes nothing; and no line that it would write reads as anything but the same line with another name.
import { type SheetText, lineText, readSheet } from "../../grammar/sheet-text.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { Files } from "../model/files.ts";
import type { Job } from "../model/job.ts";
import { everywhere } from "./everywhere.ts";
import { type Place, renamableAt, whyNotName } from "./names.ts";

export interface Renamed {
  /** As it is to be written: in the normal form of Unicode in which names are compared. */
  readonly name: string;
  readonly places: readonly Place[];
}

/** Undefined where nothing that can be renamed stands there. */
export function* renamed(files: Files, job: Job, line: number, column: number, name: string): Slices<Renamed | { readonly why: string } | undefined> {
  const found = yield* renamableAt(job, line, column);
  if (found === undefined) return undefined;
  const before = found.name.text;
  const after = name.normalize("NFC");
  if (after === before) return { name: before, places: [] };
  const why = whyNotName(job, name, found.sort);
  if (why !== undefined) return { why };
  const places = yield* everywhere(files, job, found);
  const broken = yield* otherwiseRead(files, job, places, { before, after });
  return broken === undefined ? { name: after, places } : { why: `“${name}” can't be its name: ${broken} would be read otherwise.` };
}

interface NewName {
  readonly before: string;
  readonly after: string;
}

/** The first line that would say something else with the new name in it, by its file and its number; every entry that has the name is read with it. */
function* otherwiseRead(files: Files, job: Job, places: readonly Place[], name: NewName): Slices<string | undefined> {
  let sheet: SheetText | undefined;
  for (let i = 0; i < places.length; ) {
    yield;
    const { file, line } = places[i] as Place;
    if (i === 0 || places[i - 1]?.file !== file) sheet = sheetOf(files, job, file);
    const index = sheet?.starts.findLastIndex((it) => it <= line) ?? -1;
    const start = sheet?.starts[index] ?? line;
    const end = start + Math.max(1, sheet?.entries[index]?.rows ?? 1);
    const here: Place[] = [];
    for (; i < places.length && places[i]?.file === file && (places[i] as Place).line < end; i++) here.push(places[i] as Place);
    if (sheet === undefined) continue;
    const row = rowOtherwiseRead(sheet, { start, end }, here, name);
    if (row !== undefined) return `line ${start + row + 1}${file === job.path ? "" : ` of ${file}`} (\`${lineText(sheet, start + row).trim()}\`)`;
  }
  return undefined;
}

function sheetOf(files: Files, job: Job, file: string): SheetText | undefined {
  const known = job.files.find((it) => it.path === file)?.sheet ?? files.read(file);
  return typeof known === "string" ? undefined : known;
}

/** Counted from the head of the entry. */
function rowOtherwiseRead(sheet: SheetText, { start, end }: { start: number; end: number }, places: readonly Place[], name: NewName): number | undefined {
  const lines = Array.from({ length: end - start }, (_, row) => lineText(sheet, start + row));
  const anew = [...lines];
  // From behind, so that no place moves another.
  for (const { line, from, to } of [...places].reverse()) {
    const text = anew[line - start] as string;
    anew[line - start] = `${text.slice(0, from)}${name.after}${text.slice(to)}`;
  }
  const was = readSheet(lines.join("\n")).entries;
  const is = readSheet(anew.join("\n")).entries;
  if (was.length === is.length && saysTheSame(was, is, name)) return undefined;
  const rows = places.map((it) => it.line - start);
  return rows.find((row) => !saysTheSame(linesIn(was, row), linesIn(is, row), name)) ?? rows[0] ?? 0;
}

function linesIn(entries: ReturnType<typeof readSheet>["entries"], row: number): unknown[] {
  return entries.flatMap((entry) => [
    ...(row === 0 ? [{ ...entry, details: [], stray: [], rows: 0 }] : []),
    ...[...entry.details, ...entry.stray].filter((it) => it.row === row),
  ]);
}

/** Two trees that differ in the name alone, and in the columns that it moves. Of a line that can't be read, that it still can't. */
function saysTheSame(a: unknown, b: unknown, name: NewName): boolean {
  if (typeof a === "string" || typeof b === "string") return a === b || (a === name.before && b === name.after);
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b;
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((it, i) => saysTheSame(it, b[i], name));
  if (isColumns(a) || isColumns(b)) return isColumns(a) && isColumns(b);
  const said = Object.entries(a).filter(([, value]) => value !== undefined);
  const others = new Map(Object.entries(b).filter(([, value]) => value !== undefined));
  return said.length === others.size && said.every(([key, value]) => others.has(key) && (key === "fault" || saysTheSame(value, others.get(key), name)));
}

function isColumns(it: object): boolean {
  return "from" in it && "to" in it && typeof it.from === "number" && typeof it.to === "number";
}
