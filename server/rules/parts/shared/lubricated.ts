// Whether what ran dry has been given oil or grease since, by a line of its own or of what it runs beside.
import { allWords } from "../../../model/titles.ts";
import { memo } from "../../../model/memo.ts";
import { wordsOf } from "../../../model/read-with.ts";
import { relationsOf } from "../../../model/relations.ts";
import type { Fastener, Fluid, Part } from "../../../model/things.ts";
import { isLubricated } from "../../../story/put-right.ts";
import { sharesWords } from "../../../story/cells.ts";
import type { FastenerMoment, PartCell, PartMoment, Story } from "../../../story/story.ts";
import { bearing, livesByGrease } from "./by-grease.ts";

const none: readonly never[] = [];

/** Anything at that place, or without one: the grease is often written of the hub. Of a bearing, what lies so near to it that its grease may be meant. */
export function isLubricatedSince(story: Story, place: string | undefined, seq: number, of?: Part, byItself = false): boolean {
  // The oil of a front axle is at its left and its right.
  const here = (at: string) => place === undefined || at === "" || place === "" || sharesWords(at, place);
  const near = of === undefined ? undefined : nearTo(story, of, byItself);
  return (
    [...story.parts, ...story.fasteners].some(
      (cell) =>
        here(cell.place) &&
        near?.has(cell.thing.name) !== false &&
        (cell.history as readonly (PartMoment | FastenerMoment)[]).some(
          (it) =>
            it.seq > seq &&
            !(of !== undefined && cell.kind === "fastener" && isOiledThread(cell.thing, it)) &&
            (isLubricated(it) || (it.action?.verb === "repair" && /\b(oil|greas|pack)(ed|ing)\b/i.test(it.action.text?.value ?? ""))),
        ),
    ) ||
    story.fluids.some(
      (cell) =>
        here(cell.place) &&
        lubricates(cell.thing, near) &&
        (of === undefined || !byItself || reaches(story, cell.thing, of)) &&
        cell.history.some((it) => it.seq > seq && it.verb === "fill"),
    )
  );
}

/** Pulled to a torque that is given for oiled threads: its oil is for that, and comes to no bearing. What is greased may be the pin on which it turns. */
function isOiledThread({ torque }: Fastener, { action }: FastenerMoment | PartMoment): boolean {
  return action?.verb === "oil" && torque?.condition === "oiled";
}

/**
 * Grease stays in the hub that it was put into, and does not come to the king pin behind it. Oil finds its way through all that hangs together, and from there to no other box. Of what nobody says
 * where it lies, it may.
 */
function reaches(story: Story, fluid: Fluid, bearing: Part): boolean {
  const touching = touchingIn(story);
  if (fluid.in.length === 0 || !touching.has(bearing.name)) return true;
  const stays = /\b(grease|nlgi)\b/iu.test(`${allWords(fluid)} ${fluid.grade ?? ""}`);
  const wet = new Set(fluid.in.map(({ text }) => text));
  const words = new Set(wordsOf(bearing.name).filter((word) => !ofAnyBearing.has(word)));
  if ([...wet].some((name) => !touching.has(name) || wordsOf(name).some((word) => words.has(word)))) return true;
  for (let edge = [...wet]; edge.length > 0 && !wet.has(bearing.name); ) {
    edge = edge.flatMap((name) => [...(touching.get(name) ?? none)]).filter((name) => !wet.has(name));
    for (const name of edge) wet.add(name);
    if (stays) break;
  }
  return wet.has(bearing.name);
}

/** What is filled in lies in bearings too, but for what brakes, cools or burns; that of a box in which it is declared to stand may be any of these. */
function lubricates(fluid: Fluid, near: ReadonlySet<string> | undefined): boolean {
  return (
    !noOil.test(`${allWords(fluid)} ${fluid.grade ?? ""}`) ||
    (near !== undefined && fluid.in.some(({ text }) => near.has(text)) && !burns.test(allWords(fluid)))
  );
}

const noOil =
  /\b((brake|clutch) (and clutch )?fluid|dot ?[345]|coolant|anti-?freeze|water|fuel|petrol|gasoline|diesel|paraffin|kerosene)\b(?! ?(pump |gallery )?oil)/i;

const burns = /\b(fuel|petrol|gasoline|diesel|paraffin|kerosene|brake fluid|dot ?[345])\b/i;

/**
 * What holds it, is before it or is behind it, and the same of these; and what nobody says where it lies. Undefined where nothing says that of the bearing. `byItself`: another bearing is
 * near by its place or by a word of its own, and not for being one.
 */
export function nearTo(story: Story, of: Part, byItself = false): ReadonlySet<string> | undefined {
  const touching = touchingIn(story);
  const near = new Set([of.name]);
  let edge = [of.name];
  for (let step = 0; step < stepsAway; step++) {
    edge = edge.flatMap((name) => [...(touching.get(name) ?? none)]).filter((name) => !near.has(name));
    for (const name of edge) near.add(name);
  }
  if (near.size === 1) return undefined;
  // A word in common says as much: `hub-nut` of `hub-bearing`.
  const words = new Set(wordsOf(of.name).filter((word) => !byItself || !ofAnyBearing.has(word)));
  const isBearing = (thing: Part | Fastener) => byItself && thing.kind === "part" && livesByGrease(thing);
  for (const { thing } of [...story.parts, ...story.fasteners])
    if ((!touching.has(thing.name) && !isBearing(thing)) || wordsOf(thing.name).some((word) => words.has(word))) near.add(thing.name);
  return near;
}

const ofAnyBearing: ReadonlySet<string> = new Set(
  "bearing bush bushing race roller cone cup ball needle brass inner outer front rear left right upper lower new".split(" "),
);

/** A bearing, its hub, and what is before or behind that: a stub, a cap. */
const stepsAway = 2;

const touchingIn = memo((story: Story): ReadonlyMap<string, ReadonlySet<string>> => {
  const all = new Map<string, Set<string>>();
  const join = (one: string, other: string) => {
    for (const [from, to] of [
      [one, other],
      [other, one],
    ] as const) {
      const known = all.get(from);
      if (known === undefined) all.set(from, new Set([to]));
      else known.add(to);
    }
  };
  for (const { thing } of story.parts) for (const { text } of [...thing.behind, ...thing.heldBy, ...thing.matchedWith]) join(thing.name, text);
  return all;
});

/** A fluid is in it, or in what lies near to it; to a plain bush it must come from there: the tapers of a hub lie in its grease, the king pin behind it does not. */
export function runsInOil(story: Story, { thing }: PartCell): boolean {
  const { fluidsIn } = relationsOf(story.job);
  const near = nearTo(story, thing) ?? new Set(story.parts.map((it) => it.thing.name));
  return [...near].some((name) => (fluidsIn.get(name) ?? []).some((fluid) => bearing.test(allWords(thing)) || reaches(story, fluid, thing)));
}
