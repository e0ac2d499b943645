// A machine's history as a whole page: its sheets, what keeps coming back, each limit's readings with their picture, each part's life.
// Invariant: what is written in a sheet is text there; each row leads to its line.
import { recordOnly } from "../draw/heading.ts";
import { type Markup, html } from "../draw/html.ts";
import type { Line } from "../draw/line.ts";
import { dated, lineLink, pageOf, rowAt } from "../draw/page.ts";
import { historyPicture } from "./picture.ts";
import type { HistoryReport, Life, LimitHistory, MachineHistory } from "./shapes.ts";
import { backWords, estimateNote, eventWords, heads, historyHeadline, machineLine, pointWords, sameName, sheetWords, toldWords, trendWords } from "./words.ts";

export function historyHtml(report: HistoryReport): string {
  return pageOf({
    name: "History",
    heading: report,
    headline: historyHeadline(report.machines),
    body: report.machines.map((it) => machineSections(it, report.machines.length > 1)),
    foot: html`${estimateNote} ${sameName} ${recordOnly}`,
  });
}

/** For a page of its own and for the hand-over. */
export function machineSections(machine: MachineHistory, named: boolean): Markup {
  const key = machineLine(machine);
  return html`${named && html`<h2>${key}</h2>\n`}${[
    list(heads.sheets, machine.sheets, sheetWords, key),
    list(heads.back, machine.comesBack, backWords, key),
    machine.limits.length > 0 &&
      html`<section>
<h2>${heads.limits}</h2>
<p class="small">In a picture: a ring is as found, a square a trial, a full diamond final; the bar is the uncertainty (k = 2); a wall is the limit; a dotted stroke stands before a reading of what was renewed or set since. A line goes through the readings; where it is dashed it is an estimate.</p>
${machine.limits.map((it) => limitCard(it, key))}</section>
`,
    machine.lives.length > 0 &&
      html`<section>
<h2>${heads.lives}</h2>
${machine.lives.map((it) => lifeOf(it, key))}</section>
`,
    list(heads.conceded, machine.conceded, toldWords, key),
    list(heads.owned, machine.ownedUpTo, toldWords, key),
  ]}`;
}

function list<T extends Line>(title: string, rows: readonly T[], words: (it: T) => string, machine: string): Markup | false {
  return (
    rows.length > 0 &&
    html`<section>
<h2>${title}</h2>
<ul>
${rows.map((it) => html`<li${rowAt(it, `${machine} ${title} ${words(it)}`)}>${dated(words(it))} ${lineLink(it)}</li>\n`)}</ul>
</section>
`
  );
}

function limitCard(it: LimitHistory, machine: string): Markup {
  const picture = historyPicture(it);
  return html`<div class="card">
<h3>${it.title} <span class="code">${it.against}</span></h3>
${picture !== undefined && html`<div class="picture">${picture}</div>\n`}<ul>
${it.points.map((point, i) => html`<li${rowAt(point, `${machine} ${it.limit} ${it.place} ${i}`)}>${dated(pointWords(point))} ${lineLink(point)}</li>\n`)}</ul>
${trendWords(it).map(({ over, words }) => html`<p>${over !== "" && `${over}: `}${words}</p>\n`)}</div>
`;
}

function lifeOf(life: Life, machine: string): Markup {
  return html`<div class="card">
<h3>${life.title}</h3>
<ul>
${life.events.map((it, i) => html`<li${rowAt(it, `${machine} ${life.name} ${life.place} ${it.kind} ${i}`)}>${dated(eventWords(it))} ${lineLink(it)}</li>\n`)}</ul>
</div>
`;
}
