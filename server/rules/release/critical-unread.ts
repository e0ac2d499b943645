// A critical limit or check that belongs to nothing: no move asks for it, so the release does.
import { placesOf } from "../../model/job.ts";
import { referencesOf } from "../../model/references.ts";
import type { Check, Limit } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { readingsOn, seenOn } from "../../story/looked-up.ts";
import type { JobRule } from "../rule.ts";
import { called, calledAt, listed } from "../wording.ts";

export const rule: JobRule = {
  id: "critical-unread",
  group: "Release",
  severity: "error at release",
  safety: true,
  title: "A critical limit or check without `of`, declared or named in this sheet, and no final reading or look",
  why: "What is declared critical here is declared to be looked at. Where it says nothing of what it is of, no part that moves asks for it, so the release asks. A data file of the whole machine asks a small job for nothing.",
  wrong: `check selects "No two gears at once"
#     ^^^^^^^ error critical-unread
  critical "two gears at once"
part fork "Fork"
step a "Fork off and on"
  remove fork
  fit fork
  done
release by "A. Moor" 2026-05-10
`,
  right: `check selects "No two gears at once"
  critical "two gears at once"
part fork "Fork"
step a "Fork off and on"
  remove fork
  fit fork
  done
seen selects final good
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check({ job, story, report }) {
    if (story.release === undefined) return;
    const lastWork = story.visits.reduce((last, it) => (it.phase === "done" ? it : last), undefined as (typeof story.visits)[number] | undefined);
    const worked = lastWork === undefined ? -1 : lastSeq();
    let named: ReadonlySet<string> | undefined;
    for (const thing of job.things.values()) {
      if ((thing.kind !== "limit" && thing.kind !== "check") || thing.implied || !thing.critical) continue;
      if (thing.of.length > 0 || thing.setBy.length > 0 || story.doubted.has(thing.name)) continue;
      // One that is worked out is read where its operands are.
      if (thing.kind === "limit" && thing.expression !== undefined) continue;
      named ??= namedHere();
      if (thing.file !== job.path && !named.has(thing.name)) continue;
      const missing = placesOf(job, thing).filter((place) => !read(thing, place, worked));
      if (missing.length === 0) continue;
      const at = missing.filter((place) => place !== "");
      const write = thing.kind === "limit" ? `measure ${thing.name} final` : `seen ${thing.name} final good${at.length === 1 ? ` ${at[0]}` : ""}`;
      report({
        where: where(thing.file, thing.entry, 0, thing.at),
        severity: "error",
        message: `${thing.kind === "limit" ? calledAt(thing, missing) : `${called(thing)}${at.length === 0 ? "" : ` (${listed(at)})`}`} is critical and was not ${thing.kind === "limit" ? "measured" : "seen good"} at the end. Write \`${write}\`.`,
      });
    }

    /** The last moment at which something was moved. */
    function lastSeq(): number {
      let last = -1;
      for (const cell of [...story.parts, ...story.fasteners])
        for (const it of cell.history as readonly { readonly seq: number; readonly phase: string; readonly verb: string }[])
          if (it.phase === "done" && it.verb !== "found" && it.verb !== "mark" && it.seq > last) last = it.seq;
      return last;
    }

    function namedHere(): ReadonlySet<string> {
      const names = new Set<string>();
      for (const entry of job.own.sheet.entries) for (const { name } of referencesOf(entry).things) names.add(name.text);
      return names;
    }

    /** A final, whatever came after it; or found good, and nothing moved since. */
    function read(thing: Limit | Check, place: string, since: number): boolean {
      const here = (it: { readonly place: string; readonly stage: string; readonly seq: number }) =>
        (it.place === place || it.place === "" || place === "") && (it.stage === "final" || (it.stage === "found" && it.seq > since));
      // Seen bad, or read outside, is said by the rule that says so.
      return thing.kind === "check" ? seenOn(story, thing.name).some(here) : readingsOn(story, thing.name).some(here);
    }
  },
};
