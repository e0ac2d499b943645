// Stands that carry more than they may, or of which nobody can say what they may.
import { hasAction } from "../../model/has.ts";
import { measured, quantityText } from "../../model/values.ts";
import { wholeNumber } from "../../model/declare.ts";
import type { ActionDetail, Quantity, Span } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import type { Part } from "../../model/things.ts";
import type { Measured } from "../../quantities/quantity.ts";
import type { JobRule } from "../rule.ts";
import type { Story, SupportMoment } from "../../story/story.ts";
import { called } from "../wording.ts";

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
      // Without a count no more than one is sure to carry it.
      const times = ratedEach !== undefined ? (count ?? 1) : 1;
      if (load !== undefined && may !== undefined && isOver(carries, may, times)) {
        const all = times > 1 ? `${times} x ${quantityText(rated)}` : quantityText(rated);
        const unsure = ratedEach !== undefined && count === undefined ? " Write how many stands there are." : "";
        say(load.at, `${quantityText(load)} rests on stands rated for ${all}. Use stands that can carry it.${unsure}`);
        continue;
      }
      const hangs = on?.text === "crane" ? massOf(job, it.action) : undefined;
      // One end of it may be lifted, or two may share it; what comes off or goes on by that one hangs there whole, whatever the line says.
      if (hangs !== undefined && may !== undefined && isOver(hangs.mass, may, times) && (load === undefined || hangsWhole(story, it, hangs)))
        say(
          rated.at,
          `${called(hangs.part)} weighs ${quantityText(hangs.part.mass as Quantity)}, and hangs on a crane rated for ${quantityText(rated)}. Use one that can carry it.`,
        );
    }
  },
};

function isOver(carries: Measured | undefined, may: Measured, times: number): boolean {
  return carries !== undefined && carries.unit.dimension === may.unit.dimension && carries.value.compare(may.value.mul(times)) > 0;
}

interface Hanging {
  readonly part: Part;
  readonly mass: Measured;
}

/** It comes off or goes on in that step, and nothing else bears it there. */
function hangsWhole(story: Story, it: SupportMoment, { part }: Hanging): boolean {
  const others = story.support.filter((other) => other.visit === it.visit && other.verb === "support" && other !== it && !isSetDownBetween(story, other, it));
  return (
    !others.some(({ action }) => action.things.some((thing) => thing.name.text === part.name)) &&
    story
      .cells(part.name)
      .some((cell) => cell.kind === "part" && cell.history.some(({ visit, verb }) => visit === it.visit && (verb === "remove" || verb === "fit")))
  );
}

/** It was set down between the two: it hangs by one at a time. */
function isSetDownBetween(story: Story, one: SupportMoment, other: SupportMoment): boolean {
  const [from, to] = one.seq < other.seq ? [one.seq, other.seq] : [other.seq, one.seq];
  return story.support.some((it) => it.verb === "set-down" && it.seq > from && it.seq < to);
}

/** What hangs on the crane by itself, with its mass: the least of the load. */
function massOf(job: Job, { things }: ActionDetail): Hanging | undefined {
  const thing = things.length === 1 ? job.things.get(things[0]?.name.text ?? "") : undefined;
  const mass = thing?.kind === "part" ? measured(thing.mass) : undefined;
  return thing?.kind === "part" && mass !== undefined ? { part: thing, mass } : undefined;
}
