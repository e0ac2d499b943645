#!/usr/bin/env node
// Where `splitpin` starts. What Node compiles of the program is kept for the next start, where this Node can keep it (22.1 and newer), and then the
// program is loaded: nothing else stands here, for whatever is loaded before that is compiled at each start.
// Invariant: it only saves time. Where nothing can be kept, the program starts as well.
import module from "node:module";
import { homedir } from "node:os";
import { join } from "node:path";

(module as { enableCompileCache?(folder: string): void }).enableCompileCache?.(join(ownCache(), "splitpin"));
await import("./main.ts");

/** The folder that systems set aside for this person's caches: a shared one could hold what somebody else put there. */
function ownCache(): string {
  const { LOCALAPPDATA, XDG_CACHE_HOME } = process.env;
  if (process.platform === "win32") return LOCALAPPDATA || join(homedir(), "AppData", "Local");
  if (process.platform === "darwin") return join(homedir(), "Library", "Caches");
  return XDG_CACHE_HOME || join(homedir(), ".cache");
}
