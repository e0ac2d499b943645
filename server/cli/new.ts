// `splitpin new`: writes a new job sheet, and a data sheet of what comes apart, into the folder that one is in.
// Invariant: no file that is there already is written over, and either all are written or none.
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { readStarts, startsFolder } from "../disk/starts.ts";
import { today } from "../disk/today.ts";
import { writeWhole } from "../disk/write-whole.ts";
import { isFileName, newSheet, titleOf } from "../service.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";

export function newCommand(given: Given, desk: Desk): ExitCode {
  const starts = readStarts();
  // A copy of the program alone has none of them: an empty list would say that there are none at all.
  if (starts.length === 0 && (given.values.list === true || given.paths.length > 0))
    return refuse(desk, `the starting assemblies are not where they belong, in ${startsFolder()}. Install Splitpin whole, or copy that folder beside it.`);
  if (given.values.list === true) {
    for (const it of starts) desk.out(`${it.name.padEnd(18)}  ${titleOf(it)}\n`);
    return 0;
  }
  const chosen = given.paths.map((name) => starts.find((it) => it.name === name));
  const unknown = given.paths.find((_, i) => chosen[i] === undefined);
  if (unknown !== undefined) return refuse(desk, `there is no starting assembly “${unknown}”. splitpin new --list has them all.`);
  const name = typeof given.values.name === "string" ? given.values.name : (given.paths[0] ?? "job");
  if (!isFileName(name)) return refuse(desk, "--name takes the name of a file without its folder: letters, digits, - and _.");
  const files = newSheet(name.replace(/\.jobsheet$/, ""), {
    matter: String(given.values.matter ?? ""),
    machine: String(given.values.machine ?? ""),
    today: today(),
    starts: chosen.filter((it) => it !== undefined),
  });
  const there = files.find((it) => existsSync(resolve(desk.cwd, it.name)));
  if (there !== undefined) return refuse(desk, `${there.name} is there already, and nothing was written. Give another --name.`);
  // The job uses the data: that is there first.
  for (const it of [...files].reverse()) {
    try {
      writeWhole(resolve(desk.cwd, it.name), it.text);
    } catch (error) {
      return refuse(desk, `${it.name} could not be written: it ${(error as Error).message}.`);
    }
  }
  for (const it of files) desk.out(`${it.name}\n`);
  desk.err("Fill in what is ___ as you find it in the maker's book; splitpin check says what is left.\n");
  return 0;
}
