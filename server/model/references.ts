// Every mention of a name in an entry: what kind of thing it must be, or which place. One walk of the tree, remembered with the entry.
// Invariant: says what is mentioned, never whether it exists; that is for the job to answer.
import type { Detail, Entry, Item, Locking, Name } from "../../grammar/tree.ts";
import { leavesOf } from "./leaves.ts";
import type { ThingKind } from "./things.ts";
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { memoSliced } from "./memo.ts";

export interface ThingReference {
  readonly wants: readonly ThingKind[];
  readonly name: Name;
  readonly row: number;
  /** What the name is here for, in words of the sheet: `by`, `undo`, `held by`. */
  readonly role: string;
}

export interface PlaceReference {
  readonly name: Name;
  readonly row: number;
  /** The things on whose places this one is; none where any place will do. */
  readonly of: readonly string[];
}

export interface KindReference {
  readonly name: Name;
  readonly row: number;
}

export interface References {
  readonly things: readonly ThingReference[];
  readonly places: readonly PlaceReference[];
  /** Kinds of places: `each side`. */
  readonly kinds: readonly KindReference[];
}

const anyThing: readonly ThingKind[] = ["part", "fastener", "fluid", "limit", "check", "gauge", "hazard", "step", "question", "supplier", "shims"];
const part: readonly ThingKind[] = ["part"];
const gauge: readonly ThingKind[] = ["gauge"];
const partOrFastener: readonly ThingKind[] = ["part", "fastener"];
const setters: readonly ThingKind[] = ["fastener", "part", "shims"];
const buyable: readonly ThingKind[] = ["part", "fastener", "fluid", "shims"];

const ofEntry = memoSliced(collect);

export const referencesOf: (entry: Entry) => References = ofEntry.whole;

/** The same in slices: an entry may have thousands of lines. */
export const readingReferences = (entry: Entry): Slices<References> => ofEntry.sliced(entry);

function* collect(entry: Entry): Slices<References> {
  const into = new Collector();
  collectHead(into, entry);
  for (let i = 0; i < entry.details.length; i++) {
    const detail = entry.details[i] as Detail;
    into.row = detail.row;
    (ofDetails[detail.kind] as OfDetail<Detail> | undefined)?.(into, detail);
    if (i % someAtOnce === someAtOnce - 1) yield;
  }
  return into.references;
}

/** Takes in what the lines of an entry mention, each at the row that is set before. */
class Collector {
  row = 0;
  readonly references = { things: [] as ThingReference[], places: [] as PlaceReference[], kinds: [] as KindReference[] };

  thing(name: Name | undefined, wants: readonly ThingKind[], role: string): void {
    if (name !== undefined) this.references.things.push({ wants, name, row: this.row, role });
  }

  things(names: readonly Name[], wants: readonly ThingKind[], role: string): void {
    for (const name of names) this.thing(name, wants, role);
  }

  place(name: Name | undefined, of: readonly string[] = []): void {
    if (name !== undefined) this.references.places.push({ name, row: this.row, of });
  }

  places(names: readonly Name[], of: readonly string[] = []): void {
    for (const name of names) this.place(name, of);
  }

  /** A thing, and which of its places are meant. */
  thingAt(name: Name | undefined, places: readonly Name[], wants: readonly ThingKind[], role: string): void {
    this.thing(name, wants, role);
    this.places(places, name === undefined ? [] : [name.text]);
  }

  item(it: Item | undefined, role: string): void {
    if (it?.kind === "name") this.thing(it.name, buyable, role);
    if (it?.kind === "locking") this.locking(it.locking);
  }

  locking(it: Locking | undefined): void {
    this.thing(it?.part, part, "lock");
  }
}

