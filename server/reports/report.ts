// What a report is to the doors: a row of `all.ts`, with its name, its help and its drawings. The command line, an editor's commands and a page in a browser are
// lists over these rows, and know no report by itself.
// Invariant: pure; the day, the width and the photos come from the door.
import type { Files } from "../model/files.ts";
import { machineOf, sameMachine } from "../model/others.ts";
import { asJson } from "./draw/as-json.ts";
import type { Solver } from "../supply/solver.ts";
import type { PhotoSource } from "./release/html.ts";

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

/** One report of all jobs that were named, or one of each; or of the whole folder or of all sheets of a machine, whichever of its sheets is asked from. */
export type Extent = "all jobs" | "each job" | "whole folder" | "whole machine";

export interface Report {
  /** As on the command line: `splitpin NAME`. */
  readonly name: string;
  /** As an editor's command. */
  readonly command: string;
  /** As a tab, a page and a list call it. */
  readonly title: string;
  readonly of: Extent;
  /** Its page of `--help`; the first line says how it is called. */
  readonly help: string;
  /** As `--format` takes them; the first is what is printed where nothing is said. */
  readonly formats: readonly string[];
  /** Options with a value that it takes beside `--format` and `--out`. */
  readonly options: readonly string[];
  /** Works it out; refused where what was asked for makes no sense, undefined where there is no such sheet. `shown`: how a path of the core is named. */
  make(files: Files, paths: readonly string[], asked: Asked, around: Around, shown?: (path: string) => string): Promise<Made | Refused | undefined>;
}

/** A report worked out, of one job or of several. */
export interface Made {
  /** One of all jobs, or one of each. */
  readonly values: readonly unknown[];
  /** Whether the program ends with 0: for a release, whether every job is released. */
  readonly passes: boolean;
  draw(format: string): string | Refused;
}

type Drawing<V, W> = (value: V, around: Around, wishes: W) => string | Refused;

/** A report as it is written down in its folder; `W` is what it makes of what was asked. */
export interface Kind<V, W> {
  readonly name: string;
  readonly command: string;
  readonly title: string;
  readonly help: string;
  readonly of: Extent;
  readonly options?: readonly string[];
  wishes(asked: Asked, around: Around): W | Refused;
  make(files: Files, paths: readonly string[], wishes: W): V | Refused | undefined | Promise<V | Refused | undefined>;
  passes?(value: V): boolean;
  /** By the name of the format; the first is what is printed where nothing is said. */
  readonly drawings: Readonly<Record<string, Drawing<V, W>>>;
  /** As JSON; the values themselves where this is left out. */
  json?(values: readonly V[]): string;
}

export function report<V, W>(kind: Kind<V, W>): Report {
  const { name, command, title, help } = kind;
  return {
    name,
    command,
    title,
    of: kind.of,
    help,
    formats: [...Object.keys(kind.drawings), "json"],
    options: kind.options ?? [],
    async make(files, paths, asked, around, shown = (path) => path) {
      const wishes = kind.wishes(asked, around);
      if (wishes instanceof Refused) return wishes;
      const values: V[] = [];
      for (const group of kind.of === "each job" ? paths.map((path) => [path]) : [paths]) {
        const value = await kind.make(files, group, wishes);
        if (value instanceof Refused) return value;
        if (value !== undefined) values.push(asShown(value, shown));
      }
      if (values.length === 0) return undefined;
      return {
        values,
        passes: values.every((it) => kind.passes?.(it) ?? true),
        draw(format) {
          if (format === "json") return kind.json?.(values) ?? asJson(values);
          if (format === "html" && values.length > 1) return new Refused("A page holds one job. Name its sheet.");
          const drawn = values.map((it) => (kind.drawings[format] as Drawing<V, W>)(it, around, wishes));
          return drawn.find((it): it is Refused => it instanceof Refused) ?? drawn.join("\n");
        },
      };
    },
  };
}

/** The jobs that a report is of when it is asked for from one sheet: that one, every job that the door knows of, or those of its machine. */
export function jobsAskedFrom(report: Pick<Report, "of">, files: Files, path: string): readonly string[] {
  if (report.of !== "whole folder" && report.of !== "whole machine") return [path];
  const headOf = (at: string) => {
    const sheet = files.read(at);
    return typeof sheet === "string" ? undefined : sheet.entries.find((entry) => entry.kind === "sheet");
  };
  const machine = machineOf(headOf(path));
  const jobs = (files.jobsheets?.() ?? []).filter((it) => {
    const head = it === path ? undefined : headOf(it);
    return head !== undefined && (report.of === "whole folder" || sameMachine(machine, machineOf(head)));
  });
  return [path, ...jobs];
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
