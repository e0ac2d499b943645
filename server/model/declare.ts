// Makes a thing from the entries that speak of it: its declaration and, in a job sheet, what is added for this job.
// Invariant: a line with a fault adds nothing but its keyword to `unread`.
import { unsaid } from "../../grammar/blanks.ts";
import type { Detail, Entry, Name } from "../../grammar/tree.ts";
import {
  type Check,
  type Fastener,
  type Fluid,
  type Gauge,
  type Hazard,
  type Limit,
  type Part,
  type Question,
  type Shims,
  type Step,
  type Supplier,
  type Thing,
  type ThingBase,
  type ThingKind,
  type ThingLine,
  lineOf,
  linesOf,
} from "./things.ts";
import { quantitiesOf } from "./values.ts";

export interface Source {
  readonly file: string;
  readonly entry: Entry;
}

/** Entries that declare a name, and the kind of thing that each declares. */
export function kindDeclared(entry: Entry): ThingKind | undefined {
  switch (entry.kind) {
    case "part":
    case "fastener":
    case "fluid":
    case "limit":
    case "check":
    case "gauge":
    case "hazard":
    case "step":
    case "question":
    case "supplier":
    case "shims":
      return entry.kind;
    default:
      return undefined;
  }
}

const declared = new WeakMap<Entry, Thing>();
const implied = new WeakMap<Name, Thing>();

/** `sources` begins with the declaration. As long as the same entries say it, it is the same object: what is made of it can be kept with it. */
export function declare(kind: ThingKind, name: Name, sources: readonly [Source, ...Source[]]): Thing {
  const [home] = sources;
  let thing = declared.get(home.entry);
  if (thing === undefined || !sameSources(thing.entries, sources)) {
    thing = make(kind, name, sources);
    declared.set(home.entry, thing);
  }
  return thing;
}

/** The same of some of its entries, and not kept as the thing itself. */
export function declareAnew(kind: ThingKind, of: { readonly name: string; readonly at: Name["at"] }, sources: readonly [Source, ...Source[]]): Thing {
  return make(kind, { text: of.name, at: of.at }, sources);
}

