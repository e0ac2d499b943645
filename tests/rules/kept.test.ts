// What is kept from one check to the next changes nothing: after any edits one long-lived checker says what a fresh reading of the same text says.
// This may never be wrong, for somebody reads from it that a machine is safe. SPLITPIN_RUNS asks for more runs, SPLITPIN_SEED for others.
import { readFileSync, readdirSync, statSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readSheet, textOf } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { rules } from "../../server/rules/all.ts";
import { type Diagnostic, checkFile, createChecker } from "../../server/rules/check.ts";
import { longSheet } from "../server/long-sheet.ts";
import { type Edit, type Folder, anyEdit, strokesOf } from "./random-edits.ts";

interface Start {
  readonly name: string;
  /** By path; the sheet that is checked is the last. */
  readonly texts: ReadonlyMap<string, string>;
  /** Price lists, by path. */
  readonly lists?: ReadonlyMap<string, { readonly text: string }>;
}

const root = fileURLToPath(new URL("../../", import.meta.url));
const starts: Start[] = [...samples(), ...examples()];
const pool = starts.flatMap(({ texts }) => [...texts.values()].flatMap((text) => text.split(/\n(?=[a-z])/)));
const runs = Number(process.env.SPLITPIN_RUNS ?? 0);
const seed = Number(process.env.SPLITPIN_SEED ?? 20260504);

function filesIn(folder: Folder, { lists }: Start): Files {
  return { read: (path) => folder.get(path) ?? "missing", jobsheets: () => [...folder.keys()], prices: (path) => lists?.get(path) ?? "missing" };
}

/** Rules of the whole job may be put off; what all others say is never old. */
const putOff = new Set(rules.filter((it) => it.scope === "release" || (it.scope === "job" && it.reach === undefined)).map((it) => it.id));
const neverPutOff = ({ rule }: Diagnostic) => !putOff.has(rule);

/** One line a diagnostic: a difference is easier to read so, and compared quicker. */
const told = (list: readonly Diagnostic[]) => list.map((it) => JSON.stringify(it));

async function staysRight(start: Start, edits: readonly Edit[]): Promise<void> {
  // The runner is answered between two runs, or it takes a long one for dead.
  await new Promise((resolve) => setImmediate(resolve));
  const folder: Folder = new Map([...start.texts].map(([path, text]) => [path, readSheet(text)]));
  const path = [...folder.keys()].at(-1) as string;
  const checker = createChecker();
  checker.check(filesIn(folder, start), path);
  // Another one is looked at in passing, and asked for all of it now and then.
  const passing = createChecker({ many: 0 });
  passing.check(filesIn(folder, start), path);
  let strokes = 0;
  for (const [i, edit] of edits.entries()) {
    // A used file is not there for a while.
    const gone = edit.kind % 97 === 5 ? [...folder.keys()][0] : undefined;
    for (const [n, stroke] of strokesOf(folder, start.texts, pool, edit).entries()) {
      stroke();
      compare(gone, `edit ${i}, stroke ${n}, of ${JSON.stringify(edits)}`);
    }
  }

  function compare(gone: string | undefined, what: string): void {
    const here: Folder = gone === undefined || gone === path ? folder : new Map([...folder].filter(([name]) => name !== gone));
    const fresh = checkFile(filesIn(new Map([...here].map(([name, sheet]) => [name, readSheet(textOf(sheet))])), start), path);
    same(checker.check(filesIn(here, start), path), fresh, what);
    const glance = passing.glance(filesIn(here, start), path);
    same(glance.list.filter(neverPutOff), fresh.filter(neverPutOff), `${what}, in passing`);
    strokes += 1;
    if (glance.whole || strokes % 4 === 0) same(passing.check(filesIn(here, start), path), fresh, `${what}, after some in passing`);
  }

  function same(kept: readonly Diagnostic[], fresh: readonly Diagnostic[], what: string): void {
    const [a, b] = [told(kept), told(fresh)];
    if (a.join("\n") !== b.join("\n")) expect(a, `${start.name}, ${what}\n${textOf(folder.get(path) as never)}`).toEqual(b);
  }
}

describe("a checker that has seen every edit says what a fresh reading says", () => {
  test("of the samples, the sheets with answers, the traps and the rules' examples", async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(starts.length - 1), fc.array(anyEdit, { minLength: 1, maxLength: 20 }), (at, edits) => staysRight(starts[at] as Start, edits)),
      { numRuns: runs || 60, seed },
    );
  }, 600_000);

  test("of a long sheet", async () => {
    const start = { name: "long", texts: new Map([["long.jobsheet", longSheet(400)]]) };
    await fc.assert(
      fc.asyncProperty(fc.array(anyEdit, { minLength: 1, maxLength: 20 }), (edits) => staysRight(start, edits)),
      { numRuns: Math.ceil(runs / 10) || 5, seed },
    );
  }, 600_000);

  test("of two sheets laid one behind the other", async () => {
    const whole = starts.filter(({ texts }) => texts.size === 1);
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), fc.nat(whole.length - 1), fc.array(anyEdit, { minLength: 1, maxLength: 15 }), (a, b, edits) => {
        const [one, other] = [whole[a] as Start, whole[b] as Start];
        const text = [...one.texts.values(), ...other.texts.values()].join("\n");
        return staysRight({ name: `${one.name} and ${other.name}`, texts: new Map([["both.jobsheet", text]]) }, edits);
      }),
      { numRuns: Math.ceil(runs / 2) || 25, seed },
    );
  }, 600_000);
});

/** Every sheet of the samples and of the tests, with the files of its folder. */
function samples(): Start[] {
  const out: Start[] = [];
  for (const top of ["samples", "tests/sheets"]) {
    for (const path of walk(join(root, top)).filter((it) => it.endsWith(".jobsheet"))) {
      const folder = dirname(path);
      const text = readFileSync(path, "utf8");
      const uses = [...text.matchAll(/^use "([^"]+)"/gm)].map((it) => join(folder, it[1] as string)).filter((it) => statSync(it, { throwIfNoEntry: false }));
      const name = (it: string) => relative(folder, it).split(sep).join("/");
      out.push({
        name: relative(root, path),
        texts: new Map([...uses.map((it) => [name(it), readFileSync(it, "utf8")] as const), [name(path), text] as const]),
      });
    }
  }
  return out;
}

function walk(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((it) => (it.isDirectory() ? walk(join(folder, it.name)) : [join(folder, it.name)]));
}

/** What each rule shows as wrong and as right. */
function examples(): Start[] {
  return rules.flatMap((rule) => {
    const files = Object.entries(rule.files ?? {});
    const sheets = files.filter(([path]) => path.endsWith(".jobsheet"));
    const lists = new Map(files.filter(([path]) => !path.endsWith(".jobsheet")).map(([path, text]) => [path, { text }] as const));
    return (["wrong", "right"] as const).map((side) => ({
      name: `${rule.id}, ${side}`,
      texts: new Map([...sheets, ["sheet.jobsheet", rule[side]]]),
      lists,
    }));
  });
}
