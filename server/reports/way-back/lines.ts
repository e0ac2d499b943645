// Acts of one thing gathered over its places, and the words that stand in them.
import { placesOf } from "../../model/job.ts";
import { midSentence } from "../../model/titles.ts";
import type { FastenerCell, PartCell, Story } from "../../story/story.ts";
import { plain } from "../draw/plain.ts";
import type { Act } from "./acts.ts";

/** Acts of one thing gathered over its places: what is alike at several is one line. */
export class Lines {
  readonly #story: Story;
  readonly #thing: { readonly name: string };
  readonly #acts: { act: Omit<Act, "places">; places: Set<string> }[] = [];
  constructor(story: Story, thing: { readonly name: string }) {
    this.#story = story;
    this.#thing = thing;
  }

  put(act: Omit<Act, "places">, place: string): void {
    const same = this.#acts.find((it) => JSON.stringify(it.act) === JSON.stringify(act) && !it.places.has(place));
    if (same === undefined) this.#acts.push({ act, places: new Set([place]) });
    else same.places.add(place);
  }

  /** In the order in which hands do them, and the places left out where it is about all. */
  acts(): Act[] {
    const thing = this.#story.job.things.get(this.#thing.name);
    const declared = thing !== undefined && "placeKind" in thing ? placesOf(this.#story.job, thing) : [""];
    const known = this.#story.cells(this.#thing.name).map((cell) => cell.place);
    const all = declared[0] !== "" ? declared : known.length > 0 ? known : [""];
    return [...this.#acts]
      .sort((a, b) => order.indexOf(a.act.verb) - order.indexOf(b.act.verb))
      .map(({ act, places }) => ({ ...act, places: all.every((it) => places.has(it)) ? [] : [...places].filter((it) => it !== "") }));
  }
}

const order: readonly Act["verb"][] = [
  "drain",
  "repair",
  "clean",
  "support",
  "fit",
  "lower",
  "grease",
  "oil",
  "tighten",
  "let back",
  "lock",
  "fill",
  "bleed",
  "restore",
];

export function calledAt(cell: PartCell | FastenerCell): string {
  return midSentence(cell.thing, cell.place);
}

export function noted(why: readonly string[]): { note?: string } {
  return why.length === 0 ? {} : { note: why.join("; ") };
}

/** A text as a sheet writes it, made safe to print. */
export function quoted(text: string): string {
  return `"${plain(text).replace(/["\\]/g, "\\$&")}"`;
}
