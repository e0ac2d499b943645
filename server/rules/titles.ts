// What each rule flags, in a line, by its id: for whoever offers rules by their names. Read by no check.
// Invariant: as in pages.ts. In the built program this file holds the texts (.ci/rule-pages.mjs).
import { written } from "./all.ts";

export const titles: ReadonlyMap<string, string> = new Map(written.map((it) => [it.id, it.title]));
