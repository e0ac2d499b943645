// A finding whose decision is not obvious, without one.
import { unsaid } from "../../../grammar/blanks.ts";
import { neverGoesBack } from "../../model/things.ts";
import { cellsFound, placeFound } from "../cells-found.ts";
import { grouped } from "../../model/grouped.ts";
import { memo } from "../../model/memo.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import { type JobRule, addLine } from "../rule.ts";
import { obvious } from "../../story/decisions.ts";
import type { Found, Story } from "../../story/story.ts";
import { agreeing, called, listed, midSentence } from "../wording.ts";
import { isOfTheNew } from "../../story/found-in-new.ts";
import { crackNotThere, renewedAsFound, repairedAsFound } from "../../story/put-right.ts";

export const rule: JobRule = {
  id: "part-undecided",
  group: "Parts",
  severity: "warning; error at release",
  safety: false,
  title: "A finding whose decision is not obvious, without one",
  why: "What is worn, scored or corroded can be reused, repaired or renewed, and only you have seen it. Until it is decided the order can't be right. `serviceable` means reuse; missing and damaged mean renew.",
  wrong: `part pin "King pin"
finding pin
#       ^^^ warning part-undecided (fix)
  is scored
`,
  right: `part pin "King pin"
finding pin
  is scored
  decision renew
`,
  fixed: `part pin "King pin"
finding pin
  is scored
  decision reuse
  note "___"
`,
  scope: "job",
  *check({ story, report }) {
    for (const [i, found] of story.findings.entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      if (found.thing.kind === "fluid") continue;
      if (found.decision !== undefined) {
        // To ask was the decision as long as nobody had answered; at release it is taken or it is open.
        const asked = found.decision.detail.decision === "ask" && story.release !== undefined && !workedOn(found) && !decidedSince(found);
        const question = found.decision.detail.question === undefined ? undefined : story.job.things.get(found.decision.detail.question.text);
        if (asked && question?.kind === "question" && question.answer !== undefined) {
          report({
            where: found.decision.where,
            severity: "error",
            message: `\`${question.name}\` is answered, and nothing is decided on ${midSentence(found.thing, placeFound(found))} yet. Write reuse, renew or repair.`,
          });
        }
        continue;
      }
      if (found.entry.details.some((it) => (it.kind === "decision" && unsaid(it)) || (it.kind === "unread" && it.guess === "decision"))) continue;
      const open = found.conditions.filter(({ condition }) => !obvious.has(condition.kind));
      // Declared `renew`, it is decided already.
      if ((found.thing.kind === "part" || found.thing.kind === "fastener") && neverGoesBack(found.thing)) continue;
      if (open.length === 0 || found.conditions.some(({ condition }) => condition.kind === "missing" || condition.kind === "damaged")) continue;
      // Done work has answered it: renewed, or repaired. Only putting it back is no answer.
      if (workedOn(found) || decidedSince(found)) continue;
      const words = listed(open.map(({ condition }) => condition.kind));
      report({
        where: found.where,
        severity: story.release === undefined ? "warning" : "error",
        message: `${called(found.thing, placeFound(found))} ${agreeing(found.thing, "is")} ${words}, and nothing is decided. Write reuse, renew or repair, or ask.`,
        fixes: ["reuse", "renew", 'repair "___"'].map((word) =>
          addLine(`Add \`decision ${word.split(" ")[0]}\``, { ...found.where, row: lastRow(found.entry) }, `decision ${word}`),
        ),
      });
    }

    /** A later finding of the same thing, wherever this one was, says what is done about it. */
    function decidedSince(found: Found): boolean {
      // The last is the likeliest to be later.
      const deciding = decidingOf(story).get(found.thing.name) ?? [];
      const decides = (it: Found) => it.seq > found.seq && (it.count === undefined || (found.count !== undefined && it.count >= found.count));
      return (
        found.places.length > 0 &&
        found.places.every((place) => deciding.findLast((it) => decides(it) && (it.places.includes(place) || it.places.includes(""))) !== undefined)
      );
    }

    function workedOn(found: Found): boolean {
      const cells = cellsFound(story, found);
      return (
        cells.length > 0 &&
        cells.every((cell) => {
          if (cell.kind !== "fluid" && crackNotThere(story, cell, found) !== undefined) return true;
          const cure = cell.kind === "fluid" || isOfTheNew(story, cell, found) ? undefined : (renewedAsFound(cell, found) ?? repairedAsFound(cell, found));
          return cure !== undefined && !cure.planned;
        })
      );
    }
  },
};

/** Of each thing, the findings that say what is done. */
const decidingOf = memo((story: Story) =>
  grouped(
    story.findings.filter((it) => it.decision !== undefined && it.decision.detail.decision !== "ask"),
    (it) => it.thing.name,
  ),
);

function lastRow(entry: { readonly details: readonly { readonly row: number }[] }): number {
  return entry.details.reduce((row, it) => Math.max(row, it.row), 0);
}
