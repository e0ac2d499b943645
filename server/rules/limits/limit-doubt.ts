// So near to the limit that the gauge can't say on which side.
import { isSafelyUnworn } from "../../story/past-wear.ts";
import type { JobRule } from "../rule.ts";
import { limitWords, readsSo, uncertaintyText, verdictReport } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "limit-doubt",
  group: "Limits, readings, checks",
  severity: "warning; information where only `new` is in doubt and the limit of wear is far; hint when cured",
  safety: false,
  title: "Within the gauge's uncertainty of the limit (ISO 14253-1)",
  why: "The reading and the limit are nearer to each other than the gauge can tell apart, so it is neither in nor out. Measure it with something better, or treat it as past the limit where much depends on it.",
  wrong: `gauge bore-gauge "Bore gauge"
  uncertainty 0.0003 in
limit bore "Bush bore"
  worn max 0.8790 in
  source "Maker's handbook, page 66"
measure bore found by bore-gauge
  0.8788 in
# ^^^^^^^^^ warning limit-doubt
`,
  right: `gauge bore-gauge "Bore gauge"
  uncertainty 0.0003 in
limit bore "Bush bore"
  worn max 0.8790 in
  source "Maker's handbook, page 66"
measure bore found by bore-gauge
  0.8787 in
`,
  scope: "job",
  check(context) {
    for (const verdict of context.judged.verdicts) {
      if (verdict.outcome !== "doubt" || verdict.stage === "trial") continue;
      const message = verdict.belowZero
        ? `${readsSo(verdict)}, below zero, and the limit is ${limitWords(verdict)}. Is a figure wrong? If not, say why: \`accept limit-doubt "…"\`.`
        : `${readsSo(verdict)}: too near ${limitWords(verdict)} to be sure, with a gauge good to ± ${uncertaintyText(verdict)}. Measure it with something finer.`;
      context.report(verdictReport(context, verdict, !verdict.belowZero && isSafelyUnworn(verdict) ? "information" : "warning", message));
    }
  },
};
