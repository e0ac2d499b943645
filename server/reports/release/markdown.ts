// What stands in the way of release, as Markdown: every text from a sheet is written so that it is read as itself.
import { hrefOf } from "../draw/html.ts";
import { text } from "../draw/markdown-text.ts";
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

export function releaseMarkdown(report: ReleaseReport): string {
  const out: string[] = [`# ${text(releaseTitle(report))}`, "", `**${text(releaseHeadline(report))}**`, ""];
  for (const { group, rows } of byGroup(report.open))
    out.push(`## ${group}`, "", ...rows.map((it) => `- ${text(it.message)} ${place(it)} (${text(it.rule)})`), "");
  const list = <T extends Line>(title: string, rows: readonly T[], words: (it: T) => string) => {
    if (rows.length > 0) out.push(`## ${title}`, "", ...rows.map((it) => `- ${text(words(it))} ${place(it)}`), "");
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
  if (report.cautions.length > 0) out.push("## Cautions", "", ...report.cautions.map((it) => `- ${text(it.words)} (${text(it.source)})`), "");
  if (report.released) out.push(text(signHere), "");
  out.push(text(releaseFoot(report)), "");
  return out.join("\n");
}

function place(it: Line): string {
  return `([${text(`${it.file}:${it.line}`)}](${hrefOf(it.file, it.line).replace(/[()]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}))`;
}
