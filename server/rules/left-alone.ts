// Whether a piece that was read twice is the same and untouched: nothing was done to it here or outside, and no other can have come into its place.
// Invariant: what is left unsaid counts as done: a piece that was ordered and put in nowhere else may lie here.
import { momentsOf, piecesAt } from "../story/cells.ts";
import type { Entry } from "../../grammar/tree.ts";
import { ordersOf, isAt } from "../model/orders.ts";
import type { Job } from "../model/job.ts";
import { wholeNumber } from "../model/declare.ts";
import { isSamePlace } from "../model/same-place.ts";
import { readingsOn } from "../story/looked-up.ts";
import { findingsOf } from "../story/decisions.ts";
import { hasReason } from "../story/finding-words.ts";
import type { Limit } from "../model/things.ts";
import type { FastenerCell, PartCell, Reading, Story } from "../story/story.ts";

/** Nothing was done to what it is of at this place, and no other was ordered, made or put in here: neither what was read nor what lies beside it is another piece. */
export function isLeftAlone(job: Job, story: Story, limit: Limit, found: Reading): boolean {
  const { place, seq } = found;
  if (isExcused(story, found)) return false;
  return limit.of.every(({ text }) => {
    const thing = job.things.get(text);
    if ((thing?.kind !== "part" && thing?.kind !== "fastener") || thing.implied || mayBeAnother(story, text, place)) return false;
    if ((ordersOf(job).work.get(text) ?? []).some(({ detail }) => isAt(detail, place))) return false;
    const findings = (findingsOf(story).get(text) ?? []).filter((it) => it.places.some((at) => isSamePlace(at, place)));
    if (findings.some((it) => (it.decision !== undefined && it.decision.detail.decision !== "reuse") || hasReason(it))) return false;
    return piecesAt(story, text, place).every(
      (cell) =>
        !cell.unsure &&
        momentsOf(cell).every(
          (it) => it.verb !== "repair" && !(it.verb === "fit" && (it.isNew || it.from !== undefined)) && !(it.seq > seq && it.action?.verb === "clean"),
        ),
    );
  });
}

/** A word under the first reading may take it back; one under a second reading of the same says that this one is right. */
function isExcused(story: Story, { entry, limit, place, position, seq }: Reading): boolean {
  if (!entry.details.some((it) => it.kind === "because" || it.kind === "note")) return false;
  return !readingsOn(story, limit.name).some((it) => it.stage === "found" && it.place === place && it.position === position && it.seq < seq);
}

/** One was ordered, and it is not at another place that it was put in, by a line that calls it new. A sheet that says so there would say so here. */
function mayBeAnother(story: Story, name: string, place: string): boolean {
  const items = ordersOf(story.job).items.get(name) ?? [];
  if (items.length === 0) return false;
  const ordered = items.reduce((sum, { detail }) => sum + (wholeNumber(detail.amount?.figure.text) ?? 1), 0);
  const elsewhere = story
    .cells(name)
    .filter((cell): cell is PartCell | FastenerCell => (cell.kind === "part" || cell.kind === "fastener") && !isSamePlace(cell.place, place))
    .flatMap((cell) => momentsOf(cell).filter((it) => it.phase === "done" && it.verb === "fit" && it.isNew));
  if (elsewhere.length === 0) return true;
  // Both in one line of work, the one called new and the other not.
  const here = piecesAt(story, name, place).flatMap((cell) => momentsOf(cell).filter((it) => it.phase === "done" && it.verb === "fit"));
  return ordered > elsewhere.length && !here.some((it) => elsewhere.some((other) => other.where.entry === it.where.entry));
}

/** All that an entry says in words of its own. */
export function wordsIn(entry: Entry): string[] {
  const lines: readonly { readonly text?: { readonly value?: string } | string; readonly how?: { readonly value: string } }[] = entry.details as never;
  const title = "title" in entry ? (entry.title as { readonly value: string } | undefined) : undefined;
  return [title?.value, ...lines.flatMap(({ text, how }) => [typeof text === "object" ? text.value : undefined, how?.value])].filter(
    (it): it is string => it !== undefined,
  );
}
