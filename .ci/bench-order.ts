// Measures the order of a whole workshop: 200 job sheets that share a price list of 50,000 rows, through the command line as a person runs it.
// It prints; it asserts nothing, for a time depends on the machine.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const sheets = 200;
const rows = 50_000;

/** Each run takes seconds, and differs by a tenth of them. */
export function benchOrder(program: string, runs: number): void {
  const folder = mkdtempSync(join(tmpdir(), "splitpin-bench-order-"));
  try {
    writeWorkshop(folder);
    console.log(`\norder of ${sheets} sheets and a price list of ${rows} rows, command line from start to end (ms)`);
    for (const words of [["order"], ["order", "--choose", "cheapest"]]) {
      const times: number[] = [];
      for (let i = 0; i < runs; i++) {
        const from = performance.now();
        const ran = spawnSync(process.execPath, [program, ...words, folder, "--format", "json"], { encoding: "utf8", maxBuffer: 1 << 28 });
        if (ran.status !== 0) throw new Error(ran.stderr);
        times.push(performance.now() - from);
      }
      const sorted = times.sort((a, b) => a - b);
      console.log(
        `  ${words.join(" ").padEnd(44)} p50 ${(sorted[Math.floor(runs / 2)] as number).toFixed(0).padStart(7)}  worst ${(sorted[runs - 1] as number).toFixed(0).padStart(7)}  (${times.length})`,
      );
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Each machine has things of its own; the list has them all, and many more that nobody asks for. */
function writeWorkshop(folder: string): void {
  mkdirSync(join(folder, "jobs"));
  const list = ["item,number,maker's number,price,per,pack,lead"];
  for (let i = 0; list.length <= rows; i++) {
    const kind = i % 5;
    if (kind === 0) list.push(`split pin ${(i % 7) + 2} x ${20 + (i % 40)} mm,SP-${i},,${1 + (i % 9)}.${10 + (i % 80)},a pack,25,3 d`);
    else if (kind === 1) list.push(`"Gasket, paper, no. ${i}",G-${i},,0.${10 + (i % 80)},each,,3 d`);
    else list.push(`,N-${i},M-${i % 20_000},${1 + (i % 90)}.${10 + (i % 80)},,,${1 + (i % 12)} d`);
  }
  writeFileSync(join(folder, "list.csv"), `${list.join("\r\n")}\r\n`);
  writeFileSync(
    join(folder, "suppliers.jobsheet"),
    'supplier lane "Lane Spares"\n  currency GBP\n  freight 8.50 GBP free over 150 GBP\n  prices "list.csv"\nsupplier hill "Hill Spares"\n  currency GBP\n  freight 6.00 GBP\n',
  );
  for (let j = 0; j < sheets; j++) {
    const lines = [
      `sheet "Job ${j}"`,
      `  machine "Machine ${j}"`,
      "  opened 2026-03-01",
      "  currency GBP",
      'use "../suppliers.jobsheet"',
      "places side left, right",
    ];
    for (let k = 0; k < 8; k++) lines.push(`part part-${k} "Part ${k}"`, "  each side", `  number "M-${(j * 37 + k * 11) % 20_000}"`, `  held by nut-${k % 4}`);
    for (let k = 0; k < 4; k++) lines.push(`fastener nut-${k} "Nut ${k}"`, "  each side 2", `  locked by split pin ${k + 2} x ${20 + (j % 40)} mm`);
    for (let k = 0; k < 4; k++) lines.push(`offer part-${k} from hill`, `  price ${2 + k}.50 GBP`);
    lines.push("day 2026-03-02", "step strip", ...[0, 1, 2, 3].map((k) => `  undo nut-${k}`), ...[0, 1, 2, 3, 4, 5].map((k) => `  remove part-${k}`), "  done");
    for (let k = 0; k < 6; k++) lines.push(`finding part-${k} left`, "  is worn", "  decision renew");
    lines.push("step back", ...[0, 1, 2, 3].map((k) => `  fit part-${k}`), ...[0, 1, 2, 3].flatMap((k) => [`  tighten nut-${k}`, `  lock nut-${k} new`]));
    writeFileSync(join(folder, "jobs", `job-${String(j).padStart(3, "0")}.jobsheet`), `${lines.join("\n")}\n`);
  }
}
