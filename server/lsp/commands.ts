// The commands that an editor can ask the server for: the reports, what there is of them, a photo of one, and the way back as an edit.
// Invariant: a command answers and changes nothing; what it would write is given back for the editor to write.
import type { WorkspaceEdit } from "vscode-languageserver";
import { readStarts } from "../disk/starts.ts";
import { today } from "../disk/today.ts";
import { type Checked, type Slices, type WrittenSheet, asSnippet, isFileName, newSheet, reports, titleOf, worstFirst } from "../service.ts";
import { type ReportAnswer, type ReportOffered, photoFor, reportCommands, reportFor, reportsOffered } from "./report-commands.ts";
import { toWorkspaceEdit } from "./to-protocol.ts";
import { inTurns, shaped } from "./turns.ts";
import type { Workspaces } from "./workspaces.ts";

export interface WayBackWritten {
  /** Null where nothing is missing. */
  readonly edit: WorkspaceEdit | null;
  readonly said: string;
}

type LastCheck = (uri: string) => Checked | undefined;

interface OfSheet {
  readonly uri: string;
  readonly workspaces: Workspaces;
  /** What follows the URI. */
  readonly second: unknown;
  readonly third: unknown;
  readonly checked: LastCheck;
}

/** Commands of a sheet that give plain values. */
const ofSheets: Readonly<Record<string, (asked: OfSheet) => Promise<unknown>>> = {
  async "splitpin.standing"({ uri, workspaces, checked }) {
    const { workspace, path } = workspaces.locate(uri);
    return inTurns(await workspace.service.standing(path, today(), checked(uri)));
  },
  async "splitpin.jobs"({ workspaces, checked }) {
    const jobs = [];
    for (const { service, uriOf } of workspaces.all()) {
      for (const path of service.files.jobsheets?.() ?? []) {
        // Each sheet for itself: where one is changed meanwhile, the others need not be asked again.
        const uri = uriOf(path);
        const standing = await inTurns(await service.standing(path, today(), checked(uri)));
        if (standing === undefined) continue;
        const files: Record<string, string> = {};
        for (const it of [standing.unsafe, standing.live, standing.late, standing.questions, standing.due].flat()) files[it.file] ??= uriOf(it.file);
        jobs.push({ uri, path, standing, files });
      }
    }
    return worstFirst(jobs);
  },
  async "splitpin.doneText"({ uri, workspaces, second, third }) {
    const { workspace, path } = workspaces.locate(uri);
    return typeof second === "number" ? workspace.service.markDone(path, second, today(), typeof third === "string" ? third : undefined) : undefined;
  },
  async "splitpin.readingTexts"({ uri, workspaces, checked }) {
    const { workspace, path } = workspaces.locate(uri);
    return shaped(await workspace.service.readings(path, today(), checked(uri)), (list) => list.map((it) => ({ ...it, snippet: asSnippet(it.text).text })));
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

type Given = ReportAnswer | readonly ReportOffered[] | WayBackWritten | readonly StartOffered[] | readonly WrittenSheet[] | string | undefined;
type Answer = Given | Slices<Given>;

/** What a command gives, in slices where it may take long; a text where it was not asked as it should be. */
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
  const [uri, second, third] = words;
  if (typeof uri !== "string") return { wrong: `${command} takes the URI of a job sheet.` };
  if (Object.hasOwn(ofSheets, command)) return { answer: (await ofSheets[command]?.({ uri, workspaces, second, third, checked })) as Answer };
  if (command === "splitpin.writeWayBack") return { answer: await wayBack(uri, workspaces) };
  if (command === "splitpin.photo")
    return typeof second === "string"
      ? { answer: await photoFor(uri, workspaces, second) }
      : { wrong: `${command} takes the path of a photo behind the sheet.` };
  // `{ only: "page" }` from an editor that redraws a page as the sheet is typed; `{ choose: "cheapest" }` where an order is to be chosen.
  const wishes = typeof second === "object" && second !== null ? (second as { readonly only?: unknown; readonly choose?: unknown }) : {};
  return {
    answer: await reportFor(command, uri, workspaces, {
      ...(wishes.only === "page" ? { only: "page" } : {}),
      ...(typeof wishes.choose === "string" ? { choose: wishes.choose } : {}),
    }),
  };
}

async function wayBack(uri: string, workspaces: Workspaces): Promise<Slices<WayBackWritten | undefined> | undefined> {
  const { workspace, path } = workspaces.locate(uri);
  const report = reports.find((it) => it.name === "way-back");
  if (report === undefined) return undefined;
  return shaped(await workspace.service.edit(report, path), (found) => {
    if (found === undefined) return undefined;
    const { insert, said } = found;
    if (insert === undefined) return { edit: null, said };
    return { edit: toWorkspaceEdit([{ file: path, line: insert.line, from: insert.column, to: insert.column, text: insert.text }], workspace.uriOf), said };
  });
}

/** `{ name, machine, matter, starts }`: the files to be written, the job first. */
function written(wishes: unknown): { readonly answer: readonly WrittenSheet[] } | { readonly wrong: string } {
  const { name, machine = "", matter = "", starts = [] } = (typeof wishes === "object" && wishes !== null ? wishes : {}) as Readonly<Record<string, unknown>>;
  if (typeof name !== "string" || typeof machine !== "string" || typeof matter !== "string" || !Array.isArray(starts))
    return { wrong: "splitpin.makeSheet takes an object with a name, and with texts for machine and matter and a list of starts." };
  if (!isFileName(name)) return { wrong: "splitpin.makeSheet takes the name of a file without its folder: letters, digits, - and _." };
  return { answer: newSheet(name, { machine, matter, today: today(), starts: readStarts().filter((it) => starts.includes(it.name)) }) };
}
