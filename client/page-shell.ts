// The frame into which the page of a report is put: the row of reports, the line that says what changed, and our own script.
// Invariant: nothing runs but that script, nothing styles but what bears the nonce, nothing is fetched; pictures are `data:` and nothing else.

/** The script of the page, put in by the build. */
declare const SPLITPIN_PAGE_SCRIPT: string;

export function pageShell(script: string = SPLITPIN_PAGE_SCRIPT): string {
  const nonce = btoa(String.fromCharCode(...globalThis.crypto.getRandomValues(new Uint8Array(16))));
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'; img-src data:; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Report</title>
<style nonce="${nonce}">${style}</style>
</head>
<body class="in-editor">
<div id="head">
<nav id="reports" aria-label="Reports"></nav>
<p id="news"><span id="status" role="status"></span> <button type="button" id="afresh" hidden>Clear the marks</button> <button type="button" id="save">Save as a page</button></p>
</div>
<div id="page"></div>
<script nonce="${nonce}">${script.replaceAll("</script", "<\\/script")}</script>
</body>
</html>`;
}

const style = `
:root { font-size: calc(var(--vscode-font-size, 14px) * 1.1); }
body.in-editor {
  --card: var(--vscode-editor-background, #fffdf6); --ink: var(--vscode-editor-foreground, #21262b); --faint: var(--vscode-descriptionForeground, #565d64);
  --edge: var(--ink); --rule: var(--vscode-widget-border, var(--vscode-contrastBorder, var(--vscode-panel-border, #b9b6a8)));
  --note: var(--vscode-editorWarning-foreground, #7a3b00); --link: var(--vscode-textLink-foreground, #0b4f8a);
  background: var(--card); color: var(--ink); padding: 0 1rem 1rem;
}
body.vscode-dark, body.vscode-high-contrast:not(.vscode-high-contrast-light) { color-scheme: dark; }
body.vscode-light, body.vscode-high-contrast-light { color-scheme: light; }
#head { position: sticky; top: 0; z-index: 1; background: var(--card); padding: .3rem 0 0; margin-bottom: .8rem; border-bottom: 1px solid var(--rule); }
#reports { display: flex; flex-wrap: wrap; gap: .1rem .9rem; }
#head button { font: inherit; color: var(--link); background: none; border: 0; border-bottom: 3px solid transparent; padding: .15rem 0; cursor: pointer; }
#head button[aria-current] { color: var(--ink); font-weight: 700; border-bottom-color: var(--ink); }
#head button:focus-visible { outline: 2px solid var(--link); outline-offset: 1px; }
#news { display: flex; flex-wrap: wrap; gap: 0 1rem; margin: 0; font-size: .85rem; min-height: 1.7rem; align-items: baseline; }
#news #status { flex: 1 1 12rem; color: var(--faint); }
#news button { border: 0; text-decoration: underline; text-underline-offset: .15em; }
[data-line] { cursor: pointer; }
.page-mark { font-size: .8rem; font-weight: 700; white-space: nowrap; color: var(--ink); border: 1px solid var(--ink); padding: 0 .3em; }
.page-mark.here { border-style: dotted; }
.is-changed { box-shadow: -4px 0 0 var(--card), -7px 0 0 var(--ink); }
@media print { #head { display: none; } }
`;
