// Sets that are renewed together: parts matched with one another, and pairs across the places of their kind.
// Invariant: a set is asked for whole or not at all; a mate that is waiting for an answer carries nothing on.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { countAhead } from "../model/halving.ts";
import type { Part } from "../model/things.ts";
import { midSentence } from "../model/titles.ts";
import { type Reason, placed } from "./need.ts";
import { type Slot, type Slots, placesOfThing } from "./slots.ts";
import type { Story } from "../story/story.ts";

/**
 * How many lines of its set a mate names between two of its own fits: they all ask for the same. Those of an engine's matched parts are some tens; of thousands, each with all others, no
 * page could tell.
 */
const mostNamed = 30;

/** So many mates a slice: each is asked by as many lines as are named. */
const someMates = 10;

/** What one slot of a set asks of all others of it. */
interface Carried {
  readonly origin: Slot;
  /** When it was said; −1 for what may have been answered at any time. */
  readonly seq: number;
  readonly echo: boolean;
  readonly wheres: readonly Reason["where"][];
}

/** Asks for the mates of every slot that is asked for or was fitted new. */
export function* askMates(story: Story, slots: Slots, waits: (slot: Slot) => boolean): Slices<void> {
  const matches = yield* matchesOf(story);
  const origins = [...slots.all()].filter((slot) => hasMates(slot) && !waits(slot) && (slot.asks.length > 0 || slot.fitted.length > 0));
  const left = new Map(origins.map((slot, at) => [slot, at]));
  for (const first of origins) {
    if (!left.has(first)) continue;
    const set = yield* setOf(first);
    const own = [...set].filter((slot) => left.has(slot)).sort((a, b) => (left.get(a) ?? 0) - (left.get(b) ?? 0));
    for (const slot of own) left.delete(slot);
    yield* askAll(set, carriedOf(own, set));
    yield;
  }

  function hasMates(slot: Slot): boolean {
    return slot.thing.kind === "part" && (slot.thing.inPairs || matches.has(slot.thing.name));
  }

  /** Everything that is renewed with a slot, however long the chain, and itself. */
  function* setOf(first: Slot): Slices<ReadonlySet<Slot>> {
    const set = new Set([first]);
    let n = 0;
    for (const { thing, place } of set) {
      if (++n % someAtOnce === 0) yield;
      if (thing.kind !== "part") continue;
      for (const mate of matches.get(thing.name) ?? []) for (const it of slots.beside(mate, place)) set.add(it);
      if (thing.inPairs) for (const it of placesOfThing(story, thing)) set.add(slots.at(thing, it));
    }
    return set;
  }
}

/** All that the slots of a set ask of one another, as it was said. */
function carriedOf(origins: readonly Slot[], set: ReadonlySet<Slot>): Carried[] {
  let firstAsk = Number.POSITIVE_INFINITY;
  for (const slot of set) for (const ask of slot.asks) firstAsk = Math.min(firstAsk, ask.seq);
  const out: Carried[] = [];
  for (const origin of origins) {
    for (const { seq, echo, reasons } of origin.asks) out.push({ origin, seq, echo: echo === true, wheres: reasons.map((it) => it.where) });
    // Fitted new without a word of why: the mates may have been fitted new before it or after it.
    const told = firstAsk < (origin.fitted[0]?.moment.seq ?? 0);
    for (const [i, { moment }] of origin.fitted.entries()) out.push({ origin, seq: told ? moment.seq : -1, echo: told || i > 0, wheres: [moment.where] });
    if (origin.fitted.length > 0 && !told && origins.length < set.size) firstAsk = -1;
  }
  return out.sort((a, b) => a.seq - b.seq);
}

/** Every slot of a set is asked by all others of it; one that is two at one place, renewed in pairs, by itself too. */
function* askAll(set: ReadonlySet<Slot>, carried: readonly Carried[]): Slices<void> {
  const lists = [carried.filter((it) => !it.echo), carried.filter((it) => it.echo)];
  const turn = new Map(carried.map((it, at) => [it, at]));
  let n = 0;
  for (const mate of set) {
    if (++n % someMates === 0) yield;
    const itself = mate.thing.kind === "part" && mate.thing.inPairs && mate.total > 1;
    const ends = [...mate.fitted.map((fit) => fit.moment.seq).sort((a, b) => a - b), Number.POSITIVE_INFINITY];
    const named: { readonly it: Carried; readonly more: boolean }[] = [];
    for (const list of lists) {
      let at = 0;
      for (const end of ends) {
        const to = countAhead(list, (it) => it.seq <= end);
        for (let count = 0; at < to && count < mostNamed; at++) {
          const it = list[at] as Carried;
          if (it.origin === mate && !itself) continue;
          count++;
          named.push({ it, more: count === mostNamed && at + 1 < to });
        }
        at = to;
      }
    }
    named.sort((a, b) => (turn.get(a.it) ?? 0) - (turn.get(b.it) ?? 0));
    for (const { it, more } of named) {
      const reasons = it.wheres.map((where) => withMate(it.origin, mate, where, more ? carried.length : undefined));
      mate.asks.push({ seq: it.seq, count: mate.total, adds: false, reasons, ...(it.echo ? { echo: true } : {}) });
    }
  }
}

/** `of`: how many lines ask for the whole set, where not all are named. */
function withMate(origin: Slot, mate: Slot, where: Reason["where"], of: number | undefined): Reason {
  const pair = origin.thing.name === mate.thing.name;
  const why = pair ? "renewed in pairs" : `renewed with its match, the ${midSentence(origin.thing, origin.place === mate.place ? "" : origin.place)}`;
  return { where, place: mate.place, text: placed(mate.place, of === undefined ? why : `${why}; ${of} lines ask for the whole set, and not all are named`) };
}

/** Said of one, it holds for both. */
function* matchesOf(story: Story): Slices<Map<string, Part[]>> {
  const matches = new Map<string, Part[]>();
  const put = (name: string, part: Part) => {
    const list = matches.get(name);
    if (list === undefined) matches.set(name, [part]);
    else if (!list.includes(part)) list.push(part);
  };
  let n = 0;
  for (const part of story.job.things.values()) {
    if (++n % someAtOnce === 0) yield;
    if (part.kind !== "part") continue;
    for (const name of part.matchedWith) {
      const other = story.job.things.get(name.text);
      if (other?.kind !== "part" || other === part) continue;
      put(part.name, other);
      put(other.name, part);
    }
  }
  return matches;
}
