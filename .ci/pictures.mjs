// Takes the pictures of the reports that README.md shows, in Debian's Chromium, from the samples. Those of the editor are taken by
// tests/editors/workbench.test.ts with UPDATE_PICTURES=1. Look at them before they are committed.
import { execFileSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { launchChromium } from "./chromium.mjs";

const root = fileURLToPath(new URL("../", import.meta.url));
const pictures = [
  { name: "order", report: "order", sheet: "samples/bevel-drive/bevel-drive.jobsheet", height: 620 },
  { name: "readings", report: "readings", sheet: "samples/bevel-drive/bevel-drive.jobsheet", height: 620 },
  { name: "release", report: "release", sheet: "samples/steering-box/steering-box.jobsheet", height: 860 },
];

mkdirSync(`${root}samples/pictures`, { recursive: true });
const browser = await launchChromium();
for (const { name, report, sheet, height } of pictures) {
  const page = await browser.newPage({ viewport: { width: 1100, height } });
  await page.setContent(drawn(report, sheet));
  await page.screenshot({ path: `${root}samples/pictures/${name}.png` });
  await page.close();
}
await browser.close();

function drawn(report, sheet) {
  const words = [`${root}dist/splitpin.js`, report, sheet, "--format", "html"];
  try {
    return execFileSync(process.execPath, words, { cwd: root, encoding: "utf8" });
  } catch (error) {
    if (error.status === 1) return error.stdout;
    throw error;
  }
}
