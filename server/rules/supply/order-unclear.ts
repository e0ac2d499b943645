// An order that names no supplier and is none that stands above.
import { unclearOrders } from "../../model/orders.ts";
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "order-unclear",
  group: "Getting the parts",
  severity: "error",
  safety: false,
  title: "An order without `to` that is no order written above, or may be one of two",
  why: "Further down, the reference is enough to say what became of an order. A new order needs its supplier, or nobody knows who is to send it; and where two suppliers have an order of one reference, only `to` tells which came.",
  wrong: `supplier tarn "Tarn Bearings"
part liner "Liner"
order "T-118"
#     ^^^^^^^ error order-unclear
  item liner 1
`,
  right: `supplier tarn "Tarn Bearings"
part liner "Liner"
order "T-118" to tarn
  item liner 1
  status placed 2026-03-05
order "T-118"
  status received 2026-03-09
`,
  scope: "job",
  check({ job, report }) {
    for (const { file, entry, several, known } of unclearOrders(job)) {
      if (file !== job.path || entry.reference === undefined) continue;
      report({
        where: where(file, entry, 0, entry.reference.at),
        severity: "error",
        message: several
          ? `Two orders above are “${entry.reference.value}”. Write \`to\` and the supplier of the one that is meant.`
          : known
            ? `Order “${entry.reference.value}” stands above, and this is more than what became of it. Write \`to\` and its supplier.`
            : `No order above is “${entry.reference.value}”, so this one needs its supplier: \`order "${entry.reference.value}" to SUPPLIER\`.`,
      });
    }
  },
};
