// The readings as they are drawn: each limit with what is allowed, and for each place a picture and a table.
import { recordOnly } from "../draw/heading.ts";
import { html } from "../draw/html.ts";
import { type Document, type Section, type TableRow, listOf } from "../draw/sections.ts";
import { pictureKey, readingsPicture } from "./picture.ts";
import type { LimitRead, ReadingsReport, StageRead } from "./readings.ts";
import { limitFacts, readingsHeadline, signOf, spotLines, stageVerdict } from "./words.ts";

export function readingsSections(report: ReadingsReport): Document {
  return {
    name: "Readings",
    heading: report,
    headline: readingsHeadline(report),
    parts: [
      report.limits.length > 0 && { kind: "picture", page: pictureKey },
      ...report.limits.map(sectionOf),
      listOf("Not measured", report.unread, (it) => `${it.title}${it.places.length > 0 ? ` (${it.places.join(", ")})` : ""}`),
    ],
    foot: ["Verdicts follow ISO 14253-1: in or out by more than the uncertainty of the gauge, in doubt between.", recordOnly],
  };
}

function sectionOf(limit: LimitRead): Section {
  return {
    kind: "section",
    title: limit.title,
    look: "beside",
    parts: [
      { kind: "words", style: "facts", code: limit.limit, text: limitFacts(limit), at: limit },
      {
        kind: "picture",
        page() {
          const drawn = readingsPicture(limit);
          return drawn !== undefined && html`<div class="picture">${drawn}</div>\n`;
        },
      },
      {
        kind: "table",
        label: limit.title,
        look: "read",
        columns: [{ title: "Where, when" }, { title: "Read" }, { title: "Worked out" }],
        groups: [{ rows: limit.places.flatMap(({ place, stages }) => stages.map((it) => rowOf(place, it))) }],
        inMarkdown: "table",
      },
    ],
  };
}

function rowOf(place: string, it: StageRead): TableRow {
  const when = place === "" ? it.stage : `${place}, ${it.stage}`;
  const spots = spotLines(it);
  const forms = workedOut(it);
  const sign = signOf(it);
  const words = stageVerdict(it);
  return {
    at: it,
    key: `${place} ${it.stage}`,
    sentence: `${sign} ${when}: ${spots.join("; ")}${forms.length === 0 ? "" : ` [${forms.join("; ")}]`}: ${words}`,
    cells: [
      { lines: [when], code: it.day },
      { lines: spots, code: it.gauge },
      { lines: forms, code: undefined },
    ],
    verdict: { sign, words },
  };
}

/** What is made of the figures. */
function workedOut(it: StageRead): string[] {
  return [
    it.spots.length > 1 && it.mean !== undefined ? `mean ${it.mean}` : "",
    it.span === undefined ? "" : `span ${it.span}`,
    ...it.ovality.map((oval) => `ovality ${oval}`),
    it.taper === undefined ? "" : `taper ${it.taper}`,
    it.uncertainty === undefined ? "" : `uncertainty \u00b1 ${it.uncertainty}`,
  ].filter((words) => words !== "");
}
