// Takes away from a story all that its disagreement does not need, so that a person can read what is left.
import { disagrees } from "./compare.ts";
import { judge } from "./judge.ts";
import type { Told } from "./kinds.ts";
import type { Declared, Story } from "./things.ts";

/** The smallest story found on which machine and gate still disagree in the same way. */
export function shrink(told: Told): Told {
  const was = disagrees(told);
  if (was === undefined) return told;
  const faults = matters(told.story);
  let left = told;
  const better = (change: (story: Story) => boolean): boolean => {
    const story = structuredClone(left.story);
    if (!change(story)) return false;
    tidy(story);
    const next = { ...left, story };
    try {
      if (matters(story) !== faults || disagrees(next)?.what !== was.what) return false;
    } catch {
      return false;
    }
    left = next;
    return true;
  };
  let again = true;
  for (let round = 0; again && round < 4; round++) {
    again = false;
    for (const of of new Set(left.story.entries.map((it) => it.of))) again = better((story) => without(story, "entries", (it) => it.of === of)) || again;
    for (const kind of Object.keys(left.story.places))
      for (const place of [...(left.story.places[kind] ?? [])]) again = better((story) => withoutPlace(story, kind, place)) || again;
    for (const entry of [...left.story.entries]) again = better((story) => without(story, "entries", (it) => it.id === entry.id)) || again;
    for (const entry of left.story.entries) {
      if (entry.is !== "step") continue;
      for (const act of entry.acts) {
        again = better((story) => eachStep(story, (acts) => acts.filter((it) => it.id !== act.id))) || again;
        for (const one of act.names.length > 1 ? act.names : []) {
          again =
            better((story) =>
              eachStep(story, (acts) => acts.map((it) => (it.id === act.id ? { ...it, names: it.names.filter((name) => name.name !== one.name) } : it))),
            ) || again;
        }
      }
    }
    for (const thing of [...left.story.things])
      again = better((story) => without(story, "things", (it) => it.name === thing.name) || withoutTrace(story, thing.name)) || again;
    for (const thing of [...left.story.things]) again = better((story) => withoutTrace(story, thing.name)) || again;
  }
  return left;
}

const matters = (story: Story): string => [...new Set(judge(story).map((it) => `${it.code} ${it.name}`))].sort().join("; ");

function without<K extends "entries" | "things">(story: Story, key: K, out: (it: Story[K][number]) => boolean): boolean {
  const list = story[key] as Story[K][number][];
  const kept = list.filter((it) => !out(it));
  if (kept.length === list.length || (key === "things" && kept.length === 0)) return false;
  if (key === "entries") story.entries = kept as Story["entries"];
  else {
    const names = new Set((kept as Declared[]).map((it) => it.name));
    story.things = kept as Declared[];
    if (story.entries.some((it) => (it.is === "measure" && !names.has(it.limit)) || (it.is === "seen" && !names.has(it.check)))) return false;
  }
  return true;
}

function eachStep(
  story: Story,
  change: (acts: Extract<Story["entries"][number], { is: "step" }>["acts"]) => Extract<Story["entries"][number], { is: "step" }>["acts"],
): boolean {
  for (const it of story.entries) if (it.is === "step") it.acts = change(it.acts);
  return true;
}

/** The thing, and all that was done to it. */
function withoutTrace(story: Story, name: string): boolean {
  if (story.things.length < 2) return false;
  story.things = story.things.filter((it) => it.name !== name);
  story.entries = story.entries.filter(
    (it) => !(it.is === "measure" && it.limit === name) && !(it.is === "seen" && it.check === name) && !(it.is === "finding" && it.name === name),
  );
  return eachStep(story, (acts) => acts.map((it) => ({ ...it, names: it.names.filter((one) => one.name !== name) })));
}

function withoutPlace(story: Story, kind: string, place: string): boolean {
  const list = story.places[kind];
  if (list === undefined || list.length < 2) return false;
  story.places[kind] = list.filter((it) => it !== place);
  for (const it of story.entries) {
    if (it.is === "step") {
      it.acts = it.acts.filter((act) => act.from !== place && !(act.places?.length === 1 && act.places[0] === place));
      for (const act of it.acts) if (act.places !== undefined) act.places = act.places.filter((one) => one !== place);
      if (it.at?.includes(place) || it.doneAt?.includes(place)) return false;
    } else if (it.is === "measure") it.readings = it.readings.filter((one) => one.place !== place);
  }
  story.entries = story.entries.filter((it) => !("place" in it && it.place === place) && !(it.is === "measure" && it.readings.length === 0));
  for (const it of story.things) if (it.is === "fastener" && it.threadAt !== undefined) delete it.threadAt[place];
  return true;
}

/** What names a thing that is gone goes with it. */
function tidy(story: Story): void {
  const names = new Set(story.things.map((it) => it.name));
  const left = (list: string[]) => list.filter((it) => names.has(it));
  for (const it of story.things) {
    if (it.is === "part") {
      it.heldBy = left(it.heldBy);
      it.behind = left(it.behind);
      if (it.renew !== undefined && it.renew.length > 0 && left(it.renew).length === 0) it.renew = [];
      else if (it.renew !== undefined) it.renew = left(it.renew);
      if (it.matched !== undefined && !names.has(it.matched)) delete it.matched;
    } else if (it.is === "limit" || it.is === "check") it.of = left(it.of);
  }
  for (const entry of story.entries)
    if (entry.is === "step")
      entry.acts = entry.acts.filter((act) => act.names.length > 0 || ["chock", "raise", "support", "lower", "under", "clear"].includes(act.verb));
  const kinds = new Set(story.things.map((it) => it.each));
  for (const kind of Object.keys(story.places)) if (!kinds.has(kind)) delete story.places[kind];
}
