// A price of something that comes in packs, and nobody says whether it is for one or for the pack.
import { exact } from "../../quantities/exact.ts";
import { where } from "../../model/where.ts";
import { type EntryRule, rewrite } from "../rule.ts";

export const rule: EntryRule = {
  id: "pack-ambiguous",
  group: "Units and figures",
  severity: "error",
  safety: false,
  title: "A price for one, or for the pack?",
  why: "Twenty-five split pins at 2.10 may cost 2.10 or 52.50. A pack that is an amount (1 l, 400 ml) is one pack at its price, and needs no word; a pack that is a number of pieces needs `each` or `a pack`.",
  wrong: `supplier holt "Holt and Marling Fasteners"

offer split pin 1/8 x 1-1/4 in from holt
  price 2.10 GBP
#       ^^^^^^^^ error pack-ambiguous (fix)
  pack 25
`,
  right: `supplier holt "Holt and Marling Fasteners"

offer split pin 1/8 x 1-1/4 in from holt
  price 2.10 GBP a pack
  pack 25
`,
  fixed: `supplier holt "Holt and Marling Fasteners"

offer split pin 1/8 x 1-1/4 in from holt
  price 2.10 GBP a pack
  pack 25
`,
  scope: "entry",
  check({ file, entry, report }) {
    if (entry.kind !== "offer") return;
    let count: string | undefined;
    for (const detail of entry.details)
      if (detail.kind === "pack" && detail.fault === undefined && detail.amount?.unit === undefined && !detail.amount?.figure.comma)
        count = detail.amount?.figure.text;
    if (count === undefined || (exact(count)?.compare(1) ?? 0) <= 0) return;
    for (const detail of entry.details) {
      if (detail.kind !== "price" || detail.fault !== undefined || detail.money === undefined || detail.each !== undefined || detail.aPack !== undefined)
        continue;
      const { money } = detail;
      const written = `${money.figure.text}${money.currency === undefined ? "" : ` ${money.currency.text}`}`;
      const end = where(file, entry, detail.row, { from: money.at.to, to: money.at.to });
      report({
        where: where(file, entry, detail.row, money.at),
        severity: "error",
        message: `Is ${written} the price of one, or of the pack of ${count}? Write \`each\` or \`a pack\` after it.`,
        fixes: [rewrite(`Write ${written} a pack`, end, " a pack"), rewrite(`Write ${written} each`, end, " each")],
      });
    }
  },
};
