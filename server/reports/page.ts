// The frame of a report's page: the style inside, nothing fetched, nothing that runs. It prints on A4 and on Letter.
// Invariant: what is written in a sheet is text there.
import { type Heading, machineWords } from "./heading.ts";
import { type Content, Markup, hrefOf, html } from "./html.ts";
import { orderStyle } from "./order-style.ts";
import type { Line } from "./release.ts";

const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

export interface Sections {
  /** “Readings”, “The way back”. */
  readonly name: string;
  readonly heading: Heading;
  /** What it comes to, in a sentence. */
  readonly headline?: string;
  readonly body: Content;
  readonly foot: Content;
}

export function pageOf(sections: Sections): string {
  const { name, heading, headline, body, foot } = sections;
  const machine = machineWords(heading);
  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${name}: ${heading.title}</title>
<style>${new Markup(orderStyle)}${new Markup(pictureStyle)}</style>
</head>
<body>
<main>
<header>
<h1>${name}: ${heading.title}</h1>
${machine !== "" && html`<p>${machine}</p>\n`}${headline !== undefined && html`<p class="headline">${headline}</p>\n`}</header>
${body}<footer>${foot}</footer>
</main>
</body>
</html>
`.text;
}

/** A link to a line, with the attributes by which an editor goes there. */
export function lineLink(it: Line, words?: string): Markup {
  return html`<a href="${hrefOf(it.file, it.line)}" data-file="${it.file}" data-line="${it.line}">${words ?? `${it.file}:${it.line}`}</a>`;
}

/** Signs, line kinds and words carry the meaning of a picture; no colour does. */
const pictureStyle = `
.headline { font-weight: 600; color: var(--ink); }
.card { break-inside: avoid; margin: 1.2rem 0; }
.card h2 { margin-top: 0; break-after: avoid; }
.facts { margin: .1rem 0 .5rem; font-size: .9rem; color: var(--faint); overflow-wrap: break-word; }
.facts b { color: var(--ink); font-weight: 600; }
.code, .facts, li, td, h1, h2, h3 { overflow-wrap: break-word; }
.whole { white-space: nowrap; }
.read { max-width: 44rem; }
.read td:first-child { width: 7.5rem; }
.standing { overflow-wrap: normal; }
.cautions { border: 2px solid var(--edge); padding: .2rem .9rem .5rem; margin: 1rem 0; break-inside: avoid; }
.cautions h2 { border: 0; margin: .4rem 0 .2rem; }
.cautions ul, .tick { margin: 0; padding-left: 1.1rem; }
.cautions li { margin: .25rem 0; }
.tick { list-style: none; padding-left: 0; }
.box { width: 1.6rem; }
.work td:nth-child(2) { width: 45%; }
.work td:last-child { width: 3rem; text-align: right; }
.work th:last-child { text-align: right; }
.hidden { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
h3 { font-size: .95rem; margin: .9rem 0 .2rem; break-after: avoid; }
.sign { font-weight: 700; white-space: nowrap; }
.picture { margin: .4rem 0 .8rem; }
.picture svg { display: block; width: 100%; max-width: 44rem; height: auto; }
.picture svg.stack { max-width: 28rem; }
svg text { font: 12px system-ui, sans-serif; fill: var(--ink); font-variant-numeric: tabular-nums; }
svg .faint { fill: var(--faint); }
svg .strong { font-weight: 700; }
svg .line { stroke: var(--ink); fill: none; stroke-width: 1.5; }
svg .thin { stroke: var(--rule); fill: none; stroke-width: 1; }
svg .wall { stroke: var(--edge); fill: none; stroke-width: 3; }
svg .dash { stroke: var(--faint); fill: none; stroke-width: 1; stroke-dasharray: 5 3; }
svg .dot { stroke: var(--faint); fill: none; stroke-width: 1; stroke-dasharray: 1 3; }
svg .mark { fill: var(--ink); stroke: var(--ink); stroke-width: 1.5; }
svg .open { fill: var(--card); stroke: var(--ink); stroke-width: 1.5; }
svg .slab { fill: var(--card); stroke: var(--ink); stroke-width: 1.2; }
pre { white-space: pre-wrap; overflow-wrap: anywhere; font: .88rem/1.45 ui-monospace, monospace; border: 1px solid var(--rule); border-left: 4px solid var(--edge); padding: .6rem .8rem; margin: .5rem 0; }
@media print { pre { font-size: 8pt; } .picture svg { max-width: 15cm; } }
@media (forced-colors: active) { svg text { fill: CanvasText; } svg .line, svg .wall, svg .mark, svg .slab, svg .open { stroke: CanvasText; } }
`;
