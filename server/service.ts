// The whole core as one service: what a door can ask of the sheets that it has, by path, line and column. The command line, the language server and a page in a
// browser are lists over it, and know no rule, no report and no figure by themselves.
// Invariant: pure, as the core is. What a check does not need (reports, figures) is loaded when it is asked for, and not before.
import { formatSheet } from "../grammar/format.ts";
import type { SheetText } from "../grammar/sheet-text.ts";
import type { NameAt } from "./features/at.ts";
import { type Circumstances, type Completion, completionsAt } from "./features/completion.ts";
import { referencesAt } from "./features/everywhere.ts";
import type { Answer } from "./features/figure.ts";
import type { Hover } from "./features/hover.ts";
import { type Place, definitionsAt, renamableAt } from "./features/names.ts";
import type { Fold } from "./features/folding.ts";
import type { HintKind } from "./features/hint-kinds.ts";
import type { Highlight } from "./features/highlights.ts";
import type { InlayHint } from "./features/inlay-hints.ts";
import type { Lens } from "./features/lenses.ts";
import type { FileLink } from "./features/links.ts";
import type { Insertion, LimitOffered } from "./features/mark-done.ts";
import { type OutlineNode, outlineByDay } from "./features/outline.ts";
import type { Signature } from "./features/signature.ts";
import type { Standing } from "./features/standing.ts";
import type { SymbolFound } from "./features/symbols.ts";
import { type Renamed, renamed } from "./features/rename.ts";
import type { Files } from "./model/files.ts";
import { type Job, buildJob } from "./model/job.ts";
import type { Slices } from "../grammar/slices.ts";
import { reports } from "./reports/all.ts";
import type { CheckedSheets } from "./reports/check/sarif.ts";
import type { Verified } from "./reports/hand-over/verify.ts";
import { type Around, type Asked, type Made, type Refused, type Report, type Written, jobsAskedFrom } from "./reports/report.ts";
import { type Checked, type Diagnostic, checkFile, checking, ofLines, standingMeanwhile } from "./rules/check.ts";
import type { RulePage } from "./rules/rule.ts";

export type { NameAt } from "./features/at.ts";
export type { Completion } from "./features/completion.ts";
export type { Answer } from "./features/figure.ts";
export { type FixOffered, fixesFor, spellings } from "./features/fixes.ts";
export type { Hover } from "./features/hover.ts";
export type { Place } from "./features/names.ts";
export { type NewSheet, type Start, type WrittenSheet, isFileName, newSheet, titleOf } from "./features/new-sheet.ts";
export { type HintKind, hintKinds, usualHints } from "./features/hint-kinds.ts";
export type { Highlight } from "./features/highlights.ts";
export type { InlayHint } from "./features/inlay-hints.ts";
export type { Lens } from "./features/lenses.ts";
export type { FileLink } from "./features/links.ts";
export type { Insertion, LimitOffered } from "./features/mark-done.ts";
export type { OutlineItem, OutlineNode } from "./features/outline.ts";
export { tokenModifiers, tokenTypes } from "./features/token-words.ts";
export type { Standing } from "./features/standing.ts";
export { worstFirst } from "./features/worst-first.ts";
export type { Renamed } from "./features/rename.ts";
export { asSnippet } from "./features/snippets.ts";
export { type FileAnswer, type Files, type PhotoAnswer, type PriceAnswer, type PriceFile, headAt, pricesAt, sheetAt } from "./model/files.ts";
export type { Slices } from "../grammar/slices.ts";
export { reports } from "./reports/all.ts";
export { type CheckJson, checkJson } from "./reports/check/json.ts";
export type { CheckedSheets } from "./reports/check/sarif.ts";
export { json } from "./reports/draw/as-json.ts";
export type { PhotoSource } from "./reports/draw/photo-source.ts";
export { type Around, type Asked, type Made, Refused, type Report, type Written } from "./reports/report.ts";
export type { Verified } from "./reports/hand-over/verify.ts";
export { rules } from "./rules/all.ts";
export { isUnclear } from "./rules/unclear.ts";
export type { Checked, Diagnostic } from "./rules/check.ts";
export type { Rule, RulePage, Severity } from "./rules/rule.ts";
export type { Solver } from "./supply/solver.ts";

