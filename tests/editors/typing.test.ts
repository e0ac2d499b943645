// Sheets typed into the real editor as somebody would who knows what to write: each line to its end, then Enter. They come out as they are.
// SPLITPIN_TYPE_ALL=1 types every sample; else one data sheet and the shortest job, and of a line that is like one before it in all but names, figures and texts
// only the last word is typed, and the middle of a text or a comment, where nothing is offered, is put in at once: an editor takes as long over a letter as a hand.
// On a push one kind of line in three is typed letter by letter, where it first stands, and of the others, there, the last two letters; a line of a kind that stands before is
// put in with Enter behind it. That a list takes nothing from Enter at the end of any line of any sheet is held in tests/features/completion.test.ts.
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { isFull, sampleName, sampled } from "../sampled.ts";
import { type Workbench, openFile, root, startWorkbench } from "./workbench.ts";

const all = readdirSync(join(root, "samples"), { recursive: true, encoding: "utf8" }).filter((it) => it.endsWith(".jobsheet"));
const typesAll = process.env.SPLITPIN_TYPE_ALL === "1";
const typed = typesAll ? all : ["drilling-machine/hallvik-data.jobsheet", "drilling-machine/drill-head.jobsheet"];

const linesOf = (path: string) =>
  readFileSync(join(root, "samples", path), "utf8")
    .replace(/\n$/, "")
    .split("\n");
/** The lines that are typed letter by letter, by sheet and row: those of each kind that is tried where it first stands. */
const kinds = [...firstOfEachKind().values()];
const letterByLetter = new Set(sampled(kinds, 1).flat());
const firstOnes = new Set(kinds.flat());

/** What an editor works out again after a key and shows: it has no say in what the next key does. What it offers while one types stays as it is. */
const onlyShown = {
  "editor.codeLens": false,
  "editor.folding": false,
  "editor.links": false,
  "editor.matchBrackets": "never",
  "editor.occurrencesHighlight": "off",
  "editor.selectionHighlight": false,
  "editor.semanticHighlighting.enabled": false,
  "problems.decorations.enabled": false,
};

