// `splitpin verify`: whether the files that a hand-over was made from are still as they were, by the digests in it.
// Invariant: a name in the hand-over is compared and never opened: only what lies in the folder given is read.
import { readFileSync, statSync } from "node:fs";
import { relative, resolve, sep } from "node:path";
import { createHash } from "node:crypto";
import { type Workspace, openWorkspace } from "../disk/workspace.ts";
import { whyNot } from "../disk/read-file.ts";
import { checkListIn, joinPath, machineOf, sameMachine } from "../service.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";
import { visible } from "./visible.ts";

/** Bytes; a page holds 40 MB of photos, written a third longer. */
const largest = 100 * 1024 * 1024;

export async function verifyCommand(given: Given, desk: Desk): Promise<ExitCode> {
  const [file, folder = ".", ...more] = given.paths;
  if (file === undefined || more.length > 0)
    return refuse(desk, "verify takes a hand-over, and the folder that it was made in; without one, the folder that you are in.");
  let text: string;
  try {
    const path = resolve(desk.cwd, file);
    if (statSync(path).size > largest) return refuse(desk, `${file} is larger than any hand-over.`);
    text = unescaped(readFileSync(path, "utf8"));
  } catch (error) {
    return refuse(desk, `${file} ${whyNot(error)}.`);
  }
  const list = await checkListIn(text);
  if (list.length === 0) return refuse(desk, `${file} has no digests in it: it is no hand-over.`);
  const workspace = openWorkspace([folder], desk.cwd);
  const now = digestsIn(workspace, folder, desk);
  if (now.size === 0) return refuse(desk, `${folder} has no job sheets in it.`);
  const byDigest = new Map([...now].map(([name, digest]) => [digest, name]));
  let changed = 0;
  for (const it of list) {
    const digest = now.get(it.file);
    const elsewhere = byDigest.get(it.sha256);
    const says = digest === it.sha256 ? "unchanged" : digest !== undefined ? "CHANGED" : elsewhere !== undefined ? `unchanged, now ${elsewhere}` : "MISSING";
    if (says === "CHANGED" || says === "MISSING") changed++;
    desk.out(`${says.padEnd(10)}  ${visible(it.file)}\n`);
  }
  desk.out(
    changed === 0
      ? `All ${list.length} are as they were when the hand-over was made.\n`
      : `${changed} of ${list.length} are not as they were when the hand-over was made.\n`,
  );
  for (const it of newerIn(workspace, list, folder, desk)) desk.out(`New since: ${visible(it)}, a sheet of the same machine that is not in the hand-over.\n`);
  return changed === 0 ? 0 : 1;
}

/** Names that a file goes by here: from the folder given, and from where one is. */
function namesOf(absolute: string, folder: string, desk: Desk): string[] {
  return [resolve(desk.cwd, folder), desk.cwd].map((from) => relative(from, absolute).split(sep).join("/"));
}

/** Sheets of the machines that the hand-over is of, and that it does not name. */
function newerIn(workspace: Workspace, list: readonly { readonly file: string; readonly sha256: string }[], folder: string, desk: Desk): string[] {
  const files = new Set(list.map((it) => it.file));
  const digests = new Set(list.map((it) => it.sha256));
  const sheets = workspace.sheets.map((it) => {
    const sheet = workspace.files.read(it.path);
    const entry = typeof sheet === "string" ? undefined : sheet.entries.find((each) => each.kind === "sheet");
    const reading = workspace.reading(it);
    const digest = reading.kind === "text" ? createHash("sha256").update(reading.text, "utf8").digest("hex") : "";
    return { it, machine: machineOf(entry), known: digests.has(digest) || namesOf(it.absolute, folder, desk).some((name) => files.has(name)) };
  });
  return sheets.filter((one) => !one.known && sheets.some((other) => other.known && sameMachine(one.machine, other.machine))).map(({ it }) => it.shown);
}

/** Every sheet in the folder, and every photo that one names, by its path from where one is and from the folder. */
function digestsIn(workspace: Workspace, folder: string, desk: Desk): Map<string, string> {
  const digests = new Map<string, string>();
  const put = (absolute: string, bytes: Buffer) => {
    const digest = createHash("sha256").update(bytes).digest("hex");
    for (const name of namesOf(absolute, folder, desk)) digests.set(name, digest);
  };
  for (const sheet of workspace.sheets) {
    const reading = workspace.reading(sheet);
    if (reading.kind !== "text") continue;
    put(sheet.absolute, Buffer.from(reading.text, "utf8"));
    const read = workspace.files.read(sheet.path);
    if (typeof read === "string") continue;
    for (const entry of read.entries)
      for (const detail of entry.details) {
        if (detail.kind !== "photo" || detail.path === undefined) continue;
        const inside = joinPath(sheet.path, detail.path.value);
        const photo = inside === undefined ? undefined : workspace.files.photo?.(inside);
        if (inside !== undefined && photo?.kind === "photo") put(resolve(desk.cwd, workspace.shown(inside)), Buffer.from(photo.base64(), "base64"));
      }
  }
  return digests;
}

/** What a page writes for `&`, `<`, `>` and quotes, in names of files. */
function unescaped(page: string): string {
  return page.replace(/&#(\d{1,5});/g, (_, code: string) => String.fromCharCode(Number(code)));
}
