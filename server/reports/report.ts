// What a report is to the doors: a row of `all.ts`, with its name and its help; the report itself stands in `kind.ts` beside it, loaded when it is asked for.
// The command line, an editor's commands and a page in a browser are lists over these rows, and know no report by itself.
// Invariant: pure; the day, the width and the photos come from the door.
import { type Files, headAt } from "../model/files.ts";
import { machineOf, sameMachine } from "../model/others.ts";
import { asJson } from "./draw/as-json.ts";
import { standingStill } from "../model/job.ts";
import { type Slices, apart, runThrough } from "../../grammar/slices.ts";
import type { Solver } from "../supply/solver.ts";
import type { PhotoSource } from "./draw/photo-source.ts";

/** What was asked for beside the sheets: words by the name of their option. */
export type Asked = Readonly<Record<string, string | undefined>>;

/** What a door knows of the world. */
export interface Around {
  /** ISO 8601. */
  readonly today: string;
  /** Of the terminal, in columns. */
  readonly width: number;
  readonly photos?: PhotoSource;
  /** What an order is chosen by: large, and loaded when it is asked for. A door that has none leaves it out. */
  readonly solver?: () => Promise<Solver>;
}

/** Why a report can't be given as it was asked for, in words that follow the program's name. */
export class Refused {
  readonly why: string;
  constructor(why: string) {
    this.why = why;
  }
}

/** How far a report reaches beyond the sheet that it is asked for from: to every job of the folder, or to all sheets of its machine. */
export type Span = "folder" | "machine";

export interface Report {
  /** Left out by one that is of that sheet alone. */
  readonly spans?: Span;
  /** As on the command line: `splitpin NAME`. */
  readonly name: string;
  /** As an editor's command. */
  readonly command: string;
  /** As a tab, a page and a list call it. */
  readonly title: string;
  /** Its page of `--help`; the first line says how it is called. */
  readonly help: string;
  /** As `--format` takes them; the first is what is printed where nothing is said. */
  readonly formats: readonly string[];
  /** Options with a value that it takes beside `--format` and `--out`. */
  readonly options: readonly string[];
  /** Works it out; refused where what was asked for makes no sense, undefined where there is no such sheet. `shown`: how a path of the core is named. */
  make(files: Files, paths: readonly string[], asked: Asked, around: Around, shown?: (path: string) => string): Promise<Made | Refused | undefined>;
  /** The same in slices. */
  making(files: Files, paths: readonly string[], asked: Asked, around: Around): Promise<Slices<Made | Refused | undefined>>;
  /** What it would write into the sheet; undefined where it writes nothing, or where there is no such sheet. */
  edit(files: Files, path: string): Promise<Slices<Written | undefined>>;
  /** The photos that it shows, by their paths in the workspace. */
  photos(files: Files, path: string): Promise<Slices<readonly string[]>>;
}

/** What a report would add to its sheet. */
export interface Written {
  /** From 0: `text` goes in there. Undefined where nothing is missing. */
  readonly insert?: { readonly line: number; readonly column: number; readonly text: string };
  /** What came of it, for whoever asked. */
  readonly said: string;
}

/** A report worked out, of one job or of several. */
export interface Made {
  /** One of all jobs, or one of each. */
  readonly values: readonly unknown[];
  /** Whether the program ends with 0: for a release, whether every job is released. */
  readonly passes: boolean;
  draw(format: string): string | Refused;
  /** The same in slices. */
  drawing(format: string): Slices<string | Refused>;
}

export type Drawing<V, W> = (value: V, around: Around, wishes: W) => string | Refused | Slices<string>;

/** A report as it is written down in its folder; `W` is what it makes of what was asked. */
export interface Kind<V, W> {
  /** One report of all jobs, or one of each. */
  readonly of: "all jobs" | "each job";
  wishes(asked: Asked, around: Around): W | Refused | Promise<W | Refused>;
  make(files: Files, paths: readonly string[], wishes: W): Slices<V | Refused | undefined>;
  passes?(value: V): boolean;
  /** One for each format that its row names. */
  readonly drawings: Readonly<Record<string, Drawing<V, W>>>;
  /** As JSON; the values themselves where this is left out. */
  json?(values: readonly V[]): string;
  /** As CSV, where that is one of its formats and no drawing of each by itself: all of them in one table. */
  csv?(values: readonly V[]): string;
  /** What it would write into the sheet; left out by one that only reports. */
  edit?(files: Files, path: string): Slices<Written | undefined>;
  /** The photos that a page of these jobs shows, by their paths in the workspace; left out by one that shows none. */
  photos?(files: Files, paths: readonly string[]): Slices<readonly string[]>;
}

