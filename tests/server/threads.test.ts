// The server's other threads give way to the one that answers, where the system knows a priority of a single thread.
import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { startServer } from "./wire.ts";

describe.runIf(process.platform === "linux")("the threads of the server", () => {
  test("those that compile and collect are ten lower than the one that answers", async () => {
    const wire = startServer();
    await wire.initialize([]);
    const pid = String(wire.process.pid);
    const threads = readdirSync(`/proc/${pid}/task`);
    const niceness = new Map(threads.map((it) => [it, nicenessOf(`/proc/${pid}/task/${it}/stat`)]));
    await wire.stop();
    expect(wire.errors()).toBe("");

    const own = niceness.get(pid) as number;
    // The other threads that V8 has when it starts: four, unless Node was told of fewer. Node's own for files may come later, and are as they come.
    const lower = [...niceness].filter(([id, it]) => id !== pid && it === Math.min(19, own + 10));
    expect(own).toBe(nicenessOf("/proc/self/stat"));
    expect(lower.length).toBeGreaterThanOrEqual(4);
  });
});

/** The 19th value of `stat`, proc(5); what stands before it in brackets may hold spaces. */
function nicenessOf(path: string): number {
  const values = readFileSync(path, "utf8")
    .replace(/^.*\) /s, "")
    .split(" ");
  return Number(values[19 - 3]);
}
