// The server's other threads give way to the one that answers, where the system knows a priority of a single thread.
import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { startServer } from "./wire.ts";

describe.runIf(process.platform === "linux")("the threads of the server", () => {
  test("those that compile and collect are ten lower than the one that answers", async () => {
    const wire = startServer();
    await wire.initialize([]);
    const pid = String(wire.process.pid);
    const own = nicenessOf("/proc/self/stat");
    const niceness = () => new Map(readdirSync(`/proc/${pid}/task`).map((it) => [it, nicenessOf(`/proc/${pid}/task/${it}/stat`)]));
    // The other threads that V8 has when it starts: four, unless Node was told of fewer. They are turned down a second after the start.
    const lower = () => [...niceness()].filter(([id, it]) => id !== pid && it === Math.min(19, own + 10)).length;
    await expect.poll(lower).toBeGreaterThanOrEqual(4);
    expect(niceness().get(pid)).toBe(own);
    await wire.stop();
    expect(wire.errors()).toBe("");
  });
});

/** The 19th value of `stat`, proc(5); what stands before it in brackets may hold spaces. */
function nicenessOf(path: string): number {
  const values = readFileSync(path, "utf8")
    .replace(/^.*\) /s, "")
    .split(" ");
  return Number(values[19 - 3]);
}
