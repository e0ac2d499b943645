// The Chromium that pages, the workbench and the pictures are opened in; SPLITPIN_CHROMIUM names another.
// Where there is one without a window of its own it is taken: the same engine, without the half of the work that is for a desk.
import { existsSync } from "node:fs";
import { chromium } from "playwright-core";

const [headless, whole] = ["/usr/bin/chromium-headless-shell", "/usr/bin/chromium"];

export function launchChromium() {
  return chromium.launch({
    executablePath: process.env.SPLITPIN_CHROMIUM ?? (existsSync(headless) ? headless : whole),
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}
