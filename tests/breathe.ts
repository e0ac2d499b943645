// Lets the runner's own messages through between tests: a file of long tests that never waits would keep them back until the runner gives it up.
// And tells of a test that failed which seed its numbers came from, as fast-check does of its own.
import { afterEach } from "vitest";
import { takeSeeds } from "./seeded.ts";

afterEach(async ({ task }) => {
  const seeds = takeSeeds();
  if (task.result?.state === "fail" && seeds.length > 0) console.error(`${task.name}: failed with the numbers of seed ${seeds.at(-1)}`);
  await new Promise<void>((done) => setImmediate(done));
});
