// Inside wear, outside new.
import { inside as isInside } from "../../quantities/range.ts";
import { unwornBand, withoutWear } from "../../story/bands.ts";
import { byTheDoer } from "../conceding.ts";
import type { JobRule } from "../rule.ts";
import { concessionFor, limitWords, readsSo, verdictCritical, verdictReport } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "limit-not-new",
  group: "Limits, readings, checks",
  severity: "information; warning beyond it where nothing wears, or at a final where it was renewed or nothing else judges it; hint when it was renewed since",
  safety: false,
  title: "Inside the limit of wear, outside `new`",
  why: "It may go back, and it has worn: worth knowing while everything is apart and before parts are ordered. After something was renewed it should read as new; then look at what was fitted. Far beyond `new` on the side to which nothing wears (a lining thicker, a bore smaller, a clearance tighter) it is another part, or a slip of the pen; after a repair so is anything beyond it, and it holds the release back until somebody has looked.",
  wrong: `limit bore "Bush bore"
  new 0.8755 .. 0.8765 in
  worn max 0.8790 in
  source "Maker's handbook, page 66"
measure bore found
  0.8771 in
# ^^^^^^^^^ information limit-not-new
`,
  right: `limit bore "Bush bore"
  new 0.8755 .. 0.8765 in
  worn max 0.8790 in
  source "Maker's handbook, page 66"
measure bore found
  0.8765 in
`,
  scope: "job",
  check(context) {
    for (const verdict of context.judged.verdicts) {
      if (verdict.band !== "new" || verdict.outcome !== "out") continue;
      const inside = verdict.stood.worn === undefined ? "" : ", inside its limit of wear";
      const unworn = verdict.mended ? withoutWear(verdict.stood) : unwornBand(verdict.stood);
      // What can't have worn so is another part, or a slip: somebody looks at it before it goes back.
      const strange = unworn !== undefined && !isInside(unworn, verdict.value);
      const message = verdict.renewed
        ? `${readsSo(verdict)}; it was renewed, and new is ${limitWords(verdict)}. Look at what was fitted.`
        : strange && verdict.mended
          ? `${readsSo(verdict)} after it was worked on, and new is ${limitWords(verdict)}: nothing wears that way. Work it to size, or \`accept limit-not-new "why"\`.`
          : strange
            ? `${readsSo(verdict)}, and new is ${limitWords(verdict)}: nothing wears that way. Is it the right part, and the right figure?`
            : `${readsSo(verdict)}${inside}; new is ${limitWords(verdict)}.`;
      const report = verdictReport(context, verdict, strange && !verdict.renewed ? "warning" : "information", message);
      if (report.severity === "warning") {
        context.report({ ...report, open: report.open ?? true });
        continue;
      }
      const concession = concessionFor(context, verdict);
      // Of what is critical, somebody else than who fitted it says that it may stay so.
      const byItself = concession !== undefined && verdictCritical(context, verdict) && byTheDoer(context.job, context.story, concession);
      const conceded = concession !== undefined && !byItself;
      // As made is all that there is to judge by where nobody gave a limit of wear.
      const judgedByIt = verdict.renewed || (verdict.stood.worn === undefined && verdict.stood.set === undefined);
      if (!judgedByIt || verdict.stage !== "final" || report.severity !== "information" || conceded) context.report(report);
      else
        context.report({
          ...report,
          // What holds the gate is no mere information.
          severity: "warning",
          open: true,
          message: byItself ? `${report.message} Accepted at line ${context.line(concession.where)} by its own doer; somebody else must.` : report.message,
        });
    }
  },
};
