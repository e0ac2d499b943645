// What is due, as it is drawn: the next thing for each machine first, then all that is due, the gravest first.
import { recordOnly } from "../draw/heading.ts";
import type { Document, Part, Section } from "../draw/sections.ts";
import type { DueItem, DueReport } from "./shapes.ts";
import { byGroup, countedFrom, dueHeadline, isNow, ofMachine } from "./words.ts";
import { machineLine } from "../draw/machine-line.ts";

export function dueSections(report: DueReport): Document {
  return {
    name: `What is due on ${report.day}`,
    heading: report,
    headline: `${byGroup(report).some(isNow) ? "\u2717" : "\u2713"} ${dueHeadline(report)}`,
    parts: dueParts(report),
    foot: [countedFrom(report), recordOnly],
  };
}

/** For a page of its own and for the hand-over. */
export function dueParts(report: DueReport): readonly Part[] {
  const next: Section = {
    kind: "section",
    title: "Next",
    parts: [{ kind: "list", rows: report.machines.map((it) => ({ text: `${machineLine(it)}: ${it.next}`, at: it, key: `next ${machineLine(it)}` })) }],
  };
  // What comes next of all that is to come is said by then.
  const isNext = (it: DueItem) => report.machines.some(({ next, file, line }) => it.text === next && it.file === file && it.line === line);
  return [
    next,
    ...byGroup(report).flatMap(({ group, rows }) => {
      const shown = group === "Coming up" ? rows.filter((it) => !isNext(it)) : rows;
      return shown.length === 0 ? [] : [groupOf(group, shown, report)];
    }),
  ];
}

function groupOf(group: string, rows: readonly DueItem[], report: DueReport): Section {
  return {
    kind: "section",
    title: `${group} (${rows.length})`,
    parts: [
      {
        kind: "list",
        rows: rows.map((it) => {
          const machine = ofMachine(it, report);
          return { text: `${it.text}${machine === "" ? "" : ` (${machine})`}`, at: it, key: it.text, below: it.details.map((text) => ({ text })) };
        }),
      },
    ],
  };
}
