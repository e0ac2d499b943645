// One job as it stands: its sheet, the files that it uses, and every name that they declare.
// Invariant: built from entries and nothing else; never throws on a broken sheet, never reads beyond what `files` answers.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Entry, Name, SheetEntry, UseEntry } from "../../grammar/tree.ts";
import { type Source, declare, imply, kindDeclared } from "./declare.ts";
import { type Files, joinPath } from "./files.ts";
import { carryOver } from "./has.ts";
import { referencesOf } from "./references.ts";
import type { Thing, ThingKind } from "./things.ts";
import type { Where } from "./where.ts";

export interface JobFile {
  readonly path: string;
  readonly sheet: SheetText;
}

export interface UseFault {
  readonly entry: UseEntry;
  readonly file: string;
  readonly reason: "missing" | "outside" | "circle";
  readonly path: string;
  /** The files of the circle, in order. */
  readonly circle?: readonly string[];
}

export interface Job {
  /** What the door gave: other sheets are read through it where a rule asks for them. */
  readonly workspace: Files;
  /** The file that is checked. */
  readonly path: string;
  /** Used files first, the file itself last. */
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
  /** Heads that can't be read, so that names which they might have declared are not called unknown. */
  readonly unreadNames: ReadonlySet<string>;
}

const depthLimit = 32;

/** Reads the file at `path` and all that it uses. Undefined where there is no such file. */
export function buildJob(files: Files, path: string): Job | undefined {
  const read = readFiles(files, path);
  return read === undefined ? undefined : makeJob(files, path, read);
}

interface Read {
  readonly own: SheetText;
  readonly list: readonly JobFile[];
  readonly useFaults: readonly UseFault[];
}

function readFiles(files: Files, path: string): Read | undefined {
  const own = files.read(path);
  if (own === "missing" || own === "outside") return undefined;
  const list: JobFile[] = [];
  const useFaults: UseFault[] = [];
  follow({ path, sheet: own }, [path]);
  return { own, list, useFaults };

  function follow(file: JobFile, trail: readonly string[]): void {
    for (const entry of file.sheet.entries) {
      if (entry.kind !== "use" || entry.path === undefined || entry.fault !== undefined) continue;
      const target = joinPath(file.path, entry.path.value);
      if (target === undefined) {
        useFaults.push({ entry, file: file.path, reason: "outside", path: entry.path.value });
        continue;
      }
      if (trail.includes(target)) {
        useFaults.push({ entry, file: file.path, reason: "circle", path: entry.path.value, circle: [...trail.slice(trail.indexOf(target)), target] });
        continue;
      }
      if (list.some((it) => it.path === target)) continue;
      const answer = trail.length >= depthLimit ? "missing" : files.read(target);
      if (answer === "missing" || answer === "outside") useFaults.push({ entry, file: file.path, reason: answer, path: entry.path.value });
      else follow({ path: target, sheet: answer }, [...trail, target]);
    }
    if (!list.some((it) => it.path === file.path)) list.push(file);
  }
}

