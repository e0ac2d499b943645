// What renaming a name writes: in every sheet of the workspace that knows the name from the same declaration.
import type { TextEdit, WorkspaceEdit } from "vscode-languageserver";
import type { NameAt } from "../features/at.ts";
import { type Occurrence, occurrences } from "../features/names.ts";
import { type Job, buildJob } from "../model/job.ts";
import { rangeOf } from "./to-protocol.ts";
import type { Root, Workspaces } from "./workspaces.ts";

export function renameEdit(root: Root, workspaces: Workspaces, job: Job, found: NameAt, newName: string): WorkspaceEdit {
  const declaredIn = new Set(
    occurrences(job, found.name.text, found.sort)
      .filter((it) => it.declares)
      .map((it) => it.file),
  );
  const all = new Map<string, Occurrence>();
  // A sheet that uses the declaring file knows the name too, though this sheet doesn't know of it.
  const jobs = [job, ...(root.files.jobsheets?.() ?? []).map((path) => buildJob(root.files, path))];
  for (const each of jobs) {
    if (each === undefined || !each.files.some((file) => declaredIn.has(file.path))) continue;
    for (const it of occurrences(each, found.name.text, found.sort)) all.set(`${it.file}\n${it.line}\n${it.from}`, it);
  }
  const changes: Record<string, TextEdit[]> = {};
  for (const it of all.values()) {
    const uri = workspaces.uriOf(root, it.file);
    changes[uri] ??= [];
    changes[uri].push({ range: rangeOf(it.line, it.from, it.to), newText: newName.normalize("NFC") });
  }
  return { changes };
}
