// Other sheets of the same machine in the workspace.
// Invariant: asked only for a sheet that is released; reads what a door knows of and nothing else, and of a sheet of another machine its head alone.
import type { SheetEntry } from "../../grammar/tree.ts";
import type { Slices } from "../../grammar/slices.ts";
import { headAt, sheetEntryIn } from "./files.ts";
import type { Job } from "./job.ts";

export interface Machine {
  readonly name: string | undefined;
  readonly serial: string | undefined;
}

/** Of so many sheets the heads are looked at: each is asked for whether it is as it was, at every keystroke in a sheet that is released. */
const mostSheets = 2000;

interface OtherPaths {
  readonly paths: readonly string[];
  /** So many sheets were not looked at. */
  readonly unseen: number;
}

/**
 * The sheets of the same machine (and serial, where both say one), released or not, by their paths; and those that it uses, unless both say a machine and it is another: who takes
 * the parts of another sheet for its own works on what that one was about. In slices.
 */
export function* otherSheets(job: Job): Slices<OtherPaths> {
  const machine = machineOf(job.sheet);
  const others = job.files.flatMap(({ path, sheet }) => (path !== job.path && isUnnamed(machine, sheetEntryIn(sheet)) ? [path] : []));
  if (machine.name === undefined) return { paths: others, unseen: 0 };
  const all = job.workspace.jobsheets?.() ?? [];
  for (const path of all.slice(0, mostSheets)) {
    if (path === job.path) continue;
    yield;
    const head = headAt(job.workspace, path);
    if (head !== undefined && sameMachine(machine, machineOf(head))) others.push(path);
  }
  return { paths: others, unseen: Math.max(0, all.length - mostSheets) };
}

/** A sheet, where it or the other says no machine. */
function isUnnamed(machine: Machine, sheet: SheetEntry | undefined): boolean {
  return sheet !== undefined && (machine.name === undefined || machineOf(sheet).name === undefined);
}

/** Capitals and spaces make no other machine; with the same number, nor does a name that is written out further. */
export function sameMachine(one: Machine, other: Machine): boolean {
  const [a, b] = [plain(one.name), plain(other.name)];
  const [m, n] = [plain(one.serial), plain(other.serial)];
  if (a === "" || b === "") return false;
  if (m !== "" && n !== "") return m === n && (a.startsWith(b) || b.startsWith(a));
  return a === b;
}

function plain(text: string | undefined): string {
  return (text ?? "").normalize("NFC").trim().replace(/\s+/gu, " ").toLowerCase();
}

/** What a sheet's head calls its machine. */
export function machineOf(sheet: SheetEntry | undefined): Machine {
  let name: string | undefined;
  let serial: string | undefined;
  for (const detail of sheet?.details ?? []) {
    if (detail.kind === "machine") name = detail.text?.value;
    if (detail.kind === "serial") serial = detail.text?.value;
  }
  return { name, serial };
}
