// A fastener done up before what it holds is on; a part over one that is still off.
import type { JobRule } from "../rule.ts";
import { findingsOf } from "../../story/decisions.ts";
import type { Cure } from "../../story/put-right.ts";
import { lastBefore } from "../../story/looked-up.ts";
import type { Fastener } from "../../model/things.ts";
import { curedReport } from "../found.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { closedIn } from "../closed-in.ts";
import { agreeing, calledAt, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "fit-order",
  group: "Order of work",
  severity: "error",
  safety: false,
  title: "A fastener done up before what it holds is on, or when what closes it in is on; a part over one that is still off",
  why: "It will all have to come apart again, and then a used pin or seal is tempting. What came off last goes on first.",
  wrong: `fastener cover-nut "Cover nut"
part cover "Cover"
  held by cover-nut
step strip "Cover off"
  undo cover-nut
  remove cover
  done
step refit "Nuts on"
  tighten cover-nut
#         ^^^^^^^^^ error fit-order
  done
`,
  right: `fastener cover-nut "Cover nut"
part cover "Cover"
  held by cover-nut
step strip "Cover off"
  undo cover-nut
  remove cover
  done
step refit "Cover on"
  fit cover
  tighten cover-nut
  done
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    const discarded = ({ thing, place }: PartCell) =>
      (findingsOf(story).get(thing.name) ?? []).some((found) => found.decision?.detail.decision === "discard" && found.places.includes(place));
    const kept = (parts: readonly PartCell[]) => parts.filter((part) => !discarded(part));
    const stillOff = (parts: readonly PartCell[], isBehind = false) => {
      const names = [...new Set(kept(parts).map((part) => midSentence(part.thing, part.place)))];
      const [are, them, it] = names.length === 1 ? ["is", "that", "it goes"] : ["are", "those", "they go"];
      const first = isBehind ? `, or take \`behind\` out where ${it} in afterwards` : "";
      return `${listed(names)}${isBehind ? " behind it" : ""} ${are} still off. Fit ${them} first${first}.`;
    };
    const early = byLine<FastenerCell, FastenerMoment>(
      story.fasteners,
      (it, cell) => !cell.unsure && !it.forNow && isDoneUp(it, cell) && kept(it.holdsOff).length > 0,
    );
    for (const { cell, moment, cells, moments, places } of early) {
      report(
        curedReport(
          context,
          moment.where,
          "error",
          `${calledAt(cell.thing, places)} ${agreeing(cell.thing, moment.verb === "fit" ? "goes" : "is")} ${moment.verb === "fit" ? "in" : "done up"} while ${stillOff(moments.flatMap((it) => it.holdsOff))}`,
          // Undone again, and done up with all of it on.
          cells.map((one, i) =>
            cureOf(
              one.history,
              moments[i] as FastenerMoment,
              (it) => isDoneUp(it, one) && it.holdsOff.length === 0 && (it.verb === "fit" || moments[i]?.verb !== "fit"),
            ),
          ),
        ),
      );
    }
    const shut = byLine<FastenerCell, FastenerMoment>(story.fasteners, (it, cell) => closedIn(story, cell, it) !== undefined);
    for (const { cell, moment, cells, moments, places } of shut) {
      const lids = cells.map((one, i) => closedIn(story, one, moments[i] as FastenerMoment) as PartCell);
      report(
        curedReport(
          context,
          moment.where,
          "error",
          `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} done up here, and ${listed([...new Set(lids.map((it) => midSentence(it.thing, it.place)))])}, which came off before it was undone, is on already. Write it where it was done, or take that off and do it.`,
          // That came off again: whoever had it open saw it.
          lids.map((lid, i) => cureOf(lid.history, moments[i] as FastenerMoment, (it) => it.verb === "remove" && it.after.on < it.before.on)),
        ),
      );
    }
    // For now is no way back: a cover is put on for a trial, or against dirt, and comes off again.
    const over = byLine<PartCell, PartMoment>(story.parts, (it, cell) => !cell.unsure && !it.forNow && it.verb === "fit" && kept(it.overOff).length > 0);
    for (const { cell, moment, cells, moments, places } of over) {
      const behind = stillOff(
        moments.flatMap((it) => it.overOff),
        true,
      );
      report(
        curedReport(
          context,
          moment.where,
          "error",
          `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "goes")} on while ${behind}`,
          // Taken off again, and fitted with all of it on.
          cells.map((one, i) =>
            cureOf(one.history, moments[i] as PartMoment, (it) => it.verb === "fit" && it.before.on < it.after.on && it.overOff.length === 0),
          ),
        ),
      );
    }
  },
};

function cureOf<M extends PartMoment | FastenerMoment>(history: readonly M[], was: PartMoment | FastenerMoment, is: (moment: M) => boolean): Cure | undefined {
  const moment = history.find((it) => it.seq > was.seq && is(it));
  return moment === undefined ? undefined : { moment, planned: moment.phase === "planned" && was.phase === "done" };
}

/** Slack before and tight now; what is never tight (a pin, a key) by its locking, or by going in where it passes through what it holds. */
function isDoneUp({ verb, before, seq }: FastenerMoment, cell: FastenerCell): boolean {
  if (verb === "tighten") return !before.tight;
  if (verb === "fit") return goesThrough(cell.thing);
  // Where it went in too early, that was said.
  return (
    verb === "lock" &&
    cell.thing.torque?.none === true &&
    !before.locked &&
    !(goesThrough(cell.thing) && lastBefore(cell.history, seq, (it) => it.verb === "fit")?.holdsOff.length)
  );
}

/**
 * Goes in from outside, through or beside what it holds, and so can't be in its place before that is. A sunk key lies in its shaft first; an anchor pin,
 * a pivot or a pin with its head behind the lever stands there, and the eye is hung over it: a plain key or pin says nothing.
 */
function goesThrough({ title, name }: Fastener): boolean {
  const said = title ?? name.replaceAll("-", " ");
  return throughWords.test(said) && !threaded.test(said.replace(/([,;(]|\b(with|of|in|through)\b).*/iu, "").trim());
}

const throughWords =
  /\b(gib|taper(ed|ing)?) (headed )?(key|pin)s?\b|\bkeys?\b.*\b(gib|taper(ed|ing)?)\b|\b(cotter|wedge)s?\b|\b(clevis|fork|jaw|shackle|yoke|roll|tension|spring)( \w+)? pins?\b|\bclevis(es)?$/iu;

const threaded = /\b(nut|bolt|screw|stud|plug)s?$/iu;
