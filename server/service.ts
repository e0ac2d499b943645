// The whole core as one service: what a door can ask of the sheets that it has, by path, line and column. The command line, the language server and a page in a
// browser are lists over it, and know no rule, no report and no figure by themselves.
// Invariant: pure, as the core is. What a check does not need (reports, figures) is loaded when it is asked for, and not before.
import { formatSheet, layingOut } from "../grammar/format.ts";
import type { SheetText } from "../grammar/sheet-text.ts";
import type { NameAt } from "./features/at.ts";
import type { Completion } from "./features/completion.ts";
import type { Answer } from "./features/figure.ts";
import type { Hover } from "./features/hover.ts";
import type { Place } from "./features/names.ts";
import type { Fold } from "./features/folding.ts";
import type { HintKind } from "./features/hint-kinds.ts";
import type { Highlight } from "./features/highlights.ts";
import type { InlayHint } from "./features/inlay-hints.ts";
import type { Lens } from "./features/lenses.ts";
import type { FileLink } from "./features/links.ts";
import type { Insertion, LimitOffered } from "./features/mark-done.ts";
import type { OutlineNode } from "./features/outline.ts";
import type { Reach } from "./features/reaches.ts";
import type { Signature } from "./features/signature.ts";
import type { Standing } from "./features/standing.ts";
import type { SymbolFound } from "./features/symbols.ts";
import type { Renamed } from "./features/rename.ts";
import type { Files } from "./model/files.ts";
import { type Job, buildingAgain, standingStill } from "./model/job.ts";
import { type Slices, run, runThrough } from "../grammar/slices.ts";
import { reports } from "./reports/all.ts";
import type { CheckedSheets } from "./reports/check/sarif.ts";
import type { Verified } from "./reports/hand-over/verify.ts";
import { type Around, type Made, type Refused, type Report, type Asked as Wishes, type Written, jobsAskedFrom } from "./reports/report.ts";
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
export { type Slices, isSlices } from "../grammar/slices.ts";
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

/** A place in a sheet, and the last check of it, whose job and story are taken where all that they were made of is as it was. */
export interface At {
  readonly path: string;
  readonly line: number;
  readonly column: number;
  readonly checked?: Checked | undefined;
}

/** Lines and columns count from 0, columns in UTF-16 units. Of a sheet that is not there nothing is said. What may take long is given in slices. */
export interface Service extends Checks, AtAPlace, OfASheet, Reports {
  readonly files: Files;
}

export function open(files: Files): Service {
  return { files, ...checks(files), ...atAPlace(files), ...ofASheet(files), ...ofReports(files) };
}

/** What is wrong in a sheet, whole, in slices, or as far as it is known yet. */
interface Checks {
  /** What is wrong in it, in the order of its lines, each with its fixes. */
  check(path: string): readonly Diagnostic[];
  /** The same of many, all as they stand now: what each of them asks of the others is found once. */
  checkAll(paths: readonly string[]): readonly Diagnostic[];
  /** The same in slices, for a door that has others to serve meanwhile. */
  checking(path: string): Slices<Checked | undefined>;
  /** What a text says line by line: before its check, which takes it up, or where it is too long for one. `before`: the same of an earlier text. */
  ofLines(path: string, sheet: SheetText, before?: Checked): Slices<Checked>;
  /** What can be said of a text that is not checked yet, by an earlier check. */
  meanwhile(path: string, before: Checked | undefined): Slices<Checked | undefined>;
}

/** What a person asks at the cursor. */
interface AtAPlace {
  /** With the figures of the bench that bear on what is there, which are loaded for the first one. */
  hover(at: At): Promise<Slices<Hover | undefined>>;
  /** `asked`: the list did not come up by itself. */
  complete(at: At, today?: string, asked?: boolean): Promise<Slices<readonly Completion[]>>;
  definitions(at: At): Promise<Slices<readonly Place[]>>;
  references(at: At, withDeclarations: boolean): Promise<Slices<readonly Place[]>>;
  /** The name there, where it can be renamed. */
  renamable(at: At): Promise<Slices<NameAt | undefined>>;
  /** Where a new name is to be written, in all sheets that know the name from the same declaration; or why it can't be given. */
  rename(at: At, name: string): Promise<Slices<Renamed | { readonly why: string } | undefined>>;
}

