// Stands that carry more than they may, or of which nobody can say what they may.
import { hasAction } from "../../model/has.ts";
import { measured, quantityText } from "../../model/values.ts";
import { wholeNumber } from "../../model/declare.ts";
import type { Span } from "../../../grammar/tree.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "support-overloaded",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "Load above the rating; a rating for neither `each` nor the lot where there is more than one; a load and no rating",
  why: "The load must be inside the rating marked on the stand or the jack (US OSHA 29 CFR 1910.244). Pairs of stands are sold by the rating of one or of the two together: look at the plate and write which.",
  wrong: `step up "Up"
  chock
  raise on jack
  support on 2 stands under "frame" rated 500 kg each load 1200 kg
#                                                          ^^^^^^^ error support-overloaded
  done
`,
  right: `step up "Up"
  chock
  raise on jack
  support on 2 stands under "frame" rated 1000 kg each load 1200 kg
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "support")) return;
    const { story } = context;
    for (const it of story.support) {
      if (it.verb !== "support") continue;
      const { rated, load, ratedEach, ratedTogether, standCount, on } = it.action;
      const say = (at: Span, message: string) => report({ where: { ...it.where, at }, severity: "error", message });
      const count = wholeNumber(standCount?.text) ?? (on?.text === "stands" ? undefined : 1);
      const several = count === undefined || count > 1;
      if (rated === undefined) {
        if (load !== undefined)
          say(load.at, `A load of ${quantityText(load)} and no rating. Write what is marked on the plate: \`rated … each\` or \`rated … together\`.`);
        continue;
      }
      if (several && ratedEach === undefined && ratedTogether === undefined) {
        say(rated.at, `Rated ${quantityText(rated)}: each, or all together? Look at the plate and write \`each\` or \`together\`.`);
        continue;
      }
      const may = measured(rated);
      const carries = measured(load);
      if (load === undefined || may === undefined || carries === undefined || may.unit.dimension !== carries.unit.dimension) continue;
      // Without a count no more than one is sure to carry it.
      const times = ratedEach !== undefined ? (count ?? 1) : 1;
      if (carries.value.compare(may.value.mul(times)) <= 0) continue;
      const all = times > 1 ? `${times} x ${quantityText(rated)}` : quantityText(rated);
      const unsure = ratedEach !== undefined && count === undefined ? " Write how many stands there are." : "";
      say(load.at, `${quantityText(load)} rests on stands rated for ${all}. Use stands that can carry it.${unsure}`);
    }
  },
};
