// The rules by what they look at, and the order in which what they say is told: down the lines, and at one place by rule.
// Invariant: a sort changes no place between two that are told at one place by one rule.
import { rules } from "./all.ts";
import type { Diagnostic, Placed } from "./placing.ts";
import type { Rule } from "./rule.ts";

type Of<Scope> = Extract<Rule, { readonly scope: Scope }>;

export const entryRules = rules.filter((rule): rule is Of<"entry"> => rule.scope === "entry");
export const jobRules = rules.filter((rule): rule is Of<"job"> => rule.scope === "job");
export const releaseRules = rules.filter((rule): rule is Of<"release"> => rule.scope === "release");
/** At one place the entries' own rules speak first, and the others in the order of the list. */
export const ranks = new Map<string, number>([
  ...entryRules.map((it) => [it.id, -1] as const),
  ...[...jobRules, ...releaseRules].map((it, i) => [it.id, i] as const),
]);

export function inOrder(list: readonly Placed[]): Placed[] {
  return sorted(list, (it) => it.diagnostic);
}

export function sorted<T>(list: readonly T[], of: (it: T) => Diagnostic): T[] {
  return list
    .map((it, i) => ({ it, i, at: of(it), rank: ranks.get(of(it).rule) ?? 0 }))
    .sort((a, b) => a.at.line - b.at.line || a.at.from - b.at.from || a.rank - b.rank || a.i - b.i)
    .map(({ it }) => it);
}
