// Loads the solver that works out which offers to take: WebAssembly that lies beside the program, and is read when a choice is asked for and not before.
import { type Solver, solverOf } from "../supply/solver.ts";

let loading: Promise<Solver> | undefined;

export function loadSolver(): Promise<Solver> {
  loading ??= import("highs").then(async (module) => solverOf(await module.default()));
  return loading;
}
