// The words that every drawing of a release shares.
import { counted } from "../rules/wording.ts";
import type { ConcessionItem, OpenItem, Recheck, Record, ReleaseReport } from "./release.ts";

export function releaseTitle(report: ReleaseReport): string {
  return [report.title, report.machine, report.serial].filter((it) => it !== undefined).join(", ");
}

export function releaseHeadline(report: ReleaseReport): string {
  if (report.released) {
    const by = report.releasedBy === undefined ? "" : ` by ${report.releasedBy}`;
    const on = report.releasedOn === undefined ? "" : ` on ${report.releasedOn}`;
    return `Released${by}${on}. Nothing on the sheet stands in the way.`;
  }
  if (report.open.length === 0) return "Not released. Nothing on the sheet stands in the way; it waits for somebody to write `release`.";
  return `Not released. ${counted(report.open.length, "thing stands", "things stand")} in the way, worst first.`;
}

/** The severity as a word that does not hang on a colour. */
export function severityWord(it: OpenItem): string {
  return it.severity === "error" ? "Unsafe or open" : it.severity === "warning" ? "In doubt" : "To be looked at";
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
