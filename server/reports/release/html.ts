// What stands in the way of release as a whole page; released, the record to be kept with the machine: what was found, done, made fast, read, and the photos.
// Invariant: what is written in a sheet is text there. Each row leads to its line by an address and by data attributes.
import { column, figureAndUnit } from "../draw/figure-column.ts";
import { type Content, type Markup, html } from "../draw/html.ts";
import { cautionList, lineCell, lineIn, listOf, pageOf, rowAt } from "../draw/page.ts";
import {
  acceptedWords,
  admittedWords,
  byGroup,
  concessionWords,
  photosMissing,
  recheckWords,
  recordWords,
  releaseFoot,
  releaseHeadline,
  releaseSign,
  signHere,
} from "./words.ts";
import type { FastRecord, Photo, ReadRecord, Record, ReleaseReport } from "./release.ts";

/** What a page shows of a photo: the address of its bytes, or a mark by which an editor brings them after the page. */
export type PhotoSource = (inside: string) => { readonly src: string } | { readonly mark: string } | { readonly whyNot: string };

export function releaseHtml(report: ReleaseReport, photo: PhotoSource = () => ({ whyNot: "is not in this page" })): string {
  const own = report.file;
  return pageOf({
    name: report.released ? "Record of the work" : "What stands in the way",
    heading: report,
    headline: `${releaseSign(report)} ${releaseHeadline(report)}`,
    body: [
      report.open.length > 0 &&
        html`<table class="open rows" aria-label="What is open">
<thead><tr><th scope="col">What is open</th><th scope="col">Rule</th><th scope="col" class="line">Line</th></tr></thead>
${byGroup(report.open).map(
  ({ group, rows }) => html`<tbody>
<tr class="group"><th scope="rowgroup" colspan="3">${group} <span class="code">${rows.length}</span></th></tr>
${rows.map((it) => html`<tr${rowAt(it, `${it.rule} ${it.message.replace(/line \d+/g, "line")}`)}><td>${it.message}</td><td class="code">${it.rule}</td><td class="line">${lineCell(own, it)}</td></tr>\n`)}</tbody>
`,
)}</table>
`,
      report.released && [
        records("Makeshifts found", report.makeshifts, own),
        records("What was found", report.found, own),
        records("What was done", report.done, own),
        records("Work done outside", report.outside, own),
        records("Fitted new", report.fitted, own),
        fast(report.fast, own),
        readings(report.readings, own),
        listOf("What was tried", report.tests, own, recordWords),
      ],
      listOf("Owned up to", report.admitted, own, admittedWords),
      listOf("Accepted, and why", report.accepted, own, acceptedWords),
      listOf("Accepted outside its limit", report.concessions, own, concessionWords),
      listOf("To be looked at again", report.rechecks, own, recheckWords),
      photos(report, photo),
      report.released && html`<p class="sign">${signHere}</p>\n`,
      cautionList(report.cautions),
    ],
    foot: releaseFoot(report),
  });
}

function records(title: string, rows: readonly Record[], own: string | undefined): Markup | false {
  if (rows.length === 0) return false;
  const by = rows.some((it) => it.by !== undefined);
  return html`<section>
<h2>${title}</h2>
<table class="record days rows" aria-label="${title}">
<thead><tr><th scope="col">Day</th><th scope="col">What</th>${by && html`<th scope="col">By</th>`}<th scope="col" class="line">Line</th></tr></thead>
<tbody>
${rows.map((it) => html`<tr${rowAt(it, `${title} ${it.text}`)}><td class="whole">${it.day ?? "\u2013"}</td><td>${it.text}</td>${by && html`<td>${it.by ?? ""}</td>`}<td class="line">${lineCell(own, it)}</td></tr>\n`)}</tbody>
</table>
</section>
`;
}

function fast(rows: readonly FastRecord[], own: string | undefined): Markup | false {
  if (rows.length === 0) return false;
  return html`<section>
<h2>Tightened and locked</h2>
<table class="record rows stack" aria-label="Tightened and locked">
<thead><tr><th scope="col">Fastener</th><th scope="col">Tightened to</th><th scope="col">Allowed</th><th scope="col">By</th><th scope="col">Locked by</th><th scope="col" class="line">Line</th></tr></thead>
<tbody>
${rows.map((it) => html`<tr${rowAt(it, `fast ${it.of}`)}><td><span class="item">${it.of}</span>${it.critical && html` <span class="code">critical</span>`}</td><td data-label="Tightened to">${it.to}</td><td data-label="Allowed">${it.range ?? "\u2013"}</td><td data-label="By">${it.gauge ?? "\u2013"}</td><td data-label="Locked by">${it.lockedBy}</td><td class="line" data-label="Line">${lineCell(own, it)}</td></tr>\n`)}</tbody>
</table>
</section>
`;
}

const verdictWords = { in: "\u2713 in", usable: "\u2713 past new, inside wear", out: "\u2717 OUT", doubt: "? in doubt" } as const;

function readings(rows: readonly ReadRecord[], own: string | undefined): Markup | false {
  if (rows.length === 0) return false;
  const values = column(rows.map((it) => figureAndUnit(it.value)));
  return html`<section>
<h2>Readings</h2>
<table class="record rows stack" aria-label="Readings">
<thead><tr><th scope="col">What</th><th scope="col">When</th><th scope="col" class="n">Read</th><th scope="col">Against</th><th scope="col">Verdict</th><th scope="col">With</th><th scope="col" class="line">Line</th></tr></thead>
<tbody>
${rows.map((it, i) => html`<tr${rowAt(it, `read ${it.of} ${it.stage} ${it.against}`)}><td><span class="item">${it.of}</span></td><td data-label="When">${it.stage}${it.day !== undefined && html`<br><span class="code whole">${it.day}</span>`}</td><td class="n" data-label="Read">${values[i]}</td><td data-label="Against">${it.against}</td><td class="sign" data-label="Verdict">${verdictWords[it.outcome]}</td><td class="late" data-label="With">${it.gauge ?? "plain comparison"}</td><td class="line" data-label="Line">${lineCell(own, it)}</td></tr>\n`)}</tbody>
</table>
</section>
`;
}

function photos(report: ReleaseReport, source: PhotoSource): Markup | false {
  const shown = report.released ? report.photos : report.photos.filter((it) => it.whyNot !== undefined);
  if (shown.length === 0) return false;
  return html`<section>
<h2>${report.released ? "Photos" : photosMissing}</h2>
<ul class="photos">
${shown.map((it) => html`<li${rowAt(it, `photo ${it.path}`)}>${picture(it, source)}<span class="item">${it.of}</span>${it.day !== undefined && html`, <span class="whole">${it.day}</span>`}<br><span class="code">${it.path}</span> ${lineIn(report.file, it)}</li>\n`)}</ul>
</section>
`;
}

function picture(it: Photo, source: PhotoSource): Content {
  const answer = it.whyNot !== undefined || it.inside === undefined ? { whyNot: it.whyNot ?? "" } : source(it.inside);
  if ("whyNot" in answer) return html`<p class="none">Not shown: it ${answer.whyNot}.</p>`;
  const words = `Photo of ${it.of}`;
  return "src" in answer ? html`<img src="${answer.src}" alt="${words}">` : html`<img data-photo="${it.inside}" data-mark="${answer.mark}" alt="${words}">`;
}
