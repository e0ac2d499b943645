// What stands against a limit or a check at a place: the last verdict that is out or in doubt, the last look that found it bad.
import { isSamePlace } from "../../model/same-place.ts";
import type { Check, Limit } from "../../model/things.ts";
import type { Where } from "../../model/where.ts";
import { isConceded } from "../../story/conceded.ts";
import { isSafelyUnworn } from "../../story/past-wear.ts";
import type { Story } from "../../story/story.ts";
import type { Verdict } from "../../story/verdict.ts";
import { judge } from "../../story/verdicts.ts";
import { namesIn } from "../../story/worked-out.ts";
import { isAt } from "./acts.ts";
import type { Work } from "./work.ts";

/** Where that stands which is against it there; undefined where nothing is. */
export type StandsOut = (thing: Limit | Check, place: string) => Where | undefined;

export function standingOut(story: Story, work: readonly Work[]): StandsOut {
  const { verdicts } = judge(story);
  const operands = operandsOut(story, work, verdicts);
  return (thing, place) => {
    if (thing.kind === "check") return seenBad(story, thing, place);
    if (isConceded(story, thing.name, place)) return undefined;
    return lastOut(verdicts, thing, place) ?? operands.find((it) => it.name === thing.name && isSamePlace(it.place, place))?.where;
  };
}

/** The last one that is out or in doubt, with no final behind it that is in. */
function lastOut(verdicts: readonly Verdict[], limit: Limit, place: string): Where | undefined {
  const own = verdicts.filter((it) => it.limit === limit && isSamePlace(it.place, place) && it.stage !== "trial");
  const isGood = (it: Verdict) => it.outcome === "in" || (it.outcome === "doubt" && isSafelyUnworn(it));
  const bad = own.findLast((it) => !isGood(it) && !(it.band === "new" && it.stage === "found"));
  return bad !== undefined && !own.some((it) => it.seq > bad.seq && it.stage === "final" && isGood(it)) ? bad.where : undefined;
}

function seenBad(story: Story, check: Check, place: string): Where | undefined {
  const last = story.seen.findLast((it) => it.check === check && isSamePlace(it.place, place));
  return last === undefined || last.good ? undefined : last.where;
}

/** Operands of a worked-out limit that stands out: those must be read again whose piece is new or repaired; where that is none of them, all. */
function operandsOut(story: Story, work: readonly Work[], verdicts: readonly Verdict[]): { name: string; place: string; where: Where }[] {
  return verdicts.flatMap((bad) => {
    const { expression } = bad.limit;
    if (!bad.workedOut || expression === undefined || bad.outcome === "in" || (bad.band === "new" && bad.stage === "found")) return [];
    if (verdicts.some((it) => it.limit === bad.limit && it.place === bad.place && it.seq > bad.seq && it.stage === "final" && it.outcome === "in")) return [];
    const names = [...namesIn(expression)];
    const changed = names.filter((name) => {
      const limit = story.job.things.get(name);
      return limit?.kind === "limit" && limit.of.some((of) => isChanged(story, work, of.text, bad.place, bad.seq));
    });
    return (changed.length > 0 ? changed : names).map((name) => ({ name, place: bad.place, where: bad.where }));
  });
}

/** New or mended there, by what is written here or by the sheet since. */
function isChanged(story: Story, work: readonly Work[], name: string, place: string, since: number): boolean {
  return (
    work.some(
      (it) => it.thing.name === name && it.acts.some((act) => isAt(act, place) && (act.verb === "repair" || (act.verb === "fit" && act.isNew === true))),
    ) ||
    story
      .cells(name)
      .some(
        (cell) =>
          cell.kind === "part" &&
          isSamePlace(cell.place, place) &&
          cell.history.some((it) => it.seq > since && (it.verb === "repair" || (it.verb === "fit" && it.isNew))),
      )
  );
}
