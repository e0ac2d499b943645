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

/** The page and what it shows now. */
interface Shown {
  readonly context: vscode.ExtensionContext;
  readonly ask: Ask;
  panel: vscode.WebviewPanel | undefined;
  sheet: vscode.Uri | undefined;
  offered: readonly ReportOffered[];
  report: string;
  files: ReportAnswer["files"];
  timer: NodeJS.Timeout | undefined;
  /** A question is on its way, and it is to be asked again when its answer is there. */
  asking: boolean;
  again: boolean;
  /** How long the last answer took, in milliseconds. */
  took: number;
  cursorAt: string | undefined;
}

export function createReportPage(context: vscode.ExtensionContext, ask: Ask, watchers: readonly vscode.FileSystemWatcher[]): ReportPage {
  const shown: Shown = {
    context,
    ask,
    panel: undefined,
    sheet: undefined,
    offered: [],
    report: "order",
    files: {},
    timer: undefined,
    asking: false,
    again: false,
    took: 0,
    cursorAt: undefined,
  };
  const listening = listen(shown, watchers);
  return {
    show: (report) => show(shown, report),
    save: () => save(shown),
    dispose() {
      clearTimeout(shown.timer);
      listening.dispose();
      shown.panel?.dispose();
    },
  };
}

function listen(shown: Shown, watchers: readonly vscode.FileSystemWatcher[]): vscode.Disposable {
  const again = () => soon(shown);
  return vscode.Disposable.from(
    // What a sheet takes from files that are not open may change on the disk.
    ...watchers.flatMap((it) => [it.onDidChange(again), it.onDidCreate(again), it.onDidDelete(again)]),
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (shown.panel !== undefined && document.languageId === "jobsheet") soon(shown);
    }),
    vscode.window.onDidChangeActiveTextEditor((editor) => {
      // A data file belongs to the job that is shown: going to one of its lines does not turn the page to it.
      if (shown.panel === undefined || editor?.document.languageId !== "jobsheet") return;
      const uri = editor.document.uri.toString();
      if (uri === shown.sheet?.toString() || Object.values(shown.files).includes(uri)) return;
      take(shown, editor.document);
      soon(shown);
    }),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor, kind }) => {
      if (shown.panel === undefined || textEditor.document.languageId !== "jobsheet") return;
      const { line } = textEditor.selection.active;
      const place = `${textEditor.document.uri.toString()} ${line}`;
      if (place === shown.cursorAt) return;
      shown.cursorAt = place;
      // Going to a line from the page brings no scrolling back.
      cursor(shown, textEditor, kind === vscode.TextEditorSelectionChangeKind.Keyboard || kind === vscode.TextEditorSelectionChangeKind.Mouse);
    }),
  );
}

// ------------------------------------------------------------- what the page shows

/** One question at a time; what was typed meanwhile is asked for when its answer is there. */
async function refresh(shown: Shown): Promise<void> {
  if (shown.asking) {
    shown.again = true;
    return;
  }
  const { sheet: of, report: name } = shown;
  if (shown.panel === undefined || of === undefined) return;
  shown.asking = true;
  const from = Date.now();
  const answer = await answered(shown, of, name);
  shown.took = Date.now() - from;
  shown.asking = false;
  if (answer === "outdated") {
    shown.again = false;
    return soon(shown);
  }
  const isOther = of.toString() !== shown.sheet?.toString() || name !== shown.report;
  if (shown.again || isOther) {
    shown.again = false;
    soon(shown);
  }
  if (isOther) return;
  shown.files = answer.files;
  post(shown, {
    kind: "report",
    report: name,
    sheet: of.toString(),
    html: answer.html,
    entries: answer.entries,
    reports: shown.offered.map((it) => ({ name: it.name, title: it.title })),
  });
}

/** `outdated`: a text was changed under it, and what is shown stands until it is asked for again. */
async function answered({ ask, offered }: Shown, sheet: vscode.Uri, report: string): Promise<ReportAnswer | "outdated"> {
  const command = offered.find((it) => it.name === report)?.command;
  if (command === undefined) return nothing;
  try {
    return ((await ask(command, sheet.toString(), { only: "page" })) as ReportAnswer | undefined) ?? nothing;
  } catch (error) {
    if ((error as { readonly code?: unknown } | undefined)?.code === contentModified) return "outdated";
    return { ...nothing, html: `<p>${escaped(`The page could not be made: ${error instanceof Error ? error.message : String(error)}`)}</p>` };
  }
}

function soon(shown: Shown): void {
  clearTimeout(shown.timer);
  shown.timer = setTimeout(() => void refresh(shown), shown.took < soonEnough ? 0 : Math.min(longestQuiet, shown.took * 3));
}

