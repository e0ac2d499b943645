// The threads beside the one that answers: V8 compiles on them, and collects what is not used any more, on as many with two cores as with twenty. While a server is warming up they want
// all cores at once, and the answer waited for its turn two thirds of its time. They give way to it.
// Invariant: it only saves time. A system that knows no priority of a single thread (all but Linux) is left as it is.
import { readdirSync } from "node:fs";
import { getPriority, setPriority } from "node:os";
import { setFlagsFromString } from "node:v8";

/** Of nice values (POSIX.1-2017, `nice`). Ten more is a tenth of the share of a core that two want (sched(7), and the weights in Linux's `sched_prio_to_weight`: 110 against 1024). */
const lower = 10;

/** To be called once the program's threads have started, by the thread that answers. */
export function othersGiveWay(): void {
  if (process.platform !== "linux") return;
  // Collecting for which the answer stands still must not wait for a thread that gives way to other programs as well. Alone it takes no longer: there is little to collect.
  setFlagsFromString("--no-parallel-scavenge");
  try {
    const niceness = Math.min(19, getPriority() + lower);
    for (const thread of readdirSync("/proc/self/task")) if (Number(thread) !== process.pid) giveWay(Number(thread), niceness);
  } catch {
    // No /proc, or one that may not be asked.
  }
}

/** setpriority(2): where the standard speaks of a process, Linux takes a thread. */
function giveWay(thread: number, niceness: number): void {
  try {
    setPriority(thread, niceness);
  } catch {
    // It has just ended.
  }
}
