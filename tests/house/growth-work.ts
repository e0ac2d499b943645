// What a sheet of a kind is put through: read, checked, and every report made of it. It is bundled by itself, and run where its steps are counted (`growth-count.ts`).
import { editingSheet, readSheet, readingSheet } from "../../grammar/sheet-text.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { Files } from "../../server/model/files.ts";
import { reports } from "../../server/reports/all.ts";
import { checking, ofLines, standingMeanwhile } from "../../server/rules/check.ts";
import type { Solver } from "../../server/supply/solver.ts";
import { type Growth, growths, largestRead } from "./growth.ts";

/** Two kinds of work that show whether the counting sees anything: what grows as its input does, and what grows as its square. */
const known: readonly { readonly name: string; readonly few: number; readonly full: number; readonly work: (n: number) => void }[] = [
  {
    name: "as its input",
    few: 400,
    full: 400,
    work: (n) => {
      let sum = 0;
      for (const it of Array.from({ length: n }, (_, i) => i)) if (it % 3 === 0) sum += it;
      if (sum < 0) throw new Error("never");
    },
  },
  {
    name: "as the square of its input",
    few: 400,
    full: 40_000,
    work: (n) => {
      const all = Array.from({ length: n }, (_, i) => i);
      // Calls of a function that is handed in, as the sources are written, and no loop that can be seen from outside.
      if (all.filter((it) => all.every((other) => other !== -it - 1)).length !== n) throw new Error("never");
    },
  },
];

export interface Kind {
  readonly name: string;
  readonly few: number;
  readonly full: number;
  /** Makes what is worked on, so large. Each step is done where the work is called, and told by its name when it is over; `slice` when the server would let others go first. */
  readonly work: (n: number) => (done: (step: string) => void, slice?: () => void) => Promise<void>;
  /** What the server does while it is opened, typed in and pasted over, told after each slice, by the name of what it belongs to. */
  readonly slices: (n: number, slice: (of: string) => void) => void;
}

/** Every kind, put through what a person may ask for. @param solver which offers to take, where a choice is asked for. */
export function kinds(solver: () => Promise<Solver>): readonly Kind[] {
  return [
    ...known.map(({ name, few, full, work }) => ({
      name,
      few,
      full,
      work: (n: number) => async (done: (step: string) => void) => {
        work(n);
        done("check");
      },
      slices: (n: number, slice: (of: string) => void) => {
        slice("making it");
        work(n);
        slice("check");
      },
    })),
    ...growths.map((growth) => {
      // Found out by making the sheet, so when it is asked for, and once.
      let full: number | undefined;
      return {
        name: growth.name,
        few: growth.few,
        get full() {
          full ??= largestRead(growth);
          return full;
        },
        work: workOf(growth, solver),
        slices: slicesOf(growth),
      };
    }),
  ];
}

function workOf(growth: Growth, solver: () => Promise<Solver>): Kind["work"] {
  return (n) => {
    const text = growth.sheet(n);
    const prices = growth.prices === undefined ? undefined : { text: growth.prices(n) };
    return (done, slice) => worked(text, prices, done, slice);
  };

  async function worked(text: string, prices: { readonly text: string } | undefined, done: (step: string) => void, slice?: () => void): Promise<void> {
    const sheet = readSheet(text);
    done("read");
    const files: Files = { read: (path) => (path === "s.jobsheet" ? sheet : "missing"), jobsheets: () => ["s.jobsheet"], prices: () => prices ?? "missing" };
    for (const check = checking(files, "s.jobsheet"); check.next().done !== true; ) slice?.();
    done("check");
    for (const report of reports) {
      const choice = growth.choose !== undefined && report.name === "order" ? { choose: growth.choose } : {};
      await report.make(files, ["s.jobsheet"], choice, { today: "2026-05-02", width: 100, solver });
      done(report.name);
    }
  }
}

function slicesOf({ sheet: textOf, prices: pricesOf }: Growth): Kind["slices"] {
  return (n, slice) => {
    const text = textOf(n);
    const prices = pricesOf === undefined ? undefined : { text: pricesOf(n) };
    let sheet = readSheet("");
    const files: Files = { read: (path) => (path === "s.jobsheet" ? sheet : "missing"), jobsheets: () => ["s.jobsheet"], prices: () => prices ?? "missing" };
    slice("making it");
    const run = <T>(of: string, slices: Slices<T>): T => {
      for (;;) {
        const step = slices.next();
        slice(of);
        if (step.done === true) return step.value;
      }
    };
    sheet = run("reading", readingSheet(text));
    run("its lines", ofLines("s.jobsheet", sheet));
    const checked = run("check", checking(files, "s.jobsheet"));
    // A line in the middle that can't be read, and one more near the top, which moves all that is said below.
    const line = sheet.lineCount >> 1;
    for (const [startLine, by] of [
      [line, '" ('],
      [3, "# one more\n"],
    ] as const) {
      const before = sheet;
      sheet = run("edit", editingSheet(before, { startLine, startColumn: 0, endLine: startLine, endColumn: 0, text: by }));
      run("what stands", standingMeanwhile(files, "s.jobsheet", checked));
      sheet = before;
    }
    sheet = run("pasting", editingSheet(sheet, { startLine: 0, startColumn: 0, endLine: sheet.lineCount, endColumn: 0, text: `# again\n${text}` }));
    run("what stands", standingMeanwhile(files, "s.jobsheet", checked));
  };
}
