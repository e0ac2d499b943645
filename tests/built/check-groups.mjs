// Run as a program of its own, on any Node (`sheets.test.ts` starts it): the built command line checks group after group of sheets, each as if it were started in the folder of the group.
// Words: the built door of the command line, and files with groups, as JSON. A line of JSON for each group.
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [door = "", ...lists] = process.argv.slice(2);
const { run } = await import(pathToFileURL(door).href);
for (const { cwd, paths } of lists.flatMap((it) => JSON.parse(readFileSync(it, "utf8")))) {
  const [out, err] = [[], []];
  const desk = { cwd, version: "0", colour: false, width: 100, out: (text) => void out.push(text), err: (text) => void err.push(text) };
  const code = await run(["check", ...paths, "--format", "json"], desk);
  process.stdout.write(`${JSON.stringify({ code, out: out.join(""), err: err.join("") })}\n`);
}
