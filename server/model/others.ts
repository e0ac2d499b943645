// Other sheets of the same machine in the workspace, and whether they are open on something critical.
// Invariant: asked only by a sheet that is released; reads what a door knows of and nothing else.
import type { SheetEntry } from "../../grammar/tree.ts";
import { type Job, buildJob } from "./job.ts";
import { referencesOf } from "./references.ts";
import type { Thing } from "./things.ts";

export interface OpenSheet {
  readonly path: string;
  readonly critical: readonly Thing[];
}

const sheetLimit = 200;

/** Sheets of the same machine (and serial, where both say one) without a release, whose work touches something critical. */
export function othersOpen(job: Job): OpenSheet[] {
  const machine = machineOf(job.sheet);
  if (machine.name === undefined) return [];
  const open: OpenSheet[] = [];
  for (const path of (job.workspace.jobsheets?.() ?? []).slice(0, sheetLimit)) {
    if (path === job.path) continue;
    const sheet = job.workspace.read(path);
    if (sheet === "missing" || sheet === "outside") continue;
    const head = sheet.entries.find((entry) => entry.kind === "sheet");
    const other = machineOf(head);
    if (head === undefined || !same(machine, other)) continue;
    if (sheet.entries.some((entry) => entry.kind === "release")) continue;
    const built = buildJob(job.workspace, path);
    if (built === undefined) continue;
    const critical = new Set<Thing>();
    for (const entry of built.own.sheet.entries) {
      if (entry.kind !== "step" && entry.kind !== "finding" && entry.kind !== "measure") continue;
      for (const { name } of referencesOf(entry).things) {
        const thing = built.things.get(name.text);
        if (thing !== undefined && "critical" in thing && thing.critical) critical.add(thing);
      }
    }
    if (critical.size > 0) open.push({ path, critical: [...critical] });
  }
  return open;
}

interface Machine {
  readonly name: string | undefined;
  readonly serial: string | undefined;
}

/** Capitals and spaces make no other machine; with the same number, nor does a name that is written out further. */
function same(one: Machine, other: Machine): boolean {
  const [a, b] = [plain(one.name), plain(other.name)];
  const [m, n] = [plain(one.serial), plain(other.serial)];
  if (a === "" || b === "") return false;
  if (m !== "" && n !== "") return m === n && (a.startsWith(b) || b.startsWith(a));
  return a === b;
}

function plain(text: string | undefined): string {
  return (text ?? "").normalize("NFC").trim().replace(/\s+/gu, " ").toLowerCase();
}

function machineOf(sheet: SheetEntry | undefined): Machine {
  let name: string | undefined;
  let serial: string | undefined;
  for (const detail of sheet?.details ?? []) {
    if (detail.kind === "machine") name = detail.text?.value;
    if (detail.kind === "serial") serial = detail.text?.value;
  }
  return { name, serial };
}
