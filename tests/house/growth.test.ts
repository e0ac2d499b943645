// Nothing grows faster than its input: each kind of sheet, four times as long, takes no more than a few times the time of the processor that it took before.
// What grows with the square takes sixteen times as long; the start of a program, its compiler and the collector of what is no longer used blur it, so eight
// is asked for, and the least of several runs counts, small and large by turns: what else the machine does at the moment slows both. No time on a clock is asserted. SPLITPIN_GROWTH=1 takes every kind at its full size, through every report.
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { readPriceFile, readSheetFile } from "../../server/disk/read-file.ts";
import type { Files } from "../../server/model/files.ts";
import { reports } from "../../server/reports/all.ts";
import { checkFile } from "../../server/rules/check.ts";
import { priceListOf } from "../../server/supply/price-list.ts";
import { type Growth, growths } from "./growth.ts";

const full = process.env.SPLITPIN_GROWTH === "1";
/** These are measured in the ordinary run as well: what was once the worst. */
const always = new Set(["rows of one measure", "findings of one name", "names that are near to others", "limits each worked out from the one before"]);

test.each(growths.filter((it) => full || always.has(it.name)))("$name", async (growth) => {
  // Small sizes are over before they can be measured.
  const small = full ? Math.max(1, Math.floor(growth.full / 4)) : growth.few;
  await measured(growth, Math.min(small, growth.few));
  let [once, more] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const most = () => 8 * Math.max(once, 60);
  // What grows too fast does so in every run; where one run is within, no more are needed.
  for (let run = 0; run < (full ? 2 : 6) && !(more < most()); run++) {
    once = Math.min(once, await measured(growth, small));
    more = Math.min(more, await measured(growth, 4 * small));
  }
  expect(more, `${small}: ${Math.round(once)} ms; ${4 * small}: ${Math.round(more)} ms`).toBeLessThan(most());
});

test("what is too large is refused with a line that names the limit", () => {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "growth-")));
  try {
    const said = (name: string, text: string) => {
      writeFileSync(join(folder, name), text);
      const reading = (name.endsWith(".csv") ? readPriceFile : readSheetFile)(join(folder, name), [folder]);
      return reading.kind === "text" ? "read" : reading.why;
    };
    expect(said("fits.jobsheet", "#\n".repeat(49_999))).toBe("read");
    expect(said("lines.jobsheet", "#\r\n".repeat(50_000))).toBe("has 50001 lines; more than 50000 are not read: split it, and let one sheet use the other");
    expect(said("large.jobsheet", `# ${"x".repeat(5 * 1024 * 1024)}`)).toBe("has 6 MB; more than 5 MB is not read");
    expect(said("large.csv", "x".repeat(20 * 1024 * 1024 + 1))).toBe("has 21 MB; more than 20 MB is not read");
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test("of a price list so many rows are read, and the list says where it is cut off", () => {
  const list = priceListOf({ text: `number,price\n${"N1,2.50\n".repeat(100_001)}` }, "GBP");
  expect(list.size).toBe(100_000);
  expect(list.faults.map((it) => it.line)).toEqual([100_002]);
  expect(list.faults[0]?.message).toContain("more than 100000 rows of a list are not read");
});

/** Milliseconds of the processor that a check takes, and in the full run every report too. */
async function measured(growth: Growth, n: number): Promise<number> {
  const text = growth.sheet(n);
  const prices = growth.prices === undefined ? undefined : { text: growth.prices(n) };
  const before = process.cpuUsage();
  const sheet = readSheet(text);
  const files: Files = { read: (path) => (path === "s.jobsheet" ? sheet : "missing"), jobsheets: () => ["s.jobsheet"], prices: () => prices ?? "missing" };
  checkFile(files, "s.jobsheet");
  if (full) for (const report of reports) await report.make(files, ["s.jobsheet"], choice(growth, report.name), { today: "2026-05-02", width: 100 });
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function choice(growth: Growth, report: string): { choose?: string } {
  return growth.choose !== undefined && report === "order" ? { choose: growth.choose } : {};
}
