// Puts assemblies together into one job, over the days, and gets at what is underneath.
import { type Assembly, type Builder, step } from "./build.ts";
import { random, type Random } from "./random.ts";
import { hub, linkage, pinion, spring, steeringBox } from "./road.ts";
import { bigEnds, chainBlock, gearbox, headstock, winchBrake } from "./shop.ts";
import { act, type Entry, type Step, type Story } from "./things.ts";

export const builders: Record<string, Builder> = {
  hub,
  linkage,
  spring,
  pinion,
  "steering-box": steeringBox,
  gearbox,
  "big-ends": bigEnds,
  headstock,
  "chain-block": chainBlock,
  "winch-brake": winchBrake,
};

/** A sound story on these assemblies. */
export function soundStory(names: readonly string[], r: Random): Story {
  const list = names.map((name) => (builders[name] as Builder)(r));
  const road = list.some((it) => it.road);
  const story: Story = {
    title: `Simulated: ${names.join(", ")}`,
    by: "K. Roe",
    places: Object.assign({}, ...list.map((it) => it.places)),
    things: list.flatMap((it) => it.things),
    entries: weave(list, r),
    tests: list.map((it) => it.test),
    releaseDay: 14,
    manner: { indent: r.pick([2, 2, 0, 4]), comments: r.chance(0.2), datesOnLines: r.chance(0.15) },
  };
  if (road) {
    story.entries.unshift(access());
    story.entries.push(down());
  }
  return story;
}

/** The first, and now and then one or two more. */
export function somewhere(r: Random, first: string): string[] {
  const others = r.shuffled(Object.keys(builders).filter((it) => it !== first));
  return r.shuffled([first, ...others.slice(0, r.pick([0, 0, 0, 1, 1, 2]))]);
}

export const seeded = (seed: number): Random => random(seed);

function access(): Step {
  const acts = [
    { ...act("chock"), text: "rear wheels, both ways" },
    { ...act("raise"), on: "jack" },
    { ...act("support"), on: "2 stands", text: '"axle"', rated: 1500, load: 900 },
    act("under"),
  ];
  return step("get-under", "Chocked, raised, on stands", 0, acts);
}

const down = (): Step => step("get-down", "Down", 8, [act("clear"), act("lower")]);

/** Each assembly keeps its own order; they come between one another, day by day. */
function weave(list: readonly Assembly[], r: Random): Entry[] {
  const left = list.map((it) => [...it.entries]);
  const out: Entry[] = [];
  while (left.some((it) => it.length > 0)) {
    const next = Math.min(...left.filter((it) => it.length > 0).map((it) => (it[0] as Entry).day));
    const ready = left.filter((it) => it.length > 0 && (it[0] as Entry).day === next);
    out.push(r.pick(ready).shift() as Entry);
  }
  return out;
}
