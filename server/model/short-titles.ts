// How things are called in a sentence: a title is cut at its first comma only where it stays the only one so called.
// Invariant: two things of a job are never called by the same words, whatever their titles.
import { countAhead } from "./halving.ts";
import { memo } from "./memo.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { Thing } from "./things.ts";
import { putInto } from "./grouped.ts";

/** “Hub bearing” of “Hub bearing, outer”; as much of a title as the other things of the job leave it. Those that it lengthens are made anew, and kept with what they are made from. */
export function* shortenTitles(things: Map<string, Thing>): Slices<void> {
  const byShort = new Map<string, Thing[]>();
  const ofThings = new Set<string>();
  let n = 0;
  for (const thing of things.values()) {
    if (++n % someThings === 0) yield;
    addWords(ofThings, thing);
    if (thing.title === undefined || notNamed.has(thing.kind)) continue;
    const key = beginning(thing);
    putInto(byShort, key, thing);
  }
  for (const same of byShort.values()) {
    if (same.length < 2) continue;
    const keys = same.map((it) => keyOf(it.title as string)).sort();
    const hands = handsOf(same);
    yield;
    for (const thing of same) {
      things.set(thing.name, withShort(thing, shortest(thing, keys, hands)));
      if (++n % someThings === 0) yield;
    }
  }
  for (const thing of things.values()) {
    if (++n % someThings === 0) yield;
    if (
      thing.kind !== "limit" ||
      thing.title === undefined ||
      thing.short !== undefined ||
      !wordsOf(firstPart(thing.title)).every((it) => ofThings.has(it) || joining.has(it))
    )
      continue;
    things.set(thing.name, withShort(thing, secondPart(thing.title)));
  }
}

/** So many things a slice. */
const someThings = 200;

/** The words in the titles of what can be held in the hand. “Big end” of the limit “Big end, play up and down” is the bearing, and a bearing is not 0.08 mm. */
function addWords(words: Set<string>, thing: Thing): void {
  if (thing.title === undefined || (thing.kind !== "part" && thing.kind !== "fastener")) return;
  for (const word of wordsOf(thing.title)) words.add(word);
}

/** “Pinion and gear wheel” are two things. */
const joining: ReadonlySet<string> = new Set(["and", "the", "of", "on", "in", "to", "its", "with"]);

function wordsOf(title: string): readonly string[] {
  return title.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
}

/** The title up to its second comma or semicolon; the whole, where a bracket opens before that. */
function secondPart(title: string): string {
  const part = title.split(/[,;]/).slice(0, 2).join(",");
  return part.includes("(") ? title : part.trim();
}

const beginning = memo((thing: Thing) => keyOf(firstPart(thing.title ?? "")));

/** The title up to its first comma, semicolon or bracket. */
export function firstPart(title: string): string {
  return (title.split(/[,;(]/)[0] as string).trim();
}

/** They stand in sentences with their whole titles. */
const notNamed: ReadonlySet<Thing["kind"]> = new Set(["step", "question", "supplier"]);

/** How many of them can be held in the hand, or filled in, by their whole titles. */
function handsOf(same: readonly Thing[]): ReadonlyMap<string, number> {
  const hands = new Map<string, number>();
  for (const it of same) if (!isFigure(it)) hands.set(keyOf(it.title as string), (hands.get(keyOf(it.title as string)) ?? 0) + 1);
  return hands;
}

/** What is read or seen of a thing, and is often called after it. */
function isFigure(it: Thing): boolean {
  return it.kind === "limit" || it.kind === "check";
}

/**
 * What `thing` is called beside others that begin alike: cut where it differs from all of them; its whole title, and its name too where another has the same.
 * A part keeps a title that it shares with what is measured of it: “axle arm”, and the limit “axle arm (arm dia)”.
 * `keys` are those of all their titles, its own among them, in order: those that begin alike stand together, so that ten thousand of one title are no more than that.
 */
function shortest(thing: Thing, keys: readonly string[], hands: ReadonlyMap<string, number>): string {
  const title = thing.title as string;
  const ends = [...title.matchAll(/[,;]/g)].map((it) => it.index).slice(1);
  for (const end of ends) {
    const part = title.slice(0, end).trim();
    if (!part.includes("(") && !manyBegin(keys, keyOf(part))) return part;
  }
  const whole = keyOf(title);
  if (keys[countAhead(keys, (it) => it < whole) + 1] !== whole) return title;
  if (isFigure(thing)) return `${title} (${thing.name.replaceAll("-", " ")})`;
  return hands.get(whole) === 1 ? title : `${title} (\`${thing.name}\`)`;
}

/** Whether two of them or more begin with `start`. */
function manyBegin(keys: readonly string[], start: string): boolean {
  return keys[countAhead(keys, (it) => it < start) + 1]?.startsWith(start) === true;
}

function keyOf(text: string): string {
  return text.trim().toLowerCase();
}

const kept = new WeakMap<Thing, Thing>();

function withShort(thing: Thing, short: string): Thing {
  let made = kept.get(thing);
  if (made === undefined || made.short !== short) {
    made = { ...thing, short };
    kept.set(thing, made);
  }
  return made;
}
