// What a kind of mistake and a kind of harmless change are, and what several of them choose with.
import type { Chance } from "./chance.ts";
import { type Act, acts, type Deed, type Found, last, type Measured, type Seen, type Story } from "./deeds.ts";
import { everywhere, type Fastener, type Limit, type Part, placesOf } from "./plant.ts";

/** What a mistake spoilt: one of these must be named, or one of these lines pointed at. */
export interface Hurt {
  what: string[];
  deeds: Deed[];
  /** Words, where neither a thing nor a line is to be named. */
  words?: RegExp;
}

export interface Wrong {
  name: string;
  /** What it does to the machine, to the work or to the record. */
  does: string;
  /** A moment or a gauge that leaves the machine as it is: that somebody warns of it is enough. */
  warns?: boolean;
  /** Makes the mistake in the story; nothing, where this story has no room for it. */
  make(story: Story, c: Chance): Hurt | undefined;
}

export interface Harmless {
  name: string;
  does: string;
  make(story: Story, c: Chance): boolean;
}

export const hurt = (what: string | string[], ...deeds: (Deed | undefined)[]): Hurt => ({ what: [what].flat(), deeds: deeds.filter((it) => it !== undefined) });

export function pick<T>(list: readonly T[], c: Chance): T | undefined {
  return list.length === 0 ? undefined : c.one(list);
}

/** A place at which something was done to a thing; any, where nothing was. */
export function placeFor(story: Story, thing: { each: boolean; name: string }, c: Chance): string | undefined {
  if (!thing.each) return undefined;
  const worked = [...new Set(acts(story).flatMap((it) => (it.what === thing.name ? (it.at ?? []) : [])))];
  return pick(worked.length > 0 ? worked : everywhere(story.plant), c);
}

/** A fastener that came off and went back, of a sort. */
export function opened(story: Story, c: Chance, like: (it: Fastener) => boolean = () => true): Fastener | undefined {
  return pick(
    story.plant.fasteners.filter((it) => like(it) && last(story, "undo", it.name) !== undefined),
    c,
  );
}

export function someLimit(story: Story, c: Chance, like: (it: Limit) => boolean): Limit | undefined {
  return pick(story.plant.limits.filter(like), c);
}

export const readings = (story: Story, limit: string, when: Measured["when"]): Measured[] =>
  story.deeds.filter((it): it is Measured => it.do === "measure" && it.what === limit && it.when === when);

export const looks = (story: Story, check: string): Seen[] =>
  story.deeds.filter((it): it is Seen => it.do === "seen" && it.what === check && it.when === "final");

export const found = (story: Story, what: string): Found[] => story.deeds.filter((it): it is Found => it.do === "found" && it.what === what);

/** A part that came off, was found sound and went back as it was. */
export function soundPart(story: Story, c: Chance, like: (it: Part) => boolean = () => true): Part | undefined {
  return pick(
    story.plant.parts.filter(
      (it) =>
        like(it) &&
        it.renewWith === undefined &&
        acts(story).some((act) => act.do === "remove" && act.what === it.name) &&
        found(story, it.name).every((one) => one.is.join() === "serviceable") &&
        acts(story).every((act) => act.what !== it.name || (act.fresh !== true && act.do !== "repair")),
    ),
    c,
  );
}

/** Writes what was found of a part in place of that it is serviceable, after it came off. */
export function foundBad(story: Story, part: Part, at: string | undefined, is: string, decision: string | undefined): Found {
  const all = placesOf(story.plant, part);
  const bad: Found = { do: "found", what: part.name, at, is: [is], decision };
  const said = found(story, part.name);
  const off = acts(story)
    .filter((it) => it.do === "remove")
    .at(-1) as Act;
  story.deeds = story.deeds.filter((it) => !said.includes(it as Found));
  const rest: Found[] =
    part.critical === undefined ? [] : (all ?? []).filter((it) => it !== at).map((it) => ({ do: "found", what: part.name, at: it, is: ["serviceable"] }));
  story.deeds.splice(story.deeds.indexOf(off) + 1, 0, bad, ...rest);
  return bad;
}

export const sizesOf = (story: Story, part: Part): Limit[] => story.plant.limits.filter((it) => it.of === part.name && it.formula === undefined);
