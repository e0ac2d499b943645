// The door for a page: the bundle runs where there is neither process nor disk, and says what the command line says.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { createContext, Script } from "node:vm";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, onTestFinished, test, vi } from "vitest";
import { firstTokensOf } from "../../.ci/first-tokens.mjs";
import type * as door from "../../server/browser/folder.ts";
import { reports } from "../../server/reports/all.ts";
import { splitpin } from "../cli/desk.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const sample = `${root}samples/bevel-drive/`;
const names = ["bevel-drive.jobsheet", "corvane-data.jobsheet"];
const out = mkdtempSync(join(tmpdir(), "splitpin-browser-"));
let page: typeof door;

beforeAll(async () => {
  const [bundle] = (
    await build({
      absWorkingDir: root,
      entryPoints: ["server/browser/folder.ts"],
      bundle: true,
      platform: "browser",
      format: "iife",
      globalName: "splitpin",
      define: { SPLITPIN_BUNDLED: "true", SPLITPIN_FIRST_TOKENS: JSON.stringify(await firstTokensOf(root)) },
      write: false,
      outdir: out,
    })
  ).outputFiles;
  // A world with what the language itself has, and nothing of Node's.
  const world = createContext({});
  new Script(bundle?.text ?? "").runInContext(world, { timeout: 60_000 });
  page = world.splitpin;
});
afterAll(() => rmSync(out, { recursive: true, force: true }));

describe("a folder in a page", () => {
  const texts = Object.fromEntries(names.map((name) => [name, readFileSync(sample + name, "utf8")]));

  test("says of the sample what the command line says", async () => {
    const { out: printed } = await splitpin(["check", ...names, "--format", "json"], sample);
    const folder = page.openFolder(texts);
    expect(JSON.parse(JSON.stringify(names.flatMap((name) => folder.check(name))))).toEqual(JSON.parse(printed).diagnostics);
    // Both take the day from the same clock, which goes past no midnight meanwhile.
    const day = "2026-06-15";
    vi.useFakeTimers({ toFake: ["Date"], now: new Date(`${day}T12:00:00Z`) });
    onTestFinished(() => void vi.useRealTimers());
    for (const { name } of reports) {
      const printed = await splitpin([name, "bevel-drive.jobsheet", "--format", "json"], sample);
      expect(JSON.parse((await folder.report(name, ["bevel-drive.jobsheet"], "json", day)) ?? ""), name).toEqual(JSON.parse(printed.out));
      expect(await folder.report(name, ["bevel-drive.jobsheet"], "html", day), name).toMatch(/^<!doctype html>/i);
    }
    expect(await folder.report("release", ["nowhere.jobsheet"], "html", day)).toBeUndefined();
    expect(await folder.report("release", ["bevel-drive.jobsheet"], "letter", day)).toBeUndefined();
    expect(await folder.report("nothing", ["bevel-drive.jobsheet"], "html", day)).toBeUndefined();
  });

  test("follows what is put in", () => {
    const folder = page.openFolder({ "a.jobsheet": 'part hub "Hub"\n' });
    expect(folder.check("a.jobsheet")).toHaveLength(0);
    folder.put("a.jobsheet", 'part hub "Hub"\npartt x "X"\n');
    expect(folder.check("a.jobsheet").map((it) => [it.rule, it.line])).toContainEqual(["syntax", 2]);
    expect(folder.check("b.jobsheet")).toHaveLength(0);
  });

  test("lays out, and answers", async () => {
    expect(page.format('part  hub "Hub"\n')).toBe('part hub "Hub"\n');
    expect((await page.ask("0.015 in in mm")).line).toMatch(/0\.381 mm/);
  });
});
