// One line of a step may speak of a thing at several places: what is wrong with it at all of them is one mistake, said once.
import type { ActionDetail } from "../../grammar/tree.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment } from "../story/story.ts";

export interface OnLine<C, M> {
  readonly action: ActionDetail;
  readonly cell: C;
  /** The first of them. */
  readonly moment: M;
  readonly cells: readonly C[];
  readonly moments: readonly M[];
  /** All places that are meant. */
  readonly places: readonly string[];
}

/** The moments that `is` holds of, gathered by the line and the thing, in the order of the story. */
export function byLine<C extends FastenerCell | PartCell, M extends C["history"][number]>(
  cells: readonly C[],
  is: (moment: M, cell: C, index: number) => boolean,
): OnLine<C, M>[] {
  const lines = new Map<ActionDetail, Map<string, { cell: C; moment: M; cells: C[]; moments: M[] }>>();
  for (const cell of cells) {
    const history = cell.history as unknown as readonly M[];
    for (let i = 0; i < history.length; i++) {
      const moment = history[i] as M;
      const action = (moment as FastenerMoment | PartMoment).action;
      if (action === undefined || !is(moment, cell, i)) continue;
      let things = lines.get(action);
      if (things === undefined) {
        things = new Map();
        lines.set(action, things);
      }
      const known = things.get(cell.thing.name);
      if (known === undefined) things.set(cell.thing.name, { cell, moment, cells: [cell], moments: [moment] });
      // A step that is done at one place is spoken of there; what it still plans at the other is not done yet.
      else if (known.moment.phase === moment.phase) {
        known.cells.push(cell);
        known.moments.push(moment);
      } else if (moment.phase === "done") things.set(cell.thing.name, { cell, moment, cells: [cell], moments: [moment] });
    }
  }
  const out: OnLine<C, M>[] = [];
  for (const [action, things] of lines) for (const it of things.values()) out.push({ action, ...it, places: [...new Set(it.cells.map((cell) => cell.place))] });
  return out;
}
