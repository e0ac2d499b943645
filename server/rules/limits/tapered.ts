// Past `taper`: the difference of the means at its positions
import type { JobRule } from "../rule.ts";
import { beyondWords, readsSo, verdictCritical, verdictReport } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "tapered",
  group: "Limits, readings, checks",
  severity: "error on a critical thing or at a final reading, else warning; hint when cured",
  safety: false,
  title: "Past `taper`: the difference of the means at its positions",
  why: "A tapered pin or bore bears at one end only and wears there again at once. Taper is the difference of the positions' means; its uncertainty is the root of two times the gauge's.",
  wrong: `limit pin "Pin diameter"
  worn min 21.90 mm
  read at top, bottom
  taper max 0.02 mm
  source "Maker's handbook, page 12"
measure pin found
  top 21.95 mm
  bottom 21.98 mm
#        ^^^^^^^^ warning tapered
`,
  right: `limit pin "Pin diameter"
  worn min 21.90 mm
  read at top, bottom
  taper max 0.02 mm
  source "Maker's handbook, page 12"
measure pin found
  top 21.96 mm
  bottom 21.98 mm
`,
  scope: "job",
  check(context) {
    for (const verdict of context.judged.verdicts) {
      if (verdict.band !== "taper" || verdict.outcome !== "out") continue;
      const severity = verdictCritical(context, verdict) || verdict.stage === "final" ? "error" : "warning";
      context.report(verdictReport(context, verdict, severity, `${readsSo(verdict)}: ${beyondWords(verdict, "the allowed")}. Have it ground or renew it.`));
    }
  },
};
