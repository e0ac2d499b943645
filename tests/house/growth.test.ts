// Nothing grows faster than its input: each kind of sheet, four times as long, takes about four times the steps (`growth-count.ts` says what a step is). What grows as its square takes
// sixteen times as many. No clock is asked: the steps are the same on a machine that does much else. SPLITPIN_GROWTH=1 takes every kind at its full size, prints the seconds of the processor and
// the memory that it takes, and asks for five seconds and 300 MB: that sees too what the engine does slowly by itself.
import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { readSheetFile, readingPriceFile } from "../../server/disk/read-file.ts";
import { priceListOf } from "../../server/supply/price-list.ts";
import { thinned } from "../sampled.ts";
import { withCounters } from "./growth-counters.ts";
import { growths as all } from "./growth.ts";

/** What is linear takes four times as many; what is sorted or looked up in halves somewhat more. A square takes 16 times as many, and a square that is a tenth of the small work is over this. */
const most = 5;
/** What still grows faster, and how fast: the list may only shrink. */
const still: Readonly<Record<string, number>> = {};

/** Calls of functions in a slice: about ten milliseconds. One that grows with its sheet must be shorter at the full size; one that does not grow has always been seen to be. */
const longestSlice = 400_000;

const names = all.map((it) => it.name);
/** Every eleventh kind between two changes, and of slices every eleventh, others. */
const growths = thinned(names, 11);
const ofSlices = thinned(names, 11, 5);
/** Counted in two processes: the steps must be the same in both. */
const twice = "steps each after the one before";
const linear = "as its input";
const square = "as the square of its input";
const root = fileURLToPath(new URL("../../", import.meta.url));

let folder = "";
let counted = new Map<string, Said>();
let sliced = new Map<string, Said>();

interface Said {
  readonly name: string;
  readonly full: number;
  readonly steps: Readonly<Record<string, readonly [number, number]>>;
  readonly seconds: Readonly<Record<string, number>>;
  readonly slice: number;
  readonly slices: Readonly<Record<string, readonly [number, number]>>;
  readonly more: number;
  readonly megabytes: number;
}

