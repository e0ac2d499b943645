// Expectations that stand in a sheet as comments: what the checker should say of the line above, and nothing else.
//
//   finding hub-nut right
//     is loose, unlocked
//   #    ^^^^^ error found-loose
//   #           ^^^^^^^^ error locking-absent (fix)
//
// The `#` stands at column 0 (it is set in here to be shown). The carets mark UTF-16 columns of the nearest line above that is no
// expectation. A squiggle from column 0 has its carets right behind the `#`, which counts as the first of them.
// Invariant: pure; reads texts and diagnostics, and knows neither the disk nor the checker.

export type Severity = "error" | "warning" | "information" | "hint";

/** What is compared of a diagnostic. Lines and columns from 0, `to` exclusive. */
export interface Said {
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly severity: Severity;
  readonly rule: string;
  readonly message?: string;
  readonly fixes?: readonly unknown[];
}

export interface Expectation {
  /** The line that it speaks of. */
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly severity: Severity;
  readonly rule: string;
  /** `(fix)`: at least one fix is offered. Where it is not written, nothing is asked. */
  readonly fix: boolean;
  /** The line that the expectation itself stands on. */
  readonly writtenAt: number;
}

export interface Expectations {
  readonly expected: readonly Expectation[];
  /** Lines with carets that can't be read as an expectation. They fail, so that no slip of the pen passes for a check. */
  readonly unreadable: readonly { readonly line: number; readonly text: string }[];
}

export interface Comparison {
  readonly same: boolean;
  /** For a person: each difference with its line, empty where there is none. */
  readonly report: string;
}

const expectationLine = /^#( *)(\^+) +(error|warning|information|hint) +([a-z][a-z0-9-]*)( +\(fix\))?[ \t]*$/;
const caretLine = /^#[ \t]*\^/;

/** Reads the expectations of a sheet's text. */
export function readExpectations(text: string): Expectations {
  const expected: Expectation[] = [];
  const unreadable: { line: number; text: string }[] = [];
  let speaksOf = -1;
  for (const [line, content] of linesOf(text).entries()) {
    if (!caretLine.test(content)) {
      speaksOf = line;
      continue;
    }
    const parts = expectationLine.exec(content);
    if (parts === null || speaksOf < 0) {
      unreadable.push({ line, text: content });
      continue;
    }
    const [, blanks = "", carets = "", severity, rule = "", fix] = parts;
    const from = blanks === "" ? 0 : 1 + blanks.length;
    const to = blanks === "" ? 1 + carets.length : from + carets.length;
    expected.push({ line: speaksOf, from, to, severity: severity as Severity, rule, fix: fix !== undefined, writtenAt: line });
  }
  return { expected, unreadable };
}

/**
 * Compares what a sheet expects with what the checker said of that sheet, as whole sets: what is missing and what nobody
 * expected are both differences. The same thing said twice of one place counts once.
 */
export function compareExpectations(text: string, said: readonly Said[], name = "sheet"): Comparison {
  const { expected, unreadable } = readExpectations(text);
  const lines = linesOf(text);
  const saidByKey = new Map<string, Said>();
  for (const one of said) {
    const key = keyOf(one);
    const before = saidByKey.get(key);
    if (before === undefined || !hasFix(before)) saidByKey.set(key, one);
  }
  const expectedKeys = new Set(expected.map(keyOf));
  const missing = expected.filter((one) => !saidByKey.has(keyOf(one)));
  const unexpected = [...saidByKey.values()].filter((one) => !expectedKeys.has(keyOf(one)));
  const parts: { line: number; text: string }[] = [];
  for (const one of unreadable) parts.push({ line: one.line, text: `an expectation that can't be read: ${one.text}` });
  for (const one of missing) {
    const near = unexpected.find((other) => other.line === one.line && other.rule === one.rule);
    const aside =
      near === undefined
        ? ""
        : near.severity !== one.severity
          ? `; said as ${near.severity}`
          : `; said at columns ${near.from} to ${near.to}, ${shown(lines[near.line], near)}`;
    parts.push({ line: one.line, text: `missing     ${one.severity} ${one.rule} at columns ${one.from} to ${one.to}, ${shown(lines[one.line], one)}${aside}` });
  }
  for (const one of unexpected) {
    const wording = one.message === undefined ? "" : `\n                ${one.message}`;
    parts.push({
      line: one.line,
      text: `unexpected  ${one.severity} ${one.rule} at columns ${one.from} to ${one.to}, ${shown(lines[one.line], one)}${wording}`,
    });
  }
  for (const one of expected) {
    const found = saidByKey.get(keyOf(one));
    if (one.fix && found !== undefined && !hasFix(found)) parts.push({ line: one.line, text: `no fix      ${one.severity} ${one.rule} offers none` });
  }
  parts.sort((a, b) => a.line - b.line);
  const report = parts.map((part) => `${name}:${part.line + 1}: ${part.text}\n      | ${lines[part.line] ?? ""}`).join("\n");
  return { same: parts.length === 0, report };
}

