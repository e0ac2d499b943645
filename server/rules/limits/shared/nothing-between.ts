// Whether nothing lies between two readings that speak against one another: work, a move, a word that tells of it, or another piece that is to come.
import { piecesAt } from "../../../story/cells.ts";
import { besideShims } from "../../../model/read-with.ts";
import { isAt, ordersOf } from "../../../model/orders.ts";
import { relationsOf } from "../../../model/relations.ts";
import { isSamePlace } from "../../../model/same-place.ts";
import { isAnewSince } from "../../../story/put-right.ts";
import { findingsOf } from "../../../story/decisions.ts";
import type { FastenerMoment, Moment, PartMoment, Reading, Story } from "../../../story/story.ts";
import type { Verdict } from "../../../story/verdict.ts";
import type { Limit } from "../../../model/things.ts";
import type { JobContext } from "../../rule.ts";
import { onAt } from "../../../story/in-place.ts";

/** By the title of the shims they lie under a cover that was on as it was read, and was not let go since, though it was before: whatever a step is called, none came out. */
export function areShutIn(story: Story, limit: Limit, { seq, place, entry }: Reading, after: Verdict): boolean {
  const covers = besideShims(story.job, limit).flatMap(({ name }) => story.cells(name));
  const shims = limit.setBy.flatMap(({ text }) => story.cells(text));
  const holders = covers.flatMap((cell) => (cell.kind === "part" ? cell.thing.heldBy.flatMap(({ text }) => story.cells(text)) : []));
  const moments = [...covers, ...holders, ...shims].flatMap((cell) => {
    if ((cell.kind !== "part" && cell.kind !== "fastener") || !isSamePlace(cell.place, place)) return [];
    return (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && opens.has(it.verb));
  });
  const isIn = covers.length > 0 && covers.every((cell) => cell.kind !== "part" || (!cell.unsure && onAt(cell, seq) >= cell.total));
  if (!isIn || !moments.some((it) => it.seq < seq) || moments.some((it) => it.seq > seq && it.seq < after.seq)) return false;
  // Told in words.
  const { entries } = story.job.own.sheet;
  const between = entries.slice(entries.indexOf(entry) + 1, entries.indexOf(after.reading.entry));
  return between.every(
    (it) =>
      it.kind !== "step" ||
      ![it.title?.value, ...it.details.map((line) => (line.kind === "note" ? line.text?.value : undefined))].some((text) => letGo.test(text ?? "")),
  );
}

const letGo =
  /\b(covers?|caps?|bolts?|nuts?|screws?|plates?|flanges?|housings?)\b[^.;]* (off|out|up|back|lifted|slackened|eased|undone|opened)\b|\b(undid|slackened|eased|lifted|opened|took off)\b/iu;

const opens: ReadonlySet<string> = new Set(["remove", "undo", "slacken", "let"]);

/** Repaired here since, or back from work that may have mended it. */
export function wasWorkedOn({ story }: JobContext, { limit, place, seq, day }: Verdict): boolean {
  return limit.of.some(({ text }) => isAnewSince(story, text, place, { seq, day }));
}

/** Nothing moved between the two of what it is of, sets it, holds that, or holds it: what is only locked stands as it was. A step, a note or a word under the reading that tells of it counts. */
export function isUntouched({ job, story }: JobContext, { limit, place, seq, reading }: Verdict, after: Verdict): boolean {
  const isBetween = (it: Pick<Moment, "seq">) => it.seq > seq && it.seq < after.seq;
  if ((limit.of.length === 0 && limit.setBy.length === 0) || limit.expression !== undefined) return false;
  if ([reading, after.reading].some(({ entry }) => entry.details.some((it) => it.kind === "because" || it.kind === "note"))) return false;
  const held = limit.setBy.flatMap(({ text }) => relationsOf(job).holds.get(text) ?? []);
  const names = [...limit.of.map((it) => it.text), ...limit.setBy.map((it) => it.text), ...held.map((it) => it.name)].flatMap((text) => {
    const thing = job.things.get(text);
    return [text, ...(thing?.kind === "part" ? [...thing.heldBy, ...thing.behind].map((it) => it.text) : [])];
  });
  for (const cell of [...names, ...limit.with.map((it) => it.text)].flatMap((name) => story.cells(name))) {
    if (cell.kind !== "part" && cell.kind !== "fastener") continue;
    if (cell.unsure) return false;
    if (!isSamePlace(cell.place, place)) continue;
    for (const it of cell.history as readonly (PartMoment | FastenerMoment)[]) {
      if (!isBetween(it) || it.verb === "found") continue;
      if (it.verb !== "lock" && it.verb !== "mark") return false;
    }
  }
  // Steps between that only tell of it, and name nothing.
  const { entries } = job.own.sheet;
  const between = entries.slice(entries.indexOf(reading.entry) + 1, entries.indexOf(after.reading.entry));
  return between.every((it) => it.kind !== "step" || (it.details.every((detail) => detail.kind !== "note") && !trues.test(it.title?.value ?? "")));
}

const trues = /\b(tru(e|ed|ing)|straight\w*|knock\w*|hammer\w*|wedg\w*|pinch\w*|spread|set(ting)?|turn\w*|skim\w*|adjust\w*|balanc\w*|shim\w*)\b/iu;

/** What it was read of is to be renewed or worked on: decided, ordered, sent out or planned; or it is off, and another may lie beside it. */
export function isToChange({ job, story }: JobContext, { limit, place }: Verdict): boolean {
  const orders = ordersOf(job);
  const stands = (it: { readonly status: { readonly status?: string } | undefined }) => it.status?.status !== "cancelled" && it.status?.status !== "returned";
  return limit.of.some(({ text: name }) => {
    if (orders.items.get(name)?.some(stands)) return true;
    if (orders.work.get(name)?.some((it) => stands(it) && isAt(it.detail, place))) return true;
    const decided = (findingsOf(story).get(name) ?? []).filter((it) => it.decision !== undefined && it.places.some((at) => isSamePlace(at, place)));
    if (decided.some(({ decision }) => changes.has(decision?.detail.decision ?? ""))) return true;
    return piecesAt(story, name, place).some(
      (cell) =>
        // What lies on the bench is measured beside the one that is to go in.
        (cell.history.length > 0 && cell.now.on === 0) ||
        cell.history.some((it) => it.phase === "planned" && (it.verb === "repair" || (it.verb === "fit" && it.isNew))),
    );
  });
}

const changes: ReadonlySet<string> = new Set(["renew", "exchange", "repair", "make"]);
