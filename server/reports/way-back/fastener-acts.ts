// What must still be done to a fastener at each of its places: fitted, tightened, let back, locked.
// Invariant: a torque is a planned figure inside its range, or a blank; what stands tight and locked is left as it is.
import type { Range } from "../../../grammar/tree.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Fastener } from "../../model/things.ts";
import { midSentence } from "../../model/titles.ts";
import { backText, torqueText, wantedOf } from "../../model/torque.ts";
import { bandOf, rangeText } from "../../model/values.ts";
import { type Exact, decimalText, placesOf as decimalsOf } from "../../quantities/exact.ts";
import { inside } from "../../quantities/range.ts";
import { fromBase } from "../../quantities/units.ts";
import { discardedAt } from "../../story/decisions.ts";
import { countOf } from "../../story/lots.ts";
import { wantsOil } from "../../story/oiled-threads.ts";
import { isOpen } from "../../story/standing.ts";
import { isRight } from "../../story/put-right.ts";
import type { FastenerCell, Story } from "../../story/story.ts";
import { usedOnce } from "../../story/used-once.ts";
import { inList } from "../draw/so-many.ts";
import type { Act } from "./acts.ts";
import { isAtControl } from "./by-words.ts";
import { Lines, calledAt, noted, quoted } from "./lines.ts";
import { mendFor, shareOf, waitsFor, whyNew } from "./share.ts";
import { type Unsettled, waitForNew, waitingRow } from "./unsettled.ts";
import { type Wanted, isDiscarded, lastWhere } from "./wanted.ts";

export function fastenerActs(story: Story, cells: readonly FastenerCell[], wanted: Wanted, unsettled: Unsettled[]): Act[] {
  const thing = (cells[0] as FastenerCell).thing;
  const lines = new Lines(story, thing);
  const { adjusting } = relationsOf(story.job);
  const locking = thing.locking?.locking;
  const locks = locking !== undefined && locking.kind !== "nothing" && locking.kind !== "ambiguous";
  const serves = thing.locking?.serves ?? 1;
  for (const cell of cells) {
    if (cell.unsure || isDiscarded(story, cell)) continue;
    const { then } = cell;
    const discarded = discardedAt(story, cell);
    const short = Math.max(0, cell.total - then.on - discarded);
    if (!isOpen(cell, then) && !then.forNow && short === 0) continue;
    const torque = thing.torque === undefined ? "" : torqueText(thing.torque);
    if (torque !== "" && middleOf(thing) === undefined)
      unsettled.push({ where: lastWhere(cell), text: `${calledAt(cell)}: no middle can be named of ${torque}; write the figure yourself` });
    const mend = mendFor(story, cell);
    if (mend !== undefined) lines.put({ verb: "repair", ...(mend.count === undefined ? {} : { count: mend.count }), rest: quoted(mend.how) }, cell.place);
    const waiting = waitsFor(story, cell, wanted);
    if (waiting !== undefined && (short > 0 || then.forNow)) unsettled.push(waitingRow(cell, lastWhere(cell), waiting));
    const { fresh, made, open: asked, old } = shareOf(story, cell, wanted, waiting !== undefined);
    const never = thing.torque?.none ?? false;
    // Where others stand tight and locked, those that are put back are counted and the others left as they are. One plate that locks several locks them all again.
    const tight = then.lots.filter((lot) => lot.tight && !lot.forNow);
    const allButWaiting = made + asked === short && tight.every((lot) => lot.locked);
    const fast = (serves > 1 && !allButWaiting) || (locks && tight.some((lot) => !lot.locked)) ? 0 : countOf(tight);
    const some = (count: number) => (count < cell.total ? { count } : {});
    // `tighten` brings back what lies at hand; what is new, or never tight, is fitted.
    if (fresh > 0) waitForNew(story, cell, unsettled);
    if (fresh > 0) lines.put({ verb: "fit", isNew: true, ...some(fresh), ...noted(whyNew(story, cell, wanted)) }, cell.place);
    if (made > 0) lines.put({ verb: "fit", blank: true, isNew: true, ...some(made), note: wanted.made(cell) }, cell.place);
    if (asked > 0) lines.put({ verb: "fit", blank: true, ...some(asked), ...noted([waiting?.text ?? ""]) }, cell.place);
    // What waits would be brought back as it was by tightening all that lie there: the others are counted.
    const waits = made + asked;
    if (old > 0 && (never || then.off < old || fast + waits > 0))
      lines.put({ verb: "fit", ...(fast > 0 || old < short + discarded ? some(old) : {}) }, cell.place);
    const tightens = !never && (short > 0 || !then.tight || then.forNow || (!then.locked && locks && torque !== "" && !isAtTorque(cell)));
    const back = backOf(thing);
    const torqued = torqueOf(thing, adjusting.has(thing.name), story);
    const fresher = locking !== undefined && usedOnce(story.job, locking, thing) ? { isNew: true as const } : {};
    // Filled in, it is done up and locked as the others are.
    const blank = { blank: true as const, ...some(waits) };
    const why = made > 0 ? wanted.made(cell) : (waiting?.text ?? "");
    if (waits > 0 && !never) {
      lines.put({ verb: "tighten", ...blank, ...(torqued.rest === undefined ? {} : { rest: torqued.rest }), note: why }, cell.place);
      if (back !== undefined) lines.put({ verb: "let back", ...blank, rest: back.rest, note: why }, cell.place);
    }
    if (waits > 0 && locks)
      lines.put(
        {
          verb: "lock",
          ...blank,
          ...fresher,
          note: waits < cell.total ? (serves > 1 ? "that one too, with the one that shares its lock" : "that one too") : why,
        },
        cell.place,
      );
    if (waits + discarded === cell.total - fast) continue;
    const rest = fast + waits + discarded > 0 ? some(cell.total - fast - waits - discarded) : {};
    if (tightens && wantsOil(story, cell)) lines.put({ verb: "oil" }, cell.place);
    if (tightens) lines.put({ verb: "tighten", ...rest, ...torqued }, cell.place);
    if (tightens && back !== undefined) lines.put({ verb: "let back", ...rest, ...back }, cell.place);
    if (locks && (tightens || short > 0 || !then.locked)) lines.put({ verb: "lock", ...rest, ...fresher }, cell.place);
    else if (thing.unread.has("locked") && (tightens || short > 0))
      lines.put({ verb: "lock", ...rest, rest: "with ___", note: "what locks it is left blank in the sheet" }, cell.place);
  }
  return lines.acts();
}

