// What a piece waits for that a planned step is to fit: worn and out for grinding, to be repaired first, or new and still to come.
// Invariant: a planned fit only; what is said is what the sheet says of the piece and its orders, and nothing is concluded.
import { awayAt, comesOn } from "../story/away.ts";
import { condemning } from "../story/past-wear.ts";
import { isFaulty } from "../story/lots.ts";
import type { Story } from "../story/story.ts";
import { judge } from "../story/verdicts.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import type { CellMoment } from "./by-entry.ts";

/** `worn, waits for “Grind 0.020 in under”`; undefined where nothing is the matter and nothing is waited for. */
export function waitingWords(story: Story, { cell, moment }: CellMoment): string | undefined {
  const name = cell.thing.name;
  if (moment.isNew) {
    const coming = comesOn(story.job, name, story.newestDay);
    if (coming === undefined) return undefined;
    return `on ${coming.reference === "" ? "its order" : `order “${coming.reference}”`}${coming.day === undefined ? "" : `, comes ${coming.day}`}`;
  }
  const matter = matterWith(story, cell);
  const work = workOn(story, cell);
  const words = [...(matter === undefined ? [] : [matter]), ...(work === undefined ? [] : [work])];
  return words.length === 0 ? undefined : words.join(", ");
}

/** By a reading first: a figure says more than a word. */
function matterWith(story: Story, { thing, place, now }: CellMoment["cell"]): string | undefined {
  const pieces = [...now.lots, ...now.bench];
  // What was renewed since is another piece than the one that was read.
  if (pieces.length > 0 && pieces.every((it) => it.isNew)) return undefined;
  if (condemning(judge(story), thing.name, place).length > 0) return "worn";
  if (!pieces.some(isFaulty)) return undefined;
  const found = story.findings.findLast((it) => it.thing.name === thing.name && it.places.includes(place) && it.conditions.length > 0);
  return found === undefined ? "worn" : found.conditions.map(({ condition }) => condition.kind).join(", ");
}

/** Work that is ordered on it and not back, else the repair that was decided and is not done. */
function workOn(story: Story, { thing, place, now }: CellMoment["cell"]): string | undefined {
  const away = awayAt(story.job, thing.name, place, story.newestDay);
  for (const { entry, detail, status } of ordersOf(story.job).work.get(thing.name) ?? []) {
    if (!isAt(detail, place) || detail.text === undefined) continue;
    if (away !== undefined && entry.reference?.value === away.reference)
      return `out for “${detail.text.value}”${away.back === undefined ? "" : `, back ${away.back}`}`;
    if (status === undefined || status.status === "held") return `waits for “${detail.text.value}”`;
  }
  const decided = story.findings.findLast((it) => it.thing.name === thing.name && it.places.includes(place) && it.decision !== undefined);
  if (decided?.decision?.detail.decision !== "repair") return undefined;
  const mended = [...now.lots, ...now.bench].some((it) => it.notes.repairedSince(decided.seq));
  const how = decided.decision.detail.how?.value;
  return mended ? undefined : how === undefined || how.includes("___") ? "waits for its repair" : `waits for “${how}”`;
}
