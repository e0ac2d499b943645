// How a job was left, as a whole page: now first, then each pause, what can hurt before the rest.
// Invariant: what is written in a sheet is text there; each row leads to its line.
import { recordOnly } from "../draw/heading.ts";
import { type Markup, html } from "../draw/html.ts";
import { leftWords, meanings } from "./words.ts";
import type { Left, LeftReport } from "./left.ts";
import { cautionList, lineIn, pageOf, rowAt } from "../draw/page.ts";

export function leftHtml(report: LeftReport): string {
  return pageOf({
    name: "How it was left",
    heading: report,
    body: [report.pauses.map((it) => leftOf(it, report.file)), cautionList(report.cautions)],
    foot: recordOnly,
  });
}

function leftOf(left: Left, own: string | undefined): Markup {
  return html`<section>
<h2>${left.when}</h2>
<p class="facts">${leftWords(left)}${!left.when.startsWith("Now") && html` ${lineIn(own, left)}`}</p>
<div class="columns">
${left.groups.map((group) => html`<div class="group"><h3>${meanings[group.name]}</h3>\n${rows(group.rows, `${left.when} ${group.name}`, own)}</div>\n`)}${left.next.length > 0 && html`<div class="group"><h3>Next</h3>\n${rows(left.next, `${left.when} next`, own)}</div>\n`}</div>
</section>
`;
}

function rows(list: Left["next"], group: string, own: string | undefined): Markup {
  return html`<ul>
${list.map((it) => html`<li${rowAt(it, `${group} ${it.text}`)}>${it.text} ${lineIn(own, it)}</li>\n`)}</ul>
`;
}
