// The kinds of things in words, and an entry that would declare one.
import type { Job } from "../../../model/job.ts";
import type { ThingKind } from "../../../model/things.ts";
import { where } from "../../../model/where.ts";
import { type RuleFix, lastEntry, lineEnd } from "../../rule.ts";

/** “a fastener”, “shims” */
export function kindWord(kind: ThingKind): string {
  return kind === "shims" ? "shims" : `a ${kind}`;
}

/** “a part or a fastener” */
export function kindWords(kinds: readonly ThingKind[]): string {
  const words = kinds.map(kindWord);
  return words.length <= 1 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}

/** A fix that adds an entry behind the last line of the checked file. Undefined where the file has no entry to stand behind. */
export function addEntry(job: Job, title: string, text: string): RuleFix | undefined {
  if (job.own.sheet.entries.length === 0) return undefined;
  return { title, edits: [{ where: where(job.path, lastEntry, 0, { from: lineEnd, to: lineEnd }), text: `\n\n${text}` }] };
}

/** `hub-spacer` → `part hub-spacer "Hub spacer"`; with its title left blank where asked. */
export function declaration(kind: ThingKind, name: string, { blank = false } = {}): string {
  if (blank) return `${kind} ${name} "___"`;
  const words = name.replaceAll("-", " ");
  return `${kind} ${name} "${words.charAt(0).toUpperCase()}${words.slice(1)}${kind === "question" ? "?" : ""}"`;
}
