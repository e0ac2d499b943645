// Undone, slackened or removed while a hazard that bars it is live.
import type { JobRule } from "../rule.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt, listed, midSentence } from "../wording.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment } from "../../story/story.ts";

export const rule: JobRule = {
  id: "hazard-live",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "A thing that a hazard must be safe before is undone, slackened or removed while it is live",
  why: "A loaded spring, pressure, mains or fuel lets go at the moment when the last thing that holds it is undone. Make it safe first and write how; the maker's procedure rules.",
  wrong: `fastener pin-bolt "Spring pin bolt"
hazard spring-load "Spring under load"
  safe before pin-bolt
step strip "Pin out"
  undo pin-bolt
#      ^^^^^^^^ error hazard-live (fix)
  done
`,
  right: `fastener pin-bolt "Spring pin bolt"
hazard spring-load "Spring under load"
  safe before pin-bolt
step strip "Pin out"
  safe spring-load "axle hanging free"
  undo pin-bolt
  done
`,
  fixed: `fastener pin-bolt "Spring pin bolt"
hazard spring-load "Spring under load"
  safe before pin-bolt
step strip "Pin out"
  safe spring-load "___"
  undo pin-bolt
  done
`,
  scope: "job",
  check({ story, report }) {
    const live = (it: FastenerMoment | PartMoment) => it.liveHazards.length > 0;
    for (const { cell, moment: it, places, action } of [
      ...byLine<FastenerCell, FastenerMoment>(story.fasteners, live),
      ...byLine<PartCell, PartMoment>(story.parts, live),
    ]) {
      const verb = it.verb === "undo" ? "undone" : it.verb === "slacken" ? "slackened" : "removed";
      const hazards = listed(it.liveHazards.map((hazard) => midSentence(hazard.thing)));
      const first = it.liveHazards[0];
      const said = `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} ${verb} while this is live: ${hazards}. Make it safe first, and write \`safe ${first?.thing.name ?? ""} "how"\`.`;
      // A long caution goes with the line that declares it.
      const caution = first?.thing.caution === undefined || said.length + first.thing.caution.length > 159 ? "" : ` ${first.thing.caution}`;
      report({
        where: it.where,
        severity: "error",
        message: `${said}${caution}`,
        related: it.liveHazards.map((hazard) => ({
          where: { file: hazard.thing.file, entry: hazard.thing.entry, row: 0, at: hazard.thing.at },
          message: hazard.thing.caution ?? "The hazard is declared here.",
        })),
        fixes: [
          {
            title: `Write \`safe ${first?.thing.name ?? ""}\` above`,
            edits: [{ where: { ...it.where, at: { from: action.at.from, to: action.at.from } }, text: `safe ${first?.thing.name ?? ""} "___"\n  ` }],
          },
        ],
      });
    }
  },
};
