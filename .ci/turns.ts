// Measures how long the server lets nothing else in: the longest round of its event loop while each kind of sheet, at its full size, is opened, typed in, broken, pasted over, changed
// on the disk, closed. It prints; it asserts nothing, for a time depends on the machine (`tests/house/growth.test.ts` counts steps instead). Words choose the kinds whose names hold one of
// them, a number says how often each is gone through: of as many runs the shortest counts, for what else the machine does makes rounds longer and none shorter. `why` tells besides what the
// longest round was spent on; for readable names: SPLITPIN_NAMES=1 npm run build.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { mostFiles, mostLinesInAll, mostLinesLookedAt } from "../server/model/largest.ts";
import { growths, largestRead } from "../tests/house/growth.ts";
import { longSheet } from "../tests/server/long-sheet.ts";
import { type Range, type Wire, startServer } from "../tests/server/wire.ts";

const root = fileURLToPath(new URL("../", import.meta.url));
const isWhy = process.argv.includes("why");
const runs = Number(process.argv.slice(2).find((it) => /^\d+$/.test(it)) ?? 1);
const words = process.argv.slice(2).filter((it) => it !== "why" && !/^\d+$/.test(it));
/** In milliseconds. What is over the second is told by itself at the end. */
const [aim, most] = [25, 50];

interface Kind {
  readonly name: string;
  readonly text: () => string;
  /** What lies beside it, by name. */
  readonly beside?: () => Readonly<Record<string, string>>;
}

interface Round {
  readonly milliseconds: number;
  readonly at: number;
}

/** Takes `n` apart into sheets that each use the next. */
const chain = (n: number, last = "") =>
  Object.fromEntries(Array.from({ length: n }, (_, i) => [`u${i}.jobsheet`, `${i < n - 1 ? `use "u${i + 1}.jobsheet"` : last}\npart p${i} "P"\n`]));
const listOf = (rows: number, from = 0) =>
  `item,number,maker's number,price,pack\n${Array.from({ length: rows }, (_, i) => `,N${from + i},M${i},${1 + (i % 90)}.50 GBP,1`).join("\n")}\n`;
const suppliers = (n: number) =>
  Array.from({ length: n }, (_, i) => `supplier s${i} "S"\n  currency GBP\n  prices "l${i}.csv"\npart p${i} "P"\n  number "M${i}"\nneed p${i} 2 "w"\n`).join(
    "",
  );

const kinds: readonly Kind[] = [
  ...growths.map((it) => {
    const n = largestRead(it);
    const { prices } = it;
    return { name: it.name, text: () => it.sheet(n), ...(prices === undefined ? {} : { beside: () => ({ "list.csv": prices(n) }) }) };
  }),
  ...["lines of nothing but comment", "rows of one measure", "measures of one limit", "broken lines", "a lot split by its faults"].flatMap((name) => {
    const growth = growths.find((it) => it.name === name);
    if (growth === undefined) return [];
    const longest = { ...growth, full: mostLinesLookedAt };
    return [{ name: `only looked at: ${name}`, text: () => growth.sheet(largestRead(longest, mostLinesLookedAt)) }];
  }),
  { name: "a job of years", text: () => longSheet(10_000) },
  {
    name: "six price lists",
    text: () => `sheet "S"\n${suppliers(6)}`,
    beside: () => Object.fromEntries(Array.from({ length: 6 }, (_, i) => [`l${i}.csv`, listOf(100_000, i * 7)])),
  },
  { name: "a price list all wrong", text: () => `sheet "S"\n${suppliers(1)}`, beside: () => ({ "l0.csv": listOf(100_000).replaceAll(".50 GBP", ",50 £") }) },
  {
    name: "sheets of a job",
    text: () => `sheet "S"\n${Array.from({ length: mostFiles }, (_, i) => `use "u${i}.jobsheet"`).join("\n")}\n`,
    beside: () =>
      Object.fromEntries(
        Array.from({ length: mostFiles }, (_, i) => [
          `u${i}.jobsheet`,
          Array.from({ length: Math.floor(mostLinesInAll / mostFiles) - 2 }, (_, j) => `part p${i}-${j} "P"\n`).join(""),
        ]),
      ),
  },
  {
    name: "a used sheet as long as the rest",
    text: () => `sheet "S"\nuse "u0.jobsheet"\n${longSheet(4000).replaceAll("roller", "drum").replaceAll("float", "play")}`,
    beside: () => ({ "u0.jobsheet": longSheet(10_000) }),
  },
  { name: "sheets each using the next", text: () => 'sheet "S"\nuse "u0.jobsheet"\n', beside: () => chain(32) },
  { name: "sheets in a circle", text: () => 'sheet "S"\nuse "u0.jobsheet"\n', beside: () => chain(30, 'use "u0.jobsheet"') },
  {
    name: "sheets of one machine, released",
    text: () => `${longSheet(400)}release by "B" 2026-05-01\n`,
    beside: () => Object.fromEntries(Array.from({ length: 200 }, (_, i) => [`other-${i}.jobsheet`, longSheet(200)])),
  },
];

