// A part that never goes back once disturbed, going back.
import { isSamePlace } from "../../model/same-place.ts";
import { placesOf } from "../../model/job.ts";
import type { Part } from "../../model/things.ts";
import { partAsItStands, sharesWords } from "../../story/cells.ts";
import { relationsOf } from "../../model/relations.ts";
import { allSince, renewedSince } from "../../story/put-right.ts";
import { isCountFound } from "../../story/standing.ts";
import { against, isAgainst } from "../failures.ts";
import { curedReport } from "../found.ts";
import { type JobRule, newColumn } from "../rule.ts";
import type { Lot } from "../../story/lots.ts";
import type { Cell, FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "part-renewable",
  group: "Parts",
  severity: "error",
  safety: false,
  title: "A `renew` part goes back without `new`, or a bolt that is used once",
  why: "A seal or a gasket has taken the shape of what it lay against and does not seal a second time. A bolt that was stretched to its torque has yielded and will not hold the second time. The new one is cheap; the second strip is not.",
  wrong: `part cover-gasket "Cover gasket"
  renew
step strip "Cover off"
  remove cover-gasket
  done
step refit "Cover back"
  fit cover-gasket
#     ^^^^^^^^^^^^ error part-renewable (fix)
  done
`,
  right: `part cover-gasket "Cover gasket"
  renew
step strip "Cover off"
  remove cover-gasket
  done
step refit "Cover back"
  fit cover-gasket new
  done
`,
  fixed: `part cover-gasket "Cover gasket"
  renew
step strip "Cover off"
  remove cover-gasket
  done
step refit "Cover back"
  fit cover-gasket new
  note "___"
  done
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    const lines = byLine<PartCell, PartMoment>(
      story.parts,
      (it, cell) => cell.thing.renew && it.verb === "fit" && !it.isNew && !it.forNow && !it.moved.some((lot) => isAgainst(against(context, cell, lot, it.seq))),
    );
    const bolts = byLine<FastenerCell, FastenerMoment>(
      story.fasteners,
      (it, cell, index) =>
        cell.thing.renew && !cell.unsure && goesBackUsed(cell, it, index) && !it.moved.some((lot) => isAgainst(against(context, cell, lot, it.seq))),
    );
    for (const { cell, moment: it, cells, moments, places, action } of bolts) {
      const cures = cells.map((one, i) => renewedSince(one, (moments[i] as FastenerMoment).seq, one.total));
      report({
        ...curedReport(
          context,
          it.where,
          "error",
          `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "goes")} back used, and ${agreeing(cell.thing, "it")} ${agreeing(cell.thing, "serves")} once. Fit new ones, and write \`fit ${cell.thing.name} new\`.`,
          cures.map((cure) => (cure?.planned && it.phase === "planned" ? { ...cure, planned: false } : cure)),
          it.verb === "fit" ? [{ title: "Write `new`", edits: [{ where: { ...it.where, at: newColumn(action) }, text: " new" }] }] : [],
        ),
        ...(cell.thing.critical ? { firm: true as const } : {}),
      });
    }
    for (const { cell, moment: it, cells, moments, places, action } of lines) {
      const withs = cell.thing.renewWith.map((name) => {
        const part = story.job.things.get(name.text);
        return part === undefined ? `\`${name.text}\`` : midSentence(part);
      });
      report({
        ...(cell.thing.critical ? { firm: true as const } : {}),
        ...curedReport(
          context,
          it.where,
          "error",
          `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "goes")} back used but is renewed ${withs.length === 0 ? "whenever it is disturbed" : `whenever the ${withs.join(" or the ")} comes off`}. Fit a new one and write \`new\`.`,
          cells.map((one, i) => renewedSince(one, (moments[i] as PartMoment).seq, one.total)),
          [{ title: "Write `new`", edits: [{ where: { ...it.where, at: newColumn(action) }, text: " new" }] }],
        ),
      });
    }
    // One that nobody wrote about went off and on with the part that it is renewed with.
    const back = byLine<PartCell, PartMoment>(
      story.parts,
      (it, cell, index) =>
        it.phase === "done" && it.verb === "fit" && !it.forNow && it.after.on > it.before.on && offBefore(cell, index) && forgotten(story, cell, it).length > 0,
    );
    for (const { cell: first, moment: it, cells, moments, places } of back) {
      const left = cells.flatMap((cell, i) => forgotten(story, cell, moments[i] as PartMoment).map((seal) => ({ seal, since: moments[i] as PartMoment })));
      const cures = left.map(({ seal: one, since }) => allSince(one, since.seq, (lot) => lot.isNew));
      const names = [...new Set(left.map(({ seal: one }) => midSentence(one.thing, one.place)))];
      context.report(
        curedReport(
          context,
          it.where,
          "error",
          `${calledAt(first.thing, places)} ${agreeing(first.thing, "is")} back, but not what is renewed with it: ${listed(names)}. Fit new, and write \`fit ${left[0]?.seal.thing.name ?? ""} new\`.`,
          cures,
        ),
      );
    }
  },
};

