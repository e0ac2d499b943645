// What a sheet of a kind is put through: read, checked, and every report made of it. It is bundled by itself, and run where its steps are counted (`growth-count.ts`).
import { readSheet } from "../../grammar/sheet-text.ts";
import { mostLines } from "../../server/model/largest.ts";
import type { Files } from "../../server/model/files.ts";
import { reports } from "../../server/reports/all.ts";
import { checking } from "../../server/rules/check.ts";
import type { Solver } from "../../server/supply/solver.ts";
import { type Growth, growths } from "./growth.ts";

/** Two kinds of work that show whether the counting sees anything: what grows as its input does, and what grows as its square. */
const known: readonly { readonly name: string; readonly few: number; readonly work: (n: number) => void }[] = [
  {
    name: "as its input",
    few: 400,
    work: (n) => {
      let sum = 0;
      for (const it of Array.from({ length: n }, (_, i) => i)) if (it % 3 === 0) sum += it;
      if (sum < 0) throw new Error("never");
    },
  },
  {
    name: "as the square of its input",
    few: 400,
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
}

/** Every kind, put through what a person may ask for. @param solver which offers to take, where a choice is asked for. */
export function kinds(solver: () => Promise<Solver>): readonly Kind[] {
  return [
    ...known.map(({ name, few, work }) => ({
      name,
      few,
      full: few,
      work: (n: number) => async (done: (step: string) => void) => {
        work(n);
        done("check");
      },
    })),
    ...growths.map((growth) => ({
      name: growth.name,
      few: growth.few,
      get full() {
        return largestRead(growth);
      },
      work: workOf(growth, solver),
    })),
  ];
}

/** The full size, or the largest whose sheet is read at all. */
function largestRead({ full, sheet }: Growth): number {
  const over = (n: number) => sheet(n).split("\n").length / mostLines;
  let n = full;
  for (let more = over(n); more > 1; more = over(n)) n = Math.floor(n / more) - 1;
  return n;
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
