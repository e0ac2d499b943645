// What is due as a whole page: the next thing for each machine first, then all that is due, the gravest first.
// Invariant: what is written in a sheet is text there; each row leads to its line.
import { recordOnly } from "../draw/heading.ts";
import { type Markup, html } from "../draw/html.ts";
import { dated, lineLink, pageOf, rowAt } from "../draw/page.ts";
import type { DueItem, DueReport } from "./shapes.ts";
import { byGroup, countedFrom, dueHeadline, isNow, machineLine, ofMachine } from "./words.ts";

export function dueHtml(report: DueReport): string {
  return pageOf({
    name: `What is due on ${report.day}`,
    heading: report,
    headline: `${byGroup(report).some(isNow) ? "\u2717" : "\u2713"} ${dueHeadline(report)}`,
    body: [next(report), byGroup(report).map(({ group, rows }) => groupOf(group, rows, report))],
    foot: html`${countedFrom(report)} ${recordOnly}`,
  });
}

function next(report: DueReport): Markup {
  return html`<section>
<h2>Next</h2>
<ul>
${report.machines.map((it) => html`<li${rowAt(it, `next ${machineLine(it)}`)}><span class="item">${machineLine(it)}</span>: ${dated(it.next)} ${lineLink(it)}</li>\n`)}</ul>
</section>
`;
}

function groupOf(group: string, rows: readonly DueItem[], report: DueReport): Markup {
  return html`<section>
<h2>${group} <span class="code">${rows.length}</span></h2>
<ul>
${rows.map((it) => {
  const machine = ofMachine(it, report);
  const more = it.details.length > 0 && html`<ul>\n${it.details.map((detail) => html`<li>${dated(detail)}</li>\n`)}</ul>\n`;
  return html`<li${rowAt(it, `${group} ${it.text}`)}>${dated(it.text)}${machine !== "" && html` <span class="code">${machine}</span>`} ${lineLink(it)}${more}</li>\n`;
})}</ul>
</section>
`;
}
