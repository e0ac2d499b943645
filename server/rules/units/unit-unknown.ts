// A word after a figure that isn't a unit.
import { type Dimension, type Unit, nearestUnit, unitOf } from "../../quantities/units.ts";
import { where } from "../../model/where.ts";
import { type JobRule, rewrite } from "../rule.ts";
import { dimensionWords, isCounted, usualUnits } from "./shared/dimensions.ts";
import { unitIssues } from "./shared/issues.ts";

export const rule: JobRule = {
  id: "unit-unknown",
  group: "Units and figures",
  severity: "error",
  safety: false,
  title: "A word after a figure that isn't a unit",
  why: "A figure whose unit can't be read is judged against nothing, and nobody notices that it was passed over. Capitals count: `N.m` is a torque, `n.m` is not a unit.",
  wrong: `limit runout "Flywheel run-out"
  worn max 0.008 inn
#                ^^^ error unit-unknown (fix)
  source "Maker's handbook, page 12"
`,
  right: `limit runout "Flywheel run-out"
  worn max 0.008 in
  source "Maker's handbook, page 12"
`,
  fixed: `limit runout "Flywheel run-out"
  worn max 0.008 in
  source "Maker's handbook, page 12"
`,
  scope: "job",
  check({ job, report }) {
    for (const { kind, file, entry, row, unit, wants, quantity } of unitIssues(job)) {
      if (kind !== "unknown" || unit === undefined) continue;
      const at = where(file, entry, row, unit.at);
      const fit = /^([A-HJ-NP-Z]{1,2}\d{1,2}|[a-hj-np-z]{1,2}\d{1,2})(\p{L}+)$/u.exec(unit.text);
      if (fit !== null && unitOf(fit[2] as string)?.dimension === "length") {
        const text = `${quantity.figure.text} ${fit[1]} ${fit[2]}`;
        report({
          where: at,
          severity: "error",
          message: `\`${unit.text}\` isn't a unit. Write a space between a fit and its unit: ${text}.`,
          fixes: [rewrite(`Write ${text}`, { ...at, at: quantity.at }, text)],
        });
        continue;
      }
      const minutes = hoursAndMinutes(quantity.figure.text, unit.text);
      if (minutes !== undefined && (wants.length === 0 || wants.includes("time"))) {
        report({
          where: { ...at, at: { from: quantity.at.from, to: at.at.to } },
          severity: "error",
          message: `A quantity has one figure and one unit. Write ${minutes} min.`,
          fixes: [rewrite(`Write ${minutes} min`, { ...at, at: { from: quantity.at.from, to: at.at.to } }, `${minutes} min`)],
        });
        continue;
      }
      const isWork = entry.details.some((it) => it.row === row && it.kind === "takes");
      if (/^(?:wk|week)s?$/.test(unit.text) && /^\d+$/.test(quantity.figure.text) && !isWork && (wants.length === 0 || wants.includes("time"))) {
        const days = `${BigInt(quantity.figure.text) * 7n} days`;
        report({
          where: at,
          severity: "error",
          message: `\`${unit.text}\` isn't a unit that Splitpin knows. Write it in days: ${days}.`,
          fixes: [rewrite(`Write ${days}`, { ...at, at: quantity.at }, days)],
        });
        continue;
      }
      // How many days of work a week has is for whoever does it.
      if (/^(?:wk|week|month)s?$/.test(unit.text) && (wants.length === 0 || wants.includes("time"))) {
        report({ where: at, severity: "error", message: `\`${unit.text}\` isn't a unit that Splitpin knows. Write it in days, d.` });
        continue;
      }
      if ((entry.kind === "limit" || entry.kind === "measure") && isCounted(unit.text)) {
        report({
          where: at,
          severity: "error",
          message: `\`${unit.text}\` are counted, and no unit. What is counted is a \`check\`: say in its text how many, and write \`seen CHECK final good\`.`,
        });
        continue;
      }
      if (threadForm.test(unit.text) && wants.includes("length")) {
        const text = `${quantity.figure.text} in`;
        report({
          where: at,
          severity: "error",
          message: `\`${unit.text}\` is a thread, and the thread is the fastener's own. A size here is a length: ${text}.`,
          fixes: [rewrite(`Write ${text}`, { ...at, at: quantity.at }, text)],
        });
        continue;
      }
      const near = nearest(unit.text, wants);
      report({
        where: at,
        severity: "error",
        message:
          near === undefined
            ? `\`${unit.text}\` isn't a unit that Splitpin knows. ${hint(wants)}`
            : `\`${unit.text}\` isn't a unit that Splitpin knows. Is \`${near.name}\` meant?`,
        fixes: near === undefined ? [] : [rewrite(`Write ${near.name}`, at, near.name)],
      });
    }
  },
};

/** `1h30`, `1h 30min` in one word: the minutes of both. */
function hoursAndMinutes(figure: string, unit: string): number | undefined {
  const minutes = /^h(?:rs?)?(\d{1,2})(?:m|mins?)?$/.exec(unit)?.[1];
  return minutes === undefined || !/^\d{1,2}$/.test(figure) ? undefined : Number(figure) * 60 + Number(minutes);
}

const threadForm = /^(?:BSF|BSW|Whit(?:worth)?|UNF|UNC|UNS|NF|NC|BSC|CEI|BSP)$/i;

/** No unit has a figure in it: with that left out, `1h30` would be an hour. */
function nearest(spelling: string, wants: readonly Dimension[]): Unit | undefined {
  if (/\d/.test(spelling)) return undefined;
  for (const dimension of wants) {
    const near = nearestUnit(spelling, dimension);
    if (near !== undefined) return near;
  }
  return wants.length === 0 ? nearestUnit(spelling) : undefined;
}

function hint(wants: readonly Dimension[]): string {
  const units = wants.flatMap((it) => usualUnits[it]);
  return units.length === 0 ? "Write one that is, such as mm or in." : `Write ${dimensionWords(wants)}: ${units.slice(0, 4).join(", ")} or another.`;
}
