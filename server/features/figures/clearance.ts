// The hole that a bolt goes through, and a hole of which it is not said what for: `clearance hole for M8`, `drill for M6`.
// Invariant: a hole for a tap and one that a bolt goes through are never given for one another.
import { type Exact, figure } from "../../quantities/exact.ts";
import { type HoleSeries, clearanceHole } from "../../trade/clearance-holes.ts";
import { nearestDrills } from "../../trade/drill-sizes.ts";
import { type Answer, known, notKnown, shown, value } from "./answer.ts";
import { type Question, bare, take, takeAll } from "./question.ts";
import { takeThread, unknownThread } from "./threads-read.ts";

const inch = figure("25.4");
const series: readonly (readonly [RegExp, HoleSeries])[] = [
  [/\b(?:close|fine)(?: (?:fit|series))?\b/i, "fine"],
  [/\b(?:medium|normal|standard)(?: (?:fit|series))?\b/i, "medium"],
  [/\b(?:coarse|free|loose|easy)(?: (?:fit|series))?\b/i, "coarse"],
];
const holeWords = /\b(?:clearance|clearing|clears?|drills?|drilling|drilled|holes?|sizes?|bolts?|screws?|studs?|through|pass|bit)\b/i;

export function clearanceFigure(q: Question): Answer | undefined {
  if (!/\b(?:clearance|clearing|clears?)\b/i.test(q.left) || !/\b(?:holes?|drill\w*|bolts?)\b/i.test(q.left)) return undefined;
  const found = takeThread(q);
  if (found === undefined) return undefined;
  const wanted = series.find(([shape]) => take(q, shape) !== undefined)?.[1];
  takeAll(q, holeWords);
  if (found.thread === undefined) return unknownThread(found.unknown ?? "", "clearance hole for ");
  const { designation } = found.thread;
  const hole = clearanceHole(found.thread);
  if (hole === undefined) return notKnown(`No clearance hole is known here for ${designation}.`, "clearance hole for M8", "clearance hole for 1/4 BSF");
  const text = (mm: Exact) => (found.thread?.tpi === undefined ? `${shown(mm)} mm` : `${shown(mm.div(inch), 4)} in (${shown(mm, 4)} mm)`);
  const shownSeries: readonly HoleSeries[] = wanted === undefined ? ["fine", "medium", "coarse"] : [wanted];
  const { named, fraction } = nearestDrills(hole.mm[wanted ?? "medium"].div(inch));
  const near = found.thread.tpi === undefined ? undefined : (fraction ?? named);
  return known(
    `Clearance hole for ${designation}: ${shownSeries.map((it) => `${hole.names[it]} ${text(hole.mm[it])}`).join(", ")}${near === undefined ? "" : `; the ${hole.names[wanted ?? "medium"]} one is near ${near.name}`}${hole.mark === "memory" ? " (from memory)" : ""}.`,
    shownSeries.flatMap((it) => [value(hole.names[it], hole.mm[it], "mm", 6), value(hole.names[it], hole.mm[it].div(inch), "in", 6)]),
    [hole],
    ["A bolt that locates, as in a coupling or a big end, wants a hole reamed to its shank, and not one of these."],
  );
}

/** `drill for M6`: before the tap, or for the bolt to go through? */
export function whichHoleFigure(q: Question): Answer | undefined {
  if (!/\b(?:drills?|holes?)\b/i.test(q.left)) return undefined;
  const found = takeThread(q);
  takeAll(q, holeWords);
  if (found?.thread === undefined || bare(q.left) !== "") return undefined;
  const { designation } = found.thread;
  const through = clearanceHole(found.thread) === undefined ? [] : [`clearance hole for ${designation}`];
  return notKnown("A hole to tap, or one for the bolt to go through? Say which.", `tapping drill for ${designation}`, ...through);
}
