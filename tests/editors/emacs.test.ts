// Emacs with eglot, another client that nobody here wrote: the diagnostics that the command line prints arrive there too.
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";
import { program } from "../server/wire.ts";

const home = mkdtempSync(join(tmpdir(), "splitpin-emacs-"));
const sheet = join(home, "pillar-drill.jobsheet");
cpSync(fileURLToPath(new URL("jobs/pillar-drill.jobsheet", import.meta.url)), sheet);
afterAll(() => rmSync(home, { recursive: true, force: true }));

test("eglot shows the lines that the command line prints", () => {
  const emacs = spawnSync("emacs", ["--batch", "-l", fileURLToPath(new URL("emacs.el", import.meta.url))], {
    encoding: "utf8",
    timeout: 90_000,
    env: { ...process.env, HOME: home, NODE: process.execPath, SPLITPIN: program, SHEET: sheet },
  });
  const seen = JSON.parse(emacs.stdout.split("\n@@")[1] ?? "[]") as { line: number; column: number; message: string }[];
  const command = spawnSync(process.execPath, [program, "check", "pillar-drill.jobsheet", "--format", "json"], { cwd: home, encoding: "utf8" });
  const printed = (JSON.parse(command.stdout) as { diagnostics: { line: number; column: number }[] }).diagnostics;
  expect(seen.map((it) => [it.line, it.column]).sort(), emacs.stderr).toEqual(printed.map((it) => [it.line, it.column]).sort());
});
