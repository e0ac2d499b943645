// What is looked at once more and written as a finding, for nothing is declared that is measured or seen of it.
// Invariant: what waits in the sheet to be filled in is not asked for twice.
import type { Fastener, Part } from "../../model/things.ts";
import type { Read } from "../../rules/rule.ts";
import type { Story } from "../../story/story.ts";
import type { Line } from "../draw/line.ts";

export interface ToLook {
  readonly thing: Part | Fastener;
  readonly places: readonly string[];
  /** The line that asks for it, where one of the sheet does. */
  readonly at: Line | undefined;
}

export function looksToTake(story: Story, asked: readonly (Read & { readonly at: Line | undefined })[]): ToLook[] {
  const out = new Map<string, { readonly thing: Part | Fastener; readonly places: Set<string>; readonly at: Line | undefined }>();
  for (const { name, places, at } of asked) {
    const thing = story.job.things.get(name);
    if (thing?.kind !== "part" && thing?.kind !== "fastener") continue;
    const known = out.get(name) ?? { thing, places: new Set<string>(), at };
    for (const place of places) if (!waits(story, lookLine(thing, place))) known.places.add(place);
    if (known.places.size > 0) out.set(name, known);
  }
  return [...out.values()].map((it) => ({ ...it, places: [...it.places] }));
}

/** The head of the finding that waits, behind the sign of a comment. */
export function lookLine(thing: Part | Fastener, place: string): string {
  return `finding ${thing.name}${place === "" ? "" : ` ${place}`}`;
}

function waits(story: Story, head: string): boolean {
  return story.job.own.sheet.lines.some((line) => /^\s*#\s*(.*?)\s*$/.exec(line)?.[1] === head);
}
