// One open sheet on its way to the editor: its check begun, gone on with for some milliseconds, and told.
// Invariant: until the whole of the newest text is told, what was told last stands, moved with its lines; an unchanged list is not sent again.
import type { Diagnostic as ProtocolDiagnostic } from "vscode-languageserver";
import { type SheetText, editingSheet } from "../../grammar/sheet-text.ts";
import { type Checked, type Diagnostic, type Slices, open as openService } from "../service.ts";
import type { Connection } from "./connection.ts";
import { noting } from "./noting.ts";
import type { OpenSheet, OpenSheets } from "./open-sheets.ts";
import { diagnosticsToSend, toDiagnostic } from "./to-protocol.ts";
import { now, turnOfMany } from "./turns.ts";
import { failed, notRead, onlyItsLines, underWay } from "./unchecked.ts";
import type { Workspaces } from "./workspaces.ts";

export interface Published {
  readonly uri: string;
  readonly path: string;
  /** The files that its checks have asked for, found or not: a change of one of them is the sheet's business too. */
  readonly asked: Set<string>;
  /** What stands: of a check of the newest text where nothing is `due` or `running`, else of an older one. */
  stands: Checked | undefined;
  /** Whether its text has been checked once: before that there is nothing to stand. */
  told: boolean;
  /** Whether what stands comes from a check of all of it: else there is nothing of the job to stand until the next is through. */
  whole: boolean;
  /** Its check waits for its turn, or for its writer to pause. */
  due: "now" | "pause" | undefined;
  running: Slices<Checked | undefined> | undefined;
  /** What stands of the newest text is being worked out: that goes before its check. */
  standing: { readonly slices: Slices<Checked | undefined>; readonly told: boolean } | undefined;
  /** Of a short sheet that was typed in: when what stands is told though its check is not through. Undefined where the whole of its newest text is told. */
  overdue: number | undefined;
  /** The text that `stands` is of. */
  of: SheetText | undefined;
  sent: readonly ProtocolDiagnostic[] | undefined;
  /** What was made of each diagnostic for the list that was sent last. */
  readonly shapes: WeakMap<Diagnostic, ProtocolDiagnostic>;
}

/** What a sheet is told by, and who is to know how far it is. */
export interface Telling {
  readonly connection: Connection;
  readonly workspaces: Workspaces;
  readonly open: Pick<OpenSheets, "get" | "keys">;
  /** A check waits until its writer pauses. */
  waitsForPause(): void;
  /** A whole check was made and told. */
  wholeTold(): void;
}

/** Of a sheet with more lines the whole is told when its writer pauses. */
const manyLines = 1500;

/** So long the check of a short sheet is waited for, from the first text that nothing was told of: a list that says what the edit has just cured would be gone a blink later. */
const patience = 150;

/** What stands of a text is told at its key, where that is done so soon. */
const firstStand = 15;

/** The first time a check runs longer than a turn, for most sheets are done by then. */
const firstTurn = 30;

/** Of which nothing was told yet. `sent` is the list that the editor has of it. */
export function nothingTold(uri: string, path: string, sent: readonly ProtocolDiagnostic[] | undefined): Published {
  return {
    uri,
    path,
    asked: new Set(),
    stands: undefined,
    of: undefined,
    told: false,
    whole: false,
    due: undefined,
    standing: undefined,
    running: undefined,
    overdue: undefined,
    sent,
    shapes: new WeakMap(),
  };
}

/** Nothing can be said of its newest text yet. */
export function isOnItsWay(it: Published): boolean {
  return it.due === "now" || it.standing !== undefined;
}

/** Another text: what runs is given up. */
export function giveUp(it: Published): void {
  it.running = undefined;
  it.standing = undefined;
  it.due = "now";
}

/** Begins with a new text, or goes on with what stands of it or with its check, for a turn. */
export function goOn(by: Telling, it: Published): void {
  if (it.due === "now") begin(by, it);
  else if (it.standing !== undefined) stand(by, it, turnOfMany);
  else {
    run(by, it, turnOfMany);
    if (it.running !== undefined && it.overdue !== undefined) standIfOverdue(by, it, it.overdue);
  }
}

function standIfOverdue(by: Telling, it: Published, overdue: number): void {
  if (now() < overdue) return;
  it.overdue = undefined;
  startStanding(by, it, true);
  stand(by, it, firstStand);
}

function begin(by: Telling, it: Published): void {
  if (!isRead(by, it)) return;
  const { why, lines, sheet } = by.open.get(it.uri) ?? {};
  if (why !== undefined && lines === undefined) return tellOnly(by, it, notRead(it.path, why));
  if (why !== undefined && lines !== undefined) {
    it.due = undefined;
    it.running = onlyItsLines(by.workspaces.locate(it.uri).workspace.service, it.path, it.stands, why, lines);
    return run(by, it, turnOfMany);
  }
  const short = linesOf(it, sheet) <= manyLines;
  if (!it.whole || short) {
    startCheck(by, it);
    if (!short && it.running !== undefined) it.running = beginningWith(by, it, it.running);
    run(by, it, short ? firstTurn : turnOfMany);
    // Of a text that was never checked whole nothing stands, and a list that is not the whole one might be taken for it.
    if (it.running === undefined || !it.whole) return;
    if (short) {
      it.overdue ??= now() - firstTurn + patience;
      return standIfOverdue(by, it, it.overdue);
    }
  } else {
    it.due = "pause";
    by.waitsForPause();
  }
  startStanding(by, it, true);
  stand(by, it, firstStand);
}

