// Shims: a service manual's table of combined shims, and stacks counted out whole.
import { expect, test } from "vitest";
import { figure, ratio } from "../../server/quantities/exact.ts";
import { bestStack } from "../../server/trade/shims.ts";

const from = (shims: Record<string, number>, total: string) =>
  bestStack({
    reading: figure(total),
    effect: ratio(-1),
    target: ratio(0),
    low: ratio(0),
    high: ratio(0),
    fitted: [],
    drawer: Object.entries(shims).map(([thickness, count]) => ({ thickness: figure(thickness), count })),
  });

// A bevel drive's shims of 0.25, 0.30 and 0.35 mm, as the manual combines them: it prefers equal shims.
test.each([
  ["0.50", ["0.25", "0.25"]],
  ["0.55", ["0.3", "0.25"]],
  ["0.60", ["0.3", "0.3"]],
  ["0.70", ["0.35", "0.35"]],
  ["0.75", ["0.25", "0.25", "0.25"]],
])("%s mm is made of %j", (total, published) => {
  const said = from({ "0.25": 20, "0.30": 20, "0.35": 20 }, total);
  if (said.kind !== "stack") return expect.fail(said.kind);
  expect(said.stack.shims.flatMap((it) => Array.from({ length: it.count }, () => it.thickness.toString()))).toEqual(published);
});

// Two each of 2, 3, 5 and 10 thou, one of 8 and one of 20: 324 stacks, counted out.
const stock = { "2": 2, "3": 2, "5": 2, "8": 1, "10": 2, "20": 1 };

test("68 thou takes all ten shims", () => {
  const said = from(stock, "68");
  expect(said.kind === "stack" ? [said.stack.pieces, said.stack.total.toString()] : said.kind).toEqual([10, "68"]);
});

test("1 thou can't be made: nearest is none at all, and a shim of 1 is to be got", () => {
  const said = from(stock, "1");
  expect(said.kind === "none" ? [said.nearest.pieces, said.nearest.total.toString(), said.get?.toString()] : said.kind).toEqual([0, "0", "1"]);
});