describe(`typed line by line with Enter (of kinds of lines ${sampleName})`, () => {
  const folder = mkdtempSync(join(tmpdir(), "splitpin-typing-"));
  let bench: Workbench;
  beforeAll(async () => {
    // What the sheet uses lies beside it, so that names are offered as they would be.
    for (const path of all) writeFileSync(join(folder, path.split("/").at(-1) as string), readFileSync(join(root, "samples", path), "utf8"));
    for (const [i] of typed.entries()) writeFileSync(join(folder, `typed-${i}.jobsheet`), "");
    bench = await startWorkbench(folder, { "editor.autoIndent": "none", "files.autoSave": "off", ...onlyShown }, { drawnEvery: 300 });
  });
  afterAll(async () => {
    await bench?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  test.each(typed.map((path, i) => ({ path, name: `typed-${i}.jobsheet` })))(
    "$path",
    async ({ path, name }) => {
      const { page } = bench;
      await openFile(page, name);
      await page.locator(".monaco-editor").first().click();
      const lines = linesOf(path);
      let keyed = 0;
      for (let i = 0; i < lines.length; i++) {
        const known = lines.findIndex((_, at) => at >= i && isTyped(path, at)) - i;
        if (known !== 0) {
          const end = known < 0 ? lines.length : i + known;
          await page.keyboard.insertText(
            lines
              .slice(i, end)
              .map((it) => `${it}\n`)
              .join(""),
          );
          i = end - 1;
          continue;
        }
        const line = lines[i] as string;
        const whole = typesAll || letterByLetter.has(`${path} ${i}`);
        const last = whole ? 0 : isFull ? line.trimEnd().lastIndexOf(" ") + 1 : Math.max(0, line.trimEnd().length - 2);
        if (last > 0) await page.keyboard.insertText(line.slice(0, last));
        for (const [i, piece] of pieces(line.slice(last)).entries()) await (i % 2 === 0 ? page.keyboard.type(piece) : page.keyboard.insertText(piece));
        // The list that a letter asks for comes a moment later; Enter on a line's last letter is what once took from it.
        if (keyed++ % 5 === 0) await page.waitForTimeout(120);
        await page.keyboard.press("Enter");
      }
      await page.keyboard.press("Control+S");
      const saved = () => readFileSync(join(bench.folder, name), "utf8");
      await expect.poll(() => saved().length, { timeout: 20_000 }).toBeGreaterThan(0);
      expect(saved().split("\n")).toEqual([...lines, ""]);
    },
    3_600_000,
  );
});

/** Whether a line is one whose keys are pressed: on a push the first of its kind. */
function isTyped(path: string, row: number): boolean {
  return typesAll || isFull || firstOnes.has(`${path} ${row}`);
}

/** A line in pieces, the middles of its texts and comments every other one. */
function pieces(line: string): readonly string[] {
  return typesAll ? [line] : line.split(/((?<="[^"]{3})[^"]{3,}(?=[^"]{2}")|(?<=#.{3}).{3,}(?=..$))/);
}

/** By kind of line, where it stands first in each sheet that is typed. */
function firstOfEachKind(): Map<string, string[]> {
  const first = new Map<string, string[]>();
  for (const path of typed) {
    const here = new Set<string>();
    for (const [i, line] of linesOf(path).entries()) {
      const shape = shapeOf(line);
      if (here.has(shape)) continue;
      here.add(shape);
      const places = first.get(shape) ?? [];
      // On a push once for both sheets.
      if (isFull || places.length === 0) places.push(`${path} ${i}`);
      first.set(shape, places);
    }
  }
  return first;
}

/** A line with its names, figures, texts and comments left out. */
function shapeOf(line: string): string {
  const [, keyword = "", rest = ""] =
    /^(\s*\S*)(.*)$/.exec(
      line
        .replace(/"[^"]*"/g, '""')
        .replace(/#.*/, "#")
        .replace(/\d[\d./x-]*/g, "0"),
    ) ?? [];
  return keyword + rest.replace(/[a-z]+(?:-[a-z0]+)+/g, "name");
}

/** As a person types: the editor, which sets lines in and out by itself, is not behind with what it has read. */
const hand = { delay: 60 };
const short = `sheet "Right hub knocks"
  machine "Hallam trailer, 1958"
  currency GBP

places side left, right

part hub "Hub"
  each side
  held by hub-nut
fastener hub-nut "Hub nut"
  each side
  locked by split pin 5/32 x 1-1/4 in

day 2026-05-04

finding hub-nut right
  is loose, unlocked
step strip "Hub off"
  undo hub-nut
  remove hub
  done
`;

test("with nothing typed before a line: a detail is set in, and an entry goes to the first column", { retry: 1, timeout: 600_000 }, async () => {
  const folder = mkdtempSync(join(tmpdir(), "splitpin-set-in-"));
  writeFileSync(join(folder, "hub.jobsheet"), "");
  const bench = await startWorkbench(folder, { "files.autoSave": "off" });
  try {
    const { page } = bench;
    await openFile(page, "hub.jobsheet");
    await page.locator(".monaco-editor").first().click();
    for (const line of short.trimEnd().split("\n")) {
      await page.keyboard.type(line.trimStart(), hand);
      await page.waitForTimeout(300);
      await page.keyboard.press("Enter");
    }
    await page.keyboard.press("Control+S");
    await page.locator(".tab.active.dirty").waitFor({ state: "detached" });
    // The blanks that the last Enter set in are no line yet.
    expect(readFileSync(join(bench.folder, "hub.jobsheet"), "utf8").replace(/^ +$/gm, "")).toBe(short);
  } finally {
    await bench.stop();
    rmSync(folder, { recursive: true, force: true });
  }
});
