// The commands that draw a report of one job: each in every format, by name, with `--out`, and what each ends with.
import { existsSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { splitpin } from "./desk.ts";

let cwd = "";
beforeEach(() => {
  cwd = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-reports-")));
  writeFileSync(join(cwd, "a.jobsheet"), sheet);
});
afterEach(() => rmSync(cwd, { recursive: true, force: true }));

/** Every text of it tries to be more than a text: markup for a page, Markdown, a terminal's control characters, a turn of the reading direction. */
const evil = "<img src=x onerror=alert(1)> [x](javascript:1) | `y` \u001b[31m \u202e{{7*7}}</script><script>1</script>";
const sheet = `sheet "${evil}"
  machine "${evil}"
  serial "${evil}"
part hub "${evil}"
  held by hub-nut
  fits "${evil}"
  critical "${evil} wheel"
fastener hub-nut "${evil}"
  torque by feel "${evil}"
  locked by split pin 4 x 40 mm
hazard mains "${evil}"
  safe before hub-nut
gauge dial "${evil}"
  uncertainty 0.01 mm
shims cap-shims "${evil}"
  have 0.10 mm x 1
  fitted 0.10 mm x 3
limit play "${evil}"
  set 0.10 .. 0.18 mm by cap-shims
  source "${evil}"
step down "${evil}"
  safe mains "${evil}"
  undo hub-nut
  remove hub
  done
measure play found by dial
  0.25 mm
finding hub
  is worn
  decision repair "${evil}"
question q "${evil}"
  about hub-nut
pause 2026-04-01 "${evil}"
step next "${evil}"
  fit hub for now "${evil}"
`;

const commands = ["readings", "way-back", "left", "shims", "due", "history", "hand-over"] as const;

describe.each(commands)("%s", (name) => {
  test("each format is drawn, and ends with 0", async () => {
    for (const format of ["text", "md", "html", "json"]) {
      const ran = await splitpin([name, "a.jobsheet", "--format", format], cwd);
      expect([format, ran.code, ran.err]).toEqual([format, 0, ""]);
      expect(ran.out.length).toBeGreaterThan(50);
    }
  });
  test("nothing that a sheet says acts in it", async () => {
    const page = (await splitpin([name, "a.jobsheet", "--format", "html"], cwd)).out;
    expect(page).not.toMatch(/<(img|script|iframe|object|link|base)\b/i);
    // What stands in an attribute's quotes is a text: no quote of a sheet's ends it.
    expect(page.replace(/="[^"]*"/g, "=")).not.toMatch(/<[^>]*\son\w+=/i);
    expect(page).not.toMatch(/(src|href)="(?!\.\/)/);
    const markdown = (await splitpin([name, "a.jobsheet", "--format", "md"], cwd)).out;
    expect(markdown).not.toMatch(/[^\\]<(img|script)|[^\\]\[x\]\(/);
    for (const format of ["text", "md", "html"]) {
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not get through.
      expect((await splitpin([name, "a.jobsheet", "--format", format], cwd)).out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202a-\u202e]/);
    }
  });
  test("--out writes the file whole and prints nothing", async () => {
    const ran = await splitpin([name, "a.jobsheet", "--format", "json", "--out", "out.json"], cwd);
    expect([ran.code, ran.out]).toEqual([0, ""]);
    expect(JSON.parse(readFileSync(join(cwd, "out.json"), "utf8"))).toBeTypeOf("object");
  });
  test("a sheet that is not there ends with 2 and prints nothing", async () => {
    const ran = await splitpin([name, "b.jobsheet", "--out", "out.txt"], cwd);
    expect([ran.code, ran.out, existsSync(join(cwd, "out.txt"))]).toEqual([2, "", false]);
  });
  test("its help says what it takes", async () => {
    expect((await splitpin([name, "--help"], cwd)).out).toMatch(new RegExp(`^splitpin ${name} \\[(MACHINE \\| )?PATH…\\]`));
    expect((await splitpin(["--help"], cwd)).out).toMatch(new RegExp(`  splitpin ${name} \\[(MACHINE \\| )?PATH…\\]`));
  });
});

test("what the way back writes is read as a sheet, whatever the texts", async () => {
  const { out } = await splitpin(["way-back", "a.jobsheet"], cwd);
  writeFileSync(join(cwd, "a.jobsheet"), `${sheet}\n${out}`);
  const said = JSON.parse((await splitpin(["check", "a.jobsheet", "--format", "json"], cwd)).out) as { diagnostics: { rule: string; message: string }[] };
  expect(said.diagnostics.filter((it) => it.rule === "syntax").map((it) => it.message)).toEqual([]);
});

describe("a machine's history", () => {
  const sheetOf = (machine: string, title: string) => `sheet "${title}"\n  machine "${machine}"\n`;
  beforeEach(() => {
    mkdirSync(join(cwd, "jobs"));
    for (const [name, machine, title] of [
      ["jobs/one", "Vale mill", "First look"],
      ["jobs/two", "Vale mill", "Second look"],
      ["jobs/other", "Tarn lathe", "Its belts"],
    ] as const)
      writeFileSync(join(cwd, `${name}.jobsheet`), sheetOf(machine, title));
  });
  const titles = async (words: readonly string[]) => {
    const { out, code } = await splitpin(["history", ...words, "--format", "json"], cwd);
    expect(code).toBe(0);
    return (JSON.parse(out) as { machines: { sheets: { title: string }[] }[] }).machines.map((it) => it.sheets.map((sheet) => sheet.title).sort());
  };
  test("is asked for by words of its name, by one of its sheets, or by a folder for every machine in it", async () => {
    expect(await titles(["vale", "mill"])).toEqual([["First look", "Second look"]]);
    expect(await titles(["jobs/two.jobsheet"])).toEqual([["First look", "Second look"]]);
    expect((await titles(["jobs"])).sort()).toEqual([["First look", "Second look"], ["Its belts"]]);
    expect(await titles(["jobs", "tarn"])).toEqual([["Its belts"]]);
  });
  test("of a name that no sheet has is refused, and a sheet that is not there is no name", async () => {
    expect(await splitpin(["history", "jobs", "moor van"], cwd)).toMatchObject({
      code: 2,
      out: "",
      err: "splitpin: No sheet here is of a machine called “moor van”.\n",
    });
    expect((await splitpin(["history", "three.jobsheet"], cwd)).err).toContain("three.jobsheet is not there");
  });
});
