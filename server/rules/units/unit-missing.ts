// A figure without the unit that it needs.
import type { Job } from "../../model/job.ts";
import { where } from "../../model/where.ts";
import { type JobRule, rewrite } from "../rule.ts";
import { countedBy, unitOfLimit, usualUnits } from "./shared/dimensions.ts";
import { expressionIssue } from "./shared/expression.ts";
import { type UnitIssue, unitIssues } from "./shared/issues.ts";
import { unitsToOffer } from "./shared/units-to-offer.ts";

export const rule: JobRule = {
  id: "unit-missing",
  group: "Units and figures",
  severity: "error",
  safety: false,
  title: "A figure without its unit",
  why: "0.4 may be millimetres or thousandths of something else, and a handbook in one system is read with a gauge in the other. A figure without its unit is judged against nothing. One unit at the end of a list serves all of it; where some figures have one of their own, each needs one.",
  wrong: `limit end-float "Spindle end float"
  worn max 0.15 mm
  source "Maker's handbook, page 31"

measure end-float found
  0.12
# ^^^^ error unit-missing (fix)
`,
  right: `limit end-float "Spindle end float"
  worn max 0.15 mm
  source "Maker's handbook, page 31"

measure end-float found
  0.11, 0.12 mm
`,
  fixed: `limit end-float "Spindle end float"
  worn max 0.15 mm
  source "Maker's handbook, page 31"

measure end-float found
  0.12 mm
`,
  scope: "job",
  check({ job, report }) {
    for (const issue of unitIssues(job)) {
      if (issue.kind !== "missing") continue;
      const { figure } = issue.quantity;
      const limit = issue.entry.kind === "measure" ? job.things.get(issue.entry.limit?.text ?? "") : undefined;
      const count = limit?.kind === "limit" ? countedBy(limit) : undefined;
      const units = count === undefined ? unitsToOffer(job, issue) : [];
      const others = issue.mixed ? " of its own, and other figures on this line have one" : "";
      const end = { from: figure.at.to, to: figure.at.to };
      report({
        where: where(issue.file, issue.entry, issue.row, figure.at),
        severity: "error",
        ...(issue.counter === undefined ? {} : { firm: true as const }),
        message:
          count !== undefined
            ? `${figure.text} is a count of ${count}, and no figure with a unit. What is counted is a \`check\`: say in its text how many, and write \`seen CHECK final good\`.`
            : `${figure.text} has no unit${others}. Write ${units.length === 0 ? "it after the figure" : units.map((unit) => `${figure.text} ${unit}`).join(" or ")}.${mayBeCount(job, issue) ? " What is counted, and not measured, is a `check`." : ""}`,
        fixes: units.map((unit) => rewrite(`Write ${figure.text} ${unit}`, where(issue.file, issue.entry, issue.row, end), ` ${unit}`)),
      });
    }
    for (const thing of job.things.values()) {
      if (thing.kind !== "limit" || thing.expression === undefined) continue;
      const issue = expressionIssue(job, thing);
      const line = thing.lines.findLast((it) => it.detail.kind === "equals");
      if (issue?.kind !== "missing" || line === undefined) continue;
      const [unit] = usualUnits[issue.wants[0] ?? "length"];
      const own = issue.wants[0] === "angle" ? unit : (unitOfLimit(thing) ?? unit);
      const at = where(line.file, line.entry, line.detail.row, issue.at);
      report({
        where: at,
        severity: "error",
        message: `${issue.figure} has no unit, and the figure beside it has one. Write ${issue.figure} ${own ?? "and its unit"}.`,
        fixes: own === undefined ? [] : [rewrite(`Write ${issue.figure} ${own}`, { ...at, at: { from: issue.at.to, to: issue.at.to } }, ` ${own}`)],
      });
    }
  },
};

/** Whole figures of a limit in which nothing has a unit: clicks of a lever, drips a minute. */
function mayBeCount(job: Job, { entry, quantity, list }: UnitIssue): boolean {
  const name = entry.kind === "measure" ? entry.limit : entry.kind === "limit" ? entry.name : undefined;
  const limit = name === undefined ? undefined : job.things.get(name.text);
  return (
    limit?.kind === "limit" && unitOfLimit(limit) === undefined && [quantity, ...list].every((it) => it.unit === undefined && /^\d+$/.test(it.figure.text))
  );
}
