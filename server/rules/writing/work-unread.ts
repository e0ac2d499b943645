// Findings, readings, looks and steps that stand in a used file which is no job of its own: nobody's work.
// Invariant: what a file with a `sheet` line says is that job's, and is asked for as another sheet of the machine.
import type { Entry } from "../../../grammar/tree.ts";
import type { JobFile } from "../../model/job-files.ts";
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";
import { counted } from "../wording.ts";
import { leadingTo } from "./shared/leading-to.ts";

export const rule: JobRule = {
  id: "work-unread",
  group: "Writing",
  severity: "error",
  safety: false,
  title: "A used file without a `sheet` line says what was found or done",
  why: "Of a used file a job knows what it declares, and takes nothing that was found, read or done there for its own. A crack that is written into the machine's data holds no release. Written in the sheet, or in one of its own, it does.",
  wrong: `sheet "Front hubs"
use "van-data.jobsheet"
#   ^^^^^^^^^^^^^^^^^^^ error work-unread
`,
  right: `sheet "Front hubs"
use "van-arms.jobsheet"
`,
  files: {
    "van-data.jobsheet": `part arm "Steering arm"
finding arm
  is cracked
`,
    "van-arms.jobsheet": `part arm "Steering arm"
`,
  },
  scope: "job",
  check({ job, report, line }) {
    for (const file of job.files) {
      const work = workIn(file);
      const [first] = work;
      const use = file.path === job.path || first === undefined ? undefined : leadingTo(job, file.path);
      if (first === undefined || use === undefined) continue;
      const there = where(file.path, first, 0, first.keyword);
      const more = work.length === 1 ? "is" : `and ${counted(work.length - 1, "other entry", "other entries")} like it are`;
      report({
        where: where(job.path, use, 0, use.path?.at ?? use.keyword),
        severity: "error",
        message: `\`${first.kind}\` on line ${line(there)} of ${file.path} ${more} not read: of a used file only what it declares is. Write it here, or give that file a \`sheet\` line.`,
        related: [{ where: there, message: "Not read as work of this sheet." }],
      });
    }
  },
};

const work: ReadonlySet<Entry["kind"]> = new Set(["step", "measure", "seen", "finding", "concession", "pause", "release"]);

/** A file that is a job has its own story, and is asked for what is open in it. */
function workIn({ sheet }: JobFile): Entry[] {
  return sheet.entries.some((it) => it.kind === "sheet") ? [] : sheet.entries.filter((it) => work.has(it.kind));
}
