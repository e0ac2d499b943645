// Spanners: what fits a nut (`spanner for 1/2 BSF`), and which nuts a spanner fits (`what does a 13 mm spanner fit`).
// Invariant: a Whitworth nut has two hexagons by its age, and both are always given.
import { compare, figure } from "../../quantities/exact.ts";
import { type AcrossFlats, acrossFlats, hexagonsOf } from "../../trade/across-flats.ts";
import { allThreads, threadOf } from "../../trade/threads.ts";
import { type Answer, known, notKnown, shown, value, word } from "./answer.ts";
import { type Question, take, takeAll } from "./question.ts";
import { takeThread, unknownThread } from "./threads-read.ts";
import { above, takeQuantity } from "./words.ts";

const inch = figure("25.4");
const snug = "Try it first: a spanner that is loose rounds the corners, and one that slips hurts. The nut in hand may not be the usual one.";

export function spannerFigure(q: Question): Answer | undefined {
  if (!/\b(?:spanners?|sockets?|wrench(?:es)?|across (?:the )?flats|A\/?F|hexagons?|ring spanner)\b/i.test(q.left)) return undefined;
  const marked = take(q, /(?<![\p{L}\d./-])(\d+-\d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?) ?(?:in )?(A\/?F|W|BS)(?![\p{L}\d])/iu);
  takeAll(
    q,
    /\b(?:spanners?|sockets?|wrench(?:es)?|across (?:the )?flats|in (?:mm|millimet(?:re|er)s?|inches)|inches|A\/?F|hexagons?|ring|open[- ]ended|nuts?|bolts?|heads?|screws?|flats)\b/i,
  );
  const found = takeThread(q);
  takeAll(q, /\b(?:nuts?|bolts?|heads?)\b/i);
  if (found?.thread !== undefined) {
    const all = acrossFlats(found.thread);
    if (all.length === 0)
      return notKnown(
        `No hexagon for ${found.thread.designation} is in the tables here: measure across the flats, and ask by it.`,
        "spanner 0.525 in across flats",
        "spanner for 1/2 BSF",
      );
    return forThread(found.thread.designation, all);
  }
  if (found?.unknown !== undefined) return unknownThread(found.unknown, "spanner for ");
  if (marked !== undefined && !/A/i.test(marked[2] as string)) return bySize(`${marked[1]} ${/BS/i.test(marked[2] as string) ? "BS" : "W"}`);
  const across = marked === undefined ? takeQuantity(q, "length") : undefined;
  const mm = marked === undefined ? across?.value : figure(marked[1] as string).mul(inch);
  if (mm === undefined || (across !== undefined && !above(across)))
    return notKnown("Say the thread, or how wide it is across the flats.", "spanner for 1/2 BSF", "spanner 13 mm", "spanner 9/16 AF");
  const fitting = hexagonsOf(everyThread()).filter((it) => compare(it.mm.sub(mm).abs(), figure("0.06")) <= 0);
  return fits(`${shown(mm, 5)} mm (${shown(mm.div(inch), 4)} in) across flats`, fitting);
}

function everyThread() {
  return allThreads()
    .map((it) => threadOf(it))
    .filter((it) => it !== undefined);
}

function forThread(designation: string, all: readonly AcrossFlats[]): Answer {
  const inches = (it: AcrossFlats) => `${shown(it.mm.div(inch), 4)} in (${shown(it.mm, 4)} mm)`;
  const text = all.map(
    (it) =>
      `${it.of} ${it.marked?.endsWith("mm") ? `${it.marked} (${shown(it.mm.div(inch), 4)} in)` : `${inches(it)}${it.marked === undefined || it.source.includes("BA") ? "" : `, marked ${it.marked}`}`}`,
  );
  const values = all.flatMap((it) => [
    value(it.name, it.mm.div(inch), "in", 6),
    value(it.name, it.mm, "mm", 6),
    ...(it.marked === undefined ? [] : [word(`${it.name}, marked`, it.marked)]),
  ]);
  const which = all.some((it) => it.name === "old hexagon") ? " Sources disagree by the age of the nut: measure it, or try both." : "";
  const smaller = all.some((it) => it.marked?.endsWith("BA")) ? " Model engineers' nuts are often one size smaller." : "";
  return known(`${designation}: across flats, ${text.join("; ")}.${which}${smaller}`, values, all, [snug]);
}

function bySize(mark: string): Answer {
  const fitting = hexagonsOf(everyThread()).filter((it) => it.marked === mark);
  const [first] = fitting;
  if (first === undefined) return notKnown(`No spanner marked ${mark} is in the tables here.`, "spanner 1/2 W", "spanner for 1/2 BSF");
  const same = hexagonsOf(everyThread()).filter((it) => compare(it.mm.sub(first.mm).abs(), figure("0.06")) <= 0);
  return fits(`A spanner marked ${mark} is ${shown(first.mm.div(inch), 4)} in (${shown(first.mm, 4)} mm) across flats`, same, first);
}

function fits(what: string, fitting: ReturnType<typeof hexagonsOf>, first = fitting[0]): Answer {
  if (first === undefined) return notKnown(`Nothing in the tables here has a hexagon of ${what}.`, "spanner 13 mm", "spanner for 1/2 BSF");
  const named = [...new Set(fitting.map((it) => `${it.thread.designation} (${it.of})`))];
  return known(
    `${what}: it fits ${named.join(", ")}.`,
    [value("across flats", first.mm.div(inch), "in", 6), value("across flats", first.mm, "mm", 6)],
    fitting,
    [snug],
  );
}
