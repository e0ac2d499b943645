// Sends what is wrong with the open sheets: the sheet that was typed in first, then those that may use it.
// Invariant: only the newest version is checked, an unchanged list is not sent again, and nothing is called clean that was not checked: until the whole of
// the newest text is told, what was told last stands, moved with its lines, and a list that is only the beginning says that it is. A check runs in slices, lets what comes in go first, and is given up for a newer text.
import type { Diagnostic as ProtocolDiagnostic } from "vscode-languageserver";
import { type Checked, type Diagnostic, type Files, type Service, type Slices, headAt, open as openService, pricesAt, sheetAt } from "../service.ts";
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Connection } from "./connection.ts";
import type { OpenSheet, OpenSheets } from "./open-sheets.ts";
import { diagnosticsToSend, toDiagnostic } from "./to-protocol.ts";
import { inTurns, now, turnOfMany } from "./turns.ts";
import type { Workspace, Workspaces } from "./workspaces.ts";

export interface Publisher {
  changed(uri: string): void;
  closed(uri: string): void;
  /** Called a moment after whole checks have been made; once for several. */
  onChecked(listener: () => void): void;
  /** Something outside of the editor changed: every open sheet is checked again. */
  allChanged(): void;
  /** What the last whole check made, though the text may have moved on since; undefined where there was none. */
  checked(uri: string): Checked | undefined;
  /** The same where nothing is to be worked out for it. */
  stands(uri: string): Checked | undefined;
  /** Another number once any text is another. */
  edits(): number;
  /** A new text, or a check that is under way, waits for its next turn. */
  isChecking(): boolean;
  /** What stands in the sheet as it is now. */
  current(uri: string): Promise<readonly Diagnostic[]>;
}

interface Published {
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
  /** The text that `stands` is of. */
  of: SheetText | undefined;
  sent: readonly ProtocolDiagnostic[] | undefined;
  /** What was made of each diagnostic for the list that was sent last. */
  readonly shapes: WeakMap<Diagnostic, ProtocolDiagnostic>;
}

/** Further edits that wait in the pipe are taken in first, but never so long that the eye would see it. */
const longestWait = 30;

/** Of a sheet with more lines the whole is told when its writer pauses. */
const manyLines = 1500;

/** So long nobody types before a long sheet is checked: longer than between two letters, shorter than a look up at the screen. */
const pause = 150;

/** What is shown beside the lines may come so much later than the diagnostics, so that it stands in no keystroke's way. */
const quiet = 120;

/** What stands of a text is told at its key, where that is done so soon. */
const firstStand = 15;

/** The first time a check runs longer than a turn, for most sheets are done by then. */
const firstTurn = 30;

