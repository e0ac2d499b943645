// What is kept from one check to the next changes nothing: after any edits a check says what a fresh reading of the same text says, and until it is done what
// was said before stands on its lines. This may never be wrong, for somebody reads from it that a machine is safe. The full run
// asks for ten times as many runs, SPLITPIN_RUNS for any number, SPLITPIN_SEED for others.
import { readFileSync, readdirSync, statSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type SheetText, editSheet, readSheet, textOf } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { written as rules } from "../../server/rules/all.ts";
import { runThrough } from "../../grammar/slices.ts";
import { type Diagnostic, checkFile, checking, standingMeanwhile } from "../../server/rules/check.ts";
import { times } from "../sampled.ts";
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

/** One line a diagnostic: a difference is easier to read so, and compared quicker. */
const told = (list: readonly Diagnostic[]) => list.map((it) => JSON.stringify(it));
const ofEntries = new Set(rules.filter((it) => it.scope === "entry").map((it) => it.id));
const fresh = (folder: Folder) => new Map([...folder].map(([name, sheet]) => [name, readSheet(textOf(sheet))]));
const read = (start: Start): Folder => new Map([...start.texts].map(([path, text]) => [path, readSheet(text)]));

/** The runner is answered between two runs, or it takes a long one for dead. */
const breath = () => new Promise((resolve) => setImmediate(resolve));

async function staysRight(start: Start, edits: readonly Edit[]): Promise<void> {
  await breath();
  const folder = read(start);
  const path = [...folder.keys()].at(-1) as string;
  let stands = runThrough(checking(filesIn(folder, start), path));
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
    const files = filesIn(here, start);
    const now = checkFile(filesIn(fresh(here), start), path);
    strokes += 1;
    // A check that is given up half way leaves nothing behind.
    const givenUp = checking(files, path);
    for (let i = 0; i < (strokes * 7) % 100; i++) givenUp.next();
    stands = runThrough(standingMeanwhile(files, path, stands));
    const list = stands?.list ?? [];
    same(
      list.filter((it) => ofEntries.has(it.rule)),
      now.filter((it) => ofEntries.has(it.rule)),
      `${what}, until it is checked`,
    );
    const sheet = here.get(path) as SheetText;
    for (const it of list)
      if (it.line >= sheet.lineCount || it.from > it.to || it.to > (sheet.lines[it.line] as string).length)
        throw new Error(`${start.name}, ${what}: stands outside of its line: ${JSON.stringify(it)}`);
    if (strokes % 3 !== 0) return;
    stands = runThrough(checking(files, path));
    same(stands?.list ?? [], now, what);
  }

  function same(kept: readonly Diagnostic[], fresh: readonly Diagnostic[], what: string): void {
    const [a, b] = [told(kept), told(fresh)];
    if (a.join("\n") !== b.join("\n")) expect(a, `${start.name}, ${what}\n${textOf(folder.get(path) as never)}`).toEqual(b);
  }
}

describe(`after edits a check says what a fresh reading says (SPLITPIN_SEED=${seed})`, () => {
  test("of the samples, the sheets with answers, the traps and the rules' examples", async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(starts.length - 1), fc.array(anyEdit, { minLength: 1, maxLength: 20 }), (at, edits) => staysRight(starts[at] as Start, edits)),
      { numRuns: runs || times({ plain: 3, run: 9, full: 60 }), seed },
    );
  }, 600_000);

  test("of a long sheet", async () => {
    const start = { name: "long", texts: new Map([["long.jobsheet", longSheet(400)]]) };
    await fc.assert(
      fc.asyncProperty(fc.array(anyEdit, { minLength: 1, maxLength: 20 }), (edits) => staysRight(start, edits)),
      { numRuns: Math.ceil(runs / 10) || times({ plain: 1, run: 1, full: 5 }), seed },
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
      { numRuns: Math.ceil(runs / 2) || times({ plain: 1, run: 4, full: 25 }), seed },
    );
  }, 600_000);
});

describe(`until a sheet is checked again, what stood stands (SPLITPIN_SEED=${seed})`, () => {
  test("below and above a comment that was put in, lines in messages and fixes too, as a fresh check has them", async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(starts.length - 1), fc.nat(0xffff), async (at, where) => {
        await breath();
        const start = starts[at] as Start;
        const folder = read(start);
        const paths = [...folder.keys()];
        const path = paths.at(-1) as string;
        const before = runThrough(checking(filesIn(folder, start), path));
        // In the sheet itself, or in a file that it uses.
        const edited = paths[where % 4 === 0 ? 0 : paths.length - 1] as string;
        const sheet = folder.get(edited) as SheetText;
        // Not behind the last line: there a fix that adds an entry is put.
        const line = where % sheet.lineCount;
        folder.set(edited, editSheet(sheet, { startLine: line, startColumn: 0, endLine: line, endColumn: 0, text: "# looked at twice\n" }));
        const now = checkFile(filesIn(fresh(folder), start), path);
        expect(told(runThrough(standingMeanwhile(filesIn(folder, start), path, before))?.list ?? []), `${start.name}, line ${line} of ${edited}`).toEqual(
          told(now),
        );
      }),
      { numRuns: runs || times({ plain: 10, run: 24, full: 150 }), seed },
    );
  }, 600_000);

  test("on a line that is typed in; and it goes with its line", () => {
    const path = "sheet.jobsheet";
    let sheet = readSheet('fastener nut "Nut"\n  critical "wheel"\n  locked by split pin\nstep strip\n  undo nut\n  done\nstep refit\n  tighten nut\n  done\n');
    const files = (): Files => ({ read: (it) => (it === path ? sheet : "missing") });
    let stands = runThrough(checking(files(), path));
    const ofJob = () => stands?.list.filter((it) => !ofEntries.has(it.rule)).map((it) => [it.line, it.rule]) ?? [];
    const before = ofJob();
    const line = before.find(([at]) => at === 7)?.[0] as number;
    expect(line).toBe(7);
    const edit = (startLine: number, startColumn: number, endLine: number, endColumn: number, text: string) => {
      sheet = editSheet(sheet, { startLine, startColumn, endLine, endColumn, text });
      stands = runThrough(standingMeanwhile(files(), path, stands));
    };
    edit(line, 5, line, 6, "");
    expect(ofJob()).toEqual(before);
    expect(stands?.list.filter((it) => it.line === line && !ofEntries.has(it.rule)).flatMap((it) => it.fixes)).toEqual([]);
    edit(0, 0, 0, 0, "\n\n");
    expect(ofJob()).toEqual(before.map(([at, rule]) => [(at as number) + 2, rule]));
    edit(line + 2, 0, line + 3, 0, "");
    expect(ofJob()).toEqual(before.filter(([at]) => at !== line).map(([at, rule]) => [(at as number) + ((at as number) > line ? 1 : 2), rule]));
    edit(0, 0, sheet.lineCount, 0, "");
    expect(ofJob()).toEqual([]);
  });
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
