// `splitpin facts`: the facts of one sheet, a line each, as `git diff` shows them.
import { basename, dirname, resolve } from "node:path";
import { readSheetFile } from "../disk/read-file.ts";
import { followed } from "../disk/write-whole.ts";
import { facts } from "../service.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";
import { visible } from "./visible.ts";

export async function factsCommand(given: Given, desk: Desk): Promise<ExitCode> {
  const [file, ...more] = given.paths;
  if (file === undefined || file === "" || more.length > 0) return refuse(desk, "facts takes one sheet.");
  const path = resolve(desk.cwd, file);
  const reading = readSheetFile(path, [dirname(followed(path))]);
  if (reading.kind !== "text") return refuse(desk, `${basename(file)} ${reading.why}.`);
  desk.out((await facts(reading.text)).split("\n").map(visible).join("\n"));
  return 0;
}
