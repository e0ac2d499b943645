// What can be needed, stocked, offered and ordered, under one key however it is written; and amounts of it.
// Invariant: two items have one key only where one can serve for the other: the same declared thing, the same locking of the same exact sizes, the same text.
import { lockingInfo } from "../../grammar/words.ts";
import type { ItemThread, Locking, Quantity, Item as WrittenItem } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Fastener, Thing } from "../model/things.ts";
import { sizeText } from "../model/titles.ts";
import { figureValue, measured, unitsOf } from "../model/values.ts";
import { type Exact, isNegative, plainText, sumOf } from "../quantities/exact.ts";
import { type Dimension, type Unit, fromBase } from "../quantities/units.ts";
import { weakerThan } from "./offered-thread.ts";
import { threadOf } from "../trade/threads.ts";
import { memo } from "../model/memo.ts";

export type ItemKind = "part" | "fastener" | "locking" | "fluid" | "shims" | "text";

export interface Item {
  /** Equal for what is one and the same to buy. */
  readonly key: string;
  readonly kind: ItemKind;
  /** The declared name, or the locking or text as written. */
  readonly written: string;
  /** What a person calls it: the title, else as written. */
  readonly title: string;
  /** The maker's number, where one is declared. */
  readonly makersNumber?: string;
  /** Of a fastener whose thread is another at other places: which of them it is. */
  readonly threaded?: ThreadedItem;
}

/** One of the threads of a fastener that has several, each at places of its own: a left-hand nut never serves for a right-hand one. */
export interface ThreadedItem {
  /** The key of the fastener as an order or the shelf names it, by name and without a thread. */
  readonly unthreaded: string;
  /** `7/8-14 UNF LH` */
  readonly text: string;
  readonly threads: Fastener["threads"];
  /** Of a grade or a class that is too weak: `text` is that. */
  readonly weaker?: true;
}

/** So many pieces, or a quantity in the base unit of its dimension with the unit to show it in. */
export interface Amount {
  readonly value: Exact;
  readonly unit?: Unit;
}

/** All of them together, by their values: they are of one thing, each in the base unit of what it is counted or measured in. */
export function totalAmount(amounts: readonly Amount[]): Exact {
  return sumOf(amounts.map((it) => it.value));
}

/** The item that a line names. Undefined where it names none: no locking at all, or one that is never bought. */
export function itemOf(job: Job, written: WrittenItem | undefined): Item | undefined {
  switch (written?.kind) {
    case "name":
      return written.made === undefined ? itemNamed(job, written.name.text) : itemOfThread(job, written.name.text, written.made);
    case "locking":
      return lockingItem(job, written.locking);
    case "text": {
      const text = written.text.value.normalize("NFC");
      return { key: `text ${text}`, kind: "text", written: text, title: text };
    }
    default:
      return undefined;
  }
}

const named = memo((_job: Job) => new Map<string, Item>());

/** A declared thing is the same in every job that uses its file; what is only mentioned is known by its name. */
export function itemNamed(job: Job, name: string): Item {
  const items = named(job);
  let item = items.get(name);
  if (item === undefined) {
    const thing = job.things.get(name);
    const number = thing !== undefined && "number" in thing ? thing.number : undefined;
    item = {
      key: keyOfThing(name, thing),
      kind: kindOf(thing),
      written: name,
      title: thing?.title ?? name,
      ...(number === undefined ? {} : { makersNumber: number }),
    };
    items.set(name, item);
  }
  return item;
}

/** A declared thing at one of its places: a fastener that has another thread at another place is another item there. */
export function itemAt(job: Job, name: string, place: string): Item {
  const thing = job.things.get(name);
  if (thing?.kind !== "fastener" || !thing.threads.some((it) => it.place !== undefined)) return itemNamed(job, name);
  return itemsByThread(job, thing).get(place) ?? itemsByThread(job, thing).get("") ?? itemNamed(job, name);
}

