// A question without an answer.
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "question-open",
  group: "Order of work",
  severity: "warning; error at release",
  safety: false,
  title: "A question with no `answer`",
  why: "What hangs on it can neither be ordered nor fitted. Ask today: the answer often takes longer than the parts.",
  wrong: `question oversize "Are oversize pins to be had?"
#        ^^^^^^^^ warning question-open
`,
  right: `question oversize "Are oversize pins to be had?"
  answer "Yes, 0.25 mm over"
`,
  scope: "job",
  check({ job, story, report }) {
    for (const thing of job.things.values()) {
      if (thing.kind !== "question" || thing.implied || thing.answer !== undefined || thing.unread.has("answer")) continue;
      if (thing.file !== job.path) continue;
      const about =
        thing.about.length === 0 ? "" : ` ${thing.about.map((name) => `\`${name.text}\``).join(", ")} wait${thing.about.length === 1 ? "s" : ""} for it.`;
      report({
        where: where(thing.file, thing.entry, 0, thing.at),
        severity: story.release === undefined ? "warning" : "error",
        message: `This question has no answer yet.${about}`,
      });
    }
  },
};
