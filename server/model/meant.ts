// What an undeclared name is a slip for. The slip is said where it stands; all else reads the near name there, so that one cause makes one error.
// Resolved once, when a job is made: the entries of a job bear the name that was meant, so that nobody who looks a name up can miss.
// Invariant: a name that is declared, or that a head which can't be read may have declared, is no slip; no entry that was read is changed.
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Entry, Name } from "../../grammar/tree.ts";
import type { Source } from "./declare.ts";
import type { JobFile, Undeclared } from "./job-files.ts";
import { nearestNames } from "./near.ts";
import { nearestIn, nearingIn } from "./near-many.ts";
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import type { Thing, ThingKind } from "./things.ts";

/** The declared names nearest to each undeclared one, of the kinds that may stand where it stands; at most three where none is nearest. */
export type Slips = ReadonlyMap<string, readonly string[]>;

export interface Declared {
  readonly name: string;
  readonly kind: ThingKind;
}

const none: Slips = new Map();

/** So many undeclared names a slice: each may be compared with every name that is declared. */
const someNames = 20;

export function* slipsOf(undeclared: readonly Undeclared[], declared: readonly Declared[], unreadNames: ReadonlySet<string>): Slices<Slips> {
  if (undeclared.length === 0) return none;
  const slips = new Map<string, readonly string[]>();
  const lists = new Map<string, readonly string[]>();
  for (const [i, { reference }] of undeclared.entries()) {
    if (i % someNames === someNames - 1) yield;
    const { name, wants } = reference;
    if (unreadNames.has(name.text)) continue;
    const key = wants.join();
    let names = lists.get(key);
    if (names === undefined) {
      names = declared.filter((it) => wants.includes(it.kind)).map((it) => it.name);
      lists.set(key, names);
      if (undeclared.length > manyLookups) yield* readyNear(key, names);
    }
    const near = nearOf(name.text, key, names);
    if (near.length === 0) continue;
    const known = slips.get(name.text);
    slips.set(name.text, known === undefined || known === near ? near : [...new Set([...known, ...near])]);
  }
  return slips;
}

/** The name that was meant: where one declared name alone is near to an undeclared one, that one. */
export function meantBy(slips: Slips, name: string): string | undefined {
  const near = slips.get(name);
  return near?.length === 1 ? near[0] : undefined;
}

export interface Resolved {
  readonly files: readonly JobFile[];
  /** The same mentions, each with its entry as the files have it now. */
  readonly undeclared: readonly Undeclared[];
  /** An entry as the files have it now. */
  entry(it: Entry): Entry;
  source(it: Source): Source;
}

/** The files with the names that were meant; entries without a slip are the same objects. */
export function* resolveNames(files: readonly JobFile[], undeclared: readonly Undeclared[], slips: Slips): Slices<Resolved> {
  const slipped = new Map<Entry, Map<Name, string>>();
  for (const { entry, reference } of undeclared) {
    const meant = meantBy(slips, reference.name.text);
    if (meant === undefined) continue;
    const names = slipped.get(entry) ?? new Map<Name, string>();
    slipped.set(entry, names.set(reference.name, meant));
  }
  if (slipped.size === 0) return { files, undeclared, entry: (it) => it, source: (it) => it };
  const now = new Map<Entry, Entry>();
  for (const [entry, names] of slipped) {
    now.set(entry, asMeant(entry, names));
    if (now.size % someAtOnce === 0) yield;
  }
  const entryNow = (it: Entry) => now.get(it) ?? it;
  const sheetNow = (sheet: SheetText) => (sheet.entries.some((it) => now.has(it)) ? { ...sheet, entries: sheet.entries.map(entryNow) } : sheet);
  return {
    files: files.map((file) => ({ ...file, sheet: sheetNow(file.sheet) })),
    undeclared: undeclared.map((it) => ({ ...it, entry: entryNow(it.entry) })),
    entry: entryNow,
    source: (it) => ({ ...it, entry: entryNow(it.entry) }),
  };
}

const copies = new WeakMap<Entry, { readonly key: string; readonly copy: Entry }>();

/** A copy with other names; the same copy for the same names, for much is remembered by the entry that it is of. */
function asMeant(entry: Entry, names: ReadonlyMap<Name, string>): Entry {
  const key = [...names.values()].join();
  const known = copies.get(entry);
  if (known?.key === key) return known.copy;
  const copy = copied(entry, names) as Entry;
  copies.set(entry, { key, copy });
  return copy;
}

function copied(value: unknown, names: ReadonlyMap<Name, string>): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map((it) => copied(it, names));
  const meant = names.get(value as Name);
  if (meant !== undefined) return { ...value, text: meant };
  return Object.fromEntries(Object.entries(value).map(([field, it]) => [field, copied(it, names)]));
}

/** Names that are declared, by what they may be. */
export function namesDeclared(things: ReadonlyMap<string, Thing>, wants: readonly ThingKind[]): readonly string[] {
  const names: string[] = [];
  for (const thing of things.values()) if (!thing.implied && wants.includes(thing.kind)) names.push(thing.name);
  return names;
}

interface Near {
  names: readonly string[];
  readonly near: Map<string, readonly string[]>;
  /** For many names that are looked for among many. */
  index: ((written: string) => readonly string[]) | undefined;
}

const remembered = new Map<string, Near>();
const manyNames = 40;
const manyLookups = 10;

function rememberedOf(wants: string, names: readonly string[]): Near {
  let known = remembered.get(wants);
  if (known === undefined || !same(known.names, names)) {
    known = { names, near: new Map(), index: undefined };
    remembered.set(wants, known);
  }
  known.names = names;
  return known;
}

/** Makes ready, in slices, what many are looked for in. */
function* readyNear(wants: string, names: readonly string[]): Slices<void> {
  const known = rememberedOf(wants, names);
  if (names.length > manyNames) known.index ??= yield* nearingIn(names);
}

/** The nearest of the declared names; looked for again only where another name is declared than were when it was last looked for. */
export function nearOf(written: string, wants: string, names: readonly string[]): readonly string[] {
  const known = rememberedOf(wants, names);
  let near = known.near.get(written);
  if (near === undefined) {
    if (known.near.size > manyLookups && names.length > manyNames) known.index ??= nearestIn(names);
    near = known.index === undefined ? nearestNames(written, names) : known.index(written);
    if (known.near.size > 20_000) known.near.clear();
    known.near.set(written, near);
  }
  return near;
}

function same(a: readonly string[], b: readonly string[]): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
