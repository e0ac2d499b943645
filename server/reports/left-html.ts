// How a job was left, as a whole page: now first, then each pause, what can hurt before the rest.
// Invariant: what is written in a sheet is text there; each row leads to its line.
import { recordOnly } from "./heading.ts";
import { type Markup, html } from "./html.ts";
import { leftWords, meanings } from "./left-words.ts";
import type { Left, LeftReport } from "./left.ts";
import { lineLink, pageOf } from "./page.ts";
import { cautionList } from "./way-back-html.ts";

export function leftHtml(report: LeftReport): string {
  return pageOf({
    name: "How it was left",
    heading: report,
    body: [report.pauses.map(leftOf), cautionList(report.cautions)],
    foot: recordOnly,
  });
}

function leftOf(left: Left): Markup {
  return html`<section>
<h2>${left.when}</h2>
<p class="facts">${leftWords(left)} ${lineLink(left)}</p>
${left.groups.map((group) => html`<div class="card"><h3>${meanings[group.name]}</h3>\n${rows(group.rows)}</div>\n`)}${left.next.length > 0 && html`<div class="card"><h3>Next</h3>\n${rows(left.next)}</div>\n`}</section>
`;
}

function rows(list: Left["next"]): Markup {
  return html`<ul>
${list.map((it) => html`<li data-file="${it.file}" data-line="${it.line}">${it.text} ${lineLink(it, `line ${it.line}`)}</li>\n`)}</ul>
`;
}