function collectHead(into: Collector, entry: Entry): void {
  switch (entry.kind) {
    case "measure":
      into.thing(entry.limit, ["limit"], "measure");
      return into.thing(entry.by, gauge, "by");
    case "seen":
      return into.thingAt(entry.check, entry.places, ["check"], "seen");
    case "finding":
      return into.thingAt(entry.of, entry.places, ["part", "fastener", "fluid"], "finding");
    case "concession":
      return into.thingAt(entry.of, entry.places, anyThing, "concession");
    case "offer":
      into.item(entry.item, "offer");
      return into.thing(entry.from, ["supplier"], "from");
    case "stock":
    case "need":
      return into.item(entry.item, entry.kind);
    case "order":
      return into.thing(entry.to, ["supplier"], "to");
    default:
  }
}

type OfDetail<D extends Detail> = (into: Collector, it: D) => void;

const onPlaces: OfDetail<Extract<Detail, { kind: "at" | "done" | "thread" }>> = (into, it) => into.places(it.places);

/** What each kind of line mentions; those that mention nothing are not here. */
const ofDetails: { readonly [K in Detail["kind"]]?: OfDetail<Extract<Detail, { kind: K }>> } = {
  each(into, it) {
    if (it.placeKind !== undefined) into.references.kinds.push({ name: it.placeKind, row: it.row });
  },
  renew: (into, it) => into.things(it.with, part, "renew with"),
  holds: (into, it) => into.things(it.fluids, ["fluid"], "holds"),
  with: (into, it) => into.things(it.names, partOrFastener, "with"),
  held: (into, it) => into.things(it.by, ["fastener"], "held by"),
  behind: (into, it) => into.things(it.parts, part, "behind"),
  matched: (into, it) => into.things(it.with, part, "matched with"),
  thread: onPlaces,
  locked: (into, it) => into.locking(it.locking),
  in: (into, it) => into.things(it.parts, part, "in"),
  set: (into, it) => into.things(it.by, setters, "set by"),
  of: (into, it) => into.things(it.names, partOrFastener, "of"),
  equals(into, { expression }) {
    for (const it of expression === undefined ? [] : leavesOf(expression)) if (it.kind === "name") into.thing(it.name, ["limit"], "=");
  },
  "safe-before": (into, it) => into.things(it.names, partOrFastener, "safe before"),
  "restore-after": (into, it) => into.things(it.names, partOrFastener, "restore after"),
  from: (into, it) => into.thing(it.step, ["step"], "from"),
  after: (into, it) => into.things(it.steps, ["step"], "after"),
  at: onPlaces,
  done: onPlaces,
  action(into, it) {
    const wants = wantedBy(it.verb);
    for (const { name } of it.things) into.thing(name, wants, it.verb);
    const of = it.things.map(({ name }) => name.text);
    into.places(it.places, of);
    into.place(it.from, of);
    into.thing(it.underPart, part, "under");
    into.thing(it.by, gauge, "by");
    into.locking(it.with);
  },
  is(into, it) {
    for (const { from } of it.conditions) into.thing(from, part, "from");
  },
  decision: (into, it) => into.thing(it.question, ["question"], "ask"),
  about: (into, it) => into.things(it.names, anyThing, "about"),
  item: (into, it) => into.item(it.item, "item"),
  received(into, { items }) {
    for (const { item } of items) into.item(item, "received");
  },
  work: (into, it) => into.thingAt(it.part, it.places, partOrFastener, "work"),
  recheck: (into, it) => into.thing(it.name, ["part", "fastener", "limit"], "recheck"),
  test: (into, it) => into.thing(it.of, partOrFastener, "of"),
};

function wantedBy(verb: string): readonly ThingKind[] {
  switch (verb) {
    case "safe":
    case "restore":
      return ["hazard"];
    case "slacken":
    case "undo":
    case "tighten":
    case "lock":
    case "let":
      return ["fastener"];
    case "drain":
    case "bleed":
    case "fill":
      return ["fluid"];
    case "remove":
      return ["part", "shims"];
    case "fit":
      return ["part", "fastener", "shims"];
    case "support":
    case "lower":
      return ["part"];
    default:
      return partOrFastener;
  }
}
