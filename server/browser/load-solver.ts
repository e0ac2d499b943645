// Loads the solver that works out which offers to take, for a page: a module of its own with the WebAssembly inside, so that nothing is fetched but that module.
import loadHighs from "highs";
// @ts-expect-error The build makes bytes of it.
import wasm from "highs/runtime";
import { type Solver, solverOf } from "../supply/solver.ts";

/** What is used here of the platform's own; the core is built without its types. */
declare const WebAssembly: { instantiate(bytes: unknown, imports: unknown): Promise<{ readonly instance: unknown }> };

export async function loadSolver(): Promise<Solver> {
  // The loader would look for a file of its own; handed the instance, it looks for none.
  const instantiateWasm = (imports: unknown, done: (instance: unknown) => void): object => {
    void WebAssembly.instantiate(wasm, imports).then((it) => done(it.instance));
    return {};
  };
  return solverOf(await loadHighs({ instantiateWasm } as Parameters<typeof loadHighs>[0]));
}
