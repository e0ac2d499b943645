// What stands in the way of release as a whole page: the style inside, nothing fetched, nothing that runs.
// Invariant: what is written in a sheet is text there. Each row leads to its line by an address and by data attributes.
import { Markup, hrefOf, html } from "./html.ts";
import { orderStyle } from "./order-style.ts";
import { type Line, type ReleaseReport, notAnInspection } from "./release.ts";
import { concessionWords, recheckWords, recordWords, releaseHeadline, releaseTitle, severityWord } from "./release-words.ts";

const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

export function releaseHtml(report: ReleaseReport): string {
  const title = releaseTitle(report);
  const page = html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${new Markup(orderStyle)}</style>
</head>
<body>
<main>
<header>
<h1>${title}</h1>
<p>${releaseHeadline(report)}</p>
</header>
${
  report.open.length > 0 &&
  html`<table class="open">
<thead><tr><th scope="col">How it stands</th><th scope="col">What is open</th><th scope="col">Line</th></tr></thead>
<tbody>
${report.open.map((it) => html`<tr data-file="${it.file}" data-line="${it.line}"><td class="standing">${severityWord(it)}</td><td>${it.message} <span class="code">${it.rule}</span></td><td>${link(it)}</td></tr>\n`)}</tbody>
</table>
`
}${
  report.released && [
    list("What was found", report.found, recordWords),
    list("What was done", report.done, recordWords),
    list("What was fitted new", report.fitted, recordWords),
    list("What was read", report.readings, recordWords),
    list("What was tried", report.tests, recordWords),
  ]
}${list("Accepted outside its limit", report.concessions, concessionWords)}${list("To be looked at again", report.rechecks, recheckWords)}${
  report.cautions.length > 0 &&
  html`<h2>Cautions</h2>
<ul>
${report.cautions.map((it) => html`<li>${it.words} <span class="code">${it.source}</span></li>\n`)}</ul>
`
}<footer>${notAnInspection}</footer>
</main>
</body>
</html>
`;
  return page.text;
}

function list<T extends Line>(title: string, rows: readonly T[], words: (it: T) => string): Markup | false {
  return rows.length > 0 && html`<h2>${title}</h2>\n<ul>\n${rows.map((it) => html`<li>${words(it)} ${link(it)}</li>\n`)}</ul>\n`;
}

function link(it: Line): Markup {
  return html`<a href="${hrefOf(it.file, it.line)}" data-file="${it.file}" data-line="${it.line}">${it.file}:${it.line}</a>`;
}
