// Lets the runner's own messages through between tests: a file of long tests that never waits would keep them back until the runner gives it up.
import { afterEach } from "vitest";

afterEach(() => new Promise<void>((done) => setImmediate(done)));
