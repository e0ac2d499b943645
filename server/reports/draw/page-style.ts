// How a report's page looks: a job card, ruled and plain, by day, by night, on a narrow screen and on paper.
// Invariant: nothing is fetched; no meaning hangs on a colour alone: a sign or a word always says it too.

/** A row of a table that is too wide for the window becomes a block: its name, then each cell under its own label. */
const stacked = (table: string) => `  ${table} thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  ${table}, ${table} tbody { display: block; }
  ${table} tr { display: grid; grid-template-columns: repeat(auto-fill, minmax(7.6rem, 1fr)); gap: .1rem .8rem; padding: .4rem 0; }
  ${table} td { display: block; padding: 0; text-align: left; width: auto; }
  ${table} td:first-child, ${table} td[colspan], ${table} .across { grid-column: 1 / -1; width: auto; }
  ${table} td[data-label]:not(:empty)::before { content: attr(data-label); display: block; font-size: .75rem; color: var(--faint); font-weight: 400; }
  ${table} td:empty, ${table} td.none { display: none; }
  ${table} .why { display: block; padding-top: 0; }
  ${table}.rows tr + tr td { border-top: 0; }
  ${table}.rows tr + tr { border-top: 1px solid var(--rule); }
  ${table} .f { min-width: 0; }
  ${table} td.get { white-space: normal; overflow-wrap: anywhere; }
  ${table} .late { order: 1; }
  ${table} tr:has(> td.line) { position: relative; }
  ${table} td:first-child:has(~ .line) { padding-right: 4rem; }
  ${table} td.line { position: absolute; right: 0; top: .4rem; text-align: right; }
  ${table} td.line::before { display: none !important; }`;

/** A picture with what was read beside it. */
const beside = (
  picture: string,
  gap: string,
) => `  .beside:has(> .picture) { display: grid; grid-template-columns: ${picture} minmax(0, 1fr); column-gap: ${gap}; align-items: start; }
  .beside > :is(h2, h3, h4, .facts, .small) { grid-column: 1 / -1; }
  .beside > :is(.read, ul, p:not([class])) { grid-column: 2; }
  .beside > :is(ul, p:not([class])) { margin-top: .4rem; }
  .beside:has(> ul) > .picture { grid-row: auto / span 4; }`;

