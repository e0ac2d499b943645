// A word that means two things in two countries, or in one shop.
import { readsAsTorque } from "../../../grammar/action-grammar.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import type { ActionDetail, Locking, Name, Span } from "../../../grammar/tree.ts";
import { where } from "../../model/where.ts";
import { type EntryContext, type EntryRule, type RuleFix, newColumn, rewrite } from "../rule.ts";
import { figuresOf } from "../units/shared/figures.ts";

export const rule: EntryRule = {
  id: "word-ambiguous",
  group: "Writing",
  severity: "error; warning where a place is called as a unit is",
  safety: false,
  title: "A word that means two things",
  why: "A cotter is a split pin in one country and a tapered wedge in another; `replace` means put a new one in, or put the old one back; a hoist is a lift that you may stand under, or a crane that you never stand under. The sheet takes the word that means one thing.",
  wrong: `fastener crank-pin-nut "Crank pin nut"
  locked by cotter pin 1/8 x 1 in
#           ^^^^^^^^^^ error word-ambiguous (fix)
`,
  right: `fastener crank-pin-nut "Crank pin nut"
  locked by split pin 1/8 x 1 in
`,
  fixed: `fastener crank-pin-nut "Crank pin nut"
  locked by split pin 1/8 x 1 in
`,
  scope: "entry",
  *check(context) {
    const { file, entry } = context;
    for (const { row, locking } of figuresOf(entry).lockings) if (locking.kind === "ambiguous") ofLocking(context, row, locking);
    if (entry.kind === "places" && entry.fault === undefined) for (const place of entry.names) ofPlace(context, place);
    for (const [i, detail] of entry.details.entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      if (detail.fault !== undefined) continue;
      if (detail.kind === "action") {
        if (detail.verb === "replace") ofReplace(context, detail);
        if (detail.on?.text === "hoist") ofHoist(context, detail.row, detail.on.at);
      } else if (detail.kind === "decision" && detail.decision === "replace") {
        const at = where(file, entry, detail.row, detail.word ?? detail.at);
        context.report({
          where: at,
          severity: "error",
          message: "`replace` may mean a new one, or the old one put back. Write `renew` or `reuse`.",
          fixes: [rewrite("Write renew", at, "renew"), rewrite("Write reuse", at, "reuse")],
        });
      }
    }
  },
};

/** `tighten wheel-nut 4 n` reads as four newtons: a place that is called so can't stand behind a number there. */
function ofPlace({ file, entry, report }: EntryContext, place: Name): void {
  if (!readsAsTorque(place.text)) return;
  report({
    where: where(file, entry, 0, place.at),
    severity: "warning",
    message: `\`${place.text}\` behind a figure reads as a unit, as in \`tighten wheel-nut 4 ${place.text}\`. Give the place a longer name, such as \`no-1\`.`,
  });
}

function ofLocking({ file, entry, report }: EntryContext, row: number, locking: Locking): void {
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

function ofReplace({ file, entry, report }: EntryContext, detail: ActionDetail): void {
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

function ofHoist({ file, entry, report }: EntryContext, row: number, span: Span): void {
  const at = where(file, entry, row, span);
  report({
    where: at,
    severity: "error",
    message: "A `hoist` is a lift you may stand under, or a crane you never stand under. Write `lift` or `crane`.",
    fixes: [rewrite("Write lift", at, "lift"), rewrite("Write crane", at, "crane")],
  });
}
