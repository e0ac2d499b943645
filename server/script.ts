// The bundled program as a script, made from what Node compiled of it before where that is at hand.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname } from "node:path";
import { Script, constants } from "node:vm";

/** Beside the program. Its name holds the program's own hash, so that no other program's is ever taken. */
export const compiledOf = (program: string) => program.replace(/\.cjs$/, ".compiled");

/** `compiled` may be of another Node or damaged: then Node refuses it, and compiles anew. The bundle is written in ASCII. */
export function scriptOf(program: string, compiled: Buffer | undefined): Script {
  const source = `(function (exports, require, module, __filename, __dirname) {${readFileSync(program, "latin1")}\n})`;
  return new Script(source, { filename: program, cachedData: compiled, importModuleDynamically: constants.USE_MAIN_CONTEXT_DEFAULT_LOADER });
}

/** Runs it as Node runs a module in CommonJS. */
export function runScript(script: Script, program: string): void {
  const module = { exports: {} };
  script.runInThisContext()(module.exports, createRequire(program), module, program, dirname(program));
}
