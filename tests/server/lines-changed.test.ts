// The edits of a layout, applied as an editor applies them, give exactly the text that the layout gives, and leave alone what it leaves alone.
import fc from "fast-check";
import { expect, test } from "vitest";
import { linesChanged } from "../../server/lsp/lines-changed.ts";

/** All edits are taken against the text before, as the protocol says. */
function applied(before: string, edits: ReturnType<typeof linesChanged>): string {
  const lines = before.split("\n");
  const at = (line: number, character: number) => lines.slice(0, line).reduce((sum, it) => sum + it.length + 1, 0) + character;
  let text = before;
  const last = [...edits].reverse();
  for (const { range, newText } of last)
    text = text.slice(0, at(range.start.line, range.start.character)) + newText + text.slice(at(range.end.line, range.end.character));
  return text;
}

const line = fc.constantFrom("", "", "  ", "part hub", "  part  hub", "  qty 2", "qty   2", "# word", "x");

test("edits of any two texts give the second", () => {
  fc.assert(
    fc.property(fc.array(line, { maxLength: 12 }), fc.array(line, { maxLength: 12 }), (a, b) => {
      const before = a.join("\n");
      const after = b.join("\n");
      expect(applied(before, linesChanged(before, after))).toBe(after);
    }),
    { numRuns: 3000, seed: 20260504 },
  );
});

test("a line that stays as it is has no edit", () => {
  const edits = linesChanged("part hub\n    qty 2\n\n\n\nfinding hub\n  is worn\n", "part hub\n  qty 2\n\nfinding hub\n  is worn\n");
  expect(edits).toEqual([
    { range: { start: { line: 1, character: 0 }, end: { line: 1, character: 9 } }, newText: "  qty 2" },
    { range: { start: { line: 2, character: 0 }, end: { line: 5, character: 0 } }, newText: "\n" },
  ]);
  expect(linesChanged("a\n", "a\n")).toEqual([]);
});

test("edits stand in order and don't overlap", () => {
  fc.assert(
    fc.property(fc.array(line, { maxLength: 12 }), fc.array(line, { maxLength: 12 }), (a, b) => {
      const edits = linesChanged(a.join("\n"), b.join("\n"));
      for (let i = 1; i < edits.length; i++) {
        const [end, start] = [edits[i - 1]?.range.end, edits[i]?.range.start] as [{ line: number; character: number }, { line: number; character: number }];
        expect(end.line < start.line || (end.line === start.line && end.character <= start.character)).toBe(true);
      }
    }),
    { numRuns: 1000, seed: 20260505 },
  );
});