/** By place, `""` for all that no thread names. Empty where the threads are the same at all of them. */
export const itemsByThread: (job: Job, fastener: Fastener) => ReadonlyMap<string, Item> = (job, fastener) => {
  const items = threaded(job);
  const known = items.get(fastener.name);
  if (known !== undefined) return known;
  const made = new Map<string, Item>();
  const texts = new Set<string>();
  const base = itemNamed(job, fastener.name);
  for (const place of new Set(["", ...fastener.threads.flatMap((it) => it.place ?? [])])) {
    const threads = threadsAt(fastener, place);
    const text = threads.map(strengthAndThread).join(" or ");
    if (text === "") continue;
    texts.add(text);
    made.set(place, {
      ...base,
      key: `${base.key} thread ${text}`,
      title: `${base.title}, ${text}`,
      threaded: { unthreaded: base.key, text, threads },
    });
  }
  if (texts.size < 2) made.clear();
  items.set(fastener.name, made);
  return made;
};

/**
 * A fastener of the thread, or of the hand, that a line of the shelf or of an order names: the item at the places that have it. Of a thread that the fastener has
 * nowhere, or of a grade or a class that is weaker than its own, it is a thing of its own, which serves for nothing.
 */
function itemOfThread(job: Job, name: string, made: ItemThread): Item {
  const base = itemNamed(job, name);
  const thing = job.things.get(name);
  if (thing?.kind !== "fastener" || thing.threads.length === 0) return base;
  const weaker = weakerThan(thing, made);
  if (weaker !== undefined) {
    const text = `${weaker.by} ${weaker.theirs.text}`;
    return { ...base, key: `${base.key} ${text}`, title: `${base.title}, ${text}`, threaded: { unthreaded: base.key, text, threads: [], weaker: true } };
  }
  if (made.thread === undefined && made.leftHand === undefined) return base;
  const fits = (threads: Fastener["threads"]) => threads.some(({ thread }) => isOfThread(thread, made));
  const items = new Map([...itemsByThread(job, thing).values()].map((it) => [it.key, it]));
  if (items.size === 0 && fits(thing.threads)) return base;
  const own = [...items.values()].filter((it) => fits(it.threaded?.threads ?? []));
  // By its hand alone one of several left-hand threads is not told from another.
  if (own.length > 0) return own.length === 1 ? (own[0] as Item) : base;
  const text = made.thread === undefined ? "LH" : strengthAndThread({ thread: made.thread });
  return { ...base, key: `${base.key} thread ${text}`, title: `${base.title}, ${text}`, threaded: { unthreaded: base.key, text, threads: [] } };
}

function isOfThread(own: Fastener["threads"][number]["thread"], { thread }: ItemThread): boolean {
  if (thread === undefined) return own.leftHand !== undefined;
  if ((thread.leftHand === undefined) !== (own.leftHand === undefined)) return false;
  return strengthAndThread({ thread }) === strengthAndThread({ thread: own });
}

const threaded = memo((_job: Job) => new Map<string, ReadonlyMap<string, Item>>());

/** Those said of the place; where none is, those said of no place. */
function threadsAt(fastener: Fastener, place: string): Fastener["threads"] {
  const own = fastener.threads.filter((it) => it.place === place);
  return own.length > 0 ? own : fastener.threads.filter((it) => it.place === undefined);
}

function strengthAndThread({ thread, grade, class: strength }: Pick<Fastener["threads"][number], "thread" | "grade" | "class">): string {
  const known = thread.free ? undefined : threadOf(thread.designation, thread.leftHand !== undefined);
  const hand = thread.leftHand === undefined ? "" : " LH";
  return `${known?.designation ?? thread.designation}${hand}${grade === undefined ? "" : ` grade ${grade}`}${strength === undefined ? "" : ` class ${strength}`}`;
}

export function keyOfThing(name: string, thing: Pick<Thing, "implied" | "file"> | undefined): string {
  return thing === undefined || thing.implied ? `name ${name}` : `name ${name} of ${thing.file}`;
}

