// The sheets whose pages are looked at, and the reports that there are of each, drawn by the built program as a person would ask for them.
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { reports as all } from "../../server/reports/all.ts";
import { program } from "../server/wire.ts";

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

/** A report as it is printed; what the command ends with does not matter here. */
export function drawn(report: string, path: string, format: string, cwd = root): string {
  // A plan that counted from today would be another one tomorrow.
  const from = report === "plan" ? ["--from", "2026-06-01"] : [];
  try {
    return execFileSync(process.execPath, [program, report, path, "--format", format, ...from], {
      cwd,
      encoding: "utf8",
      maxBuffer: 1 << 28,
      stdio: ["ignore", "pipe", "ignore"],
    });
  } catch (error) {
    const { status, stdout } = error as { status: number; stdout: string };
    if (status === 1) return stdout;
    throw error;
  }
}
