// Loads the solver that works out which offers to take: WebAssembly that lies beside the program, and is read when a choice is asked for and not before.
import { readFileSync } from "node:fs";
import { type Solver, solverOf } from "../supply/solver.ts";

declare const SPLITPIN_BUNDLED: boolean | undefined;

/** What is used here of the platform's own; the core is built without its types. */
declare const WebAssembly: {
  compile(bytes: Uint8Array): Promise<object>;
  Instance: new (module: object, imports: unknown) => object;
};

let loading: Promise<Solver> | undefined;

export function loadSolver(): Promise<Solver> {
  loading ??= import("highs").then(async (module) => solverOf(await module.default(await packed())));
  return loading;
}

/** Beside the built program it lies compressed, a quarter of its size; from the sources the loader finds it as its package has it. */
async function packed(): Promise<object> {
  if (typeof SPLITPIN_BUNDLED !== "boolean") return {};
  // A part of Node that nothing else here needs: no start waits for it.
  const { brotliDecompressSync } = await import("node:zlib");
  const program = await WebAssembly.compile(brotliDecompressSync(readFileSync(new URL("highs.wasm.br", import.meta.url))));
  return {
    instantiateWasm(imports: unknown, done: (instance: object) => void): object {
      done(new WebAssembly.Instance(program, imports));
      return {};
    },
  };
}