export function createPublisher(connection: Connection, workspaces: Workspaces, open: Pick<OpenSheets, "get" | "keys">): Publisher {
  const sheets = new Map<string, Published>();
  const waiting = new Map<string, (() => void)[]>();
  let pausing: NodeJS.Timeout | undefined;
  let telling: NodeJS.Timeout | undefined;
  let checkedListener: () => void = () => {};
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
      // One sheet a turn, so that a keystroke that arrives meanwhile is not kept waiting by the others. New texts come before checks that are under way.
      const next = first(isOnItsWay) ?? first((it) => it.running !== undefined);
      if (next === undefined) return;
      advance(next);
      // Not in the next turn of the platform but in the one behind it: what has come in meanwhile is answered before this goes on.
      if (first((it) => isOnItsWay(it) || it.running !== undefined) !== undefined) setImmediate(schedule);
    });
  }

  function tellSoon(): void {
    clearTimeout(telling);
    telling = setTimeout(() => checkedListener(), quiet);
    telling.unref?.();
  }

  function first(is: (it: Published) => boolean): string | undefined {
    for (const [uri, it] of sheets) if (is(it)) return uri;
    return undefined;
  }

  function wait(): void {
    clearTimeout(pausing);
    pausing = setTimeout(() => {
      for (const [uri, it] of sheets) if (it.due === "pause") start(uri, it);
      schedule();
    }, pause);
    // A server that is told to end does not wait for it.
    pausing.unref?.();
  }

  /** Another text: what runs is given up. */
  function outdate(uri: string): void {
    const { path } = workspaces.locate(uri);
    let it = sheets.get(uri);
    // Of a sheet that belongs to another folder now nothing stands.
    if (it?.path !== path) {
      it = {
        path,
        asked: new Set(),
        stands: undefined,
        of: undefined,
        told: false,
        whole: false,
        due: undefined,
        standing: undefined,
        running: undefined,
        sent: it?.sent,
        shapes: new WeakMap(),
      };
      sheets.set(uri, it);
    }
    it.running = undefined;
    it.standing = undefined;
    it.due = "now";
  }

  /** Begins with a new text, or goes on with what stands of it or with its check. */
  function advance(uri: string): void {
    const it = sheets.get(uri);
    if (it === undefined) return;
    if (it.due === "now") begin(uri, it);
    else if (it.standing !== undefined) stand(uri, it, turnOfMany);
    else run(uri, it, turnOfMany);
    if (!isOnItsWay(it)) settle(uri);
  }

  function begin(uri: string, it: Published): void {
    if (!isRead(uri, it)) return;
    const { why, lines, sheet } = open.get(uri) ?? {};
    if (why !== undefined && lines === undefined) return tell(uri, it, notRead(it.path, why));
    const { workspace } = workspaces.locate(uri);
    if (why !== undefined && lines !== undefined) {
      it.due = undefined;
      it.running = tooLong(workspace.service, it, why, lines);
      return run(uri, it, turnOfMany);
    }
    const short = linesOf(it, sheet) <= manyLines;
    if (!it.whole || short) {
      start(uri, it);
      if (!short && it.running !== undefined) it.running = beginningWith(uri, it, it.running);
      run(uri, it, short ? firstTurn : turnOfMany);
      // Of a text that was never checked whole nothing stands, and a list that is not the whole one might be taken for it.
      if (it.running === undefined || !it.whole) return;
    } else {
      it.due = "pause";
      wait();
    }
    it.standing = { slices: standingOf(uri, it), told: true };
    stand(uri, it, firstStand);
  }

  /** Reads on in its text, where that is not read; false where more is left, or can't be read. */
  function isRead(uri: string, it: Published): boolean {
    let read = false;
    guarded(uri, it, () => {
      const until = now() + turnOfMany;
      read = open.get(uri)?.readOn(() => now() < until) ?? true;
    });
    return read;
  }

  /** What can be said of the newest text before it is checked. */
  function standingOf(uri: string, it: Published): Slices<Checked | undefined> {
    const { workspace, path } = workspaces.locate(uri);
    return noting(workspace, it.asked).meanwhile(path, it.stands);
  }

  /** Works it out for so many milliseconds, and tells it. */
  function stand(uri: string, it: Published, milliseconds: number): void {
    guarded(uri, it, () => {
      const until = now() + milliseconds;
      do {
        const step = it.standing?.slices.next();
        if (step?.done !== true) continue;
        const told = it.standing?.told === true;
        it.standing = undefined;
        it.stands = step.value;
        it.of = open.get(uri)?.sheet;
        if (told) publish(uri, it);
        return;
      } while (now() < until);
    });
  }

  /** Nothing can be said of its newest text yet. */
  function isOnItsWay(it: Published): boolean {
    return it.due === "now" || it.standing !== undefined;
  }

  /** Those who wait for what stands of the newest text are told. */
  function settle(uri: string): void {
    for (const it of waiting.get(uri) ?? []) it();
    waiting.delete(uri);
  }

  function start(uri: string, it: Published): void {
    const { workspace, path } = workspaces.locate(uri);
    it.due = undefined;
    it.asked.clear();
    it.running = noting(workspace, it.asked).checking(path);
  }

  /** A check of a long text that nothing was told of: what its entries say by themselves is told before it. */
  function* beginningWith(uri: string, it: Published, check: Slices<Checked | undefined>): Slices<Checked | undefined> {
    const { workspace, path } = workspaces.locate(uri);
    const sheet = workspace.service.files.read(path);
    if (typeof sheet !== "string") {
      it.stands = yield* workspace.service.ofLines(path, sheet);
      it.of = sheet;
      publish(uri, it, underWay(path));
      yield;
    }
    return yield* check;
  }

  /** Runs a check for so many milliseconds, and tells what it found if it is done. */
  function run(uri: string, it: Published, milliseconds: number): void {
    guarded(uri, it, () => {
      const until = now() + milliseconds;
      do {
        const step = it.running?.next();
        if (step?.done !== true) continue;
        it.running = undefined;
        it.stands = step.value;
        it.of = open.get(uri)?.sheet;
        it.told = true;
        it.whole = open.get(uri)?.why === undefined;
        publish(uri, it);
        tellSoon();
        return;
      } while (now() < until);
    });
  }

  /** A fault of the program must not end the server; what stood there before would be a lie, so it goes. */
  function guarded(uri: string, it: Published, work: () => void): void {
    try {
      work();
    } catch (error) {
      connection.console.error(
        `Splitpin itself failed on ${uri}, and gives no verdict: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
      );
      tell(uri, it, failed(it.path));
    }
  }

  /** This, and nothing else, is what can be said of a sheet that was not checked. */
  function tell(uri: string, it: Published, only: Diagnostic): void {
    it.running = undefined;
    it.standing = undefined;
    it.due = undefined;
    it.told = true;
    it.whole = false;
    it.stands = { path: it.path, list: [only], ofJob: [], own: [], texts: new Map(), story: undefined };
    publish(uri, it);
  }

  /** `first` stands before the list, however long that is. */
  function publish(uri: string, it: Published, first?: Diagnostic): void {
    const { workspace } = workspaces.locate(uri);
    const diagnostics = diagnosticsToSend(it.stands?.list ?? [], workspace.uriOf, it.shapes);
    if (first !== undefined) diagnostics.unshift(toDiagnostic(first, workspace.uriOf));
    if (it.sent !== undefined && isSameList(it.sent, diagnostics)) return;
    it.sent = diagnostics;
    void connection.sendDiagnostics({ uri, version: (open.get(uri) as OpenSheet).version, diagnostics });
  }

  return {
    onChecked(listener) {
      checkedListener = listener;
    },
    changed(uri) {
      edits += 1;
      const { workspace, path } = workspaces.locate(uri);
      const concerned = [...sheets].filter(
        ([it, { asked }]) => it !== uri && workspaces.locate(it).workspace === workspace && (asked.has(path) || asked.has(everySheet)),
      );
      // The sheet that was typed in goes to the front.
      outdate(uri);
      const it = sheets.get(uri) as Published;
      const others = [...sheets].filter(([other]) => other !== uri);
      sheets.clear();
      sheets.set(uri, it);
      for (const [other, state] of others) sheets.set(other, state);
      for (const [other] of concerned) outdate(other);
      schedule();
    },
    closed(uri) {
      sheets.delete(uri);
      settle(uri);
      void connection.sendDiagnostics({ uri, diagnostics: [] });
    },
    allChanged() {
      edits += 1;
      for (const uri of open.keys()) outdate(uri);
      schedule();
    },
    stands: (uri) => sheets.get(uri)?.stands,
    edits: () => edits,
    isChecking: () => first((it) => it.due === "now" || it.running !== undefined) !== undefined,
    checked(uri) {
      const it = sheets.get(uri);
      if (it?.due === "now" && !it.told) advance(uri);
      return it?.stands;
    },
    async current(uri) {
      const it = sheets.get(uri);
      if (it === undefined) {
        const { workspace, path } = workspaces.locate(uri);
        return (await inTurns(workspace.service.checking(path)))?.list ?? [];
      }
      // A request may come before the check of the edit that was sent ahead of it: then that check is not put off any longer.
      if (it.due === "now") advance(uri);
      // Of a text that was never checked there is what its lines say by themselves.
      if (!it.told && !isOnItsWay(it) && it.of !== open.get(uri)?.sheet) it.standing = { slices: standingOf(uri, it), told: false };
      if (isOnItsWay(it)) {
        schedule();
        await new Promise<void>((resolve) => waiting.set(uri, [...(waiting.get(uri) ?? []), resolve]));
      }
      return sheets.get(uri)?.stands?.list ?? [];
    },
  };
}

/** Of a sheet that is too long to be checked, how its lines are written. */
function* tooLong(service: Service, { path, stands }: Published, why: string, sheet: SheetText): Slices<Checked> {
  // What is told of a sheet that can't be read has no texts.
  const said = yield* service.ofLines(path, sheet, stands?.texts.has(path) === true ? stands : undefined);
  const first = ofSheet(path, notReadRule, `This sheet ${why}. Only how its lines are written is looked at, and nothing of the job.`);
  return { ...said, list: [first, ...said.list] };
}

/** Of a sheet and of all that it used when it was last looked at. */
function linesOf({ path, stands }: Published, sheet: SheetText | undefined): number {
  let lines = sheet?.lineCount ?? 0;
  for (const [file, text] of stands?.texts ?? []) if (file !== path) lines += text.lineCount;
  return lines;
}

function failed(file: string): Diagnostic {
  return ofSheet(file, "splitpin-failed", "Splitpin itself failed on this sheet and gives no verdict. Its log says where.");
}

function notRead(file: string, why: string): Diagnostic {
  return ofSheet(file, notReadRule, `This sheet ${why}. Nothing on it is checked.`);
}

/** Nobody takes a list with this in it for all that is wrong. */
function underWay(file: string): Diagnostic {
  const message = "This sheet is long, and still being checked: here is what its lines say by themselves; what is wrong with the job follows in a moment.";
  return { ...ofSheet(file, "check-under-way", message), severity: "information" };
}

function ofSheet(file: string, rule: string, message: string): Diagnostic {
  return { file, line: 0, from: 0, to: 0, severity: "error", rule, message, related: [], fixes: [] };
}

const notReadRule = "sheet-not-read";

/** Stands for all sheets of the workspace, which a released sheet asks about. */
const everySheet = "*";

/** The same service, with every path that is asked for put into a set. */
function noting({ service: { files } }: Workspace, asked: Set<string>): Service {
  const of: Pick<Files, "read" | "prices"> = {
    read(path) {
      asked.add(path);
      return files.read(path);
    },
    prices(path) {
      asked.add(path);
      return files.prices?.(path) ?? "missing";
    },
  };
  const noted: Files = {
    ...of,
    head(path) {
      asked.add(path);
      return headAt(files, path);
    },
    jobsheets() {
      asked.add(everySheet);
      return files.jobsheets?.() ?? [];
    },
    hasMore() {
      asked.add(everySheet);
      return files.hasMore?.() ?? false;
    },
    inSlices: {
      of,
      read(path) {
        asked.add(path);
        return sheetAt(files, path);
      },
      prices(path) {
        asked.add(path);
        return pricesAt(files, path);
      },
    },
  };
  return openService(noted);
}

function isSameList(a: readonly ProtocolDiagnostic[], b: readonly ProtocolDiagnostic[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i] && JSON.stringify(a[i]) !== JSON.stringify(b[i])) return false;
  return true;
}