/** What an editor shows of a sheet, or writes into it. */
interface OfASheet {
  /** By day. */
  symbols(path: string): Promise<Slices<readonly OutlineNode[]>>;
  /** Over all sheets: those whose name or title holds the letters. */
  symbolsNamed(letters: string): Promise<Slices<readonly SymbolFound[]>>;
  /** Beside the lines from `from` to `to`, by what the last check made. */
  hints(
    path: string,
    checked: Checked | undefined,
    lines: { readonly from: number; readonly to: number },
    kinds: readonly HintKind[],
  ): Promise<Slices<readonly InlayHint[]>>;
  /** Names coloured by what has become of the thing, as the protocol counts them. */
  tokens(path: string, checked: Checked | undefined, lines: { readonly from: number; readonly to: number }): Promise<Slices<readonly number[]>>;
  lenses(path: string): Promise<readonly Lens[]>;
  /** What a lens says; `today` is ISO 8601, as below. */
  lensText(path: string, lens: Lens, checked: Checked | undefined, today: string): Promise<Slices<string>>;
  highlights(path: string, line: number, column: number): Promise<Slices<readonly Highlight[]>>;
  links(path: string): Promise<Slices<readonly FileLink[]>>;
  folds(path: string): Promise<Slices<readonly Fold[]>>;
  /** What is marked as a selection grows from a place: the smallest first. */
  reaches(path: string, line: number, column: number): Promise<readonly Reach[]>;
  /** How the line is written, and what of it comes next. */
  signature(path: string, line: number, column: number): Promise<Signature | undefined>;
  /** Status with a job; undefined for what is none. */
  standing(path: string, today: string, checked?: Checked): Promise<Slices<Standing | undefined>>;
  /** What marks the step at a line as done; a text where it can't be. */
  markDone(path: string, line: number, today: string, name?: string): Promise<Insertion | string | undefined>;
  /** A reading of each limit, with blanks for its figures. */
  readings(path: string, today: string, checked?: Checked): Promise<Slices<readonly LimitOffered[]>>;
}

interface Reports {
  /** The paths among them that are jobs; of none, all: a data file is there for others to use, and on its own it is no job. */
  jobs(paths: readonly string[]): readonly string[];
  /** The jobs that a report is of, where one sheet asks for it: its own, or all of its machine or of the workspace. */
  jobsOf(report: Report, path: string): readonly string[];
  /** A report of these jobs; refused where what was asked for makes no sense, undefined where there is nothing to report. */
  report(report: Report, paths: readonly string[], asked: Wishes, around: Around, shown?: (path: string) => string): Promise<Made | Refused | undefined>;
  /** The same in slices. */
  reporting(report: Report, paths: readonly string[], asked: Wishes, around: Around): Promise<Slices<Made | Refused | undefined>>;
  /** What a report would write into its sheet. */
  edit(report: Report, path: string): Promise<Slices<Written | undefined>>;
  /** Whether a report of the sheet shows this photo, `inside` being its path in the workspace. */
  showsPhoto(path: string, inside: string): Promise<Slices<boolean>>;
  /** Whether what a hand-over was made from is as it was; `page` is its text, `namesOf` gives the names that a path goes by here. Undefined of what is no hand-over. */
  verify(sheets: readonly string[], page: string, namesOf: (path: string) => readonly string[]): Promise<Verified | undefined>;
}

function checks(files: Files): Checks {
  return {
    check: (path) => checkFile(files, path),
    checkAll(paths) {
      const still = standingStill(files);
      return paths.flatMap((path) => checkFile(still, path));
    },
    checking: (path) => checking(files, path),
    ofLines,
    meanwhile: (path, before) => standingMeanwhile(files, path, before),
  };
}

function atAPlace(files: Files): AtAPlace {
  return {
    async hover(at) {
      const { hoveringAt } = await import("./features/hover.ts");
      return ofJob(files, at, undefined, (job) => hoveringAt(job, at.line, at.column, files));
    },
    async complete(at, today, asked) {
      const { completionsAt } = await import("./features/completion.ts");
      return ofJob(files, at, [], (job) => completionsAt(job, at.line, at.column, { today, asked, story: at.checked?.story }, files));
    },
    async definitions(at) {
      const { definitionsAt } = await import("./features/names.ts");
      return ofJob(files, at, [], (job) => definitionsAt(job, at.line, at.column));
    },
    async references(at, withDeclarations) {
      const { referencesAt } = await import("./features/everywhere.ts");
      return ofJob(files, at, [], (job) => referencesAt(files, job, at.line, at.column, withDeclarations));
    },
    async renamable(at) {
      const { renamableAt } = await import("./features/names.ts");
      return ofJob(files, at, undefined, (job) => renamableAt(job, at.line, at.column));
    },
    async rename(at, name) {
      const { renamed } = await import("./features/rename.ts");
      return ofJob(files, at, undefined, (job) => renamed(files, job, at.line, at.column, name));
    },
  };
}

