// The way back as a whole page: steps to tick by hand, readings with room for the figure, cautions with their source, and the text to paste.
// Invariant: what is written in a sheet is text there; each line leads to the one that it comes from.
import { recordOnly } from "./heading.ts";
import { type Markup, html } from "./html.ts";
import { lineLink, pageOf } from "./page.ts";
import type { BackEntry, WayBack } from "./way-back.ts";
import { plannedFigures, wayBackHeadline } from "./way-back-words.ts";

export function wayBackHtml(report: WayBack): string {
  return pageOf({
    name: "The way back",
    heading: report,
    headline: wayBackHeadline(report),
    body: [
      cautionList(report.cautions),
      report.entries.length > 0 && html`<p class="small">${plannedFigures}</p>\n`,
      report.entries.map(entryOf),
      report.unsettled.length > 0 &&
        html`<h2>What no step settles</h2>
<ul>
${report.unsettled.map((it) => html`<li data-file="${it.file}" data-line="${it.line}">${it.text} ${lineLink(it)}</li>\n`)}</ul>
`,
      report.sheet !== "" && html`<h2>The same, to paste into the sheet</h2>\n<pre>${lineByLine(report.sheet)}</pre>\n`,
    ],
    foot: recordOnly,
  });
}

/** Shared by the pages of work. */
export function cautionList(list: WayBack["cautions"]): Markup | false {
  return (
    list.length > 0 &&
    html`<section class="cautions"><h2>Cautions</h2>
<ul>
${list.map((it) => html`<li>${it.words} <span class="code">${it.source}</span></li>\n`)}</ul></section>
`
  );
}

function entryOf(entry: BackEntry): Markup {
  if (entry.kind !== "step") {
    return html`<section class="card"><h2>${entry.kind === "check" ? "See" : "Measure"}: ${entry.title}</h2>
<ul class="tick">
${entry.waits.map((it) => html`<li data-file="${entry.file}" data-line="${entry.line}"><span class="box" aria-hidden="true">\u2610</span> ${it.replaceAll("\u2026", "__________")}</li>\n`)}</ul></section>
`;
  }
  return html`<section class="card"><h2>${entry.title}</h2>
<table class="work"><thead><tr><th scope="col"><span class="hidden">Done</span></th><th scope="col">What</th><th scope="col">To know</th><th scope="col">Line</th></tr></thead>
${entry.lines.map(
  (
    it,
  ) => html`<tbody><tr data-file="${it.file}" data-line="${it.line}"><td class="box" aria-hidden="true">\u2610</td><td>${it.text}</td><td>${it.note ?? ""}</td><td>${lineLink(it, String(it.line))}</td></tr></tbody>
`,
)}</table></section>
`;
}

/** Line breaks are kept; all else of each line is escaped. */
function lineByLine(sheet: string): Markup[] {
  return sheet.split("\n").map((line) => html`${line}\n`);
}
