// Past `spread`: the widest less the narrowest of the readings
import type { JobRule } from "../rule.ts";
import { beyondWords, readsSo, verdictCritical, verdictReport } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "spread-over",
  group: "Limits, readings, checks",
  severity: "error on a critical thing or at a final reading, else warning; hint when cured",
  safety: false,
  title: "Past `spread`: the widest less the narrowest of the readings",
  why: "Run-out and tooth-to-tooth differences are felt as a knock at every turn, though each single reading may be inside. The uncertainty of a difference is the root of two times the gauge's.",
  wrong: `limit run-out "Flange run-out"
  new 0 .. 1 mm
  spread max 0.05 mm
  source "Maker's handbook, page 12"
measure run-out found
  0.02, 0.09 mm
#       ^^^^^^^ warning spread-over
`,
  right: `limit run-out "Flange run-out"
  new 0 .. 1 mm
  spread max 0.05 mm
  source "Maker's handbook, page 12"
measure run-out found
  0.02, 0.07 mm
`,
  scope: "job",
  check(context) {
    for (const verdict of context.judged.verdicts) {
      if (verdict.band !== "spread" || verdict.outcome !== "out") continue;
      const severity = verdictCritical(context, verdict) || verdict.stage === "final" ? "error" : "warning";
      context.report(verdictReport(context, verdict, severity, `${readsSo(verdict)}: ${beyondWords(verdict, "the allowed")}. Renew it or have it trued.`));
    }
  },
};
