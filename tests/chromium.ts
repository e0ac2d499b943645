// The Chromium that pages and the workbench are opened in; SPLITPIN_CHROMIUM names another.
import { type Browser, chromium } from "playwright-core";

export function launchChromium(): Promise<Browser> {
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
