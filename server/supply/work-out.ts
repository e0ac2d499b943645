// Work that parts are, or are to be, sent out for: what it costs, with whom, and how it stands.
// Invariant: work is never surplus; what is back, cancelled or returned is no longer out. A line in a file that several jobs use is told once.
import { namesText } from "../model/titles.ts";
import type { OrderEntry, WorkDetail } from "../../grammar/tree.ts";
import { statusOf } from "../model/orders.ts";
import { type Where, where } from "../model/where.ts";
import type { Money } from "../quantities/money.ts";
import { type Item, itemNamed } from "./items.ts";
import { type OfferSupplier, readMoney, supplierNamed } from "./offers.ts";
import { filesOf } from "./files.ts";
import type { Story } from "../story/story.ts";

export interface WorkOut {
  readonly item: Item;
  readonly place: string;
  readonly what: string;
  readonly status: "held" | "placed" | "sent";
  readonly price?: Money;
  readonly supplier: OfferSupplier | undefined;
  readonly reference: string | undefined;
  readonly where: Where;
}

export function workOutOf(stories: readonly Story[]): WorkOut[] {
  return filesOf(stories.map((story) => story.job)).flatMap(({ job, file }) =>
    file.sheet.entries.flatMap((entry) => {
      if (entry.kind !== "order" || entry.fault !== undefined) return [];
      const status = statusOf(job, entry)?.status ?? "held";
      if (status !== "held" && status !== "placed" && status !== "sent") return [];
      return entry.details.flatMap((detail) => {
        if (detail.kind !== "work" || detail.fault !== undefined || detail.part === undefined) return [];
        const supplier = entry.to === undefined ? undefined : supplierNamed(job, entry.to.text);
        return [
          lineOfWork(entry, detail, { item: itemNamed(job, detail.part.text), status, supplier, where: where(file.path, entry, detail.row, detail.part.at) }),
        ];
      });
    }),
  );
}

function lineOfWork(entry: OrderEntry, detail: WorkDetail, known: Pick<WorkOut, "item" | "status" | "supplier" | "where">): WorkOut {
  const price = readMoney(detail.price);
  return {
    ...known,
    place: namesText(detail.places),
    what: detail.text?.value ?? "",
    reference: entry.reference?.value,
    ...(price === undefined ? {} : { price }),
  };
}
