// Parts a job into islands: entries that hang together by the things which they name. What is wrong on one island is told without looking at the others.
// Invariant: each entry is one island's own. An island's own job holds all that a rule with `reach: "names"` looks at from there, so that the same
// entries, things, days and places give the same answer, whatever the rest of the job says.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Entry, Name } from "../../grammar/tree.ts";
import type { Job, JobFile, Rebuilt } from "../model/job.ts";
import { referencesOf } from "../model/references.ts";
import type { Thing } from "../model/things.ts";
import { dayBehind } from "../walk/walk.ts";

/** Entries are told by their position: that of the job's files laid one behind the other. */
export interface Chart {
  readonly job: Job;
  readonly entries: readonly Entry[];
  /** The path of the file that each entry is in. */
  readonly files: readonly string[];
  /** The day on which each entry of the checked file stands, as far as the entries before it say. */
  readonly days: readonly (string | undefined)[];
  /** What every island looks at: the places, and whether the job is released. */
  readonly ground: string;
  readonly islands: readonly Island[];
  /** The island whose own each entry is. */
  readonly homes: readonly number[];
}

export interface Island {
  /** The entries whose faults are this island's to tell, in order. */
  readonly own: readonly number[];
  /** Those, and of the ledger what names its things; in order. */
  readonly members: readonly number[];
  /** What its own entries name, as far as it is a thing. */
  readonly names: readonly string[];
  readonly isLedger: boolean;
}

/**
 * They tie nothing together: a machine has one sheet and many days, a supplier sells for all of it, one gauge measures all of it. They are kept on
 * one island of their own, the ledger, and an island looks at those of them that name its things.
 */
const ledger: ReadonlySet<Entry["kind"]> = new Set([
  "sheet",
  "places",
  "use",
  "day",
  "pause",
  "release",
  "gauge",
  "supplier",
  "offer",
  "order",
  "stock",
  "need",
  "rate",
]);

/** For a walk of an island to go as the walk of the whole goes. */
const walked: ReadonlySet<Entry["kind"]> = new Set(["sheet", "day", "release"]);

export function chartOf(job: Job): Chart {
  const entries: Entry[] = [];
  const files: string[] = [];
  const days: (string | undefined)[] = [];
  let released = false;
  for (const { path, sheet } of job.files) {
    const own = path === job.path;
    let day: string | undefined;
    for (const entry of sheet.entries) {
      entries.push(entry);
      files.push(path);
      if (own) {
        day = dayBehind(entry, day);
        if (entry.kind === "release" && entry.fault === undefined) released = true;
      }
      days.push(own ? day : undefined);
    }
  }
  const ground = JSON.stringify([[...job.placeKinds], [...job.kindsOfPlace], released]);
  const islands = tie(job);
  const homes: number[] = new Array(entries.length);
  islands.forEach(({ own }, i) => {
    for (const at of own) homes[at] = i;
  });
  return { job, entries, files, days, ground, islands, homes };
}

/** The chart of a job that has the names of another one in the same places; undefined where it must be drawn anew after all. */
export function redrawn(before: Chart, { job, changed }: Rebuilt): Chart | undefined {
  const entries = [...before.entries];
  let offset = 0;
  let f = 0;
  for (const at of changed) {
    while (at >= offset + (job.files[f] as JobFile).sheet.entries.length) offset += (job.files[f++] as JobFile).sheet.entries.length;
    const { sheet } = job.files[f] as JobFile;
    const now = sheet.entries[at - offset] as Entry;
    // Words that are no names of things tie nothing.
    const known = (name: string) => job.things.has(name);
    const names = namesOf(now, sheet, sheet.starts[at - offset] as number).filter(known);
    const was = remembered.get(entries[at] as Entry)?.filter(known);
    if (was === undefined || was.length !== names.length || !was.every((it, i) => it === names[i])) return undefined;
    entries[at] = now;
  }
  return { ...before, job, entries };
}

/** The islands that may look at entries which have changed in their places. */
export function touched({ islands, homes }: Chart, changed: readonly number[]): Iterable<number> {
  const out = new Set<number>();
  if (changed.length === 0) return out;
  for (const at of changed) out.add(homes[at] as number);
  const ofLedger = changed.filter((at) => (islands[homes[at] as number] as Island).isLedger);
  islands.forEach(({ isLedger, own, members }, i) => {
    // The ledger knows the things of all islands.
    if (isLedger || (members !== own && ofLedger.some((at) => members.includes(at)))) out.add(i);
  });
  return out;
}

