// Starts the server as it ships, and tells on its error stream how long each round of its event loop took that took long: what comes in meanwhile waits for so long.
// Words behind it are the program's own. A line `round MS AT` for each (milliseconds of the processor; when it ended, by the clock that all processes share), `busy` and `quiet`.
//
// What is counted is the time of the processor that the main thread had, where the system tells it (Linux, to a tick of some milliseconds), else that of the whole process; and never more than
// the wall's. So what else the machine does counts for nothing.
// With SPLITPIN_PROFILE, the name of a file, it writes there at its end what it spent its time on, as the engine's sampler has it.
import { openSync, readSync, writeFileSync, writeSync } from "node:fs";
import { Session } from "node:inspector";
import { PerformanceObserver } from "node:perf_hooks";

/** In milliseconds: shorter rounds are not told. */
const told = 5;
/** A round with some work in it; and so long without one it is quiet. */
const [some, quietFor] = [0.5, 190];

const spentUntilNow = clock();
let [cpu, wall] = [spentUntilNow(), performance.now()];
let isBusy = false;
let lastWork = 0;

function look() {
  const now = performance.now();
  const spent = Math.min(spentUntilNow() - cpu, now - wall);
  if (spent >= told) tell(`round ${spent.toFixed(2)} ${performance.timeOrigin + now}`);
  if (spent >= some) {
    if (!isBusy) tell("busy");
    isBusy = true;
    lastWork = now;
  } else if (isBusy && now - lastWork > quietFor) {
    isBusy = false;
    tell("quiet");
  }
  [cpu, wall] = [spentUntilNow(), performance.now()];
  // Each round while there is work; in between the machine is left to others.
  if (now - lastWork < 20) setImmediate(look);
  else setTimeout(look, 1).unref();
}

/** Milliseconds of the processor. */
function clock() {
  try {
    const file = openSync(`/proc/self/task/${process.pid}/schedstat`, "r");
    const room = Buffer.alloc(64);
    const ofThread = () => Number(room.toString("latin1", 0, readSync(file, room, 0, room.length, 0)).split(" ")[0]) / 1e6;
    if (ofThread() > 0) return ofThread;
  } catch {
    // Another system.
  }
  return () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  };
}

function tell(line) {
  writeSync(process.stderr.fd, `${line}\n`);
}

const { SPLITPIN_PROFILE: profile } = process.env;
if (profile !== undefined) {
  const session = new Session();
  session.connect();
  session.post("Profiler.enable");
  session.post("Profiler.setSamplingInterval", { interval: 500 });
  session.post("Profiler.start");
  new PerformanceObserver((list) => {
    for (const it of list.getEntries()) if (it.duration > told) tell(`collected ${it.duration.toFixed(1)} kind ${it.detail.kind} flags ${it.detail.flags}`);
  }).observe({ entryTypes: ["gc"] });
  process.on("exit", () => session.post("Profiler.stop", (_fault, it) => writeFileSync(profile, JSON.stringify(it.profile))));
}
await import("../dist/splitpin.js");
look();
