// The door for a page: the bundle runs where there is neither process nor disk, and says what the command line says.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { createContext, Script } from "node:vm";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type * as door from "../../server/browser/folder.ts";
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
      define: { SPLITPIN_BUNDLED: "true" },
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
    const order = await splitpin(["order", "bevel-drive.jobsheet", "--format", "json"], sample);
    expect(JSON.parse(folder.order(["bevel-drive.jobsheet"], "json"))).toEqual(JSON.parse(order.out));
    expect(folder.order(["bevel-drive.jobsheet"], "html")).toMatch(/^<!doctype html>/i);
    expect(folder.release("bevel-drive.jobsheet", "json")).toMatch(/"released": ?false/);
    expect(folder.release("nowhere.jobsheet", "html")).toBeUndefined();
  });

  test("follows what is put in", () => {
    const folder = page.openFolder({ "a.jobsheet": 'part hub "Hub"\n' });
    expect(folder.check("a.jobsheet")).toHaveLength(0);
    folder.put("a.jobsheet", 'part hub "Hub"\npartt x "X"\n');
    expect(folder.check("a.jobsheet").map((it) => [it.rule, it.line])).toContainEqual(["syntax", 2]);
    expect(folder.check("b.jobsheet")).toHaveLength(0);
  });

  test("lays out, and answers", () => {
    expect(page.format('part  hub "Hub"\n')).toBe('part hub "Hub"\n');
    expect(page.ask("0.015 in in mm").line).toMatch(/0\.381 mm/);
  });
});
