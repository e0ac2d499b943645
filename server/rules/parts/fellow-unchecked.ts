// A critical part failed at one place, and nobody looked at its fellow.
// Pitted, scored or corroded, it has failed where it is not to go back.
// A nut that was done up since has been in somebody's hands and took its torque: that is looked at.
import type { ConditionKind } from "../../../grammar/tree.ts";
import { findingsOf } from "../../story/decisions.ts";
import { readingsOf, seenOf } from "../../story/looked-up.ts";
import type { FastenerMoment, PartMoment } from "../../story/story.ts";
import { cellsFound } from "../cells-found.ts";
import { failed } from "../failures.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called, listed } from "../wording.ts";

/** By miles, load or water that its fellow has seen as well. How far a worn one has gone is for its size. */
const eaten: ReadonlySet<ConditionKind> = new Set(["pitted", "scored", "corroded"]);

export const rule: JobRule = {
  id: "fellow-unchecked",
  group: "Parts",
  severity: "warning",
  safety: false,
  title:
    "A critical part failed at one place, or was condemned there as pitted, scored or corroded, and its fellow at the other was never found, measured or seen",
  why: "It has done the same miles under the same load. What cracked on the left is looked for on the right.",
  wrong: `places side left, right
part arm "Swing arm"
  each side
  critical "a wheel"
finding arm left
  is cracked
#    ^^^^^^^ warning fellow-unchecked
  decision renew
`,
  right: `places side left, right
part arm "Swing arm"
  each side
  critical "a wheel"
finding arm left
  is cracked
  decision renew
finding arm right
  is serviceable
`,
  scope: "job",
  check({ story, report }) {
    for (const found of story.findings) {
      const thing = found.thing;
      if ((thing.kind !== "part" && thing.kind !== "fastener") || !thing.critical || thing.placeKind === undefined) continue;
      const isCondemned = found.decision !== undefined && found.decision.detail.decision !== "reuse";
      const bad = found.conditions.find(({ condition }) => failed.has(condition.kind) || (isCondemned && eaten.has(condition.kind)));
      if (bad === undefined) continue;
      const places = story.job.placeKinds.get(thing.placeKind.text) ?? [];
      const here = new Set(cellsFound(story, found).map((cell) => cell.place));
      const isEaten = eaten.has(bad.condition.kind);
      const others = places.filter((place) => !here.has(place) && !lookedAt(place) && (!isEaten || wasInHand(place)));
      if (others.length === 0) continue;
      report({
        where: bad.where,
        severity: "warning",
        message: `${called(thing, [...here].join(" and "))} ${agreeing(thing, "was")} found ${bad.condition.kind}. Look at its ${others.length === 1 ? "fellow" : "fellows"} at ${listed(others)} too, and write what ${others.length === 1 ? "it is" : "each is"} like.`,
      });

      // Nobody opens the other side for pits on this one; what was off there and went back was in somebody's hands, and so was what was washed where it is.
      function wasInHand(place: string): boolean {
        const cell = story.cell(thing.name, place);
        return (
          (cell?.kind === "part" || cell?.kind === "fastener") &&
          (cell.history as readonly (PartMoment | FastenerMoment)[]).some(
            (it) => it.phase === "done" && (it.after.on < it.before.on || it.action?.verb === "clean"),
          )
        );
      }

      function lookedAt(place: string): boolean {
        if ((findingsOf(story).get(thing.name) ?? []).some((it) => it.places.includes(place))) return true;
        // What is looked at without a place, and of other things besides, is no look at this one: all unions dry says nothing of a crack.
        const isOfIt = (at: string, of: readonly unknown[]) => at === place || (at === "" && of.length === 1);
        if (readingsOf(story, thing.name).some((it) => isOfIt(it.place, it.limit.of))) return true;
        if (seenOf(story, thing.name).some((it) => isOfIt(it.place, it.check.of))) return true;
        const cell = story.cell(thing.name, place);
        if (cell?.kind === "fastener")
          return cell.history.some((it) => it.seq > found.seq && it.phase === "done" && (it.verb === "tighten" || (it.verb === "fit" && it.isNew)));
        return cell?.kind === "part" && cell.history.some((it) => it.phase === "done" && it.verb === "fit" && it.isNew);
      }
    }
  },
};
