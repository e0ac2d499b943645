// Two threads side by side: the same, alike enough to be taken for one another, or not alike at all. `look-alike M8 and 5/16-18 UNC`.
import { type Thread, lookAlike, sameThread } from "../../trade/threads.ts";
import { type Answer, known, notKnown, shown, value, word } from "./answer.ts";
import { boltIn, unknownThread } from "./threads.ts";

export function lookAlikeFigure(query: string): Answer | undefined {
  const pair =
    /^(?:look-?\s?alikes?|alike|compare|do|does|is|will)?\b ?(.+?) ?(?:\band\b|\bwith\b|\bin\b|\bgo in\b|,|\bagainst\b|\bvs\.?\b|\bor\b|(?<= )\/(?= )) ?(.+?)(?: go together)?$/i.exec(
      query,
    );
  if (pair === null) return undefined;
  const [a, b] = [boltIn(pair[1] ?? ""), boltIn(pair[2] ?? "")];
  const asked = /^(?:look|alike|compare)/i.test(query);
  if (a.thread === undefined || b.thread === undefined) {
    const unknown = a.thread === undefined ? a.unknown : b.unknown;
    if (!asked) return undefined;
    return unknown === undefined ? notKnown("Say two threads.", "look-alike M8 and 5/16-18 UNC") : unknownThread(unknown);
  }
  return compared(a.thread, b.thread);
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
