// The page of a report beside a sheet: drawn by the server, kept fresh as the sheet is typed, each row leading to its line.
// Invariant: the only script that runs there is our own, by its nonce; nothing is fetched; what a sheet says arrives as escaped text.
import { randomBytes } from "node:crypto";
import * as vscode from "vscode";

export interface ReportPage extends vscode.Disposable {
  show(): void;
}

export interface Report {
  /** The server's command, whose argument is the sheet's URI. */
  readonly command: string;
  readonly title: string;
}

/** What the server gives for a sheet. */
interface ReportAnswer {
  readonly html: string;
  /** The URI of each file that rows lead to, by the name that they give it. */
  readonly files: Readonly<Record<string, string>>;
}

/** Typing is let come to rest, so that nothing is worked out for every letter. */
const quiet = 150;

export function createReportPage(
  context: vscode.ExtensionContext,
  report: Report,
  ask: (command: string, uri: vscode.Uri) => Promise<unknown>,
  watchers: readonly vscode.FileSystemWatcher[],
): ReportPage {
  let panel: vscode.WebviewPanel | undefined;
  let sheet: vscode.Uri | undefined;
  let timer: NodeJS.Timeout | undefined;
  let asked = 0;
  let files: ReportAnswer["files"] = {};

  async function refresh(): Promise<void> {
    if (panel === undefined || sheet === undefined) return;
    const mine = ++asked;
    let answer: ReportAnswer;
    try {
      answer = ((await ask(report.command, sheet)) as ReportAnswer | undefined) ?? message("There is nothing to show of this sheet.");
    } catch (error) {
      answer = message(`The page could not be made: ${error instanceof Error ? error.message : String(error)}`);
    }
    // An older answer must not take the place of a newer one.
    if (mine !== asked) return;
    files = answer.files;
    void panel?.webview.postMessage(answer.html);
  }

  function soon(): void {
    clearTimeout(timer);
    timer = setTimeout(() => void refresh(), quiet);
  }

  function open(): void {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId === "jobsheet") sheet = editor.document.uri;
    if (sheet === undefined) {
      void vscode.window.showInformationMessage("Open a job sheet first: the page is worked out from it.");
      return;
    }
    if (panel === undefined) {
      panel = vscode.window.createWebviewPanel(
        report.command,
        report.title,
        { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
        { enableScripts: true, localResourceRoots: [], retainContextWhenHidden: true },
      );
      panel.iconPath = {
        light: vscode.Uri.joinPath(context.extensionUri, "client/split-pin-light.svg"),
        dark: vscode.Uri.joinPath(context.extensionUri, "client/split-pin-dark.svg"),
      };
      panel.onDidDispose(() => {
        panel = undefined;
      });
      panel.webview.onDidReceiveMessage((said: unknown) => {
        if (said === "ready") void refresh();
        else void reveal(said, files);
      });
      panel.webview.html = shell(report.title);
    } else {
      panel.reveal(undefined, true);
      void refresh();
    }
    panel.title = `${report.title}: ${sheet.path.split("/").at(-1) ?? ""}`;
  }

  const listening = vscode.Disposable.from(
    // What a sheet takes from files that are not open may change on the disk.
    ...watchers.flatMap((it) => [it.onDidChange(soon), it.onDidCreate(soon), it.onDidDelete(soon)]),
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (document.languageId === "jobsheet") soon();
    }),
    vscode.window.onDidChangeActiveTextEditor((editor) => {
      if (panel === undefined || editor?.document.languageId !== "jobsheet" || editor.document.uri.toString() === sheet?.toString()) return;
      sheet = editor.document.uri;
      panel.title = `${report.title}: ${sheet.path.split("/").at(-1) ?? ""}`;
      soon();
    }),
  );
  return {
    show: open,
    dispose() {
      clearTimeout(timer);
      listening.dispose();
      panel?.dispose();
    },
  };
}

/** Shows the line that a row of the page names. What a page says is taken as a stranger's word: only files that the server named are opened. */
async function reveal(said: unknown, files: ReportAnswer["files"]): Promise<void> {
  const { file, line } = (said ?? {}) as { file?: unknown; line?: unknown };
  if (typeof file !== "string" || typeof line !== "number" || !Number.isInteger(line) || !Object.hasOwn(files, file)) return;
  const target = vscode.Uri.parse(files[file] as string, true);
  const document = await vscode.workspace.openTextDocument(target);
  const at = document.lineAt(Math.max(0, Math.min(line - 1, document.lineCount - 1))).range;
  await vscode.window.showTextDocument(document, { viewColumn: columnOf(target), selection: new vscode.Range(at.start, at.start) });
}

/** Where the sheet stands already, else the first column. */
function columnOf(target: vscode.Uri): vscode.ViewColumn {
  const shown = vscode.window.visibleTextEditors.find((it) => it.document.uri.toString() === target.toString());
  return shown?.viewColumn ?? vscode.ViewColumn.One;
}

function message(text: string): ReportAnswer {
  return { html: `<p>${text.replace(/[&<>"]/g, (it) => `&#${it.charCodeAt(0)};`)}</p>`, files: {} };
}

/** The frame: it takes the page as a message, puts its parts in by a parser that runs nothing, and keeps the scroll. */
function shell(title: string): string {
  const nonce = randomBytes(16).toString("hex");
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; script-src 'nonce-${nonce}'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>
body.in-editor {
  --card: var(--vscode-editor-background); --ink: var(--vscode-editor-foreground); --faint: var(--vscode-descriptionForeground); --edge: var(--vscode-editor-foreground);
  --rule: var(--vscode-widget-border, var(--vscode-contrastBorder, currentColor)); --note: var(--vscode-editorWarning-foreground); --link: var(--vscode-textLink-foreground);
}
body.in-editor tr[data-line] { cursor: pointer; }
body.vscode-dark, body.vscode-high-contrast:not(.vscode-high-contrast-light) { color-scheme: dark; }
body.vscode-light, body.vscode-high-contrast-light { color-scheme: light; }
</style>
</head>
<body>
<div id="page"></div>
<script nonce="${nonce}">
const host = acquireVsCodeApi();
const page = document.getElementById("page");
window.addEventListener("message", ({ data }) => {
  if (typeof data !== "string") return;
  const read = new DOMParser().parseFromString(data, "text/html");
  for (const it of read.querySelectorAll("script, meta, link, base, iframe, object, embed")) it.remove();
  for (const old of document.head.querySelectorAll("style[data-page]")) old.remove();
  for (const style of read.head.querySelectorAll("style")) {
    style.setAttribute("data-page", "");
    document.head.append(document.adoptNode(style));
  }
  const x = window.scrollX, y = window.scrollY;
  document.body.classList.add("in-editor");
  page.replaceChildren(...[...read.body.childNodes].map((it) => document.adoptNode(it)));
  window.scrollTo(x, y);
});
document.addEventListener("click", (event) => {
  const row = event.target.closest?.("[data-line]");
  if (row === null || row === undefined) return;
  event.preventDefault();
  host.postMessage({ file: row.dataset.file, line: Number(row.dataset.line) });
});
host.postMessage("ready");
</script>
</body>
</html>`;
}
