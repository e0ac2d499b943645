// The deeds of each thing that there is work on, and how they are found: the first and the last of it, where it goes on, what makes it fast, what is in front of it.
import { type Relations, relationsOf } from "../../model/relations.ts";
import type { Part, Thing } from "../../model/things.ts";
import type { Story } from "../../story/story.ts";
import { type ActsDeed, type Deed, deedsOf } from "./deeds.ts";
import type { Work } from "./work.ts";

export interface DeedsByThing {
  readonly story: Story;
  readonly work: readonly Work[];
  readonly relations: Relations;
  /** In the order in which hands do them. */
  readonly lists: ReadonlyMap<string, Deed[]>;
  part(name: string): Part | undefined;
  first(name: string): Deed | undefined;
  last(name: string): Deed | undefined;
  /** The first that does one of these. */
  doing(name: string, ...verbs: readonly ActsDeed["acts"][number]["verb"][]): Deed | undefined;
  fitting(name: string): Deed | undefined;
  /** Where it goes on: a repair on the bench needs no way in. */
  entry(name: string): Deed | undefined;
  /** When that came off; -1: never. */
  since(name: string): number;
  /** All of it and of what holds it. */
  fast(name: string): (Deed | undefined)[];
  /** What is in front of a part and has work to be done on it: a part in between that stays as it is hides nothing of what is beyond. */
  nearest(thing: Part): string[];
  /** All that is in front of a thing, however far. */
  fronts(name: string): Set<string>;
}

export function deedsByThing(story: Story, work: readonly Work[]): DeedsByThing {
  const { job } = story;
  const lists = new Map(work.map((it) => [it.thing.name, deedsOf(it)]));
  const part = (name: string) => ofKind(job.things.get(name), "part");
  const doing: DeedsByThing["doing"] = (name, ...verbs) =>
    lists.get(name)?.find((it) => it.kind === "acts" && it.acts.some((act) => verbs.some((verb) => verb === act.verb)));
  const entry = (name: string) => lists.get(name)?.find((it) => it.kind === "acts" && it.acts.some((act) => act.verb !== "repair" && act.verb !== "clean"));
  const last = (name: string) => lists.get(name)?.at(-1);
  return {
    story,
    work,
    relations: relationsOf(job),
    lists,
    part,
    first: (name) => lists.get(name)?.[0],
    last,
    doing,
    fitting: (name) => doing(name, "fit"),
    entry,
    since: (name) => entry(name)?.since ?? -1,
    fast: (name) => [last(name), ...(part(name)?.heldBy ?? []).map((it) => last(it.text))],
    nearest(thing) {
      const found: string[] = [];
      const seen = new Set(thing.behind.map((it) => it.text));
      for (const name of seen) {
        if (lists.has(name)) found.push(name);
        else for (const it of part(name)?.behind ?? []) seen.add(it.text);
      }
      return found;
    },
    fronts(name) {
      const seen = new Set((part(name)?.behind ?? []).map((it) => it.text));
      for (const front of seen) for (const it of part(front)?.behind ?? []) seen.add(it.text);
      return seen;
    },
  };
}

export function ofKind<K extends Thing["kind"]>(thing: Thing | undefined, kind: K): Extract<Thing, { kind: K }> | undefined {
  return thing?.kind === kind ? (thing as Extract<Thing, { kind: K }>) : undefined;
}
