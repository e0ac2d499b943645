// What waits for the machine to be raised, supported or let down: as the sheet is written.
// Invariant: says what should come first; whether that closes a circle is for the one who asks.
import type { Where } from "../model/where.ts";
import { plannedOf } from "../story/planned.ts";
import type { FastenerMoment, Moment, PartMoment, Story, Visit } from "../story/story.ts";

const takesApart = new Set(["undo", "slacken", "remove"]);
const works = new Set([...takesApart, "fit", "tighten", "lock"]);

/**
 * Nothing is taken apart before the machine is raised and supported, where that is written first; it is let down when what was written above is done,
 * and what is written below is done on the ground.
 */
export function carried(story: Story, rather: (later: Visit, first: Visit, why: string, at: Where) => void): void {
  const changes = story.support.filter((it): it is typeof it & { readonly visit: Visit } => it.phase === "planned" && it.visit !== undefined);
  if (changes.length === 0) return;
  for (let i = 1; i < changes.length; i++) {
    const [first, later] = [changes[i - 1], changes[i]] as [(typeof changes)[number], (typeof changes)[number]];
    rather(later.visit, first.visit, "it bears the machine first", later.where);
  }
  const moments = [...story.parts, ...story.fasteners].flatMap((cell) => plannedOf<PartMoment | FastenerMoment>(cell)).filter((it) => works.has(it.verb));
  moments.sort((a, b) => a.seq - b.seq);
  let next = 0;
  let last: (typeof changes)[number] | undefined;
  let above: typeof moments = [];
  for (const it of moments) {
    for (; next < changes.length && (changes[next] as Moment).seq < it.seq; next++) reached(changes[next] as (typeof changes)[number]);
    if (last !== undefined && (last.verb === "lower" || takesApart.has(it.verb))) rather(it.visit, last.visit, words[last.verb], it.where);
    above.push(it);
  }
  for (; next < changes.length; next++) reached(changes[next] as (typeof changes)[number]);

  function reached(change: (typeof changes)[number]): void {
    if (change.verb === "lower") {
      for (const visit of new Set(above.map((it) => it.visit))) rather(change.visit, visit, "it is done before the machine is let down", change.where);
      above = [];
    }
    last = change;
  }
}

const words: Readonly<Record<Story["support"][number]["verb"], string>> = {
  chock: "the machine is chocked first",
  raise: "the machine is raised first",
  support: "the machine is supported first",
  "set-down": "what hangs is set down first",
  under: "somebody is underneath from there on",
  clear: "nobody is underneath any more",
  lower: "the machine is let down first",
};

/** The planned moments at which the machine is let down. */
export function lowered(story: Story): (Moment & { readonly visit: Visit })[] {
  return story.support.filter((it): it is typeof it & { readonly visit: Visit } => it.phase === "planned" && it.verb === "lower" && it.visit !== undefined);
}
