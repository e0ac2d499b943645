// What was made lately is collected when it is asked for, by this Node.
import { expect, it } from "vitest";
import { collectingWhenAsked } from "../../server/collecting.ts";

it("collects what is not used any more", () => {
  const collecting = collectingWhenAsked();
  expect(collecting).toBeDefined();
  // As many arrays as it takes until it is worth it, and no more than a million.
  let made = 0;
  while (made < 1e6 && collecting?.isWorthIt() !== true) made += Array.from({ length: 1 }, () => made).length;
  expect(collecting?.isWorthIt()).toBe(true);
  collecting?.collect();
  collecting?.collect();
  expect(collecting?.isWorthIt()).toBe(false);
  expect(collecting?.isNearlyFull()).toBe(false);
});
