// The row of `all.ts` for the parts order.
import { report } from "../report.ts";

export const order = report({
  name: "order",
  command: "splitpin.order",
  title: "Parts order",
  options: ["choose", "supplier"],
  formats: ["table", "md", "csv", "html", "letter"],
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin order [PATH…] [--choose cheapest|fewest|soonest] [--format table|md|csv|html|json|letter] [--supplier NAME] [--out FILE]

Works out what must be ordered for the jobs in PATH, less what is on the shelf and on order. Several jobs make one order; each row says which job wants it.

  --choose cheapest  the least to pay for all of it together: goods in whole packs, freight and free freight, duty, surcharges, at the sheet's rates
  --choose fewest    the fewest parcels, and of these the cheapest
  --choose soonest   all of it there at the earliest, and of these the cheapest
                     Without it each thing is taken from the seller whose goods are cheapest, its packs and singles combined. With it a thing may be split among
                     sellers, and more be bought of it where that earns a lower price or free carriage; at equal money fewer parcels come first, then the earlier
                     last one. Prices without a rate on the sheets are compared with one another only. The choice is proved to the coin, or said not to be, with the
                     most that it can be above the least. Of more offers than can be weighed within seconds (some 2000, each thing offered by all) it says so, and ends with 2.

  --format table  for the terminal (as usual)
  --format md     Markdown
  --format csv    for a spreadsheet
  --format html   one page, nothing fetched
  --format json   for programs, one object; figures are decimal strings, null where there is none to give, lines count from 1:
                  lines      what to get: item, need, stock, onOrder, held, standing, unit, toOrder, orderUnit, packs, lots (each sale of it), supplier, number,
                             unitPrice, total (of the goods), exchange, currency, lead, priceList, places, jobs, why; null where it is bought of several and they differ
                  errors     in the sheets;  undecided  found, and nothing decided;  onHold  kept or struck out;  jobByJob  what one order for all saves
                  surplus    not needed after all: item, order, quantity, saves, cancel, due, freightSaved, freightDue
                  waiting    for an answer;  work  sent out, or to be;  repairs  decided, in nobody's hand;  notOrdered  came, and was not asked for;  back  what to send back for a surcharge;  lists  price lists with rows left out
                  suppliers  goods, exchange, freight, duty, tax, total;  totals  by currency;  together  in the sheet's;  choice  how it was chosen
  --format letter  the order to one supplier, as text for a letter; --supplier NAME says to which, by its name in the sheet
  --out FILE      written whole or not at all; without it, printed

Ends with 0 where the order was made, 2 where it could not be.
`,
});
