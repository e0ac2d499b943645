// Every place of a name over a whole workspace: in all sheets that know it from the same declaration.
import type { Slices } from "../../grammar/slices.ts";
import type { Files } from "../model/files.ts";
import { type Job, building } from "../model/job.ts";
import { type NameAt, nameAt } from "./at.ts";
import { type Occurrence, type Place, occurrences } from "./names.ts";

/** Every place of the name under the cursor. */
export function* referencesAt(files: Files, job: Job, line: number, column: number, withDeclarations: boolean): Slices<Place[]> {
  const found = nameAt(job.own.sheet, line, column);
  return found === undefined ? [] : (yield* everywhere(files, job, found)).filter((it) => withDeclarations || !it.declares);
}

/** In the order of files and lines. A sheet that uses the declaring file knows the name too, though this sheet does not know of it. */
export function* everywhere(files: Files, job: Job, found: NameAt): Slices<Occurrence[]> {
  const here = yield* occurrences(job, found.name.text, found.sort);
  const declaredIn = new Set(here.filter((it) => it.declares).map((it) => it.file));
  const all = new Map<string, Occurrence>();
  const add = (it: Occurrence) => all.set(`${it.file}\n${it.line}\n${it.from}`, it);
  here.forEach(add);
  for (const path of files.jobsheets?.() ?? []) {
    yield;
    if (path === job.path) continue;
    const other = yield* building(files, path);
    if (other?.files.some((file) => declaredIn.has(file.path)) === true) (yield* occurrences(other, found.name.text, found.sort)).forEach(add);
  }
  const places = [...all.values()];
  return places.sort((a, b) => (a.file === b.file ? a.line - b.line || a.from - b.from : a.file < b.file ? -1 : 1));
}
