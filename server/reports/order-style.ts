// How the page of the parts order looks: a job card, ruled and plain, by day, by night and on paper.
// Invariant: nothing is fetched; no meaning hangs on a colour alone.
export const orderStyle = `
:root {
  color-scheme: light dark;
  --card: #fffdf6; --ink: #21262b; --faint: #5d646b; --rule: #b9b6a8; --edge: #21262b; --note: #7a3b00; --link: #0b4f8a;
}
@media (prefers-color-scheme: dark) {
  :root { --card: #1d2124; --ink: #e4e2da; --faint: #a4a9ad; --rule: #4a5056; --edge: #c9c6bb; --note: #f0b36b; --link: #8cc4f5; }
}
* { box-sizing: border-box; }
body { margin: 0; padding: 1rem; background: var(--card); color: var(--ink); font: .95rem/1.4 system-ui, sans-serif; }
body.in-editor { background: var(--vscode-editor-background, var(--card)); color: var(--vscode-editor-foreground, var(--ink)); }
main { max-width: 78rem; margin: 0 auto; }
header { border-top: 4px double var(--edge); border-bottom: 1px solid var(--edge); padding: .6rem 0; margin-bottom: 1rem; }
h1 { font-size: 1.35rem; margin: 0; }
h2 { font-size: 1.05rem; margin: 1.6rem 0 .4rem; border-bottom: 1px solid var(--rule); }
header p, .small { margin: .2rem 0 0; color: var(--faint); }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th { text-align: left; font-weight: 600; font-size: .82rem; color: var(--faint); border-bottom: 2px solid var(--edge); vertical-align: bottom; }
th, td { padding: .3rem .8rem .3rem 0; }
.order td:first-child { min-width: 10rem; }
td { vertical-align: top; }
tbody { border-bottom: 1px solid var(--rule); break-inside: avoid; }
.n { text-align: right; white-space: nowrap; }
.f, .u { display: inline-block; text-align: left; }
.u { margin-left: .3ch; }
.get { font-weight: 700; }
.item { font-weight: 600; }
.code { color: var(--faint); font-size: .88rem; }
.standing { font-size: .88rem; white-space: nowrap; }
.why td { padding-top: 0; }
.why ul { margin: 0 0 .3rem; padding-left: 1.2rem; font-size: .9rem; color: var(--faint); }
.note { color: var(--note); }
a { color: var(--link); text-decoration: underline; text-underline-offset: .15em; }
a:focus-visible { outline: 2px solid var(--link); outline-offset: 2px; }
footer { margin-top: 2rem; border-top: 1px solid var(--rule); padding-top: .5rem; color: var(--faint); font-size: .88rem; }
@page { margin: 12mm; }
@media print {
  :root { font-size: 8pt; color-scheme: light; --card: #fff; --ink: #000; --faint: #333; --rule: #999; --edge: #000; --note: #000; --link: #000; }
  body { padding: 0; }
  .wide { overflow: visible; }
  thead { display: table-header-group; }
  th, td { padding-right: .35rem; }
  .order td:first-child { min-width: 0; }
  .n .code { white-space: normal; }
  h2 { break-after: avoid; }
  a { text-decoration: none; }
}
`;
