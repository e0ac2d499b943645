// The parts order: how it is worked out and drawn.
import { TooManyOffers, type Way, choosingBy, waysToChoose } from "../../supply/choose.ts";
import { asMarkdown } from "../draw/as-markdown.ts";
import { drawingPage } from "../draw/as-page.ts";
import { plain } from "../draw/plain.ts";
import { orderCsv } from "./csv.ts";
import { orderJson } from "./json.ts";
import { orderLetter, suppliersToWrite } from "./letter.ts";
import { ordering } from "./order.ts";
import type { OrderReport } from "./order-report.ts";
import { layingOutOrder, orderSections } from "./sections.ts";
import { orderTable } from "./table.ts";
import { kindOf, Refused } from "../report.ts";

export const kind = kindOf({
  of: "all jobs",
  async wishes({ choose, supplier, format }, { solver }) {
    if (choose !== undefined && !isWay(choose)) return new Refused(`--choose takes ${waysToChoose.join(", ")}; it was given “${choose}”.`);
    if (supplier !== undefined && format !== "letter") return new Refused("--supplier goes with --format letter.");
    if (choose !== undefined && solver === undefined) return new Refused("An order can't be chosen here.");
    return { choosing: choose === undefined || solver === undefined ? undefined : choosingBy(choose, await solver()), supplier };
  },
  *make(files, paths, { choosing }) {
    try {
      return yield* ordering(files, paths, choosing);
    } catch (error) {
      if (error instanceof TooManyOffers) return new Refused(error.message);
      throw error;
    }
  },
  drawings: {
    table: (it, { width }) => orderTable(it, width),
    md: (it) => asMarkdown(orderSections(it)),
    csv: orderCsv,
    *html(it) {
      return yield* drawingPage(yield* layingOutOrder(it));
    },
    letter: (it, _around, { supplier }) => letter(it, supplier),
  },
  json: ([it]) => (it === undefined ? "" : orderJson(it)),
});

function isWay(word: string): word is Way {
  return waysToChoose.some((way) => way === word);
}

function letter(order: OrderReport, asked: string | undefined): string | Refused {
  const suppliers = suppliersToWrite(order);
  const list = suppliers.length === 0 ? "Nothing is to be ordered from anybody." : `There is something to order from ${suppliers.map(plain).join(", ")}.`;
  // Where there is only one it need not be named.
  const supplier = asked ?? (suppliers.length === 1 ? suppliers[0] : undefined);
  if (supplier === undefined) return new Refused(`A letter goes to one supplier: name it with --supplier. ${list}`);
  return orderLetter(order, supplier) ?? new Refused(`Nothing is to be ordered from “${supplier}”. ${list}`);
}
