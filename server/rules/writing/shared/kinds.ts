// The kinds of things in words, and an entry that would declare one.
import type { Entry } from "../../../../grammar/tree.ts";
import { lineText } from "../../../../grammar/sheet-text.ts";
import type { Job } from "../../../model/job.ts";
import type { ThingKind } from "../../../model/things.ts";
import { where } from "../../../model/where.ts";
import { type RuleFix, lineEnd } from "../../rule.ts";

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
  const { sheet, path } = job.own;
  const index = sheet.entries.length - 1;
  const entry: Entry | undefined = sheet.entries[index];
  if (entry === undefined) return undefined;
  const start = sheet.starts[index] ?? 0;
  let row = Math.max(0, entry.rows - 1);
  while (row > 0 && lineText(sheet, start + row).trim() === "") row--;
  return { title, edits: [{ where: where(path, entry, row, { from: lineEnd, to: lineEnd }), text: `\n\n${text}` }] };
}

/** `hub-spacer` → `part hub-spacer "Hub spacer"` */
export function declaration(kind: ThingKind, name: string): string {
  const words = name.replaceAll("-", " ");
  return `${kind} ${name} "${words.charAt(0).toUpperCase()}${words.slice(1)}${kind === "question" ? "?" : ""}"`;
}
