// Every place of a name over a whole workspace: in all sheets that know it from the same declaration.
import type { Files } from "../model/files.ts";
import { type Job, buildJob } from "../model/job.ts";
import { type NameAt, nameAt } from "./at.ts";
import { type Occurrence, type Place, occurrences } from "./names.ts";

/** Every place of the name under the cursor. */
export function referencesAt(files: Files, job: Job, line: number, column: number, withDeclarations: boolean): Place[] {
  const found = nameAt(job.own.sheet, line, column);
  return found === undefined ? [] : everywhere(files, job, found).filter((it) => withDeclarations || !it.declares);
}

/** In the order of files and lines. A sheet that uses the declaring file knows the name too, though this sheet does not know of it. */
export function everywhere(files: Files, job: Job, found: NameAt): Occurrence[] {
  const here = occurrences(job, found.name.text, found.sort);
  const declaredIn = new Set(here.filter((it) => it.declares).map((it) => it.file));
  const all = new Map<string, Occurrence>();
  const jobs = [job, ...(files.jobsheets?.() ?? []).map((path) => buildJob(files, path))];
  for (const each of jobs) {
    if (each === undefined || (each !== job && !each.files.some((file) => declaredIn.has(file.path)))) continue;
    for (const it of occurrences(each, found.name.text, found.sort)) all.set(`${it.file}\n${it.line}\n${it.from}`, it);
  }
  const places = [...all.values()];
  return places.sort((a, b) => (a.file === b.file ? a.line - b.line || a.from - b.from : a.file < b.file ? -1 : 1));
}
