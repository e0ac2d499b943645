// Other sheets of the same machine in the workspace.
// Invariant: asked only for a sheet that is released; reads what a door knows of and nothing else, and of a sheet of another machine its head alone.
import type { SheetEntry } from "../../grammar/tree.ts";
import type { Slices } from "../../grammar/slices.ts";
import { headAt } from "./files.ts";
import { type Job, building } from "./job.ts";

export interface Machine {
  readonly name: string | undefined;
  readonly serial: string | undefined;
}

const sheetLimit = 200;

/** The jobs of the same machine (and serial, where both say one), released or not. In slices. */
export function* otherJobs(job: Job): Slices<Job[]> {
  const machine = machineOf(job.sheet);
  if (machine.name === undefined) return [];
  const others: Job[] = [];
  for (const path of (job.workspace.jobsheets?.() ?? []).slice(0, sheetLimit)) {
    if (path === job.path) continue;
    yield;
    const head = headAt(job.workspace, path);
    if (head === undefined || !sameMachine(machine, machineOf(head))) continue;
    const built = yield* building(job.workspace, path);
    if (built !== undefined) others.push(built);
  }
  return others;
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
