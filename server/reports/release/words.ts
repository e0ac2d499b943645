// The words that every drawing of a release shares.
import { counted, firstSentence, listed } from "../../rules/wording.ts";
import { type OpenGroup, openGroups } from "../../rules/open-groups.ts";
import type { ConcessionItem, FastRecord, OpenItem, PardonRecord, Photo, Recheck, Record, ReleaseReport } from "./release.ts";

export function releaseHeadline(report: ReleaseReport): string {
  if (report.released) {
    const by = report.releasedBy === undefined ? "" : ` by ${report.releasedBy}`;
    const on = `${report.releasedOn === undefined ? "" : ` on ${report.releasedOn}`}${report.counter === undefined ? "" : ` at ${report.counter}`}`;
    const unsaid = unsaidWords(report);
    return `Released${by}${on}${unsaid === undefined ? ". Nothing on the sheet stands in the way." : `, ${unsaid}`}`;
  }
  if (report.open.length === 0) return "Not released. Nothing on the sheet stands in the way; it waits for somebody to write `release`.";
  return `Not released: ${counted(report.open.length, "thing stands", "things stand")} in the way, worst first.`;
}

/** What a release over so little is worth, said with it. */
function unsaidWords(report: ReleaseReport): string | undefined {
  const { undeclared } = report;
  if (report.nothingDone) return "over a sheet that holds no work: nothing was done on it, so nothing was checked.";
  if (undeclared.length === 0) return undefined;
  const names = listed([...undeclared.slice(0, 3).map((it) => `\`${it}\``), ...(undeclared.length > 3 ? [`${undeclared.length - 3} more`] : [])]);
  const few = `${names} ${undeclared.length === 1 ? "isn't declared, so nothing about it was" : "aren't declared, so nothing about them was"} checked.`;
  return report.nothingDeclared ? `over a sheet that declares nothing: ${few}` : `but ${few} Nothing else on the sheet stands in the way.`;
}

/** What is open, by the head that it stands under, worst first. */
export function byGroup(open: readonly OpenItem[]): { readonly group: OpenGroup; readonly rows: readonly OpenItem[] }[] {
  return openGroups.map((group) => ({ group, rows: open.filter((it) => it.group === group) })).filter((it) => it.rows.length > 0);
}

/** How the release stands, as a sign that is told by its shape. */
export function releaseSign(report: ReleaseReport): string {
  return report.released ? "\u2713" : report.open.length === 0 ? "\u2026" : "\u2717";
}

/** “tightened to 140 lbf.ft (130 .. 150 lbf.ft) by torque wrench; new split pin 5/32 x 1-1/4 in”. */
export function fastWords(it: FastRecord): string {
  const range = it.range === undefined ? "" : ` (${it.range})`;
  const gauge = it.gauge === undefined ? "" : ` by ${it.gauge}`;
  return `${it.day === undefined ? "" : `${it.day}: `}${it.of}: ${it.to}${range}${gauge}; ${it.lockedBy}`;
}

/** “photos/marks.png, of Links, cover, worm”, and why it can't be shown where it can't. */
export function photoWords(it: Photo): string {
  return `${it.path}, of ${it.of}${it.day === undefined ? "" : `, ${it.day}`}${it.whyNot === undefined ? "" : `: ${it.whyNot}`}`;
}

export function recordWords(it: Record): string {
  return `${it.day === undefined ? "" : `${it.day}: `}${it.text}${it.by === undefined ? "" : `, by ${it.by}`}`;
}

export function recheckWords(it: Recheck): string {
  return `${it.of} after ${it.after}${it.due === undefined ? "" : `, at ${it.due}`}${it.done === undefined ? "" : `: done ${it.done}`}`;
}

export function concessionWords(it: ConcessionItem): string {
  return `${it.of}${it.place === undefined ? "" : ` ${it.place}`}: ${it.why}, by ${it.by}${it.day === undefined ? "" : ` on ${it.day}`}`;
}

/** What was said, without its advice, and why that is right so. */
export function acceptedWords(it: PardonRecord): string {
  return `${firstSentence(it.message)} Accepted: “${it.why}” (${it.rule})`;
}

/** What was said, without its advice, and what came of it, by whom. */
export function admittedWords(it: PardonRecord): string {
  return `${firstSentence(it.message)} Owned up to by ${it.by ?? ""}: “${it.why}” (${it.rule})`;
}

/** A place to sign, on paper. */
export const signHere = "Signed: ______________________________   Date: ____________";

export const photosMissing = "Photos that can't be shown";
