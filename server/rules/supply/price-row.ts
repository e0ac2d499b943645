// A row of a price list that can't be read, or a list that can't.
import { type SupplierPrices, pricesOf } from "../../supply/prices.ts";
import type { JobRule } from "../rule.ts";
import { counted } from "../wording.ts";

/** A list that is wrong all through is not said row by row. */
const most = 20;

export const rule: JobRule = {
  id: "price-row",
  group: "Getting the parts",
  severity: "warning",
  safety: false,
  title: "A row of a price list that can't be read",
  why: "A row that is left out is an offer that nobody sees, and the order goes elsewhere or nowhere. A decimal comma in a list of commas makes two cells of one price: what would be read then is not what is asked. The rest of the list is used.",
  wrong: `supplier alder-lane "Alder Lane Spares"
  currency GBP
  prices "alder-lane.csv"
#        ^^^^^^^^^^^^^^^^ warning price-row
#        ^^^^^^^^^^^^^^^^ warning price-row
`,
  right: `supplier alder-lane "Alder Lane Spares"
  currency GBP
  prices "alder-lane-2.csv"
`,
  files: {
    "alder-lane.csv": 'item,number,price,pack\nhub-seal,AL-80,3.20,\n"split pin 5/32 x 1-1/2 in",AL-12,"2,10",25\nhub-key,AL-7,,\n',
    "alder-lane-2.csv": 'item,number,price,pack\nhub-seal,AL-80,3.20,\n"split pin 5/32 x 1-1/2 in",AL-12,2.10,25\nhub-key,AL-7,1.15,\n',
  },
  scope: "job",
  check({ job, report }) {
    for (const prices of pricesOf(job)) {
      if (prices.where.file !== job.path) continue;
      for (const message of messagesFor(prices)) report({ where: prices.where, severity: "warning", message });
    }
  },
};

function messagesFor({ written, answer, list }: SupplierPrices): string[] {
  if (answer === "missing")
    return [`There is no file ${written} beside this one, so none of its prices are known. Check the path, from this sheet's own folder.`];
  if (answer === "outside") return [`The price list ${written} lies outside of the workspace and is not read. Put a copy beside the sheet.`];
  if ("why" in answer) return [`The price list ${written} ${answer.why}. None of its prices are known.`];
  const faults = list?.faults ?? [];
  const said = faults
    .slice(0, most)
    .map((it) => (it.whole ? `Nothing of ${written} is used. ${it.message}` : `Line ${it.line} of ${written} is left out. ${it.message}`));
  const more = faults.length - said.length;
  return more > 0 ? [...said, `${counted(more, "more row")} of ${written} ${more === 1 ? "is" : "are"} left out.`] : said;
}
