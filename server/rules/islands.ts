// Parts a job into islands: entries that hang together by the things which they name. What is wrong on one island is told without looking at the others.
// Invariant: each entry is one island's own. An island's own job holds all that a rule with `reach: "names"` looks at from there, so that the same
// entries, things, days and places give the same answer, whatever the rest of the job says.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Entry, Name } from "../../grammar/tree.ts";
import type { Job, JobFile } from "../model/job.ts";
import { isLaterMention } from "../model/orders.ts";
import type { Rebuilt } from "../model/rebuild.ts";
import { referencesOf } from "../model/references.ts";
import type { Thing } from "../model/things.ts";
import { dayBehind } from "../story/walk.ts";

/** Entries are told by their position: that of the job's files laid one behind the other. */
export interface Chart {
  readonly job: Job;
  readonly entries: readonly Entry[];
  /** The path of the file that each entry is in. */
  readonly files: readonly string[];
  /** The day on which each entry of the checked file stands, as far as the entries before it say. */
  readonly days: readonly (string | undefined)[];
  /** What every island looks at: the places, whether a used file is missing, and whether the job is released. */
  readonly ground: string;
  /** What each entry names, thing or not. */
  readonly names: readonly (readonly string[])[];
  readonly islands: readonly Island[];
  /** The island whose own each entry is. */
  readonly homes: readonly number[];
  /** The island that each name ties together. */
  readonly byName: ReadonlyMap<string, number>;
  /** Where the ledger names what. */
  readonly ledger: ReadonlyMap<string, readonly number[]>;
}

export interface Island {
  /** The entries whose faults are this island's to tell, in order. */
  readonly own: readonly number[];
  /** Those, and of the ledger what names its things; in order. */
  readonly members: readonly number[];
  /** What its own entries name, as far as it is a thing. */
  readonly names: readonly string[];
}

/**
 * They tie nothing together: a machine has one sheet and many days, a supplier sells for all of it, one gauge measures all of it. They are kept on
 * one island of their own, the ledger, and an island looks at those of them that name its things.
 */
