// Two threads side by side: the same, alike enough to be taken for one another, or not alike at all. `look-alike M8 and 5/16-18 UNC`.
import { lookAlike, sameThread } from "../../trade/threads.ts";
import type { Thread } from "../../trade/thread.ts";
import { type Answer, known, notKnown, shown, value, word } from "./answer.ts";
import { type Question, bare, take, takeAll } from "./question.ts";
import { takeThread, unknownThread } from "./threads-read.ts";

export function lookAlikeFigure(q: Question): Answer | undefined {
  const asked = take(q, /^(?:look-?\s?alikes?|alike|compare|do|does|is|will|can)\b/i) !== undefined;
  const first = takeThread(q);
  if (first === undefined) return asked && bare(q.left) === "" ? notKnown("Say two threads.", "look-alike M8 and 5/16-18 UNC") : undefined;
  const second = takeThread(q);
  if (second === undefined) return undefined;
  takeAll(
    q,
    /\b(?:go together|same|alike|instead|interchangeable|difference between|compared|into?|screw|nuts?|bolts?|threads?|vs\.?|against|or|and|with|look)\b|\//i,
  );
  if (first.unknown !== undefined) return unknownThread(first.unknown);
  if (second.unknown !== undefined) return unknownThread(second.unknown);
  return first.thread === undefined || second.thread === undefined ? undefined : compared(first.thread, second.thread);
}

function compared(a: Thread, b: Thread): Answer {
  const larger = (x: Thread["majorMm"], y: Thread["majorMm"]) => (x.compare(y) > 0 ? x : y);
  const apart = a.majorMm.sub(b.majorMm).abs();
  const pitch = a.pitchMm.sub(b.pitchMm).abs().div(larger(a.pitchMm, b.pitchMm)).mul(100);
  const values = [
    word("go together", sameThread(a, b) ? "yes" : "no"),
    value("diameters apart", apart, "mm"),
    value("pitches apart", pitch, "%"),
    value("flanks apart", apart.mul(0).add(Math.abs(a.flankAngle - b.flankAngle)), "deg"),
  ];
  const from = [a, b];
  if (sameThread(a, b)) return known(`${a.designation} and ${b.designation} are the same thread: they go together.`, values, from);
  const alike = lookAlike(a, b);
  const figures = `${shown(apart, 4)} mm in diameter, ${shown(pitch, 4)} % in pitch, ${Math.abs(a.flankAngle - b.flankAngle)}\u00b0 in the flanks`;
  if (alike === undefined)
    return known(`${a.designation} and ${b.designation} don't go together, and are not easily taken for one another: ${figures} apart.`, values, from);
  return known(
    `Not the same thread. ${alike.why} Apart by ${figures}.`,
    values,
    [...from, { source: "whether they may be taken for one another is engineering judgement", mark: "computed" }],
    ["Never run one into the other to try: measure the diameter, and the pitch with a thread gauge."],
  );
}
