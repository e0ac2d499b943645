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

/**
 * A pin that bears across and is held in its place, a key, a clip: fitted, and never pulled tight (common practice). By the end of its name or its title; one that is
 * declared might be a pin that is screwed or driven, and says so itself where its words leave that open.
 */
function isNeverTight(name: string, title: string | undefined, implied: boolean): boolean {
  const words = implied ? neverTight : neverTightByWords;
  return [name.replaceAll("-", " "), title?.split(/[,;(]/)[0] ?? ""].some((it) => words.test(it.trim()));
}

const neverTight = /(^| )(pins?|keys?|clips?|circlips?|dowels?|clevis)( \d+)?$/iu;
const neverTightByWords = /\b(clevis|clevis pins?|linch ?pins?|hitch pins?|woodruff keys?|r clips?)$/iu;

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
  const last = <K extends Detail["kind"]>(k: K) => lineOf(base, k)?.detail;
  const all = <K extends Detail["kind"]>(k: K) => linesOf(base, k).map((line) => line.detail);
  const placeKind = () => last("each")?.placeKind;
  const perPlace = () => wholeNumber((last("each")?.count ?? last("qty")?.count)?.text);
  const critical = () => last("critical") !== undefined;
  const criticalWhat = () => last("critical")?.what?.value;
  switch (kind) {
    case "part": {
      const renews = all("renew");
      return made<Part>(base, {
        placeKind: placeKind(),
        perPlace: perPlace(),
        critical: critical(),
        criticalWhat: criticalWhat(),
        number: last("number")?.text?.value,
        fits: last("fits")?.text?.value,
        material: last("material")?.material?.text,
        mass: last("mass")?.mass,
        rated: last("rated")?.load,
        renew: renews.some((r) => !r.inPairs),
        renewWith: renews.flatMap((r) => r.with),
        inPairs: renews.some((r) => r.inPairs),
        heldBy: all("held").flatMap((d) => d.by),
        behind: all("behind").flatMap((d) => d.parts),
        matchedWith: all("matched").flatMap((d) => d.with),
        keepsPlace: last("keeps") !== undefined,
        holds: all("holds").flatMap((d) => d.fluids),
      });
    }
    case "fastener": {
      const torque = last("torque");
      const locked = last("locked");
      return made<Fastener>(base, {
        placeKind: placeKind(),
        perPlace: perPlace(),
        critical: critical(),
        criticalWhat: criticalWhat(),
        number: last("number")?.text?.value,
        torque:
          torque === undefined
            ? !unread.has("torque") && isNeverTight(name.text, title, implied)
              ? { none: true }
              : undefined
            : withFields<NonNullable<Fastener["torque"]>>(
                {},
                {
                  range: torque.range,
                  stages: torque.stages,
                  angle: torque.angle,
                  condition: torque.condition?.text,
                  k: torque.k?.text,
                  byFeel: torque.byFeel?.value,
                  none: torque.none !== undefined,
                },
              ),
        locking: locked?.locking === undefined ? undefined : { locking: locked.locking, serves: wholeNumber(locked.serves?.text) ?? 1 },
        source: last("source")?.text?.value,
        recheckAfter: last("recheck-after")?.after,
        rated: last("rated")?.load,
        renew: last("renew") !== undefined,
        threads: all("thread").flatMap((d) =>
          d.thread === undefined
            ? []
            : (d.places.length === 0 ? [undefined] : d.places).map((place) =>
                withFields<Fastener["threads"][number]>(
                  { thread: d.thread as NonNullable<typeof d.thread> },
                  { grade: d.grade?.text, class: d.class?.text, place: place?.text },
                ),
              ),
        ),
      });
    }
    case "fluid":
      return made<Fluid>(base, {
        placeKind: placeKind(),
        perPlace: perPlace(),
        in: all("in").flatMap((d) => d.parts),
        needsBleed: last("needs-bleed") !== undefined,
        capacity: last("capacity")?.quantity,
        grade: last("grade")?.text?.value,
        source: last("source")?.text?.value,
      });
    case "limit": {
      const set = last("set");
      return made<Limit>(base, {
        placeKind: placeKind(),
        perPlace: perPlace(),
        critical: critical(),
        criticalWhat: criticalWhat(),
        setBy: set?.by ?? [],
        of: all("of").flatMap((d) => d.names),
        with: all("with").flatMap((d) => d.names),
        positions: all("read-at").flatMap((d) => d.positions.map((p) => p.text)),
        new: last("new")?.range,
        worn: last("worn")?.range,
        set: set?.range,
        spread: last("spread")?.max,
        ovality: last("ovality")?.max,
        taper: last("taper")?.max,
        expression: last("equals")?.expression,
        source: last("source")?.text?.value,
      });
    }
    case "check":
      return made<Check>(base, {
        placeKind: placeKind(),
        perPlace: perPlace(),
        critical: critical(),
        criticalWhat: criticalWhat(),
        of: all("of").flatMap((d) => d.names),
        with: all("with").flatMap((d) => d.names),
        setBy: all("set").flatMap((d) => d.by),
      });
    case "gauge": {
      const checked = last("checked");
      const range = last("range")?.range;
      const share = all("uncertainty").findLast((d) => d.percent !== undefined)?.percent;
      // Where the gauge itself reads per cent, a per cent is an amount.
      const readsPercent = range !== undefined && quantitiesOf(range).some((it) => it.unit?.text === "%");
      return made<Gauge>(base, {
        resolution: last("resolution")?.quantity,
        uncertainty: all("uncertainty").findLast((d) => d.quantity !== undefined)?.quantity ?? (readsPercent ? share : undefined),
        uncertaintyShare: readsPercent ? undefined : share,
        range,
        checked: checked?.date?.text,
        everyMonths: wholeNumber(checked?.months?.text),
      });
    }
    case "hazard":
      return made<Hazard>(base, {
        safeBefore: all("safe-before").flatMap((d) => d.names),
        restoreAfter: all("restore-after").flatMap((d) => d.names),
        caution: last("caution")?.text?.value,
        from: last("from")?.step,
      });
    case "question":
      return made<Question>(base, { about: all("about").flatMap((d) => d.names), answer: last("answer")?.text?.value });
    case "shims":
      return made<Shims>(base, { placeKind: placeKind(), perPlace: perPlace() });
    case "step":
    case "supplier":
      return made<Step | Supplier>(base, {});
  }
}

/** Every field of a kind beside those of all things, said even where there is nothing to say. */
type Fields<T> = { readonly [K in Exclude<keyof T, keyof ThingBase | "kind">]-?: T[K] | undefined };

function made<T extends Thing>(base: ThingBase & { readonly kind: ThingKind }, fields: Fields<T>): T {
  return withFields<T>(base, fields);
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
