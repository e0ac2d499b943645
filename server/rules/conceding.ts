// Who may concede: a critical limit, of wear or of a setting, is excused by somebody else than who did the work.
// Invariant: names are compared as people write them, not as they are; the sheet's word is taken for who did it.
import type { Job } from "../model/job.ts";
import type { Concession, Story } from "../story/story.ts";

/** Whether it was conceded by who did the work: the sheet's `by`, a step's `done … by`, or who signs the release where the sheet names nobody. */
export function byTheDoer(job: Job, story: Story, concession: Concession): boolean {
  return isDoer(job, story, concession.entry.by?.value);
}

/** Whether a name is of somebody who did the work; nobody named counts as that too. */
export function isDoer(job: Job, story: Story, name: string | undefined): boolean {
  const by = plain(name);
  if (by === "" || nobody.has(by)) return true;
  const doers = doersOf(job, story);
  return peopleIn(by).some((one) => doers.some((doer) => isSame(one, doer)));
}

/** Words that name nobody. */
const nobody: ReadonlySet<string> = new Set([
  "me",
  "myself",
  "i",
  "self",
  "owner",
  "the owner",
  "mechanic",
  "the mechanic",
  "fitter",
  "the fitter",
  "us",
  "we",
  "ourselves",
]);

function doersOf(job: Job, story: Story): readonly string[] {
  const names: string[] = [];
  for (const detail of job.sheet?.details ?? []) if (detail.kind === "by") names.push(...peopleIn(plain(detail.text?.value)));
  if (names.length === 0) names.push(...peopleIn(plain(story.release?.entry.by?.value)));
  for (const { entry } of story.visits) for (const detail of entry.details) if (detail.kind === "done") names.push(...peopleIn(plain(detail.by?.value)));
  return names;
}

/** “S. Abram and R. Abram” are two; what stands behind a comma may be what somebody is, or another name. */
function peopleIn(text: string): string[] {
  return text
    .split(/,|;|&|\+|\/|\band\b|\bwith\b/u)
    .map((it) => it.trim())
    .filter((it) => it !== "");
}

/** The same as written; or the same last name, alone or with first names of which one is the other's initial. */
function isSame(a: string, b: string): boolean {
  if (a === b) return true;
  const [as, bs] = [a.split(" "), b.split(" ")];
  const [first, other] = [as[0] as string, bs[0] as string];
  // A last name alone may be anybody's of that name: it is taken for the one who is known.
  if (as.length === 1 || bs.length === 1) return as.at(-1) === bs.at(-1);
  if (as.at(-1) !== bs.at(-1)) return false;
  return first === other || ((first.length === 1 || other.length === 1) && first.charAt(0) === other.charAt(0));
}

function plain(name: string | undefined): string {
  return (name ?? "")
    .normalize("NFC")
    .replace(/[.\s]+/gu, " ")
    .trim()
    .toLowerCase();
}
