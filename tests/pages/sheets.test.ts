// The pages of the sheets that the tests are made with: whole jobs of road vehicles and machines. Half of them; `more-sheets.test.ts` has the other, beside it.
import { jobs } from "./jobs.ts";
import { lookAtAll } from "./look-at-all.ts";

await lookAtAll(jobs.filter((it) => it.startsWith("tests/sheets/")).filter((_, i, all) => i < all.length / 2));
