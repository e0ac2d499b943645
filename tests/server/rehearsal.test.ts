// A check gone through beforehand: given up where it stands in the way, and never again once it had its share.
import { describe, expect, it } from "vitest";
import { rehearsal } from "../../server/lsp/rehearsal.ts";
import { now } from "../../server/lsp/turns.ts";

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
});
