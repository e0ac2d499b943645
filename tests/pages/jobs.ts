// The sheets whose pages are looked at, and the reports that there are of each, drawn by the built program.
import { readFileSync, readdirSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { loadSolver } from "../../server/disk/load-solver.ts";
import { photosInPage } from "../../server/disk/photos-in-page.ts";
import { today } from "../../server/disk/today.ts";
import { openWorkspace } from "../../server/disk/workspace.ts";
import { standingStill } from "../../server/model/job.ts";
import { reports as all } from "../../server/reports/all.ts";
import { Refused, type Service, open } from "../../server/service.ts";
import { runOn } from "../built.ts";
import { splitpin } from "../cli/desk.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));

export const jobs: readonly string[] = ["samples", "tests/sheets"].flatMap((folder) =>
  readdirSync(root + folder, { recursive: true, encoding: "utf8" })
    .filter((it) => it.endsWith(".jobsheet") && !/^(small|traps)/.test(it))
    .map((it) => `${folder}/${it}`)
    .filter((it) => /^sheet/m.test(readFileSync(root + it, "utf8")))
    .sort(),
);

/** Every report, by its name on the command line. */
export const reports: readonly string[] = all.map((it) => it.name);

/** A report of the whole folder is the same from whichever of its sheets it is asked for: it is answered where another of them was asked. */
export function isAnswered(report: string, path: string, before: readonly string[]): boolean {
  return all.find((it) => it.name === report)?.spans === "folder" && before.some((it) => dirname(it) === dirname(path));
}

/** A report as the built program draws it, in this process, in the folder of the sheet; what the command ends with does not matter here. */
export async function drawn(report: string, path: string, format: string): Promise<string> {
  const { code, out, err } = await splitpin(wordsFor(report, basename(path), format), join(root, dirname(path)));
  if (code === 2) throw new Error(err);
  return out;
}

/** The folder that was asked last. */
let opened: { readonly folder: string; readonly service: Service } | undefined;

/** The same page as the sources draw it. All reports of a folder are made of the same sheets, read once; each command reads, checks and tells the whole of them anew. */
export async function drawnBySources(name: string, path: string): Promise<string> {
  const folder = join(root, dirname(path));
  if (opened?.folder !== folder) opened = { folder, service: open(standingStill(openWorkspace([basename(path)], folder).files)) };
  const { service } = opened;
  const report = all.find((it) => it.name === name) as (typeof all)[number];
  const own = basename(path);
  const paths = new Set([...service.jobs([own]), ...(report.spans === "machine" ? service.jobsOf(report, own) : [])]);
  const around = { today: today(), width: 100, photos: photosInPage(service.files), solver: loadSolver };
  const made = await service.report(report, [...paths], asked[name] ?? {}, around);
  const page = made === undefined || made instanceof Refused ? undefined : made.draw("html");
  if (typeof page !== "string") throw new Error(`${name} of ${path}: no page`);
  return page;
}

/** The same by a program of its own. */
export function printed(report: string, path: string, format: string): string {
  return runOn(process.execPath, wordsFor(report, basename(path), format), join(root, dirname(path))).out;
}

/** What falls due in all folders of the project: the longest page that there is. */
export async function allDue(): Promise<string> {
  const { code, out, err } = await splitpin(wordsFor("due", ".", "html"), root);
  if (code === 2) throw new Error(err);
  return out;
}

// What counts from today would be another one tomorrow.
const asked: Readonly<Record<string, Readonly<Record<string, string>>>> = { plan: { from: "2026-06-01" }, due: { on: "2026-06-01" } };
const wordsFor = (report: string, path: string, format: string) => [
  report,
  path,
  "--format",
  format,
  ...Object.entries(asked[report] ?? {}).flatMap(([option, value]) => [`--${option}`, value]),
];
