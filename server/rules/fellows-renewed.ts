// A float or a backlash was inside as found, and what the pieces run on was renewed since: a bearing that lies behind the same hub, the brasses of the shaft that a bevel wheel is on. It is of
// all of them together, whichever the limit names.
// Invariant: it asks for nothing where what the limit is of was never apart.
import { isCritical, relationsOf } from "../model/relations.ts";
import { isReadTogether } from "../model/read-with.ts";
import type { Job } from "../model/job.ts";
import type { Limit, Part } from "../model/things.ts";
import { allWords } from "../model/titles.ts";
import type { Story } from "../story/story.ts";
import { type Move, lastDisturbed, lastWorkedOn } from "./moved.ts";

/** The last time that one of those was renewed or worked on. */
export function fellowsRenewed(story: Story, limit: Limit, place: string): Move | undefined {
  const { job } = story;
  if (limit.setBy.length > 0 || limit.with.length > 0 || limit.expression !== undefined || !isReadTogether(limit) || !isCritical(job, limit)) return undefined;
  if (lastDisturbed(story, limit.of, place) === undefined) return undefined;
  return lastWorkedOn(
    story,
    fellowsOf(job, limit).map((it) => ({ text: it.name })),
    place,
  );
}

/** What lies behind a piece that the limit is of, what that lies behind, and what lies behind the same. */
function fellowsOf(job: Job, limit: Limit): readonly Part[] {
  const { behind } = relationsOf(job);
  const of = limit.of.flatMap(({ text }) => {
    const it = job.things.get(text);
    return it?.kind === "part" ? [it] : [];
  });
  const hosts = of.flatMap((it) => it.behind.flatMap(({ text }) => job.things.get(text) ?? [])).filter((it) => it.kind === "part");
  const all = [...hosts, ...[...of, ...hosts].flatMap((it) => behind.get(it.name) ?? [])];
  return all.filter((it) => it.critical && !of.includes(it) && runsOn.test(allWords(it)));
}

/** What others run on, by the words of the trade. A seal, a key or a gear is none, and shells leave a rod its side float. */
const runsOn = /\b(brass(es)?|bush(es)?|bearings?|races?|rollers?|cones?|cups?|balls?|thrust)\b/iu;
