// A used file that is not there, is out of bounds, or leads back to where it is used.
import type { Detail, Entry, Text } from "../../../grammar/tree.ts";
import { isNowhere } from "../../model/files.ts";
import type { Job } from "../../model/job.ts";
import { where } from "../../model/where.ts";
import type { Story } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { leadingTo } from "./shared/leading-to.ts";
import { messageFor } from "./shared/use-faults.ts";

export const rule: JobRule = {
  id: "use-missing",
  group: "Writing",
  severity: "error; warning where a finding on something critical says `see` of one that is not there",
  safety: false,
  title: "A used file that can't be used, or a sheet to `see` that is not there",
  why: "Without the file that declares the machine, its nuts have no locking and its readings no limits to be judged by: the sheet looks clean because nothing is known. A sheet reads no file outside its own folder tree.",
  wrong: `sheet "Rebuild of the magneto"

use "magneto-data.jobsheet"
#   ^^^^^^^^^^^^^^^^^^^^^^^ error use-missing
`,
  right: `sheet "Rebuild of the magneto"

use "magneto.jobsheet"
`,
  files: { "magneto.jobsheet": 'part magneto "Magneto"\n' },
  scope: "job",
  check({ job, story, report }) {
    for (const { file, entry, detail } of seeingNothing(job, story))
      report({
        where: where(file, entry, detail.row, detail.path.at),
        severity: "warning",
        message: `There is no sheet ${detail.path.value} here, and what is done about this finding is said to stand there. Check the path, or write it here.`,
      });
    const tooMany = job.useFaults.filter((it) => it.reason === "too many");
    for (const fault of job.useFaults) {
      // Said once, however many there are.
      if (fault.reason === "too many" && fault !== tooMany[0]) continue;
      const own = fault.file === job.path ? fault.entry : leadingTo(job, fault.file);
      if (own === undefined) continue;
      report({ where: where(job.path, own, 0, own.path?.at ?? own.keyword), severity: "error", message: messageFor(job, fault, tooMany.length) });
    }
  },
};

type See = Extract<Detail, { kind: "see" }> & { readonly path: Text };

/** Findings on something critical that send the reader to a sheet which is not there. */
function seeingNothing(job: Job, story: Story): { readonly detail: See; readonly file: string; readonly entry: Entry }[] {
  return story.findings.flatMap(({ file, entry, thing }) =>
    "critical" in thing && thing.critical
      ? entry.details
          .filter((it): it is See => it.kind === "see" && it.path !== undefined && isNowhere(job.workspace, file, it.path.value))
          .map((detail) => ({ detail, file, entry }))
      : [],
  );
}
