// How a fault that was found is said: as it stands, as planned to be cured, or put right and faint.
// Invariant: only done work makes it faint.
import type { Where } from "../model/where.ts";
import type { Cure } from "../story/put-right.ts";
import type { JobContext, Report, RuleFix, Severity } from "./rule.ts";
import { firstSentence } from "./wording.ts";

/**
 * `cures` holds one answer for each place that the fault is at: it is put right when every one of them is.
 */
export function curedReport(
  context: JobContext,
  where: Where,
  severity: Severity,
  message: string,
  cures: readonly (Cure | undefined)[],
  fixes: readonly RuleFix[] = [],
): Report {
  const missing = cures.length === 0 || cures.some((cure) => cure === undefined);
  const last = latest(cures);
  if (!missing && last !== undefined) {
    const at = last.moment.where;
    if (!cures.some((cure) => cure?.planned))
      return {
        where,
        severity: "hint",
        message: `${firstSentence(message)} Done at line ${context.line(at)}.`,
        related: [{ where: at, message: "Done here." }],
      };
    const planned = cures.find((cure) => cure?.planned) as Cure;
    return {
      where,
      severity,
      message: `${message} Planned at line ${context.line(planned.moment.where)}, not done.`,
      related: [{ where: planned.moment.where, message: "Planned here, not done." }],
      fixes,
    };
  }
  return { where, severity, message, fixes };
}

function latest(cures: readonly (Cure | undefined)[]): Cure | undefined {
  let last: Cure | undefined;
  for (const cure of cures) if (cure !== undefined && (last === undefined || cure.moment.seq > last.moment.seq)) last = cure;
  return last;
}
