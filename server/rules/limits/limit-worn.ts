// A reading past the limit of wear.
import { isOfAllMounted } from "../../model/read-with.ts";
import type { JobRule } from "../rule.ts";
import { beyondWords, readsSo, verdictCritical, verdictReport } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "limit-worn",
  group: "Limits, readings, checks",
  severity: "error on a critical thing or at a final reading, else warning; hint when cured",
  safety: false,
  title: "A reading past its wear limit, not cured",
  why: "The worst spot is judged, not the average: that is where it will let go. The gauge's uncertainty is taken into account (ISO 14253-1): past the limit means past it for certain.",
  wrong: `limit bore "Bush bore"
  worn max 0.8790 in
  source "Maker's handbook, page 66"
measure bore found
  0.8781, 0.8796 in
#         ^^^^^^^^^ warning limit-worn
`,
  right: `limit bore "Bush bore"
  worn max 0.8790 in
  source "Maker's handbook, page 66"
measure bore found
  0.8781, 0.8790 in
`,
  scope: "job",
  check(context) {
    for (const verdict of context.judged.verdicts) {
      if (verdict.band !== "worn" || verdict.outcome !== "out") continue;
      const severity = verdictCritical(context, verdict) || verdict.stage === "final" ? "error" : "warning";
      const isOfMore = verdict.workedOut || isOfAllMounted(verdict.limit);
      const setting = verdict.limit.setBy.length > 0 ? "Set it again" : isOfMore ? "Renew or repair what makes it so" : "Renew it or have it repaired";
      context.report(verdictReport(context, verdict, severity, `${readsSo(verdict)}: ${beyondWords(verdict, "its wear limit of")}. ${setting}.`));
    }
  },
};
