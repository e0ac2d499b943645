// Entries without a title that were meant to add to a used declaration, and whose name is a slip: they declare things of their own.
import type { Entry, Name } from "../../../../grammar/tree.ts";
import { kindDeclared } from "../../../model/declare.ts";
import type { Job } from "../../../model/job.ts";
import type { Thing } from "../../../model/things.ts";
import { isMentioned } from "./mentions.ts";
import { nearestNames } from "../../../model/near.ts";
import { memo } from "../../../model/memo.ts";

export interface SlippedAddition {
  readonly entry: Entry;
  readonly name: Name;
  readonly near: readonly string[];
}

/** In the checked file alone. Whatever else is mentioned by its name is a thing that was meant. */
export const slippedAdditions: (job: Job) => ReadonlyMap<Thing, SlippedAddition> = memo(collect);

function collect(job: Job): ReadonlyMap<Thing, SlippedAddition> {
  const slips = new Map<Thing, SlippedAddition>();
  if (job.files.length < 2) return slips;
  for (const entry of job.own.sheet.entries) {
    const kind = kindDeclared(entry);
    if (kind === undefined || kind === "step" || kind === "question" || entry.fault !== undefined) continue;
    const { name, title } = entry as Entry & { readonly name?: Name; readonly title?: unknown };
    const thing = name === undefined || title !== undefined ? undefined : job.things.get(name.text);
    if (name === undefined || thing === undefined || thing.entry !== entry || isMentioned(job, thing)) continue;
    const used: string[] = [];
    for (const it of job.things.values()) if (!it.implied && it.kind === kind && it.file !== job.path) used.push(it.name);
    const near = nearestNames(name.text, used);
    if (near.length > 0) slips.set(thing, { entry, name, near });
  }
  return slips;
}
