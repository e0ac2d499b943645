// How locking is done: `lock wire`, `tab washer`, `castle nut`, `split pin rule`; and the cautions: `caution jack`.
import { figure } from "../../quantities/exact.ts";
import { cautions } from "../../trade/cautions.ts";
import { lockingPractice } from "../../trade/locking-practice.ts";
import { type Answer, known, notKnown, value } from "./answer.ts";

const maker = "Common practice. The maker's own instructions rule, and the part in hand.";

export function lockingFigure(query: string): Answer | undefined {
  const lower = query.toLowerCase();
  // A thread or a size in the question asks for the pin or nut itself, which has tables of its own; of wire the twists go by its size.
  if (/\d/.test(lower) && !/wire/.test(lower)) return undefined;
  const rows = lockingPractice.filter((it) => it.words.every((word) => word.test(lower)));
  if (rows.length === 0) return undefined;
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
export function cautionFigure(query: string): Answer | undefined {
  const asked = /^cautions?\b(?: (?:about|for|with|on|of))?(.*)$/i.exec(query)?.[1]?.trim().toLowerCase();
  if (asked === undefined) return undefined;
  const words = asked.split(/[^a-z-]+/).filter((it) => it.length > 2);
  const rows = cautions.filter((it) => words.some((word) => it.about.startsWith(word.replace(/s$/, "")) || it.words.toLowerCase().includes(word)));
  if (rows.length === 0) return notKnown("There are cautions about these.", ...cautions.map((it) => `caution ${it.about}`));
  return known(
    rows.map((it) => it.words).join(" "),
    [],
    rows.map((it) => ({ source: it.source, mark: it.source.includes("from memory") ? ("memory" as const) : ("table" as const) })),
    ["A reminder: the maker's data, your local rules and licensed people come first."],
  );
}