/** Reads on in its text, where that is not read; false where more is left, or can't be read. */
function isRead(by: Telling, it: Published): boolean {
  let read = false;
  guarded(by, it, () => {
    const until = now() + turnOfMany;
    read = by.open.get(it.uri)?.readOn(() => now() < until) ?? true;
  });
  return read;
}

/** Its lines, and those of all that it used when it was last looked at. */
function linesOf({ path, stands }: Published, sheet: SheetText | undefined): number {
  let lines = sheet?.lineCount ?? 0;
  for (const [file, text] of stands?.texts ?? []) if (file !== path) lines += text.lineCount;
  return lines;
}

/** What can be said of the newest text before it is checked; `told`: to the editor too. */
export function startStanding({ workspaces }: Telling, it: Published, told: boolean): void {
  const { workspace, path } = workspaces.locate(it.uri);
  it.standing = { slices: noting(workspace, it.asked).meanwhile(path, it.stands), told };
}

/** Works it out for so many milliseconds, and tells it. */
function stand(by: Telling, it: Published, milliseconds: number): void {
  guarded(by, it, () => {
    const until = now() + milliseconds;
    do {
      const step = it.standing?.slices.next();
      if (step?.done !== true) continue;
      const told = it.standing?.told === true;
      it.standing = undefined;
      it.stands = step.value;
      it.of = by.open.get(it.uri)?.sheet;
      if (told) publish(by, it);
      return;
    } while (now() < until);
  });
}

export function startCheck({ workspaces }: Telling, it: Published): void {
  const { workspace, path } = workspaces.locate(it.uri);
  it.due = undefined;
  it.asked.clear();
  it.running = noting(workspace, it.asked).checking(path);
}

/** A check of a long text that nothing was told of: what its entries say by themselves is told before it. */
function* beginningWith(by: Telling, it: Published, check: Slices<Checked | undefined>): Slices<Checked | undefined> {
  const { workspace, path } = by.workspaces.locate(it.uri);
  const sheet = workspace.service.files.read(path);
  if (typeof sheet !== "string") {
    it.stands = yield* workspace.service.ofLines(path, sheet);
    it.of = sheet;
    publish(by, it, underWay(path));
    yield;
  }
  return yield* check;
}

/** Runs a check for so many milliseconds, and tells what it found if it is done. */
function run(by: Telling, it: Published, milliseconds: number): void {
  guarded(by, it, () => {
    const until = now() + milliseconds;
    do {
      const step = it.running?.next();
      if (step?.done !== true) continue;
      const open = by.open.get(it.uri);
      it.running = undefined;
      it.overdue = undefined;
      it.stands = step.value;
      it.of = open?.sheet;
      it.told = true;
      it.whole = open?.why === undefined;
      publish(by, it);
      by.wholeTold();
      return;
    } while (now() < until);
  });
}

/** All that a key makes of it, and nothing comes of: a line more in one of its entries, first in the last of them, is read, checked, and written as for the editor. */
export function* typedIn({ workspaces, open }: Telling, { uri }: Published, n: number): Slices<void> {
  const { workspace, path } = workspaces.locate(uri);
  const { files } = workspace.service;
  const sheet = open.get(uri)?.sheet;
  if (sheet === undefined || sheet.starts.length === 0) return;
  const line = (sheet.starts.at(-1 - (n % sheet.starts.length)) as number) + 1;
  const typed = yield* editingSheet(sheet, { startLine: line, startColumn: 0, endLine: line, endColumn: 0, text: '  note ""\n' });
  const checked = yield* openService({ ...files, read: (it) => (it === path ? typed : files.read(it)) }).checking(path);
  JSON.stringify(diagnosticsToSend(checked?.list ?? [], workspace.uriOf, new WeakMap()));
}

/** A fault of the program must not end the server; what stood there before would be a lie, so it goes. */
function guarded(by: Telling, it: Published, work: () => void): void {
  try {
    work();
  } catch (error) {
    by.connection.console.error(
      `Splitpin itself failed on ${it.uri}, and gives no verdict: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
    );
    tellOnly(by, it, failed(it.path));
  }
}

/** This, and nothing else, is what can be said of a sheet that was not checked. */
function tellOnly(by: Telling, it: Published, only: Diagnostic): void {
  it.running = undefined;
  it.standing = undefined;
  it.overdue = undefined;
  it.due = undefined;
  it.told = true;
  it.whole = false;
  it.stands = { path: it.path, list: [only], ofJob: [], own: [], texts: new Map(), story: undefined };
  publish(by, it);
}

/** `first` stands before the list, however long that is. */
function publish({ connection, workspaces, open }: Telling, it: Published, first?: Diagnostic): void {
  const { uri } = it;
  const { workspace } = workspaces.locate(uri);
  const diagnostics = diagnosticsToSend(it.stands?.list ?? [], workspace.uriOf, it.shapes);
  if (first !== undefined) diagnostics.unshift(toDiagnostic(first, workspace.uriOf));
  if (it.sent !== undefined && isSameList(it.sent, diagnostics)) return;
  it.sent = diagnostics;
  void connection.sendDiagnostics({ uri, version: (open.get(uri) as OpenSheet).version, diagnostics });
}

function isSameList(a: readonly ProtocolDiagnostic[], b: readonly ProtocolDiagnostic[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i] && JSON.stringify(a[i]) !== JSON.stringify(b[i])) return false;
  return true;
}
