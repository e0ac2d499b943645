// Split pins and castle nuts: which pin through which thread, what a pin measures, how many slots and how far from one to the next.
import { compare, figure } from "../../quantities/exact.ts";
import { slotRules, slotsOf, smallestTurn, travelPerSlot } from "../../trade/castle-slots.ts";
import { cautions } from "../../trade/cautions.ts";
import { castleNuts, castleSource, crossHole, inchPins, isoPins, pinSource, suitablePin } from "../../trade/split-pins.ts";
import type { Thread } from "../../trade/threads.ts";
import { type Answer, type Value, known, notKnown, shown, value, word } from "./answer.ts";
import { boltIn, unknownThread } from "./threads.ts";
import { quantityIn } from "./words.ts";

const usedOnce = cautions.find((it) => it.about === "single-use")?.words ?? "Fit a new one.";
const makersRule = "The maker's pin rules; the hole in the part in hand is what it must suit.";

export function pinFigure(query: string): Answer | undefined {
  const lead = /^(?:split ?pins?|cross[- ]?holes?|pin holes?|castle(?:llated)? nuts?|slotted nuts?|pins?)\b(.*)$/i.exec(query);
  const behind = lead?.[1]
    ?.trim()
    .replace(/^(?:for|of|through|in|hole)\b ?/i, "")
    .replace(/^(?:for|of|a)\b ?/i, "");
  if (behind === undefined) return undefined;
  const bolt = boltIn(behind);
  if (bolt.thread !== undefined) return pinFor(bolt.thread);
  const metric = /^M ?(\d+(?:\.\d+)?)$/i.exec(behind)?.[1];
  if (metric !== undefined) return pinByDiameter(metric) ?? unknownThread(behind);
  const own = quantityIn(behind);
  if (own !== undefined && own.unit.dimension === "length")
    return own.unit.name === "in" ? inchPin(own.figure) : own.unit.name === "mm" ? isoPin(own.figure) : undefined;
  return bolt.unknown === undefined ? undefined : unknownThread(bolt.unknown);
}

function pinFor(thread: Thread): Answer {
  const pin = suitablePin(thread);
  const hole = crossHole(thread);
  if (pin === undefined && hole === undefined)
    return notKnown(`No split pin for ${thread.designation} is in the tables here.`, "split pin for 1/2 UNF", "split pin for M12");
  const values: Value[] = [];
  const said: string[] = [];
  const from = [];
  if (pin !== undefined) {
    values.push(value("split pin", figure(pin.pin.figure), pin.pin.unit));
    if (pin.lengthMm !== undefined) values.push(value("length", figure(pin.lengthMm), "mm"));
    said.push(
      `usual split pin ${pin.pin.figure} ${pin.pin.unit}${pin.lengthMm === undefined ? "" : ` x ${pin.lengthMm} mm`}, hole ${pin.hole} (${pin.practice})`,
    );
    // A range of a standard's hole stands below with its own names.
    const one = /^([\d/.-]+) (in|mm)$/.exec(pin.hole);
    if (one !== null) values.push(value("hole", figure(one[1] as string), one[2] as string));
    from.push({ source: pin.source, mark: pin.mark });
  }
  if (hole !== undefined) {
    values.push(
      value("cross-hole least", figure(hole.least), "in"),
      value("cross-hole largest", figure(hole.largest), "in"),
      value("drill", figure(hole.drillMm), "mm"),
    );
    said.push(`${hole.source.split(" table")[0]} cross-hole ${hole.least} .. ${hole.largest} in, drill ${hole.drillMm} mm`);
    if (hole.slot !== undefined) {
      values.push(value("slot least", figure(hole.slot[0]), "in"), value("slot largest", figure(hole.slot[1]), "in"));
      said.push(`slots of the nut ${hole.slot[0]} .. ${hole.slot[1]} in wide`);
    }
    from.push({ source: hole.source, mark: hole.mark });
  }
  const castle = castleNuts.find(([major]) => `M${major}` === thread.size);
  if (castle !== undefined) {
    values.push(value("slot least", figure(castle[3]), "mm"), value("slot largest", figure(castle[4]), "mm"));
    said.push(`slots of the nut ${castle[3]} .. ${castle[4]} mm wide`);
  }
  const slots = thread.family === "M" ? slotsOf(thread.majorMm) : undefined;
  if (slots !== undefined) {
    values.push(value("slots", figure(String(slots.slots))));
    from.push({ source: slots.source, mark: slots.mark });
  }
  return known(`${thread.designation}: ${said.join("; ")}.`, values, from, [usedOnce, makersRule, ...otherFamily(thread)]);
}

