// The frame of a report's page: the head of a job card, the report, the foot. The style is inside, nothing is fetched, nothing runs.
// Invariant: what is written in a sheet is text there. Rows carry `data-file`, `data-line` (from 1) and `data-row`, a name that stays while lines move.
import type { Caution } from "../../trade/cautions.ts";
import { type Heading, machineWords } from "./heading.ts";
import { type Content, Markup, hrefOf, html } from "./html.ts";
import { pageStyle } from "./page-style.ts";
import { pictureStyle } from "./picture-style.ts";
import type { Line } from "./line.ts";
import { bareWords, prose } from "./prose.ts";

/** `img-src data:` is for photos, which are inside the page as well. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

export interface Sections {
  /** “Readings”, “The way back”. */
  readonly name: string;
  readonly heading: Heading;
  /** What it comes to, in a sentence. */
  readonly headline?: string;
  /** What else must be read before anything. */
  readonly about?: readonly string[];
  readonly body: Content;
  readonly foot: Content;
}

export function pageOf(sections: Sections): string {
  const { name, heading, headline, about = [], body, foot } = sections;
  const fields = fieldsOf(heading);
  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${bareWords([name, heading.title].filter((it) => it !== "").join(": "))}</title>
<style>${new Markup(pageStyle)}${new Markup(pictureStyle)}</style>
</head>
<body>
<main>
<header>
<h1><span class="kind">${name}<span class="hidden">: </span></span>${heading.title}</h1>
${headline !== undefined && html`<p class="headline">${prose(headline)}</p>\n`}${about.length > 0 && html`<p class="about-it">${about.map((it, i) => [i > 0 && " ", prose(it)])}</p>\n`}${
  fields.length > 0 &&
  html`<details class="about" data-fold="about" open><summary>${machineWords(heading) === "" ? "The sheet" : machineWords(heading)}</summary>
<dl class="fields">
${fields.map(([field, value]) => html`<div><dt>${field}</dt><dd>${value}</dd></div>\n`)}</dl>
</details>
`
}</header>
${body}<footer>${foot}</footer>
</main>
</body>
</html>
`.text;
}

function fieldsOf(heading: Heading): [name: string, value: string][] {
  const all: [string, string | undefined][] = [
    ["By", heading.by],
    ["Opened", heading.opened],
    ["Sheet", heading.file],
  ];
  return all.filter((it): it is [string, string] => it[1] !== undefined && it[1] !== "");
}

/** A link to a line, with the attributes by which an editor goes there. Its words are the file's own name and the line, unless others are given. */
function lineLink(it: Line, words?: string): Markup {
  return html`<a class="at" href="${hrefOf(it.file, it.line)}" data-file="${it.file}" data-line="${it.line}"${words === undefined && html` title="${it.file}:${it.line}"`}>${words ?? `${shortFile(it.file)}\u00a0${it.line}`}</a>`;
}

/** The same in a sentence: `line 127` of the sheet that the page is of, with the file's name where it is another. */
export function lineIn(own: string | undefined, it: Line): Markup {
  return lineLink(it, it.file === own ? `line\u00a0${it.line}` : undefined);
}

/** The same in a column of lines. */
export function lineCell(own: string | undefined, it: Line): Markup {
  return lineLink(it, it.file === own ? String(it.line) : undefined);
}

/** The attributes of a row: the line that it leads to, and the name by which it is known again when the page is drawn anew. */
export function rowAt(it: Line, key: string): Markup {
  return html` data-file="${it.file}" data-line="${it.line}" data-row="${key.slice(0, 200)}"`;
}

/** The cautions that a job calls for, each with its source; nothing where there are none. */
export function cautionList(list: readonly Caution[]): Markup | false {
  // On a telephone the job's own are seen at once, and the usual ones when they are asked for; on paper and wherever there is room all of them are.
  const own = list.filter((it) => it.about === "own");
  const usual = list.filter((it) => it.about !== "own");
  return (
    list.length > 0 &&
    html`<section class="cautions"><details data-fold="cautions" open><summary><h2>Cautions</h2> <span class="code">${list.length}</span></summary>
${own.length > 0 && cautionItems(own, "own")}${usual.length > 0 && html`<label class="unfold"><input type="checkbox"> the usual cautions, ${usual.length}</label>\n${cautionItems(usual, "usual")}`}</details></section>
`
  );
}

function cautionItems(list: readonly Caution[], name: string): Markup {
  return html`<ul class="${name}">
${list.map((it) => html`<li>${prose(it.words)}${it.about !== "own" && html` <span class="code">${it.source}</span>`}</li>\n`)}</ul>
`;
}

/** `data` of `porter-data.jobsheet`, `engine` of `engine.jobsheet`: the whole is in the link. */
function shortFile(file: string): string {
  const base = (file.split("/").at(-1) ?? file).replace(/\.jobsheet$/u, "");
  return /[-_.]data$/u.test(base) ? "data" : base;
}