/** The text with its expectations taken out and what the checker said written in their stead. All else stays, byte for byte. */
export function rewriteExpectations(text: string, said: readonly Said[]): string {
  const byLine = new Map<number, Said[]>();
  for (const one of said) {
    const list = byLine.get(one.line) ?? [];
    if (!list.some((other) => keyOf(other) === keyOf(one) && (hasFix(other) || !hasFix(one)))) {
      byLine.set(one.line, [...list.filter((other) => keyOf(other) !== keyOf(one)), one]);
    }
  }
  return respell(text, (line) =>
    (byLine.get(line) ?? [])
      .slice()
      .sort(inLine)
      .map((one) => spellExpectation(one, hasFix(one))),
  );
}

/**
 * Moves carets only: where a line says a rule at a severity as often as it expects it, the expectations take the columns that
 * were said. What is expected and not said stays as it is, so that this can hide no difference but one of columns.
 */
export function realignExpectations(text: string, said: readonly Said[]): string {
  const { expected } = readExpectations(text);
  const kind = (one: { line: number; severity: string; rule: string }): string => `${one.line} ${one.severity} ${one.rule}`;
  const unique = [...new Map(said.map((one) => [keyOf(one), one])).values()].sort(inLine);
  const byLine = new Map<number, string[]>();
  const done = new Map<string, number>();
  for (const one of expected) {
    const mine = expected.filter((other) => kind(other) === kind(one));
    const theirs = unique.filter((other) => kind(other) === kind(one));
    const turn = done.get(kind(one)) ?? 0;
    done.set(kind(one), turn + 1);
    const columns = mine.length === theirs.length ? (theirs[turn] ?? one) : one;
    const list = byLine.get(one.line) ?? [];
    list.push(spellExpectation({ ...one, from: columns.from, to: columns.to }, one.fix));
    byLine.set(one.line, list);
  }
  return respell(text, (line) => byLine.get(line) ?? []);
}

/** One expectation as a comment line. */
export function spellExpectation(one: Said, fix: boolean): string {
  const { from, to } = columnsOf(one);
  const carets = from === 0 ? `#${"^".repeat(to - 1)}` : `#${" ".repeat(from - 1)}${"^".repeat(to - from)}`;
  return `${carets} ${one.severity} ${one.rule}${fix ? " (fix)" : ""}`;
}

// Every squiggle has a column or more; one from column 0 has two, for the `#` is the first of its carets and a caret must follow.
// A squiggle at column 1 with a blank before its caret can't be told from column 0 without one, so the form has no gap there.
function columnsOf(one: { readonly from: number; readonly to: number }): { from: number; to: number } {
  if (one.from <= 0) return { from: 0, to: Math.max(one.to, 2) };
  if (one.from === 1) return { from: 0, to: Math.max(one.to, 2) };
  return { from: one.from, to: Math.max(one.to, one.from + 1) };
}

function keyOf(one: { line: number; from: number; to: number; severity: string; rule: string }): string {
  const { from, to } = columnsOf(one);
  return `${one.line} ${from} ${to} ${one.severity} ${one.rule}`;
}

function hasFix(one: Said): boolean {
  return (one.fixes?.length ?? 0) > 0;
}

function inLine(a: Said, b: Said): number {
  return a.line - b.line || a.from - b.from || a.to - b.to || a.rule.localeCompare(b.rule);
}

function shown(line: string | undefined, one: { from: number; to: number }): string {
  const under = (line ?? "").slice(one.from, one.to);
  return under === "" ? "behind the last word" : `“${under}”`;
}

// Takes the expectations out and puts in those that are given for each line that stays. Each line keeps its own line break.
function respell(text: string, expectationsOf: (line: number) => readonly string[]): string {
  const parts = text.split(/(\r\n|\n|\r)/);
  const usual = parts[1] ?? "\n";
  const out: string[] = [];
  let kept = false;
  for (let line = 0; line * 2 < parts.length; line += 1) {
    const content = parts[line * 2] ?? "";
    const lineBreak = parts[line * 2 + 1];
    if (kept && caretLine.test(content) && expectationLine.test(content)) {
      if (lineBreak === undefined) out.pop();
      continue;
    }
    kept = true;
    out.push(content);
    const expectations = expectationsOf(line);
    for (const expectation of expectations) out.push(lineBreak ?? usual, expectation);
    if (lineBreak !== undefined) out.push(lineBreak);
  }
  return out.join("");
}

function linesOf(text: string): string[] {
  return text.split(/\r\n|\n|\r/);
}