function otherFamily(thread: Thread): string[] {
  if (thread.family === "BSW" || thread.family === "BSF")
    return ["The hole for UNC and UNF of this size is larger: the pin goes by the thread's family, not by its size alone."];
  if (thread.family === "UNC" || thread.family === "UNF")
    return ["The hole for BSW and BSF of this size is smaller: the pin goes by the thread's family, not by its size alone."];
  return [];
}

/** A nominal size that is in no thread table, by the ranges of ISO 1234 alone. */
function pinByDiameter(major: string): Answer | undefined {
  const row = isoPins.find(([, over, to]) => compare(figure(major), figure(over)) > 0 && compare(figure(major), figure(to)) <= 0);
  if (row === undefined) return undefined;
  return known(
    `M${major}: usual split pin ${row[0]} mm, for bolts over ${row[1]} up to ${row[2]} mm (from memory).`,
    [value("split pin", figure(row[0]), "mm")],
    [{ source: "ISO 1234 table 1", mark: "memory" }],
    [usedOnce, makersRule],
  );
}

function inchPin(nominal: string): Answer {
  const row = inchPins.find((it) => it.nominal === nominal || figure(it.nominal).equals(figure(nominal)));
  if (row === undefined)
    return notKnown(`A ${nominal} in split pin is not in the table here.`, ...inchPins.slice(0, 3).map((it) => `split pin ${it.nominal} in`));
  const values = [
    value("shank largest", figure(row.shankMax), "in"),
    value("shank least", figure(row.shankMin), "in"),
    value("gauge hole", figure(row.gaugeHole), "in"),
  ];
  return known(`${row.nominal} in split pin: shank ${row.shankMin} .. ${row.shankMax} in, gauge hole ${row.gaugeHole} in.`, values, [pinSource], [usedOnce]);
}

function isoPin(nominal: string): Answer {
  const row = isoPins.find(([pin]) => figure(pin).equals(figure(nominal)));
  if (row === undefined) return notKnown(`A ${nominal} mm split pin is not in the table here.`, "split pin 3.2 mm", "split pin 4 mm");
  const values = [value("for bolts over", figure(row[1]), "mm"), value("up to", figure(row[2]), "mm"), value("hole", figure(row[0]), "mm")];
  const nuts = castleNuts.filter(([, pin]) => pin === row[0]).map(([major]) => `M${major}`);
  return known(
    `${row[0]} mm split pin: for bolts over ${row[1]} up to ${row[2]} mm (from memory); its size is that of the hole${nuts.length > 0 ? `; usual in castle nuts ${nuts.join(", ")}` : ""}.`,
    values,
    [{ source: "ISO 1234 table 1", mark: "memory" }, ...(nuts.length > 0 ? [castleSource] : [])],
    [usedOnce],
  );
}

/** `slot travel for 3/4-16 UNF`, `slots M12`, `slots 6 holes 2`. */
export function slotFigure(query: string): Answer | undefined {
  if (!/\bslots?\b/i.test(query) || !/^(?:slots?|travel|turn|smallest turn|castle|angle|index angle)\b/i.test(query)) return undefined;
  const stated = /(\d+) slots?\b|\bslots? (\d+)(?![\d./-]*\d* ?(?:UN|BS|BA))(?!\/)/i.exec(query);
  const count = stated === null ? undefined : Number(stated[1] ?? stated[2]);
  const two = /\b(?:two|2) (?:cross[- ]?)?holes?\b|\bholes? 2\b/i.test(query);
  const plain = stated === null ? query : `${query.slice(0, stated.index)} ${query.slice(stated.index + stated[0].length)}`;
  const bolt = boltIn(plain);
  if (bolt.thread !== undefined) return travelOf(bolt.thread, count, two);
  const metric = /\bM ?(\d{1,3}(?:\.\d+)?)\b/i.exec(plain)?.[1];
  if (metric !== undefined) {
    const found = slotsOf(figure(metric));
    if (found === undefined) return notKnown(`How many slots a castle nut M${metric} has is not in the table here.`, "slots M12", "slots 6 holes 2");
    return known(
      `A castle nut M${metric} has ${found.slots} slots, ${found.degrees}\u00b0 apart.`,
      [value("slots", figure(String(found.slots))), value("angle", figure(String(found.degrees)), "deg")],
      [found],
      rules(),
    );
  }
  if (count !== undefined) return turnOf(count, two);
  return bolt.unknown === undefined ? notKnown("Say the thread, or how many slots.", "slot travel for M12", "slots 6 holes 2") : unknownThread(bolt.unknown);
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
export function slotRuleFigure(query: string): Answer | undefined {
  if (!/^(?:castle nut rule|slot rule|which way)/i.test(query)) return undefined;
  const { clamping, adjusting } = slotRules;
  return known(
    `A nut that clamps goes ON to the next slot; a nut that adjusts a bearing goes BACK to it.`,
    [word("clamping", "on"), word("adjusting", "back")],
    [clamping, adjusting],
    rules(),
  );
}
