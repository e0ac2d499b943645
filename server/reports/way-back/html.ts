// The way back as a whole page: steps to tick by hand, readings with room for the figure, cautions with their source, and the text to paste.
// Invariant: what is written in a sheet is text there; each line leads to the one that it comes from.
import { recordOnly } from "../draw/heading.ts";
import { type Markup, html } from "../draw/html.ts";
import { cautionList, lineCell, listOf, pageOf, rowAt } from "../draw/page.ts";
import type { BackEntry, BackReading, WayBack } from "./way-back.ts";
import { plannedFigures, wayBackHeadline } from "./words.ts";

export function wayBackHtml(report: WayBack): string {
  return pageOf({
    name: "The way back",
    heading: report,
    headline: wayBackHeadline(report),
    body: [
      cautionList(report.cautions),
      report.entries.length > 0 && html`<p class="small">${plannedFigures}</p>\n`,
      report.entries.map((it) => entryOf(it, report.file)),
      listOf("What no step settles", report.unsettled, report.file, (it) => it.text),
      report.sheet !== "" && html`<h2>The same, to paste into the sheet</h2>\n<pre>${lineByLine(report.sheet)}</pre>\n`,
    ],
    foot: recordOnly,
  });
}

const box = html`<span class="box" aria-hidden="true">\u2610</span>`;
const room = "__________";

function entryOf(entry: BackEntry, own: string | undefined): Markup {
  if (entry.kind !== "step") return toRead(entry);
  return html`<section class="card"><h2>${entry.title}</h2>
<table class="work rows" aria-label="${entry.title}"><thead><tr><th scope="col"><span class="hidden">Done</span></th><th scope="col">What</th><th scope="col">To know</th><th scope="col" class="line">Line</th></tr></thead>
<tbody>
${entry.lines.map((it) => html`<tr${rowAt(it, it.text)}><td class="box" aria-hidden="true">\u2610</td><td>${it.text}</td><td>${it.note ?? ""}</td><td class="line">${lineCell(own, it)}</td></tr>\n`)}</tbody></table></section>
`;
}

/** With room for what a hand writes on the paper. */
function toRead(entry: BackReading): Markup {
  if (entry.kind === "check") {
    return html`<section class="card"><h2>See: ${entry.title}</h2>
<ul class="tick">
${entry.places.map((place) => html`<li${rowAt(entry, `${entry.title} ${place}`)}>${place !== "" && html`${place}: `}<span class="whole">${box} good</span> <span class="whole">${box} bad</span> ${room} <span class="whole">by ${room}</span></li>\n`)}</ul></section>
`;
  }
  return html`<section class="card"><h2>Measure: ${entry.title}</h2>
<ul class="tick">
${entry.waits.map((it) => html`<li${rowAt(entry, `${entry.title} ${it}`)}>${box} ${it.replaceAll("\u2026", room)}</li>\n`)}</ul></section>
`;
}

/** Line breaks are kept; all else of each line is escaped. */
function lineByLine(sheet: string): Markup[] {
  return sheet.split("\n").map((line) => html`${line}\n`);
}
