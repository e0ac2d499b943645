// Shows the sample job: what is wrong with it, and its parts order. The faults are there on purpose, so they don't make this fail.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const sample = "samples/bevel-drive/bevel-drive.jobsheet";

show(`What is wrong in ${sample}, a job under way whose faults are there on purpose`, ["check", sample, "--brief"], [0, 1]);
show("What must be ordered for it", ["order", sample], [0]);

function show(title, words, right) {
  console.log(`${title}\n  splitpin ${words.join(" ")}\n`);
  const { status, error } = spawnSync(process.execPath, ["dist/splitpin.js", ...words], { cwd: root, stdio: "inherit" });
  if (right.includes(status)) return console.log();
  console.error(error?.message ?? `splitpin ${words[0]} ended with ${status}.`);
  process.exit(status ?? 2);
}
