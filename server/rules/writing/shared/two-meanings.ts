// What is said of a word that means two things, and what to write for each.
import type { ActionDetail, Locking, Name, Span } from "../../../../grammar/tree.ts";
import { where } from "../../../model/where.ts";
import { type EntryContext, type RuleFix, newColumn, rewrite } from "../../rule.ts";

/** `tighten wheel-nut 4 n` reads as four newtons: a place that is called so can't stand behind a number there. */
export function ofPlace({ file, entry, report }: EntryContext, place: Name): void {
  report({
    where: where(file, entry, 0, place.at),
    severity: "warning",
    message: `\`${place.text}\` behind a figure reads as a unit, as in \`tighten wheel-nut 4 ${place.text}\`. Give the place a longer name, such as \`no-1\`.`,
  });
}

export function ofLocking({ file, entry, report }: EntryContext, row: number, locking: Locking): void {
  const { from } = locking.at;
  const size = locking.size[0];
  const word = { from, to: Math.min(locking.at.to, from + locking.words.length) };
  // Up to its size, whatever blanks stand between.
  const edit = size === undefined ? word : { from, to: size.at.from };
  const write = (text: string): RuleFix => rewrite(`Write ${text}`, where(file, entry, row, edit), size === undefined ? text : `${text} `);
  report({
    where: where(file, entry, row, word),
    severity: "error",
    message: `\`${locking.words}\` is a split pin to some and a tapered pin to others. Write \`split pin\` or \`taper pin\`.`,
    fixes: [write("split pin"), write("taper pin")],
  });
}

export function ofReplace({ file, entry, report }: EntryContext, detail: ActionDetail): void {
  const verb = where(file, entry, detail.row, detail.keyword);
  const fixes = [rewrite("Write fit, the old one again", verb, "fit")];
  const renewed: RuleFix = {
    title: "Write fit … new",
    edits: [{ where: verb, text: "fit" }, ...(detail.isNew === undefined ? [{ where: { ...verb, at: newColumn(detail) }, text: " new" }] : [])],
  };
  report({
    where: verb,
    severity: "error",
    message: "`replace` may mean a new one, or the old one put back. Write `fit … new`, or `fit` alone.",
    fixes: detail.isNew === undefined ? [renewed, ...fixes] : [renewed],
  });
}

export function ofHoist({ file, entry, report }: EntryContext, row: number, span: Span): void {
  const at = where(file, entry, row, span);
  report({
    where: at,
    severity: "error",
    message: "A `hoist` is a lift you may stand under, or a crane you never stand under. Write `lift` or `crane`.",
    fixes: [rewrite("Write lift", at, "lift"), rewrite("Write crane", at, "crane")],
  });
}
