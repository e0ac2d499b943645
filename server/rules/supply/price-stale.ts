// A price that the order would rest on, quoted more than a year ago.
import { joinPath } from "../../model/files.ts";
import { hasEntry, hasLine } from "../../model/has.ts";
import type { Job } from "../../model/job.ts";
import { type Where, where } from "../../model/where.ts";
import { moneyText } from "../../quantities/money.ts";
import { supplyOfOne } from "../../supply/supply.ts";
import { addMonths } from "../../quantities/days.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "price-stale",
  group: "Getting the parts",
  severity: "information",
  safety: false,
  title: "A price that the order would use, quoted more than a year before the sheet's newest day",
  why: "Prices of spares move, and small makers stop. An old price is good for a guess; ask again before the money is counted on.",
  wrong: `part spring "Return spring"
supplier ostler "Ostler Springs"
offer spring from ostler
  price 14.20 GBP
  quoted 2024-05-02
#        ^^^^^^^^^^ information price-stale
day 2026-01-09
finding spring
  is broken
  decision renew
`,
  right: `part spring "Return spring"
supplier ostler "Ostler Springs"
offer spring from ostler
  price 14.20 GBP
  quoted 2025-05-02
day 2026-01-09
finding spring
  is broken
  decision renew
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasEntry(job, "offer") && !hasLine(job, "prices")) return;
    const { story } = context;
    const { newestDay } = story;
    if (newestDay === undefined) return;
    for (const { offer } of supplyOfOne(story).rows.flatMap((row) => row.purchases)) {
      const good = offer.quoted === undefined ? undefined : addMonths(offer.quoted.day, 12);
      if (offer.quoted === undefined || good === undefined || good >= newestDay) continue;
      const { day, where: at } = offer.quoted;
      const price = offer.price === undefined ? "The price" : moneyText(offer.price);
      const message = `${price} for \`${offer.item.written}\` was quoted on ${day}, more than a year before ${newestDay}. Ask again before you count on it.`;
      if (at.file === job.path) report({ where: at, severity: "information", message });
      // Said in the sheet that would buy at it, at the line that brings the price in.
      else report({ where: usedBy(job, at), severity: "information", message, related: [{ where: at, message: "Quoted here." }] });
    }
  },
};

/** The `use` line of the sheet through which a file is known: its own, else the first that is there. */
function usedBy(job: Job, at: Where): Where {
  const uses = job.own.sheet.entries.filter((entry) => entry.kind === "use");
  const entry = uses.find((it) => it.path !== undefined && joinPath(job.path, it.path.value) === at.file) ?? uses[0];
  return entry === undefined ? at : where(job.path, entry, 0, entry.path?.at ?? entry.keyword);
}
