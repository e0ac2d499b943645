// One job as it stands: its sheet, the files that it uses, and every name that they declare.
// Invariant: built from entries and nothing else; never throws on a broken sheet, never reads beyond what `files` answers.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Entry, Name, SheetEntry, UseEntry } from "../../grammar/tree.ts";
import { type Source, declare, imply, kindDeclared } from "./declare.ts";
import { type FileAnswer, type Files, headAt, joinPath, pricesAt, sheetAt } from "./files.ts";
import type { JobFile, Undeclared } from "./job-files.ts";
import { type Declared, type Slips, meantBy, resolveNames, slipsOf } from "./meant.ts";
import { mostFiles, mostLinesInAll, mostPlaced } from "./largest.ts";
import { memo, namedSliced, once } from "./memo.ts";
import { readingReferences, referencesOf } from "./references.ts";
import { shortenTitles } from "./short-titles.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { Thing, ThingKind } from "./things.ts";
import type { Where } from "./where.ts";

export interface UseFault {
  readonly entry: UseEntry;
  readonly file: string;
  readonly reason: "missing" | "outside" | "circle" | "too many";
  readonly path: string;
  /** The files of the circle, in order. */
  readonly circle?: readonly string[];
}

export interface Job {
  /** What the door gave: other sheets are read through it where a rule asks for them. */
  readonly workspace: Files;
  /** The file that is checked. */
  readonly path: string;
  /** Used files first, the file itself last. A misspelt name that is near to one declared stands in their entries as the one that was meant. */
  readonly files: readonly JobFile[];
  readonly own: JobFile;
  /** A file without a `sheet` entry is a data file. */
  readonly sheet: SheetEntry | undefined;
  readonly things: ReadonlyMap<string, Thing>;
  /** A name declared again: the later declaration, and the first. */
  readonly twice: readonly { readonly name: Name; readonly source: Source; readonly first: Where }[];
  /** place kind -> its places, in order */
  readonly placeKinds: ReadonlyMap<string, readonly string[]>;
  /** place -> its kinds */
  readonly kindsOfPlace: ReadonlyMap<string, readonly string[]>;
  readonly useFaults: readonly UseFault[];
  /** Places that were left out, for there are more with what stands at each of them than are worked with: of which kinds, and how many of each were kept. */
  readonly leftOut: readonly LeftOut[];
  /** Heads that can't be read, so that names which they might have declared are not called unknown. */
  readonly unreadNames: ReadonlySet<string>;
  /** Undeclared names that are near to declared ones. */
  readonly slips: Slips;
}

export interface LeftOut {
  readonly kind: string;
  /** How many are declared, how many things stand at each of them, and how many lines speak of such a thing and of no place. */
  readonly places: number;
  readonly things: number;
  readonly lines: number;
  readonly kept: number;
}

const depthLimit = 32;

const standing = new WeakMap<Files, { last?: { readonly path: string; readonly job: Job | undefined } }>();

/**
 * The same files, of which one answer is made: each is asked for once, so that all of it is of one text, and several parts of it that ask for the same job are given the one
 * that was made. Only the last is kept, for an answer may be of a folder of two hundred. What stands still already is given back as it is.
 */
export function standingStill(files: Files): Files {
  if (standing.has(files)) return files;
  const read = namedSliced((path) => sheetAt(files, path));
  const prices = namedSliced((path) => pricesAt(files, path));
  const still: Files = {
    ...files,
    read: read.whole,
    head: onceEach((path) => headAt(files, path)),
    ...(files.jobsheets === undefined ? {} : { jobsheets: once(() => files.jobsheets?.() ?? []) }),
    ...(files.prices === undefined ? {} : { prices: prices.whole }),
    ...(files.inSlices === undefined ? {} : { inSlices: { of: { read: read.whole, prices: prices.whole }, read: read.sliced, prices: prices.sliced } }),
  };
  standing.set(still, {});
  return still;
}

/** What is kept beside some files: for as long as they stand still, or made anew for each who asks, where they may change from one to the next. */
export function besideStill<V extends object>(make: () => V): (files: Files) => V {
  const kept = memo<Files, V>(make);
  return (files) => (standing.has(files) ? kept(files) : make());
}

function onceEach<A>(answer: (path: string) => A): (path: string) => A {
  const known = new Map<string, A>();
  return (path) => {
    if (!known.has(path)) known.set(path, answer(path));
    return known.get(path) as A;
  };
}

