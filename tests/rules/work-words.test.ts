// What notes beside work and beside what came say against it, and innocent ones that sound alike. The lines are made up, written before the lists were; what is read wrongly stands apart, so
// that whoever mends one is told to move it. Which words tell of a fault is common practice.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { saysNotAsOrdered, saysNotRight, saysTheOldOne, saysTheOtherWay } from "../../server/rules/work-words.ts";

describe.each([
  { name: "work", says: saysNotRight },
  { name: "came", says: saysNotAsOrdered },
])("beside $name", ({ name, says }) => {
  const lines = (kind: string) =>
    readFileSync(new URL(`work-words/${name}-${kind}.txt`, import.meta.url), "utf8")
      .trim()
      .split("\n")
      .filter((it) => it !== "");

  test("what is against it is told, but for what is known to be missed", () => {
    expect(lines("told").filter((it) => says(it) === undefined)).toEqual([]);
    expect(lines("untold").filter((it) => says(it) !== undefined)).toEqual([]);
  });

  test("an innocent note is taken so, but for what is known to be taken wrongly", () => {
    expect(lines("well").filter((it) => says(it) !== undefined)).toEqual([]);
    expect(lines("taken-wrongly").filter((it) => says(it) === undefined)).toEqual([]);
  });
});

test("the old one beside a new, and what is declared turned about", () => {
  expect(saysTheOldOne("The new one came late, put the old one back")).toBe("put the old one back");
  expect(saysTheOldOne("The old one out with a puller, this is new")).toBeUndefined();
  expect(saysTheOtherWay("lip to the oil", "went in lip outward")).toBe("went in lip outward");
  expect(saysTheOtherWay("lip to the oil", "Lip to the oil, smeared")).toBeUndefined();
  expect(saysTheOtherWay("oil grooves to the crankshaft", "Grooves to the block")).toBe("Grooves to the block");
  expect(saysTheOtherWay("oil grooves to the crankshaft", "Grooves to the shaft")).toBeUndefined();
});