// ---------------------------------------------------------------- tying

/** Names that are tied to one another have one head. */
function tie(job: Job): Island[] {
  const numbers = new Map<string, number>();
  const spelt: string[] = [];
  const things: (Thing | undefined)[] = [];
  const parent: number[] = [];
  const numberOf = (name: string): number => {
    let number = numbers.get(name);
    if (number === undefined) {
      number = things.push(job.things.get(name)) - 1;
      spelt.push(name);
      numbers.set(name, number);
      parent.push(number);
    }
    return number;
  };
  const head = (number: number): number => {
    let at = number;
    for (let above = parent[at] as number; above !== at; above = parent[at] as number) {
      parent[at] = parent[above] as number;
      at = above;
    }
    return at;
  };

  // No name is so: the ledger, and entries that name no thing.
  const none = numberOf("");
  /** By position: the names, and one of those that the entry is tied by. */
  const named: (readonly number[])[] = [];
  const homes: number[] = [];
  for (const { sheet } of job.files) {
    for (let i = 0; i < sheet.entries.length; i++) {
      const entry = sheet.entries[i] as Entry;
      const list = namesOf(entry, sheet, sheet.starts[i] as number).map(numberOf);
      let home = none;
      if (!ledger.has(entry.kind)) {
        for (const number of list) {
          const kind = things[number]?.kind;
          if (kind === undefined || kind === "gauge" || kind === "supplier") continue;
          if (home === none) home = head(number);
          else parent[head(number)] = home = head(home);
        }
      }
      named.push(list);
      homes.push(home);
    }
  }

  const ledgerNames = new Map<number, number[]>();
  const byHead = new Map<number, { own: number[]; names: Set<number> }>();
  for (let at = 0; at < homes.length; at++) {
    const home = head(homes[at] as number);
    let island = byHead.get(home);
    if (island === undefined) {
      island = { own: [], names: new Set() };
      byHead.set(home, island);
    }
    island.own.push(at);
    for (const number of named[at] as readonly number[]) {
      island.names.add(number);
      if (home !== none) continue;
      const list = ledgerNames.get(number);
      if (list === undefined) ledgerNames.set(number, [at]);
      else list.push(at);
    }
  }

  const islands: Island[] = [];
  for (const [home, { own, names }] of byHead) {
    const known: string[] = [];
    let looked: Set<number> | undefined;
    for (const number of names) {
      const thing = things[number];
      if (thing === undefined) continue;
      known.push(spelt[number] as string);
      // A gauge and a supplier are known by what they are; who else uses them says nothing here.
      if (home === none || thing.kind === "gauge" || thing.kind === "supplier") continue;
      for (const at of ledgerNames.get(number) ?? []) {
        looked ??= new Set(own);
        looked.add(at);
      }
    }
    islands.push({ own, members: looked === undefined ? own : [...looked].sort((a, b) => a - b), names: known, isLedger: home === none });
  }
  return islands;
}

const remembered = new WeakMap<Entry, readonly string[]>();

/** Every name that an entry declares or mentions, and every word of its lines that can't be read, for that may be one. */
function namesOf(entry: Entry, sheet: SheetText, start: number): readonly string[] {
  let names = remembered.get(entry);
  if (names === undefined) {
    const all = new Set<string>();
    const declared = (entry as { name?: Name }).name;
    if (declared !== undefined) all.add(declared.text);
    for (const { name } of referencesOf(entry).things) all.add(name.text);
    for (const row of unreadRows(entry)) for (const word of wordsOf(lineText(sheet, start + row))) all.add(word);
    names = [...all];
    remembered.set(entry, names);
  }
  return names;
}

/** The rows that can't be read or belong elsewhere; of an entry whose head can't be read, all of them. */
function unreadRows(entry: Entry): number[] {
  const rows = entry.fault !== undefined || entry.kind === "unread" ? [0] : [];
  for (const detail of entry.details) if (detail.fault !== undefined || entry.kind === "unread") rows.push(detail.row);
  for (const detail of entry.stray) rows.push(detail.row);
  return rows;
}

