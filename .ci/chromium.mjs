// The Chromium that pages, the workbench and the pictures are opened in; SPLITPIN_CHROMIUM names another.
import { chromium } from "playwright-core";

export function launchChromium() {
  return chromium.launch({
    executablePath: process.env.SPLITPIN_CHROMIUM ?? "/usr/bin/chromium",
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