/** Lines and columns count from 0, columns in UTF-16 units. Of a sheet that is not there nothing is said. */
export interface Service {
  readonly files: Files;
  /** What is wrong in it, in the order of its lines, each with its fixes. */
  check(path: string): readonly Diagnostic[];
  /** The same in slices, for a door that has others to serve meanwhile. */
  checking(path: string): Slices<Checked | undefined>;
  /** What a text says line by line: before its check, which takes it up, or where it is too long for one. `before`: the same of an earlier text. */
  ofLines(path: string, sheet: SheetText, before?: Checked): Slices<Checked>;
  /** What can be said of a text that is not checked yet, by an earlier check. */
  meanwhile(path: string, before: Checked | undefined): Slices<Checked | undefined>;
  /** With the figures of the bench that bear on what is there, which are loaded for the first one. */
  hover(path: string, line: number, column: number): Promise<Hover | undefined>;
  complete(path: string, line: number, column: number, circumstances?: Circumstances): readonly Completion[];
  definitions(path: string, line: number, column: number): readonly Place[];
  references(path: string, line: number, column: number, withDeclarations: boolean): readonly Place[];
  /** The name there, where it can be renamed. */
  renamable(path: string, line: number, column: number): NameAt | undefined;
  /** Where a new name is to be written, in all sheets that know the name from the same declaration; or why it can't be given. */
  rename(path: string, line: number, column: number, name: string): Renamed | { readonly why: string } | undefined;
  /** By day. */
  symbols(path: string): readonly OutlineNode[];
  /** Over all sheets: those whose name or title holds the letters. */
  symbolsNamed(letters: string): Promise<Slices<readonly SymbolFound[]>>;
  /** Beside the lines from `from` to `to`, by what the last check made. */
  hints(
    path: string,
    checked: Checked | undefined,
    lines: { readonly from: number; readonly to: number },
    kinds: readonly HintKind[],
  ): Promise<readonly InlayHint[]>;
  /** Names coloured by what has become of the thing, as the protocol counts them. */
  tokens(path: string, checked: Checked | undefined, lines: { readonly from: number; readonly to: number }): Promise<readonly number[]>;
  lenses(path: string): Promise<readonly Lens[]>;
  /** What a lens says; `today` is ISO 8601, as below. */
  lensText(path: string, lens: Lens, checked: Checked | undefined, today: string): Promise<string>;
  highlights(path: string, line: number, column: number): Promise<readonly Highlight[]>;
  links(path: string): Promise<readonly FileLink[]>;
  folds(path: string): Promise<readonly Fold[]>;
  /** How the line is written, and what of it comes next. */
  signature(path: string, line: number, column: number): Promise<Signature | undefined>;
  /** Status with a job; undefined for what is none. */
  standing(path: string, today: string, checked?: Checked): Promise<Standing | undefined>;
  /** What marks the step at a line as done; a text where it can't be. */
  markDone(path: string, line: number, today: string): Promise<Insertion | string | undefined>;
  /** A reading of each limit, with blanks for its figures. */
  readings(path: string, today: string): Promise<readonly LimitOffered[]>;
  /** The paths among them that are jobs; of none, all: a data file is there for others to use, and on its own it is no job. */
  jobs(paths: readonly string[]): readonly string[];
  /** The jobs that a report is of, where one sheet asks for it: its own, or all of its machine or of the workspace. */
  jobsOf(report: Report, path: string): readonly string[];
  /** A report of these jobs; refused where what was asked for makes no sense, undefined where there is nothing to report. */
  report(report: Report, paths: readonly string[], asked: Asked, around: Around, shown?: (path: string) => string): Promise<Made | Refused | undefined>;
  /** What a report would write into its sheet. */
  edit(report: Report, path: string): Promise<Written | undefined>;
  /** Whether a report of the sheet shows this photo, `inside` being its path in the workspace. */
  showsPhoto(path: string, inside: string): Promise<boolean>;
  /** Whether what a hand-over was made from is as it was; `page` is its text, `namesOf` gives the names that a path goes by here. Undefined of what is no hand-over. */
  verify(sheets: readonly string[], page: string, namesOf: (path: string) => readonly string[]): Promise<Verified | undefined>;
}

