// What must not be shared as it is: a line or a figure that does not say for certain what it means, or a release that does not hold.
// Invariant: what is open on a machine is no part of it; a sheet of a machine that is apart is what sheets are for.
import { rules } from "./all.ts";

const writing: ReadonlySet<string> = new Set(rules.filter((it) => it.group === "Writing" || it.group === "Units and figures").map((it) => it.id));

export function isUnclear({ rule }: { readonly rule: string }): boolean {
  return writing.has(rule) || rule === "release-blocked";
}
