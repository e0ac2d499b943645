// What an entry says of names: which it declares and mentions, where, and in what kind of line. Rules with `reach: "naming"` look at nothing else.
// Invariant: equal keys mean that no such rule can tell the entries apart, their columns and rows included.
import { factsKey } from "../../grammar/sheet-text.ts";
import type { Detail, Entry, Name } from "../../grammar/tree.ts";
import { referencesOf } from "../model/references.ts";

const remembered = new WeakMap<Entry, string>();

export function namingKey(entry: Entry): string {
  let key = remembered.get(entry);
  if (key === undefined) {
    key = isPlain(entry) ? plainKey(entry) : factsKey(entry);
    remembered.set(entry, key);
  }
  return key;
}

/** By these the places, the files and the sheet itself are known; and of a line that can't be read every word counts. */
const whole: ReadonlySet<Entry["kind"]> = new Set(["sheet", "places", "use", "unread", "headless"]);

function isPlain(entry: Entry): boolean {
  return !whole.has(entry.kind) && entry.fault === undefined && entry.stray.length === 0 && entry.details.every((it) => it.fault === undefined);
}

function plainKey(entry: Entry): string {
  const { name, title } = entry as { readonly name?: Name; readonly title?: { readonly value: string } };
  return JSON.stringify([entry.kind, entry.rows, name, title?.value, entry.keyword, referencesOf(entry), entry.details.map(ofDetail)]);
}

function ofDetail(detail: Detail): unknown {
  return detail.kind === "accept" ? detail : [detail.kind, detail.row];
}
