// One page beside the sheet that turns between the reports: drawn by the server, kept fresh as the sheet is typed, leading to lines and from lines to rows.
// Invariant: knows nothing of the language. Only files that the server named are opened; nothing is fetched.
import * as vscode from "vscode";
import type { FromPage, ToPage } from "./messages.ts";
import { pageShell } from "./page-shell.ts";

export interface ReportPage extends vscode.Disposable {
  /** Opens the page, or brings it forward; at a report where one is named. */
  show(report?: string): Promise<void>;
  /** Writes the report that is shown as a file of its own. */
  save(): Promise<void>;
}

/** What the server offers. */
interface ReportOffered {
  readonly name: string;
  readonly title: string;
  /** The server's command, whose argument is the sheet's URI. */
  readonly command: string;
}

/** What the server gives for a sheet. */
interface ReportAnswer {
  readonly html: string;
  /** The URI of each file that rows lead to, by the name that they give it. */
  readonly files: Readonly<Record<string, string>>;
  readonly entries: Readonly<Record<string, readonly number[]>>;
}

export type Ask = (command: string, ...words: unknown[]) => Promise<unknown>;

/** A report that takes long is let wait for quiet, so that no keystroke waits for it. */
const soonEnough = 25;
const longestQuiet = 600;

/** As the protocol numbers it. */
const contentModified = -32801;

const nothing: ReportAnswer = { html: "<p>There is nothing to show of this sheet.</p>", files: {}, entries: {} };

