// The drill before the tap: `tapping size 3/8 BSW`, `what drill to tap 1/4 UNC`, `tapping drill for 1/4 BSF, 75 per cent thread`.
// Invariant: the drill of the tables and the one worked out stand side by side, each with where it is from.
import { type Exact, compare, figure, ratio } from "../../quantities/exact.ts";
import { nearestDrills } from "../../trade/drill-sizes.ts";
import type { Sourced } from "../../trade/source.ts";
import { drillForShare, shareLeft, tableDrill, usualDepth } from "../../trade/tapping.ts";
import type { Thread } from "../../trade/thread.ts";
import { type Answer, type Known, type Value, known, notKnown, shown, together, value, word } from "./answer.ts";
import { type Question, take, takeAll } from "./question.ts";
import { boltAnswer } from "./threads.ts";
import { takeThread, unknownThread } from "./threads-read.ts";

const inch = figure("25.4");

export function tappingFigure(q: Question): Answer | undefined {
  if (!/\b(?:tapp(?:ing|ed)|taps?|tap drill)\b/i.test(q.left)) return undefined;
  const both = take(q, /\bthreads? and (?:its |the )?(?=tapp|drill|tap\b)/i) !== undefined;
  const share = take(q, /(?<![\d./-])(\d{1,3}(?:\.\d+)?) ?(?:%|per ?cent)(?: (?:of )?(?:thread|depth|engagement))?/i);
  takeAll(q, /\b(?:tapping|tapped|taps?|drills?|drilling|holes?|sizes?|before|bit|parallel|depth|engagement|fine|steel|brass|aluminium|cast iron)\b/i);
  const found = takeThread(q);
  takeAll(q, /\b(?:parallel|threads?)\b/i);
  if (found === undefined)
    return notKnown("Say the thread that is to be tapped.", "tapping drill for 3/8 BSW", "tapping drill for M12", "tapping drill for 2 BA");
  if (found.thread === undefined) return unknownThread(found.unknown ?? "", "tapping drill for ");
  const wanted = share === undefined ? usualDepth : ratio(Math.round(Number(share[1]) * 1000), 100000);
  if (compare(wanted, ratio(1, 3)) < 0 || compare(wanted, ratio(1)) > 0)
    return notKnown("A thread is tapped to between a third and the whole of its depth.", `tapping drill for ${found.thread.designation} 75 %`);
  const drill = answerFor(found.thread, wanted);
  return both ? together(boltAnswer(found.thread, {}), drill) : drill;
}

function answerFor(thread: Thread, wanted: Exact): Known {
  const table = tableDrill(thread);
  const forShare = drillForShare(thread, wanted);
  const percent = shown(wanted.mul(100), 4);
  const values: Value[] = [];
  const said: string[] = [];
  const from: Sourced[] = [];
  if (table !== undefined) {
    values.push(value("tapping drill", table.mm, "mm", 6), value("tapping drill", table.mm.div(inch), "in", 6));
    if (table.name !== undefined) values.push(word("drill", table.name.replace(/ in$/, "")));
    const left = shareLeft(thread, table.mm).mul(100);
    values.push(value("share of the thread's depth left", left, "%", 4));
    said.push(
      `${table.name === undefined ? `${shown(table.mm)} mm (${shown(table.mm.div(inch), 4)} in)` : `${table.name} (${shown(table.mm.div(inch), 4)} in, ${shown(table.mm, 4)} mm)`}, which leaves ${shown(left, 2)} % of the thread's depth${table.mark === "memory" ? " (from memory)" : ""}`,
    );
    from.push(table);
  } else {
    // Where no table was seen the drill is the one worked out.
    values.push(value("tapping drill", forShare, "mm", 6), value("tapping drill", forShare.div(inch), "in", 6));
  }
  values.push(value(`drill for ${percent} %`, forShare, "mm", 6), value(`drill for ${percent} %`, forShare.div(inch), "in", 6));
  const { named, fraction } = nearestDrills(forShare.div(inch));
  const near = [named, fraction].filter((it) => it !== undefined).map((it) => `${it.name} (${shown(it.inches, 4)} in)`);
  said.push(
    `worked out for ${percent} % it is ${shown(forShare, 4)} mm (${shown(forShare.div(inch), 4)} in)${near.length === 0 ? "" : `, near ${near.join(" and ")}`}`,
  );
  from.push({ source: `drill for ${percent} %: the form of the thread`, mark: "computed" });
  const tapered = thread.family === "R" || thread.family === "NPT" ? " A taper thread is tapped to a gauge: take the tap maker's drill." : "";
  return known(`Tapping drill for ${thread.designation}: ${said.join("; ")}.${tapered}`, values, from, [
    "Go by the tap maker's own figure where there is one; hard and tough metal takes a larger drill. Eye protection.",
  ]);
}
