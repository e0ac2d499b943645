// Clearances by common practice: `bush 1.25 in`, `hub float trucks`. To see whether a reading is in the usual country, never to judge a part.
import { figure } from "../../quantities/exact.ts";
import { bushClearance, bushClearanceFor, usualFigures } from "../../trade/common-practice.ts";
import { type Answer, asWritten, known, notKnown, shown, value } from "./answer.ts";
import { quantityIn } from "./words.ts";

const never = "Common practice, never a limit: no part is passed or scrapped by it. The maker's figure rules.";

export function practiceFigure(query: string): Answer | undefined {
  const bush = /^(?:plain )?bush(?:es|ing)?\b(?: clearance)?(.*)$/i.exec(query);
  if (bush !== null) {
    const bore = quantityIn((bush[1] ?? "").replace(/^[^\d.]*/, ""));
    if (bore === undefined || bore.unit.dimension !== "length") return notKnown("Say the bore.", "bush 1.25 in");
    const clearance = bushClearanceFor(bore.value).div(bore.unit.factor);
    return known(
      `Estimate: a plain bush of ${asWritten(bore)} that turns all the time usually has about ${shown(clearance)} ${bore.unit.name} of clearance (a rule of thumb, not a limit).`,
      [value("clearance", clearance, bore.unit.name)],
      [{ source: bushClearance.source, mark: "estimate" }],
      [never],
    );
  }
  const lower = query.toLowerCase();
  const rows = usualFigures.filter((it) => it.words.every((word) => word.test(lower)));
  if (rows.length === 0) return undefined;
  const values = rows.flatMap((it) =>
    it.least === it.most
      ? [value(it.of, figure(it.least), it.unit)]
      : [value(`${it.of}, least`, figure(it.least), it.unit), value(`${it.of}, most`, figure(it.most), it.unit)],
  );
  const said = rows.map(
    (it) => `${it.of}: ${it.least === it.most ? `about ${it.least}` : `${it.least} .. ${it.most}`} ${it.unit}${it.mark === "memory" ? " (from memory)" : ""}`,
  );
  return known(
    `Common practice, not a limit: ${said.join("; ")}.`,
    values,
    rows.map((it) => ({ source: it.source, mark: "estimate" as const })),
    [never],
  );
}