export function createReportPage(context: vscode.ExtensionContext, ask: Ask, watchers: readonly vscode.FileSystemWatcher[]): ReportPage {
  let panel: vscode.WebviewPanel | undefined;
  let sheet: vscode.Uri | undefined;
  let offered: readonly ReportOffered[] = [];
  let report = "order";
  let files: ReportAnswer["files"] = {};
  let timer: NodeJS.Timeout | undefined;
  let asking = false;
  let again = false;
  let took = 0;
  let cursorAt: string | undefined;

  /** One question at a time; what was typed meanwhile is asked for when its answer is there. */
  async function refresh(): Promise<void> {
    if (asking) {
      again = true;
      return;
    }
    if (panel === undefined || sheet === undefined) return;
    asking = true;
    const of = sheet;
    const name = report;
    const from = Date.now();
    let answer: ReportAnswer;
    try {
      const command = offered.find((it) => it.name === name)?.command;
      answer = command === undefined ? nothing : (((await ask(command, of.toString(), { only: "page" })) as ReportAnswer | undefined) ?? nothing);
    } catch (error) {
      // A text was changed under it: what is shown stands until it is asked for again.
      if ((error as { readonly code?: unknown } | undefined)?.code === contentModified) {
        took = Date.now() - from;
        asking = false;
        again = false;
        return soon();
      }
      answer = { ...nothing, html: `<p>${escaped(`The page could not be made: ${error instanceof Error ? error.message : String(error)}`)}</p>` };
    }
    took = Date.now() - from;
    asking = false;
    if (again || of.toString() !== sheet?.toString() || name !== report) {
      again = false;
      soon();
    }
    if (of.toString() !== sheet?.toString() || name !== report) return;
    files = answer.files;
    post({
      kind: "report",
      report: name,
      sheet: of.toString(),
      html: answer.html,
      entries: answer.entries,
      reports: offered.map((it) => ({ name: it.name, title: it.title })),
    });
  }

  function soon(): void {
    clearTimeout(timer);
    timer = setTimeout(() => void refresh(), took < soonEnough ? 0 : Math.min(longestQuiet, took * 3));
  }

  function post(said: ToPage): void {
    void panel?.webview.postMessage(said);
  }

  /** Tells the page where the cursor is; `follow`: the page goes to its row. */
  function cursor(editor: vscode.TextEditor | undefined, follow: boolean): void {
    if (panel === undefined || editor === undefined) return;
    const uri = editor.document.uri.toString();
    const file = Object.entries(files).find(([, it]) => it === uri)?.[0];
    if (file !== undefined) post({ kind: "cursor", file, line: editor.selection.active.line + 1, follow });
  }

  function take(document: vscode.TextDocument): void {
    if (document.uri.toString() === sheet?.toString()) return;
    sheet = document.uri;
    title();
  }

  function title(): void {
    if (panel === undefined) return;
    const name = offered.find((it) => it.name === report)?.title ?? "Report";
    panel.title = `${name}: ${sheet?.path.split("/").at(-1) ?? ""}`;
  }

  async function turn(to: string): Promise<void> {
    if (!offered.some((it) => it.name === to)) return;
    report = to;
    took = 0;
    title();
    await refresh();
  }

  async function show(at?: string): Promise<void> {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId === "jobsheet") take(editor.document);
    if (sheet === undefined) {
      void vscode.window.showInformationMessage("Open a job sheet first: the page is worked out from it.");
      return;
    }
    if (offered.length === 0) offered = (await ask("splitpin.reports")) as readonly ReportOffered[];
    if (at !== undefined) report = at;
    took = 0;
    if (panel === undefined) open();
    else {
      panel.reveal(undefined, true);
      await refresh();
    }
    title();
    cursor(editor, true);
  }

  function open(): void {
    panel = vscode.window.createWebviewPanel(
      "splitpin.report",
      "Report",
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
    panel.webview.onDidReceiveMessage((said: FromPage | undefined) => void heard(said));
    panel.webview.html = pageShell();
  }

  /** What a page says is taken as a stranger's word. */
  async function heard(said: FromPage | undefined): Promise<void> {
    if (said?.kind === "ready") {
      await refresh();
      cursor(sheetEditor(), true);
    } else if (said?.kind === "turn" && typeof said.report === "string") {
      await turn(said.report);
      cursor(sheetEditor(), false);
    } else if (said?.kind === "save") await save();
    else if (said?.kind === "line") await reveal(said.file, said.line);
    else if (said?.kind === "photo" && typeof said.path === "string" && typeof said.mark === "string" && sheet !== undefined) {
      const src = await ask("splitpin.photo", sheet.toString(), said.path);
      if (typeof src === "string" && src.startsWith("data:image/")) post({ kind: "photo", path: said.path, mark: said.mark, src });
    }
  }

  function sheetEditor(): vscode.TextEditor | undefined {
    return vscode.window.visibleTextEditors.find((it) => it.document.uri.toString() === sheet?.toString());
  }

  /** Shows the line that a row of the page names. */
  async function reveal(file: unknown, line: unknown): Promise<void> {
    if (typeof file !== "string" || typeof line !== "number" || !Number.isInteger(line) || !Object.hasOwn(files, file)) return;
    const target = vscode.Uri.parse(files[file] as string, true);
    const document = await vscode.workspace.openTextDocument(target);
    const at = document.lineAt(Math.max(0, Math.min(line - 1, document.lineCount - 1))).range;
    await vscode.window.showTextDocument(document, { viewColumn: columnOf(target), selection: new vscode.Range(at.start, at.start) });
  }

  async function save(): Promise<void> {
    const command = offered.find((it) => it.name === report)?.command;
    if (sheet === undefined || command === undefined) {
      void vscode.window.showInformationMessage("Show a report first: the page that is shown is the one that is written.");
      return;
    }
    const near = sheet.with({ path: sheet.path.replace(/(\.jobsheet)?$/, `.${report}.html`) });
    const target = await vscode.window.showSaveDialog({ defaultUri: near, filters: { "Web page": ["html"] }, title: "Save Report as a Page" });
    if (target === undefined) return;
    const answer = (await ask(command, sheet.toString())) as ReportAnswer | undefined;
    if (answer !== undefined) await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(answer.html));
  }

  const listening = vscode.Disposable.from(
    // What a sheet takes from files that are not open may change on the disk.
    ...watchers.flatMap((it) => [it.onDidChange(soon), it.onDidCreate(soon), it.onDidDelete(soon)]),
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (panel !== undefined && document.languageId === "jobsheet") soon();
    }),
    vscode.window.onDidChangeActiveTextEditor((editor) => {
      // A data file belongs to the job that is shown: going to one of its lines does not turn the page to it.
      if (panel === undefined || editor?.document.languageId !== "jobsheet") return;
      const uri = editor.document.uri.toString();
      if (uri === sheet?.toString() || Object.values(files).includes(uri)) return;
      take(editor.document);
      soon();
    }),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor, kind }) => {
      if (panel === undefined || textEditor.document.languageId !== "jobsheet") return;
      const { line } = textEditor.selection.active;
      const place = `${textEditor.document.uri.toString()} ${line}`;
      if (place === cursorAt) return;
      cursorAt = place;
      // Going to a line from the page brings no scrolling back.
      cursor(textEditor, kind === vscode.TextEditorSelectionChangeKind.Keyboard || kind === vscode.TextEditorSelectionChangeKind.Mouse);
    }),
  );
  return {
    show,
    save,
    dispose() {
      clearTimeout(timer);
      listening.dispose();
      panel?.dispose();
    },
  };
}

/** Where the sheet stands already, else the first column. */
function columnOf(target: vscode.Uri): vscode.ViewColumn {
  const shown = vscode.window.visibleTextEditors.find((it) => it.document.uri.toString() === target.toString());
  return shown?.viewColumn ?? vscode.ViewColumn.One;
}

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (it) => `&#${it.charCodeAt(0)};`);
}
