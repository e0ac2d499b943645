// A split pin that does not suit the thread that it goes through.
import type { Locking } from "../../../grammar/tree.ts";
import { measured, unitsOf } from "../../model/values.ts";
import { lineOf, type Fastener } from "../../model/things.ts";
import { type Where, where } from "../../model/where.ts";
import { type PinVerdict, pinSuits } from "../../trade/split-pins.ts";
import { threadOf } from "../../trade/threads.ts";
import { type JobRule, type Report, restate } from "../rule.ts";

export const rule: JobRule = {
  id: "locking-size",
  group: "Locking",
  severity: "information",
  safety: false,
  title: "A split pin that does not suit its thread",
  why: "A pin that is too thin shears or rattles in its hole; one that is too thick does not go in. The hole depends on the thread's standard, not on its size alone. The table for American threads is not checked against the printed standard; the maker's own pin decides.",
  wrong: `fastener hub-nut "Hub nut, castellated"
  thread 3/4-16 UNF
  locked by split pin 1/16 x 1-1/2 in
#           ^^^^^^^^^^^^^^^^^^^^^^^^^ information locking-size (fix)
`,
  right: `fastener hub-nut "Hub nut, castellated"
  thread 3/4-16 UNF
  locked by split pin 5/32 x 1-1/2 in
`,
  fixed: `fastener hub-nut "Hub nut, castellated"
  thread 3/4-16 UNF
  locked by split pin 5/32 x 1-1/2 in
  note "___"
`,
  scope: "job",
  check({ job, story, report }) {
    for (const thing of job.things.values()) {
      if (thing.kind !== "fastener" || thing.locking?.locking.kind !== "split pin" || thing.threads.length === 0) continue;
      const line = lineOf(thing, "locked");
      if (line !== undefined) say(thing, thing.locking.locking, where(line.file, line.entry, line.detail.row, line.detail.at), report);
    }
    const said = new Set<object>();
    for (const cell of story.fasteners) {
      for (const it of cell.history) {
        if (it.verb !== "lock" || it.with?.kind !== "split pin" || it.action === undefined || said.has(it.action)) continue;
        said.add(it.action);
        say(cell.thing, it.with, it.where, report);
      }
    }
  },
};

const remembered = new WeakMap<Locking, { fastener: Fastener; answer: PinVerdict | undefined }>();

/** What the tables say against the pin, if anything. It hangs on the line and the fastener alone, and is remembered with the line. */
function unsuited(fastener: Fastener, locking: Locking): PinVerdict | undefined {
  let it = remembered.get(locking);
  if (it === undefined || it.fastener !== fastener) {
    it = { fastener, answer: lookUp(fastener, locking) };
    remembered.set(locking, it);
  }
  return it.answer;
}

function lookUp(fastener: Fastener, locking: Locking): PinVerdict | undefined {
  const pin = measured(locking.size[0], unitsOf(locking.size)[0]);
  if (pin?.unit.dimension !== "length") return undefined;
  let first: PinVerdict | undefined;
  for (const { thread } of fastener.threads) {
    const known = thread.free ? undefined : threadOf(thread.designation, thread.leftHand !== undefined);
    const answer = known === undefined ? undefined : pinSuits(pin.value, known);
    // What the tables don't know is not judged; and where one of several threads suits, the pin may be for that one.
    if (answer === undefined || answer.suits) return undefined;
    first ??= answer;
  }
  return first;
}

function say(fastener: Fastener, locking: Locking, at: Where, report: (report: Report) => void): void {
  const answer = unsuited(fastener, locking);
  const size = locking.size[0];
  if (answer === undefined || size === undefined) return;
  const place = { ...at, at: locking.at };
  const better = answer.usual === undefined || size.unit !== undefined ? undefined : answer.usual;
  report({
    where: place,
    severity: "information",
    message: answer.sentence,
    ...(better === undefined || better.unit !== unitsOf(locking.size)[0]?.text
      ? {}
      : { fixes: [restate(`Write ${better.figure}`, { ...at, at: size.figure.at }, better.figure)] }),
  });
}
