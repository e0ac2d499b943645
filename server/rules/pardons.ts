// What answers a rule in a sheet: `accept`, of a rule that is no safety rule, and `admit`, of a moment that is over.
// Invariant: hangs on one entry alone; no pardon without its words, and none of a state that is still in the machine.
import { unsaid } from "../../grammar/blanks.ts";
import type { Entry, Name } from "../../grammar/tree.ts";
import { memo, once } from "../model/memo.ts";
import { safetyRules } from "./ids.ts";

/**
 * What answers a rule in an entry. Of the three pardons `accept` is of a rule that is no safety rule, and says why it is right so; `admit` is of a moment
 * that is over, by somebody with a name. (`concession` is of a limit, and is asked for where limits are judged.)
 */
export interface Pardon {
  readonly kind: "accept" | "admit";
  readonly rule: Name;
  /** Why it is right so, or what came of it. */
  readonly why: string;
  /** Who owns up to it. */
  readonly by?: string;
  readonly row: number;
}

/** Rules that speak of a moment that is over when its step is done, and leaves nothing in the machine. No others, and never a torque: an overstretched bolt is a state. */
export const admissible: ReadonlySet<string> = new Set([
  "hazard-live",
  "jack-only",
  "under-while-moved",
  "chocks-missing",
  "load-unsupported",
  "fit-order",
  "restored-open",
  "lowered-open",
]);

/** One without its text or its name, or with a blank there, answers nothing; nor does an `admit` under a step that is not done. Asked for each thing that is wrong in an entry. */
export const pardonsIn = memo((entry: Entry): readonly Pardon[] => {
  const pardons: Pardon[] = [];
  const isDone = once(() => ({ is: entry.kind === "step" && entry.details.some((line) => line.kind === "done" && !unsaid(line)) }));
  for (const it of entry.details) {
    if (unsaid(it)) continue;
    if (it.kind === "accept" && it.rule !== undefined && it.why !== undefined && !safetyRules.has(it.rule.text))
      pardons.push({ kind: "accept", rule: it.rule, why: it.why.value, row: it.row });
    if (it.kind !== "admit" || it.rule === undefined || it.what === undefined || it.by === undefined) continue;
    if (admissible.has(it.rule.text) && isDone().is) pardons.push({ kind: "admit", rule: it.rule, why: it.what.value, by: it.by.value, row: it.row });
  }
  return pardons;
});
