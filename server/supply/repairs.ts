// What is decided to be repaired, and nobody has it in hand: no order sends it out, no step repairs it, and it is not back on.
// Invariant: one row for each finding; the last word on a piece counts. What the shop does about it has a price that only the shop knows: it is asked for, not made up.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { ordersOf, isAt } from "../model/orders.ts";
import { type Decided, decidedAt, findingsOf } from "../story/decisions.ts";
import { fitOrRepair } from "../story/put-right.ts";
import type { Found, Story } from "../story/story.ts";
import { filesOf } from "./files.ts";
import { type Item, itemNamed } from "./items.ts";
import { makeSlots, placesOfThing } from "./slots.ts";
import type { Where } from "../model/where.ts";

export interface RepairToCome {
  readonly item: Item;
  readonly places: readonly string[];
  readonly count: number;
  /** As decided; undefined where it is not said how. */
  readonly how: string | undefined;
  readonly where: Where;
}

export function* repairsToCome(stories: readonly Story[]): Slices<RepairToCome[]> {
  let n = 0;
  const out: RepairToCome[] = [];
  const homes = new Map(filesOf(stories.map((story) => story.job)).map(({ job, file }) => [file.path, job]));
  for (const story of stories) {
    const rows = new Map<Found, { places: string[]; count: number }>();
    const slots = makeSlots(story);
    for (const [name, findings] of findingsOf(story)) {
      if (n++ % someAtOnce === 0) yield;
      const thing = story.job.things.get(name);
      if (thing?.kind !== "part" && thing?.kind !== "fastener") continue;
      for (const place of new Set([...placesOfThing(story, thing), ...findings.flatMap((found) => found.places)])) {
        for (const it of decidedAt(story, name, place, slots.at(thing, place).total)) {
          // A finding in a file that several jobs use asks once, for the first of them.
          if (!isRepair(it) || homes.get(it.found.file) !== story.job || inHand(story, name, place, it.found)) continue;
          const row = rows.get(it.found) ?? { places: [], count: 0 };
          rows.set(it.found, row);
          row.count += it.count;
          if (place !== "") row.places.push(place);
        }
      }
    }
    for (const [found, { places, count }] of rows)
      out.push({
        item: itemNamed(story.job, found.thing.name),
        places,
        count,
        how: found.decision?.detail.how?.value,
        where: found.decision?.where ?? found.where,
      });
  }
  return out;
}

function isRepair({ found }: Decided): boolean {
  return found.decision?.detail.decision === "repair";
}

function inHand(story: Story, name: string, place: string, found: Found): boolean {
  const ordered = (ordersOf(story.job).work.get(name) ?? []).some(
    ({ detail, status }) => isAt(detail, place) && status?.status !== "cancelled" && status?.status !== "returned",
  );
  const cell = story.cell(name, place);
  if (ordered || (cell?.kind !== "part" && cell?.kind !== "fastener")) return ordered;
  // A step that repairs it is the bench's own work, planned or done; what is back on is no longer to be sent.
  const cure = fitOrRepair(cell, found.seq);
  return cure !== undefined && (!cure.planned || cell.history.some((it) => it.seq > found.seq && it.verb === "repair"));
}