/** Tight, and last tightened to a figure inside its range: it wants its locking and nothing else, and is never let back to the middle. */
function isAtTorque(cell: FastenerCell): boolean {
  const last = cell.history.findLast((it) => it.verb === "tighten" || it.verb === "slacken" || it.verb === "undo" || it.verb === "found");
  return wantedOf(cell.thing) !== undefined && last?.verb === "tighten" && last.to !== undefined && isRight(cell, last);
}

/** The middle of the range as a planned figure, and the range beside it. */
function torqueOf(thing: Fastener, adjusts: boolean, story: Story): { rest?: string; note?: string } {
  const asked = thing.torque === undefined ? "" : torqueText(thing.torque);
  if (asked !== "") {
    const middle = middleOf(thing);
    const words = [asked, thing.torque?.condition].filter((it) => it !== undefined).join(" ");
    const blank = `___ ${bandOf(thing.torque?.range)?.unit.spelling ?? ""}`.trimEnd();
    return { rest: `to ${middle ?? blank}`, note: `${words}: write the figure that you read` };
  }
  if (thing.unread.has("torque")) return { rest: "to ___", note: "its torque is left blank in the sheet" };
  if (thing.torque?.byFeel !== undefined) return { note: `by feel: ${thing.torque.byFeel}` };
  if (!adjusts) return {};
  const sets = relationsOf(story.job).sets.get(thing.name) ?? [];
  const ranges = sets.flatMap((it) => (it.kind === "limit" && it.set !== undefined ? [`${inList(midSentence(it))} ${rangeText(it.set)}`] : []));
  // What is read at a pedal or a wheel is read when all between is on.
  const first = sets.find((it) => it.kind === "limit" && it.set !== undefined && !isAtControl(it));
  const locks = thing.locking !== undefined && thing.locking.locking?.kind !== "nothing" && first !== undefined;
  return ranges.length === 0 ? {} : { note: `sets ${ranges.join(", ")}${locks ? `; read ${midSentence(first)} before you lock it` : ""}` };
}

/** How far it is let back behind its torque: `by 1 flat`. */
function backOf(thing: Fastener): { rest: string; note?: string } | undefined {
  const back = backText(thing);
  if (back !== undefined) return { rest: `by ${back}` };
  return thing.unread.has("let-back") ? { rest: "by ___ flats", note: "how far is left blank in the sheet: flats, or turns" } : undefined;
}

/** Half way between the ends, with no more decimals than it needs to be inside: `27.5 lbf.ft`. */
function middleOf(thing: Fastener): string | undefined {
  const { torque } = thing;
  if (torque === undefined || wantedOf(thing) === undefined) return undefined;
  if (torque.range !== undefined) return middleText(torque.range);
  // Of the stages a figure alone is written as it stands, and of a range its middle.
  const all = (torque.stages ?? []).map((it) => (it.kind === "bare" ? rangeText(it) : middleText(it)));
  const angle = torque.angle === undefined ? undefined : torque.angle.kind === "bare" ? rangeText(torque.angle) : middleText(torque.angle);
  if (all.includes(undefined) || (torque.angle !== undefined && angle === undefined)) return undefined;
  return angle === undefined ? all.join(", ") : `${all.join(", ")} + ${angle}`;
}

function middleText(range: Range): string | undefined {
  const band = bandOf(range);
  if (band?.low === undefined || band.high === undefined) return undefined;
  const middle: Exact = band.low.add(band.high).div(2);
  const figure = fromBase(middle, band.unit);
  const decimals = Math.min(decimalsOf(figure) ?? 3, 3);
  const text = decimalText(figure, decimals);
  return inside(band, middle) ? `${text} ${band.unit.spelling}` : undefined;
}
