// A `.traps` file holds small sheets, each behind a line `==== what it is`. Behind a line stands what is said of it, and nothing else
// may be: `#! error locking-left-off, hint found-loose`. A sheet that does not begin with `sheet` is a job on the machine of
// `machine.jobsheet`; `---- NAME` begins another file of the same folder. The answers were made by hand before the checker was asked.
import { readFileSync, readdirSync } from "node:fs";

const here = new URL("./", import.meta.url);
const head = 'sheet "Trap"\n  machine "Trap one"\nuse "machine.jobsheet"\nday 2026-05-01\n';

/** The machine that most of the traps are jobs on. */
export const machine = readFileSync(new URL("machine.jobsheet", here), "utf8");

export interface Trap {
  readonly title: string;
  readonly texts: ReadonlyMap<string, string>;
  /** `LINE: severity rule`, lines of the sheet from 1 below its head. */
  readonly expected: readonly string[];
  readonly headLines: number;
}

export const trapFiles: readonly { readonly name: string; readonly traps: readonly Trap[] }[] = readdirSync(here)
  .filter((name) => name.endsWith(".traps"))
  .map((name) => ({ name: name.replace(/\.traps$/, ""), traps: readTraps(readFileSync(new URL(name, here), "utf8")) }));

function readTraps(text: string): Trap[] {
  return text
    .split(/^==== /m)
    .slice(1)
    .map((block) => {
      const [title = "", ...rest] = block.split("\n");
      const parts = rest.join("\n").split(/^---- (.*)$/m);
      const lines: string[] = [];
      const expected: string[] = [];
      for (const line of (parts[0] as string).trimEnd().split("\n")) {
        if (line.startsWith("#! "))
          expected.push(
            ...line
              .slice(3)
              .split(", ")
              .map((it) => `${lines.length}: ${it}`),
          );
        else lines.push(line);
      }
      const alone = lines[0]?.startsWith("sheet") === true;
      const texts = new Map([["trap.jobsheet", `${alone ? "" : head}${lines.join("\n")}\n`]]);
      for (let i = 1; i < parts.length; i += 2) texts.set((parts[i] as string).trim(), parts[i + 1] as string);
      return { title, texts, expected: [...new Set(expected)], headLines: alone ? 0 : head.split("\n").length - 1 };
    });
}