function post({ panel }: Shown, said: ToPage): void {
  void panel?.webview.postMessage(said);
}

/** Tells the page where the cursor is; `follow`: the page goes to its row. */
function cursor(shown: Shown, editor: vscode.TextEditor | undefined, follow: boolean): void {
  if (shown.panel === undefined || editor === undefined) return;
  const uri = editor.document.uri.toString();
  const file = Object.entries(shown.files).find(([, it]) => it === uri)?.[0];
  if (file !== undefined) post(shown, { kind: "cursor", file, line: editor.selection.active.line + 1, follow });
}

function take(shown: Shown, document: vscode.TextDocument): void {
  if (document.uri.toString() === shown.sheet?.toString()) return;
  shown.sheet = document.uri;
  title(shown);
}

function title({ panel, offered, report, sheet }: Shown): void {
  if (panel === undefined) return;
  const name = offered.find((it) => it.name === report)?.title ?? "Report";
  panel.title = `${name}: ${sheet?.path.split("/").at(-1) ?? ""}`;
}

async function turn(shown: Shown, to: string): Promise<void> {
  if (!shown.offered.some((it) => it.name === to)) return;
  shown.report = to;
  shown.took = 0;
  title(shown);
  await refresh(shown);
}

// ------------------------------------------------------------- what is asked of it

async function show(shown: Shown, at?: string): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId === "jobsheet") take(shown, editor.document);
  if (shown.sheet === undefined) {
    void vscode.window.showInformationMessage("Open a job sheet first: the page is worked out from it.");
    return;
  }
  if (shown.offered.length === 0) shown.offered = (await shown.ask("splitpin.reports")) as readonly ReportOffered[];
  if (at !== undefined) shown.report = at;
  shown.took = 0;
  if (shown.panel === undefined) open(shown);
  else {
    shown.panel.reveal(undefined, true);
    await refresh(shown);
  }
  title(shown);
  cursor(shown, editor, true);
}

function open(shown: Shown): void {
  const panel = vscode.window.createWebviewPanel(
    "splitpin.report",
    "Report",
    { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
    { enableScripts: true, localResourceRoots: [], retainContextWhenHidden: true },
  );
  const icon = (name: string) => vscode.Uri.joinPath(shown.context.extensionUri, name);
  panel.iconPath = { light: icon("client/split-pin-light.svg"), dark: icon("client/split-pin-dark.svg") };
  panel.onDidDispose(() => {
    shown.panel = undefined;
  });
  panel.webview.onDidReceiveMessage((said: FromPage | undefined) => void heard(shown, said));
  panel.webview.html = pageShell();
  shown.panel = panel;
}

/** What a page says is taken as a stranger's word. */
async function heard(shown: Shown, said: FromPage | undefined): Promise<void> {
  if (said?.kind === "ready") {
    await refresh(shown);
    cursor(shown, sheetEditor(shown), true);
  } else if (said?.kind === "turn" && typeof said.report === "string") {
    await turn(shown, said.report);
    cursor(shown, sheetEditor(shown), false);
  } else if (said?.kind === "save") await save(shown);
  else if (said?.kind === "line") await reveal(shown, said.file, said.line);
  else if (said?.kind === "photo" && typeof said.path === "string" && typeof said.mark === "string" && shown.sheet !== undefined) {
    const src = await shown.ask("splitpin.photo", shown.sheet.toString(), said.path);
    if (typeof src === "string" && src.startsWith("data:image/")) post(shown, { kind: "photo", path: said.path, mark: said.mark, src });
  }
}

function sheetEditor({ sheet }: Shown): vscode.TextEditor | undefined {
  return vscode.window.visibleTextEditors.find((it) => it.document.uri.toString() === sheet?.toString());
}

/** Shows the line that a row of the page names. */
async function reveal({ files }: Shown, file: unknown, line: unknown): Promise<void> {
  if (typeof file !== "string" || typeof line !== "number" || !Number.isInteger(line) || !Object.hasOwn(files, file)) return;
  const target = vscode.Uri.parse(files[file] as string, true);
  const document = await vscode.workspace.openTextDocument(target);
  const at = document.lineAt(Math.max(0, Math.min(line - 1, document.lineCount - 1))).range;
  await vscode.window.showTextDocument(document, { viewColumn: columnOf(target), selection: new vscode.Range(at.start, at.start) });
}

async function save({ ask, offered, report, sheet }: Shown): Promise<void> {
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

/** Where the sheet stands already, else the first column. */
function columnOf(target: vscode.Uri): vscode.ViewColumn {
  const shown = vscode.window.visibleTextEditors.find((it) => it.document.uri.toString() === target.toString());
  return shown?.viewColumn ?? vscode.ViewColumn.One;
}

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (it) => `&#${it.charCodeAt(0)};`);
}
