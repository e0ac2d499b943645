// For tests of rules: sheets given by name, what is said of the first of them, and a fix applied to its text.
import { readSheet } from "../../grammar/sheet-text.ts";
import type { FileAnswer, Files, PriceAnswer } from "../../server/model/files.ts";
import { type Diagnostic, type TextEdit, checkFile } from "../../server/rules/check.ts";

export const sheetName = "sheet.jobsheet";

export function filesOf(texts: Readonly<Record<string, string>>): Files {
  const sheets = Object.entries(texts).filter(([path]) => path.endsWith(".jobsheet"));
  const read = new Map<string, FileAnswer>(sheets.map(([path, text]) => [path, readSheet(text)]));
  const lists = new Map<string, PriceAnswer>(Object.entries(texts).flatMap(([path, text]) => (path.endsWith(".csv") ? [[path, { text }]] : [])));
  return { read: (path) => read.get(path) ?? "missing", jobsheets: () => [...read.keys()], prices: (path) => lists.get(path) ?? "missing" };
}

/** What is said of a sheet, by every rule. */
export function said(text: string, others: Readonly<Record<string, string>> = {}): readonly Diagnostic[] {
  return checkFile(filesOf({ ...others, [sheetName]: text }), sheetName);
}

/** What one rule says of a sheet: `line:from-to message`, lines from 1, columns from 0, with the words under the squiggle. */
export function saidBy(rule: string, text: string, others: Readonly<Record<string, string>> = {}): string[] {
  const lines = text.split("\n");
  return said(text, others)
    .filter((it) => it.rule === rule)
    .map((it) => `${it.line + 1} ${it.severity} [${lines[it.line]?.slice(it.from, it.to)}] ${it.message}`);
}

/** The titles of the fixes that a rule offers, diagnostic by diagnostic. */
export function fixesOf(rule: string, text: string, others: Readonly<Record<string, string>> = {}): string[][] {
  return said(text, others)
    .filter((it) => it.rule === rule)
    .map((it) => it.fixes.map((fix) => fix.title));
}

/** The text with a fix done to it. Edits of other files are left out. */
export function apply(text: string, edits: readonly TextEdit[]): string {
  const lines = text.split("\n");
  const own = edits.filter((it) => it.file === sheetName).sort((a, b) => b.line - a.line || b.from - a.from);
  for (const edit of own) {
    const line = lines[edit.line] ?? "";
    lines[edit.line] = line.slice(0, edit.from) + edit.text + line.slice(edit.to);
  }
  return lines.join("\n");
}

/** What the first fix of the first diagnostic of a rule makes of a sheet; undefined where none is offered. */
export function fixed(rule: string, text: string, nth = 0, others: Readonly<Record<string, string>> = {}): string | undefined {
  const fix = said(text, others).find((it) => it.rule === rule)?.fixes[nth];
  return fix === undefined ? undefined : apply(text, fix.edits);
}

/** A sheet without its expectation comments. */
export function bare(text: string): string {
  return text
    .split("\n")
    .filter((line) => !/^#[ \t]*\^/.test(line))
    .join("\n");
}
