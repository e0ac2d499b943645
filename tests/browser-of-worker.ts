// One browser for all test files of a worker: a start of it costs more than most that is looked at in it. Each window has its own context, so nothing is shared but the program.
import type { Browser } from "playwright-core";
import { launchChromium } from "../.ci/chromium.mjs";

let running: Promise<Browser> | undefined;

/** Started when it is first asked for, and again where it has gone; it goes with the worker. Whoever opens a window closes it. */
export async function browserOfWorker(): Promise<Browser> {
  if (running !== undefined && !(await running).isConnected()) running = undefined;
  running ??= launchChromium();
  return running;
}