const over: string[] = [];
for (const kind of kinds) if (words.length === 0 || words.some((it) => kind.name.includes(it))) await measured(kind);
console.log(over.length === 0 ? `\nnone over ${most} ms` : `\nover ${most} ms:\n${over.map((it) => `  ${it}`).join("\n")}`);

async function measured(kind: Kind): Promise<void> {
  const longest = await longestIn(kind);
  for (let i = 1; i < runs; i++) {
    const again = await longestIn(kind);
    for (const [what, was] of longest) longest.set(what, Math.min(was, again.get(what) ?? 0));
  }
  const worst = Math.max(0, ...longest.values());
  const steps = [...longest].map(([what, milliseconds]) => `${what} ${milliseconds.toFixed(0)}`).join(", ");
  console.log(`${worst.toFixed(0).padStart(5)}${worst > aim ? "!" : " "} ${kind.name.padEnd(52)} ${steps}`);
  for (const [what, milliseconds] of longest) if (milliseconds > most) over.push(`${milliseconds.toFixed(0).padStart(5)} ${kind.name}: ${what}`);
}

/** By what was done, the longest round of a run. */
async function longestIn({ text: make, beside }: Kind): Promise<Map<string, number>> {
  const folder = mkdtempSync(join(tmpdir(), "splitpin-turns-"));
  const put = (files: Readonly<Record<string, string>>) => {
    for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
  };
  const uri = pathToFileURL(join(folder, "s.jobsheet")).href;
  const text = make();
  const files = beside?.() ?? {};
  put(files);
  const profile = join(folder, "profile");
  // The server has it from this process.
  if (isWhy) process.env.SPLITPIN_PROFILE = profile;
  const wire = startServer({ entry: join(root, ".ci/turns-watch.mjs"), deadline: 300_000 });
  await wire.initialize([pathToFileURL(folder).href]);
  await quiet(wire);
  const longest = new Map<string, Round>();
  let version = 1;
  const step = async (what: string, work: () => void | Promise<void>) => {
    const from = wire.errors().length;
    await work();
    await quiet(wire);
    for (const [, ms, at] of wire
      .errors()
      .slice(from)
      .matchAll(/^round ([\d.]+) ([\d.]+)$/gm)) {
      const round = { milliseconds: Number(ms), at: Number(at) };
      if (round.milliseconds > (longest.get(what)?.milliseconds ?? 0)) longest.set(what, round);
    }
  };
  const change = (range: Range | undefined, by: string) => wire.change(uri, ++version, [range === undefined ? { text: by } : { range, text: by }]);
  const at = (line: number, from: number, to = from): Range => ({ start: { line, character: from }, end: { line, character: to } });

  await step("opening", () => wire.open(uri, text));
  const lines = text.split("\n");
  for (const share of [0.1, 0.98]) {
    const line = Math.floor((lines.length - 1) * share);
    const end = (lines[line] as string).length;
    await step("typing", async () => {
      for (let i = 0; i < 3; i++) {
        change(at(line, end), "x");
        await rest(30);
        change(at(line, end, end + 1), "");
        await rest(30);
      }
    });
    // Two whole checks: with a line that can't be read, and without it again.
    await step("breaking a line", () => change(at(line, 0), '" ('));
    await step("breaking a line", () => change(at(line, 0, 3), ""));
    await step("an entry in between", () => change(at(line, 0), "finding zz\n  is worn\n"));
    await step("an entry in between", () => change({ start: at(line, 0).start, end: at(line + 2, 0).start }, ""));
  }
  const all = { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } };
  await step("pasting over all", () => change(all, `# again\n${text}`));
  await step("pasting over all", () => change(undefined, text));
  await step("pasting over all", () => change(all, ""));
  await step("pasting over all", () => change(all, text));
  for (const file of ["s.jobsheet", ...Object.keys(files).slice(0, 1)]) {
    await step("changed on the disk", () => {
      put({ [file]: `${files[file] ?? text}\n` });
      wire.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: pathToFileURL(join(folder, file)).href, type: 2 }] });
    });
  }
  await step("another sheet, closed", async () => {
    const other = pathToFileURL(join(folder, "other.jobsheet")).href;
    wire.open(other, 'use "s.jobsheet"\n');
    await quiet(wire);
    wire.notify("textDocument/didClose", { textDocument: { uri: other } });
  });
  await step("closing, opening", async () => {
    wire.notify("textDocument/didClose", { textDocument: { uri } });
    wire.open(uri, text);
  });
  await wire.stop();
  if (isWhy) for (const [what, round] of longest) if (round.milliseconds > aim) why(profile, what, round);
  rmSync(folder, { recursive: true, force: true });
  return new Map([...longest].map(([what, it]) => [what, it.milliseconds]));
}