beforeAll(async () => {
  // In the project, so that the solver is found among its packages.
  mkdirSync(join(root, ".cache"), { recursive: true });
  folder = realpathSync(mkdtempSync(join(root, ".cache/growth-")));
  await build({
    absWorkingDir: root,
    entryPoints: ["tests/house/growth-work.ts", "tests/house/growth-count.ts"],
    outdir: folder,
    outExtension: { ".js": ".mjs" },
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    external: ["highs"],
    // What the oldest Node has not got.
    inject: [".ci/group-by.mjs"],
  });
  const work = readFileSync(join(folder, "growth-work.mjs"), "utf8");
  writeFileSync(join(folder, "counted-work.mjs"), withCounters(work));
  [counted, sliced] = await Promise.all([
    said("count", [linear, square, twice, ...growths.filter((it) => it !== twice)]),
    said("slices", [linear, square, ...ofSlices]),
  ]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("what grows as its square is seen, and what grows as its input is let through", () => {
  expect(growthOf(linear).check).toBeLessThan(4.5);
  expect(growthOf(square).check).toBeGreaterThan(15);
});

test("steps are the same each time, whatever the machine does beside", async () => {
  const again = (await said("count", [twice])).get(twice);
  expect(Object.keys(again?.steps ?? {}).length).toBeGreaterThan(2);
  expect(again).toEqual(counted.get(twice));
});

test.each(growths)("%s", (name) => {
  const growth = growthOf(name);
  expect(Object.keys(growth)).toEqual(["check", "reports"]);
  const bound = still[name] ?? most;
  // Where it is more, each report is told by itself.
  const over = Object.values(growth).some((it) => it > bound) ? each(name) : {};
  expect(over).toEqual({});
  if (bound > most) expect(Math.max(...Object.values(growth)), "it does not grow too fast any more: take it off the list").toBeGreaterThan(most);
});

test.runIf(process.env.SPLITPIN_GROWTH === "1").each(growths)("at full size: %s", async (name) => {
  const it = (await said("measure", [name])).get(name) as Said;
  const seconds = Object.entries(it.seconds);
  console.log(
    `${name}, ${it.full}: ${seconds.map(([step, time]) => `${step} ${time.toFixed(2)}`).join(", ")}; longest slice ${it.slice.toFixed(3)}; ${Math.round(it.megabytes)} MB`,
  );
  expect(seconds.filter(([, time]) => time > 5)).toEqual([]);
  expect(it.megabytes).toBeLessThan(300);
});

test("work that is done in one slice is seen where it grows", () => {
  expect(tooLong(sliced.get(linear) as Said)).toEqual({});
  expect(tooLong(sliced.get(square) as Said)).toEqual({ check: expect.any(Number) });
});

test.each(ofSlices)("no slice of what the server does grows beyond what may keep others waiting: %s", (name) => {
  expect(tooLong(sliced.get(name) as Said)).toEqual({});
});

/** The parts of which a slice has grown as the sheet has, by how many calls it would be at the full size. */
function tooLong({ slices, more }: Said): Record<string, number> {
  return Object.fromEntries(
    Object.entries(slices).flatMap(([of, [small, large]]) => (large > 1.5 * small && large * more > longestSlice ? [[of, Math.round(large * more)]] : [])),
  );
}

test("what is too large is refused with a line that names the limit", () => {
  const said = (name: string, text: string) => {
    writeFileSync(join(folder, name), text);
    const at = join(folder, name);
    const reading = name.endsWith(".csv") ? runThrough(readingPriceFile(at, [folder])) : readSheetFile(at, [folder]);
    return reading.kind === "text" ? "read" : reading.why;
  };
  expect(said("fits.jobsheet", "#\n".repeat(11_999))).toBe("read");
  expect(said("lines.jobsheet", "#\r\n".repeat(12_000))).toBe("has 12001 lines; more than 12000 are not read: split it, and let one sheet use the other");
  expect(said("large.jobsheet", `# ${"x".repeat(5 * 1024 * 1024)}`)).toBe("has 6 MB; more than 5 MB is not read");
  expect(said("large.csv", "x".repeat(20 * 1024 * 1024 + 1))).toBe("has 21 MB; more than 20 MB is not read");
});

test("of a price list so many rows are read, and the list says where it is cut off", () => {
  const list = priceListOf({ text: `number,price\n${"N1,2.50\n".repeat(100_001)}` }, "GBP");
  expect(list.size).toBe(100_000);
  expect(list.faults.map((it) => it.line)).toEqual([100_002]);
  expect(list.faults[0]?.message).toContain("more than 100000 rows of a list are not read");
});

/** How many times as many steps four times the input takes: for reading and check, and for all reports together. */
function growthOf(name: string): Record<string, number> {
  const steps = Object.entries(counted.get(name)?.steps ?? {});
  const sum = (of: readonly (typeof steps)[number][]) => {
    const [small, large] = [0, 1].map((i) => of.reduce((all, [, it]) => all + (it[i] as number), 0)) as [number, number];
    return small > 0 ? Math.round((100 * large) / small) / 100 : 0;
  };
  const isCheck = ([step]: (typeof steps)[number]) => step === "read" || step === "check";
  return { check: sum(steps.filter(isCheck)), reports: sum(steps.filter((it) => !isCheck(it))) };
}

/** The same for each step of its own. */
function each(name: string): Record<string, number> {
  return Object.fromEntries(Object.entries(counted.get(name)?.steps ?? {}).map(([step, [small, large]]) => [step, small > 0 ? large / small : 0]));
}

async function said(mode: "count" | "slices" | "measure", names: readonly string[] = []): Promise<Map<string, Said>> {
  const child = spawn(
    process.execPath,
    [join(folder, "growth-count.mjs"), mode, join(folder, mode === "measure" ? "growth-work.mjs" : "counted-work.mjs"), ...names],
    {
      stdio: ["ignore", "pipe", "inherit"],
    },
  );
  let out = "";
  child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
  const code = await new Promise((done) => child.once("close", done));
  expect(code).toBe(0);
  return new Map(
    out
      .split("\n")
      .filter((line) => line !== "")
      .map((line) => JSON.parse(line) as Said)
      .map((it) => [it.name, it]),
  );
}
