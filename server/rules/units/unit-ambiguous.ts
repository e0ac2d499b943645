// A unit that means two things, or stands behind a fraction of another.
import { where } from "../../model/where.ts";
import { plainText, significantText } from "../../quantities/exact.ts";
import { baseOf, unitOf } from "../../quantities/units.ts";
import { type JobRule, rewrite } from "../rule.ts";
import { meaningsOf, unitIssues } from "./shared/issues.ts";

export const rule: JobRule = {
  id: "unit-ambiguous",
  group: "Units and figures",
  severity: "error",
  safety: false,
  title: "A unit that means two things, or millimetres behind a fraction of an inch",
  why: "A pint, a gallon and a ton are not the same on both sides of an ocean; a mil is a thousandth of an inch in one country's shops and a millimetre in another's; a torque in pounds may be by the foot or by the inch, twelve times apart; and sixteenths are of an inch. Only the writer knows which is meant.",
  wrong: `fluid gear-oil "Gearbox oil"
  in gearbox
  capacity 3 pt
#            ^^ error unit-ambiguous (fix)

part gearbox "Gearbox"
`,
  right: `fluid gear-oil "Gearbox oil"
  in gearbox
  capacity 3 imp.pt

part gearbox "Gearbox"
`,
  fixed: `fluid gear-oil "Gearbox oil"
  in gearbox
  capacity 3 us.pt

part gearbox "Gearbox"
`,
  scope: "job",
  check({ job, report }) {
    for (const { kind, file, entry, row, unit, wants, quantity } of unitIssues(job)) {
      if (kind === "fraction" && unit !== undefined) {
        const at = where(file, entry, row, unit.at);
        report({
          where: at,
          severity: "error",
          message: `\`${quantity.figure.text} ${unit.text}\`: eighths and finer are fractions of an inch. Write \`in\`, or the figure with a point.`,
          fixes: [rewrite("Write in", at, "in")],
        });
        continue;
      }
      if (kind !== "ambiguous" || unit === undefined) continue;
      const meanings = meaningsOf(unit.text, wants) ?? [];
      const at = where(file, entry, row, unit.at);
      const shown = meanings.map((meaning) => `${meaning} (${worth(meaning)})`);
      report({
        where: at,
        severity: "error",
        message: `\`${unit.text}\` means more than one thing: ${shown.slice(0, -1).join(", ")} or ${shown.at(-1)}. Write the one that is meant.`,
        fixes: meanings.map((meaning, i) => rewrite(`Write ${shown[i]}`, at, meaning)),
      });
    }
  },
};

/** What one of a unit is in the metric unit that everybody has: `473 ml`, `1.36 N.m`. */
function worth(name: string): string {
  const unit = unitOf(name);
  if (unit === undefined) return "";
  if (unit.dimension === "length") return unit.name === "mm" ? "a millimetre" : `${plainText(unit.factor)} mm`;
  const heavy = unit.dimension === "mass";
  return `${significantText(heavy ? unit.factor.div(1000) : unit.factor, 3)} ${heavy ? "kg" : baseOf[unit.dimension]}`;
}
