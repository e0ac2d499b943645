// Split pins and castle nuts: which pin through which thread or hole, and what a pin measures.
import { compare, figure } from "../../quantities/exact.ts";
import type { Measured } from "../../quantities/quantity.ts";
import { slotsOf } from "../../trade/castle-slots.ts";
import { cautions } from "../../trade/cautions.ts";
import { castleNuts, castleSource, crossHole, inchPins, isoPins, pinSource, suitablePin } from "../../trade/split-pins.ts";
import type { Thread } from "../../trade/thread.ts";
import { type Answer, type Value, asWritten, known, notKnown, value } from "./answer.ts";
import { type Question, bare, take, takeAll } from "./question.ts";
import { takeThread, unknownThread } from "./threads-read.ts";
import { above, takeQuantity } from "./words.ts";

const usedOnce = cautions.find((it) => it.about === "single-use")?.words ?? "Fit a new one.";
const makersRule = "The maker's pin rules; the hole in the part in hand is what it must suit.";

export function pinFigure(q: Question): Answer | undefined {
  if (
    !takeAll(q, /\b(?:split ?pins?|cotter ?pins?|cross[- ]?holes?|pin holes?|castle(?:llated)?(?: nuts?)?|slotted nuts?)\b/i) &&
    take(q, /^pins?\b/i) === undefined
  )
    return undefined;
  const hole = take(q, /\bholes?\b/i) !== undefined;
  takeAll(q, /\b(?:nuts?|bolts?|studs?|axles?|through|pins?|diameter|length)\b/i);
  const found = takeThread(q);
  if (found?.thread !== undefined) return pinFor(found.thread);
  if (found?.unknown !== undefined) {
    const metric = /^M(\d+(?:\.\d+)?)$/.exec(found.unknown)?.[1];
    return (metric === undefined ? undefined : pinByDiameter(metric)) ?? unknownThread(found.unknown, "split pin for ");
  }
  const own = takeQuantity(q, "length");
  if (own === undefined)
    return bare(q.left) === ""
      ? notKnown("Say the thread, the hole, or the pin.", "split pin for M12", "split pin for a hole of 3.2 mm", "split pin 1/8 in")
      : undefined;
  if (!above(own)) return notKnown("A pin and its hole are larger than nothing.", "split pin 1/8 in", "split pin 3.2 mm");
  if (hole) return pinThroughHole(own);
  return own.unit.name === "in" ? inchPin(own.figure) : own.unit.name === "mm" ? isoPin(own.figure) : undefined;
}

/** The largest pin that goes through a hole: by its gauge hole in inches, by its nominal size in millimetres. */
function pinThroughHole(hole: Measured): Answer {
  const inches = hole.value.div(figure("25.4"));
  const inch = inchPins.filter((it) => compare(figure(it.shankMax), inches) < 0).at(-1);
  const metric = isoPins.filter(([pin]) => compare(figure(pin), hole.value) <= 0).at(-1);
  if (inch === undefined && metric === undefined) return notKnown("No split pin of the tables here goes through that hole.", "split pin for a hole of 3.2 mm");
  const values = [
    ...(metric === undefined ? [] : [value("split pin", figure(metric[0]), "mm")]),
    ...(inch === undefined ? [] : [value("split pin", figure(inch.nominal), "in")]),
  ];
  const said = [
    metric === undefined ? undefined : `${metric[0]} mm`,
    inch === undefined ? undefined : `${inch.nominal} in (shank ${inch.shankMin} .. ${inch.shankMax} in)`,
  ].filter((it) => it !== undefined);
  return known(
    `Through a hole of ${asWritten(hole)} the largest split pin is ${said.join(", or ")}.`,
    values,
    [
      ...(metric === undefined ? [] : [{ source: "ISO 1234 table 1: a pin is named by its hole", mark: "memory" as const }]),
      ...(inch === undefined ? [] : [pinSource]),
    ],
    [usedOnce, makersRule],
  );
}

function pinFor(thread: Thread): Answer {
  const pin = suitablePin(thread);
  const hole = crossHole(thread);
  if (pin === undefined && hole === undefined)
    return notKnown(
      `No split pin for ${thread.designation} is in the tables here. The pin is the largest that the hole takes: measure the hole, and ask by it.`,
      "split pin for a hole of 3.2 mm",
      "split pin for a hole of 9/64 in",
    );
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
    if (one !== null) values.push(value("hole", figure(one[1] as string), one[2]));
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
