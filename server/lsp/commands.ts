// The commands that an editor can ask the server for: the reports, what there is of them, a photo of one, and the way back as an edit.
// Invariant: a command answers and changes nothing; what it would write is given back for the editor to write.
import type { WorkspaceEdit } from "vscode-languageserver";
import { wayBackEdit } from "../reports/way-back/edit.ts";
import { readStarts } from "../disk/starts.ts";
import { today } from "../disk/today.ts";
import { type WrittenSheet, newSheet, titleOf } from "../features/new-sheet.ts";
import { type ReportAnswer, type ReportOffered, photoFor, reportCommands, reportFor, reportsOffered } from "./report-commands.ts";
import { rangeOf } from "./to-protocol.ts";
import type { Workspaces } from "./workspaces.ts";

export interface WayBackWritten {
  /** Null where nothing is missing. */
  readonly edit: WorkspaceEdit | null;
  readonly said: string;
}

export const commandNames: readonly string[] = [
  ...reportCommands,
  "splitpin.reports",
  "splitpin.photo",
  "splitpin.writeWayBack",
  "splitpin.starts",
  "splitpin.makeSheet",
];

/** A starting assembly as an editor offers it. */
export interface StartOffered {
  readonly name: string;
  readonly title: string;
}

type Answer = ReportAnswer | readonly ReportOffered[] | WayBackWritten | readonly StartOffered[] | readonly WrittenSheet[] | string | undefined;

/** What a command gives; a text where it was not asked as it should be. */
export async function answerTo(
  command: string,
  words: readonly unknown[],
  workspaces: Workspaces,
): Promise<{ readonly answer: Answer } | { readonly wrong: string }> {
  if (!commandNames.includes(command)) return { wrong: `There is no command ${command}.` };
  if (command === "splitpin.reports") return { answer: reportsOffered };
  if (command === "splitpin.starts") return { answer: readStarts().map((it) => ({ name: it.name, title: titleOf(it) })) };
  if (command === "splitpin.makeSheet") return written(words[0]);
  const [uri, second] = words;
  if (typeof uri !== "string") return { wrong: `${command} takes the URI of a job sheet.` };
  if (command === "splitpin.writeWayBack") return { answer: wayBack(uri, workspaces) };
  if (command === "splitpin.photo")
    return typeof second === "string" ? { answer: photoFor(uri, workspaces, second) } : { wrong: `${command} takes the path of a photo behind the sheet.` };
  // `{ only: "page" }` from an editor that redraws a page as the sheet is typed; `{ choose: "cheapest" }` where an order is to be chosen.
  const wishes = typeof second === "object" && second !== null ? (second as { readonly only?: unknown; readonly choose?: unknown }) : {};
  return {
    answer: await reportFor(command, uri, workspaces, {
      ...(wishes.only === "page" ? { only: "page" } : {}),
      ...(typeof wishes.choose === "string" ? { choose: wishes.choose } : {}),
    }),
  };
}

function wayBack(uri: string, workspaces: Workspaces): WayBackWritten | undefined {
  const at = workspaces.locate(uri);
  const found = wayBackEdit(at.root.files, at.path);
  if (found === undefined) return undefined;
  const { insert, said } = found;
  if (insert === undefined) return { edit: null, said };
  const range = rangeOf(insert.line, insert.column, insert.column);
  return { edit: { changes: { [workspaces.uriOf(at.root, at.path)]: [{ range, newText: insert.text }] } }, said };
}

/** `{ name, machine, matter, starts }`: the files to be written, the job first. */
function written(wishes: unknown): { readonly answer: readonly WrittenSheet[] } | { readonly wrong: string } {
  const { name, machine = "", matter = "", starts = [] } = (typeof wishes === "object" && wishes !== null ? wishes : {}) as Readonly<Record<string, unknown>>;
  if (typeof name !== "string" || typeof machine !== "string" || typeof matter !== "string" || !Array.isArray(starts))
    return { wrong: "splitpin.makeSheet takes an object with a name, and with texts for machine and matter and a list of starts." };
  return { answer: newSheet(name, { machine, matter, today: today(), starts: readStarts().filter((it) => starts.includes(it.name)) }) };
}
