// Which of a sheet's own `use` lines leads to a file.
import type { UseEntry } from "../../../../grammar/tree.ts";
import { joinPath } from "../../../model/files.ts";
import type { Job } from "../../../model/job.ts";

/** The file's own `use` that leads to another file, at first hand or through others. */
export function leadingTo(job: Job, file: string): UseEntry | undefined {
  for (const entry of job.own.sheet.entries) {
    if (entry.kind === "use" && leads(job, job.path, entry, file, new Set())) return entry;
  }
  return undefined;
}

function leads(job: Job, from: string, entry: UseEntry, file: string, seen: Set<string>): boolean {
  const target = entry.path === undefined || entry.fault !== undefined ? undefined : joinPath(from, entry.path.value);
  if (target === undefined || seen.has(target)) return false;
  if (target === file) return true;
  seen.add(target);
  const next = job.files.find((it) => it.path === target);
  return next?.sheet.entries.some((it) => it.kind === "use" && leads(job, target, it, file, seen)) ?? false;
}
