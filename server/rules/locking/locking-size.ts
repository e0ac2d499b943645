// A split pin that does not suit the thread that it goes through.
import type { Locking } from "../../../grammar/tree.ts";
import { measured, unitsOf } from "../../model/values.ts";
import { lineOf, type Fastener } from "../../model/things.ts";
import { type Where, where } from "../../model/where.ts";
import { type PinVerdict, farTooThin, pinSuits } from "../../trade/split-pins.ts";
import { threadOf } from "../../trade/threads.ts";
import type { FastenerMoment } from "../../story/story.ts";
import { type JobRule, type Report, restate } from "../rule.ts";

export const rule: JobRule = {
  id: "locking-size",
  group: "Locking",
  severity: "information; warning, and open at release, of something critical that was locked with half of the usual pin or less",
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
      const isUsed = story.cells(thing.name).some((cell) => cell.kind === "fastener" && cell.history.some(isDoneWithItsOwn));
      if (line !== undefined) say(thing, thing.locking.locking, where(line.file, line.entry, line.detail.row, line.detail.at), isUsed, report);
    }
    const said = new Set<object>();
    for (const cell of story.fasteners) {
      for (const it of cell.history) {
        if (it.verb !== "lock" || it.with?.kind !== "split pin" || it.action === undefined || said.has(it.action)) continue;
        said.add(it.action);
        say(cell.thing, it.with, it.where, it.phase === "done", report);
      }
    }
  },
};

/** What is said against it; without a usual pin where the tables have none. */
type Against = Pick<PinVerdict, "sentence"> & { readonly usual: PinVerdict["usual"] | undefined; readonly isHalf: boolean };

const remembered = new WeakMap<Locking, { fastener: Fastener; answer: Against | undefined }>();

const isDoneWithItsOwn = (it: FastenerMoment): boolean => it.verb === "lock" && it.phase === "done" && it.with === undefined;

/** What the tables say against the pin, if anything. It hangs on the line and the fastener alone, and is remembered with the line. */
function unsuited(fastener: Fastener, locking: Locking): Against | undefined {
  let it = remembered.get(locking);
  if (it === undefined || it.fastener !== fastener) {
    it = { fastener, answer: lookUp(fastener, locking) };
    remembered.set(locking, it);
  }
  return it.answer;
}

function lookUp(fastener: Fastener, locking: Locking): Against | undefined {
  const pin = measured(locking.size[0], unitsOf(locking.size)[0]);
  if (pin?.unit.dimension !== "length") return undefined;
  let first: Against | undefined;
  for (const { thread } of fastener.threads) {
    const known = thread.free ? undefined : threadOf(thread.designation, thread.leftHand !== undefined);
    if (known === undefined) return undefined;
    const answer = pinSuits(pin.value, known);
    const thin = farTooThin(pin.value, known);
    // What the tables don't know is not judged; and where one of several threads suits, the pin may be for that one.
    if (answer === undefined ? thin === undefined : answer.suits) return undefined;
    first ??= { usual: answer?.usual, sentence: answer?.sentence ?? thin ?? "", isHalf: thin !== undefined };
  }
  return first;
}

function say(fastener: Fastener, locking: Locking, at: Where, isUsed: boolean, report: (report: Report) => void): void {
  const answer = unsuited(fastener, locking);
  const size = locking.size[0];
  if (answer === undefined || size === undefined) return;
  const place = { ...at, at: locking.at };
  const better = answer.usual === undefined || size.unit !== undefined ? undefined : answer.usual;
  report({
    where: place,
    ...(answer.isHalf && isUsed && fastener.critical ? { severity: "warning", open: true } : { severity: "information" }),
    message: answer.sentence,
    ...(better === undefined || better.unit !== unitsOf(locking.size)[0]?.text
      ? {}
      : { fixes: [restate(`Write ${better.figure}`, { ...at, at: size.figure.at }, better.figure)] }),
  });
}