/**
 * Reads the file at `path` and all that it uses. Undefined where there is no such file.
 * `own`: the file itself, where it has been read: between two slices it may become another.
 */
export function* building(files: Files, path: string, own?: FileAnswer): Slices<Job | undefined> {
  const still = standing.get(files);
  if (still?.last?.path === path) return still.last.job;
  const read = yield* readingFiles(files, path, own ?? (yield* sheetAt(files, path)));
  const job = read === undefined ? undefined : yield* makeJob(files, path, read);
  if (still !== undefined) still.last = { path, job };
  return job;
}

/** The same, where one was made before: that one, if all that it was made of is as it was. */
export function* buildingAgain(files: Files, path: string, before: Job | undefined): Slices<Job | undefined> {
  const was = before?.path === path ? readOf.get(before) : undefined;
  if (was === undefined) return yield* building(files, path);
  const own = yield* sheetAt(files, path);
  const now = yield* readingFiles(files, path, own);
  return now !== undefined && isSameRead(was, now) ? before : yield* building(files, path, own);
}

const readOf = new WeakMap<Job, Read>();

/** What a job was made of. */
export function madeOf(job: Job): Read | undefined {
  return readOf.get(job);
}

/** What the job of the file at `path` would be made of now, in slices; undefined where there is no such file. Less than a tenth of the work of making it. */
export function* readingOf(files: Files, path: string): Slices<Read | undefined> {
  return yield* readingFiles(files, path, yield* sheetAt(files, path));
}

/** Jobs of the same path that were made of these are the same. */
export function isSameRead(a: Read, b: Read): boolean {
  return (
    a.list.length === b.list.length &&
    a.list.every((it, i) => it.path === b.list[i]?.path && it.sheet === b.list[i]?.sheet) &&
    a.useFaults.length === b.useFaults.length &&
    a.useFaults.every((it, i) => it.reason === b.useFaults[i]?.reason && it.path === b.useFaults[i]?.path)
  );
}

/** So many entries a slice, and an entry of more lines than this by itself. */
const someEntries = 400;
const manyRows = 500;

/** A file and all that it uses, as a door has answered. */
export interface Read {
  readonly own: SheetText;
  readonly list: readonly JobFile[];
  readonly useFaults: readonly UseFault[];
}

const usesIn = memo((sheet: SheetText) => sheet.entries.filter((entry) => entry.kind === "use"));

function* readingFiles(files: Files, path: string, own: FileAnswer): Slices<Read | undefined> {
  if (own === "missing" || own === "outside") return undefined;
  const list = new Map<string, JobFile>();
  const useFaults: UseFault[] = [];
  let lines = own.lineCount;
  yield* follow({ path, sheet: own }, [path]);
  return { own, list: [...list.values()], useFaults };

  function* follow(file: JobFile, trail: readonly string[]): Slices<void> {
    for (const entry of usesIn(file.sheet)) {
      if (entry.path === undefined || entry.fault !== undefined) continue;
      const target = joinPath(file.path, entry.path.value);
      if (target === undefined) {
        useFaults.push({ entry, file: file.path, reason: "outside", path: entry.path.value });
        continue;
      }
      if (trail.includes(target)) {
        useFaults.push({ entry, file: file.path, reason: "circle", path: entry.path.value, circle: [...trail.slice(trail.indexOf(target)), target] });
        continue;
      }
      if (list.has(target)) continue;
      if (list.size >= mostFiles) {
        useFaults.push({ entry, file: file.path, reason: "too many", path: entry.path.value });
        continue;
      }
      const answer = trail.length >= depthLimit ? "missing" : yield* sheetAt(files, target);
      yield;
      if (answer === "missing" || answer === "outside") useFaults.push({ entry, file: file.path, reason: answer, path: entry.path.value });
      else if (lines + answer.lineCount > mostLinesInAll) useFaults.push({ entry, file: file.path, reason: "too many", path: entry.path.value });
      else {
        lines += answer.lineCount;
        yield* follow({ path: target, sheet: answer }, [...trail, target]);
      }
    }
    if (!list.has(file.path)) list.set(file.path, file);
  }
}

