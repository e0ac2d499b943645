// What stands in the way of release, for the terminal: words and lines, no colour.
import { plain } from "./plain.ts";
import { type Line, type ReleaseReport, notAnInspection } from "./release.ts";
import { concessionWords, recheckWords, recordWords, releaseHeadline, releaseTitle, severityWord } from "./release-words.ts";

export function releaseText(report: ReleaseReport): string {
  const head = plain(releaseTitle(report));
  const out: string[] = [head, "=".repeat(Math.min(head.length, 100)), "", plain(releaseHeadline(report)), ""];
  for (const it of report.open) out.push(`  ${severityWord(it).padEnd(14)}  ${plain(`${it.file}:${it.line}`)}  ${plain(it.message)} (${it.rule})`);
  if (report.open.length > 0) out.push("");
  const list = <T extends Line>(title: string, rows: readonly T[], words: (it: T) => string) => {
    if (rows.length > 0) out.push(title, ...rows.map((it) => `  ${plain(words(it))}  (line ${it.line})`), "");
  };
  if (report.released) {
    list("What was found", report.found, recordWords);
    list("What was done", report.done, recordWords);
    list("What was fitted new", report.fitted, recordWords);
    list("What was read", report.readings, recordWords);
    list("What was tried", report.tests, recordWords);
  }
  list("Accepted outside its limit", report.concessions, concessionWords);
  list("To be looked at again", report.rechecks, recheckWords);
  if (report.cautions.length > 0) out.push("Cautions", ...report.cautions.map((it) => `  ${it.words} (${it.source})`), "");
  out.push(notAnInspection, "");
  return out.join("\n");
}
