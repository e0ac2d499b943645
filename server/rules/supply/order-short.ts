// Needed and on order, but too few.
import { hasEntry } from "../../model/has.ts";
import { amountText } from "../../supply/items.ts";
import { supplyOfOne } from "../../supply/supply.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "order-short",
  group: "Getting the parts",
  severity: "information",
  safety: false,
  title: "Needed, on order, too few",
  why: "The parcel will come and the job will still wait for one pin. While the order can be added to, the rest travels with it for nothing.",
  wrong: `fastener flange-nut "Flange nut, slotted"
  qty 6
  locked by split pin 3.2 x 25 mm
step strip "Flange off"
  undo flange-nut
  done
order "H-7" to holm
  status placed
  item split pin 3.2 x 25 mm 4
#      ^^^^^^^^^^^^^^^^^^^^^^^ information order-short
`,
  right: `fastener flange-nut "Flange nut, slotted"
  qty 6
  locked by split pin 3.2 x 25 mm
stock split pin 3.2 x 25 mm 2 "Tin"
order "H-7" to holm
  status placed
  item split pin 3.2 x 25 mm 4
step strip "Flange off"
  undo flange-nut
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasEntry(job, "order")) return;
    const { story } = context;
    for (const { line, row } of supplyOfOne(story).short) {
      if (row.need === undefined || row.shortfall === undefined) continue;
      const stock = row.stock.value.compare(0) > 0 ? `, ${amountText(row.stock)} in stock` : "";
      const held = row.held.value.compare(0) > 0 ? `, ${amountText(row.held)} on hold` : "";
      const placed = held !== "" && row.onOrder.value.compare(0) === 0 ? "" : `, ${amountText(row.onOrder)} on order`;
      report({
        where: line.where,
        severity: "information",
        message: `${amountText(row.need)} needed${stock}${placed}${held}: ${amountText(row.shortfall)} too few. Add to this order, or order the rest.`,
      });
    }
  },
};
