// The way back of every job that was released, from every place at which the work on it could have stopped: between two entries, and within a step.
// Written into the sheet, marked done with readings inside their limits, it releases the job. Readings are chosen by hand; their ranges stand beside them.
import { mkdtempSync, readFileSync, readdirSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { editSheet, readSheet, textOf } from "../../grammar/sheet-text.ts";
import { writingBack } from "../../server/reports/way-back/edit.ts";
import { splitpin } from "../cli/desk.ts";
import { sampleName, sampled, thinned } from "../sampled.ts";
import { markedDone } from "./marked-done.ts";
import { filesFrom } from "./sheets.ts";
import { releaseReport } from "../in-one-go.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const read = (path: string) => readFileSync(root + path, "utf8");

type Texts = Readonly<Record<string, string>>;

/** The sheet with its way back put in, as an editor would, and what was said. */
function written(text: string, others: Texts): { text: string; said: string; insert: ReturnType<typeof insertOf> } {
  const insert = insertOf(text, others);
  const edit = insert?.insert;
  if (edit === undefined) return { text, said: insert?.said ?? "", insert };
  const sheet = editSheet(readSheet(text), { startLine: edit.line, startColumn: edit.column, endLine: edit.line, endColumn: edit.column, text: edit.text });
  return { text: textOf(sheet), said: insert?.said ?? "", insert };
}

function insertOf(text: string, others: Texts) {
  return runThrough(writingBack(filesFrom({ ...others, "job.jobsheet": text }), "job.jobsheet"));
}

const jobs = [
  {
    path: "samples/steering-box/steering-box.jobsheet",
    data: "wethercote-data.jobsheet",
    // The day on which every order has come.
    day: "2026-07-04",
    // set 0.01 .. 0.06 mm, U 0.01; set max 20 mm, U 1; new 1.2500 .. 1.2510 in, U 0.0002; new 1.2490 .. 1.2495 in, U 0.0001; set 2 .. 6 mm, U 1.
    figures: { "worm-float": "0.03 mm", "wheel-play": "12 mm", "bush-bore": "1.2504 in", "shaft-diameter": "1.2493 in", "toe-in": "4 mm" },
    // Stopped between the jack and the stands, a day ended with the tractor on a jack: nothing that is done later makes that right.
    cannot: ["  support on 2 stands"],
  },
  {
    path: "tests/sheets/lathe-headstock/headstock.jobsheet",
    data: "oakham-data.jobsheet",
    day: "2026-05-10",
    // set 0.010 .. 0.030 mm, U 0.002; worn max 0.010 mm, U 0.002.
    figures: { "spindle-float": "0.020 mm", "spindle-runout": "0.004 mm" },
    cannot: [],
  },
  {
    path: "samples/drilling-machine/drill-head.jobsheet",
    data: "hallvik-data.jobsheet",
    day: "2026-03-21",
    // set 0.01 .. 0.03 mm, U 0.003; new max 0.020 mm, U 0.003; new max 0.02 mm; set 8 .. 12 mm, U 0.5.
    figures: { "spindle-float": "0.020 mm", "run-out": "0.010 mm", "quill-play": "0.010 mm", "belt-sag": "10 mm" },
    cannot: [],
  },
  // Cut off before it, nobody has written what the idler is like that the fragments are from: no way back can say so.
  { path: "tests/sheets/small/fluids-right.jobsheet", data: undefined, day: "2026-05-01", figures: {}, cannot: ["finding idler"] },
] as const;

interface Stop {
  /** The sheet up to there, on a day on which every order has come. */
  readonly text: string;
  readonly next: string;
}

/** Wherever the work could have stopped: before an entry, and before an action of a step, whose first part is then done. */
function stops(lines: readonly string[], day: string): Stop[] {
  const out: Stop[] = [];
  let head = "";
  lines.forEach((next, i) => {
    const inStep = head.startsWith("step ");
    if (/^[a-z]/.test(next)) head = next;
    const entry = /^[a-z]/.test(next);
    const action = inStep && /^ {2}(?!done|takes|tool|caution|note|photo|after|each)[a-z]/.test(next);
    if (entry || action) out.push({ next, text: `${lines.slice(0, i).join("\n")}\n${action ? "  done\n" : ""}day ${day}\n` });
  });
  return out;
}

describe.each(jobs)("$path", ({ path, data, day, figures, cannot }) => {
  const text = read(path);
  const others: Texts = data === undefined ? {} : { [data]: read(path.replace(/[^/]+$/, data)) };
  const at = text.indexOf("\nrelease ") + 1;
  const release = text.slice(at);
  const all = stops(text.slice(0, at).split("\n"), day);

  test(`from every stop it releases the job, and asked again it writes nothing (${sampleName})`, () => {
    const failed: string[] = [];
    const kept: string[] = [];
    expect(all.length).toBeGreaterThan(15);
    const known = all.filter((stop) => cannot.some((it) => stop.next.startsWith(it)));
    for (const stop of new Set([...sampled(all, 3), ...known])) {
      const planned = written(stop.text, others);
      if (insertOf(planned.text, others)?.insert !== undefined) failed.push(`${stop.next}: asked again it writes more`);
      const done = `${stop.text}${markedDone(planned.text.slice(stop.text.length), figures)}\n${release}`;
      const report = releaseReport(filesFrom({ ...others, "job.jobsheet": done }), "job.jobsheet");
      if (report?.released === true) continue;
      if (cannot.some((it) => stop.next.startsWith(it))) kept.push(stop.next);
      else failed.push(`${stop.next}: ${report?.open.map((it) => `${it.line} ${it.message}`).join("; ")}`);
    }
    expect(failed).toEqual([]);
    expect(kept).toHaveLength(cannot.length);
  });

  test("the command says so too: `splitpin release` ends with 0", async () => {
    const cwd = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-back-")));
    try {
      for (const [name, content] of Object.entries(others)) writeFileSync(join(cwd, name), content);
      const stop = all[Math.floor(all.length * 0.6)] as Stop;
      const planned = written(stop.text, others).text;
      writeFileSync(join(cwd, "job.jobsheet"), `${planned}\n${release}`);
      expect((await splitpin(["release", "job.jobsheet"], cwd)).code).toBe(1);
      writeFileSync(join(cwd, "job.jobsheet"), `${stop.text}${markedDone(planned.slice(stop.text.length), figures)}\n${release}`);
      expect(await splitpin(["release", "job.jobsheet"], cwd)).toMatchObject({ code: 0, err: "" });
    } finally {
      rmSync(cwd, { recursive: true, force: true });
    }
  });
});

const folders = ["samples", "tests/sheets"]
  .flatMap((folder) => readdirSync(root + folder).map((it) => `${folder}/${it}`))
  .filter((it) => !it.endsWith("/pictures"));

test.each(thinned(folders, 4))("%s: what is written into any sheet adds lines, changes none, and is complete", (folder) => {
  const texts: Record<string, string> = {};
  for (const name of readdirSync(root + folder)) if (name.endsWith(".jobsheet")) texts[name] = read(`${folder}/${name}`);
  for (const [name, text] of Object.entries(texts)) {
    if (!/^sheet/m.test(text)) continue;
    const { insert } = runThrough(writingBack(filesFrom(texts), name)) ?? {};
    if (insert === undefined) continue;
    const sheet = readSheet(text);
    const after = textOf(
      editSheet(sheet, { startLine: insert.line, startColumn: insert.column, endLine: insert.line, endColumn: insert.column, text: insert.text }),
    );
    const had = text.split("\n");
    // Every line that was there is there, in its order, with the new ones in one piece.
    const now = after.split("\n");
    const from = had.findIndex((line, i) => line !== now[i]);
    expect([...now.slice(0, from < 0 ? had.length : from), ...now.slice((from < 0 ? had.length : from) + now.length - had.length)].join("\n").trimEnd()).toBe(
      text.trimEnd(),
    );
    expect([name, runThrough(writingBack(filesFrom({ ...texts, [name]: after }), name))?.insert]).toEqual([name, undefined]);
  }
});

describe("where it goes", () => {
  const off = 'part hub "Hub"\nstep off "Off"\n  remove hub\n  done\n';
  test("before the release and the comment above it, with a blank line around it", () => {
    const { text } = written(`sheet "A"\n${off}\n# ---- released\nrelease by "A. Moor"\n`, {});
    expect(text).toMatch(/ {2}done\n\n# The way back[\s\S]*\n {2}fit hub\n\n# ---- released\nrelease by "A. Moor"\n$/);
  });
  test("at the end, whether the last line is ended or not, and with the sheet's own line ends", () => {
    expect(written(`sheet "A"\n${off.trimEnd()}`, {}).text).toMatch(/ {2}done\n\n# The way back[\s\S]*fit hub\n$/);
    const { text } = written(`sheet "A"\n${off}`.replaceAll("\n", "\r\n"), {});
    expect(text.replaceAll("\r\n", "")).not.toContain("\n");
  });
  test("asked again for one line more it writes that line, and its head not twice", () => {
    const { text } = written(`sheet "A"\n${off}`, {});
    const again = written(text.replace("  fit hub\n", ""), {}).text;
    expect(again.match(/# The way back/g)).toHaveLength(1);
    expect(again.match(/ {2}fit hub/g)).toHaveLength(1);
  });
  test("a nut that stands at its last slot is locked there, and never let back to be", () => {
    const nut = `sheet "A"\nfastener nut "Nut"\n  torque 40 .. 48 lbf.ft\n  locked by split pin 4 x 40 mm\nstep on "On"\n  undo nut\n  tighten nut to 46 lbf.ft\n  done\n`;
    expect(written(nut, {}).text).toMatch(/\nstep back-1 [^\n]*\n {2}lock nut new\n$/);
  });
});