const ofLedger: ReadonlySet<Entry["kind"]> = new Set([
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

/** The ledger is the first of the islands, even where nothing is on it. */
const ledgerIsland = 0;

export function chartOf(job: Job): Chart {
  const entries: Entry[] = [];
  const files: string[] = [];
  const days: (string | undefined)[] = [];
  const names: (readonly string[])[] = [];
  let released = false;
  for (const { path, sheet } of job.files) {
    const own = path === job.path;
    let day: string | undefined;
    for (let i = 0; i < sheet.entries.length; i++) {
      const entry = sheet.entries[i] as Entry;
      entries.push(entry);
      files.push(path);
      names.push(namesOf(entry, sheet, sheet.starts[i] as number));
      if (own) {
        day = dayBehind(entry, day);
        if (entry.kind === "release" && entry.fault === undefined) released = true;
      }
      days.push(own ? day : undefined);
    }
  }
  const missing = job.useFaults.some((it) => it.reason !== "circle");
  // They name nothing but a reference, and say of many things that they have come.
  const mentions = entries
    .filter(isLaterMention)
    .map((it) => [
      it.reference?.value,
      it.to?.text,
      it.details.map((line) => [line.fault !== undefined, line.kind === "status" && [line.status, line.date?.text]]),
    ]);
  const ground = JSON.stringify([[...job.placeKinds], [...job.kindsOfPlace], missing, released, mentions]);
  const ledger = new Map<string, number[]>();
  for (let at = 0; at < entries.length; at++) {
    if (!ofLedger.has((entries[at] as Entry).kind)) continue;
    for (const name of keysOf(job, names[at] as readonly string[])) {
      const list = ledger.get(name);
      if (list === undefined) ledger.set(name, [at]);
      else list.push(at);
    }
  }
  const chart: Chart = { job, entries, files, days, ground, names, islands: [], homes: new Array(entries.length), byName: new Map(), ledger };
  const { loose, tied } = tie(
    chart,
    entries.map((_, at) => at),
  );
  const islands = [islandOf(chart, loose, true), ...tied.map((own) => islandOf(chart, own, false))];
  const homes: number[] = new Array(entries.length);
  const byName = new Map<string, number>();
  islands.forEach((island, i) => settle(job, island, i, homes, byName));
  return { ...chart, islands, homes, byName };
}

/** A chart after an edit in place, and the islands whose answers may be others now. */
export interface Redrawn {
  readonly chart: Chart;
  readonly touched: ReadonlySet<number>;
}

/** Undefined where it must be drawn anew after all. */
export function redrawn(before: Chart, { job, changed, implied }: Rebuilt): Redrawn | undefined {
  const entries = [...before.entries];
  const names = [...before.names];
  const moved: number[] = [];
  for (const { at, was, now, sheet, start } of changed) {
    if (isLaterMention(was) || isLaterMention(now)) return undefined;
    entries[at] = now;
    names[at] = namesOf(now, sheet, start);
    // Words that are no names of things tie nothing.
    if (!sameNames(before.names[at] as readonly string[], before.job, names[at], job)) moved.push(at);
  }
  // A word of a line that can't be read may have become the name of a thing, or be none any more.
  if (implied.length > 0) {
    const words = new Set(implied);
    for (let at = 0; at < entries.length; at++)
      if (hasUnreadRows(entries[at] as Entry) && (names[at] as readonly string[]).some((name) => words.has(name)) && !changed.some((it) => it.at === at))
        return undefined;
  }
  const chart: Chart = { ...before, job, entries, names };
  if (moved.some((at) => ofLedger.has((entries[at] as Entry).kind))) return undefined;
  const again = moved.length === 0 ? chart : retied(chart, moved);
  const touched = new Set<number>([ledgerIsland]);
  for (const { at, now } of changed) {
    touched.add(again.homes[at] as number);
    if (ofLedger.has(now.kind)) again.islands.forEach(({ members }, i) => members.includes(at) && touched.add(i));
  }
  for (const name of implied) {
    const island = again.byName.get(name);
    if (island !== undefined) touched.add(island);
  }
  if (again !== chart) again.islands.forEach((island, i) => island !== before.islands[i] && touched.add(i));
  return { chart: again, touched };
}

function sameNames(before: readonly string[], was: Job, now: readonly string[], is: Job): boolean {
  if (before === now && was.things === is.things) return true;
  const mine = before.filter((name) => was.things.has(name));
  const theirs = now.filter((name) => is.things.has(name));
  return mine.length === theirs.length && mine.every((name, i) => name === theirs[i]);
}

// ---------------------------------------------------------------- tying

/** Entries that hang together, each list in order; and those that no thing ties. */
function tie({ job, entries, names }: Chart, positions: readonly number[]): { loose: number[]; tied: number[][] } {
  const numbers = new Map<string, number>();
  const parent: number[] = [];
  const head = (number: number): number => {
    let at = number;
    for (let above = parent[at] as number; above !== at; above = parent[at] as number) {
      parent[at] = parent[above] as number;
      at = above;
    }
    return at;
  };
  const ties = positions.map((at) => {
    let home = -1;
    if (ofLedger.has((entries[at] as Entry).kind)) return home;
    for (const name of keysOf(job, names[at] as readonly string[])) {
      if (!isTie(job.things.get(name))) continue;
      let number = numbers.get(name);
      if (number === undefined) {
        number = parent.length;
        parent.push(number);
        numbers.set(name, number);
      }
      if (home < 0) home = head(number);
      else {
        const other = head(number);
        home = head(home);
        parent[other] = home;
      }
    }
    return home;
  });
  const loose: number[] = [];
  const byHead = new Map<number, number[]>();
  for (let i = 0; i < positions.length; i++) {
    const at = positions[i] as number;
    if ((ties[i] as number) < 0) {
      loose.push(at);
      continue;
    }
    const home = head(ties[i] as number);
    const list = byHead.get(home);
    if (list === undefined) byHead.set(home, [at]);
    else list.push(at);
  }
  return { loose, tied: [...byHead.values()] };
}

/** The names as they are written, and those that they are slips for. */
function keysOf(job: Job, names: readonly string[]): readonly string[] {
  if (job.slips.size === 0 || !names.some((name) => job.slips.has(name))) return names;
  return [...new Set(names.flatMap((name) => [name, ...(job.slips.get(name) ?? [])]))];
}

/** A gauge and a supplier are known by what they are; who else uses them says nothing of an island. */
function isTie(thing: Thing | undefined): boolean {
  return thing !== undefined && thing.kind !== "gauge" && thing.kind !== "supplier";
}

function islandOf({ job, names, ledger }: Chart, own: readonly number[], isLedger: boolean): Island {
  const known = new Set<string>();
  for (const at of own) for (const name of keysOf(job, names[at] as readonly string[])) if (!known.has(name) && job.things.has(name)) known.add(name);
  let looked: Set<number> | undefined;
  if (!isLedger) {
    for (const name of known) {
      if (!isTie(job.things.get(name))) continue;
      for (const at of ledger.get(name) ?? []) {
        looked ??= new Set(own);
        looked.add(at);
      }
    }
  }
  return { own, members: looked === undefined ? own : [...looked].sort((a, b) => a - b), names: [...known] };
}

function settle(job: Job, { own, names }: Island, i: number, homes: number[], byName: Map<string, number>): void {
  for (const at of own) homes[at] = i;
  if (i !== ledgerIsland) for (const name of names) if (isTie(job.things.get(name))) byName.set(name, i);
}

/** Ties anew what entries tied together or tie now, and leaves all other islands as they are. */
function retied(chart: Chart, moved: readonly number[]): Chart {
  const { job, names } = chart;
  const old = new Set<number>();
  for (const at of moved) {
    old.add(chart.homes[at] as number);
    for (const name of keysOf(job, names[at] as readonly string[])) {
      const island = chart.byName.get(name);
      if (island !== undefined) old.add(island);
    }
  }
  old.delete(ledgerIsland);
  const positions = new Set(moved);
  for (const i of old) for (const at of (chart.islands[i] as Island).own) positions.add(at);
  const { loose, tied } = tie(
    chart,
    [...positions].sort((a, b) => a - b),
  );
  const islands = [...chart.islands];
  const homes = [...chart.homes];
  const byName = new Map(chart.byName);
  for (const i of old) {
    for (const name of (chart.islands[i] as Island).names) byName.delete(name);
    islands[i] = nowhere;
  }
  const was = (islands[ledgerIsland] as Island).own;
  if (loose.length > 0 || was.some((at) => positions.has(at))) {
    const own = [...was.filter((at) => !positions.has(at)), ...loose].sort((a, b) => a - b);
    islands[ledgerIsland] = islandOf(chart, own, true);
    for (const at of own) homes[at] = ledgerIsland;
  }
  const free = [...old];
  for (const own of tied) {
    const i = free.pop() ?? islands.length;
    const island = islandOf(chart, own, false);
    islands[i] = island;
    settle(job, island, i, homes, byName);
  }
  return { ...chart, islands, homes, byName };
}

/** In the place of an island that was tied to another one. */
const nowhere: Island = { own: [], members: [], names: [] };

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

function hasUnreadRows(entry: Entry): boolean {
  return entry.fault !== undefined || entry.kind === "unread" || entry.stray.length > 0 || entry.details.some((it) => it.fault !== undefined);
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
  for (let at = 0; at < entries.length; at++) {
    const entry = entries[at] as Entry;
    if ((files[at] === job.path && walked.has(entry.kind)) || isLaterMention(entry)) members.add(at);
  }
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
  /** Of the names of places in it, those that an entry which can't be read may have declared. */
  readonly unread: string;
  /** Which of its names are slips, and for what. */
  readonly slips: string;
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
    unread: unreadPlaces(chart, island),
    slips: slipsIn(chart, island),
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
  if (footing.unread !== unreadPlaces(chart, island) || footing.slips !== slipsIn(chart, island)) return false;
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

/** Words in the place of a place, declared as none, of which an unread head may say what they are. */
function unreadPlaces({ job, entries }: Chart, { own }: Island): string {
  if (job.unreadNames.size === 0) return "";
  const out = new Set<string>();
  const look = (text: string) => {
    if (job.unreadNames.has(text) && !job.kindsOfPlace.has(text) && !job.placeKinds.has(text)) out.add(text);
  };
  for (const at of own) {
    const entry = entries[at] as Entry;
    const { places, kinds } = referencesOf(entry);
    for (const { name } of places) look(name.text);
    for (const { name } of kinds) look(name.text);
    if (entry.kind === "measure") for (const it of entry.details) if (it.kind === "reading") for (const word of it.words) look(word.text);
  }
  return out.size === 0 ? "" : JSON.stringify([...out]);
}

function slipsIn({ job }: Chart, { names }: Island): string {
  if (job.slips.size === 0) return "";
  return JSON.stringify(names.flatMap((name) => (job.slips.has(name) ? [name, job.slips.get(name)] : [])));
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
