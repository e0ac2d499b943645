// Sets that are renewed together: parts matched with one another, and pairs across the places of their kind.
// Invariant: a set is asked for whole or not at all; a mate that is waiting for an answer carries nothing on.
import type { Part } from "../model/things.ts";
import { midSentence } from "../model/titles.ts";
import { type Reason, placed } from "./need.ts";
import { type Slot, type Slots, placesOfThing } from "./slots.ts";
import type { Story } from "../story/story.ts";

/** Asks for the mates of every slot that is asked for or was fitted new. */
export function askMates(story: Story, slots: Slots, waits: (slot: Slot) => boolean): void {
  const matches = matchesOf(story);
  const near = new Map<Slot, readonly Slot[]>();
  const origins = [...slots.all()].filter((slot) => hasMates(slot) && !waits(slot) && (slot.asks.length > 0 || slot.fitted.length > 0));
  const direct = new Map(origins.map((slot) => [slot, [...slot.asks]]));
  for (const origin of origins) {
    const mates = matesOf(origin);
    const asks = direct.get(origin) ?? [];
    for (const mate of mates) {
      for (const ask of asks) {
        const reasons = ask.reasons.map((reason) => withMate(origin, mate, reason.where));
        mate.asks.push({ seq: ask.seq, count: mate.total, adds: false, reasons, ...(ask.echo ? { echo: true } : {}) });
      }
    }
    // Fitted new without a word of why: the mates may have been fitted new before it or after it.
    const first = origin.fitted[0];
    const told = first === undefined || [origin, ...mates].some((slot) => (direct.get(slot) ?? slot.asks).some((ask) => ask.seq < first.moment.seq));
    if (first !== undefined && !told)
      for (const mate of mates) mate.asks.push({ seq: -1, count: mate.total, adds: false, reasons: [withMate(origin, mate, first.moment.where)] });
    for (const fit of origin.fitted) {
      if (fit === first && !told) continue;
      for (const mate of mates)
        mate.asks.push({ seq: told ? fit.moment.seq : -1, count: mate.total, adds: false, reasons: [withMate(origin, mate, fit.moment.where)], echo: true });
    }
  }

  function hasMates(slot: Slot): boolean {
    return slot.thing.kind === "part" && (slot.thing.inPairs || matches.has(slot.thing.name));
  }

  /** What is renewed with a slot at first hand. In a long chain each is asked by all others of it. */
  function nextTo(slot: Slot): readonly Slot[] {
    const { thing, place } = slot;
    let list = near.get(slot);
    if (list !== undefined) return list;
    list = thing.kind !== "part" ? [] : (matches.get(thing.name) ?? []).flatMap((mate) => slots.beside(mate, place));
    if (thing.kind === "part" && thing.inPairs) list = [...list, ...placesOfThing(story, thing).map((it) => slots.at(thing, it))];
    near.set(slot, list);
    return list;
  }

  /** Everything that is renewed with a slot, however long the chain. */
  function matesOf(origin: Slot): Slot[] {
    const found = new Set<Slot>([origin]);
    for (const slot of found) for (const it of nextTo(slot)) found.add(it);
    // A pair without places is two at one: all of them are renewed.
    if (!(origin.thing.kind === "part" && origin.thing.inPairs && origin.total > 1)) found.delete(origin);
    return [...found];
  }
}

function withMate(origin: Slot, mate: Slot, where: Reason["where"]): Reason {
  const pair = origin.thing.name === mate.thing.name;
  return {
    where,
    place: mate.place,
    text: placed(
      mate.place,
      pair ? "renewed in pairs" : `renewed with its match, the ${midSentence(origin.thing, origin.place === mate.place ? "" : origin.place)}`,
    ),
  };
}

/** Said of one, it holds for both. */
function matchesOf(story: Story): Map<string, Part[]> {
  const matches = new Map<string, Part[]>();
  const put = (name: string, part: Part) => {
    const list = matches.get(name);
    if (list === undefined) matches.set(name, [part]);
    else if (!list.includes(part)) list.push(part);
  };
  for (const part of story.job.things.values()) {
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
