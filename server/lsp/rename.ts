// What renaming a name writes: in every sheet of the workspace that knows the name from the same declaration.
import type { TextEdit, WorkspaceEdit } from "vscode-languageserver";
import type { NameAt } from "../features/at.ts";
import { everywhere } from "../features/everywhere.ts";
import type { Job } from "../model/job.ts";
import { rangeOf } from "./to-protocol.ts";
import type { Root, Workspaces } from "./workspaces.ts";

export function renameEdit(root: Root, workspaces: Workspaces, job: Job, found: NameAt, newName: string): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const it of everywhere(root.files, job, found)) {
    const uri = workspaces.uriOf(root, it.file);
    changes[uri] ??= [];
    changes[uri].push({ range: rangeOf(it.line, it.from, it.to), newText: newName.normalize("NFC") });
  }
  return { changes };
}
