// The pages of the sheets that the tests are made with: whole jobs of road vehicles and machines.
import { jobs } from "./jobs.ts";
import { lookAtAll } from "./look-at-all.ts";

lookAtAll(jobs.filter((it) => !it.startsWith("samples/")));