function* makeJob(files: Files, path: string, read: Read): Slices<Job> {
  const { own, list, useFaults } = read;
  const placeKinds = new Map<string, Set<string>>();
  const kindsOfPlace = new Map<string, Set<string>>();
  const homes = new Map<string, { kind: ThingKind; name: Name; sources: [Source, ...Source[]] }>();
  const twice: { name: Name; source: Source; first: Where }[] = [];
  const unreadNames = new Set<string>();
  for (const file of list) {
    for (const [index, entry] of file.sheet.entries.entries()) {
      if (index % someEntries === 0) yield;
      if (entry.kind === "places") {
        addPlaces(entry.placeKind, entry.names, placeKinds, kindsOfPlace);
        continue;
      }
      if (entry.kind === "unread") for (const word of wordsOfLine(file.sheet, file.sheet.starts[index] ?? 0)) unreadNames.add(word);
      const kind = kindDeclared(entry);
      const name = (entry as { name?: Name }).name;
      if (kind === undefined || name === undefined) continue;
      const source: Source = { file: file.path, entry };
      const home = homes.get(name.text);
      if (home === undefined) homes.set(name.text, { kind, name, sources: [source] });
      else if (adds(entry, kind, home)) home.sources.push(source);
      else twice.push({ name, source, first: { file: home.sources[0].file, entry: home.sources[0].entry, row: 0, at: home.name.at } });
    }
  }
  const declared: Declared[] = [...homes].map(([name, { kind }]) => ({ name, kind }));
  const undeclared: Undeclared[] = [];
  let at = 0;
  for (const { path: file, sheet } of list) {
    for (const entry of sheet.entries) {
      if (entry.rows > manyRows) yield* readingReferences(entry);
      for (const reference of referencesOf(entry).things) if (!homes.has(reference.name.text)) undeclared.push({ at, file, entry, reference });
      if (++at % someEntries === 0) yield;
    }
  }
  const slips = yield* slipsOf(undeclared, declared, unreadNames);
  const meant = yield* resolveNames(list, undeclared, slips);
  const things = new Map<string, Thing>();
  for (const [name, { kind, name: first, sources }] of homes) {
    things.set(name, declare(kind, first, sources.map(meant.source) as [Source, ...Source[]]));
    if (things.size % someEntries === 0) yield;
  }
  yield* implyAll(things, meant.undeclared, slips);
  const leftOut = leaveOut(placeKinds, things, list);
  yield;
  yield* shortenTitles(things);
  let sheet: SheetEntry | undefined;
  const ownNow = meant.files.find((it) => it.path === path)?.sheet ?? own;
  for (const entry of ownNow.entries) if (entry.kind === "sheet") sheet ??= entry;
  const job: Job = {
    workspace: files,
    path,
    files: meant.files,
    own: { path, sheet: ownNow },
    sheet,
    things,
    twice: twice.map((it) => ({ ...it, source: meant.source(it.source), first: { ...it.first, entry: meant.entry(it.first.entry) } })),
    placeKinds: asLists(placeKinds),
    kindsOfPlace: asLists(kindsOfPlace),
    useFaults: useFaults.map((it) => ({ ...it, entry: meant.entry(it.entry) as UseEntry })),
    leftOut,
    unreadNames,
    slips,
  };
  undeclaredByJob.set(job, meant.undeclared);
  readOf.set(job, read);
  return job;
}

/** Of every job that was built. */
const undeclaredByJob = new WeakMap<Job, readonly Undeclared[]>();

/** In the order of files and lines. */
export function undeclaredIn(job: Job): readonly Undeclared[] {
  return undeclaredByJob.get(job) ?? [];
}

/** Adds what is known from its mentions alone: one that can mean a single kind says what it is, else the first. What is a slip for something declared is nothing of its own. */
function* implyAll(things: Map<string, Thing>, undeclared: readonly Undeclared[], slips: Slips): Slices<void> {
  const sure = new Map<string, ThingKind>();
  for (const [i, { reference }] of undeclared.entries()) {
    if (i % someEntries === 0) yield;
    const [kind, ...others] = reference.wants;
    if (kind !== undefined && others.length === 0 && !sure.has(reference.name.text)) sure.set(reference.name.text, kind);
  }
  for (const [i, { reference, file, entry }] of undeclared.entries()) {
    if (i % someEntries === 0) yield;
    const { name, wants } = reference;
    if (things.has(name.text) || meantBy(slips, name.text) !== undefined) continue;
    const known = sure.get(name.text);
    const kind = known !== undefined && wants.includes(known) ? known : wants.length <= 3 ? (wants[0] as ThingKind) : "part";
    things.set(name.text, imply(kind, name, { file, entry }));
  }
}

