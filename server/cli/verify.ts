// `splitpin verify`: whether the files that a hand-over was made from are still as they were, by the digests in it.
// Invariant: nothing is read but the hand-over and what lies in the folder given.
import { readFileSync, statSync } from "node:fs";
import { relative, resolve, sep } from "node:path";
import { whyNot } from "../disk/read-file.ts";
import { openWorkspace } from "../disk/workspace.ts";
import { open } from "../service.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";
import { visible } from "./visible.ts";

/** Bytes; a page holds 40 MB of photos, written a third longer. */
const largest = 100 * 1024 * 1024;

export async function verifyCommand(given: Given, desk: Desk): Promise<ExitCode> {
  const [file, folder = ".", ...more] = given.paths;
  if (file === undefined || more.length > 0)
    return refuse(desk, "verify takes a hand-over, and the folder that it was made in; without one, the folder that you are in.");
  let page: string;
  try {
    const path = resolve(desk.cwd, file);
    if (statSync(path).size > largest) return refuse(desk, `${file} is larger than any hand-over.`);
    page = readFileSync(path, "utf8");
  } catch (error) {
    return refuse(desk, `${file} ${whyNot(error)}.`);
  }
  const workspace = openWorkspace([folder], desk.cwd);
  if (workspace.sheets.length === 0) return refuse(desk, `${folder} has no job sheets in it.`);
  // As seen from where one is, and from the folder.
  const namesOf = (path: string) => {
    const absolute = resolve(desk.cwd, workspace.shown(path));
    return [desk.cwd, resolve(desk.cwd, folder)].map((from) => relative(from, absolute).split(sep).join("/"));
  };
  const paths = workspace.sheets.map((it) => it.path);
  const verified = await open(workspace.files).verify(paths, page, namesOf);
  if (verified === undefined) return refuse(desk, `${file} has no digests in it: it is no hand-over.`);
  const words = { unchanged: "unchanged", moved: "unchanged", changed: "CHANGED", missing: "MISSING" } as const;
  for (const it of verified.files) desk.out(`${words[it.is].padEnd(10)}  ${visible(it.file)}${it.now === undefined ? "" : `, now ${visible(it.now)}`}\n`);
  const count = verified.files.length;
  const changed = verified.files.filter((it) => it.is === "changed" || it.is === "missing").length;
  desk.out(
    changed === 0
      ? `All ${count} are as they were when the hand-over was made.\n`
      : `${changed} of ${count} are not as they were when the hand-over was made.\n`,
  );
  for (const it of verified.newer) desk.out(`New since: ${visible(workspace.shown(it))}, a sheet of the same machine that is not in the hand-over.\n`);
  return changed === 0 ? 0 : 1;
}
