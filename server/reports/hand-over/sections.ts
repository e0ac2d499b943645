// The hand-over as it is drawn: what is due and open first, then each sheet's record, the history, and the digests by which a later change shows.
// Invariant: what is not released is never drawn as if it were.
import { recordOnly } from "../draw/heading.ts";
import { html } from "../draw/html.ts";
import type { PhotoSource } from "../draw/photo-source.ts";
import type { Document, Parts, Section } from "../draw/sections.ts";
import { dueParts } from "../due/sections.ts";
import { historyParts } from "../history/sections.ts";
import { estimateNote, sameName } from "../history/words.ts";
import type { ReleaseReport } from "../release/shapes.ts";
import { openSections, recordParts } from "../release/sections.ts";
import { releaseAbout, releaseHeadline, releaseSign, signHere } from "../release/words.ts";
import { counted } from "../../rules/wording.ts";
import { checkList, digestOf } from "./digest.ts";
import type { HandOver } from "./hand-over.ts";
import { machineLine } from "../draw/machine-line.ts";

export function handOverSections(report: HandOver, photo: PhotoSource = () => ({ whyNot: "is not in this page" })): Document {
  return {
    name: "Hand-over",
    heading: report,
    headline: headlineOf(report),
    parts: [
      { kind: "section", title: "What is due, and what is open", parts: dueParts(report.due) },
      ...report.records.map((it) => recordOf(it, photo)),
      { kind: "section", title: "Its life", parts: historyParts(report.history) },
      digests(report),
      { kind: "words", style: "sign", text: signHere },
    ],
    foot: [estimateNote, sameName, recordOnly],
  };
}

function headlineOf({ day, history, records }: HandOver): string {
  const open = records.filter((it) => it.open.length > 0).length;
  const unsigned = records.filter((it) => it.open.length === 0 && !it.released).length;
  const state = [
    ...(open === 0 ? [] : [`something is open on ${counted(open, "sheet")}`]),
    ...(unsigned === 0 ? [] : [`${counted(unsigned, "sheet")} ${unsigned === 1 ? "has" : "have"} no release`]),
  ];
  const made = `${machineLine(history)}. Made on ${day} from ${counted(records.length, "sheet")}`;
  return state.length === 0
    ? `\u2713 ${made}: ${records.length === 1 ? "it is released, and nothing is open on it" : "each is released, and nothing is open on any of them"}.`
    : `\u2717 ${made}: ${state.join("; ")}.`;
}

function recordOf(report: ReleaseReport, photo: PhotoSource): Section {
  return {
    kind: "section",
    title: [report.title, report.opened, report.file].filter((it) => it !== undefined).join(", "),
    ...(report.file === undefined ? {} : { own: report.file }),
    parts: [
      { kind: "words", style: "plain", text: [`${releaseSign(report)} ${releaseHeadline(report)}`, ...releaseAbout(report)].join(" ") },
      ...openSections(report),
      ...recordParts(report, photo),
    ] satisfies Parts,
  };
}

function digests({ files }: HandOver): Section {
  return {
    kind: "section",
    title: "What it was made from",
    parts: [
      {
        kind: "words",
        style: "plain",
        text: `A digest (SHA-256) of each file as it was. A file that was changed later has another one: \`splitpin verify\` with this file says so, and so does \`sha256sum -c\` with the list below.`,
      },
      {
        kind: "picture",
        // A line each: what a page escapes has no ends of lines.
        page: () => html`<pre>\n${files.map((it) => html`${checkList([it]).trimEnd()}\n`)}</pre>\n`,
        instead: { kind: "list", rows: files.map((it) => ({ text: `${it.sha256}  ${it.file}` })) },
      },
      {
        kind: "words",
        style: "plain",
        text: `The digest of the list itself, which changes with it: whoever signs writes its first eight letters beside the signature.`,
      },
      {
        kind: "picture",
        page: () => html`<pre class="digest">${digestOf(checkList(files))}</pre>\n`,
        instead: { kind: "list", rows: [{ text: digestOf(checkList(files)) }] },
      },
    ],
  };
}
