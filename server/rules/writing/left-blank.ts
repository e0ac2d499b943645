// Something left blank, `___`, to be filled in; a final that was begun and has no figure.
import type { Entry, Line, MeasureEntry } from "../../../grammar/tree.ts";
import { referencesOf } from "../../model/references.ts";
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "left-blank",
  group: "Writing",
  severity: "warning; error at release",
  safety: true,
  title: "Something is left blank: `___`, or a final reading without a figure",
  why: "A blank is for what somebody has yet to see, read or decide; nobody's guess takes its place. In a plan it counts as far as it is written. What is done, read or declared says nothing until its blanks are filled in.",
  wrong: `fastener cap-nut "Cap nut"
  torque by feel "nipped"
step refit "Cap back"
  tighten cap-nut to ___ N.m
#                    ^^^ warning left-blank
  done
`,
  right: `fastener cap-nut "Cap nut"
  torque by feel "nipped"
step refit "Cap back"
  tighten cap-nut to 45 N.m
  done
`,
  scope: "job",
  check({ job, story, report }) {
    let named: ReadonlySet<string> | undefined;
    for (const { path, sheet } of job.files) {
      for (const entry of sheet.entries) {
        const lines = [entry, ...entry.details, ...entry.stray].filter((it) => it.blanks !== undefined && it.fault === undefined);
        if (lines.length === 0) continue;
        // A data file of the whole machine may be half filled in: a job waits for what it names.
        if (path !== job.path) {
          named ??= namedIn(job.own.sheet.entries);
          if (!("name" in entry) || entry.name === undefined || !named.has(entry.name.text)) continue;
        }
        const planned = entry.kind === "step" && !entry.details.some((it) => it.kind === "done");
        for (const line of lines) {
          const [blank] = line.blanks ?? [];
          if (blank === undefined) continue;
          report({
            where: where(path, entry, line.row, blank),
            severity: story.release === undefined ? "warning" : "error",
            message: `Left blank. ${planned ? "Fill it in when it is done" : `Fill it in: until then ${saysNothing(entry, line)}`}.`,
          });
        }
      }
    }
    if (story.release === undefined) return;
    const { entries } = job.own.sheet;
    const begun = new Map(entries.flatMap((entry, i) => (entry.kind === "measure" && isBegunOnly(entry) ? [[entry, i] as const] : [])));
    if (begun.size === 0) return;
    const released = entries.indexOf(story.release.entry);
    const rowOf = new Map(entries.map((entry, i) => [entry as Entry, i]));
    const lastRead = new Map(story.readings.filter((it) => it.stage === "final").map((it) => [it.limit, rowOf.get(it.entry) ?? 0]));
    for (const [entry, i] of begun) {
      const limit = entry.limit === undefined ? undefined : job.things.get(entry.limit.text);
      // Whoever wrote it anew further down has left this one standing.
      if (entry.limit === undefined || limit?.kind !== "limit" || (released >= 0 && i > released) || (lastRead.get(limit) ?? 0) > i) continue;
      report({
        where: where(job.path, entry, 0, entry.limit.at),
        severity: "error",
        message: "No figure stands below this, so nothing was read. Write what was read, or take the line out.",
      });
    }
  },
};

/** A final of which its first line stands, and nothing that may be a figure. */
function isBegunOnly(entry: MeasureEntry): boolean {
  return (
    entry.stage === "final" &&
    entry.fault === undefined &&
    entry.blanks === undefined &&
    entry.stray.length === 0 &&
    !entry.details.some((it) => it.kind === "reading" || it.kind === "unread")
  );
}

function namedIn(entries: readonly Entry[]): ReadonlySet<string> {
  const names = new Set<string>();
  for (const entry of entries) for (const { name } of referencesOf(entry).things) names.add(name.text);
  return names;
}

function saysNothing(entry: Entry, line: Line): string {
  if (entry.kind === "step") return "this line says nothing of what was done";
  if (entry.kind === "measure" || entry.kind === "seen") return "nothing was read here";
  return line === entry ? "this entry says nothing" : "this line says nothing";
}
