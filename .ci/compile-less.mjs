// V8 optimizes what has run for a while, on other cores than the one that waits; with a worker on each core there are none. Most of what a test runs is over before that pays:
// asked for six times as long, the checks take a sixth less of the machine. Newer versions of V8 count otherwise, and are left as they are.
import { setFlagsFromString } from "node:v8";

if (Number(process.versions.node.split(".")[0]) < 22) setFlagsFromString("--interrupt-budget=400000");
