// A report as a command: worked out of the jobs that were given, and drawn as it was asked for.
// Invariant: where a sheet could not be read the others are worked out, and it ends with 2, for something may be missing. The day is read here, and nowhere
// further in.
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { isSheetName } from "../disk/read-file.ts";
import { loadSolver } from "../disk/load-solver.ts";
import { photosInPage } from "../disk/photos-in-page.ts";
import { today } from "../disk/today.ts";
import { type Workspace, openWorkspace } from "../disk/workspace.ts";
import { Refused, type Report, type Service, open } from "../service.ts";
import { deliver } from "./deliver.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";

export function reportCommand(report: Report): (given: Given, desk: Desk) => Promise<ExitCode> {
  return async (given, desk) => {
    const { paths, machine } = report.spans === "machine" ? machineIn(given.paths, desk.cwd) : { paths: given.paths };
    const workspace = openWorkspace(paths.length === 0 ? ["."] : paths, desk.cwd);
    for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
    const incomplete = workspace.refused.length > 0;
    if (incomplete && workspace.sheets.length === 0) return 2;
    const asked = Object.fromEntries(Object.entries(given.values).map(([name, value]) => [name, typeof value === "string" ? value : undefined]));
    const around = { today: today(), width: desk.width, photos: photosInPage(workspace.files), solver: loadSolver };
    const service = open(workspace.files);
    const jobs = report.spans === "machine" ? machinesAsked(report, service, workspace, paths, desk.cwd) : jobsIn(service, workspace);
    const made = await service.report(report, jobs, machine === undefined ? asked : { ...asked, machine }, around, workspace.shown);
    if (made === undefined) return refuse(desk, "There is no job sheet here.");
    if (made instanceof Refused) return refuse(desk, made.why);
    const drawn = made.draw(asked.format ?? (report.formats[0] as string));
    if (drawn instanceof Refused) return refuse(desk, drawn.why);
    const delivered = deliver(drawn, given, desk, workspace);
    if (incomplete) desk.err("splitpin: what could not be read is left out of this, so it is not the whole of it.\n");
    if (incomplete || delivered !== 0) return 2;
    return made.passes ? 0 : 1;
  };
}

/** Words that name neither a file nor a folder are the name of a machine. */
function machineIn(words: readonly string[], cwd: string): { readonly paths: readonly string[]; readonly machine?: string } {
  const names = words.filter((word) => word !== "" && !isSheetName(word) && !existsSync(resolve(cwd, word)));
  return names.length === 0 ? { paths: words } : { paths: words.filter((word) => !names.includes(word)), machine: names.join(" ") };
}

/** A sheet that was named stands for all of its machine that lie near it; a folder for what is in it. */
function machinesAsked(report: Report, service: Service, workspace: Workspace, paths: readonly string[], cwd: string): readonly string[] {
  const files = new Set(paths.filter(isSheetName).map((path) => resolve(cwd, path)));
  const named = workspace.sheets.filter((it) => files.has(it.absolute)).map((it) => it.path);
  return [...new Set([...jobsIn(service, workspace), ...named.flatMap((path) => service.jobsOf(report, path))])];
}

function jobsIn(service: Service, workspace: Workspace): readonly string[] {
  return service.jobs(workspace.sheets.map((it) => it.path));
}
