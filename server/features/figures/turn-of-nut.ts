// How far a nut moves along its thread for so many flats, turns or degrees; and how deep a thread is.
import { type Exact, compare, exact, figure, ratio } from "../../quantities/exact.ts";
import { formOf } from "../../trade/thread-forms.ts";
import { type Answer, type Value, known, notKnown, shown, value } from "./answer.ts";
import { type Question, bare, take, takeAll } from "./question.ts";
import { takeThread, unknownThread } from "./threads-read.ts";

const inch = figure("25.4");
const number = "(\\d+-\\d+/\\d+|\\d+/\\d+|\\d+(?:\\.\\d+)?|\\.\\d+)";

/** `how far is a flat of an M12 nut`, `1/4 turn of a 3/4 BSF nut`. */
export function turnOfNutFigure(q: Question): Answer | undefined {
  if (!/\b(?:flats?|turns?|revolutions?)\b/i.test(q.left) || /\bacross\b|\bA\/?F\b|\bslots?\b|\btorque\b/i.test(q.left)) return undefined;
  const found = takeThread(q);
  const tpi = found?.thread === undefined ? /(\d{1,2})$/.exec(found?.unknown ?? "")?.[1] : undefined;
  if (found === undefined) return undefined;
  const pitchMm = found.thread?.pitchMm ?? (tpi === undefined || !/^\d[\d/-]*-\d{1,2}$/.test(found.unknown ?? "") ? undefined : inch.div(figure(tpi)));
  const some = take(q, new RegExp(`(?<![\\p{L}\\d./-])(?:${number}|an?|one|each|per)?[ -]?(?:of an? )?(flats?|turns?|revolutions?)\\b`, "iu"));
  takeAll(
    q,
    /\b(?:far|nuts?|bolts?|screws?|travel|move(?:s|ment|d)?|turned|tightened|along|advance(?:s)?|in (?:thou|mm|inches)|thou|per|each|hexagon|castle|distance)\b/i,
  );
  if (some === undefined) return undefined;
  if (pitchMm === undefined) return unknownThread(found.unknown ?? "", "1 flat of ");
  const count = some[1] === undefined ? ratio(1) : exact(some[1]);
  if (count === undefined || count.n === 0n || compare(count, ratio(1000)) > 0) return notKnown("Say how many flats or turns, above nothing.", "1 flat of M12");
  const isFlat = /^flat/i.test(some[2] as string);
  const turn = isFlat ? count.div(6) : count;
  const travel = pitchMm.mul(turn);
  const name = found.thread?.designation ?? `${tpi} threads an inch`;
  const said = `${some[1] ?? "1"} ${isFlat ? (compare(count, ratio(1)) > 0 ? "flats" : "flat") : compare(count, ratio(1)) > 0 ? "turns" : "turn"}`;
  return known(
    `${name}: ${said}${isFlat ? ` of a hexagon, ${shown(turn.mul(360))}\u00b0,` : ""} moves the nut ${shown(travel)} mm (${shown(travel.div(inch))} in, ${shown(travel.div(inch).mul(1000), 4)} thou) along the thread.`,
    [value("travel", travel, "mm"), value("travel", travel.div(inch), "in"), value("turn", turn.mul(360), "deg")],
    [{ source: "pitch times turn; a flat of a hexagon is a sixth", mark: "computed" }, ...(found.thread === undefined ? [] : [found.thread])],
  );
}

/** `thread depth of 1/2 BSW`: of the screw, and where the standard gives the nut another, of both. */
export function threadDepthFigure(q: Question): Answer | undefined {
  if (!/\b(?:depth|height|deep)\b/i.test(q.left) || !/\bthreads?\b/i.test(q.left)) return undefined;
  const found = takeThread(q);
  if (found === undefined) {
    takeAll(q, /\b(?:threads?|depth|height|deep)\b/i);
    return bare(q.left) === "" ? notKnown("Of which thread?", "thread depth of 1/2 BSW", "thread depth of M10") : undefined;
  }
  takeAll(q, /\b(?:threads?|depth|height|deep|screws?|bolts?|nuts?|cut|single|in (?:mm|inches|thou))\b/i);
  if (found.thread === undefined) return unknownThread(found.unknown ?? "", "thread depth of ");
  const { thread } = found;
  const form = formOf(thread.family);
  const screw = thread.pitchMm.mul(form.coreOff).div(2);
  const nut = thread.pitchMm.mul(form.depth);
  const text = (mm: Exact) => `${shown(mm, 4)} mm (${shown(mm.div(inch), 4)} in)`;
  const both = (name: string, mm: Exact): Value[] => [value(name, mm, "mm", 6), value(name, mm.div(inch), "in", 6)];
  const twice = compare(screw, nut) !== 0;
  return known(
    `${thread.designation}: the screw's thread is ${text(screw)} deep${twice ? `, to its rounded root; the basic form, as in the nut, ${text(nut)}` : ""}.`,
    [...both("depth of thread", screw), ...(twice ? both("basic depth", nut) : [])],
    [{ source: `form of ${form.of}, ${form.source}`, mark: form.mark === "memory" ? "memory" : "computed" }, thread],
  );
}
