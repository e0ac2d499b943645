// What is worked out of two sizes, outside by the one reading and inside by the next, where of the size that changed nothing was done to the piece and no word says why.
// Invariant: done work, and plain readings of pieces; whatever may have made the difference is read widely.
import { isAt, ordersOf } from "../model/orders.ts";
import { isCritical } from "../model/relations.ts";
import { readWith } from "../model/read-with.ts";
import type { Limit } from "../model/things.ts";
import { bandOf } from "../model/values.ts";
import { type Exact, exact } from "../quantities/exact.ts";
import { type Band, inside } from "../quantities/range.ts";
import { cellsAt } from "../story/cells.ts";
import { findingsOf } from "../story/decisions.ts";
import { readingsAt } from "../story/looked-up.ts";
import type { FastenerMoment, Found, PartMoment, Reading, Story } from "../story/story.ts";
import type { Verdict } from "../story/verdict.ts";
import { namesIn, workOut } from "../story/worked-out.ts";
import type { JobContext } from "./rule.ts";

export interface ReRead {
  /** Outside with this. */
  readonly before: Reading;
  /** Inside with this. */
  readonly after: Reading;
  readonly value: Exact;
  readonly band: Band;
}

/** Of a critical limit that is worked out and in at the end. */
export function reRead({ job, story }: JobContext, { limit, place, stood, workedOut, stage, outcome }: Verdict): ReRead | undefined {
  if (!workedOut || stage !== "final" || outcome !== "in" || limit.expression === undefined || !isCritical(job, limit)) return undefined;
  const made = bandOf(stood.new);
  const band = bandOf(stood.worn) ?? bandOf(stood.set) ?? made;
  if (band === undefined) return undefined;
  for (const name of namesIn(limit.expression)) {
    const own = job.things.get(name);
    if (own?.kind !== "limit" || own.expression !== undefined || own.setBy.length > 0) continue;
    const here = figuresAt(story, name, place);
    const after = here.at(-1);
    if (after === undefined) continue;
    // Each figure that counted once: what was explained in words, or had work behind it, is not gone back past.
    for (const before of here.slice(0, -1).reverse()) {
      if (isExplained(story, own, before, after)) break;
      if (before.entry === after.entry || before.place !== after.place || before.position !== after.position) continue;
      const both = workOut(limit.expression, (it) => spotsOf(it === name ? [before] : lastOf(figuresAt(story, it, place))));
      const value = both?.map((it) => it.value).find((it) => isOut(it, band, made));
      if (value !== undefined) return { before, after, value, band };
    }
  }
  return undefined;
}

function figuresAt(story: Story, limit: string, place: string): readonly Reading[] {
  return readingsAt(story, limit, place).filter((it) => it.stage !== "trial" && it.spots.length > 0);
}

function lastOf(readings: readonly Reading[]): readonly Reading[] {
  const last = readings.at(-1);
  return last === undefined ? [] : readings.filter((it) => it.entry === last.entry);
}

function spotsOf(readings: readonly Reading[]): { spots: readonly Exact[]; uncertaintySquared: Exact; dimension: undefined } {
  return { spots: readings.flatMap((it) => it.spots.map((spot) => spot.value)), uncertaintySquared: nothing, dimension: undefined };
}

const nothing = exact("0") as Exact;

/** Past its wear or its setting; too tight for what goes together new, where nothing else says how tight it may be. */
function isOut(value: Exact, band: Band, made: Band | undefined): boolean {
  if (!inside(band, value)) return true;
  return band.low === undefined && made?.low !== undefined && value.compare(made.low) < 0;
}

/** A word under a reading; or whatever happened between the two to a piece that it is of, to what is in it, or to what holds it. */
function isExplained(story: Story, own: Limit, before: Reading, after: Reading): boolean {
  const since = readingsAt(story, own.name, after.place).filter((it) => it.seq >= before.seq && it.seq <= after.seq);
  if (since.some(({ entry }) => entry.details.some((it) => it.kind === "because" || it.kind === "note"))) return true;
  const pieces = own.of.map(({ text }) => story.job.things.get(text)).filter((it) => it?.kind === "part" || it?.kind === "fastener");
  if (pieces.length === 0 || pieces.length < own.of.length || pieces.some((it) => it.implied)) return true;
  const names = [...pieces, ...readWith(story.job, own)].flatMap((it) => [it.name, ...(it.kind === "part" ? it.heldBy.map((by) => by.text) : [])]);
  return names.some((name) => {
    if ((ordersOf(story.job).work.get(name) ?? []).some(({ detail }) => isAt(detail, after.place)) || ordersOf(story.job).items.has(name)) return true;
    if (
      (findingsOf(story).get(name) ?? []).some(
        (it) => (it.seq > before.seq && it.conditions.some(({ condition }) => condition.kind === "serviceable")) || isToChange(it),
      )
    )
      return true;
    return cellsAt(story, name, after.place).some(
      (cell) =>
        (cell.kind === "part" || cell.kind === "fastener") &&
        (cell.unsure ||
          (cell.history as readonly (PartMoment | FastenerMoment)[]).some(
            (it) => it.seq > before.seq && (isOther(it) || (it.seq < after.seq && moves.has(it.verb) && !(it.verb === "remove" && isPiece(name)))),
          )),
    );
  });

  // What has come is measured on the bench, and goes in later.
  function isOther(it: PartMoment | FastenerMoment): boolean {
    return it.verb === "repair" || (it.verb === "fit" && (it.isNew || it.from !== undefined));
  }

  function isPiece(name: string): boolean {
    return pieces.some((it) => it.name === name);
  }
}

const moves: ReadonlySet<string> = new Set(["remove", "fit", "undo", "slacken", "tighten", "let", "other"]);

/** Decided so, another piece may be what was read; that nothing came of it has a rule of its own. */
function isToChange({ decision }: Found): boolean {
  return decision !== undefined && decision.detail.decision !== "reuse" && decision.detail.decision !== "ask";
}
