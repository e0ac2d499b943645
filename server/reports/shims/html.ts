// Shims as a whole page: what to put in and take out, and a picture of the stack as it goes together.
// Invariant: what is written in a sheet is text there.
import { recordOnly } from "../draw/heading.ts";
import { type Markup, html } from "../draw/html.ts";
import { lineIn, pageOf, rowAt } from "../draw/page.ts";
import { stackPicture } from "./picture.ts";
import { shimFacts, shimTitle, stackLine, workedOutOnly } from "./words.ts";
import type { ShimAnswerShown, ShimReport, StackShown } from "./shims.ts";

export function shimsHtml(report: ShimReport): string {
  return pageOf({
    name: "Shims",
    heading: report,
    body: report.jobs.length === 0 ? html`<p>No shims are declared.</p>\n` : report.jobs.map((it) => cardOf(it, report.file)),
    foot: html`${workedOutOnly} ${recordOnly}`,
  });
}

function cardOf(it: ShimAnswerShown, own: string | undefined): Markup {
  return html`<section class="card">
<h2>${shimTitle(it)}</h2>
<p class="facts">${shimFacts(it)} ${lineIn(own, it.reading ?? it)}</p>
<p${rowAt(it, `say ${shimTitle(it)}`)}><b>${it.say}</b></p>
${it.stacks.map(stackOf)}${it.notes.length > 0 && html`<ul class="small">\n${it.notes.map((note) => html`<li>${note}</li>\n`)}</ul>\n`}</section>
`;
}

function stackOf(stack: StackShown): Markup {
  const picture = stackPicture(stack);
  return html`<h3>${stack.title}</h3>
<p class="facts">now ${stackLine(stack.now)} = ${stack.nowTotal}; then ${stackLine(stack.then)} = ${stack.thenTotal}</p>
${picture !== undefined && html`<div class="picture">${picture}</div>\n<p class="small">Built up from the seat. A thin shim is drawn thicker than it is, so that its figure can be read.</p>\n`}`;
}
