// Which other sheets of the same machine are open on something critical. Open is what the one list says of them, whether or not somebody has written `release`.
// Invariant: a sheet in which nothing is open holds nobody back; it is only not released.
import type { Files } from "../model/files.ts";
import { looksLikeCopy } from "../model/copies.ts";
import { sheetAt } from "../model/files.ts";
import { type Job, type Read, besideStill, building, isSameRead, madeOf, readingOf } from "../model/job.ts";
import { otherSheets } from "../model/others.ts";
import { referencesOf } from "../model/references.ts";
import { isCritical } from "../model/relations.ts";
import { midSentence } from "../model/titles.ts";
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { Entry } from "../../grammar/tree.ts";
import { openRoomOf } from "./open-groups.ts";
import type { OtherOpen, OtherSheets } from "./rule.ts";

/** A matter of another sheet, as far as it is asked for here. */
interface Matter {
  readonly file: string;
  /** From 0. */
  readonly line: number;
  readonly rule: string;
}

/** In slices. */
export function* othersOpen(job: Job, openOf: (other: Job) => Slices<readonly Matter[]>): Slices<OtherSheets> {
  const open: OtherOpen[] = [];
  const found = foundBeside(job.workspace);
  const { sheets, unseen, hasMore } = yield* otherSheets(job);
  for (const sheet of sheets) {
    const { path } = sheet;
    let on = found.get(path);
    if (on === undefined) {
      on = (yield* knownOf(job.workspace, path)) ?? (yield* workedOut(job.workspace, path, openOf));
      found.set(path, on);
      yield;
    }
    if (on.length === 0) continue;
    const text = yield* sheetAt(job.workspace, path);
    open.push({ ...sheet, on, ...(typeof text !== "string" && looksLikeCopy(job.own.sheet, text) ? { isCopy: true } : {}) });
  }
  return { open, unseen, hasMore };
}

/** What is open in each sheet, by its path: where a whole folder is checked, each of its sheets asks for all others. */
const foundBeside = besideStill(() => new Map<string, readonly string[]>());

function* workedOut(files: Files, path: string, openOf: (other: Job) => Slices<readonly Matter[]>): Slices<readonly string[]> {
  const other = yield* building(files, path);
  if (other === undefined) return [];
  const of = madeOf(other);
  const on = criticalIn(other, yield* openOf(other));
  if (of !== undefined) remembered.set(of.own, { path, of, on });
  return on;
}

/** What is critical among the things that an open line's entry names; of what can't be read, and of a release itself, all that the sheet names. */
function criticalIn(job: Job, open: readonly Matter[]): string[] {
  const named = new Set<string>();
  const add = (entry: Entry) => {
    for (const { name } of referencesOf(entry).things) {
      const thing = job.things.get(name.text);
      if (thing !== undefined && isCritical(job, thing as Parameters<typeof isCritical>[1])) named.add(midSentence(thing));
    }
  };
  for (const { file, line, rule } of open) {
    const sheet = job.files.find((it) => it.path === file)?.sheet;
    const room = openRoomOf(rule);
    if (room === "Energy and support") named.add("how the machine is held and made safe");
    else if (room === "Writing" || (room === "Release" && rule !== "release-blocked")) for (const entry of job.own.sheet.entries) add(entry);
    else if (sheet !== undefined) add(entryAt(sheet, line));
  }
  return [...named];
}

function entryAt(sheet: SheetText, line: number): Entry {
  return sheet.entries[
    Math.max(
      0,
      sheet.starts.findLastIndex((start) => start <= line),
    )
  ] as Entry;
}

interface Known {
  readonly path: string;
  readonly of: Read;
  readonly on: readonly string[];
}

const remembered = new WeakMap<SheetText, Known>();

/** Asked at every keystroke of a released sheet; another sheet says the same as long as it and all that it uses are as they were, and then its job need not be made. */
function* knownOf(files: Files, path: string): Slices<readonly string[] | undefined> {
  const now = yield* readingOf(files, path);
  if (now === undefined) return [];
  const known = remembered.get(now.own);
  return known?.path === path && isSameRead(known.of, now) ? known.on : undefined;
}
