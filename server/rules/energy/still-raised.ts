// Released while the machine is still up where `raise` took it.
import { hasAction } from "../../model/has.ts";
import { hangsOn, mayStay } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "still-raised",
  group: "Energy and support",
  severity: "error at release",
  safety: true,
  title: "The machine is released and was never let down from where `raise` took it",
  why: "A machine is worked on on stands; it does not go back to work from them. Somebody drives it off, or finds wheels that carry nothing. A cradle that it lives in may stay.",
  wrong: `step up "Up, looked at"
  chock
  raise on jack
# ^^^^^ error still-raised
  support on 2 stands under "axle" rated 1500 kg each load 500 kg
  done
release by "A. Moor" 2026-05-10
`,
  right: `step up "Up, looked at, and down"
  chock
  raise on jack
  support on 2 stands under "axle" rated 1500 kg each load 500 kg
  lower
  done
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "raise")) return;
    const { story } = context;
    if (story.release === undefined) return;
    const state = story.blurred.findLast((it) => it.seq > (story.support.findLast((was) => was.phase === "done")?.seq ?? 0))?.after ?? story.supportNow;
    const { raised } = state;
    if (raised === undefined || state.unclear?.hold === true) return;
    // On a jack or a crane another rule says it, and says more.
    const hanging = hangsOn(state);
    if (hanging === "jack" || hanging === "crane") return;
    if (mayStay(state)) return;
    report({
      where: raised.moment.where,
      severity: "error",
      message: `The machine is still up ${hanging === undefined ? "on stands" : `on the ${hanging}`}: raised here, and never let down. Let it down and write \`lower\`.`,
    });
  },
};
