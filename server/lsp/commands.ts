// The commands that an editor can ask the server for: the reports, what there is of them, a photo of one, and the way back as an edit.
// Invariant: a command answers and changes nothing; what it would write is given back for the editor to write.
import type { WorkspaceEdit } from "vscode-languageserver";
import { wayBackEdit } from "../reports/way-back/edit.ts";
import { readStarts } from "../disk/starts.ts";
import { today } from "../disk/today.ts";
import { type WrittenSheet, newSheet, titleOf } from "../features/new-sheet.ts";
import { markDone, readingsOffered } from "../features/mark-done.ts";
import { asSnippet } from "../features/snippets.ts";
import { standingOf, worstFirst } from "../features/standing.ts";
import { buildJob } from "../model/job.ts";
import type { Checked } from "../rules/check.ts";
import { type ReportAnswer, type ReportOffered, photoFor, reportCommands, reportFor, reportsOffered } from "./report-commands.ts";
import { rangeOf } from "./to-protocol.ts";
import type { Workspaces } from "./workspaces.ts";

export interface WayBackWritten {
  /** Null where nothing is missing. */
  readonly edit: WorkspaceEdit | null;
  readonly said: string;
}

type LastCheck = (uri: string) => Checked | undefined;

/** Commands of a sheet that give plain values; `second` is what stands after its URI. */
const ofSheets: Readonly<Record<string, (uri: string, workspaces: Workspaces, second: unknown, checked: LastCheck) => unknown>> = {
  "splitpin.standing": (uri, workspaces, _, checked) => {
    const { root, path } = workspaces.locate(uri);
    return standingOf(root.files, path, today(), checked(uri));
  },
  "splitpin.jobs": async (_, workspaces, __, checked) => {
    const jobs = [];
    for (const root of workspaces.roots()) {
      for (const path of root.files.jobsheets?.() ?? []) {
        // One sheet at a time, so that a keystroke that comes meanwhile is not kept waiting by all of them.
        await new Promise((resolve) => setImmediate(resolve));
        const uri = workspaces.uriOf(root, path);
        const standing = standingOf(root.files, path, today(), checked(uri));
        if (standing === undefined) continue;
        const files: Record<string, string> = {};
        for (const it of [standing.unsafe, standing.late, standing.questions, standing.due].flat()) files[it.file] ??= workspaces.uriOf(root, it.file);
        jobs.push({ uri, path, standing, files });
      }
    }
    return worstFirst(jobs);
  },
  "splitpin.doneText": (uri, workspaces, second) => {
    const { root, path } = workspaces.locate(uri);
    const sheet = root.files.read(path);
    return typeof sheet === "string" || typeof second !== "number" ? undefined : markDone(sheet, second, today());
  },
  "splitpin.readingTexts": (uri, workspaces) => {
    const { root, path } = workspaces.locate(uri);
    const job = buildJob(root.files, path);
    return job === undefined ? [] : readingsOffered(job, today()).map((it) => ({ ...it, snippet: asSnippet(it.text).text }));
  },
};

export const commandNames: readonly string[] = [
  ...reportCommands,
  "splitpin.reports",
  "splitpin.photo",
  "splitpin.writeWayBack",
  "splitpin.starts",
  "splitpin.makeSheet",
  ...Object.keys(ofSheets),
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
  checked: LastCheck,
): Promise<{ readonly answer: Answer } | { readonly wrong: string }> {
  if (!commandNames.includes(command)) return { wrong: `There is no command ${command}.` };
  if (command === "splitpin.reports") return { answer: reportsOffered };
  if (command === "splitpin.starts") return { answer: readStarts().map((it) => ({ name: it.name, title: titleOf(it) })) };
  if (command === "splitpin.makeSheet") return written(words[0]);
  const [uri, second] = words;
  if (typeof uri !== "string") return { wrong: `${command} takes the URI of a job sheet.` };
  if (Object.hasOwn(ofSheets, command)) return { answer: (await ofSheets[command]?.(uri, workspaces, second, checked)) as Answer };
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
