// Slots of a castle nut: how many, how far the nut moves from one to the next, and which way to go.
// Invariant: the rule for a nut that clamps and the one for a nut that adjusts stand together, each with its joint.
import { figure } from "../../quantities/exact.ts";
import { slotRules, slotsOf, smallestTurn, travelPerSlot } from "../../trade/castle-slots.ts";
import type { Thread } from "../../trade/thread.ts";
import { type Answer, known, notKnown, shown, value, word } from "./answer.ts";
import { type Question, bare, take, takeAll } from "./question.ts";
import { takeThread, unknownThread } from "./threads-read.ts";

/** Sizes of DIN 935 beyond the tables of threads. */
const largeNuts = new Set(["52", "56", "60", "64", "68", "72", "76", "80", "90", "100"]);

/** `slot travel for 3/4-16 UNF`, `slots M12`, `slots 6 holes 2`. */
export function slotFigure(q: Question): Answer | undefined {
  if (!/\bslots?\b/i.test(q.left)) return undefined;
  const travel = /\b(?:travel|moves?|movement|axial)\b/i.test(q.left);
  // The thread first: the pitch that ends it is no count of slots.
  const bolt = takeThread(q);
  const stated = take(q, /(?<![\d./-])(\d+)[ -]slots?(?:ted)?\b|\bslots? (?:of )?(\d+)(?![\d./])/i);
  const count = stated === undefined ? undefined : Number(stated[1] ?? stated[2]);
  const two = take(q, /\b(?:two|2) (?:cross[- ]?)?holes?\b|\bholes? (?:two|2)(?![\d./])/i) !== undefined;
  if (!two) take(q, /\b(?:one|1) (?:cross[- ]?)?hole\b|\bhole (?:one|1)(?![\d./])|\bholes? 1(?![\d./])/i);
  takeAll(
    q,
    /\b(?:per slots?|per|slots?|slotted|travel|smallest turn|turn|how far|far|between|castle(?:llated)?(?: nuts?)?|nuts?|index angle|angle|each|next|axial(?:ly)?|move(?:s|ment)?|apart|degrees)\b/i,
  );
  if (count !== undefined && (count === 0 || count > 100)) return notKnown("A nut has from 1 to 100 slots.", "slots 6 holes 2", "slot travel for M12");
  if (bolt?.thread !== undefined) return travelOf(bolt.thread, count, two);
  const metric = /^M(\d{1,3}(?:\.\d+)?)$/.exec(bolt?.unknown ?? "")?.[1];
  if (metric !== undefined) {
    const found = count === undefined && !travel && largeNuts.has(metric) ? slotsOf(figure(metric)) : undefined;
    if (found === undefined)
      return notKnown(`M${metric} is not in the tables of threads here, so no travel is known.`, "slot travel for M12", "slots 6 holes 2");
    return known(
      `A castle nut M${metric} has ${found.slots} slots, ${found.degrees}\u00b0 apart.`,
      [value("slots", figure(String(found.slots))), value("angle", figure(String(found.degrees)), "deg")],
      [found],
      rules(),
    );
  }
  if (bolt?.unknown !== undefined) return unknownThread(bolt.unknown, "slot travel for ");
  if (count !== undefined) return turnOf(count, two);
  return bare(q.left) === "" ? notKnown("Say the thread, or how many slots.", "slot travel for M12", "slots 6 holes 2") : undefined;
}

function travelOf(thread: Thread, stated: number | undefined, two: boolean): Answer {
  const table = thread.family === "M" ? slotsOf(thread.majorMm) : undefined;
  const slots = stated ?? table?.slots ?? 6;
  const travel = travelPerSlot(thread, slots);
  const turn = smallestTurn(slots, two ? 2 : 1);
  if (travel === undefined || turn === undefined || slots > 100) return notKnown("A nut has from 1 to 100 slots.", `slots 6 travel ${thread.designation}`);
  const taken = stated === undefined && table === undefined ? " (six slots taken, the usual number, from memory: count them)" : "";
  const inch = travel.div(figure("25.4"));
  const values = [
    value("slots", figure(String(slots))),
    value("travel", travel, "mm"),
    value("travel", inch, "in"),
    value("angle", figure(String(360 / slots).slice(0, 12)), "deg"),
    ...(two ? [value("smallest turn", figure(String(turn)), "deg")] : []),
  ];
  const both = thread.tpi === undefined ? `${shown(travel)} mm (${shown(inch)} in)` : `${shown(inch)} in (${shown(travel)} mm)`;
  const from = [
    { source: "pitch over slots", mark: "computed" as const },
    { source: thread.source, mark: thread.mark },
  ];
  const slotSource = stated !== undefined ? [] : table === undefined ? [{ source: "six slots", mark: "memory" as const }] : [table];
  return known(
    `${thread.designation}: from one slot of ${slots} to the next the nut moves ${both}, a turn of ${shown(figure(String(360 / slots).slice(0, 12)))}\u00b0${taken}.${two ? ` With two holes at 90\u00b0 a slot comes up every ${turn}\u00b0.` : ""}`,
    values,
    [...from, ...slotSource],
    rules(),
  );
}

function turnOf(slots: number, two: boolean): Answer {
  const turn = smallestTurn(slots, two ? 2 : 1);
  if (turn === undefined || slots > 100) return notKnown("A nut has from 1 to 100 slots.", "slots 6 holes 2");
  return known(
    `${slots} slots${two ? " and two holes at 90\u00b0" : ""}: a slot comes to a hole every ${Number(turn.toFixed(6))}\u00b0.`,
    [value("smallest turn", figure(String(Number(turn.toFixed(12)))), "deg")],
    [{ source: "a full turn shared out over slots and holes", mark: "computed" }],
    rules(),
  );
}

/** Both rules, each with the joint that it is for: they are opposite, and neither is given alone. */
function rules(): string[] {
  return [`A nut that clamps: ${slotRules.clamping.words}`, slotRules.adjusting.words];
}

/** The kind of fact that a question for a rule gets. */
export function slotRuleFigure(q: Question): Answer | undefined {
  if (take(q, /^(?:castle nut rule|slot rule|which way)(?: to (?:the )?(?:next )?slot| does a castle nut go)?$/i) === undefined) return undefined;
  const { clamping, adjusting } = slotRules;
  return known(
    `A nut that clamps goes ON to the next slot; a nut that adjusts a bearing goes BACK to it.`,
    [word("clamping", "on"), word("adjusting", "back")],
    [clamping, adjusting],
    rules(),
  );
}
