// Let down with a wheel off or a critical fastener slack.
import { hasAction } from "../../model/has.ts";
import { rollsOrCarries } from "../carries.ts";
import type { JobRule } from "../rule.ts";
import { listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "lowered-open",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "Let down with a wheel off or a critical fastener slack",
  why: "Once it stands on its wheels the slack nut carries load, and what is off is not there to carry it. Finish what is critical before it comes down.",
  wrong: `fastener wheel-nut "Wheel nut"
  critical "a wheel"
step strip "Wheel nuts slack"
  chock
  raise on jack
  slacken wheel-nut
  lower
# ^^^^^ error lowered-open
  done
`,
  right: `fastener wheel-nut "Wheel nut"
  critical "a wheel"
step strip "Wheel nuts slack and tight"
  chock
  raise on jack
  slacken wheel-nut
  tighten wheel-nut
  lower
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "lower")) return;
    const { story } = context;
    for (const it of story.support) {
      if (it.verb !== "lower") continue;
      const open = it.open.filter((cell) => (cell.kind === "part" ? rollsOrCarries(cell.thing) : cell.thing.critical));
      if (open.length === 0) continue;
      const names = [...new Set(open.map((cell) => midSentence(cell.thing, cell.place)))];
      report({
        where: it.where,
        severity: "error",
        message: `It is let down while this is off or slack: ${listed(names)}. Finish it first.`,
        related: open.flatMap((cell) => {
          const last = cell.history.findLast((moment) => moment.seq < it.seq);
          return last === undefined ? [] : [{ where: last.where, message: `${midSentence(cell.thing, cell.place)}: last here.` }];
        }),
      });
    }
  },
};