function makeJob(files: Files, path: string, { own, list, useFaults }: Read): Job {
  const placeKinds = new Map<string, string[]>();
  const kindsOfPlace = new Map<string, string[]>();
  const homes = new Map<string, { kind: ThingKind; name: Name; sources: [Source, ...Source[]] }>();
  const twice: { name: Name; source: Source; first: Where }[] = [];
  const unreadNames = new Set<string>();
  for (const file of list) {
    for (const [index, entry] of file.sheet.entries.entries()) {
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
  const things = new Map<string, Thing>();
  for (const [name, home] of homes) things.set(name, declare(home.kind, home.name, home.sources));
  for (const file of list) {
    for (const entry of file.sheet.entries) {
      for (const reference of referencesOf(entry).things) {
        if (things.has(reference.name.text)) continue;
        const kind = reference.wants.length === 1 || reference.wants.length <= 3 ? (reference.wants[0] as ThingKind) : "part";
        things.set(reference.name.text, imply(kind, reference.name, { file: file.path, entry }));
      }
    }
  }
  let sheet: SheetEntry | undefined;
  for (const entry of own.entries) if (entry.kind === "sheet") sheet ??= entry;
  return { workspace: files, path, files: list, own: { path, sheet: own }, sheet, things, twice, placeKinds, kindsOfPlace, useFaults, unreadNames };
}

/** A job as it is after an edit, and where it differs from what it was. */
export interface Rebuilt {
  readonly job: Job;
  /** Entries that are other objects now, by their position in the files laid one behind the other. */
  readonly changed: readonly number[];
}

/**
 * The job after an edit that leaves every entry in its place, with the names that it had: most keystrokes are such. What they don't touch is taken
 * over. Undefined after any other edit, for `buildJob` to build it anew; the outcome is the same.
 */
export function rebuildJob(before: Job, files: Files): Rebuilt | undefined {
  const read = readFiles(files, before.path);
  if (read === undefined || before.twice.length > 0 || before.useFaults.length > 0 || read.useFaults.length > 0) return undefined;
  const { own, list } = read;
  if (list.length !== before.files.length) return undefined;
  const changed: number[] = [];
  const fresh: Entry[] = [];
  let things: Map<string, Thing> | undefined;
  let offset = 0;
  for (let f = 0; f < list.length; f++) {
    const was = before.files[f] as JobFile;
    const { path, sheet } = list[f] as JobFile;
    if (was.path !== path || was.sheet.entries.length !== sheet.entries.length) return undefined;
    if (was.sheet !== sheet) {
      for (let i = 0; i < sheet.entries.length; i++) {
        const a = was.sheet.entries[i] as Entry;
        const b = sheet.entries[i] as Entry;
        if (a === b) continue;
        if (!namesAsBefore(a, b)) return undefined;
        changed.push(offset + i);
        fresh.push(b);
        for (const thing of renewed(things ?? before.things, a, b, path)) {
          // Who else uses it can't be told from here.
          if (thing.kind === "gauge" || thing.kind === "supplier") return undefined;
          things ??= new Map(before.things);
          things.set(thing.name, thing);
        }
      }
    }
    offset += sheet.entries.length;
  }
  const job: Job = { ...before, workspace: files, files: list, own: { path: before.path, sheet: own }, things: things ?? before.things };
  carryOver(before, job, fresh);
  return { job, changed };
}

/** Kinds of entries by which the whole job is read: where one changes, all is built anew. */
const weighty: ReadonlySet<Entry["kind"]> = new Set(["sheet", "places", "use", "day", "release", "gauge", "supplier", "unread", "headless"]);

/** The same kind of entry, which declares and mentions what the other one did. */
function namesAsBefore(a: Entry, b: Entry): boolean {
  if (a.kind !== b.kind || weighty.has(a.kind) || (a.fault === undefined) !== (b.fault === undefined)) return false;
  const [one, other] = [a, b] as { name?: Name; title?: unknown }[] as [{ name?: Name; title?: unknown }, { name?: Name; title?: unknown }];
  if (one.name?.text !== other.name?.text || (one.title === undefined) !== (other.title === undefined)) return false;
  const mine = referencesOf(a).things;
  const theirs = referencesOf(b).things;
  if (mine.length !== theirs.length) return false;
  for (let i = 0; i < mine.length; i++) {
    const [x, y] = [mine[i], theirs[i]] as [(typeof mine)[number], (typeof mine)[number]];
    if (x.name.text !== y.name.text || x.wants.length !== y.wants.length || !x.wants.every((it, w) => it === y.wants[w])) return false;
  }
  return true;
}

/** The things that are made of an entry, made of the one that stands in its place. */
function renewed(things: ReadonlyMap<string, Thing>, a: Entry, b: Entry, file: string): Thing[] {
  const out: Thing[] = [];
  const kind = kindDeclared(b);
  const name = (b as { name?: Name }).name;
  const declared = name === undefined ? undefined : things.get(name.text);
  if (kind !== undefined && name !== undefined && declared !== undefined && !declared.implied) {
    const sources = declared.entries.map((it) => (it.entry === a ? { file, entry: b } : it)) as [Source, ...Source[]];
    const home = (sources[0].entry as { name?: Name }).name ?? name;
    out.push(declare(declared.kind, home, sources));
  }
  const seen = new Set<string>();
  for (const { name: mentioned } of referencesOf(b).things) {
    const thing = things.get(mentioned.text);
    if (thing === undefined || !thing.implied || thing.entry !== a || seen.has(mentioned.text)) continue;
    seen.add(mentioned.text);
    out.push(imply(thing.kind, mentioned, { file, entry: b }));
  }
  return out;
}

/** A declaration without a title adds to one that stands already. */
function adds(entry: Entry, kind: ThingKind, home: { kind: ThingKind }): boolean {
  return kind === home.kind && (entry as { title?: unknown }).title === undefined && kind !== "step" && kind !== "question";
}

function addPlaces(kind: Name | undefined, names: readonly Name[], placeKinds: Map<string, string[]>, kindsOfPlace: Map<string, string[]>): void {
  if (kind === undefined) return;
  const places = placeKinds.get(kind.text) ?? [];
  placeKinds.set(kind.text, places);
  for (const name of names) {
    if (!places.includes(name.text)) places.push(name.text);
    const kinds = kindsOfPlace.get(name.text) ?? [];
    if (!kinds.includes(kind.text)) kinds.push(kind.text);
    kindsOfPlace.set(name.text, kinds);
  }
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
