// The hand-over of a machine: its whole record in one value, for whoever buys or inspects it, with the digest of every file that it was made from.
// Invariant: made of the reports that know; nothing is worked out here but the digests. What is open stands before what was done.
import type { Slices } from "../../../grammar/slices.ts";
import type { Files } from "../../model/files.ts";
import { building } from "../../model/job.ts";
import { counted } from "../../rules/wording.ts";
import type { Heading } from "../draw/heading.ts";
import { reportingDue } from "../due/due.ts";
import type { DueReport } from "../due/shapes.ts";
import { tellingHistory } from "../history/history.ts";
import type { MachineHistory } from "../history/shapes.ts";
import { releasing } from "../release/release.ts";
import type { ReleaseReport } from "../release/shapes.ts";
import { Refused } from "../report.ts";
import { digestOfBase64, digestOfSheet } from "./digest.ts";

export interface HandOver extends Heading {
  /** The day on which it was made. */
  readonly day: string;
  readonly history: MachineHistory;
  readonly due: DueReport;
  /** One a sheet, the oldest first. */
  readonly records: readonly ReleaseReport[];
  /** Sheets, the files that they use and the photos that they show. */
  readonly files: readonly FileDigest[];
}

export interface FileDigest {
  readonly file: string;
  readonly sha256: string;
}

/** Of the one machine that the sheets at `paths` are of, or that is so called; refused where there are several. */
export function* handingOver(files: Files, paths: readonly string[], named: string | undefined, day: string): Slices<HandOver | Refused | undefined> {
  const history = yield* tellingHistory(files, paths, named);
  if (history === undefined) return undefined;
  const [machine, ...others] = history.machines;
  if (machine === undefined) return new Refused(`No sheet here is of a machine called “${named}”.`);
  if (others.length > 0) {
    const names = history.machines.map((it) => it.machine);
    const some = (names.length <= 4 ? names : [...names.slice(0, 3), `${names.length - 3} more`]).join("; ");
    return new Refused(`A hand-over is of one machine, and here are ${counted(names.length, "machine")}: ${some}. Name one of them, or one of its sheets.`);
  }
  const jobs = machine.sheets.map((it) => it.file);
  const due = yield* reportingDue(files, jobs, day);
  const records: ReleaseReport[] = [];
  for (const path of jobs) {
    const record = yield* releasing(files, path);
    if (record !== undefined) records.push(record);
  }
  if (due === undefined) return undefined;
  return {
    title: machine.machine,
    ...(machine.serial === null ? {} : { serial: machine.serial }),
    day,
    history: machine,
    due,
    records,
    files: [...(yield* sheetDigests(files, jobs)), ...(yield* photoDigests(files, records))],
  };
}

/** Each sheet and each file that one uses, once. */
function* sheetDigests(files: Files, jobs: readonly string[]): Slices<FileDigest[]> {
  const paths = new Set<string>();
  for (const path of jobs) for (const it of (yield* building(files, path))?.files ?? []) paths.add(it.path);
  const out: FileDigest[] = [];
  for (const file of [...paths].sort()) {
    yield;
    const sheet = files.read(file);
    if (typeof sheet !== "string") out.push({ file, sha256: digestOfSheet(sheet) });
  }
  return out;
}

function* photoDigests(files: Files, records: readonly ReleaseReport[]): Slices<FileDigest[]> {
  const paths = new Set(records.flatMap(({ photos }) => photos.flatMap(({ inside }) => inside ?? [])));
  const out: FileDigest[] = [];
  for (const file of [...paths].sort()) {
    yield;
    const photo = files.photo?.(file);
    const base64 = photo?.kind === "photo" ? photo.base64() : "";
    if (base64 !== "") out.push({ file, sha256: digestOfBase64(base64) });
  }
  return out;
}
