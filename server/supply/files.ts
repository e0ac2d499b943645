// The files of several jobs, each once.
import type { Job } from "../model/job.ts";
import type { JobFile } from "../model/job-files.ts";

/** Each file of the jobs once, with the first job that uses it. */
export function filesOf(jobs: readonly Job[]): { job: Job; file: JobFile }[] {
  const seen = new Map<string, { job: Job; file: JobFile }>();
  for (const job of jobs) for (const file of job.files) if (!seen.has(file.path)) seen.set(file.path, { job, file });
  return [...seen.values()];
}
