// What each step must wait for: what it says with `after`, and what the facts demand of the way down.
// Invariant: a fact makes one step wait for another only where one step alone does the thing that is waited for.
import { circlesOf } from "../plan/circles.ts";
import { relationsOf } from "../model/relations.ts";
import { type Where, where } from "../model/where.ts";
import type { Story } from "../story/story.ts";
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { memo, memoSliced } from "../model/memo.ts";

export interface Need {
  readonly step: string;
  readonly where: Where;
  readonly why: string;
  /** Said with `after`, not derived. */
  readonly written: boolean;
}

/** So many lines of steps a slice. */
const someLines = 500;

/** For each step the steps that it waits for. */
const ofStory = memoSliced(collect);

export const needsBefore: (story: Story) => ReadonlyMap<string, readonly Need[]> = ofStory.whole;

/** The same, worked out in slices. */
export const findingNeeds = (story: Story): Slices<ReadonlyMap<string, readonly Need[]>> => ofStory.sliced(story);

function* collect(story: Story): Slices<ReadonlyMap<string, readonly Need[]>> {
  const { job } = story;
  const graph = new Map<string, Need[]>();
  /** By verb and thing, the one step that does it; undefined where there are several. */
  const doers = new Map<string, Map<string, string | undefined>>();
  let n = 0;
  for (const { entry } of story.visits) {
    if (++n % someAtOnce === 0) yield;
    const name = entry.name?.text;
    if (name === undefined) continue;
    if (!graph.has(name)) graph.set(name, []);
    for (const detail of entry.details) {
      if (++n % someLines === 0) yield;
      if (detail.kind !== "action" || detail.fault !== undefined) continue;
      let things = doers.get(detail.verb);
      if (things === undefined) {
        things = new Map();
        doers.set(detail.verb, things);
      }
      for (const thing of detail.things) things.set(thing.name.text, things.has(thing.name.text) && things.get(thing.name.text) !== name ? undefined : name);
    }
  }
  const only = (verb: string, thing: string): string | undefined => doers.get(verb)?.get(thing);
  const { barredBy } = relationsOf(job);
  const had = new Map<string, Set<string>>();
  for (const { entry, file } of story.visits) {
    const name = entry.name?.text;
    const needs = name === undefined ? undefined : graph.get(name);
    if (name === undefined || needs === undefined) continue;
    const known = had.get(name) ?? new Set();
    had.set(name, known);
    const add = (step: string | undefined, at: Where, why: string, written: boolean) => {
      if (step === undefined || (step === name && !written) || known.has(step)) return;
      known.add(step);
      needs.push({ step, where: at, why, written });
    };
    for (const detail of entry.details) {
      if (++n % someLines === 0) yield;
      if (detail.fault !== undefined) continue;
      if (detail.kind === "after") {
        for (const step of detail.steps) {
          if (job.things.get(step.text)?.kind === "step" && graph.has(step.text))
            add(step.text, where(file, entry, detail.row, step.at), `\`${name}\` comes after \`${step.text}\``, true);
        }
      }
      if (detail.kind !== "action" || (detail.verb !== "remove" && detail.verb !== "undo")) continue;
      for (const thing of detail.things) {
        const it = job.things.get(thing.name.text);
        // A thing that comes off in two steps tells nothing of which must wait.
        if (it === undefined || only(detail.verb, thing.name.text) === undefined) continue;
        const at = where(file, entry, detail.row, thing.name.at);
        if (it.kind === "part") {
          for (const by of it.heldBy) add(only("undo", by.text), at, `\`${thing.name.text}\` is held by \`${by.text}\``, false);
          for (const before of it.behind) add(only("remove", before.text), at, `\`${thing.name.text}\` is behind \`${before.text}\``, false);
        }
        for (const hazard of barredBy.get(thing.name.text) ?? [])
          add(only("safe", hazard.name), at, `\`${hazard.name}\` must be safe before \`${thing.name.text}\``, false);
      }
    }
  }
  return graph;
}

const circlesIn = memo((graph: ReadonlyMap<string, readonly Need[]>) =>
  inCircles(new Map([...graph].map(([name, needs]) => [name, needs.map((it) => it.step)]))),
);

/** Whether a step waits for another, at first or at any remove, which itself waits for that step. */
export function waitsInTurn(graph: ReadonlyMap<string, readonly Need[]>, step: string, other: string | undefined): boolean {
  if (other === undefined) return false;
  const circleOf = circlesIn(graph);
  const circle = circleOf.get(step);
  return circle !== undefined && circle === circleOf.get(other);
}

/** Of names that wait for others: which circle each stands in. One that stands in none is not there. */
export function inCircles(after: ReadonlyMap<string, readonly string[]>): ReadonlyMap<string, number> {
  const names = [...after.keys()];
  const index = new Map(names.map((name, i) => [name, i]));
  const lists = [...after.values()].map((list) => list.flatMap((name) => index.get(name) ?? []));
  return new Map(circlesOf(lists).flatMap((circle, i) => circle.map((at) => [names[at] as string, i] as const)));
}
