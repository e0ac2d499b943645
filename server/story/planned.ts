// The planned moments of a cell.
import type { Moment, Visit } from "./story.ts";

export type Planned<M extends Moment> = M & { readonly visit: Visit };

/** In the order of the story; all of them are within a step. */
export function plannedOf<M extends Moment>(cell: { readonly history: readonly Moment[] }): Planned<M>[] {
  const { history } = cell;
  // Planned moments stand behind all done ones.
  if (history.at(-1)?.phase !== "planned") return [];
  return history.filter((it): it is Planned<M> => it.phase === "planned" && it.visit !== undefined);
}
