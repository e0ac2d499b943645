// A setting left outside what it must be left at.
import type { JobRule } from "../rule.ts";
import { limitWords, readsSo, verdictReport } from "../verdict-words.ts";
import { listed } from "../wording.ts";

export const rule: JobRule = {
  id: "limit-not-set",
  group: "Limits, readings, checks",
  severity: "error; hint when it was set and read again",
  safety: false,
  title: "A setting's final reading outside `set`",
  why: "A clearance or a preload that is set on assembly has no wear to excuse it: it is right or it is set again. Trials are for getting there, and are not flagged.",
  wrong: `fastener hub-nut "Hub nut"
limit end-float "Hub end float"
  set 0.05 .. 0.12 mm by hub-nut
  source "Maker's handbook, page 64"
measure end-float final
  0.16 mm
# ^^^^^^^ error limit-not-set
`,
  right: `fastener hub-nut "Hub nut"
limit end-float "Hub end float"
  set 0.05 .. 0.12 mm by hub-nut
  source "Maker's handbook, page 64"
measure end-float final
  0.12 mm
`,
  scope: "job",
  check(context) {
    for (const verdict of context.judged.verdicts) {
      if (verdict.band !== "set" || verdict.outcome !== "out" || verdict.stage !== "final") continue;
      const by = verdict.limit.setBy.map((name) => `\`${name.text}\``);
      const move = by.length === 0 ? "Set it again" : `Move ${listed(by)} and measure again`;
      context.report(verdictReport(context, verdict, "error", `${readsSo(verdict)}; it must be left at ${limitWords(verdict)}. ${move}.`));
    }
  },
};