function ofASheet(files: Files): OfASheet {
  return {
    async symbols(path) {
      const { outliningByDay } = await import("./features/outline.ts");
      return ofText(files, path, [], outliningByDay);
    },
    symbolsNamed: async (letters) => (await import("./features/symbols.ts")).findingSymbols(files, letters),
    async hints(path, checked, { from, to }, kinds) {
      const { hinting } = await import("./features/inlay-hints.ts");
      const story = checked?.story;
      return ofText(files, path, [], (sheet) => (story === undefined ? [] : hinting(sheet, { story, list: checked?.list ?? [], from, to, kinds })));
    },
    async tokens(path, checked, { from, to }) {
      const { colouring, encoded } = await import("./features/semantic-tokens.ts");
      const story = checked?.story;
      return ofText(files, path, [], function* (sheet) {
        return story === undefined ? [] : encoded(yield* colouring(sheet, story, from, to));
      });
    },
    async lenses(path) {
      const { lensesIn } = await import("./features/lenses.ts");
      return runThrough(ofText(files, path, [], lensesIn));
    },
    async lensText(path, lens, checked, today) {
      const { tellingLens } = await import("./features/lenses.ts");
      return ofText(files, path, "", (sheet) => tellingLens(sheet, lens, { story: checked?.story, list: checked?.list ?? [], today }));
    },
    async highlights(path, line, column) {
      const { highlighting } = await import("./features/highlights.ts");
      return ofText(files, path, [], (sheet) => highlighting(sheet, line, column));
    },
    async links(path) {
      const { linking } = await import("./features/links.ts");
      return ofText(files, path, [], (sheet) => linking(sheet, path));
    },
    async folds(path) {
      const { folding } = await import("./features/folding.ts");
      return ofText(files, path, [], folding);
    },
    async reaches(path, line, column) {
      const { reachesAt } = await import("./features/reaches.ts");
      return runThrough(ofText(files, path, [], (sheet) => reachesAt(sheet, line, column)));
    },
    async signature(path, line, column) {
      const { signatureAt } = await import("./features/signature.ts");
      return runThrough(ofText(files, path, undefined, (sheet) => signatureAt(sheet, line, column)));
    },
    standing: async (path, today, checked) => (await import("./features/standing.ts")).tellingStanding(files, path, today, checked),
    async markDone(path, line, today, name) {
      const { markDone } = await import("./features/mark-done.ts");
      return runThrough(ofText(files, path, undefined, (sheet) => markDone(sheet, line, today, name)));
    },
    async readings(path, today, checked) {
      const { readingsOffered } = await import("./features/mark-done.ts");
      return ofJob(files, { path, checked }, [], (job) => readingsOffered(job, today));
    },
  };
}

function ofReports(files: Files): Reports {
  return {
    jobs(paths) {
      const jobs = paths.filter((path) => {
        const sheet = files.read(path);
        return typeof sheet !== "string" && sheet.entries.some((entry) => entry.kind === "sheet");
      });
      return jobs.length === 0 ? paths : jobs;
    },
    jobsOf: (report, path) => jobsAskedFrom(report, files, path),
    report: (report, paths, asked, around, shown) => report.make(files, paths, asked, around, shown),
    reporting: (report, paths, asked, around) => report.making(files, paths, asked, around),
    edit: (report, path) => report.edit(files, path),
    async showsPhoto(path, inside) {
      const shown = await Promise.all(reports.map((it) => it.photos(files, path)));
      return (function* () {
        for (const it of shown) if ((yield* it).includes(inside)) return true;
        return false;
      })();
    },
    verify: async (sheets, page, namesOf) => (await import("./reports/hand-over/verify.ts")).verified(files, sheets, page, namesOf),
  };
}

/** The job of a sheet, by the last check of it where nothing has changed since; asked in slices. */
function* ofJob<T, N>(files: Files, { path, checked }: Pick<At, "path" | "checked">, none: N, ask: (job: Job) => T | Slices<T>): Slices<T | N> {
  const job = yield* buildingAgain(files, path, checked?.story?.job);
  return job === undefined ? none : yield* run(ask(job));
}

function* ofText<T, N>(files: Files, path: string, none: N, ask: (sheet: SheetText) => T | Slices<T>): Slices<T | N> {
  const sheet = files.read(path);
  return typeof sheet === "string" ? none : yield* run(ask(sheet));
}

/** What is told of a rule: what it flags, why that matters, and examples. Undefined of what is no rule. */
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

/** The same in slices. */
export function formatting(text: string): Slices<string> {
  return layingOut(text);
}

/** A figure for the bench: one question, answered without a sheet. */
export async function figure(question: string): Promise<Answer> {
  return (await import("./features/figure.ts")).figure(question);
}
