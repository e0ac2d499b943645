// Goes through the names that a job mentions: which nothing declares, which are of the wrong kind, which things nobody mentions.
// Invariant: names on a line with a fault count as mentioned, and nothing is said of them.
import { lineText } from "../../../../grammar/sheet-text.ts";
import type { Entry } from "../../../../grammar/tree.ts";
import type { Job } from "../../../model/job.ts";
import { type ThingReference, referencesOf } from "../../../model/references.ts";
import type { Thing, ThingKind } from "../../../model/things.ts";

export interface Mention {
  readonly file: string;
  readonly entry: Entry;
  readonly reference: ThingReference;
}

export interface Mentions {
  /** Declared things that an entry beside their own mentions; a line that can't be read mentions every word that is in it. */
  readonly mentioned: ReadonlySet<Thing>;
  /** Mentions of what nothing declares, in the order of files and lines. */
  readonly unknown: readonly Mention[];
  /** Mentions of a declared thing that is of another kind than belongs there. */
  readonly wrongKind: readonly (Mention & { readonly thing: Thing })[];
}

const remembered = new WeakMap<Job, Mentions>();

export function mentionsOf(job: Job): Mentions {
  let mentions = remembered.get(job);
  if (mentions === undefined) {
    mentions = collect(job);
    remembered.set(job, mentions);
  }
  return mentions;
}

function collect(job: Job): Mentions {
  const mentioned = new Set<Thing>();
  const unknown: Mention[] = [];
  const wrongKind: (Mention & { thing: Thing })[] = [];
  for (const { path, sheet } of job.files) {
    for (let index = 0; index < sheet.entries.length; index++) {
      const entry = sheet.entries[index] as Entry;
      for (const reference of referencesOf(entry).things) {
        const thing = job.things.get(reference.name.text);
        if (thing !== undefined && !thing.implied) {
          if (thing.entry !== entry) mentioned.add(thing);
          if (!reference.wants.includes(thing.kind) && !faulty(entry, reference.row)) wrongKind.push({ file: path, entry, reference, thing });
        } else if (!faulty(entry, reference.row)) unknown.push({ file: path, entry, reference });
      }
      for (const row of faultyRows(entry)) {
        for (const word of wordsOf(lineText(sheet, (sheet.starts[index] ?? 0) + row))) {
          const thing = job.things.get(word);
          if (thing !== undefined) mentioned.add(thing);
        }
      }
    }
  }
  return { mentioned, unknown, wrongKind };
}

/** Whether the line of a row can't be read. */
export function faulty(entry: Entry, row: number): boolean {
  if (row === 0 && entry.kind !== "headless") return entry.fault !== undefined;
  return entry.details.some((detail) => detail.row === row && detail.fault !== undefined);
}

const rowsByEntry = new WeakMap<Entry, readonly number[]>();

function faultyRows(entry: Entry): readonly number[] {
  let rows = rowsByEntry.get(entry);
  if (rows === undefined) {
    const faulty: number[] = entry.fault === undefined ? [] : [0];
    for (const detail of entry.details) if (detail.fault !== undefined) faulty.push(detail.row);
    for (const detail of entry.stray) faulty.push(detail.row);
    rows = faulty;
    rowsByEntry.set(entry, rows);
  }
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

const declared = new WeakMap<Job, Map<string, readonly string[]>>();

/** Names declared in the job, by what they may be: for a look-up of near ones. */
export function declaredNames(job: Job, wants: readonly ThingKind[]): readonly string[] {
  let lists = declared.get(job);
  if (lists === undefined) {
    lists = new Map();
    declared.set(job, lists);
  }
  const key = wants.join();
  let names = lists.get(key);
  if (names === undefined) {
    const list: string[] = [];
    for (const thing of job.things.values()) if (!thing.implied && wants.includes(thing.kind)) list.push(thing.name);
    names = list;
    lists.set(key, names);
  }
  return names;
}
