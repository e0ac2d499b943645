// What renaming a name writes: in every sheet of the workspace that knows the name from the same declaration.
// Invariant: pure; says where a text goes and writes nothing.
import type { Slices } from "../../grammar/slices.ts";
import type { Files } from "../model/files.ts";
import type { Job } from "../model/job.ts";
import { everywhere } from "./everywhere.ts";
import { type Place, renamableAt, whyNotName } from "./names.ts";

export interface Renamed {
  /** As it is to be written: in the normal form of Unicode in which names are compared. */
  readonly name: string;
  readonly places: readonly Place[];
}

/** Undefined where nothing that can be renamed stands there. */
export function* renamed(files: Files, job: Job, line: number, column: number, name: string): Slices<Renamed | { readonly why: string } | undefined> {
  const found = yield* renamableAt(job, line, column);
  if (found === undefined) return undefined;
  if (name.normalize("NFC") === found.name.text) return { name: found.name.text, places: [] };
  const why = whyNotName(job, name, found.sort);
  return why === undefined ? { name: name.normalize("NFC"), places: yield* everywhere(files, job, found) } : { why };
}
