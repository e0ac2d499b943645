// Every kind of story, and a story of a kind from a seed.
import { harmless } from "./harmless.ts";
import { type Kind, type Made, Unfit } from "./kind.ts";
import { mistakesWithFasteners } from "./mistakes-fasteners.ts";
import { mistakesWithTheMachine } from "./mistakes-machine.ts";
import { mistakesWithParts } from "./mistakes-parts.ts";
import { mistakesWithReadings } from "./mistakes-readings.ts";
import { seeded, somewhere, soundStory } from "./story.ts";
import type { Story } from "./things.ts";

export const kinds: readonly Kind[] = [...mistakesWithFasteners, ...mistakesWithParts, ...mistakesWithReadings, ...mistakesWithTheMachine, ...harmless];

export interface Told {
  kind: Kind;
  seed: number;
  story: Story;
  made: Made;
  on: string;
}

export function tell(kind: Kind, seed: number): Told {
  const r = seeded(seed * 7919 + hash(kind.name));
  for (let tries = 0; tries < 60; tries++) {
    const on = r.pick(kind.on);
    const story = soundStory(somewhere(r, on), r);
    try {
      return { kind, seed, story, made: kind.make(story, r, on), on };
    } catch (error) {
      if (!(error instanceof Unfit)) throw error;
    }
  }
  throw new Error(`No story of kind ${kind.name} from seed ${seed}`);
}

function hash(text: string): number {
  let n = 0;
  for (const letter of text) n = (Math.imul(n, 31) + (letter.codePointAt(0) ?? 0)) >>> 0;
  return n;
}
