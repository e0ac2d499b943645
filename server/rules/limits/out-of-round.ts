// Past `ovality`: the span of the readings at one position
import type { JobRule } from "../rule.ts";
import { beyondWords, readsSo, verdictCritical, verdictReport } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "out-of-round",
  group: "Limits, readings, checks",
  severity: "error on a critical thing or at a final reading, else warning; hint when cured",
  safety: false,
  title: "Past `ovality`: the span of the readings at one position",
  why: "A journal that is oval knocks though it measures right one way, and no bearing makes good for it. Ovality is the span at one position; its uncertainty is the root of two times the gauge's.",
  wrong: `limit journal "Crank pin"
  worn min 49.90 mm
  ovality max 0.03 mm
  source "Maker's handbook, page 12"
measure journal found
  49.98, 49.93 mm
#        ^^^^^^^^ warning out-of-round
`,
  right: `limit journal "Crank pin"
  worn min 49.90 mm
  ovality max 0.03 mm
  source "Maker's handbook, page 12"
measure journal found
  49.98, 49.95 mm
`,
  scope: "job",
  check(context) {
    for (const verdict of context.judged.verdicts) {
      if (verdict.band !== "ovality" || verdict.outcome !== "out") continue;
      const severity = verdictCritical(context, verdict) || verdict.stage === "final" ? "error" : "warning";
      context.report(verdictReport(context, verdict, severity, `${readsSo(verdict)}: ${beyondWords(verdict, "the allowed")}. Have it ground or renew it.`));
    }
  },
};
