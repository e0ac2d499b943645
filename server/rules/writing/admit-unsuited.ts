// An `admit` of what can't be owned up to: a state that is still in the machine, or something of another kind of answer.
import { unsaid } from "../../../grammar/blanks.ts";
import { once } from "../../model/memo.ts";
import { where } from "../../model/where.ts";
import { ruleIds, safetyRules } from "../ids.ts";
import { admissible } from "../pardons.ts";
import type { EntryRule } from "../rule.ts";

export const rule: EntryRule = {
  id: "admit-unsuited",
  group: "Writing",
  severity: "error",
  safety: false,
  title: "`admit` of what is not a moment past, or under a step that is not done",
  why: "To own up is for a moment that is over and left nothing in the machine, and for these rules alone: hazard-live, jack-only, under-while-moved, chocks-missing, load-unsupported, fit-order, restored-open, lowered-open. It says what came of it and by whom, and stays in the record. It is never for a torque, for an overstretched bolt stays overstretched: cure it. What isn't a safety rule can be accepted with its reason (`accept`), and a figure outside its limit conceded by somebody with a name (`concession`).",
  wrong: `fastener nut "Nut"
  torque 40 .. 50 N.m
step a "Nut tight"
  tighten nut to 70 N.m
  done
  admit torque-outside "felt fine" by "A. Moor"
#       ^^^^^^^^^^^^^^ error admit-unsuited
`,
  right: `step a "Up and down"
  raise on jack
  lower
  done
  admit chocks-missing "It stood on the level and did not move" by "A. Moor"
`,
  scope: "entry",
  check({ file, entry, report }) {
    const isDone = once(() => ({ it: entry.details.some((line) => line.kind === "done" && !unsaid(line)) }));
    for (const it of entry.details) {
      if (it.kind !== "admit" || it.fault !== undefined || it.rule === undefined) continue;
      const { text } = it.rule;
      const say = (message: string) => report({ where: where(file, entry, it.row, it.rule?.at ?? it.at), severity: "error", message });
      if (!ruleIds.has(text)) say(`There is no rule \`${text}\`.`);
      else if (!admissible.has(text))
        say(
          ofLimits.has(text)
            ? `\`${text}\` is about a figure, not a moment past. Correct it, or let somebody else concede it: \`concession LIMIT "why" by "…"\`.`
            : safetyRules.has(text)
              ? `\`${text}\` is about what is still in the machine, not about a moment past. Cure what it says and delete this line.`
              : `\`${text}\` is about what is still so, not a moment past. Cure it, or write why it is right: \`accept ${text} "why"\`.`,
        );
      else if (!isDone().it) say("This step is not done: nothing has happened that could be owned up to. Change the plan.");
    }
  },
};

const ofLimits: ReadonlySet<string> = new Set(["limit-worn", "limit-not-set", "limit-doubt", "spread-over", "out-of-round", "tapered"]);
