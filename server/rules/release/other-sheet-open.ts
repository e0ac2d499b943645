// Another sheet of the same machine is open on something critical.
import type { JobRule } from "../rule.ts";
import { counted, listed } from "../wording.ts";

export const rule: JobRule = {
  id: "other-sheet-open",
  group: "Release",
  severity: "error",
  safety: false,
  title: "Another sheet of the same machine is open on something critical",
  why: "One job is finished and the machine still can't go: somebody has its brakes apart on another sheet. Finish that one, or release them together. A copy that was saved beside the sheet is another sheet too, for nobody can tell in which of them the work goes on: it is named as one, and taken out of the folder.",
  wrong: `sheet "Hubs"
  machine "Moor van"
fastener hub-nut "Hub nut"
release by "A. Moor" 2026-05-10
#^^^^^^ error other-sheet-open
`,
  right: `sheet "Hubs"
  machine "Another van"
fastener hub-nut "Hub nut"
release by "A. Moor" 2026-05-10
`,
  files: {
    "brakes.jobsheet": `sheet "Brakes"
  machine "Moor van"
part drum "Brake drum"
  critical "brakes"
step strip "Drums off"
  remove drum
  done
`,
  },
  scope: "job",
  *check(context) {
    const { story, report } = context;
    if (story.release === undefined) return;
    const { open, unseen, hasMore } = yield* context.others();
    if (unseen > 0)
      report({
        where: story.release.where,
        severity: "error",
        message: `${counted(unseen, "sheet was", "sheets were")} not looked at: there are too many in one folder to know whether another of this machine is open. Give each machine a folder of its own, and work in that.`,
      });
    else if (hasMore)
      report({
        where: story.release.where,
        severity: "error",
        message:
          "Not all that lies in this folder was searched: there is too much in it to know whether another sheet of this machine is open. Give each machine a folder of its own, and work in that.",
      });
    for (const { path, unsure, on } of open)
      if (unsure !== undefined)
        report({
          where: story.release.where,
          severity: "error",
          message: `${path} is open on ${listed(on.slice(0, 3))}, and its machine is “${unsure}”. If that is this one, finish it first; if not, give both their \`serial\`.`,
        });
    const copies = open.filter((it) => it.unsure === undefined && it.isCopy === true);
    const [copy] = copies;
    if (copy !== undefined)
      report({
        where: story.release.where,
        severity: "error",
        message:
          copies.length === 1
            ? `${copy.path} seems a copy of this sheet (its title, most of its lines), open on ${listed(copy.on.slice(0, 2))}. If so, take it out of the folder; if not, finish it first.`
            : `${listed(copies.slice(0, 3).map((it) => it.path))}${copies.length > 3 ? " and others" : ""} seem copies of this sheet, and are open. Take those that are out of the folder, and finish the others first.`,
      });
    const same = open.filter((it) => it.unsure === undefined && it.isCopy !== true);
    if (same.length === 0) return;
    const names = same.map((it) => `${it.path} (${listed(it.on.slice(0, 3))})`);
    report({
      where: story.release.where,
      severity: "error",
      message: `Another sheet of this machine is open on something critical: ${listed(names)}. Finish it first, or release them together.`,
    });
  },
};
