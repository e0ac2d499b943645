// What stands in the way of release, for the terminal: words and lines, no colour.
import { type ReleaseReport, notAnInspection } from "./release.ts";
import { capital, counted } from "../rules/wording.ts";

export function releaseText(report: ReleaseReport): string {
  const out: string[] = [];
  const head = [report.title, report.machine, report.serial].filter((it) => it !== undefined).join(", ");
  out.push(head, "=".repeat(Math.min(head.length, 100)), "");
  if (report.released) {
    out.push(`RELEASED${report.releasedBy === undefined ? "" : ` by ${report.releasedBy}`}${report.releasedOn === undefined ? "" : ` on ${report.releasedOn}`}. Nothing on the sheet stands in the way.`, "");
  } else if (report.open.length === 0) {
    out.push("NOT RELEASED. Nothing on the sheet stands in the way; it waits for somebody's `release`.", "");
  } else {
    out.push(`NOT RELEASED. ${capital(counted(report.open.length, "thing stands", "things stand"))} in the way, worst first:`, "");
    for (const it of report.open) out.push(`  ${it.severity === "error" ? "ERROR  " : it.severity === "warning" ? "WARNING" : "INFO   "}  ${it.file}:${it.line}  ${it.message}  (${it.rule})`);
    out.push("");
  }
  const list = (title: string, rows: readonly { readonly text: string; readonly day?: string; readonly by?: string; readonly line: number }[]) => {
    if (rows.length === 0) return;
    out.push(`${title}:`);
    for (const it of rows) out.push(`  ${it.day === undefined ? "" : `${it.day}  `}${it.text}${it.by === undefined ? "" : `, by ${it.by}`}  (line ${it.line})`);
    out.push("");
  };
  if (report.released) {
    list("What was found", report.found);
    list("What was done", report.done);
    list("What was fitted new", report.fitted);
    list("What was read", report.readings);
    list("What was tried", report.tests);
  }
  if (report.concessions.length > 0) {
    out.push("Accepted outside its limit:");
    for (const it of report.concessions) out.push(`  ${it.of}${it.place === undefined ? "" : ` ${it.place}`}: ${it.why}, by ${it.by}  (line ${it.line})`);
    out.push("");
  }
  if (report.rechecks.length > 0) {
    out.push("To be looked at again:");
    for (const it of report.rechecks) out.push(`  ${it.of} after ${it.after}${it.due === undefined ? "" : `, at ${it.due}`}${it.done === undefined ? "" : `: done ${it.done}`}  (line ${it.line})`);
    out.push("");
  }
  out.push(notAnInspection, "");
  return out.join("\n");
}
