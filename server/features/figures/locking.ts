// How locking is done: `lock wire`, `tab washer`, `castle nut`, `split pin rule`; and the cautions: `caution jack`.
import { compare, figure } from "../../quantities/exact.ts";
import { cautions } from "../../trade/cautions.ts";
import { lockingPractice } from "../../trade/locking-practice.ts";
import { type Answer, known, notKnown, value } from "./answer.ts";
import { type Question, take, takeAll } from "./question.ts";
import { takeQuantity } from "./words.ts";

/** What may stand beside the words that a row is found by. */
const lockingWords =
  /\b(?:rules?|practice|done|twists?|pigtails?|turns?|ends?|per inch|inch|run|fitted|fitting|nuts?|new|again|twice|reused?|back off|back|adjusting|hubs?|bearings?|slots?|above|castellations?|line up|clamping|wheel)\b/i;

const maker = "Common practice. The maker's own instructions rule, and the part in hand.";

export function lockingFigure(q: Question): Answer | undefined {
  const lower = q.left.toLowerCase();
  // A thread or a size in the question asks for the pin or nut itself, which has tables of its own; of wire the twists go by its size.
  if (/\d/.test(lower) && !/wire/.test(lower)) return undefined;
  const rows = lockingPractice.filter((it) => it.words.every((word) => word.test(lower)));
  if (rows.length === 0) return undefined;
  for (const row of rows) for (const word of row.words) if (!word.source.startsWith("^")) takeAll(q, new RegExp(`(?:${word.source})\\p{L}*`, "iu"));
  takeAll(q, lockingWords);
  // The twists go by the wire's size, each with its own figures in the answer.
  const wire = /wire/.test(lower) ? takeQuantity(q, "length") : undefined;
  if (wire !== undefined && (compare(wire.value, figure("0.5")) < 0 || compare(wire.value, figure("1.05")) > 0))
    return notKnown("The table of lock wire goes from 0.020 to 0.041 in.", "lock wire 0.032 in");
  return known(
    `Common practice: ${rows.map((it) => `${it.of}: ${it.said}`).join(". ")}.`,
    rows.flatMap((it) =>
      it.figures.flatMap(({ name, least, most, unit }) =>
        least === undefined
          ? [value(`${name}, most`, figure(most), unit)]
          : [value(`${name}, least`, figure(least), unit), value(`${name}, most`, figure(most), unit)],
      ),
    ),
    rows,
    ["Split pins, tab washers and lock wire are used once: fit new.", maker],
  );
}

/** `caution asbestos`: what is usually minded at such work, with its source. */
export function cautionFigure(q: Question): Answer | undefined {
  if (take(q, /^cautions?\b(?: (?:about|for|with|on|of))?/i) === undefined) return undefined;
  const words = q.left
    .toLowerCase()
    .split(/[^a-z-]+/)
    .filter((it) => it.length > 2);
  const rows = cautions.filter((it) => words.some((word) => it.about.startsWith(word.replace(/s$/, "")) || it.words.toLowerCase().includes(word)));
  if (rows.length === 0) return notKnown("There are cautions about these.", ...cautions.map((it) => `caution ${it.about}`));
  for (const word of words)
    if (rows.some((it) => it.about.startsWith(word.replace(/s$/, "")) || it.words.toLowerCase().includes(word))) take(q, new RegExp(`\\b${word}\\b`, "i"));
  return known(
    rows.map((it) => it.words).join(" "),
    [],
    rows.map((it) => ({ source: it.source, mark: it.source.includes("from memory") ? ("memory" as const) : ("table" as const) })),
    ["A reminder: the maker's data, your local rules and licensed people come first."],
  );
}
