// Whose turn it is among the open sheets: the sheet that was typed in first, then those that may use it (`published.ts` checks and tells one of them).
// Invariant: only the newest version is checked, and nothing is called clean that was not checked: until the whole of the newest text is told, what was told last
// stands, and a list that is only the beginning says that it is. A check runs in slices, lets what comes in go first, and is given up for a newer text.
import type { Checked, Diagnostic } from "../service.ts";
import type { Connection } from "./connection.ts";
import { everySheet } from "./noting.ts";
import type { OpenSheets } from "./open-sheets.ts";
import { type Published, type Telling, giveUp, goOn, isOnItsWay, nothingTold, startCheck, startStanding, typedIn } from "./published.ts";
import { rehearsal } from "./rehearsal.ts";
import { inTurns } from "./turns.ts";
import type { Workspaces } from "./workspaces.ts";

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
  /** The start is over: what makes later keys quicker may begin. Where the engine can be asked to, what is not used any more is collected between two turns. */
  settleIn(collecting?: Collecting): void;
  /** What stands in the sheet as it is now. */
  current(uri: string): Promise<readonly Diagnostic[]>;
}

/** What was made lately and is not used any more. */
export interface Collecting {
  /** It would be collected soon, in the middle of a turn. */
  isNearlyFull(): boolean;
  isWorthIt(): boolean;
  collect(): void;
}

/** Further edits that wait in the pipe are taken in first, but never so long that the eye would see it. */
const longestWait = 30;

/** So long nobody types before a long sheet is checked: longer than between two letters, shorter than a look up at the screen. */
const pause = 150;

/** What is shown beside the lines may come so much later than the diagnostics, so that it stands in no keystroke's way. */
const quiet = 120;

/** So long after the last turn nobody is waited for: shorter than between two letters, longer than until an editor asks for what goes with a list. */
const rest = 3;

/** All open sheets, in the order in which they have their turns. */
interface Turns {
  readonly telling: Telling;
  readonly sheets: Map<string, Published>;
  /** Those who wait for what stands of the newest text of a sheet. */
  readonly waiting: Map<string, (() => void)[]>;
  scheduled: boolean;
  edits: number;
  isSettled: boolean;
  collecting: Collecting | undefined;
  readonly rehearse: ReturnType<typeof rehearsal>;
  /** Nothing is on its way any more. */
  cameToRest(): void;
}

export function createPublisher(connection: Connection, workspaces: Workspaces, open: Pick<OpenSheets, "get" | "keys">): Publisher {
  let checkedListener: () => void = () => {};
  const telling: Telling = {
    connection,
    workspaces,
    open,
    waitsForPause: restarting(pause, () => startPaused(turns)),
    wholeTold: restarting(quiet, () => {
      checkedListener();
      rehearse(turns);
    }),
  };
  const turns: Turns = {
    telling,
    sheets: new Map(),
    waiting: new Map(),
    scheduled: false,
    edits: 0,
    isSettled: false,
    collecting: undefined,
    rehearse: rehearsal(),
    cameToRest: restarting(rest, () => collectAtRest(turns)),
  };
  return {
    settleIn(collecting) {
      turns.collecting = collecting;
      turns.isSettled = true;
      rehearse(turns);
    },
    onChecked(listener) {
      checkedListener = listener;
    },
    changed: (uri) => changed(turns, uri),
    closed(uri) {
      turns.sheets.delete(uri);
      settle(turns, uri);
      void connection.sendDiagnostics({ uri, diagnostics: [] });
    },
    allChanged() {
      turns.edits += 1;
      for (const uri of open.keys()) outdate(turns, uri);
      schedule(turns);
    },
    stands: (uri) => turns.sheets.get(uri)?.stands,
    edits: () => turns.edits,
    isChecking: () => first(turns, (it) => it.due === "now" || it.running !== undefined) !== undefined,
    checked(uri) {
      const it = turns.sheets.get(uri);
      if (it?.due === "now" && !it.told) advance(turns, it);
      return it?.stands;
    },
    current: (uri) => current(turns, uri),
  };
}

/** Does something so many milliseconds after the last call. A server that is told to end does not wait for it. */
function restarting(milliseconds: number, work: () => void): () => void {
  let timer: NodeJS.Timeout | undefined;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(work, milliseconds);
    timer.unref?.();
  };
}

function schedule(turns: Turns): void {
  if (turns.scheduled) return;
  turns.scheduled = true;
  nextTurn(turns, turns.edits, Date.now());
}

