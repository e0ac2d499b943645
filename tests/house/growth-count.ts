// Run as a program of its own (`growth.test.ts` starts it): counts how many steps the work on a sheet takes, or measures it. Words: `count` or `slices` or `measure`, the bundle
// of `growth-work.ts`, with counters in it where it is counted, and names of kinds (none: all). A line of JSON for each kind.
//
// A step is one call of a function of our program, or one turn of a loop, counted by the program itself (`growth-counters.ts`): the same number on every machine, however busy. What the engine
// does by itself within one step (indexOf, sort, concat, a pattern that goes back and forth) is one step however long it takes: that is seen by `measure` only.
import { pathToFileURL } from "node:url";
import { loadSolver } from "../../server/disk/load-solver.ts";

const [mode, bundle = "", ...names] = process.argv.slice(2);
const {
  kinds,
  taken = () => ({ calls: 0, turns: 0 }),
}: typeof import("./growth-work.ts") & { readonly taken?: () => { readonly calls: number; readonly turns: number } } = await import(pathToFileURL(bundle).href);

const all = kinds(loadSolver);
// In the order in which they were named.
for (const kind of names.length === 0 ? all : names.flatMap((name) => all.filter((it) => it.name === name))) {
  const said = mode === "measure" ? await measured(kind) : mode === "slices" ? longestSlices(kind) : await counted(kind);
  process.stdout.write(`${JSON.stringify({ name: kind.name, ...said })}\n`);
}

type Kind = ReturnType<typeof kinds>[number];

/** Steps at an eighth of the few and at half of them, without those that the smallest sheet takes: what does not hang on the size blurs nothing. */
async function counted(kind: Kind): Promise<{ readonly steps: Record<string, readonly [number, number]> }> {
  const n = Math.ceil(kind.few / 8);
  const works = [kind.work(1), kind.work(n), kind.work(4 * n)] as const;
  // What was counted while they were made is no step of theirs.
  taken();
  const [least, small, large] = [await stepsOf(works[0]), await stepsOf(works[1]), await stepsOf(works[2])];
  const beyond = (steps: Record<string, number>, of: string) => (steps[of] ?? 0) - (least[of] ?? 0);
  return { steps: Object.fromEntries(Object.keys(large).map((of) => [of, [beyond(small, of), beyond(large, of)] as const])) };
}

async function stepsOf(work: ReturnType<Kind["work"]>): Promise<Record<string, number>> {
  const steps: Record<string, number> = {};
  await work((step) => {
    const { calls, turns } = taken();
    steps[step] = calls + turns;
  });
  return steps;
}

/** The calls in the longest slice of each part of what the server does, at half of the few and at twice as many, and how many times as many the full size is. */
function longestSlices(kind: Kind): { readonly slices: Record<string, readonly [number, number]>; readonly more: number } {
  const large = Math.min(kind.full, 2 * kind.few);
  const [small, most] = [longestOf(kind, Math.ceil(large / 4)), longestOf(kind, large)];
  return { slices: Object.fromEntries(Object.keys(most).map((of) => [of, [small[of] ?? 0, most[of] ?? 0] as const])), more: kind.full / large };
}

function longestOf(kind: Kind, n: number): Record<string, number> {
  const longest: Record<string, number> = {};
  kind.slices(n, (of) => {
    const { calls } = taken();
    if (of !== "making it") longest[of] = Math.max(longest[of] ?? 0, calls);
  });
  return longest;
}

/** Seconds of the processor for each step of the work at its full size, the longest slice of the check, and the most memory that the process had. */
async function measured(
  kind: Kind,
): Promise<{ readonly full: number; readonly seconds: Record<string, number>; readonly slice: number; readonly megabytes: number }> {
  const { full } = kind;
  const seconds: Record<string, number> = {};
  const work = kind.work(full);
  let [slice, begun] = [0, cpu()];
  let sliceBegun = begun;
  await work(
    (step) => {
      seconds[step] = cpu() - begun;
      begun = sliceBegun = cpu();
    },
    () => {
      slice = Math.max(slice, cpu() - sliceBegun);
      sliceBegun = cpu();
    },
  );
  return { full, seconds, slice, megabytes: process.resourceUsage().maxRSS / 1000 };
}

function cpu(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
