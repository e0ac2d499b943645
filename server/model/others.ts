// Other sheets of the same machine in the workspace.
// Invariant: asked only for a sheet that is released; reads what a door knows of and nothing else, and of a sheet of another machine its head alone.
import type { SheetEntry } from "../../grammar/tree.ts";
import type { Slices } from "../../grammar/slices.ts";
import { type Files, headAt, sheetEntryIn } from "./files.ts";
import { type Job, besideStill } from "./job.ts";
import { memoText } from "./memo.ts";
import { nearestNames } from "./near.ts";

export interface Machine {
  readonly name: string | undefined;
  readonly serial: string | undefined;
}

/** Of so many sheets the heads are looked at: each is asked for whether it is as it was, at every keystroke in a sheet that is released. */
const mostSheets = 2000;

/** A sheet that is, or may be, of the same machine. */
export interface OtherSheet {
  readonly path: string;
  /** What it calls its machine, where nobody can tell whether that is this one. */
  readonly unsure?: string;
}

interface OtherPaths {
  readonly sheets: readonly OtherSheet[];
  /** So many sheets were not looked at. */
  readonly unseen: number;
  /** And there may be others that nobody knows of. */
  readonly hasMore: boolean;
}

/**
 * The sheets of the same machine (and serial, where both say one), released or not, and of what may be it under a name that is written otherwise; and those that it uses, unless
 * both say a machine and it is another: who takes the parts of another sheet for its own works on what that one was about. In slices.
 */
export function* otherSheets(job: Job): Slices<OtherPaths> {
  const machine = machineOf(job.sheet);
  const others = job.files.flatMap(({ path, sheet }): OtherSheet[] => (path !== job.path && isUnnamed(machine, sheetEntryIn(sheet)) ? [{ path }] : []));
  if (machine.name === undefined) return { sheets: others, unseen: 0, hasMore: false };
  const all = job.workspace.jobsheets?.() ?? [];
  for (const it of yield* sheetsOf(machine, job.workspace, all)) if (it.path !== job.path) others.push(it);
  return { sheets: others, unseen: Math.max(0, all.length - mostSheets), hasMore: job.workspace.hasMore?.() ?? false };
}

/** What was found for each machine, by what a sheet calls it: where a whole folder is checked, each of its sheets asks the same. */
const foundBeside = besideStill(() => new Map<string, readonly OtherSheet[]>());

function* sheetsOf(machine: Machine, files: Files, all: readonly string[]): Slices<readonly OtherSheet[]> {
  const found = foundBeside(files);
  const called = JSON.stringify(machine);
  const before = found.get(called);
  if (before !== undefined) return before;
  const sheets: OtherSheet[] = [];
  for (const path of all.slice(0, mostSheets)) {
    yield;
    const head = headAt(files, path);
    if (head === undefined) continue;
    const other = machineOf(head);
    if (sameMachine(machine, other)) sheets.push({ path });
    else if (mayBeSame(machine, other)) sheets.push({ path, unsure: other.name ?? "" });
  }
  found.set(called, sheets);
  return sheets;
}

/** A sheet, where it or the other says no machine. */
function isUnnamed(machine: Machine, sheet: SheetEntry | undefined): boolean {
  return sheet !== undefined && (machine.name === undefined || machineOf(sheet).name === undefined);
}

/** Capitals, spaces and points make no other machine; with the same number, nor does a name that is written out further. */
export function sameMachine(one: Machine, other: Machine): boolean {
  const [a, b] = [plain(one.name), plain(other.name)];
  const [m, n] = [closed(one.serial), closed(other.serial)];
  if (a === "" || b === "") return false;
  if (m !== "" && n !== "") return m === n && (a.startsWith(b) || b.startsWith(a));
  return a === b;
}

/**
 * Where nobody can tell: the name is written out further in one of them (`Moor van` and `Moor van, 1962`), or one letter off, and no serial sets them apart; or they have the same
 * serial under different names. Names that differ by a number are of different machines.
 */
function mayBeSame(one: Machine, other: Machine): boolean {
  const [a, b] = [plain(one.name), plain(other.name)];
  const [m, n] = [closed(one.serial), closed(other.serial)];
  if (a === "" || b === "") return false;
  if (m !== "" && n !== "") return m === n && m.length >= leastSerial;
  return `${a} `.startsWith(`${b} `) || `${b} `.startsWith(`${a} `) || (a.length >= leastName && nearestNames(a, [b], 1).length > 0);
}

/** Shorter ones are given by hand, and one shop's lathe and mill are both No. 1. */
const leastSerial = 4;
/** Of shorter names one letter is too much of the name. */
const leastName = 5;

function plain(text: string | undefined): string {
  return text === undefined ? "" : plainText(text);
}

const plainText = memoText((text) =>
  text
    .normalize("NFC")
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, " ")
    .trim()
    .toLowerCase(),
);

/** Serials are the same however their figures are set apart. */
function closed(serial: string | undefined): string {
  return plain(serial).replaceAll(" ", "");
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