/** A declaration without a title adds to one that stands already. */
function adds(entry: Entry, kind: ThingKind, home: { kind: ThingKind }): boolean {
  return kind === home.kind && (entry as { title?: unknown }).title === undefined && kind !== "step" && kind !== "question";
}

function addPlaces(kind: Name | undefined, names: readonly Name[], placeKinds: Map<string, Set<string>>, kindsOfPlace: Map<string, Set<string>>): void {
  if (kind === undefined) return;
  const places = placeKinds.get(kind.text) ?? new Set();
  placeKinds.set(kind.text, places);
  for (const name of names) {
    places.add(name.text);
    const kinds = kindsOfPlace.get(name.text) ?? new Set();
    kindsOfPlace.set(name.text, kinds.add(kind.text));
  }
}

/** Where there are more places with what stands at each and what is said of it than are worked with, the last of the longest kinds are left out. */
function leaveOut(placeKinds: ReadonlyMap<string, Set<string>>, things: ReadonlyMap<string, Thing>, list: readonly JobFile[]): LeftOut[] {
  const kindOf = (name: string) => {
    const thing = things.get(name);
    return thing !== undefined && "placeKind" in thing ? thing.placeKind?.text : undefined;
  };
  // Hardly a job is near to it: its lines need not be looked through.
  const longest = Math.max(0, ...[...placeKinds.values()].map((it) => it.size));
  if (longest * list.reduce((sum, { sheet }) => sum + sheet.lineCount, things.size) <= mostPlaced) return [];
  const at = new Map<string, { things: number; lines: number }>();
  const of = (kind: string) => {
    const it = at.get(kind) ?? { things: 0, lines: 0 };
    at.set(kind, it);
    return it;
  };
  for (const name of things.keys()) {
    const kind = kindOf(name);
    if (kind !== undefined) of(kind).things++;
  }
  for (const { sheet } of list) {
    for (const entry of sheet.entries) {
      const { things: named, places } = referencesOf(entry);
      const placed = new Set(places.map((it) => it.row));
      for (const { name, row } of named) {
        const kind = placed.has(row) ? undefined : kindOf(name.text);
        if (kind !== undefined) of(kind).lines++;
      }
    }
  }
  const kinds = [...placeKinds].map(([kind, set]) => ({ kind, set, places: set.size, ...of(kind) }));
  const weightOf = (it: { readonly things: number; readonly lines: number }) => Math.max(1, it.things + it.lines);
  kinds.sort((a, b) => a.places * weightOf(a) - b.places * weightOf(b));
  let room = mostPlaced;
  return kinds.flatMap(({ set, ...it }, i) => {
    // Each has its share of what those that ask for less have left.
    const kept = Math.min(it.places, Math.max(1, Math.floor(room / (kinds.length - i) / weightOf(it))));
    room -= kept * weightOf(it);
    if (kept === it.places) return [];
    for (const place of [...set].slice(kept)) set.delete(place);
    return [{ ...it, kept }];
  });
}

function asLists(sets: ReadonlyMap<string, ReadonlySet<string>>): ReadonlyMap<string, readonly string[]> {
  return new Map([...sets].map(([key, set]) => [key, [...set]]));
}

function wordsOfLine(sheet: SheetText, line: number): string[] {
  return (
    lineText(sheet, line)
      .slice(0, 400)
      .normalize("NFC")
      .match(/\p{L}[\p{L}\p{M}\p{N}-]*/gu) ?? []
  );
}

/** The places at which a thing stands: those of its kind of places, or one without a name. */
export function placesOf(job: Job, thing: { readonly placeKind?: Name }): readonly string[] {
  if (thing.placeKind === undefined) return noPlace;
  return job.placeKinds.get(thing.placeKind.text) ?? noPlace;
}
const noPlace: readonly string[] = [""];

/**
 * A word that stands where a place does, and is none: it is said there, and nothing is made of it. A sheet that declares no places yet is read by those that it names, but for a
 * letter alone and the beginning of a word that goes on with an action: `ne`.
 */
export function isNoPlace({ kindsOfPlace, unreadNames }: Pick<Job, "kindsOfPlace" | "unreadNames">, text: string): boolean {
  if (text === "" || kindsOfPlace.has(text) || unreadNames.has(text)) return false;
  return kindsOfPlace.size > 0 || text.length === 1 || beginsTail.has(text);
}

const beginsTail: ReadonlySet<string> = new Set(["ne", "nwe", "enw", "wen", "fo", "fro"]);
