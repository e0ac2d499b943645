// The outline of a sheet: its entries in order, and under a step what is done in it.
import { type Slices, mapping, someAtOnce } from "../../grammar/slices.ts";
import { namesText } from "../model/titles.ts";
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Entry, Name, Text } from "../../grammar/tree.ts";

export interface OutlineItem {
  readonly label: string;
  readonly detail: string;
  readonly kind: Entry["kind"];
  readonly firstLine: number;
  /** The last line that says something: blank lines behind an entry belong to nobody. */
  readonly lastLine: number;
  readonly at: { readonly from: number; readonly to: number };
}

export function* outlining(sheet: SheetText): Slices<OutlineItem[]> {
  const out: OutlineItem[] = [];
  for (const [i, entry] of sheet.entries.entries()) {
    if (i % someAtOnce === 0) yield;
    if (entry.kind === "headless" || entry.kind === "unread") continue;
    const firstLine = sheet.starts[i] ?? 0;
    let last = entry.row as number;
    for (const detail of entry.details) last = Math.max(last, detail.row);
    for (const detail of entry.stray) last = Math.max(last, detail.row);
    const { label, detail } = wordsOf(entry, () => lineText(sheet, firstLine));
    out.push({ label, detail, kind: entry.kind, firstLine, lastLine: firstLine + last, at: entry.at });
  }
  return out;
}

/** An entry, and under a day all that belongs to it. */
export interface OutlineNode extends OutlineItem {
  readonly children: readonly OutlineItem[];
}

/** By day: a day holds what was written under it, and says what was found in it. What comes before the first day stands by itself. */
export function* outliningByDay(sheet: SheetText): Slices<OutlineNode[]> {
  const out: { item: OutlineItem; children: OutlineItem[] }[] = [];
  for (const item of yield* outlining(sheet)) {
    const day = out.at(-1);
    if (item.kind !== "day" && day?.item.kind === "day") day.children.push(item);
    else out.push({ item, children: [] });
  }
  return yield* mapping(out, ({ item, children }) => {
    const found = children.filter((it) => it.kind === "finding");
    const detail = found.length === 0 ? item.detail : `found: ${found.map((it) => it.label.replace(/^finding /, "")).join(", ")}`;
    return { ...item, detail, lastLine: children.at(-1)?.lastLine ?? item.lastLine, children };
  });
}

function wordsOf(entry: Entry, line: () => string): { label: string; detail: string } {
  const name = (it: Name | undefined) => it?.text;
  const text = (it: Text | undefined) => it?.value;
  const words = (...parts: (string | undefined)[]) => parts.filter((it) => it !== undefined && it !== "").join(" ");
  switch (entry.kind) {
    case "measure":
      return { label: words("measure", name(entry.limit), entry.stage), detail: "" };
    case "seen":
      return { label: words("seen", name(entry.check), entry.stage, namesText(entry.places)), detail: entry.verdict ?? "" };
    case "finding":
      return { label: words("finding", name(entry.of), namesText(entry.places)), detail: conditions(entry) };
    case "concession":
      return { label: words("concession", name(entry.of), namesText(entry.places)), detail: text(entry.why) ?? "" };
    case "sheet":
      return { label: text(entry.title) ?? "sheet", detail: "" };
    case "order":
      return { label: words("order", text(entry.reference)), detail: words(name(entry.to) === undefined ? undefined : `to ${name(entry.to)}`) };
    default: {
      const named = entry as { readonly name?: Name; readonly title?: Text };
      if (named.name !== undefined) return { label: words(entry.kind, named.name.text), detail: named.title?.value ?? "" };
      return { label: line().slice(entry.at.from, Math.min(entry.at.to, entry.at.from + 80)) || entry.kind, detail: "" };
    }
  }
}

function conditions(entry: Entry): string {
  return entry.details.flatMap((it) => (it.kind === "is" ? it.conditions.map((condition) => condition.kind) : [])).join(", ");
}
