// `splitpin figure`: what it prints, and what it ends with.
import { expect, test } from "vitest";
import { splitpin } from "./desk.ts";

const ask = (...words: string[]) => splitpin(["figure", ...words], "/");

test("one line of answer, one of source, and the cautions; known ends with 0", async () => {
  const { code, out, err } = await ask("split pin for 5/8 BSF");
  const lines = out.trimEnd().split("\n");
  expect([code, err]).toEqual([0, ""]);
  // BS 1083: hole 0.136 .. 0.143 in.
  expect(lines[0]).toContain("0.136 .. 0.143 in");
  expect(lines[1]).toMatch(/^Source: .*BS 1083/);
  expect(lines.slice(2).every((it) => it.startsWith("Caution: "))).toBe(true);
});
test("the words need no quotes, and a figure below zero is no option", async () => {
  // −40 is the same on both scales.
  expect((await ask("-40", "degC", "in", "degF")).out).toContain("-40 degF, exactly");
  expect((await ask("-40 degC in degF")).code).toBe(0);
  expect((await ask("25", "H7/g6")).out).toContain("clearance 7 .. 41");
});
test("JSON has the shape that programs rely on", async () => {
  const { code, out } = await ask("0.015 in in mm", "--format", "json");
  expect(code).toBe(0);
  expect(JSON.parse(out)).toMatchObject({
    query: "0.015 in in mm",
    known: true,
    values: [{ name: "result", value: "0.381", unit: "mm" }],
    confidence: "computed",
    cautions: [],
  });
  expect(Object.keys(JSON.parse(out))).toEqual(["query", "known", "line", "values", "source", "confidence", "cautions"]);
});
test("not known ends with 1 and says what could be asked", async () => {
  const text = await ask("M13");
  expect([text.code, text.err]).toEqual([1, ""]);
  expect(text.out).toContain('splitpin figure "');
  const { code, out } = await ask("1 gal in l", "--format", "json");
  expect(code).toBe(1);
  expect(JSON.parse(out)).toMatchObject({ known: false, ask: ["1 us.gal in l", "1 imp.gal in l"] });
});
test("what could not run ends with 2", async () => {
  expect((await ask()).code).toBe(2);
  expect((await ask("M10", "--format", "csv")).code).toBe(2);
  expect((await ask("M10", "--grade")).code).toBe(2);
});
test("nothing in a question reaches the terminal as a control", async () => {
  expect((await ask("\u001b[31mred\u0007")).out).not.toMatch(/(?!\n)\p{Cc}/u);
});
test("help documents the JSON", async () => {
  const { out } = await ask("--help");
  for (const word of ["query", "known", "values", "rounded", "source", "confidence", "cautions", "ask"]) expect(out).toContain(word);
});
