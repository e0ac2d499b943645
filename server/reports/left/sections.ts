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
    parts: [
      ...report.pauses.filter((it) => !isNow(it) || it.groups.length > 0 || it.next.length > 0).map(sectionOf),
      { kind: "cautions", list: report.cautions },
    ],
    foot: [recordOnly],
  };
}

/** Where nothing is open now the headline says all. */
function isNow({ when }: Left): boolean {
  return when.startsWith("Now");
}

function sectionOf(left: Left): Section {
  // What stands now hangs on no one line.
  const at = isNow(left) ? {} : { at: left };
  return {
    kind: "section",
    title: left.when,
    look: "columns",
    parts: left.asNow
      ? [{ kind: "words", style: "plain", text: "Nothing was done since: it is as it is now." }]
      : [
          // Of now the headline says it.
          !isNow(left) && { kind: "words", style: "facts", text: leftWords(left), ...at },
          ...left.groups.map((it) => listOf(meanings[it.name], it.rows, (row) => row.text)),
          listOf("Next", left.next, (row) => row.text),
        ],
  };
}
