// What a reason says against itself, and honest reasons in words that sound alike. The lines were made up before the lists were, as somebody at a bench might write them; what may be left is common practice.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { judgesNothing } from "../../server/rules/reason-words.ts";
import { saysFailed } from "../../server/rules/metal-words.ts";
import { isForNow, isForWantOfIt, putsOff, saysNoAnswer, speaksAgainst } from "../../server/rules/doubt-words.ts";

const lines = (name: string) =>
  readFileSync(new URL(`reasons/${name}.txt`, import.meta.url), "utf8")
    .trim()
    .split("\n");

describe("a reason that something may serve", () => {
  test("that tells of a fault, or that nobody looked, is told, but for what is known to be missed", () => {
    expect(lines("bad").filter((it) => speaksAgainst(it) === undefined)).toEqual([]);
    expect(lines("missed").filter((it) => speaksAgainst(it) !== undefined)).toEqual([]);
  });

  test("that is honest stands, but for what is known to be taken wrongly", () => {
    expect(lines("good").filter((it) => speaksAgainst(it) !== undefined)).toEqual([]);
    expect(lines("taken-wrongly").filter((it) => speaksAgainst(it) === undefined)).toEqual([]);
  });

  test("of words about tests that went well, one in a hundred at most is taken so", () => {
    const well = readFileSync(new URL("test-words/well.txt", import.meta.url), "utf8")
      .trim()
      .split("\n");
    expect(well.filter((it) => speaksAgainst(it) !== undefined).length).toBeLessThan(well.length / 100);
  });

  test("its words are quoted with those that they stand among, never half a word or half of what they mean", () => {
    expect(speaksAgainst("Threads sound, only a fine line at the fillet")).toBe("only a fine line at the fillet");
    expect(speaksAgainst("It is bent, good for now")).toBe("good for now");
    expect(speaksAgainst("Will do until the new one comes")).toBe("Will do until the new one comes");
    expect(speaksAgainst("Two of us turned it over on the bench by the window, and it will do until the new one comes")).toBe(
      "and it will do until the new one comes",
    );
    expect(saysFailed("Rubbed down, and the web is bent at the boss")).toBe("the web is bent at the boss");
    const reasons = ["bad", "missed"].flatMap((name) =>
      readFileSync(new URL(`reasons/${name}.txt`, import.meta.url), "utf8")
        .trim()
        .split("\n"),
    );
    for (const it of reasons) {
      const said = speaksAgainst(it);
      if (said === undefined) continue;
      const at = it.indexOf(said);
      expect([it, at, /\w\w/u.test(it.slice(at - 1, at + 1)), /\w\w/u.test(it.slice(at + said.length - 1, at + said.length + 1))]).toEqual([
        it,
        at,
        false,
        false,
      ]);
      expect(at).toBeGreaterThanOrEqual(0);
    }
    expect(speaksAgainst("Threads sound, no line at the fillet")).toBeUndefined();
  });
});

test("a reason that tells how it came about, what another costs or who has none judges nothing; of honest ones, made for faults of every kind, one in thirty at most is taken so", () => {
  expect(lines("only-how").filter((it) => judgesNothing(it) === undefined)).toEqual([]);
  const good = lines("good");
  expect(good.filter((it) => judgesNothing(it) !== undefined).length).toBeLessThan(good.length / 30);
});

test("a reason to reuse tells how it came about as well; that it is for now is against it", () => {
  expect(isForNow("Never tried again after the last puncture")).toBeUndefined();
  expect(isForNow("Pin sheared years ago, rust in the slot")).toBeUndefined();
  expect(isForNow("Will do until the new one comes")).toBeDefined();
});

test("what is measured inside may be renewed another year", () => {
  expect(putsOff("0.02 mm inside its limit, to be renewed next winter")).toBeUndefined();
  expect(putsOff("To be renewed next winter")).toBeDefined();
});

test("why the first reading was wrong", () => {
  for (const it of ["The first was read over a ridge of rust", "The anvil was dirty", "Taken over a burr, stoned off", "The worn anvil had a step"])
    expect(putsOff(it)).toBeUndefined();
  for (const it of ["Near enough", "Not sure about the first", "Probably misread", "Good enough"]) expect(putsOff(it)).toBeDefined();
});

test("why a nut has no locking", () => {
  for (const it of [
    "Conical seat",
    "Left hand thread, tightens as it runs",
    "The wheel holds it",
    "Studs in blind holes, tab under the nut not used by the maker",
    "Its pin is on the other nut",
  ])
    expect(isForWantOfIt(it)).toBeUndefined();
  for (const it of [
    "no pins left",
    "pins are out of stock",
    "a jam nut is on order",
    "For now",
    "Forgot the wire",
    "The hole does not line up",
    "No wire to hand",
  ])
    expect(isForWantOfIt(it)).toBeDefined();
});

test("a text that was made to be slow is read", () => {
  for (const word of ["only a ", "crack ", "a bit of ", "to be ", "not yet ", "the old ", "can be ", "normal "]) {
    const text = word.repeat(Math.ceil(3900 / word.length));
    expect([undefined, "string"]).toContain(speaksAgainst(text) === undefined ? undefined : "string");
  }
});

// The lines were written before the list was: what somebody writes behind a question who has no answer to it, and answers that sound alike. Common practice.
test("what is no answer yet is told from an answer, be it bad news or that the book does not say", () => {
  const lines = (name: string) =>
    readFileSync(new URL(`answers/${name}.txt`, import.meta.url), "utf8")
      .trim()
      .split("\n");
  expect(lines("none").filter((it) => saysNoAnswer(it) === undefined)).toEqual([]);
  expect(lines("given").filter((it) => saysNoAnswer(it) !== undefined)).toEqual([]);
});