/** A row of `all.ts`: what the doors must know of a report before anybody asks for it. */
export interface Row<V, W> {
  readonly name: string;
  readonly command: string;
  readonly title: string;
  readonly help: string;
  /** As of a `Report`. */
  readonly spans?: Span;
  readonly options?: readonly string[];
  /** The first is what is printed where nothing is said; where this is left out, those of the three drawers. `json` is always one. */
  readonly formats?: readonly string[];
  /** The report itself, loaded when it is asked for: `async () => (await import("./kind.ts")).kind`. */
  kind(): Promise<Kind<V, W>>;
}

export function report<V, W>(row: Row<V, W>): Report {
  const { name, command, title, spans, options = [], formats = ["text", "md", "html"], kind: load } = row;
  return {
    name,
    command,
    title,
    // Read when somebody asks for it: the built program has it in another file (.ci/late-texts.mjs).
    get help() {
      return row.help;
    },
    ...(spans === undefined ? {} : { spans }),
    formats: [...formats, "json"],
    options,
    async make(files, paths, asked, around, shown) {
      const kind = await load();
      return runThrough(making(kind, await kind.wishes(asked, around), files, paths, around, shown));
    },
    async making(files, paths, asked, around) {
      const kind = await load();
      return making(kind, await kind.wishes(asked, around), files, paths, around);
    },
    async edit(files, path) {
      return (await load()).edit?.(standingStill(files), path) ?? apart(() => undefined);
    },
    async photos(files, path) {
      const jobs = jobsAskedFrom({ ...(spans === undefined ? {} : { spans }) }, files, path);
      return (await load()).photos?.(standingStill(files), jobs) ?? apart(() => []);
    },
  };
}

function* making<V, W>(
  kind: Kind<V, W>,
  wishes: W | Refused,
  files: Files,
  paths: readonly string[],
  around: Around,
  shown?: (path: string) => string,
): Slices<Made | Refused | undefined> {
  if (wishes instanceof Refused) return wishes;
  const values: V[] = [];
  const still = standingStill(files);
  for (const group of kind.of === "all jobs" ? [paths] : paths.map((path) => [path])) {
    const value = yield* kind.make(still, group, wishes);
    if (value instanceof Refused) return value;
    yield;
    if (value !== undefined) values.push(shown === undefined ? value : asShown(value, shown));
  }
  if (values.length === 0) return undefined;
  function* drawing(format: string): Slices<string | Refused> {
    yield;
    if (format === "json") return kind.json?.(values) ?? asJson(values);
    if (format === "csv" && kind.csv !== undefined) return kind.csv(values);
    if (format === "html" && values.length > 1) return new Refused("A page holds one job. Name its sheet.");
    const texts: string[] = [];
    for (const it of values) {
      const drawn = (kind.drawings[format] as Drawing<V, W>)(it, around, wishes as W);
      if (drawn instanceof Refused) return drawn;
      texts.push(typeof drawn === "string" ? drawn : yield* drawn);
      yield;
    }
    return texts.join("\n");
  }
  return { values, passes: values.every((it) => kind.passes?.(it) ?? true), draw: (format) => runThrough(drawing(format)), drawing };
}

/** The jobs that a report is of when it is asked for from one sheet: that one, every job that the door knows of, or those of its machine. */
export function jobsAskedFrom({ spans }: Pick<Report, "spans">, files: Files, path: string): readonly string[] {
  if (spans === undefined) return [path];
  const machine = machineOf(headAt(files, path));
  const jobs = (files.jobsheets?.() ?? []).filter((it) => {
    const head = it === path ? undefined : headAt(files, it);
    return head !== undefined && (spans === "folder" || sameMachine(machine, machineOf(head)));
  });
  return [path, ...jobs];
}

/** For its types: what it makes of what was asked, and what it works out. */
export function kindOf<V, W>(kind: Kind<V, W>): Kind<V, W> {
  return kind;
}

/** Where nothing can be asked for beside the sheets. */
export function noWishes(): object {
  return {};
}

/** Every `file` of a report, however deep, as the writer knows it. */
function asShown<T>(value: T, shown: (path: string) => string): T {
  if (Array.isArray(value)) return value.map((it) => asShown(it, shown)) as T;
  if (typeof value !== "object" || value === null || value instanceof Map || value instanceof Set) return value;
  return Object.fromEntries(Object.entries(value).map(([key, it]) => [key, key === "file" && typeof it === "string" ? shown(it) : asShown(it, shown)])) as T;
}
