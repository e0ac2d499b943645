// How a job was left, as it is drawn: now first, then each pause, what can hurt before the rest.
import { recordOnly } from "../draw/heading.ts";
import { type Document, type Section, listOf } from "../draw/sections.ts";
import type { Left, LeftReport } from "./left.ts";
import { leftWords, meanings } from "./words.ts";

export function leftSections(report: LeftReport): Document {
  return {
    name: "How it was left",
    heading: report,
    ...(report.pauses[0] === undefined ? {} : { headline: leftWords(report.pauses[0]) }),
    parts: [...report.pauses.map(sectionOf), { kind: "cautions", list: report.cautions }],
    foot: [recordOnly],
  };
}

function sectionOf(left: Left): Section {
  // What stands now hangs on no one line.
  const at = left.when.startsWith("Now") ? {} : { at: left };
  return {
    kind: "section",
    title: left.when,
    look: "columns",
    parts: left.asNow
      ? [{ kind: "words", style: "plain", text: "Nothing was done since: it is as it is now." }]
      : [
          // Of now the headline says it.
          !left.when.startsWith("Now") && { kind: "words", style: "facts", text: leftWords(left), ...at },
          ...left.groups.map((it) => listOf(meanings[it.name], it.rows, (row) => row.text)),
          listOf("Next", left.next, (row) => row.text),
        ],
  };
}