/** Until nothing goes on in the server, and nothing waits for a pause of its writer. */
async function quiet(wire: Wire): Promise<void> {
  await rest(200);
  const deadline = Date.now() + 120_000;
  while (wire.errors().lastIndexOf("busy\n") > wire.errors().lastIndexOf("quiet\n")) {
    if (Date.now() > deadline) throw new Error("the server does not come to rest");
    await rest(20);
  }
}

function rest(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}

interface Profile {
  readonly nodes: readonly {
    readonly id: number;
    readonly callFrame: { readonly functionName: string; readonly lineNumber: number };
    readonly children?: readonly number[];
  }[];
  readonly startTime: number;
  readonly samples: readonly number[];
  readonly timeDeltas: readonly number[];
}

/** The functions that most of a round was spent in, what they call counted with them. */
function why(file: string, what: string, { milliseconds, at }: Round): void {
  const profile = JSON.parse(readFileSync(file, "utf8")) as Profile;
  const nodes = new Map(profile.nodes.map((it) => [it.id, it]));
  const above = new Map(profile.nodes.flatMap((it) => (it.children ?? []).map((child) => [child, it.id] as const)));
  // The profile counts from the machine's own beginning, which this process knows too.
  const to = at * 1000 - (Date.now() * 1000 - Number(process.hrtime.bigint() / 1000n));
  const within = new Map<string, number>();
  const itself = new Map<string, number>();
  let time = profile.startTime;
  for (const [i, sample] of profile.samples.entries()) {
    const took = profile.timeDeltas[i + 1] ?? 0;
    time += profile.timeDeltas[i] ?? 0;
    if (time < to - milliseconds * 1000 || time > to) continue;
    const seen = new Set<string>();
    for (let id: number | undefined = sample; id !== undefined; id = above.get(id)) {
      const { functionName, lineNumber } = nodes.get(id)?.callFrame ?? { functionName: "?", lineNumber: 0 };
      const name = functionName === "" ? `(line ${lineNumber + 1})` : functionName;
      if (seen.size === 0) itself.set(name, (itself.get(name) ?? 0) + took);
      if (!seen.has(name)) within.set(name, (within.get(name) ?? 0) + took);
      seen.add(name);
    }
  }
  const most = (of: Map<string, number>, n: number) =>
    [...of]
      .sort(([, a], [, b]) => b - a)
      .slice(0, n)
      .map(([name, took]) => `${name} ${(took / 1000).toFixed(1)}`)
      .join(", ");
  console.log(`      ${what}: ${most(within, 24)}\n        by themselves: ${most(itself, 10)}`);
}
