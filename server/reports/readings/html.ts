// The readings as a whole page: a card for each limit, with a picture and a table for each place.
// Invariant: what is written in a sheet is text there; each row leads to its line.
import { type Content, type Markup, html } from "../draw/html.ts";
import { recordOnly } from "../draw/heading.ts";
import { lineCell, lineIn, listOf, pageOf, rowAt } from "../draw/page.ts";
import { readingsPicture } from "./picture.ts";
import { limitFacts, readingsHeadline, signOf, spotLines, stageVerdict } from "./words.ts";
import type { LimitRead, PlaceRead, ReadingsReport, StageRead } from "./readings.ts";

export function readingsHtml(report: ReadingsReport): string {
  return pageOf({
    name: "Readings",
    heading: report,
    headline: readingsHeadline(report),
    body: [
      report.limits.length > 0 &&
        html`<p class="small">In a picture: a ring is as found, a square a trial, a full diamond final; the bar is the uncertainty (k = 2); short strokes are the other spots. A rod is what is allowed; a wall is its end, an arrow means no limit on that side.</p>\n`,
      report.limits.map((it) => card(it, report.file)),
      listOf("Not measured", report.unread, report.file, (it) => `${it.title}${it.places.length > 0 ? ` (${it.places.join(", ")})` : ""}`),
    ],
    foot: html`Verdicts follow ISO 14253-1: in or out by more than the uncertainty of the gauge, in doubt between. ${recordOnly}`,
  });
}

function card(limit: LimitRead, own: string | undefined): Markup {
  return html`<section>
<h2>${limit.title}</h2>
<p class="facts"><span class="code">${limit.limit}</span>: ${limitFacts(limit)} ${lineIn(own, limit)}</p>
${limit.places.map((place) => html`<div class="card">\n${picture(limit, place)}${table(limit, place, own)}</div>\n`)}</section>
`;
}

function picture(limit: LimitRead, place: PlaceRead): Content {
  const drawn = readingsPicture(limit, place);
  return [place.place !== "" && html`<h3>${place.place}</h3>\n`, drawn !== undefined && html`<div class="picture">${drawn}</div>\n`];
}

/** What is made of the figures, each on a line of its own. */
function workedOut(it: StageRead): string[] {
  return [
    it.spots.length > 1 && it.mean !== undefined ? `mean ${it.mean}` : "",
    it.span === undefined ? "" : `span ${it.span}`,
    ...it.ovality.map((oval) => `ovality ${oval}`),
    it.taper === undefined ? "" : `taper ${it.taper}`,
    it.uncertainty === undefined ? "" : `uncertainty \u00b1 ${it.uncertainty}`,
  ].filter((words) => words !== "");
}

function table(limit: LimitRead, place: PlaceRead, own: string | undefined): Markup {
  return html`<table class="read" aria-label="${limit.title}${place.place !== "" && `, ${place.place}`}">
<thead><tr><th scope="col">When</th><th scope="col">Read</th><th scope="col">From it</th><th scope="col" class="line">Line</th></tr></thead>
${place.stages.map(
  (it) => html`<tbody${rowAt(it, `${limit.limit} ${place.place} ${it.stage}`)}>
<tr><td class="whole">${it.stage}${it.day !== undefined && html`<br><span class="code">${it.day}</span>`}</td><td>${lines(spotLines(it))}${it.gauge !== undefined && html`<br><span class="code">${it.gauge}</span>`}</td><td>${lines(workedOut(it))}</td><td class="line">${lineCell(own, it)}</td></tr>
<tr><td colspan="4" class="verdict"><span class="sign">${signOf(it)}</span> ${stageVerdict(it)}</td></tr>
</tbody>
`,
)}</table>
`;
}

function lines(list: readonly string[]): Content {
  return list.map((it, i) => [i > 0 && html`<br>`, html`<span class="whole">${it}</span>`]);
}
