// A figure that measures something else than what belongs there.
import type { Job } from "../../model/job.ts";
import type { Gauge, Limit } from "../../model/things.ts";
import { quantityText } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import { ambiguousUnit } from "../../quantities/units.ts";
import { type JobContext, type JobRule, type RuleFix, rewrite } from "../rule.ts";
import { agreeing, called, capital, midSentence } from "../wording.ts";
import { dimensionOfGauge, dimensionOfLimit, dimensionWords } from "./shared/dimensions.ts";
import { expressionIssue } from "./shared/expression.ts";
import { type UnitIssue, unitIssues } from "./shared/issues.ts";

export const rule: JobRule = {
  id: "unit-kind",
  group: "Units and figures",
  severity: "error",
  safety: false,
  title: "A torque where a length belongs, and the like",
  why: "A figure that measures the wrong thing is on the wrong line, or its unit is a slip. It can't be compared with its limit, and the limit would go unjudged. What a limit is worked out from must go together too: a bore less a torque means nothing.",
  wrong: `fastener cap-nut "Big end cap nut"
  thread 3/8-24 UNF
  torque 28 .. 32 mm
#                 ^^ error unit-kind
`,
  right: `fastener cap-nut "Big end cap nut"
  thread 3/8-24 UNF
  torque 28 .. 32 lbf.ft
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    for (const issue of unitIssues(job)) {
      // Only what has a unit of another kind says what was found.
      if (issue.unit === undefined || issue.found === undefined) continue;
      const at = where(issue.file, issue.entry, issue.row, issue.unit.at);
      if (issue.found === "ratio" && issue.entry.kind === "gauge") {
        report({
          where: at,
          severity: "error",
          message: `${quantityText(issue.quantity)} is a share of the reading. Write how much it comes to where the gauge is used, in the unit that it reads.`,
        });
        continue;
      }
      if (issue.counter !== undefined) {
        report({
          where: at,
          severity: "error",
          // Whatever falls due by it would never fall due.
          firm: true,
          message: `${quantityText(issue.quantity)}: no counter of a machine runs in ${issue.unit.text}. It counts km, mi or h.`,
        });
        continue;
      }
      const found = `${quantityText(issue.quantity)} is ${dimensionWords([issue.found])}`;
      report({ where: at, severity: "error", message: `${found}, but ${whatBelongs(job, issue)}`, fixes: fixesFor(issue, at) });
    }
    ofExpressions(context);
    ofGauges(context);
  },
};

/** With the sign that ends it. */
function whatBelongs(job: Job, issue: UnitIssue): string {
  const { entry } = issue;
  if (issue.pieces) return "this is counted in pieces. Write how many, without a unit.";
  const belongs = dimensionWords(issue.wants);
  const name = entry.kind === "measure" ? entry.limit : entry.kind === "limit" || entry.kind === "gauge" ? entry.name : undefined;
  const thing = name === undefined ? undefined : job.things.get(name.text);
  // `takes 30 mm`: no work takes a length.
  if (issue.wants.includes("time") && issue.unit?.text === "mm") return `${belongs} is wanted here: is ${issue.quantity.figure.text} min meant?`;
  if (thing?.kind === "limit" || thing?.kind === "gauge") return `${midSentence(thing)} ${agreeing(thing, "is")} given as ${belongs}.`;
  return `${belongs} is wanted here.`;
}

/** Pounds and kilograms that press are forces; what a spanner in kg means is one of two torques. */
function fixesFor(issue: UnitIssue, at: ReturnType<typeof where>): RuleFix[] {
  const written = issue.unit?.text ?? "";
  if (issue.wants.includes("torque")) return (ambiguousUnit(written, "torque")?.meanings ?? []).map((unit) => rewrite(`Write ${unit}`, at, unit));
  const swaps =
    issue.wants.includes("force") && issue.found === "mass"
      ? { lb: "lbf", lbs: "lbf", kg: "kgf" }
      : issue.wants.includes("mass") && issue.found === "force"
        ? { lbf: "lb", kgf: "kg" }
        : {};
  const unit = (swaps as Record<string, string | undefined>)[written];
  return unit === undefined ? [] : [rewrite(`Write ${unit}`, at, unit)];
}

function ofExpressions({ job, report }: JobContext): void {
  for (const thing of job.things.values()) {
    if (thing.kind !== "limit" || thing.expression === undefined) continue;
    const issue = expressionIssue(job, thing);
    const line = thing.lines.findLast((it) => it.detail.kind === "equals");
    if (issue === undefined || issue.kind === "missing" || line === undefined) continue;
    const at = where(line.file, line.entry, line.detail.row, issue.at);
    const message =
      issue.kind === "unlike"
        ? `${capital(issue.left)} and ${issue.right}: they can't ${issue.verb}.`
        : issue.kind === "angle"
          ? `\`${issue.function}\` takes an angle, and this is ${issue.found}. Write an angle, in deg.`
          : `This comes out as ${issue.found}, and ${midSentence(thing)} ${agreeing(thing, "is")} given as ${dimensionWords([issue.wants])}.`;
    report({ where: at, severity: "error", message });
  }
}

/** Read or tightened with a gauge that reads something else. */
function ofGauges({ job, report }: JobContext): void {
  for (const { path, sheet } of job.files) {
    for (const entry of sheet.entries) {
      if (entry.fault !== undefined) continue;
      if (entry.kind === "measure" && entry.by !== undefined && entry.limit !== undefined) {
        const limit = job.things.get(entry.limit.text);
        const gauge = job.things.get(entry.by.text);
        if (limit?.kind !== "limit" || gauge?.kind !== "gauge") continue;
        const wants = dimensionOfLimit(limit);
        const reads = dimensionOfGauge(gauge);
        if (wants === undefined || reads === undefined || wants === reads) continue;
        report({ where: where(path, entry, 0, entry.by.at), severity: "error", message: unlikeGauge(gauge, limit) });
      } else if (entry.kind === "step") {
        for (const detail of entry.details) {
          if (detail.kind !== "action" || detail.by === undefined || detail.fault !== undefined) continue;
          const gauge = job.things.get(detail.by.text);
          const reads = gauge?.kind === "gauge" ? dimensionOfGauge(gauge) : undefined;
          if (gauge === undefined || reads === undefined || reads === "torque") continue;
          report({
            where: where(path, entry, detail.row, detail.by.at),
            severity: "error",
            message: `${called(gauge)} reads ${dimensionWords([reads])}, and a nut is tightened by a torque. Name the wrench that was used.`,
          });
        }
      }
    }
  }
}

function unlikeGauge(gauge: Gauge, limit: Limit): string {
  const reads = dimensionOfGauge(gauge) ?? "count";
  const wants = dimensionOfLimit(limit) ?? "count";
  return `${called(gauge)} reads ${dimensionWords([reads])}, and ${midSentence(limit)} ${agreeing(limit, "is")} ${dimensionWords([wants])}. Name the gauge that was used.`;
}
