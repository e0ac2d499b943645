// A mixed-integer linear program, and what is asked of whoever solves it; and HiGHS as such a solver.
// Invariant: pure: the solver is handed in by the door that loaded it. What it answers is in binary floats, so whoever asks adds up again in exact figures and
// compares with `atLeast`.
import type { Highs } from "highs";

export interface Column {
  /** What one of it adds to the sum that is to be least. */
  cost: number;
  readonly low: number;
  readonly high: number;
  /** Whole numbers only. */
  readonly whole: boolean;
}

/** `low` ≤ the sum of the terms ≤ `high`; a term is a column by its place and how often it counts. */
export interface Row {
  readonly low: number;
  readonly high: number;
  readonly terms: readonly (readonly [column: number, times: number])[];
}

export interface Program {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

export interface Solved {
  readonly values: readonly number[];
  /** No values make the sum less. Where the search was cut short it lies below what `values` come to. */
  readonly atLeast: number;
}

/** The search was cut short before any values were found that keep the rows; this much no values come below. */
export interface Bounded {
  readonly values?: undefined;
  readonly atLeast: number;
}

/** The least sum, to within `gap`; undefined where no values keep the rows. */
export type Solver = (program: Program, gap: number) => Solved | Bounded | undefined;

/** So many branches are looked at before the search is cut short. Counted, not timed, so that an answer is the same on every machine. */
const mostNodes = 20_000;

/**
 * A search of many columns is cut short by how much it has worked, counted and not timed too: steps of the simplex method, each of which takes about as long as there are
 * columns. 200 things from 10 sellers are proved with a fifth of it; 50 things from 150 sellers come to it after some three seconds of a plain machine.
 */
const mostWork = 5e6;

/** Searches beside the search for a better choice, that find none here that it does not: without them the proof takes three quarters of the time (200 things of 10 sellers). */
const fewTries = {
  mip_heuristic_run_feasibility_jump: false,
  mip_heuristic_run_rins: false,
  mip_heuristic_run_rens: false,
  mip_heuristic_run_root_reduced_cost: false,
};

/** What is closer to a whole number than this is taken for one. The thresholds of carriage are scaled so that a coin is much more. */
const tolerance = 1e-9;

export function solverOf(highs: Highs): Solver {
  return ({ columns, rows }, gap) =>
    highs.withModel((model) => {
      const starts = [0];
      const indices: number[] = [];
      const values: number[] = [];
      for (const { terms } of rows) {
        // HiGHS refuses a program in which a row names a column twice: goods and their surcharge are taxed together.
        const summed = new Map<number, number>();
        for (const [column, times] of terms) summed.set(column, (summed.get(column) ?? 0) + times);
        indices.push(...summed.keys());
        values.push(...summed.values());
        starts.push(indices.length);
      }
      model.passModel({
        numCols: columns.length,
        numRows: rows.length,
        colCost: columns.map((it) => it.cost),
        colLower: columns.map((it) => it.low),
        colUpper: columns.map((it) => (Number.isFinite(it.high) ? it.high : highs.infinity)),
        rowLower: rows.map((it) => (Number.isFinite(it.low) ? it.low : -highs.infinity)),
        rowUpper: rows.map((it) => (Number.isFinite(it.high) ? it.high : highs.infinity)),
        integrality: columns.map((it) => (it.whole ? highs.constants.variableType.integer : highs.constants.variableType.continuous)),
        matrix: { format: "csr", numCols: columns.length, numRows: rows.length, starts, indices, values },
      });
      model.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: gap, mip_feasibility_tolerance: tolerance, mip_max_nodes: mostNodes, ...fewTries });
      model.run({
        [highs.constants.callbackType.mipInterrupt]: (event) => {
          if (Number(event.data.mip_total_lp_iterations ?? 0) * columns.length > mostWork) event.interrupt();
        },
      });
      const status = model.getModelStatus();
      const { optimal, solutionLimit, iterationLimit, interrupted } = highs.constants.modelStatus;
      if (status !== optimal && status !== solutionLimit && status !== iterationLimit && status !== interrupted) return undefined;
      // Without a whole column it is no search, and what was found is the least.
      const bound = columns.some((it) => it.whole) ? Number(model.info.get("mip_dual_bound")) : model.getObjectiveValue();
      const found = Number(model.info.get("primal_solution_status")) === 2;
      if (!found) return Number.isFinite(bound) ? { atLeast: bound } : undefined;
      return { values: [...model.getSolution().colValue], atLeast: bound };
    });
}