export const pageStyle = `
:root {
  color-scheme: light dark;
  --card: #fffdf6; --ink: #21262b; --faint: #565d64; --rule: #b9b6a8; --edge: #21262b; --note: #7a3b00; --link: #0b4f8a;
}
@media (prefers-color-scheme: dark) {
  :root { --card: #1d2124; --ink: #e4e2da; --faint: #a9aeb2; --rule: #4a5056; --edge: #c9c6bb; --note: #f0b36b; --link: #8cc4f5; }
}
* { box-sizing: border-box; }
body { margin: 0; padding: 1rem; background: var(--card); color: var(--ink); font: .95rem/1.4 system-ui, sans-serif; overflow-wrap: break-word; }
main { max-width: 66rem; margin: 0 auto; }
header { border-top: 4px double var(--edge); border-bottom: 1px solid var(--edge); padding: .5rem 0 .6rem; margin-bottom: 1rem; }
h1 { font-size: 1.35rem; line-height: 1.25; margin: 0; }
.kind { display: block; font-size: .95rem; font-weight: 600; color: var(--faint); }
h2 { font-size: 1.05rem; margin: 1.6rem 0 .4rem; border-bottom: 1px solid var(--rule); break-after: avoid; }
.printed { display: none; }
h3 { font-size: .95rem; margin: .9rem 0 .2rem; break-after: avoid; }
h4 { font-size: .9rem; margin: .7rem 0 .1rem; break-after: avoid; }
.group h3:has(~ .group > h4) { border-bottom: 1px dotted var(--rule); }
.fields { display: flex; flex-wrap: wrap; margin: .5rem 0 0; border: 1px solid var(--rule); }
.fields div { flex: 1 1 auto; min-width: 6rem; padding: .1rem .6rem .2rem; border-left: 1px solid var(--rule); margin-left: -1px; max-width: 100%; }
dt { font-size: .75rem; color: var(--faint); }
dd { margin: 0; overflow-wrap: anywhere; }
.headline { margin: .6rem 0 0; font-weight: 600; }
.small { margin: .2rem 0; color: var(--faint); font-size: .9rem; max-width: 46rem; }
.facts { break-inside: avoid; break-after: avoid; margin: .1rem 0 .5rem; font-size: .9rem; color: var(--faint); }
.facts b { color: var(--ink); font-weight: 600; }
.code { color: var(--faint); font-size: .88rem; overflow-wrap: anywhere; }
code { font: .9em/1.2 ui-monospace, monospace; }
.note { color: var(--note); }
.sign { font-weight: 700; white-space: nowrap; }
.n .code, .n .note { white-space: normal; }
.record td.sign { white-space: normal; overflow-wrap: break-word; }
.whole, .unbroken { white-space: nowrap; }
.hidden { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
section > p, li { max-width: 56rem; }
ul { margin: .3rem 0; padding-left: 1.2rem; }
li { margin: .15rem 0; break-inside: avoid; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th { text-align: left; font-weight: 600; font-size: .82rem; color: var(--faint); border-bottom: 2px solid var(--edge); vertical-align: bottom; }
th, td { padding: .3rem .9rem .3rem 0; }
th:last-child, td:last-child { padding-right: 0; }
td { vertical-align: top; }
.work td, .open td, .plan td, .plan th, .record td, .read td, .order td:first-child, .order td.late { overflow-wrap: anywhere; }
tbody { border-bottom: 1px solid var(--rule); }
tr { break-inside: avoid; }
.rows tr + tr td { border-top: 1px solid var(--rule); }
.n { text-align: right; white-space: nowrap; }
.line { text-align: right; width: 1%; }
td.line { overflow-wrap: break-word; min-width: 3rem; }
a.at { display: inline-block; max-width: 100%; }
td.line a.at { max-width: 9rem; }
.f { display: inline-block; text-align: left; }
${Array.from({ length: 21 }, (_, n) => `.c${n} { min-width: ${n}ch; }`).join(" ")}
.get { font-weight: 700; }
.item { font-weight: 600; }
.order tbody { break-inside: avoid; }
.order td:first-child { min-width: 10rem; }
.order .sums { break-before: avoid; }
.sums th { font: inherit; color: inherit; border: 0; vertical-align: top; }
.why td { padding-top: 0; }
.why ul { margin: 0 0 .3rem; font-size: .9rem; color: var(--faint); }
.card { break-inside: avoid; margin: 1.2rem 0; }
.card h2 { margin-top: 0; }
.read { max-width: 46rem; table-layout: fixed; }
.read th:first-child { width: 23%; }
.read th:nth-child(2) { width: 32%; }
.read th.line { width: 8%; }
.read tbody { break-inside: avoid; }
.read thead { break-after: avoid; }
.read .whole { white-space: normal; }
.cautions { border: 2px solid var(--edge); padding: .2rem .9rem .5rem; margin: 1.4rem 0; }
.cautions h2 { border: 0; margin: .4rem 0 .2rem; }
.cautions ul { columns: 26rem 2; column-gap: 2rem; }
.cautions li { margin: .25rem 0; }
.own { font-weight: 600; }
.unfold { display: none; }
.tick { list-style: none; padding-left: 0; }
.tick > li { position: relative; padding-left: 1.3rem; }
.tick > li > .box:first-child { position: absolute; left: 0; }
.tick > li:not(:has(> .box:first-child)) { padding-left: 0; }
.box { width: 1.6rem; }
.work td:nth-child(2) { width: 45%; }
.plan tbody { break-inside: avoid; }
.plan .group th { font-size: .95rem; color: var(--ink); border-bottom: 0; padding-top: .5rem; }
.plan .group .code { font-weight: 400; }
.parcels td:first-child { padding-left: 1rem; width: 55%; }
.days thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
.days td:first-child { width: 6.4rem; }
.get .code { font-weight: 400; display: inline-block; max-width: 6.5rem; }
.verdict { padding-top: 0; }
ul.open { list-style: none; padding: 0; margin: 0 0 .4rem; }
ul.open li { position: relative; max-width: none; margin: 0; padding: .3rem 4.4rem .3rem 0; }
ul.open li + li { border-top: 1px solid var(--rule); }
.rule { white-space: nowrap; }
.about-it { margin: .2rem 0 0; max-width: 56rem; }
ul.open .at { position: absolute; right: 0; top: .3rem; }
.group > h3 { margin-top: .8rem; }
.advice > p { margin: .5rem 0 .2rem; }
.advice ul.open { padding-left: .8rem; border-left: 2px solid var(--rule); }
summary { cursor: pointer; }
summary:focus-visible { outline: 2px solid var(--link); outline-offset: 2px; }
.about { margin: .4rem 0 0; }
.about > summary { font-size: .9rem; }
.about .fields { margin-top: .3rem; }
summary h2 { display: inline-block; border: 0; }
.named { display: grid; grid-template-columns: minmax(0, 15rem) minmax(0, 1fr); column-gap: 1rem; padding: .25rem 0; break-inside: avoid; }
.named + .named { border-top: 1px solid var(--rule); }
.named > :is(h3, h4), .named > ul { margin: 0; font-size: inherit; }
.named > :is(h3, h4) { break-after: auto; }
.named > ul { list-style: none; padding: 0; }
.columns { columns: 22rem 2; column-gap: 2.5rem; }
.columns .group { break-inside: avoid; padding: .2rem 0 .4rem; }
.columns h3 { margin-top: 0; }
.photos { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(17rem, 100%), 1fr)); gap: 1rem; padding: 0; list-style: none; }
.photos li { border: 1px solid var(--rule); padding: .5rem; margin: 0; }
.photos img { display: block; width: 100%; max-height: 22rem; object-fit: contain; background: #fff; }
.photos .whole { display: inline-block; }
.photos .none { border: 1px dashed var(--faint); padding: 1.5rem .6rem; text-align: center; }
a { color: var(--link); text-decoration: underline; text-underline-offset: .15em; }
a:focus-visible { outline: 2px solid var(--link); outline-offset: 2px; }
footer { margin-top: 2rem; border-top: 1px solid var(--rule); padding-top: .5rem; color: var(--faint); font-size: .88rem; max-width: 56rem; }
pre { white-space: pre-wrap; overflow-wrap: anywhere; font: .88rem/1.45 ui-monospace, monospace; border: 1px solid var(--rule); border-left: 4px solid var(--edge); padding: .6rem .8rem; margin: .5rem 0; }
.digest { max-width: calc(32ch + 1.6rem + 6px); }
@media print, screen and (min-width: 50.01rem) {
  .sales { table-layout: fixed; }
  .sales th { width: 14%; }
  .sales thead th:first-child { width: auto; }
  .sales thead th:nth-child(2) { width: 18%; }
  .sales thead th:last-child:not(.n) { width: 9%; }
  .what31 thead th:first-child { width: 31%; }
  .what40 thead th:first-child { width: 40%; }
  .what45 thead th:first-child { width: 45%; }
  .what54 thead th:first-child { width: 54%; }
  .sales:is(.what31, .what40, .what45, .what54) thead th:nth-child(n+3) { width: auto; }
  .sales th:nth-child(3):not(.n), .sales thead th:last-child:not(.n), .sales td.late, .sales td.whole { padding-left: 1rem; }
  .sales td.n { white-space: normal; overflow-wrap: anywhere; }
  .sales td.n .f { white-space: nowrap; }
}
@media screen and (min-width: 66rem) {
${beside("minmax(0, 29rem)", "2rem")}
}
@media screen and (max-width: 50rem) {
${stacked(".stack")}
  .rule { display: none; }
  .named { display: block; padding: .4rem 0; }
  .record td.whole, p.sign { white-space: normal; }
  .order.stack tr { display: flex; flex-wrap: wrap; gap: .1rem .6rem; }
  .order.stack .sums tr { justify-content: space-between; padding: .2rem 0; }
  .order.stack .sums th { padding: 0; }
  .order.stack .sums td { flex: 0 0 auto; text-align: right; }
  .record.stack tr { grid-template-columns: repeat(2, minmax(0, 1fr)); }
  .reads.stack tr { grid-template-columns: 9rem 10rem minmax(0, 1fr) minmax(0, 1fr); }
  .reads.stack td[data-label]:not(:empty)::before { display: none; }
  .reads.stack td[data-label="Read"] { grid-row: 2; grid-column: 1; font-weight: 600; }
  .reads.stack td[data-label="Verdict"] { grid-row: 2; grid-column: 2; }
  .reads.stack td[data-label="Against"] { grid-row: 2; grid-column: 3 / -1; }
  .reads.stack td[data-label="When"] { grid-row: 3; grid-column: 1; color: var(--faint); font-size: .9rem; }
  .reads.stack .unbroken { white-space: normal; }
  .reads.stack td[data-label="When"] br { display: none; }
  .reads.stack td[data-label="When"] .code { margin-left: .4rem; }
  .reads.stack td[data-label="With"] { grid-row: 3; grid-column: 2 / -1; color: var(--faint); font-size: .9rem; }
  .plan.stack tr:not(.why) { display: flex; flex-wrap: wrap; gap: 0 1.4rem; }
  .plan.stack td:first-child { flex: 0 0 100%; }
  .plan.stack td[data-label]:not(:empty)::before { display: none; }
  .plan.stack td[data-label="Takes"]:not(:empty)::before { content: "takes "; }
  .plan.stack td[data-label="To spare"]:not(:empty)::before { content: "to spare: "; }
  .plan.stack td[data-label="Takes"]:not(:empty)::before, .plan.stack td[data-label="To spare"]:not(:empty)::before { display: inline; font-size: 1em; }
  .order.stack td { flex: 0 1 auto; min-width: 4.2rem; max-width: 100%; }
  .order.stack td:first-child, .order.stack td[colspan] { flex-basis: 100%; }
  .stack .n { white-space: normal; overflow-wrap: anywhere; }
}
@media screen and (max-width: 42rem) {
  .read thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .read, .read tbody { display: block; }
  .read tr { display: grid; grid-template-columns: 1fr auto; gap: 0 .8rem; }
  .read td { padding: .1rem 0; border: 0; }
  .read td:first-child { width: auto; font-weight: 600; }
  .read td:first-child br { display: none; }
  .read td:first-child .code { margin-left: .6rem; font-weight: 400; }
  .read td.verdict:first-child { font-weight: 400; }
  .read td:nth-child(2), .read td:nth-child(3), .read .verdict { grid-column: 1 / -1; }
  .read td:nth-child(3) br { display: none; }
  .read td:nth-child(3) .whole { display: inline-block; max-width: 100%; margin-right: .4em; }
  .read td:nth-child(3) .whole:has(+ br)::after { content: ";"; }
  .read td.line { grid-row: 1; grid-column: 2; }
  .read tbody { padding: .35rem 0; border-bottom: 1px solid var(--rule); }
}
@media screen and (max-width: 42rem) {
  .work thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .work, .work tbody { display: block; }
  .work tr { display: grid; grid-template-columns: 1.6rem 1fr auto; gap: 0 .4rem; padding: .35rem 0; }
  .work td { padding: 0; border: 0 !important; }
  .work td.line { width: auto; white-space: nowrap; }
  .work td:nth-child(2) { width: auto; }
  .work td:nth-child(3) { grid-row: 2; grid-column: 2 / -1; color: var(--faint); font-size: .9rem; }
  .work tr + tr { border-top: 1px solid var(--rule); }
}
@media screen and (max-width: 42rem) {
  .parcels thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .parcels, .parcels tbody, .parcels .group { display: block; }
  .parcels tr:not(.group) { display: grid; grid-template-columns: 1fr auto; gap: 0 .8rem; padding: .25rem 0; }
  .parcels .group th { display: block; }
  .parcels td { padding: 0; border: 0 !important; }
  .parcels td:first-child { width: auto; padding-left: 0; }
  .parcels td:nth-child(2):not(.line) { grid-row: 2; grid-column: 1 / -1; color: var(--faint); font-size: .9rem; }
  .parcels td.line { width: auto; }
}
@media screen and (max-width: 34rem) {
  .reads.stack tr { grid-template-columns: 9rem minmax(0, 1fr); }
  .reads.stack td[data-label="Against"] { grid-row: 3; grid-column: 2; font-size: .9rem; }
  .reads.stack td[data-label="When"] { grid-column: 1; }
  .reads.stack td[data-label="With"] { grid-row: 4; grid-column: 1 / -1; }
  .unfold { display: block; padding: .3rem 0; }
  .cautions:has(.unfold input:not(:checked)) .usual { display: none; }
  body { padding: .7rem .8rem; }
  h1 { font-size: 1.15rem; }
  ul.open li { padding-right: 3.2rem; }
  .days tr { display: grid; grid-template-columns: 1fr auto; gap: 0 .8rem; padding: .3rem 0; border-bottom: 1px solid var(--rule); }
  .days, .days tbody { display: block; }
  .days.rows tr td { padding: 0; border: 0; }
  .days td:first-child { width: auto; color: var(--faint); font-size: .88rem; }
  .days td:nth-child(2) { grid-row: 2; grid-column: 1 / -1; }
}
@page { margin: 12mm 12mm 14mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8pt system-ui, sans-serif; } }
@media print {
  :root { font-size: 8.5pt; color-scheme: light; --card: #fff; --ink: #000; --faint: #333; --rule: #999; --edge: #000; --note: #000; --link: #000; }
  body { padding: 0; }
  main { max-width: none; }
  .wide { overflow: visible; }
  thead { display: table-header-group; }
  .printed { display: inline; }
  th, td { padding-right: .6rem; }
  .order td:first-child { min-width: 9.5em; }
  a { text-decoration: none; }
  li a, p a, h3 a, h4 a { font-style: italic; }
  summary { list-style: none; }
  .rule, .paste { display: none; }
  .cautions .usual { columns: auto; display: grid; grid-template-columns: 1fr 1fr; column-gap: 2rem; font-size: .93em; }
  .cautions { box-decoration-break: clone; -webkit-box-decoration-break: clone; }
  .columns .group:has(li:nth-child(5)) { break-inside: auto; }
${beside("25rem", "1.4rem")}
  .beside { break-inside: avoid; }
  .beside > .picture { break-after: auto; }
  footer, p.sign, .digest { break-before: avoid; }
  footer { break-inside: avoid; }
  .card:has(tbody tr:nth-child(7)) { break-inside: auto; }
  .beside > h2 { margin-top: 1rem; }
  .about > summary { font-size: 1rem; }
  pre { font-size: 8pt; }
}
`;
