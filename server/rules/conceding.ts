// Who may concede: a critical limit, of wear or of a setting, is excused by somebody else than who did the work.
// Invariant: names are compared as people write them, not as they are; the sheet's word is taken for who did it.
import type { Job } from "../model/job.ts";
import type { Concession, Story } from "../story/story.ts";

/** Whether it was conceded by who did the work: the sheet's `by`, a step's `done … by`, or who signs the release where the sheet names nobody. */
export function byTheDoer(job: Job, story: Story, concession: Concession): boolean {
  const by = plain(concession.entry.by?.value);
  return by === "" || doersOf(job, story).has(by);
}

function doersOf(job: Job, story: Story): ReadonlySet<string> {
  const names = new Set<string>();
  for (const detail of job.sheet?.details ?? []) if (detail.kind === "by") names.add(plain(detail.text?.value));
  names.delete("");
  if (names.size === 0) names.add(plain(story.release?.entry.by?.value));
  for (const { entry } of story.visits) for (const detail of entry.details) if (detail.kind === "done") names.add(plain(detail.by?.value));
  names.delete("");
  return names;
}

function plain(name: string | undefined): string {
  return (name ?? "")
    .normalize("NFC")
    .replace(/[.\s]+/gu, " ")
    .trim()
    .toLowerCase();
}
