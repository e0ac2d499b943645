#!/usr/bin/env node
// Starts the bundled program from what this Node compiled of it when it was built, for reading a megabyte of source takes longer than a check.
// Invariant: runs the program that stands beside it and no other; without anything compiled it starts as well, only slower.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { compiledOf, runScript, scriptOf } from "./script.ts";

declare const SPLITPIN_PROGRAM: string;

const program = fileURLToPath(new URL(SPLITPIN_PROGRAM, import.meta.url));
runScript(scriptOf(program, read(compiledOf(program))), program);

function read(path: string): Buffer | undefined {
  try {
    return readFileSync(path);
  } catch {
    return undefined;
  }
}
