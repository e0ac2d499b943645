// Declarations, offers and stock may stand in any order: only the story has one. Shuffled, a sheet says the same of the same lines.
import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { standingStill } from "../../server/model/job.ts";
import { memo, once } from "../../server/model/memo.ts";
import { loadSolver } from "../../server/disk/load-solver.ts";
import { checkFile } from "../../server/rules/check.ts";
import { sampleSeed, thinned, times } from "../sampled.ts";
import { partsOrder } from "../in-one-go.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folders = ["samples", "tests/sheets"].flatMap((above) =>
  readdirSync(join(root, above))
    .map((name) => join(above, name))
    .filter((path) => statSync(join(root, path)).isDirectory() && sheetsIn(path).length > 0),
);

/** Entries that tell nothing of when: what a thing is, who sells it, what lay on the shelf on a day that they name. */
const movable = /^(part|fastener|fluid|limit|check|gauge|hazard|supplier|offer|stock|need|shims|rate)\b/;
const heads =
  /^(?=(?:sheet|places|use|day|rate|part|fastener|fluid|limit|check|gauge|hazard|step|measure|seen|finding|question|concession|pause|supplier|offer|stock|order|need|shims|release)\b)/m;
/** Said once a file, at the first of several; a name's second declaration is the lower one. Both go by the order of lines, and rightly. */
const byOrder = new Set(["limit-unsourced", "name-twice", "unused"]);

const jobs = folders.flatMap((folder) => {
  const texts = Object.fromEntries(sheetsIn(folder).map((name) => [name, withoutComments(readFileSync(join(root, folder, name), "utf8"))]));
  // A sheet whose lines are broken on purpose files them by what stands above.
  const whole = Object.keys(texts).filter((name) => /^sheet\b/m.test(texts[name] as string) && !/^(writing-wrong|words)/.test(name));
  return whole.map((job) => ({ path: `${folder}/${job}`, job, texts }));
});

describe("shuffled", () => {
  test.each(thinned(jobs, 7))("$path", ({ job, texts }) => {
    const before = sayings(texts, job);
    const ordered = orderOf(texts, job);
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat(1_000_000)), (numbers) => {
        const next = () => numbers.next().value as number;
        const moved = Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, shuffled(text, next)]));
        expect(sayings(moved, job)).toEqual(before);
        expect(orderOf(moved, job)).toEqual(ordered);
      }),
      { numRuns: times({ plain: 1, run: 1, full: 6 }), seed: sampleSeed },
    );
  });
});

test("something was moved", () => {
  const text = 'part a "A"\npart b "B"\n  qty 2\nday 2026-01-01\nstep s "S"\n  done\npart c "C"\n';
  let turn = 0;
  expect(shuffled(text, () => turn++)).not.toBe(text);
  expect(entriesOf(shuffled(text, () => turn++)).sort()).toEqual(entriesOf(text).sort());
});

/** The movable entries change places with one another; all else stays where it is. */
function shuffled(text: string, next: () => number): string {
  const entries = entriesOf(text);
  const slots = entries.flatMap((entry, i) => (isMovable(entry) ? [i] : []));
  const order = [...slots];
  for (let i = order.length - 1; i > 0; i--) {
    const j = next() % (i + 1);
    [order[i], order[j]] = [order[j] as number, order[i] as number];
  }
  const out = [...entries];
  slots.forEach((slot, i) => {
    out[slot] = entries[order[i] as number] as string;
  });
  return out.join("");
}

/** Details that are added to a declaration stand below it, and stock without a day belongs to the day above. */
function isMovable(entry: string): boolean {
  const [head = ""] = entry.split("\n");
  if (!movable.test(head)) return false;
  if (/^(part|fastener|fluid|limit|check|gauge|hazard|supplier|shims)\b/.test(head)) return head.includes('"');
  return !head.startsWith("stock") || /\d{4}-\d\d-\d\d/.test(head);
}

function entriesOf(text: string): string[] {
  return text.split(heads).filter((entry) => entry !== "");
}

/** What is said, and of which line of which entry, wherever that stands. */
function sayings(texts: Readonly<Record<string, string>>, job: string): string[] {
  const lines = (texts[job] as string).split("\n");
  return checkFile(filesOf(texts), job)
    .filter((it) => it.file === job && !byOrder.has(it.rule))
    .map((it) => {
      let head = it.line;
      while (head > 0 && !/^\p{L}/u.test(lines[head] as string)) head--;
      return `${it.severity} ${it.rule} | ${lines[head]} | ${lines[it.line]} | ${it.from} ${it.to}`;
    })
    .sort();
}

const solver = await loadSolver();

function orderOf(texts: Readonly<Record<string, string>>, job: string): unknown {
  // Without a way to choose, offers in several currencies are taken as written: then their order counts.
  const { lines, suppliers } = partsOrder(filesOf(texts), [job], { way: "cheapest", solver });
  return {
    lines: lines.map(({ item, need, toOrder, supplier, total }) => `${item} ${need} ${toOrder} ${supplier} ${total}`).sort(),
    suppliers: suppliers.map(({ supplier, total }) => `${supplier} ${total}`).sort(),
  };
}

/** Each text is read once, and a job made of them once, whatever is asked of it. */
const filesOf = memo((texts: Readonly<Record<string, string>>): Files => {
  const read = new Map(Object.entries(texts).map(([path, text]) => [path, once(() => readSheet(text))]));
  return standingStill({
    read: (path) => read.get(path)?.() ?? "missing",
    jobsheets: () => Object.keys(texts),
  });
});

function sheetsIn(folder: string): string[] {
  return readdirSync(join(root, folder))
    .filter((name) => name.endsWith(".jobsheet"))
    .sort();
}

/** Comments stand between entries and would move with the one above. */
function withoutComments(text: string): string {
  return text
    .split("\n")
    .filter((line) => !line.startsWith("#"))
    .join("\n");
}
