// Neovim, a client that nobody here wrote: the same diagnostics arrive as the command line prints, and what else is asked for is answered.
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";
import { program } from "../server/wire.ts";

const home = mkdtempSync(join(tmpdir(), "splitpin-neovim-"));
const sheet = join(home, "pillar-drill.jobsheet");
cpSync(fileURLToPath(new URL("jobs/pillar-drill.jobsheet", import.meta.url)), sheet);
afterAll(() => rmSync(home, { recursive: true, force: true }));

interface Seen {
  readonly failure?: string;
  readonly diagnostics: readonly {
    readonly line: number;
    readonly byte: number;
    readonly endByte: number;
    readonly severity: number;
    readonly rule: string;
    readonly message: string;
  }[];
  readonly afterFix: Seen["diagnostics"];
  readonly fixed: { readonly rule: string; readonly line: number; readonly title: string };
  readonly hover: { readonly contents: { readonly value: string } };
  readonly completion: { readonly items: readonly { readonly label: string }[] };
  readonly outline: readonly { readonly name: string }[];
  readonly order: { readonly json: { readonly lines: readonly { readonly item: string; readonly toOrder: string }[] } };
  readonly text: readonly string[];
}

const severities = ["", "error", "warning", "information", "hint"];

test("Neovim shows what the command line prints, and applies a fix", () => {
  const lines = readFileSync(sheet, "utf8").split("\n");
  const undo = lines.findIndex((line) => line.startsWith("  undo spindle-nut"));
  const nvim = spawnSync("nvim", ["--headless", "--clean", "-u", "NONE", "-S", fileURLToPath(new URL("neovim.lua", import.meta.url))], {
    encoding: "utf8",
    timeout: 60_000,
    env: { ...process.env, HOME: home, NODE: process.execPath, SPLITPIN: program, SHEET: sheet, LINE: String(undo + 1), COLUMN: "8" },
  });
  const seen = JSON.parse(nvim.stdout || "{}") as Seen;
  expect(seen.failure, nvim.stderr).toBeUndefined();

  const command = spawnSync(process.execPath, [program, "check", "pillar-drill.jobsheet", "--format", "json"], { cwd: home, encoding: "utf8" });
  const printed = (
    JSON.parse(command.stdout) as { diagnostics: { line: number; column: number; endColumn: number; severity: string; rule: string; message: string }[] }
  ).diagnostics;
  // The sheet is plain ASCII, so that a byte is a column.
  const rows = (list: Seen["diagnostics"]) => list.map((it) => [it.line, it.byte + 1, it.endByte + 1, severities[it.severity], it.rule, it.message]).sort();
  expect(printed.length).toBeGreaterThan(1);
  expect(rows(seen.diagnostics)).toEqual(printed.map((it) => [it.line, it.column, it.endColumn, it.severity, it.rule, it.message]).sort());

  expect(seen.hover.contents.value).toContain("Spindle nut");
  expect(seen.completion.items.map((it) => it.label)).toContain("spindle-nut");
  expect(seen.outline.map((it) => it.name)).toContain("step strip");
  expect(seen.order.json.lines.map((it) => [it.item, it.toOrder])).toContainEqual(["top-bearing", "2"]);

  expect(seen.afterFix.filter((it) => it.rule === seen.fixed.rule && it.line === seen.fixed.line)).toEqual([]);
  expect(seen.afterFix.length).toBeLessThan(seen.diagnostics.length);
  expect(seen.text).not.toEqual(lines.slice(0, -1));
});
