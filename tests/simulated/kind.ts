// A kind of story: one mistake, or a variation that means no harm. And the words to change a sound story with.
import { dayOf, finding, step } from "./build.ts";
import type { Random } from "./random.ts";
import { type Act, all, type Entry, type Fastener, type Finding, find, fresh, type Measure, type Seen, type Step, type Story, type Verb } from "./things.ts";

export interface Kind {
  name: string;
  /** What happens to the machine, or to the sheet. */
  does: string;
  /** held: it may not be released. spoken: a word at the line is enough. released: no false word. */
  gate: "held" | "spoken" | "released";
  /** The assemblies that it can happen to; one of them is in the story. */
  on: readonly string[];
  /** A warning about the matter is right, though it is released. */
  mayWarn?: boolean;
  /** A word of the language that may not be built yet: see speakable.ts. */
  needs?: string;
  make(story: Story, r: Random, on: string): Made;
}

export interface Made {
  /** Acts and entries where it may be spoken of. */
  at: number[];
  /** Things that a word elsewhere may name. */
  about: string[];
}

/** This story has no place for this kind. */
export class Unfit extends Error {}

export interface Site {
  step: Step;
  act: Act;
  i: number;
}

export function sites(story: Story, wanted: (act: Act, step: Step) => boolean, on?: string): Site[] {
  return story.entries.flatMap((it) =>
    it.is === "step" && (on === undefined || it.of === on) ? it.acts.flatMap((act, i) => (wanted(act, it) ? [{ step: it, act, i }] : [])) : [],
  );
}

/** The first act of that verb upon that thing. */
export function one(story: Story, verb: Verb, name: string): Site {
  return some(sites(story, (act) => act.verb === verb && act.names.some((it) => it.name === name))[0]);
}

/** The last. */
export function lastOne(story: Story, verb: Verb, name: string): Site {
  return some(sites(story, (act) => act.verb === verb && act.names.some((it) => it.name === name)).at(-1));
}

export function some<T>(it: T | undefined): T {
  if (it === undefined) throw new Unfit();
  return it;
}

export function drop(site: Site): void {
  site.step.acts.splice(site.step.acts.indexOf(site.act), 1);
}

/** Takes a name out of an act of several, and the act with it where it was the only one. */
export function dropName(site: Site, name: string): void {
  site.act.names = site.act.names.filter((it) => it.name !== name);
  if (site.act.names.length === 0) drop(site);
}

export function before(site: Site, ...acts: Act[]): void {
  site.step.acts.splice(site.step.acts.indexOf(site.act), 0, ...acts);
}

export function after(site: Site, ...acts: Act[]): void {
  site.step.acts.splice(site.step.acts.indexOf(site.act) + 1, 0, ...acts);
}

export function putAfter(story: Story, entry: Entry, ...entries: Entry[]): void {
  story.entries.splice(story.entries.indexOf(entry) + 1, 0, ...entries.map((it) => ({ ...it, of: entry.of, day: entry.day })));
}

export function putBefore(story: Story, entry: Entry, ...entries: Entry[]): void {
  story.entries.splice(story.entries.indexOf(entry), 0, ...entries.map((it) => ({ ...it, of: entry.of, day: entry.day })));
}

export function take(story: Story, entry: Entry): void {
  story.entries.splice(story.entries.indexOf(entry), 1);
}

export const final = (story: Story, limit: string): Measure =>
  some(story.entries.find((it): it is Measure => it.is === "measure" && it.limit === limit && it.when === "final"));
export const foundBy = (story: Story, limit: string): Measure =>
  some(story.entries.find((it): it is Measure => it.is === "measure" && it.limit === limit && it.when === "found"));
export const look = (story: Story, check: string): Seen =>
  some(story.entries.find((it): it is Seen => it.is === "seen" && it.check === check && it.when === "final"));
export const findingOf = (story: Story, name: string, condition?: RegExp): Finding =>
  some(
    story.entries.find((it): it is Finding => it.is === "finding" && it.name === name && (condition === undefined || condition.test(it.conditions.join(" ")))),
  );
export const stepNamed = (story: Story, name: string): Step => some(story.entries.find((it): it is Step => it.is === "step" && it.name === name));

export const extra = (title: string, ...acts: Act[]): Step => step(`extra-${title.toLowerCase().replace(/[^a-z]+/g, "-")}`, title, 7, acts);

/** A finding at the first, before anything is taken down. */
export function atFirst(story: Story, on: string, name: string, conditions: string[], it: Partial<Finding> = {}): Finding {
  const first = some(story.entries.find((entry) => entry.of === on));
  const made = { ...finding(name, 1, conditions, it), of: on, day: dayOf[1] as number };
  story.entries.splice(story.entries.indexOf(first), 0, made);
  return made;
}

/** Fasteners of an assembly that nobody touches. */
export const bystanders: Record<string, string> = {
  hub: "backplate-bolt",
  linkage: "idler-bolt",
  spring: "hanger-bolt",
  pinion: "carrier-bolt",
  "steering-box": "bracket-bolt",
  gearbox: "layshaft-nut",
  "big-ends": "main-bolt",
  headstock: "nose-screw",
  "chain-block": "frame-bolt",
  "winch-brake": "bed-bolt",
};
export const everywhere = Object.keys(bystanders);

export const bystander = (story: Story, on: string): Fastener => some(find(story, "fastener", some(bystanders[on])));

/** A sound torque of a fastener, halfway. */
export function middle(nut: Fastener): { n: number; unit: string; dec: number } {
  if (typeof nut.torque !== "object") throw new Unfit();
  return { n: Math.round((nut.torque.lo + nut.torque.hi) / 2), unit: nut.torque.unit, dec: 0 };
}

export const newId = fresh;
export const partsOf = (story: Story, on: string) => {
  const named = new Set(sites(story, () => true, on).flatMap((it) => it.act.names.map((name) => name.name)));
  return all(story, "part").filter((it) => named.has(it.name));
};

/** Nothing is wrong, and nothing is to be said. */
export const quiet = { at: [], about: [] };