function wordsOf(line: string): readonly string[] {
  return (
    line
      .slice(0, 400)
      .normalize("NFC")
      .match(/\p{L}[\p{L}\p{M}\p{N}-]*/gu) ?? []
  );
}

// ---------------------------------------------------------------- an island alone

/** The job of some islands and nothing else. Lines stand where they stand in the whole. */
export function jobOfIslands(chart: Chart, islands: readonly Island[]): Job {
  const { job, entries, files } = chart;
  if (islands.length === chart.islands.length) return job;
  const members = new Set<number>();
  const known = new Set<Thing>();
  for (const island of islands) {
    for (const at of island.members) members.add(at);
    for (const thing of thingsOf(chart, island)) known.add(thing);
  }
  for (let at = 0; at < entries.length; at++) if (files[at] === job.path && walked.has((entries[at] as Entry).kind)) members.add(at);
  const less = job.files.map(({ path, sheet }) => ({ path, sheet: { ...sheet, entries: [] as Entry[], starts: [] as number[] } }));
  let before = 0;
  let f = 0;
  for (const at of [...members].sort((a, b) => a - b)) {
    while (files[at] !== (job.files[f] as JobFile).path) before += (job.files[f++] as JobFile).sheet.entries.length;
    const { sheet } = less[f] as (typeof less)[number];
    sheet.entries.push(entries[at] as Entry);
    sheet.starts.push((job.files[f] as JobFile).sheet.starts[at - before] as number);
  }
  const things = new Map<string, Thing>();
  for (const [name, thing] of job.things) if (known.has(thing)) things.set(name, thing);
  return { ...job, files: less, own: less[less.length - 1] as JobFile, things };
}

// ---------------------------------------------------------------- is it as it was?

/** All that an island's answer rests on. */
export interface Footing {
  readonly ground: string;
  readonly entries: readonly Entry[];
  readonly owned: readonly boolean[];
  readonly files: readonly string[];
  readonly days: readonly (string | undefined)[];
  readonly things: readonly Thing[];
}

export function footingOf(chart: Chart, island: Island): Footing {
  const { members, own } = island;
  const owned = new Set(own);
  return {
    ground: chart.ground,
    entries: members.map((at) => chart.entries[at] as Entry),
    owned: members.map((at) => owned.has(at)),
    files: members.map((at) => chart.files[at] as string),
    days: members.map((at) => chart.days[at]),
    things: thingsOf(chart, island),
  };
}

/**
 * Whether an island stands on the same footing still. `same` says whether an entry says what another one said, and is told so of each that is
 * another object.
 */
export function standsOn(footing: Footing, chart: Chart, island: Island, same: (before: Entry, now: Entry) => boolean): boolean {
  const { members, own } = island;
  const things = thingsOf(chart, island);
  if (footing.ground !== chart.ground || footing.entries.length !== members.length || footing.things.length !== things.length) return false;
  let o = 0;
  for (let i = 0; i < members.length; i++) {
    const at = members[i] as number;
    const owned = own[o] === at;
    if (owned) o++;
    if (owned !== footing.owned[i] || chart.files[at] !== footing.files[i] || chart.days[at] !== footing.days[i]) return false;
    const before = footing.entries[i] as Entry;
    const now = chart.entries[at] as Entry;
    if (before !== now && !same(before, now)) return false;
  }
  for (let i = 0; i < things.length; i++) if (!isTheSame(footing.things[i] as Thing, things[i] as Thing, same)) return false;
  return true;
}

function thingsOf(chart: Chart, island: Island): readonly Thing[] {
  return island.names.map((name) => chart.job.things.get(name) as Thing);
}

/** Made of the same words of the same entries. */
function isTheSame(before: Thing, now: Thing, same: (before: Entry, now: Entry) => boolean): boolean {
  if (before === now) return true;
  if (before.name !== now.name || before.kind !== now.kind || before.implied !== now.implied || before.entries.length !== now.entries.length) return false;
  for (let i = 0; i < before.entries.length; i++) {
    const a = before.entries[i] as (typeof before.entries)[number];
    const b = now.entries[i] as (typeof now.entries)[number];
    if (a.file !== b.file || (a.entry !== b.entry && !same(a.entry, b.entry))) return false;
  }
  return true;
}
