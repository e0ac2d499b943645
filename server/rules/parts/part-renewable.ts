// A part that never goes back once disturbed, going back.
import { condemnedBy } from "../failures.ts";
import { type JobRule, newColumn } from "../rule.ts";
import type { PartCell, PartMoment } from "../../walk/story.ts";
import { byLine } from "../by-line.ts";
import { calledAt, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "part-renewable",
  group: "Parts",
  severity: "error",
  safety: false,
  title: "A `renew` part goes back without `new`",
  why: "A seal or a gasket has taken the shape of what it lay against and does not seal a second time. The new one is cheap; the second strip is not.",
  wrong: `part cover-gasket "Cover gasket"
  renew
step strip "Cover off"
  remove cover-gasket
  done
step refit "Cover back"
  fit cover-gasket
#     ^^^^^^^^^^^^ error part-renewable (fix)
  done
`,
  right: `part cover-gasket "Cover gasket"
  renew
step strip "Cover off"
  remove cover-gasket
  done
step refit "Cover back"
  fit cover-gasket new
  done
`,
  fixed: `part cover-gasket "Cover gasket"
  renew
step strip "Cover off"
  remove cover-gasket
  done
step refit "Cover back"
  fit cover-gasket new
  done
`,
  scope: "job",
  reach: "names",
  check({ story, judged, report }) {
    const lines = byLine<PartCell, PartMoment>(
      story.parts,
      (it, cell) => cell.thing.renew && it.verb === "fit" && !it.isNew && !condemnedBy(story, judged, cell, it.seq),
    );
    for (const { cell, moment: it, places, action } of lines) {
      const withs = cell.thing.renewWith.map((name) => {
        const part = story.job.things.get(name.text);
        return part === undefined ? `\`${name.text}\`` : midSentence(part);
      });
      report({
        where: it.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} goes back used, and it is renewed ${withs.length === 0 ? "whenever it is disturbed" : `whenever the ${withs.join(" or the ")} comes off`}. Fit a new one and write \`new\`.`,
        fixes: [{ title: "Write `new`", edits: [{ where: { ...it.where, at: newColumn(action) }, text: " new" }] }],
      });
    }
  },
};
