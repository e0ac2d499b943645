// Anything still open when the machine is released.
import type { ReleaseRule } from "../rule.ts";
import { counted } from "../wording.ts";

export const rule: ReleaseRule = {
  id: "release-blocked",
  group: "Release",
  severity: "error",
  safety: true,
  title: "Anything is still open; each thing as related information",
  why: "The release is somebody's name under “this may go”. While one thing on the sheet says that it may not, it isn't released. This is a record and a reminder, not an inspection: local rules may ask for somebody licensed.",
  wrong: `part guard "Belt guard"
step strip "Guard off"
  remove guard
  done
release by "A. Moor" 2026-05-10
#^^^^^^ error release-blocked
`,
  right: `part guard "Belt guard"
step strip "Guard off and on"
  remove guard
  fit guard
  done
release by "A. Moor" 2026-05-10
`,
  scope: "release",
  check({ story, open, report }) {
    const release = story.release;
    // What can't be read comes first: much of the rest may follow from it.
    const first = open.find(({ said }) => unread.has(said.rule)) ?? open[0];
    if (release === undefined || first === undefined) return;
    report({
      where: release.where,
      severity: "error",
      message: `This is not released: ${counted(open.length, "thing is", "things are")} still open. The first: ${first.said.report.message}`,
      related: open.map(({ said }) => ({ where: said.report.where, message: said.report.message })),
    });
  },
};

const unread: ReadonlySet<string> = new Set(["syntax", "place-unknown", "name-unknown"]);
