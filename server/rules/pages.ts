// The pages of all rules by their ids: what each flags, why it matters, and its examples. Read where somebody asks, and by no check.
// Invariant: nothing else of the program reads a page from its rule. In the built program this file holds the texts, and the rules have none (.ci/rule-pages.mjs).
import { written } from "./all.ts";
import type { RulePage } from "./rule.ts";

export const pages: ReadonlyMap<string, RulePage> = new Map(written.map((it) => [it.id, it]));