export function open(files: Files): Service {
  const of = <T>(path: string, ask: (job: Job) => T): T | undefined => {
    const job = buildJob(files, path);
    return job === undefined ? undefined : ask(job);
  };
  const inSheet = <T>(path: string, ask: (sheet: SheetText) => T): T | undefined => {
    const sheet = files.read(path);
    return typeof sheet === "string" ? undefined : ask(sheet);
  };
  return {
    files,
    check: (path) => checkFile(files, path),
    checking: (path) => checking(files, path),
    ofLines,
    meanwhile: (path, before) => standingMeanwhile(files, path, before),
    async hover(path, line, column) {
      const { hoverAt } = await import("./features/hover.ts");
      return of(path, (job) => hoverAt(job, line, column));
    },
    complete: (path, line, column, circumstances) => of(path, (job) => completionsAt(job, line, column, circumstances)) ?? [],
    definitions: (path, line, column) => of(path, (job) => definitionsAt(job, line, column)) ?? [],
    references: (path, line, column, withDeclarations) => of(path, (job) => referencesAt(files, job, line, column, withDeclarations)) ?? [],
    renamable: (path, line, column) => of(path, (job) => renamableAt(job, line, column)),
    rename: (path, line, column, name) => of(path, (job) => renamed(files, job, line, column, name)),
    symbols(path) {
      const sheet = files.read(path);
      return typeof sheet === "string" ? [] : outlineByDay(sheet);
    },
    symbolsNamed: async (letters) => (await import("./features/symbols.ts")).findingSymbols(files, letters),
    async hints(path, checked, { from, to }, kinds) {
      const { hintsIn } = await import("./features/inlay-hints.ts");
      const story = checked?.story;
      return story === undefined ? [] : (inSheet(path, (sheet) => hintsIn(sheet, { story, list: checked?.list ?? [], from, to, kinds })) ?? []);
    },
    async tokens(path, checked, { from, to }) {
      const { encoded, tokensIn } = await import("./features/semantic-tokens.ts");
      const story = checked?.story;
      return story === undefined ? [] : (inSheet(path, (sheet) => encoded(tokensIn(sheet, story, from, to))) ?? []);
    },
    async lenses(path) {
      const { lensesIn } = await import("./features/lenses.ts");
      return inSheet(path, lensesIn) ?? [];
    },
    async lensText(path, lens, checked, today) {
      const { lensText } = await import("./features/lenses.ts");
      return inSheet(path, (sheet) => lensText(sheet, lens, { story: checked?.story, list: checked?.list ?? [], today })) ?? "";
    },
    async highlights(path, line, column) {
      const { highlightsAt } = await import("./features/highlights.ts");
      return inSheet(path, (sheet) => highlightsAt(sheet, line, column)) ?? [];
    },
    async links(path) {
      const { linksIn } = await import("./features/links.ts");
      return inSheet(path, (sheet) => linksIn(sheet, path)) ?? [];
    },
    async folds(path) {
      const { foldsIn } = await import("./features/folding.ts");
      return inSheet(path, foldsIn) ?? [];
    },
    async signature(path, line, column) {
      const { signatureAt } = await import("./features/signature.ts");
      return inSheet(path, (sheet) => signatureAt(sheet, line, column));
    },
    standing: async (path, today, checked) => (await import("./features/standing.ts")).standingOf(files, path, today, checked),
    async markDone(path, line, today) {
      const { markDone } = await import("./features/mark-done.ts");
      return inSheet(path, (sheet) => markDone(sheet, line, today));
    },
    async readings(path, today) {
      const { readingsOffered } = await import("./features/mark-done.ts");
      return of(path, (job) => readingsOffered(job, today)) ?? [];
    },
    jobs(paths) {
      const jobs = paths.filter((path) => {
        const sheet = files.read(path);
        return typeof sheet !== "string" && sheet.entries.some((entry) => entry.kind === "sheet");
      });
      return jobs.length === 0 ? paths : jobs;
    },
    jobsOf: (report, path) => jobsAskedFrom(report, files, path),
    report: (report, paths, asked, around, shown) => report.make(files, paths, asked, around, shown),
    edit: (report, path) => report.edit(files, path),
    async showsPhoto(path, inside) {
      for (const report of reports) if ((await report.photos(files, path)).includes(inside)) return true;
      return false;
    },
    verify: async (sheets, page, namesOf) => (await import("./reports/hand-over/verify.ts")).verified(files, sheets, page, namesOf),
  };
}

/** What is told of a rule besides its title: why it matters, and examples. Undefined of what is no rule. */
export async function pageOfRule(id: string): Promise<RulePage | undefined> {
  return (await import("./rules/pages.ts")).pages.get(id);
}

/** What a check has found, for other programs: SARIF 2.1.0 or JUnit XML. */
export async function checkedAs(format: "sarif" | "junit", checked: CheckedSheets): Promise<string> {
  return format === "sarif" ? (await import("./reports/check/sarif.ts")).sarif(checked) : (await import("./reports/check/junit.ts")).junit(checked);
}

/** The facts of a sheet, a line each, without layout and comments. */
export async function facts(text: string): Promise<string> {
  return (await import("./features/facts.ts")).factsOf(text);
}

/** A text with the layout that the language asks for. */
export function format(text: string): string {
  return formatSheet(text);
}

/** A figure for the bench: one question, answered without a sheet. */
export async function figure(question: string): Promise<Answer> {
  return (await import("./features/figure.ts")).figure(question);
}
