// Where a name is declared and where it is used, over a sheet and the files that it uses; and what renaming it would write.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import type { SheetText } from "../../grammar/sheet-text.ts";
import { goesOnBy } from "../../grammar/tokens.ts";
import { detailWords, entryWord } from "../../grammar/words.ts";
import type { Job } from "../model/job.ts";
import { joinPath } from "../model/files.ts";
import { isUnitSpelling } from "../quantities/units.ts";
import { type NameAt, type NameSort, lineAt, nameAt, namesOf } from "./at.ts";

/** `line` counts from 0; columns in UTF-16 units. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

/** The lines that declare the name under the cursor; of a `use`, the first line of the file that it names. */
export function* definitionsAt(job: Job, line: number, column: number): Slices<Place[]> {
  const found = nameAt(job.own.sheet, line, column);
  if (found !== undefined) return (yield* occurrences(job, found.name.text, found.sort)).filter((it) => it.declares);
  const entry = lineAt(job.own.sheet, line)?.line;
  if (entry?.kind !== "use" || entry.path === undefined || column < entry.path.at.from || column > entry.path.at.to) return [];
  const used = joinPath(job.path, entry.path.value);
  return job.files.some((it) => it.path === used) && used !== undefined ? [{ file: used, line: 0, from: 0, to: 0 }] : [];
}

/** The name under the cursor if it can be renamed: something in the job must declare it. */
export function* renamableAt(job: Job, line: number, column: number): Slices<NameAt | undefined> {
  const found = nameAt(job.own.sheet, line, column);
  if (found === undefined) return undefined;
  return (yield* occurrences(job, found.name.text, found.sort)).some((it) => it.declares) ? found : undefined;
}

/** Which a line of readings, that begins with its place, would take for its own words. */
const wordsOfReadings: ReadonlySet<string> = new Set([
  "again",
  ...detailWords.filter((it) => it.under === "any" || it.under.includes("measure")).map((it) => it.word),
]);

/** Why a name can't be given to something, or undefined where it can. */
export function whyNotName(job: Job, name: string, sort: NameSort): string | undefined {
  const text = name.normalize("NFC");
  if (!/^\p{L}[\p{L}\p{M}\p{N}]*(-[\p{L}\p{M}\p{N}]+)*$/u.test(text))
    return `“${name}” can't be a name: a name is a letter, then letters, digits and single hyphens.`;
  if (sort === "place" && (goesOnBy(text) || wordsOfReadings.has(text))) return `“${text}” can't be a place: after a name it is read as a word of the line.`;
  if (sort === "place" && entryWord(text) !== undefined) return `“${text}” can't be a place: at the start of a line it is read as the keyword.`;
  if (sort === "place" && isUnitSpelling(text)) return `“${text}” can't be a place: it is a unit.`;
  const taken = sort === "thing" ? job.things.has(text) : sort === "place" ? job.kindsOfPlace.has(text) : job.placeKinds.has(text);
  return taken ? `There is already something called “${text}”.` : undefined;
}

export interface Occurrence extends Place {
  readonly declares: boolean;
}

/** In the order of files and lines. */
export function* occurrences(job: Job, text: string, sort: NameSort): Slices<Occurrence[]> {
  const out: Occurrence[] = [];
  for (const { path, sheet } of job.files) out.push(...(yield* inSheet(path, sheet, text, sort)));
  return out;
}

function* inSheet(file: string, sheet: SheetText, text: string, sort: NameSort): Slices<Occurrence[]> {
  const out: Occurrence[] = [];
  for (const [i, entry] of sheet.entries.entries()) {
    if (i % someAtOnce === 0) yield;
    for (const it of namesOf(entry)) {
      if (it.sort !== sort || it.name.text !== text) continue;
      out.push({ file, line: (sheet.starts[i] ?? 0) + it.row, from: it.name.at.from, to: it.name.at.to, declares: it.declares });
    }
  }
  return out.sort((a, b) => a.line - b.line || a.from - b.from);
}
