// The starting assemblies: each is read whole, asks for every figure and answers none, and is clean but for its blanks: alone, in a job, and two together.
import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { formatSheet } from "../../grammar/format.ts";
import { readSheet } from "../../grammar/sheet-text.ts";
import { type Start, newSheet, titleOf, together } from "../../server/features/new-sheet.ts";
import { checkFile } from "../../server/rules/check.ts";
import { program } from "../built.ts";
import { splitpin } from "../cli/desk.ts";
import { sampleName, sampled } from "../sampled.ts";

const folder = fileURLToPath(new URL("../../grammar/starts/", import.meta.url));
const starts: readonly Start[] = readdirSync(folder).map((it) => ({ name: it.replace(/\.jobsheet$/, ""), text: readFileSync(join(folder, it), "utf8") }));

function rulesOf(files: Readonly<Record<string, string>>, path: string): string[] {
  const read = (it: string) => (files[it] === undefined ? "missing" : readSheet(files[it]));
  return checkFile({ read }, path).map((it) => `${it.line + 1} ${it.rule}: ${it.message}`);
}
const saysMore = (list: readonly string[]) => list.filter((it) => !it.includes(" left-blank: "));

describe.each(starts.map((it) => [it.name, it] as const))("%s", (_, start) => {
  test("is laid out as sheets are, and says what it is for", () => {
    expect(formatSheet(start.text)).toBe(start.text);
    expect(titleOf(start)).not.toBe(start.name);
  });
  test("is clean but for its blanks, and has some", () => {
    const list = rulesOf({ "a.jobsheet": start.text }, "a.jobsheet");
    expect(saysMore(list)).toEqual([]);
    expect(list.length).toBeGreaterThan(20);
  });
  test("no figure in it but how many there are", () => {
    const figures = start.text
      .split("\n")
      .filter((it) => /^\s*(?:thread|torque|new|worn|set|spread|ovality|taper|capacity|resolution|uncertainty|range|mass)\b/.test(it));
    expect(figures.length).toBeGreaterThan(10);
    for (const line of figures) expect(line.replace(/by .*/, "")).not.toMatch(/\d/);
  });
  test("has a job to begin with that is clean but for its blanks", () => {
    const [job, data] = newSheet("a", { matter: 'Rumbles, "worse" warm', machine: "", today: "2026-05-04", starts: [start] });
    expect(job?.text).toContain('sheet "Rumbles, \\"worse\\" warm"\n  machine "___"\n');
    expect(saysMore(rulesOf({ [job?.name as string]: job?.text as string, [data?.name as string]: data?.text as string }, "a.jobsheet"))).toEqual([]);
  });
  test("each critical limit and fastener asks for its source", () => {
    for (const entry of start.text.split(/\n\n/))
      if (/^(?:limit|fastener) /.test(entry) && /\n {2}critical/.test(entry)) expect(entry).toMatch(/\n {2}source ___/);
  });
});

test(`two that declare the same share it, whichever come together (${sampleName})`, () => {
  const pairs = starts.flatMap((a) => starts.flatMap((b) => (a === b ? [] : [[a, b] as const])));
  for (const [a, b] of sampled(pairs, 4)) {
    const text = together([a, b]);
    expect([a.name, b.name, saysMore(rulesOf({ "a.jobsheet": text }, "a.jobsheet"))]).toEqual([a.name, b.name, []]);
    expect(formatSheet(text)).toBe(text);
    const heads = [...text.matchAll(/^\w+ (\S+) "/gm)].map((it) => it[1]);
    const names = [...(a.text + b.text).matchAll(/^(?:part|fastener|limit|check|hazard|gauge|fluid|shims) (\S+)/gm)].map((it) => it[1]);
    expect(new Set(names).size).toBeGreaterThan(10);
    for (const name of new Set(names)) expect([name, heads.filter((it) => it === name).length]).toEqual([name, 1]);
  }
});

describe("splitpin new", () => {
  test("writes a job and its data, never over a file", async () => {
    const here = mkdtempSync(join(tmpdir(), "splitpin-new-"));
    try {
      const ran = await splitpin(["new", "live-axle", "drum-brakes", "--machine", "Tarn lorry", "--matter", "Hub loose"], here);
      expect([ran.code, ran.out]).toEqual([0, "live-axle.jobsheet\nlive-axle-data.jobsheet\n"]);
      expect(readFileSync(join(here, "live-axle.jobsheet"), "utf8")).toContain('sheet "Hub loose"\n  machine "Tarn lorry"\n');
      expect((await splitpin(["check", "."], here)).code).toBe(0);
      writeFileSync(join(here, "kept-data.jobsheet"), "mine\n");
      const again = await splitpin(["new", "spindle", "--name", "kept"], here);
      expect(again.code).toBe(2);
      expect(existsSync(join(here, "kept.jobsheet"))).toBe(false);
      expect(readFileSync(join(here, "kept-data.jobsheet"), "utf8")).toBe("mine\n");
      for (const words of [
        ["new", "no-such"],
        ["new", "--name", "../out"],
      ])
        expect((await splitpin(words, here)).code).toBe(2);
      expect((await splitpin(["new", "--list"], here)).out.split("\n").length).toBe(starts.length + 1);
      expect((await splitpin(["new"], here)).out).toBe("job.jobsheet\n");
    } finally {
      rmSync(here, { recursive: true, force: true });
    }
  });

  test("of a program that was copied without them says where they are missed, and lists none as if there were none", () => {
    const here = mkdtempSync(join(tmpdir(), "splitpin-copied-"));
    try {
      cpSync(dirname(program), join(here, "dist"), { recursive: true });
      for (const words of [["--list"], ["spindle"]]) {
        const ran = spawnSync(process.execPath, [join(here, "dist/splitpin.js"), "new", ...words], { cwd: here, encoding: "utf8" });
        expect([ran.status, ran.stdout]).toEqual([2, ""]);
        expect(ran.stderr).toContain(join("grammar", "starts"));
      }
      expect(spawnSync(process.execPath, [join(here, "dist/splitpin.js"), "new"], { cwd: here, encoding: "utf8" }).stdout).toBe("job.jobsheet\n");
    } finally {
      rmSync(here, { recursive: true, force: true });
    }
  });
});
