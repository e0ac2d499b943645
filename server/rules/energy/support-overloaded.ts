// Stands that carry more than they may, or of which nobody can say what they may.
import { hasAction } from "../../model/has.ts";
import { measured, quantityText } from "../../model/values.ts";
import { wholeNumber } from "../../model/declare.ts";
import type { ActionDetail, Quantity, Span } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import type { Part } from "../../model/things.ts";
import type { Measured } from "../../quantities/quantity.ts";
import type { FastenerMoment, PartMoment, Story, SupportMoment } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { called, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "support-overloaded",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title:
    "Load above the rating, or a tenth of what the part weighs; a rating for neither `each` nor the lot where there is more than one; a load and no rating",
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
    /** Something else bears the same part at the same time: each has a share. The same line once more is the same sling. */
    const isShared = ({ action, before }: SupportMoment) => {
      const part = action.things[0]?.name.text;
      const isOther = (it: ActionDetail) => it.on?.text !== action.on?.text || it.underText?.value !== action.underText?.value;
      return (
        before.supports.some((it) => it.part === part && isOther(it.action)) ||
        story.support.some(
          (it) =>
            it.verb === "support" &&
            it.action.things.some(({ name }) => name.text === part) &&
            isOther(it.action) &&
            it.before.supports.some((was) => was.action === action),
        )
      );
    };
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
      // What is written as its load is no less than what it weighs, where nothing else bears a share of it.
      const isAlone = () => !isShared(it) && hangsThen(story, it);
      const isOnOne = on?.text === "crane" ? load === undefined || isAlone() : on?.text === "cradle" && isAlone();
      const isOnStands = on?.text === "stands" && isAlone();
      const bearsAll = isOnOne || isOnStands;
      const whole = bearsAll ? massOf(job, it.action) : undefined;
      const said = measured(load);
      const hangs =
        said === undefined || (whole !== undefined && whole.mass.unit.dimension === said.unit.dimension && whole.mass.value.compare(said.value) > 0)
          ? whole
          : undefined;
      // Without a count no more than one is sure to carry it; of stands that bear all of it there are two at the least.
      const times = ratedEach !== undefined ? (count ?? (isOnStands && load === undefined ? 2 : 1)) : 1;
      if (hangs !== undefined && may !== undefined && hangs.mass.unit.dimension === may.unit.dimension && hangs.mass.value.compare(may.value.mul(times)) > 0)
        say(
          rated.at,
          `${called(hangs.part)} weighs ${quantityText(hangs.part.mass as Quantity)}, and ${bearing(on?.text)} rated for ${ratedEach !== undefined && count !== undefined && count > 1 ? `${count} x ` : ""}${quantityText(rated)}${ratedEach !== undefined && count === undefined ? " each. Write how many there are, or use stands" : `. Use ${isOnStands ? "stands" : "one"}`} that can carry it.`,
        );
      const carries = said;
      const weighs = massOf(job, it.action);
      if (load !== undefined && said !== undefined && weighs !== undefined && hasLost(load, said, weighs, bearsAll)) {
        say(
          load.at,
          `A load of ${quantityText(load)}, and ${midSentence(weighs.part)} weighs ${quantityText(weighs.part.mass as Quantity)}: one of the two has lost a figure. Correct it, and look at the rating again.`,
        );
        continue;
      }
      if (load === undefined || may === undefined || carries === undefined || may.unit.dimension !== carries.unit.dimension) continue;
      if (carries.value.compare(may.value.mul(times)) <= 0) continue;
      const all = times > 1 ? `${times} x ${quantityText(rated)}` : quantityText(rated);
      const unsure = ratedEach !== undefined && count === undefined ? " Write how many stands there are." : "";
      const bearer = on?.text ?? "stands";
      const [rests, use] =
        bearer === "stands"
          ? ["rests on stands", "stands that can carry it"]
          : [`${bearer === "crane" ? "hangs" : "rests"} on a ${bearer}`, "one that can carry it"];
      say(load.at, `${quantityText(load)} ${rests} rated for ${all}. Use ${use}.${unsure}`);
    }
  },
};

function bearing(on: string | undefined): string {
  if (on === "crane") return "hangs on a crane";
  return on === "stands" ? "rests on stands" : "rests on a cradle";
}

/** It is off, comes off on this sling, or its last fastener is undone on it: else it is tilted or steadied, and the rest of it bears it still. */
function hangsThen(story: Story, { action, seq }: SupportMoment): boolean {
  const name = action.things[0]?.name.text;
  if (name === undefined) return false;
  const until = story.support.find((it) => it.seq > seq && (it.verb === "lower" || it.verb === "set-down"))?.seq ?? Number.POSITIVE_INFINITY;
  const isOff = (it: string) =>
    story.cells(it).some((cell) => {
      if (cell.kind !== "part" && cell.kind !== "fastener") return false;
      const history = cell.history as readonly (PartMoment | FastenerMoment)[];
      const before = history.findLast((was) => was.seq < seq)?.after.on ?? cell.total;
      // A part that came off hung there; nuts that were undone and done up again let nothing go.
      const at = (is: (was: PartMoment | FastenerMoment) => boolean) => history.findLast((was) => was.seq > seq && was.seq < until && is(was))?.after.on === 0;
      return before === 0 || (cell.kind === "part" ? at((was) => was.after.on === 0) : at(() => true));
    });
  const thing = story.job.things.get(name);
  return isOff(name) || (thing?.kind === "part" && thing.heldBy.length > 0 && thing.heldBy.every(({ text }) => isOff(text)));
}

/** Ten times less, or its last figure gone; or, where nothing else bears a share of it, not the half of what it weighs. */
function hasLost(load: Quantity, said: Measured, { part, mass }: { readonly part: Part; readonly mass: Measured }, bearsAll: boolean): boolean {
  if (said.unit.dimension !== mass.unit.dimension || said.value.compare(mass.value) >= 0) return false;
  if (isTenthOf(said, mass) || (bearsAll && said.value.mul(2).compare(mass.value) < 0)) return true;
  const whole = /^\d+/.exec(part.mass?.figure.text ?? "")?.[0] ?? "";
  const written = load.figure.text;
  return load.unit?.text === part.mass?.unit?.text && /^\d+$/.test(written) && written.length < whole.length && whole.startsWith(written);
}

/** Ten or a hundred times less, to the figure: nobody's share of a load. */
function isTenthOf(load: Measured, mass: Measured): boolean {
  return load.unit.dimension === mass.unit.dimension && [10, 100].some((times) => load.value.mul(times).compare(mass.value) === 0);
}

/** What hangs on the crane by itself, with its mass: the least of the load. */
function massOf(job: Job, { things }: ActionDetail): { readonly part: Part; readonly mass: Measured } | undefined {
  const thing = things.length === 1 ? job.things.get(things[0]?.name.text ?? "") : undefined;
  const mass = thing?.kind === "part" ? measured(thing.mass) : undefined;
  return thing?.kind === "part" && mass !== undefined ? { part: thing, mass } : undefined;
}
