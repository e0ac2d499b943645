// Goes through the names that a job mentions: which nothing declares, which are of the wrong kind, which things nobody mentions.
// Invariant: names on a line with a fault count as mentioned, and nothing is said of them.
import { type SheetText, lineText } from "../../../../grammar/sheet-text.ts";
import type { Entry } from "../../../../grammar/tree.ts";
import { type Job, undeclaredIn } from "../../../model/job.ts";
import { namesDeclared } from "../../../model/meant.ts";
import { type ThingReference, referencesOf } from "../../../model/references.ts";
import type { Thing, ThingKind } from "../../../model/things.ts";
import { memo } from "../../../model/memo.ts";

export interface Mention {
  readonly file: string;
  readonly entry: Entry;
  readonly reference: ThingReference;
}

/** Mentions of what nothing declares, in the order of files and lines. */
export function unknownIn(job: Job): readonly Mention[] {
  return undeclaredIn(job).filter(({ entry, reference }) => !faulty(entry, reference.row));
}

/** Mentions of a declared thing that is of another kind than belongs there. */
export function wrongKindIn(job: Job): readonly (Mention & { readonly thing: Thing })[] {
  const wrong: (Mention & { thing: Thing })[] = [];
  for (const { path, sheet } of job.files) {
    for (const entry of sheet.entries) {
      for (const reference of referencesOf(entry).things) {
        const thing = job.things.get(reference.name.text);
        if (thing === undefined || thing.implied || reference.wants.includes(thing.kind) || faulty(entry, reference.row)) continue;
        wrong.push({ file: path, entry, reference, thing });
      }
    }
  }
  return wrong;
}

/** How many entries mention each name. */
const counts = memo((job: Job): ReadonlyMap<string, number> => {
  const count = new Map<string, number>();
  for (const { sheet } of job.files) {
    for (let i = 0; i < sheet.entries.length; i++)
      for (const name of namesIn(sheet.entries[i] as Entry, sheet, sheet.starts[i] as number).all) count.set(name, (count.get(name) ?? 0) + 1);
  }
  return count;
});

/** Whether an entry beside a thing's own mentions it; a line that can't be read mentions every word that is in it. */
export function isMentioned(job: Job, thing: Thing): boolean {
  const count = counts(job);
  // A line of its own that can't be read may have been meant for another entry.
  const own = mentionedBy.get(thing.entry);
  return (count.get(thing.name) ?? 0) > (own?.all.includes(thing.name) === true && !own.unread.has(thing.name) ? 1 : 0);
}

interface Mentioned {
  /** Each once. */
  readonly all: readonly string[];
  /** Words of lines that can't be read. */
  readonly unread: ReadonlySet<string>;
}

const mentionedBy = new WeakMap<Entry, Mentioned>();

function namesIn(entry: Entry, sheet: SheetText, start: number): Mentioned {
  let names = mentionedBy.get(entry);
  if (names === undefined) {
    const unread = new Set<string>();
    for (const row of faultyRows(entry)) for (const word of wordsOf(lineText(sheet, start + row))) unread.add(word);
    const all = new Set(unread);
    for (const { name } of referencesOf(entry).things) all.add(name.text);
    names = { all: [...all], unread: unread.size === 0 ? none : unread };
    mentionedBy.set(entry, names);
  }
  return names;
}

const none: ReadonlySet<string> = new Set();

/** Whether the line of a row can't be read. */
export function faulty(entry: Entry, row: number): boolean {
  if (row === 0 && entry.kind !== "headless") return entry.fault !== undefined;
  return faultyDetails(entry).has(row);
}

const noRows: ReadonlySet<number> = new Set();

const faultyDetails = memo((entry: Entry): ReadonlySet<number> => {
  const rows = entry.details.flatMap((detail) => (detail.fault === undefined ? [] : [detail.row]));
  return rows.length === 0 ? noRows : new Set(rows);
});

function faultyRows(entry: Entry): readonly number[] {
  const rows: number[] = entry.fault === undefined ? [] : [0];
  for (const detail of entry.details) if (detail.fault !== undefined) rows.push(detail.row);
  for (const detail of entry.stray) rows.push(detail.row);
  return rows;
}

function wordsOf(line: string): string[] {
  return (
    line
      .slice(0, 400)
      .normalize("NFC")
      .match(/\p{L}[\p{L}\p{M}\p{N}-]*/gu) ?? []
  );
}

/** A used file is not there: it may declare the places that nothing else declares, and one cause makes one error. */
export function hasUnreadFile(job: Job): boolean {
  return job.useFaults.some((fault) => fault.reason !== "circle");
}

const declared = memo((_job: Job) => new Map<string, readonly string[]>());

/** Names declared in the job, by what they may be: for a look-up of near ones. */
export function declaredNames(job: Job, wants: readonly ThingKind[]): readonly string[] {
  const lists = declared(job);
  const key = wants.join();
  let names = lists.get(key);
  if (names === undefined) {
    names = namesDeclared(job.things, wants);
    lists.set(key, names);
  }
  return names;
}
