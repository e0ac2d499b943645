// The sheets whose pages are looked at, and the reports that there are of each, drawn by the built program.
import { readFileSync, readdirSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { reports as all } from "../../server/reports/all.ts";
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
export function isAnswered(report: string, path: string, asked: readonly string[]): boolean {
  return all.find((it) => it.name === report)?.spans === "folder" && asked.some((it) => dirname(it) === dirname(path));
}

/** A report as the built program draws it, in this process, in the folder of the sheet; what the command ends with does not matter here. */
export async function drawn(report: string, path: string, format: string): Promise<string> {
  const { code, out, err } = await splitpin(wordsFor(report, basename(path), format), join(root, dirname(path)));
  if (code === 2) throw new Error(err);
  return out;
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
const days: Readonly<Record<string, readonly string[]>> = { plan: ["--from", "2026-06-01"], due: ["--on", "2026-06-01"] };
const wordsFor = (report: string, path: string, format: string) => [report, path, "--format", format, ...(days[report] ?? [])];
