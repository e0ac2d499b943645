// Diagnostics as a person reads them in a terminal: the place, what is wrong, the line with carets under the words.
// Invariant: nothing of a sheet reaches the terminal that could move its cursor, change its colours or turn its writing around.
import { lineText } from "../../grammar/sheet-text.ts";
import type { Workspace } from "../disk/workspace.ts";
import type { Diagnostic, Severity } from "../service.ts";
import { cells, visible } from "./visible.ts";

const severities: readonly Severity[] = ["error", "warning", "information", "hint"];
const plural: Readonly<Record<Severity, readonly [string, string]>> = {
  error: ["error", "errors"],
  warning: ["warning", "warnings"],
  information: ["information", "information"],
  hint: ["hint", "hints"],
};
const colours: Readonly<Record<Severity, string>> = { error: "1;31", warning: "1;33", information: "1;36", hint: "2" };

export function drawDiagnostics(
  diagnostics: readonly Diagnostic[],
  workspace: Workspace,
  screen: { readonly colour: boolean; readonly width: number },
  { hints = false, brief = false }: { readonly hints?: boolean; readonly brief?: boolean } = {},
): string {
  const paint = (code: string, text: string) => (screen.colour ? `\u001b[${code}m${text}\u001b[0m` : text);
  const out: string[] = [];
  // What is done or known already waits in one line at the end, so that the first thing seen is one to act on.
  const faint = hints ? [] : diagnostics.filter((it) => it.severity === "hint");
  for (const it of diagnostics) {
    if (!hints && it.severity === "hint") continue;
    const place = `${visible(workspace.shown(it.file))}:${it.line + 1}:${it.from + 1}`;
    if (brief) {
      out.push(`${paint("1", place)}  ${paint(colours[it.severity], it.severity)}  ${visible(it.message)}`);
      continue;
    }
    out.push(`${paint("1", place)}  ${paint(colours[it.severity], it.severity)}  ${paint("2", it.rule)}`);
    out.push(`  ${visible(it.message)}`);
    const sheet = workspace.files.read(it.file);
    if (typeof sheet !== "string") out.push(...drawLine(lineText(sheet, it.line), it, screen.width, (text) => paint(colours[it.severity], text)));
    for (const related of it.related) out.push(`      ${visible(workspace.shown(related.file))}:${related.line + 1}  ${visible(related.message)}`);
    out.push("");
  }
  if (brief && out.length > 0) out.push("");
  if (faint.length > 0) {
    const lines = [...new Set(faint.map((it) => it.line + 1))];
    const where =
      workspace.sheets.length > 1 ? "" : ` (${lines.length === 1 ? "line" : "lines"} ${lines.slice(0, 8).join(", ")}${lines.length > 8 ? " …" : ""})`;
    out.push(paint(colours.hint, `Done or known already: ${faint.length}${where}. --hints shows ${faint.length === 1 ? "it" : "them"}.`));
  }
  out.push(summary(diagnostics, workspace.sheets.length));
  return `${out.join("\n")}\n`;
}

/** The line and its carets, cut to the screen around the words that are meant. */
function drawLine(
  text: string,
  at: { readonly line: number; readonly from: number; readonly to: number },
  width: number,
  paint: (text: string) => string,
): string[] {
  const number = String(at.line + 1).padStart(5);
  const room = Math.max(40, width - 10);
  // A long line is shown from a little before the words that are meant.
  const start = at.from > room - 10 ? Math.max(0, at.from - 20) : 0;
  const before = visible(text.slice(start, at.from));
  const meant = visible(text.slice(at.from, Math.min(at.to, at.from + 500)));
  const behind = visible(text.slice(at.to, at.to + room));
  const left = (start > 0 ? "… " : "") + before;
  const shown = cut(left + meant + behind, room);
  const carets = "^".repeat(Math.max(1, Math.min(cells(meant), room - cells(left))));
  return [`${number} | ${shown}`.trimEnd(), `${" ".repeat(5)} | ${" ".repeat(cells(left))}${paint(carets)}`];
}

function cut(text: string, room: number): string {
  if (cells(text) <= room) return text;
  let out = "";
  let used = 0;
  for (const letter of text) {
    used += cells(letter);
    if (used > room - 2) break;
    out += letter;
  }
  return `${out} …`;
}

function summary(diagnostics: readonly Diagnostic[], sheets: number): string {
  const counted = severities
    .map((severity) => ({ severity, count: diagnostics.filter((it) => it.severity === severity).length }))
    .filter(({ count }) => count > 0)
    .map(({ severity, count }) => `${count} ${plural[severity][count === 1 ? 0 : 1]}`);
  return `${counted.length === 0 ? "Nothing to say" : counted.join(", ")} in ${sheets} ${sheets === 1 ? "sheet" : "sheets"}.`;
}