function nextTurn(turns: Turns, editsSeen: number, since: number, isCollected = false): void {
  setImmediate(() => {
    if (turns.edits !== editsSeen && Date.now() - since < longestWait) return nextTurn(turns, turns.edits, since);
    // A turn of its own, so that nobody waits for it and for another; and one, whatever room it made.
    if (turns.edits === editsSeen && !isCollected && turns.collecting?.isNearlyFull() === true) {
      turns.collecting.collect();
      return void setImmediate(() => nextTurn(turns, editsSeen, since, true));
    }
    turns.scheduled = false;
    // One sheet a turn, so that a keystroke that arrives meanwhile is not kept waiting by the others. New texts come before checks that are under way.
    const next = first(turns, isOnItsWay) ?? first(turns, (it) => it.running !== undefined);
    if (next === undefined) return;
    advance(turns, next);
    // Not in the next turn of the platform but in the one behind it: what has come in meanwhile is answered before this goes on.
    if (first(turns, (it) => isOnItsWay(it) || it.running !== undefined) !== undefined) setImmediate(() => schedule(turns));
    else turns.cameToRest();
  });
}

/** With the sheet that was typed in last, where all is told. */
function rehearse(turns: Turns): void {
  const { edits, sheets, telling } = turns;
  const it = sheets.values().next().value;
  if (!turns.isSettled || it === undefined || !isIdle(turns)) return;
  void turns.rehearse(
    (n) => typedIn(telling, it, n),
    () => turns.edits === edits && isIdle(turns),
  );
}

function isIdle(turns: Turns): boolean {
  return first(turns, (it) => it.due !== undefined || it.standing !== undefined || it.running !== undefined) === undefined;
}

function collectAtRest({ collecting, scheduled }: Turns): void {
  if (!scheduled && collecting?.isWorthIt() === true) collecting.collect();
}

function first({ sheets }: Turns, is: (it: Published) => boolean): Published | undefined {
  for (const it of sheets.values()) if (is(it)) return it;
  return undefined;
}

function advance(turns: Turns, it: Published): void {
  goOn(turns.telling, it);
  if (!isOnItsWay(it)) settle(turns, it.uri);
}

/** Those who wait for what stands of the newest text are told. */
function settle({ waiting }: Turns, uri: string): void {
  for (const it of waiting.get(uri) ?? []) it();
  waiting.delete(uri);
}

/** Nobody types: checks that waited for that begin. */
function startPaused(turns: Turns): void {
  for (const it of turns.sheets.values()) if (it.due === "pause") startCheck(turns.telling, it);
  schedule(turns);
}

/** The sheet that was typed in goes to the front, and those that asked for it are checked again. */
function changed(turns: Turns, uri: string): void {
  const { sheets } = turns;
  const { workspaces } = turns.telling;
  turns.edits += 1;
  const { workspace, path } = workspaces.locate(uri);
  const concerned = [...sheets.values()].filter(
    (it) => it.uri !== uri && workspaces.locate(it.uri).workspace === workspace && (it.asked.has(path) || it.asked.has(everySheet)),
  );
  const newest = outdate(turns, uri);
  const others = [...sheets.values()].filter((it) => it !== newest);
  sheets.clear();
  for (const it of [newest, ...others]) sheets.set(it.uri, it);
  for (const it of concerned) outdate(turns, it.uri);
  schedule(turns);
}

/** Another text, or another text of what it uses. */
function outdate({ sheets, telling }: Turns, uri: string): Published {
  const { path } = telling.workspaces.locate(uri);
  let it = sheets.get(uri);
  // Of a sheet that belongs to another folder now nothing stands.
  if (it?.path !== path) {
    it = nothingTold(uri, path, it?.sent);
    sheets.set(uri, it);
  }
  giveUp(it);
  return it;
}

async function current(turns: Turns, uri: string): Promise<readonly Diagnostic[]> {
  const { telling, sheets, waiting } = turns;
  const it = sheets.get(uri);
  if (it === undefined) {
    const { workspace, path } = telling.workspaces.locate(uri);
    return (await inTurns(workspace.service.checking(path)))?.list ?? [];
  }
  // A request may come before the check of the edit that was sent ahead of it: then that check is not put off any longer.
  if (it.due === "now") advance(turns, it);
  // Of a text that is not checked yet there is what stands of it, and of one that never was what its lines say by themselves.
  if ((!it.told || it.whole) && !isOnItsWay(it) && it.of !== telling.open.get(uri)?.sheet) startStanding(telling, it, false);
  if (isOnItsWay(it)) {
    schedule(turns);
    await new Promise<void>((resolve) => waiting.set(uri, [...(waiting.get(uri) ?? []), resolve]));
  }
  return sheets.get(uri)?.stands?.list ?? [];
}
