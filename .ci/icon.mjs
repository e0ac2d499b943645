// Makes client/icon.png, which a market shows beside the extension's name: the split pin of its files on a plate, 256 × 256. Run it when the drawing has changed; it needs Chromium.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const root = fileURLToPath(new URL("../", import.meta.url));
const { galleryBanner } = JSON.parse(readFileSync(`${root}package.json`, "utf8"));
const pin = readFileSync(`${root}client/split-pin-dark.svg`, "utf8").replace("<svg ", '<svg width="176" height="176" ');
const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
const page = await browser.newPage({ viewport: { width: 256, height: 256 } });
await page.setContent(
  `<body style="margin:0"><div style="width:256px;height:256px;border-radius:44px;background:${galleryBanner.color};display:flex;align-items:center;justify-content:center">${pin}</div></body>`,
);
await page.screenshot({ path: `${root}client/icon.png`, omitBackground: true });
await browser.close();
