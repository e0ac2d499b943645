// Lots: so many pieces that nothing tells apart. What is taken, split and joined, each answer counted by hand.
import { describe, expect, test } from "vitest";
import {
  type Lot,
  Notes,
  allot,
  asItStands,
  brandNew,
  change,
  countOf,
  join,
  latestFirst,
  noted,
  slackFirst,
  take,
  unlockedFirst,
} from "../../server/story/lots.ts";
import type { Note } from "../../server/story/lots.ts";

const old = asItStands(4, "left");
const fresh = brandNew(2, "left");
const repair = (seq: number): Note => ({ kind: "repair", seq, moment: { seq } as never, text: "" });
const counts = (lots: readonly Lot[]) => lots.map((lot) => lot.count);

describe("taking", () => {
  test("some of a lot splits it", () => {
    const { taken, left } = take([old], 3);
    expect([counts(taken), counts(left)]).toEqual([[3], [1]]);
  });

  test("as many as there are, or more, takes all and splits none", () => {
    expect(take([old], 4)).toEqual({ taken: [old], left: [] });
    expect(take([old], 9)).toEqual({ taken: [old], left: [] });
  });

  test("none, or less than none, takes none", () => {
    expect(take([old], 0)).toEqual({ taken: [], left: [old] });
    expect(take([old], -1)).toEqual({ taken: [], left: [old] });
  });

  test("goes by rank first, and then by the order of the list", () => {
    const slack: Lot = { ...old, count: 1, tight: false };
    expect(take([old, slack], 1, slackFirst).taken).toEqual([slack]);
    expect(counts(take([old, slack], 3, slackFirst).taken)).toEqual([2, 1]);
  });

  test("a count is allotted lot by lot", () => {
    expect(allot([old, fresh], 5)).toEqual([4, 1]);
    expect(allot([old, fresh], 5, (lot) => (lot.isNew ? 0 : 1))).toEqual([3, 2]);
    expect(allot([old, fresh], 9)).toEqual([4, 2]);
  });
});

describe("joining", () => {
  test("pieces that are alike are one lot again", () => {
    const { taken, left } = take([old], 3);
    expect(join(left, taken)).toEqual([old]);
  });

  test("what tells them apart keeps them apart", () => {
    for (const other of [
      { ...old, tight: false },
      { ...old, locked: false },
      { ...old, home: "right" },
      { ...old, madeFor: "right" },
      { ...old, forNow: true },
      { ...old, standsIn: true },
      { ...old, tightenedAt: 7 },
      { ...old, letBackAt: 7 },
      { ...old, fresh: true },
      { ...old, isNew: true },
      noted(old, repair(1)),
    ])
      expect(join([old], [other])).toHaveLength(2);
  });

  test("a lot of none is no lot", () => {
    expect(join([{ ...old, count: 0 }], [fresh])).toEqual([fresh]);
  });

  test("no piece is lost or made by changing some", () => {
    const changed = change([old, fresh], 3, (lot) => ({ ...lot, locked: true, tight: true }), unlockedFirst);
    expect(countOf(changed)).toBe(6);
  });
});

describe("which ones are meant", () => {
  const at = (seq: number | undefined, more: Partial<Lot> = {}): Lot => ({ ...old, count: 1, tightenedAt: seq, ...more });

  test("tighten takes the slack, and then those that were tightened longest ago", () => {
    const [a, b, c] = [at(5), at(3), at(undefined, { tight: false })];
    expect(take([a, b, c], 2, slackFirst).taken).toEqual([b, c]);
  });

  test("let back takes those that were tightened last", () => {
    const [a, b] = [at(5), at(8)];
    expect(take([a, b], 1, latestFirst).taken).toEqual([b]);
  });

  test("lock takes those that are tight and not locked, the last tightened first", () => {
    const [a, b, c] = [at(5, { locked: false }), at(8, { locked: false }), at(9)];
    expect(take([a, b, c], 1, unlockedFirst).taken).toEqual([b]);
    expect(take([c, a, b], 2, unlockedFirst).taken).toEqual([a, b]);
  });
});

describe("notes", () => {
  test("two lists that go on from one keep their own ends", () => {
    const first = new Notes().with(repair(1));
    const [a, b] = [first.with(repair(2)), first.with(repair(3))];
    expect([...first].map((it) => it.seq)).toEqual([1]);
    expect([...a].map((it) => it.seq)).toEqual([1, 2]);
    expect([...b].map((it) => it.seq)).toEqual([1, 3]);
  });

  test("repaired since is told of this list alone, whatever a longer one holds", () => {
    const first = new Notes().with(repair(1));
    const longer = first.with(repair(5));
    expect([first.repairedSince(1), longer.repairedSince(1), longer.repairedSince(5)]).toEqual([false, true, false]);
  });

  test("lists of the same notes are equal, made together or apart", () => {
    const a = new Notes().with(repair(1)).with(repair(2));
    const b = new Notes().with(repair(1)).with(repair(2));
    expect(a.equals(b)).toBe(true);
    expect(a.equals(b.with(repair(3)))).toBe(false);
  });

  test("a finding is told by the lists that hold it", () => {
    const found = { seq: 2 } as never;
    const first = new Notes().with(repair(1));
    const told = first.with({ kind: "found", seq: 2, found });
    expect([first.tells(found), told.tells(found)]).toEqual([false, true]);
  });
});
