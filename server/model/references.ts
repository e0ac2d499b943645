// Every mention of a name in an entry: what kind of thing it must be, or which place. One walk of the tree, remembered with the entry.
// Invariant: says what is mentioned, never whether it exists; that is for the job to answer.
import type { Detail, Entry, Expression, Item, Locking, Name } from "../../grammar/tree.ts";
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
const partOrFastener: readonly ThingKind[] = ["part", "fastener"];
const setters: readonly ThingKind[] = ["fastener", "part", "shims"];
const buyable: readonly ThingKind[] = ["part", "fastener", "fluid", "shims"];

const ofEntry = memoSliced(collect);

export const referencesOf: (entry: Entry) => References = ofEntry.whole;

/** The same in slices: an entry may have thousands of lines. */
export const readingReferences = (entry: Entry): Slices<References> => ofEntry.sliced(entry);

function* collect(entry: Entry): Slices<References> {
  const things: ThingReference[] = [];
  const places: PlaceReference[] = [];
  const kinds: KindReference[] = [];
  const thing = (name: Name | undefined, wants: readonly ThingKind[], row: number, role: string) => {
    if (name !== undefined) things.push({ wants, name, row, role });
  };
  const all = (names: readonly Name[], wants: readonly ThingKind[], row: number, role: string) => {
    for (const name of names) thing(name, wants, row, role);
  };
  const place = (name: Name | undefined, row: number, of: readonly string[] = []) => {
    if (name !== undefined) places.push({ name, row, of });
  };
  const item = (it: Item | undefined, row: number, role: string) => {
    if (it?.kind === "name") thing(it.name, buyable, row, role);
    if (it?.kind === "locking") locking(it.locking, row);
  };
  const locking = (it: Locking | undefined, row: number) => {
    if (it?.part !== undefined) thing(it.part, ["part"], row, "lock");
  };
  const expression = (it: Expression | undefined, row: number): void => {
    if (it === undefined) return;
    if (it.kind === "name") thing(it.name, ["limit"], row, "=");
    else if (it.kind === "negate") expression(it.operand, row);
    else if (it.kind === "binary") {
      expression(it.left, row);
      expression(it.right, row);
    } else if (it.kind === "call") for (const argument of it.arguments) expression(argument, row);
  };

  switch (entry.kind) {
    case "measure":
      thing(entry.limit, ["limit"], 0, "measure");
      thing(entry.by, ["gauge"], 0, "by");
      break;
    case "seen":
      thing(entry.check, ["check"], 0, "seen");
      for (const name of entry.places) place(name, 0, entry.check === undefined ? [] : [entry.check.text]);
      break;
    case "finding":
      thing(entry.of, ["part", "fastener", "fluid"], 0, "finding");
      for (const name of entry.places) place(name, 0, entry.of === undefined ? [] : [entry.of.text]);
      break;
    case "concession":
      thing(entry.of, anyThing, 0, "concession");
      for (const name of entry.places) place(name, 0, entry.of === undefined ? [] : [entry.of.text]);
      break;
    case "offer":
      item(entry.item, 0, "offer");
      thing(entry.from, ["supplier"], 0, "from");
      break;
    case "stock":
    case "need":
      item(entry.item, 0, entry.kind);
      break;
    case "order":
      thing(entry.to, ["supplier"], 0, "to");
      break;
    default:
  }

  for (let i = 0; i < entry.details.length; i++) {
    ofDetail(entry.details[i] as Detail);
    if (i % someAtOnce === someAtOnce - 1) yield;
  }

  function ofDetail(detail: Detail): void {
    const row = detail.row;
    switch (detail.kind) {
      case "each":
        if (detail.placeKind !== undefined) kinds.push({ name: detail.placeKind, row });
        return;
      case "renew":
        return all(detail.with, ["part"], row, "renew with");
      case "holds":
        return all(detail.fluids, ["fluid"], row, "holds");
      case "with":
        return all(detail.names, partOrFastener, row, "with");
      case "held":
        return all(detail.by, ["fastener"], row, "held by");
      case "behind":
        return all(detail.parts, ["part"], row, "behind");
      case "matched":
        return all(detail.with, ["part"], row, "matched with");
      case "thread":
        for (const name of detail.places) place(name, row);
        return;
      case "locked":
        return locking(detail.locking, row);
      case "in":
        return all(detail.parts, ["part"], row, "in");
      case "set":
        return all(detail.by, setters, row, "set by");
      case "of":
        return all(detail.names, partOrFastener, row, "of");
      case "equals":
        return expression(detail.expression, row);
      case "safe-before":
      case "restore-after":
        return all(detail.names, partOrFastener, row, detail.kind === "safe-before" ? "safe before" : "restore after");
      case "from":
        return thing(detail.step, ["step"], row, "from");
      case "after":
        return all(detail.steps, ["step"], row, "after");
      case "at":
        for (const name of detail.places) place(name, row);
        return;
      case "done":
        for (const name of detail.places) place(name, row);
        return;
      case "action": {
        const wants = wantedBy(detail.verb);
        for (const it of detail.things) thing(it.name, wants, row, detail.verb);
        const of = detail.things.map((it) => it.name.text);
        for (const name of detail.places) place(name, row, of);
        place(detail.from, row, of);
        thing(detail.underPart, ["part"], row, "under");
        thing(detail.by, ["gauge"], row, "by");
        return locking(detail.with, row);
      }
      case "is":
        for (const condition of detail.conditions) thing(condition.from, ["part"], row, "from");
        return;
      case "decision":
        return thing(detail.question, ["question"], row, "ask");
      case "about":
        return all(detail.names, anyThing, row, "about");
      case "item":
        return item(detail.item, row, "item");
      case "received":
        for (const it of detail.items) item(it.item, row, "received");
        return;
      case "work":
        thing(detail.part, partOrFastener, row, "work");
        for (const name of detail.places) place(name, row, detail.part === undefined ? [] : [detail.part.text]);
        return;
      case "recheck":
        return thing(detail.name, ["fastener", "limit"], row, "recheck");
      case "test":
        return thing(detail.of, partOrFastener, row, "of");
      default:
        return;
    }
  }
  return { things, places, kinds };
}

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
