// Tells one story of a kind, asks the gate, and says whether both agree.
import { templates } from "./assemblies.ts";
import { type Chance, chance } from "./chance.ts";
import type { Story } from "./deeds.ts";
import { judged, type Verdict } from "./gate.ts";
import { harmlessCures } from "./harmless-cures.ts";
import { harmlessHands } from "./harmless-hands.ts";
import { harmlessReadings } from "./harmless-readings.ts";
import type { Harmless, Hurt, Wrong } from "./kind.ts";
import { carefulStory } from "./mechanic.ts";
import { type Sheet, write } from "./pen.ts";
import { titleOf } from "./plant.ts";
import { wrongFasteners } from "./wrong-fasteners.ts";
import { wrongMixups } from "./wrong-mixups.ts";
import { wrongParts } from "./wrong-parts.ts";
import { wrongReadings } from "./wrong-readings.ts";
import { wrongWork } from "./wrong-work.ts";

export const wrongs: Wrong[] = [...wrongFasteners, ...wrongParts, ...wrongReadings, ...wrongWork, ...wrongMixups];
export const harmless: Harmless[] = [...harmlessHands, ...harmlessCures, ...harmlessReadings];

/** `right`: the gate agrees. `released`: a mistake went through. `unspoken`: held, and the mistake is spoken of nowhere. `held`: a sound machine was held. */
export type Outcome = "right" | "released" | "unspoken" | "held";

export interface Told {
  outcome: Outcome;
  sheet: Sheet;
  verdict: Verdict;
}

/** A story of that kind from that seed; nothing, where the machine of that seed has no room for it. */
export function told(name: string, seed: number): Told | undefined {
  const c = chance(seed);
  const template = templates[seed % templates.length];
  if (template === undefined) throw new Error("no template");
  const story = carefulStory(template(c), c);
  const wrong = wrongs.find((it) => it.name === name);
  if (wrong !== undefined) return toldWrong(story, wrong, c);
  const fair = harmless.find((it) => it.name === name);
  if (fair === undefined) throw new Error(`no kind ${name}`);
  if (!fair.make(story, c)) return undefined;
  const sheet = write(story, c);
  const verdict = judged(sheet);
  return { outcome: verdict.held ? "held" : "right", sheet, verdict };
}

function toldWrong(story: Story, wrong: Wrong, c: Chance): Told | undefined {
  const hurt = wrong.make(story, c);
  if (hurt === undefined) return undefined;
  const sheet = write(story, c);
  const verdict = judged(sheet);
  const spoken = speaks(story, sheet, hurt, verdict);
  const outcome = !verdict.held && wrong.warns !== true ? "released" : spoken ? "right" : "unspoken";
  return { outcome, sheet, verdict };
}

/** Whether an error or a warning stands on a line of the mistake, or names what it spoilt. */
function speaks(story: Story, sheet: Sheet, hurt: Hurt, verdict: Verdict): boolean {
  const lines = hurt.deeds.map((it) => sheet.lineOf.get(it)).filter((it) => it !== undefined);
  const names = hurt.what.flatMap((it) => [it, titleOf(story.plant, it).split(",")[0] as string]).map((it) => it.toLowerCase());
  return verdict.said.some((it) => {
    if (it.severity !== "error" && it.severity !== "warning") return false;
    if (hurt.words?.test(it.message)) return true;
    if (it.rule === "release-blocked") return false;
    return lines.some((line) => it.line >= line && it.line <= line + 3) || names.some((name) => it.message.toLowerCase().includes(name));
  });
}

/** The whole story, with what is said of it, for somebody to read. */
export function readable({ sheet, verdict, outcome }: Told): string {
  const files = Object.entries(sheet.files).map(
    ([name, text]) =>
      `==== ${name}\n${text
        .trimEnd()
        .split("\n")
        .map((it, i) => `${String(i + 1).padStart(4)}  ${it}`)
        .join("\n")}`,
  );
  return [...files, `==== ${outcome}`, ...verdict.said.map((it) => `${it.line + 1} ${it.severity} ${it.rule} ${it.message}`)].join("\n");
}

/** The first story of a kind from that seed on; kinds that need a rare machine look at many. */
export function nextOf(name: string, from: number): { seed: number; told: Told } | undefined {
  for (let seed = from; seed < from + 500; seed++) {
    const story = told(name, seed);
    if (story !== undefined) return { seed, told: story };
  }
  return undefined;
}
