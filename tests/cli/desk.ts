// Runs the command line as it was built, within the test's own process, and keeps what it said.
import { commandLine } from "../built.ts";

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export async function splitpin(words: readonly string[], cwd: string, colour = false): Promise<Ran> {
  const { run } = await commandLine();
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(words, { cwd, version: "1.2.3", colour, width: 100, out: (text) => void out.push(text), err: (text) => void err.push(text) });
  return { code, out: out.join(""), err: err.join("") };
}