/** Staking is worked from the metal that is there, and is never bought. */
export function lockingItem(job: Job, locking: Locking): Item | undefined {
  if (locking.kind === "part") return locking.part === undefined ? undefined : itemNamed(job, locking.part.text);
  if (locking.kind === "nothing" || locking.kind === "ambiguous" || lockingInfo(locking.kind)?.bought === false) return undefined;
  const size = sizeOfItem(locking);
  const words = [locking.words === "" ? locking.kind : locking.words, sizeText(size), locking.grade === undefined ? "" : `"${locking.grade.value}"`];
  const written = words.filter((it) => it !== "").join(" ");
  const key = lockingKey(locking);
  return { key, kind: "locking", written, title: written };
}

/** Wire is bought by its diameter; how much of it an opening takes is the second figure. */
function sizeOfItem(locking: Locking): readonly Quantity[] {
  if (locking.kind !== "lock wire" || locking.size.length < 2) return locking.size;
  const [diameter] = locking.size as [Quantity];
  const unit = diameter.unit ?? unitsOf(locking.size)[0];
  return [unit === undefined ? diameter : { ...diameter, unit }];
}

/** The same for the same kind in the same exact sizes, however they are written. */
export const lockingKey: (locking: Locking) => string = memo((locking) => {
  const size = sizeOfItem(locking);
  const units = unitsOf(size);
  const sizes = size.map((it, i) => measured(it, units[i])?.value.toFraction() ?? it.figure.text);
  return ["locking", locking.kind, sizes.join(" x "), locking.grade?.value ?? ""].join(" ");
});

/** The length of wire that one opening takes, where the locking says so. */
export function wireLength(locking: Locking): Amount | undefined {
  if (locking.kind !== "lock wire" || locking.size.length < 2) return undefined;
  const length = measured(locking.size[1], unitsOf(locking.size)[1]);
  return length === undefined ? undefined : { value: length.value, unit: length.unit };
}

/** The amount at the end of a line: a bare figure is a count of pieces. Undefined where it can't be read, or is less than nothing. */
export function amountOf(written: Quantity | undefined): Amount | undefined {
  if (written === undefined) return undefined;
  if (written.unit === undefined) {
    const value = figureValue(written.figure);
    return value === undefined || isNegative(value) ? undefined : { value };
  }
  const it = measured(written);
  return it === undefined || isNegative(it.value) ? undefined : { value: it.value, unit: it.unit };
}

/** The length of one piece of wire that is named with it: `lock wire 1.2 mm x 300 mm`. */
export function pieceOf(written: WrittenItem | undefined): Amount | undefined {
  return written?.kind === "locking" ? wireLength(written.locking) : undefined;
}

/** So many of what a line names: a bare figure counts pieces, and pieces of wire of a length that is named are so much wire. */
export function amountOfItem(item: WrittenItem | undefined, written: Quantity | undefined): Amount | undefined {
  const amount = amountOf(written);
  const piece = pieceOf(item);
  return amount === undefined || amount.unit !== undefined || piece === undefined ? amount : { ...piece, value: piece.value.mul(amount.value) };
}

/** What is put on from a bottle or a tube: one serves many, so one is asked for however many fasteners there are. */
export function isFromABottle(item: Item): boolean {
  return item.kind === "locking" && item.key.startsWith("locking thread lock ");
}

export function dimensionOfAmount(amount: Amount): Dimension {
  return amount.unit?.dimension ?? "count";
}

/** Pieces with pieces, lengths with lengths: only these can be added up. */
export function alike(a: Amount, b: Amount): boolean {
  return dimensionOfAmount(a) === dimensionOfAmount(b);
}

/** An amount in the unit of another. */
export function inUnitOf(amount: Amount, other: Amount): Amount {
  return other.unit === undefined ? { value: amount.value } : { value: amount.value, unit: other.unit };
}

/** The figure as it is shown: in its own unit, or in pieces. */
export function figureOf(amount: Amount): Exact {
  return amount.unit === undefined ? amount.value : fromBase(amount.value, amount.unit);
}

/** `12`, `240 ml` */
export function amountText(amount: Amount): string {
  const figure = plainText(figureOf(amount));
  return amount.unit === undefined ? figure : `${figure} ${amount.unit.spelling}`;
}

function kindOf(thing: Thing | undefined): ItemKind {
  switch (thing?.kind) {
    case "fastener":
    case "fluid":
    case "shims":
      return thing.kind;
    default:
      return "part";
  }
}
