// The run of tightenings that leads up to a lock, for the rules that look at how a fastener was brought to its torque.
// Invariant: a step's own lines only; what another step does is another story.
import type { Lot } from "../story/lots.ts";
import type { FastenerMoment } from "../story/story.ts";

/**
 * What becomes of the tightening at `index` before its step ends: `lock` where it is locked there, `again` where it is
 * undone, slackened or tightened once more there, `none` where the sheet goes on.
 */
export function adjacentLock(history: readonly FastenerMoment[], index: number): "lock" | "again" | "none" {
  const it = history[index] as FastenerMoment;
  for (let i = index + 1; i < history.length; i++) {
    const next = history[i] as FastenerMoment;
    if (next.visit !== it.visit || next.phase !== it.phase) return "none";
    if (next.verb === "lock") return "lock";
    if (next.verb === "tighten" || next.verb === "undo" || next.verb === "slacken" || (next.verb === "fit" && it.verb === "fit")) return "again";
  }
  return "none";
}

/** Whether any piece is still as the tightening, or the letting back, at `index` left it (and, where that is asked, was not let back since) when it is locked, or when its step ends. */
export function leftSo(history: readonly FastenerMoment[], index: number, notLetBack = false): boolean {
  const it = history[index] as FastenerMoment;
  const isSo = (lot: Lot) => (it.verb === "let" ? lot.letBackAt === it.seq : lot.tightenedAt === it.seq && (!notLetBack || lot.letBackAt === undefined));
  let last = it;
  for (let i = index + 1; i < history.length; i++) {
    const next = history[i] as FastenerMoment;
    if (next.visit !== it.visit || next.phase !== it.phase) break;
    if (next.verb === "lock" && next.after.lots.some((lot) => lot.locked && isSo(lot))) return true;
    last = next;
  }
  return last.after.lots.some(isSo);
}

/** The tightenings since the fastener was last off or slack, up to and with the one at `index`, in order; where that is asked, also those before some of it were locked. */
export function runOf(history: readonly FastenerMoment[], index: number, pastSomeLocked = false): FastenerMoment[] {
  const run: FastenerMoment[] = [];
  for (let i = index; i >= 0; i--) {
    const it = history[i] as FastenerMoment;
    if (it.verb === "undo" || it.verb === "slacken" || it.verb === "let" || (it.verb === "fit" && it.before.on === 0)) break;
    if (it.verb === "lock" && !(pastSomeLocked && it.after.lots.some((lot) => !lot.locked))) break;
    if (it.verb === "tighten") run.unshift(it);
  }
  return run;
}
