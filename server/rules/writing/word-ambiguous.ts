// A word that means two things in two countries, or in one shop.
import { readsAsTorque } from "../../../grammar/action-grammar.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import { where } from "../../model/where.ts";
import { type EntryRule, rewrite } from "../rule.ts";
import { figuresOf } from "../units/shared/figures.ts";
import { ofHoist, ofLocking, ofPlace, ofReplace } from "./shared/two-meanings.ts";

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
    if (entry.kind === "places" && entry.fault === undefined) for (const place of entry.names) if (readsAsTorque(place.text)) ofPlace(context, place);
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
