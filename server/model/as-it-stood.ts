// A limit as it stood where a reading was written: figures that the sheet gives further down, for a pin ground under or a bush bored out, judge no reading above them.
// Invariant: where nothing was given yet, what is given later holds for all: many find their limits after they have measured.
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import { declareAnew } from "./declare.ts";
import type { Job } from "./job.ts";
import type { Limit } from "./things.ts";

const orders = new WeakMap<SheetText, Map<Entry, number>>();
/** By the limit, and by how many of the entries that speak of it stood above. */
const stood = new WeakMap<Limit, Map<number, Limit>>();

export function asItStood(job: Job, limit: Limit, at: Entry): Limit {
  const [home, ...added] = limit.entries;
  if (home === undefined || added.length === 0) return limit;
  const order = orderOf(job.own.sheet);
  const here = order.get(at);
  const above = [home, ...added.filter(({ file, entry }) => file !== job.path || here === undefined || (order.get(entry) ?? 0) < here)] as const;
  if (above.length === limit.entries.length) return limit;
  const known = stood.get(limit) ?? new Map<number, Limit>();
  stood.set(limit, known);
  let it = known.get(above.length);
  if (it === undefined) {
    const before = declareAnew("limit", limit, [...above]) as Limit;
    const { new: fresh, worn, set, spread, ovality, taper } = before;
    const given = Object.entries({ new: fresh, worn, set, spread, ovality, taper }).filter(([, range]) => range !== undefined);
    it = { ...limit, ...Object.fromEntries(given) };
    known.set(above.length, it);
  }
  return it;
}

function orderOf(sheet: SheetText): Map<Entry, number> {
  let order = orders.get(sheet);
  if (order === undefined) {
    order = new Map(sheet.entries.map((entry, i) => [entry, i]));
    orders.set(sheet, order);
  }
  return order;
}
