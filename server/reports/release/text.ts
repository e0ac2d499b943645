// What stands in the way of release, for the terminal: words and lines, no colour.
import { plain } from "../draw/plain.ts";
import type { Line, ReleaseReport } from "./release.ts";
import {
  acceptedWords,
  admittedWords,
  byGroup,
  concessionWords,
  fastWords,
  photoWords,
  photosMissing,
  recheckWords,
  recordWords,
  releaseFoot,
  releaseHeadline,
  releaseTitle,
  signHere,
} from "./words.ts";

export function releaseText(report: ReleaseReport): string {
  const head = plain(releaseTitle(report));
  const out: string[] = [head, "=".repeat(Math.min(head.length, 100)), "", plain(releaseHeadline(report)), ""];
  for (const { group, rows } of byGroup(report.open))
    out.push(group, ...rows.map((it) => `  ${plain(`${it.file}:${it.line}`)}  ${plain(it.message)} (${it.rule})`), "");
  const list = <T extends Line>(title: string, rows: readonly T[], words: (it: T) => string) => {
    if (rows.length > 0) out.push(title, ...rows.map((it) => `  ${plain(words(it))}  (line ${it.line})`), "");
  };
  if (report.released) {
    list("Makeshifts found", report.makeshifts, recordWords);
    list("What was found", report.found, recordWords);
    list("What was done", report.done, recordWords);
    list("Work done outside", report.outside, recordWords);
    list("Fitted new", report.fitted, recordWords);
    list("Tightened and locked", report.fast, fastWords);
    list("Readings", report.readings, recordWords);
    list("What was tried", report.tests, recordWords);
  }
  list("Owned up to", report.admitted, admittedWords);
  list("Accepted, and why", report.accepted, acceptedWords);
  list("Accepted outside its limit", report.concessions, concessionWords);
  list("To be looked at again", report.rechecks, recheckWords);
  const photos = report.released ? report.photos : report.photos.filter((it) => it.whyNot !== undefined);
  list(report.released ? "Photos" : photosMissing, photos, photoWords);
  if (report.cautions.length > 0) out.push("Cautions", ...report.cautions.map((it) => `  ${it.words} (${it.source})`), "");
  if (report.released) out.push(signHere, "");
  out.push(plain(releaseFoot(report)), "");
  return out.join("\n");
}
