// A check gone through beforehand: given up where it stands in the way, and never again once it had its share.
import { readFileSync } from "node:fs";
import { fileURLToPath, pathToFileURL } from "node:url";
import { describe, expect, it } from "vitest";
import { rehearsal } from "../../server/lsp/rehearsal.ts";
import { now } from "../../server/lsp/turns.ts";
import { startServer } from "./wire.ts";

/** So long a slice is at work. */
function* slices(count: number, milliseconds: number, begun: () => void): Generator<undefined, void> {
  begun();
  for (let i = 0; i < count; i++) {
    for (const until = now() + milliseconds; now() < until; );
    yield;
  }
}

describe("rehearsal", () => {
  it("goes through it again and again, and ends for good", async () => {
    const rehearse = rehearsal();
    let begun = 0;
    const begin = () => slices(2, 20, () => (begun += 1));
    await rehearse(begin, () => true);
    expect(begun).toBeGreaterThan(1);
    const before = begun;
    await rehearse(begin, () => true);
    expect(begun).toBe(before);
  });

  it("is given up at the next turn, and goes on with what is left", async () => {
    const rehearse = rehearsal();
    let begun = 0;
    const begin = () => slices(1000, 5, () => (begun += 1));
    await rehearse(begin, () => false);
    expect(begun).toBe(1);
    await rehearse(begin, () => false);
    expect(begun).toBe(2);
  });

  it("does not go on beside itself", async () => {
    const rehearse = rehearsal();
    let begun = 0;
    const first = rehearse(
      () => slices(1000, 5, () => (begun += 1)),
      () => false,
    );
    await rehearse(
      () => slices(1000, 5, () => (begun += 100)),
      () => false,
    );
    await first;
    expect(begun).toBe(1);
  });

  it("keeps a fault of the program to itself, and does not meet it again", async () => {
    const rehearse = rehearsal();
    let begun = 0;
    const begin = (): Generator<undefined, void> => {
      begun += 1;
      throw new Error("a rule fell over");
    };
    await rehearse(begin, () => true);
    await rehearse(begin, () => true);
    expect(begun).toBe(1);
  });

  it("ends where it is over at once", async () => {
    const rehearse = rehearsal();
    let begun = 0;
    const begin = () => slices(0, 0, () => (begun += 1));
    await rehearse(begin, () => true);
    expect(begun).toBeLessThanOrEqual(800);
  });
});

it("says nothing of what was typed beforehand, then or with the next key", async () => {
  const at = new URL("../../samples/lorry-rear-axle/rear-axle.jobsheet", import.meta.url);
  const text = readFileSync(at, "utf8");
  const uri = pathToFileURL(fileURLToPath(at)).href;
  const wire = startServer();
  await wire.initialize([new URL(".", pathToFileURL(fileURLToPath(at))).href]);
  wire.open(uri, text);
  const first = await wire.diagnostics(uri);
  // The start is over after a second, and what is gone through then takes most of another.
  await new Promise((resolve) => setTimeout(resolve, 2_200));
  expect(wire.listsOf(uri)).toBe(1);
  const line = text.split("\n").findIndex((it) => it.startsWith("step ")) + 1;
  const place = { line, character: 0 };
  wire.change(uri, 2, [{ range: { start: place, end: place }, text: "  remove no-such-part\n" }]);
  // On a busy machine what stands is told first, and the whole behind it.
  await expect.poll(async () => (await wire.diagnosticsAt(uri, 2)).filter((it) => it.message.includes("no-such-part")).length).toBe(1);
  wire.change(uri, 3, [{ range: { start: place, end: { line: line + 1, character: 0 } }, text: "" }]);
  await expect.poll(() => wire.diagnosticsAt(uri, 3)).toEqual(first);
  await wire.stop();
  expect(wire.errors()).toBe("");
});
