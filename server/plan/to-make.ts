// What was decided to be made, and is not yet fitted: nobody sells it, so it is no parcel, and somebody has to make it before the step that fits it.
// Invariant: facts of the walk; what a new one took the place of since is made.
import { memo } from "../model/memo.ts";
import type { Where } from "../model/where.ts";
import { decidedAt } from "../story/decisions.ts";
import type { FastenerCell, PartCell, Story, Visit } from "../story/story.ts";

export interface ToMake {
  readonly cell: PartCell | FastenerCell;
  readonly count: number;
  /** `decision make "from key steel"`: how. */
  readonly how: string | undefined;
  readonly where: Where;
  /** The planned steps that fit it. */
  readonly visits: readonly Visit[];
}

export const toMake = memo((story: Story): readonly ToMake[] =>
  [...story.parts, ...story.fasteners].flatMap((cell) => {
    const made = decidedAt(story, cell.thing.name, cell.place, cell.total).filter(({ found }) => found.decision?.detail.decision === "make");
    const last = made.at(-1);
    if (last === undefined) return [];
    const fits = cell.history.filter((it) => it.verb === "fit" && it.isNew && it.seq > (made[0]?.found.seq ?? 0));
    const done = fits.reduce((sum, it) => (it.phase === "done" ? sum + it.count : sum), 0);
    const count = made.reduce((sum, it) => sum + it.count, 0) - done;
    if (count <= 0) return [];
    const { found } = last;
    const visits = fits.flatMap((it) => (it.phase === "planned" && it.visit !== undefined ? [it.visit] : []));
    return [{ cell, count, how: found.decision?.detail.how?.value, where: found.decision?.where ?? found.where, visits }];
  }),
);
