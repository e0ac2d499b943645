// What is built in is passed on with its licences, in the package of the registry and in the extension's; and a package without a licence stops the build.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { noticesOf } from "../../.ci/notices.mjs";

const root = new URL("../../", import.meta.url);

test("the notices name what the programs hold, each with its text", () => {
  const page = readFileSync(new URL("dist/NOTICES.txt", root), "utf8");
  const { files } = JSON.parse(readFileSync(new URL("package.json", root), "utf8")) as { files: string[] };
  expect(files).toContain("dist/NOTICES.txt");
  // Written by hand from what the sources import, and what that imports.
  for (const name of ["chevrotain", "@chevrotain/gast", "@chevrotain/utils"]) expect(page).toMatch(new RegExp(`^${name} [\\d.]+ \\(Apache-2\\.0\\)$`, "m"));
  for (const name of ["fraction.js", "vscode-jsonrpc", "vscode-languageclient", "vscode-languageserver-protocol"])
    expect(page).toMatch(new RegExp(`^${name} [\\d.]+ \\(MIT\\)$`, "m"));
  expect(page).toContain("Apache License");
  expect(page).toContain("Permission is hereby granted, free of charge");
  // Tools of the build are not in what is built.
  expect(page).not.toMatch(/^(esbuild|vitest|typescript) /m);
});

test("a package without a licence text is refused, and so is one that names no licence", () => {
  const home = mkdtempSync(join(tmpdir(), "splitpin-notices-"));
  const folder = join(home, "node_modules/@some/where/node_modules/inner");
  mkdirSync(folder, { recursive: true });
  const inputs = ["node_modules/@some/where/node_modules/inner/lib/x.js", "server/main.ts"];
  writeFileSync(join(folder, "package.json"), '{"name":"inner","version":"1.0.0","license":"MIT"}');
  expect(() => noticesOf(`${home}/`, inputs)).toThrow("No licence text is in node_modules/@some/where/node_modules/inner");
  writeFileSync(join(folder, "NOTICE"), "Made by somebody.");
  expect(() => noticesOf(`${home}/`, inputs)).toThrow("No licence text");
  writeFileSync(join(folder, "LICENSE"), "Do as you like.");
  expect(noticesOf(`${home}/`, inputs)).toMatch(/^inner 1\.0\.0 \(MIT\)\n\nDo as you like\.\n\nMade by somebody\.$/m);
  writeFileSync(join(folder, "package.json"), '{"name":"inner","version":"1.0.0"}');
  expect(() => noticesOf(`${home}/`, inputs)).toThrow("does not say");
  rmSync(home, { recursive: true, force: true });
});
