// The one door through which the simulated machine asks the program: what is said of a sheet, and whether it is released. Nothing else in this folder imports the program.
import { readSheet } from "../../grammar/sheet-text.ts";
import { checkFile } from "../../server/rules/check.ts";
import { releaseReport } from "../in-one-go.ts";

export interface Word {
  /** From 1. */
  readonly line: number;
  readonly severity: string;
  readonly rule: string;
  readonly message: string;
}

export interface Answer {
  readonly words: readonly Word[];
  /** What `check` says of the release, and what the release report says: they must be one. */
  readonly blocked: boolean;
  readonly reportReleased: boolean;
}

export function ask(text: string): Answer {
  const sheet = readSheet(text);
  const files = { read: (path: string) => (path === "job.jobsheet" ? sheet : ("missing" as const)), jobsheets: () => ["job.jobsheet"] };
  const said = checkFile(files, "job.jobsheet");
  const words = said.map((it) => ({ line: it.line + 1, severity: it.severity, rule: it.rule, message: it.message }));
  const report = releaseReport(files, "job.jobsheet");
  return { words, blocked: words.some((it) => it.rule === "release-blocked"), reportReleased: report?.released === true };
}

/** Whether the language reads a small sheet at all: a word that is not built yet is a syntax error. */
export function reads(text: string): boolean {
  return !ask(text).words.some((it) => it.severity === "error" && (it.rule === "syntax" || it.rule.startsWith("unit-") || it.rule.startsWith("name-")));
}
