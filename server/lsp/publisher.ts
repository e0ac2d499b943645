// Sends what is wrong with the open sheets: the sheet that was typed in first, then those that may use it.
// Invariant: only the newest version is checked, an unchanged list is not sent again, and no list waits for a fixed time. In a sheet of many entries the
// rules that look at the whole of it wait until nobody has typed for a moment; then all of it is checked, and the list sent is the whole one.
import type { Connection, Diagnostic as ProtocolDiagnostic } from "vscode-languageserver";
import type { Files } from "../model/files.ts";
import type { Diagnostic } from "../rules/check.ts";
import { diagnosticsToSend } from "./to-protocol.ts";
import type { Workspaces } from "./workspaces.ts";

export interface Publisher {
  changed(uri: string): void;
  closed(uri: string): void;
  /** Something outside of the editor changed: every open sheet is checked again. */
  allChanged(): void;
  /** What stands in the sheet as it is now. */
  current(uri: string): readonly Diagnostic[];
}

interface Sent {
  /** What it was made of. */
  readonly of: readonly Diagnostic[];
  readonly diagnostics: readonly ProtocolDiagnostic[];
}

/** Further edits that wait in the pipe are taken in first, but never so long that the eye would see it. */
const longestWait = 30;

/** So long nobody types before a sheet of many entries is looked at as a whole: longer than between two letters, shorter than a look up at the screen. */
const quiet = 150;

export function createPublisher(connection: Connection, workspaces: Workspaces, openUris: () => readonly string[]): Publisher {
  const sent = new Map<string, Sent>();
  const latest = new Map<string, readonly Diagnostic[]>();
  /** The files that a sheet's checks have asked for, found or not: a change of one of them is the sheet's business too. */
  const asks = new Map<string, Set<string>>();
  /** What was made of each diagnostic, by the sheet that it is in. */
  const shapes = new Map<string, WeakMap<Diagnostic, ProtocolDiagnostic>>();
  const waiting = new Set<string>();
  /** Sheets of which something was put off. */
  const unfinished = new Set<string>();
  let finishing: NodeJS.Timeout | undefined;
  let scheduled = false;
  let edits = 0;

  function schedule(): void {
    if (scheduled) return;
    scheduled = true;
    turn(edits, Date.now());
  }

  function turn(editsSeen: number, since: number): void {
    setImmediate(() => {
      if (edits !== editsSeen && Date.now() - since < longestWait) return turn(edits, since);
      scheduled = false;
      const [uri] = waiting;
      if (uri === undefined) return;
      waiting.delete(uri);
      publish(uri);
      // One sheet a turn, so that a keystroke that arrives meanwhile is not kept waiting by the others.
      if (waiting.size > 0) schedule();
    });
  }

  /** When it is quiet, one sheet after the other is checked as a whole. */
  function finishLater(): void {
    clearTimeout(finishing);
    finishing = setTimeout(() => {
      if (waiting.size > 0) return finishLater();
      const [uri] = unfinished;
      if (uri === undefined) return;
      publish(uri, true);
      if (unfinished.size > 0) finishLater();
    }, quiet);
    // A server that is told to end does not wait for it.
    finishing.unref();
  }

  function check(uri: string, whole: boolean): readonly Diagnostic[] {
    const { root, path } = workspaces.locate(uri);
    let list: readonly Diagnostic[];
    try {
      const asked = asks.get(uri) ?? new Set<string>();
      asks.set(uri, asked);
      const files = noting(root.files, asked);
      unfinished.delete(uri);
      const glance = whole ? { list: root.checker.check(files, path), whole } : root.checker.glance(files, path);
      if (!glance.whole) {
        unfinished.add(uri);
        finishLater();
      }
      list = glance.list;
    } catch (error) {
      // A fault of the program must not end the server; what stood there before would be a lie, so it goes.
      connection.console.error(
        `Splitpin itself failed on ${uri}, and gives no verdict: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
      );
      list = [
        {
          file: path,
          line: 0,
          from: 0,
          to: 0,
          severity: "error",
          rule: "splitpin-failed",
          message: "Splitpin itself failed on this sheet and gives no verdict. Its log says where.",
          related: [],
          fixes: [],
        },
      ];
    }
    latest.set(uri, list);
    return list;
  }

  function publish(uri: string, whole = false): void {
    if (!openUris().includes(uri)) return;
    const { root } = workspaces.locate(uri);
    const of = check(uri, whole);
    const before = sent.get(uri);
    if (before?.of === of) return;
    const made = shapes.get(uri) ?? new WeakMap();
    shapes.set(uri, made);
    const diagnostics = diagnosticsToSend(of, root, workspaces, made);
    sent.set(uri, { of, diagnostics });
    if (before !== undefined && isSameList(before.diagnostics, diagnostics)) return;
    void connection.sendDiagnostics({ uri, diagnostics });
  }

  return {
    changed(uri) {
      edits += 1;
      const { root, path } = workspaces.locate(uri);
      const concerned = (it: string) => workspaces.locate(it).root === root && (asks.get(it)?.has(path) === true || asks.get(it)?.has(everySheet) === true);
      // The sheet that was typed in goes to the front.
      const others = [...waiting, ...openUris().filter(concerned)].filter((it) => it !== uri);
      waiting.clear();
      for (const it of [uri, ...others]) waiting.add(it);
      schedule();
    },
    closed(uri) {
      waiting.delete(uri);
      unfinished.delete(uri);
      latest.delete(uri);
      asks.delete(uri);
      sent.delete(uri);
      shapes.delete(uri);
      void connection.sendDiagnostics({ uri, diagnostics: [] });
    },
    allChanged() {
      edits += 1;
      for (const uri of openUris()) waiting.add(uri);
      schedule();
    },
    current(uri) {
      // A request may come before the check of the edit that was sent ahead of it: then that check is not put off any longer.
      if (waiting.delete(uri)) publish(uri);
      return latest.get(uri) ?? check(uri, true);
    },
  };
}

/** Stands for all sheets of the workspace, which a released sheet asks about. */
const everySheet = "*";

/** The same files, with every path that is asked for put into a set. */
function noting(files: Files, asked: Set<string>): Files {
  return {
    read(path) {
      asked.add(path);
      return files.read(path);
    },
    jobsheets() {
      asked.add(everySheet);
      return files.jobsheets?.() ?? [];
    },
    prices(path) {
      asked.add(path);
      return files.prices?.(path) ?? "missing";
    },
  };
}

function isSameList(a: readonly ProtocolDiagnostic[], b: readonly ProtocolDiagnostic[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i] && JSON.stringify(a[i]) !== JSON.stringify(b[i])) return false;
  return true;
}
