// Measures what a person waits for: keystroke to diagnostics through the real server, the start, the parts of the packages.
// It prints; it asserts nothing, for a time depends on the machine. `npm run bench short` tries each less often, for a look on each push.
import { existsSync, readFileSync, readdirSync, statSync } from "node:fs";
import { cpus } from "node:os";
import { fileURLToPath, pathToFileURL } from "node:url";
import { benchOrder } from "./bench-order.ts";
import { longSheet } from "../tests/server/long-sheet.ts";
import { type Wire, startServer } from "../tests/server/wire.ts";

const root = fileURLToPath(new URL("../", import.meta.url));
const uri = "file:///bench/long.jobsheet";
const lines = 10_000;
/** How often, of as often as it takes to tell two commits apart. */
const often = (runs: number) => (process.argv.includes("short") ? Math.ceil(runs / 4) : runs);

interface Edit {
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** When the first list came since the last edit. */
let arrived: number | undefined;

console.log(`Node ${process.versions.node}, ${cpus().length} × ${cpus()[0]?.model ?? "?"}\n`);
await coldStart();
await keystrokes();
await growth();
await wholeOfShort();
await wholeOfLong();
await memory();
await orderPage();
benchOrder(`${root}dist/splitpin.js`, often(3));
sizes();

/** From starting the process to the first diagnostics, of a sheet of some size. */
async function coldStart(): Promise<void> {
  for (const size of [150, lines]) {
    const text = longSheet(size);
    const times: number[] = [];
    const whole: number[] = [];
    for (let i = 0; i < often(7); i++) {
      const from = performance.now();
      const wire = startServer();
      await wire.initialize(["file:///bench"]);
      // Of a long sheet the beginning of the list comes first, and says that it is one.
      wire.onList((_uri, _list, at) => {
        if (times.length === i) times.push(at - from);
      });
      wire.open(uri, text);
      await wire.diagnostics(uri);
      whole.push(performance.now() - from);
      await wire.stop();
    }
    print(`start to first diagnostics, ${size} lines`, times);
    print("  until everything is told", whole);
  }
}

async function keystrokes(): Promise<void> {
  const text = longSheet(lines).split("\n");
  const wire = startServer();
  await wire.initialize(["file:///bench"]);
  wire.open(uri, text.join("\n"));
  await wire.diagnostics(uri);
  wire.onList((_uri, _list, at) => {
    arrived ??= at;
  });
  const draft = [...text];
  let version = 1;

  console.log(`\nkeystroke to diagnostics, ${text.length} lines, over stdio (ms)`);
  const kinds: readonly { readonly name: string; readonly at: (i: number) => Edit[] }[] = [
    { name: "digit of a reading", at: (i) => pair(lineWith(draft, /^ {2}left 0\.0/, i), 8, 9, "9", draft) },
    { name: "letter of a name", at: (i) => added(lineWith(draft, /^ {2}undo /, i), draft, "x") },
    { name: "letter of a note", at: (i) => inside(lineWith(draft, /^ {2}note /, i), draft, "x") },
    { name: "letter of a comment", at: (i) => added(lineWith(draft, /^# station/, i), draft, "x") },
    { name: "quote, which breaks the line", at: (i) => added(lineWith(draft, /^ {2}because /, i), draft, '"') },
    { name: "new line, and a note typed on it", at: (i) => newLine(lineWith(draft, /^ {2}remove /, i), draft) },
    { name: "blank line, and an entry typed on it", at: (i) => newEntry(lineWith(draft, /^$/, i), draft) },
    { name: "entry keyword broken", at: (i) => pair(lineWith(draft, /^finding /, i), 0, 1, "z", draft) },
  ];
  const all: number[] = [];
  for (const kind of kinds) {
    const times: number[] = [];
    for (let i = 0; i < often(40); i++) {
      for (const edit of kind.at(i)) {
        times.push(await timed(wire, ++version, edit));
        apply(draft, edit);
      }
    }
    print(kind.name, times);
    all.push(...times);
  }
  print("all", all);
  await wire.stop();
}

/** The same letter in a sheet of 1,000 and of 100,000 lines. */
async function growth(): Promise<void> {
  console.log("\nletter of a note, by the length of the sheet (ms)");
  const middles: number[] = [];
  for (const size of [1000, 100_000]) {
    const draft = longSheet(size).split("\n");
    const wire = await opened(draft.join("\n"));
    const notes = draft.flatMap((line, at) => (/^ {2}(?:note|is worn)/.test(line) ? [at] : []));
    const times: number[] = [];
    for (let i = 0; i < often(100); i++) {
      const line = notes[(i * 37) % notes.length] as number;
      for (const edit of added(line, draft, "x")) {
        times.push(await timed(wire, times.length + 2, edit));
        apply(draft, edit);
      }
    }
    print(`${size} lines`, times);
    middles.push(middleOf(times));
    await wire.stop();
  }
  console.log(`  ${"100,000 lines against 1,000, p50".padEnd(44)} ${((middles[1] as number) / (middles[0] as number)).toFixed(2)}`);
}

async function opened(text: string, at = uri): Promise<Wire> {
  const wire = startServer({ deadline: 600_000 });
  await wire.initialize(["file:///bench"]);
  wire.onList((_uri, _list, time) => {
    arrived ??= time;
  });
  wire.open(at, text);
  await wire.diagnostics(at);
  return wire;
}

/**
 * A sheet that is told at once: from a line that makes it unsafe until that is said, and from taking it away until it is not. First as it is typed (two seconds after it was opened, 10 ms of
 * rest behind each list, as with the keystrokes above), then with each key at the heels of the last, from the 41st on.
 */
async function wholeOfShort(): Promise<void> {
  console.log("\neverything told, sheets of about 500 lines (ms)");
  const sample = readFileSync(`${root}samples/lorry-rear-axle/rear-axle.jobsheet`, "utf8");
  for (const [name, text, at] of [
    ["made for measuring", longSheet(500), "file:///bench/short.jobsheet"],
    ["the lorry's rear axle", sample, pathToFileURL(`${root}samples/lorry-rear-axle/rear-axle.jobsheet`).href],
  ] as const) {
    for (const isTyped of [true, false]) {
      const wire = await opened(text, at);
      const rest = isTyped ? 10 : 0;
      await new Promise((resolve) => setTimeout(resolve, isTyped ? 2000 : 0));
      const times: number[] = [];
      for (let i = 0; i < often(60); i++) for (const time of await unsafe(wire, text, at, i, rest)) times.push(time);
      if (isTyped) print(`${name}, as it is typed`, times);
      else print(`${name}, without a rest`, times.slice(often(40)));
      await wire.stop();
    }
  }
}

/** What looks at the whole of so long a sheet comes when nobody types. While that goes on, somebody asks what takes no time to answer. */
async function wholeOfLong(): Promise<void> {
  console.log(`\neverything told, ${lines} lines, with 150 ms of quiet in it (ms)`);
  const text = longSheet(lines);
  const wire = await opened(text);
  const times: number[] = [];
  const waits: number[] = [];
  let asking = true;
  const asker = (async () => {
    while (asking) {
      const from = performance.now();
      await wire.request("bench/nothing").catch(() => undefined);
      waits.push(performance.now() - from);
      await new Promise((resolve) => setTimeout(resolve, 3));
    }
  })();
  for (let i = 0; i < often(10); i++) for (const time of await unsafe(wire, text, uri, i)) times.push(time);
  asking = false;
  await asker;
  print("until the whole of it is told", times);
  print("longest turn: an answer waits for it", waits);
  await wire.stop();
}

/** Milliseconds until it is said that a jack has no chocks, and until it is said no more. */
async function unsafe(wire: Wire, text: string, at: string, i: number, rest = 0): Promise<[number, number]> {
  const rested = () => new Promise((resolve) => setTimeout(resolve, rest));
  // Near the top, for no more than the first 300 are sent.
  const line = text.split("\n").findIndex((it) => /^step /.test(it)) + 1;
  const isSaid = (list: readonly { readonly code: string; readonly range: { readonly start: { readonly line: number } } }[]) =>
    list.some((it) => it.range.start.line === line && (it.code === "chocks-missing" || it.code === "syntax"));
  const until = (said: boolean) => {
    let done = false;
    return new Promise<number>((resolve) =>
      wire.onList((_uri, list, time) => {
        if (done || isSaid(list) !== said) return;
        done = true;
        resolve(time);
      }),
    );
  };
  const from = performance.now();
  const said = until(true);
  wire.change(at, 2 * i + 2, [{ range: { start: { line, character: 0 }, end: { line, character: 0 } }, text: "  raise on jack\n" }]);
  const first = (await said) - from;
  if (rest > 0) await rested();
  const again = performance.now();
  const gone = until(false);
  wire.change(at, 2 * i + 3, [{ range: { start: { line, character: 0 }, end: { line: line + 1, character: 0 } }, text: "" }]);
  const second = (await gone) - again;
  if (rest > 0) await rested();
  return [first, second];
}

/** What the process holds (resident set), as Linux tells it. */
async function memory(): Promise<void> {
  const held = (wire: Wire) => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${wire.process.pid}/status`, "utf8"))?.[1]) / 1024;
  if (!existsSync("/proc/self/status")) return;
  console.log("\nmemory of the server (MB)");
  const row = (name: string, megabytes: number) => console.log(`  ${name.padEnd(44)} ${megabytes.toFixed(0).padStart(7)}`);
  for (const size of [150, lines]) {
    const wire = await opened(longSheet(size));
    row(`${size} lines, when they are told`, held(wire));
    await wire.stop();
  }
  const wire = await opened(longSheet(150));
  for (let i = 0; i < 120; i++) {
    const other = `file:///bench/other-${i}.jobsheet`;
    wire.open(other, longSheet(500));
    await wire.diagnostics(other);
    wire.notify("textDocument/didClose", { textDocument: { uri: other } });
  }
  await new Promise((resolve) => setTimeout(resolve, 500));
  row("150 lines, 120 sheets of 500 opened and closed", held(wire));
  await wire.stop();
}

/** From a keystroke to the page of a parts order of 300 rows, as it is sent to whoever draws it. */
async function orderPage(): Promise<void> {
  const parts = Array.from(
    { length: 300 },
    (_, i) => `part bush-${i} "Bush ${i}"\nfinding bush-${i}\n  is worn\n  decision renew\noffer bush-${i} from them\n  price ${i + 1}.50 GBP each\n`,
  );
  const text = `sheet "Many bushes"\n  currency GBP\nsupplier them "Them"\n  currency GBP\n  freight 6.00 GBP\n${parts.join("")}`;
  const wire = startServer();
  await wire.initialize(["file:///bench"]);
  wire.open(uri, text);
  await wire.diagnostics(uri);
  const lines = text.split("\n");
  const times: number[] = [];
  for (let i = 0; i < often(40); i++) {
    const line = lines.findIndex((it) => it.startsWith(`part bush-${(i * 7) % 300} `));
    const column = (lines[line] as string).length - 1;
    const from = performance.now();
    wire.change(uri, i + 2, [{ range: { start: { line, character: column }, end: { line, character: column } }, text: "x" }]);
    const answer = await wire.request<{ html: string }>("workspace/executeCommand", { command: "splitpin.order", arguments: [uri, { only: "page" }] });
    times.push(performance.now() - from);
    if (!answer.html.includes("Bush 299")) throw new Error("the order is not whole");
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  console.log("\nkeystroke to the page of the parts order, 300 rows, over stdio (ms)");
  print("letter of a part's title", times);
  await wire.stop();
}

/**
 * Milliseconds from sending an edit until its diagnostics are there. An unchanged list is not sent again, so what could be put right is asked for
 * behind the edit: the answer is made from the diagnostics of the newest text, and is the time where no list came before it.
 */
async function timed(wire: Wire, version: number, edit: Edit): Promise<number> {
  arrived = undefined;
  const from = performance.now();
  wire.change(uri, version, [{ range: { start: { line: edit.line, character: edit.from }, end: { line: edit.line, character: edit.to } }, text: edit.text }]);
  await wire.request("textDocument/codeAction", {
    textDocument: { uri },
    range: { start: { line: edit.line, character: 0 }, end: { line: edit.line, character: 0 } },
    context: { diagnostics: [] },
  });
  const until = arrived ?? performance.now();
  // The server comes to rest, as it does between the strokes of a fast typist.
  await new Promise((resolve) => setTimeout(resolve, 10));
  return until - from;
}

function lineWith(draft: readonly string[], pattern: RegExp, i: number): number {
  const found = draft.flatMap((line, at) => (pattern.test(line) ? [at] : []));
  return found[(i * 37) % found.length] as number;
}

/** Writes over some letters, and writes back what stood there. */
function pair(line: number, from: number, to: number, text: string, draft: readonly string[]): Edit[] {
  const before = (draft[line] as string).slice(from, to);
  return [
    { line, from, to, text },
    { line, from, to: from + text.length, text: before },
  ];
}

function added(line: number, draft: readonly string[], text: string): Edit[] {
  const end = (draft[line] as string).length;
  return [
    { line, from: end, to: end, text },
    { line, from: end, to: end + text.length, text: "" },
  ];
}

/** Within the text of a line, before its closing quote. */
function inside(line: number, draft: readonly string[], text: string): Edit[] {
  const at = (draft[line] as string).length - 1;
  return [
    { line, from: at, to: at, text },
    { line, from: at, to: at + text.length, text: "" },
  ];
}

function newLine(line: number, draft: readonly string[]): Edit[] {
  const end = (draft[line] as string).length;
  const out: Edit[] = [{ line, from: end, to: end, text: "\n" }];
  const typed = '  note "held"';
  for (let i = 0; i < typed.length; i++) out.push({ line: line + 1, from: i, to: i, text: typed[i] as string });
  for (let i = typed.length; i > 0; i--) out.push({ line: line + 1, from: i - 1, to: i, text: "" });
  return out;
}

/** A blank line, and on it an entry that is taken away again. */
function newEntry(line: number, draft: readonly string[]): Edit[] {
  const end = (draft[line] as string).length;
  const out: Edit[] = [{ line, from: end, to: end, text: "\n" }];
  const typed = "finding roller-1 left";
  for (let i = 0; i < typed.length; i++) out.push({ line: line + 1, from: i, to: i, text: typed[i] as string });
  for (let i = typed.length; i > 0; i--) out.push({ line: line + 1, from: i - 1, to: i, text: "" });
  return out;
}

function apply(draft: string[], edit: Edit): void {
  const line = draft[edit.line] as string;
  draft.splice(edit.line, 1, ...(line.slice(0, edit.from) + edit.text + line.slice(edit.to)).split("\n"));
}

function middleOf(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] as number;
}

function print(name: string, times: readonly number[]): void {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) => (sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] as number).toFixed(1).padStart(7);
  console.log(`  ${name.padEnd(44)} p50 ${at(0.5)}  p95 ${at(0.95)}  p99 ${at(0.99)}  worst ${at(1)}  (${times.length})`);
}

function sizes(): void {
  console.log("\nsizes (KiB)");
  const kib = (path: string) => (statSync(path).size / 1024).toFixed(0).padStart(7);
  for (const name of readdirSync(`${root}dist`)
    .filter((it) => /\.c?js$/.test(it))
    .sort())
    console.log(`  ${`dist/${name}`.padEnd(44)} ${kib(`${root}dist/${name}`)}`);
  const vsix = readdirSync(root).find((it) => it.endsWith(".vsix"));
  console.log(vsix === undefined || !existsSync(root + vsix) ? "  no .vsix: npm run package makes it" : `  ${vsix.padEnd(44)} ${kib(root + vsix)}`);
}