/** Fitted again, or done up again after it was slackened, and not a new one that has never been tight. For now is for now. */
function goesBackUsed(cell: FastenerCell, it: FastenerMoment, index: number): boolean {
  if (it.forNow || it.isNew) return false;
  const used = (lot: Lot) => !lot.isNew || !lot.fresh;
  if (it.verb === "fit") return it.moved.some(used);
  if (it.verb !== "tighten") return false;
  if (it.moved.some(used) || it.before.lots.some((lot) => lot.forNow && used(lot))) return true;
  const last = cell.history
    .slice(0, index)
    .findLast((was) => was.verb !== "other" && was.verb !== "lock" && was.verb !== "repair" && (was.verb !== "found" || isCountFound(was)));
  return last?.verb === "slacken" && it.before.lots.some((lot) => !lot.tight && used(lot));
}

/** It came off before this, and not only for now. */
function offBefore(cell: PartCell, index: number): boolean {
  return cell.history.slice(0, index).some((it) => it.verb === "remove" && it.before.on > it.after.on);
}

/** At each of its places, whether anybody touched it there or not. Of a part that has no place, and comes off one end, nobody says which of the seals are its own: those that are spoken of. */
function asked(story: Story, part: Part, place: string): readonly Cell[] {
  if (place === "" || part.placeKind === undefined) return story.cells(part.name);
  return placesOf(story.job, part).map((place) => story.cell(part.name, place) ?? partAsItStands(part, place));
}

/** A new one of several went in, and beside it stands an old one that nobody took out. */
function leavesOld({ isNew, after }: PartMoment): boolean {
  return isNew && after.lots.some((lot) => !lot.isNew);
}

/** What is renewed with this part, stands where it does, and has not been spoken of since the part last came off. */
function forgotten(story: Story, cell: PartCell, back: PartMoment): PartCell[] {
  const seals = relationsOf(story.job).renewedWith.get(cell.thing.name) ?? [];
  const off = seals.length === 0 ? undefined : cell.history.findLast((it) => it.seq < back.seq && it.verb === "remove" && it.before.on > it.after.on);
  if (off === undefined) return [];
  const tried = triedOnSince(story, cell, off);
  return seals.flatMap((part) =>
    asked(story, part, cell.place).filter((it): it is PartCell => {
      if (it.kind === "part" && tried !== undefined && it.history.some((was) => was.verb === "fit" && was.isNew && was.seq > tried && was.seq < off.seq))
        return false;
      if (it.kind !== "part" || it.unsure || !(isSamePlace(it.place, cell.place) || sharesWords(it.place, cell.place))) return false;
      // Off by name, or fitted since, in whatever state: the other rules speak of it.
      const last = it.history.findLast((was) => (was.verb === "fit" || was.verb === "remove") && was.seq < off.seq && was.phase === "done");
      return (
        it.now.on >= it.total &&
        // Taken off by name in the same step, before the part or behind it.
        !(last?.verb === "remove" && last.visit === off.visit) &&
        !it.history.some((was) => was.seq > off.seq && was.phase === "done" && (was.verb === "remove" || (was.verb === "fit" && !leavesOld(was))))
      );
    }),
  );
}

/** Only tried on before it came off here, by nothing that was done up: a new seal that went in behind the last time that it really came off is new still. That time, by its number. */
function triedOnSince(story: Story, cell: PartCell, off: PartMoment): number | undefined {
  const before = cell.history.filter((it) => it.seq < off.seq);
  const on = before.findLast((it) => it.verb === "fit");
  if (on?.forNow !== true) return undefined;
  const isDoneUp = cell.thing.heldBy.some(({ text }) =>
    story
      .cells(text)
      .some(
        (it) =>
          it.kind === "fastener" &&
          isSamePlace(it.place, cell.place) &&
          it.history.some((was) => was.verb === "tighten" && was.seq > on.seq && was.seq < off.seq),
      ),
  );
  return isDoneUp ? undefined : (before.findLast((it) => it.verb === "remove" && it.seq < on.seq)?.seq ?? -1);
}
