// What a sheet of a kind is put through: read, checked, and every report made of it. It is bundled by itself, and run where its steps are counted (`growth-count.ts`).
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { reports } from "../../server/reports/all.ts";
import { checking } from "../../server/rules/check.ts";
import type { Solver } from "../../server/supply/solver.ts";
import { type Growth, growths, largestRead } from "./growth.ts";

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
  /** Each step is done where it is called, and told by its name when it is over; `slice` when the server would let others go first. */
  readonly work: (n: number, done: (step: string) => void, slice?: () => void) => Promise<void>;
}

/** Every kind, put through what a person may ask for. @param solver which offers to take, where a choice is asked for. */
export function kinds(solver: () => Promise<Solver>): readonly Kind[] {
  return [
    ...known.map(({ name, few, work }) => ({
      name,
      few,
      full: few,
      work: async (n: number, done: (step: string) => void) => {
        done("making it");
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

function workOf(growth: Growth, solver: () => Promise<Solver>): Kind["work"] {
  return async (n, done, slice) => {
    const text = growth.sheet(n);
    const prices = growth.prices === undefined ? undefined : { text: growth.prices(n) };
    done("making it");
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
  };
}
