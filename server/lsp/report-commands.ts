// The reports of a sheet as commands that any editor can ask for: the page, the values and the text, and where the files are to which its rows lead.
import { loadSolver } from "../disk/load-solver.ts";
import { addressOf, photosInPage } from "../disk/photos-in-page.ts";
import { today } from "../disk/today.ts";
import { type Files, type Made, type PhotoSource, Refused, type Report, type Slices, reports } from "../service.ts";
import { shaped } from "./turns.ts";
import type { Located, Workspaces } from "./workspaces.ts";

export interface ReportAnswer {
  /** A whole page: rows carry `data-file` and `data-line`, lines from 1. */
  readonly html: string;
  /** As the command line prints it with `--format json`. This and the two below are left out where the page only is asked for. */
  readonly json?: unknown;
  readonly markdown?: string;
  /** As the command line prints it. */
  readonly text?: string;
  /** The URI of each file that rows lead to, by the name that they give it. */
  readonly files: Readonly<Record<string, string>>;
  /** The lines at which the entries of each start, from 1. */
  readonly entries: Readonly<Record<string, readonly number[]>>;
}

/** A report as an editor offers it: `command` takes the URI of a sheet, and `{ only: "page" }` from an editor that redraws a page as the sheet is typed. */
export interface ReportOffered {
  readonly name: string;
  readonly title: string;
  readonly command: string;
}

interface Wishes {
  /** The page and no other drawing of it; it names its photos, which are asked for one by one, and holds none of them. */
  readonly only?: "page";
  /** Of the order: how it is to be chosen. */
  readonly choose?: string;
}

/** The reports by the name of their command, whose argument is the URI of a sheet. */
const byCommand: ReadonlyMap<string, Report> = new Map(reports.map((it) => [it.command, it]));

export const reportCommands: readonly string[] = [...byCommand.keys()];

/** In the order in which a page offers them. */
export const reportsOffered: readonly ReportOffered[] = reports.map(({ command, title }) => ({ name: command.replace(/^.*\./, ""), title, command }));

/** Of a sheet that an editor has open; undefined where there is nothing to report of it. Whatever in it names a file leads there. */
export async function reportFor(
  command: string,
  uri: string,
  workspaces: Workspaces,
  { only, choose }: Wishes,
): Promise<Slices<ReportAnswer | undefined> | undefined> {
  const report = byCommand.get(command);
  if (report === undefined) return undefined;
  const at = workspaces.locate(uri);
  const { service } = at.workspace;
  // A page that is shown beside the sheet asks for its photos one by one, by their marks.
  const photos = only === "page" ? marksOf(service.files) : photosInPage(service.files);
  const around = { today: today(), width: usualWidth, photos, solver: loadSolver };
  const making = await service.reporting(report, service.jobsOf(report, at.path), { choose }, around);
  return (function* (): Slices<ReportAnswer | undefined> {
    const made = yield* making;
    if (made === undefined || made instanceof Refused) return undefined;
    function* drawn(format: string): Slices<string> {
      const text = yield* (made as Made).drawing(format);
      return text instanceof Refused ? "" : text;
    }
    const page = { html: yield* drawn("html"), ...(yield* leadsOf(made.values, at)) };
    if (only === "page") return page;
    return { ...page, json: JSON.parse(yield* drawn("json")), markdown: yield* drawn("md"), text: yield* drawn(report.formats[0] as string) };
  })();
}

/** Of a text that is made for nobody's terminal. */
const usualWidth = 100;

/** The marks of photos, by which an editor asks for each once. */
function marksOf(files: Files): PhotoSource {
  return (inside) => {
    const answer = files.photo?.(inside);
    return answer?.kind === "photo" ? { mark: answer.mark } : { whyNot: answer?.why ?? "can't be had here" };
  };
}

/** A photo beside a sheet as a `data:` address, for a page that holds none of its own. `inside` is its path in the workspace. */
export async function photoFor(uri: string, workspaces: Workspaces, inside: string): Promise<Slices<string | undefined>> {
  const { workspace, path } = workspaces.locate(uri);
  // Only what the sheet names as a photo is given.
  return shaped(await workspace.service.showsPhoto(path, inside), (isShown) => {
    const answer = isShown ? workspace.service.files.photo?.(inside) : undefined;
    return answer?.kind === "photo" ? addressOf(answer) : undefined;
  });
}

/** Where whatever in a report names a file leads to. */
function* leadsOf(report: unknown, { workspace, path }: Located): Slices<Pick<ReportAnswer, "files" | "entries">> {
  const files: Record<string, string> = {};
  const entries: Record<string, readonly number[]> = {};
  for (const file of yield* filesNamed(report, new Set([path]))) {
    files[file] = workspace.uriOf(file);
    const sheet = workspace.service.files.read(file);
    if (typeof sheet !== "string") entries[file] = sheet.starts.map((it) => it + 1);
  }
  return { files, entries };
}

function* filesNamed(report: unknown, into: Set<string>): Slices<ReadonlySet<string>> {
  const left: unknown[] = [report];
  for (let n = 1; left.length > 0; n++) {
    if (n % someValues === 0) yield;
    const value = left.pop();
    if (typeof value !== "object" || value === null) continue;
    for (const [key, it] of Object.entries(value)) {
      if (key === "file" && typeof it === "string") into.add(it);
      else left.push(it);
    }
  }
  return into;
}

/** So many values are looked at a slice. */
const someValues = 2000;