function sameSources(a: readonly Source[], b: readonly Source[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if ((a[i] as Source).entry !== (b[i] as Source).entry || (a[i] as Source).file !== (b[i] as Source).file) return false;
  return true;
}

/** A thing that nothing declares, known from its mention. */
export function imply(kind: ThingKind, name: Name, home: Source): Thing {
  let thing = implied.get(name);
  if (thing === undefined || thing.kind !== kind || thing.file !== home.file) {
    thing = make(kind, name, [home], true);
    implied.set(name, thing);
  }
  return thing;
}

function make(kind: ThingKind, name: Name, sources: readonly [Source, ...Source[]], implied = false): Thing {
  const [home] = sources;
  const lines: ThingLine[] = [];
  const unread = new Set<string>();
  if (!implied) {
    for (const { file, entry } of sources) {
      for (const detail of entry.details) {
        if (detail.kind === "unread") unread.add(detail.guess ?? "");
        else if (unsaid(detail)) unread.add(detail.kind);
        else lines.push({ file, entry, detail });
      }
      for (const detail of entry.stray) unread.add(detail.kind);
    }
  }
  const { file, entry } = home;
  const title = implied ? undefined : (entry as { title?: { value: string } }).title?.value;
  // Written out with the title and without: an object to which more than a dozen fields are added by their names as values is looked up like a table from then on.
  const base: ThingBase & { readonly kind: ThingKind } =
    title === undefined
      ? { kind, name: name.text, file, entry, at: name.at, implied, lines, unread, entries: sources }
      : { kind, name: name.text, title, file, entry, at: name.at, implied, lines, unread, entries: sources };
  return withFields<Thing>(base, fieldsOf[kind](new Lines(base)));
}

/** All fields of some, and none that is left out by oversight. */
type Said<T> = { readonly [K in keyof T]-?: T[K] | undefined };
type Fields<T extends Thing> = Said<Omit<T, keyof ThingBase | "kind">>;

/** What is asked of the lines that speak of a thing: the last of a kind, for it is the one that holds, or all of them. */
class Lines {
  readonly of: ThingBase;
  constructor(of: ThingBase) {
    this.of = of;
  }
  last<K extends Detail["kind"]>(kind: K): Extract<Detail, { kind: K }> | undefined {
    return lineOf(this.of, kind)?.detail;
  }
  all<K extends Detail["kind"]>(kind: K): Extract<Detail, { kind: K }>[] {
    return linesOf(this.of, kind).map((line) => line.detail);
  }
  get placeKind() {
    return this.last("each")?.placeKind;
  }
  get perPlace() {
    return wholeNumber((this.last("each")?.count ?? this.last("qty")?.count)?.text);
  }
  get critical() {
    return this.last("critical") !== undefined;
  }
  get criticalWhat() {
    return this.last("critical")?.what?.value;
  }
}

/** What each kind of thing has besides what all things have: every field of it is said, even where there is nothing to say. */
const fieldsOf: { readonly [K in ThingKind]: (lines: Lines) => Fields<Extract<Thing, { kind: K }>> } = {
  part,
  fastener,
  fluid,
  limit,
  check,
  gauge,
  hazard,
  step: nothingElse,
  question,
  supplier: nothingElse,
  shims,
};

function nothingElse(): Fields<Step | Supplier> {
  return {};
}

/** Where it is, how many times, and what is lost if it lets go: said of parts, fasteners, limits and checks alike. */
function countedIn({ placeKind, perPlace, critical, criticalWhat }: Lines) {
  return { placeKind, perPlace, critical, criticalWhat };
}

/** And of what is bought. */
function pieceIn(lines: Lines) {
  return { ...countedIn(lines), number: lines.last("number")?.text?.value };
}

function part(lines: Lines): Fields<Part> {
  const renews = lines.all("renew");
  return {
    ...pieceIn(lines),
    fits: lines.last("fits")?.text?.value,
    material: lines.last("material")?.material?.text,
    mass: lines.last("mass")?.mass,
    rated: lines.last("rated")?.load,
    renew: renews.some((r) => !r.inPairs),
    renewWith: renews.flatMap((r) => r.with),
    inPairs: renews.some((r) => r.inPairs),
    heldBy: lines.all("held").flatMap((d) => d.by),
    behind: lines.all("behind").flatMap((d) => d.parts),
    matchedWith: lines.all("matched").flatMap((d) => d.with),
    keepsPlace: lines.last("keeps") !== undefined,
    holds: lines.all("holds").flatMap((d) => d.fluids),
  };
}

function fastener(lines: Lines): Fields<Fastener> {
  const locked = lines.last("locked");
  return {
    ...pieceIn(lines),
    torque: torqueOf(lines),
    locking: locked?.locking === undefined ? undefined : { locking: locked.locking, serves: wholeNumber(locked.serves?.text) ?? 1 },
    source: lines.last("source")?.text?.value,
    recheckAfter: lines.last("recheck-after")?.after,
    rated: lines.last("rated")?.load,
    renew: lines.last("renew") !== undefined,
    threads: lines.all("thread").flatMap(threadsOf),
  };
}

function torqueOf(lines: Lines): Fastener["torque"] {
  const line = lines.last("torque");
  if (line === undefined) return !lines.of.unread.has("torque") && isNeverTight(lines.of) ? { none: true } : undefined;
  const said: Said<NonNullable<Fastener["torque"]>> = {
    range: line.range,
    stages: line.stages,
    angle: line.angle,
    condition: line.condition?.text,
    k: line.k?.text,
    byFeel: line.byFeel?.value,
    none: line.none !== undefined,
  };
  return withFields({}, said);
}

/** The same thread at each of the places that its line names. */
function threadsOf({ thread, grade, class: tolerance, places }: Extract<Detail, { kind: "thread" }>): Fastener["threads"] {
  if (thread === undefined) return [];
  return (places.length === 0 ? [undefined] : places).map((place) =>
    withFields<Fastener["threads"][number]>({ thread }, { grade: grade?.text, class: tolerance?.text, place: place?.text }),
  );
}

/**
 * A pin that bears across and is held in its place, a key, a clip: fitted, and never pulled tight (common practice). By the end of its name or its title; one that is
 * declared might be a pin that is screwed or driven, and says so itself where its words leave that open.
 */
function isNeverTight({ name, title, implied }: ThingBase): boolean {
  const words = implied ? neverTight : neverTightByWords;
  return [name.replaceAll("-", " "), title?.split(/[,;(]/)[0] ?? ""].some((it) => words.test(it.trim()));
}

const neverTight = /(^| )(pins?|keys?|clips?|circlips?|dowels?|clevis)( \d+)?$/iu;
const neverTightByWords = /\b(clevis|clevis pins?|linch ?pins?|hitch pins?|woodruff keys?|r clips?)$/iu;

function fluid(lines: Lines): Fields<Fluid> {
  return {
    placeKind: lines.placeKind,
    perPlace: lines.perPlace,
    in: lines.all("in").flatMap((d) => d.parts),
    needsBleed: lines.last("needs-bleed") !== undefined,
    capacity: lines.last("capacity")?.quantity,
    grade: lines.last("grade")?.text?.value,
    source: lines.last("source")?.text?.value,
  };
}

function limit(lines: Lines): Fields<Limit> {
  const set = lines.last("set");
  return {
    ...countedIn(lines),
    setBy: set?.by ?? [],
    of: lines.all("of").flatMap((d) => d.names),
    with: lines.all("with").flatMap((d) => d.names),
    positions: lines.all("read-at").flatMap((d) => d.positions.map((p) => p.text)),
    new: lines.last("new")?.range,
    worn: lines.last("worn")?.range,
    set: set?.range,
    spread: lines.last("spread")?.max,
    ovality: lines.last("ovality")?.max,
    taper: lines.last("taper")?.max,
    expression: lines.last("equals")?.expression,
    source: lines.last("source")?.text?.value,
  };
}

function check(lines: Lines): Fields<Check> {
  return {
    ...countedIn(lines),
    of: lines.all("of").flatMap((d) => d.names),
    with: lines.all("with").flatMap((d) => d.names),
    setBy: lines.all("set").flatMap((d) => d.by),
  };
}

function gauge(lines: Lines): Fields<Gauge> {
  const checked = lines.last("checked");
  const range = lines.last("range")?.range;
  const uncertainties = lines.all("uncertainty");
  const share = uncertainties.findLast((d) => d.percent !== undefined)?.percent;
  // Where the gauge itself reads per cent, a per cent is an amount.
  const readsPercent = range !== undefined && quantitiesOf(range).some((it) => it.unit?.text === "%");
  return {
    resolution: lines.last("resolution")?.quantity,
    uncertainty: uncertainties.findLast((d) => d.quantity !== undefined)?.quantity ?? (readsPercent ? share : undefined),
    uncertaintyShare: readsPercent ? undefined : share,
    range,
    checked: checked?.date?.text,
    everyMonths: wholeNumber(checked?.months?.text),
  };
}

function hazard(lines: Lines): Fields<Hazard> {
  return {
    safeBefore: lines.all("safe-before").flatMap((d) => d.names),
    restoreAfter: lines.all("restore-after").flatMap((d) => d.names),
    caution: lines.last("caution")?.text?.value,
    from: lines.last("from")?.step,
  };
}

function question(lines: Lines): Fields<Question> {
  return { about: lines.all("about").flatMap((d) => d.names), answer: lines.last("answer")?.text?.value };
}

function shims(lines: Lines): Fields<Shims> {
  return { placeKind: lines.placeKind, perPlace: lines.perPlace };
}

/** Puts into an object what is not undefined, so that absence is absence. The object is the caller's own: a copy of each would take longer than all else that is done here. */
function withFields<T extends object>(own: object, fields: { readonly [key: string]: unknown }): T {
  const out = own as Record<string, unknown>;
  for (const key in fields) {
    const value = fields[key];
    if (value !== undefined) out[key] = value;
  }
  return out as T;
}

/** A whole figure that is no larger than a machine could need, else undefined. */
export function wholeNumber(text: string | undefined): number | undefined {
  return text !== undefined && /^\d{1,6}$/.test(text) ? Number(text) : undefined;
}
