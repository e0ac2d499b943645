// What came with an order that did not ask for it: another thing in the place of what was ordered, or more of it than was ordered.
// Invariant: it is on the shelf as what it is, and serves for nothing else; what was ordered in its place is still to come.
import type { Amount } from "./items.ts";
import type { OrderLine } from "./order-lines.ts";
import type { Shelf } from "./shelf.ts";
import { grouped } from "../model/grouped.ts";

export interface NotOrdered {
  readonly line: OrderLine;
  readonly amount: Amount;
  /** What the same order is still to bring. */
  readonly toCome: readonly OrderLine[];
}

export function notOrderedOf(shelf: Shelf): NotOrdered[] {
  const orders = grouped(shelf.lines, (line) => JSON.stringify([line.where.file, line.reference ?? "", line.supplier ?? ""]));
  return [...orders.values()].flatMap((lines) => {
    const toCome = lines.filter((it) => it.status === "held" || it.status === "placed" || it.status === "sent");
    return lines.flatMap((line): NotOrdered[] => {
      const amount = line.notOrdered ?? (isBesides(line, lines) ? line.amount : undefined);
      return line.status !== "received" || amount === undefined ? [] : [{ line, amount, toCome }];
    });
  });
}

/** The order of that reference stands above it, and names other things only. */
function isBesides(line: OrderLine, lines: readonly OrderLine[]): boolean {
  const [first] = lines;
  if (first === undefined || line.reference === undefined || first.entry === line.entry || first.status === "received") return false;
  return !lines.some((it) => it.entry === first.entry && it.item.key === line.item.key);
}
